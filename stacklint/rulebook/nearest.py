"""The names that a writer may have meant."""

from __future__ import annotations

from collections.abc import Iterable

LISTED = 12
"""So many names are listed where none comes near."""


def nearest(name: str, names: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """The names most like ``name``, the best first; none where none comes near."""
    from difflib import get_close_matches

    return tuple(get_close_matches(name.lower()[:60], list(names), n=count, cutoff=0.55))


def offer(name: str, names: Iterable[str], of: str) -> str:
    """What to write in place of ``name``: the nearest of ``names``, or the list of them. ``of`` says what they are."""
    known = sorted(set(names))
    close = nearest(name, known)
    if close:
        return f"Write {' or '.join(close)}."
    if not known:
        return f"There are no {of} to choose from."
    if len(known) > LISTED:
        return f"The {of} are listed in the reference of the rule language."
    return f"The {of} are {', '.join(known)}."
