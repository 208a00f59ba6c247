"""What a writer may have meant by a word that is not known."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str], count: int = 1) -> tuple[str, ...]:
    """The ``known`` words most like ``word``, the likest first; none if none is at all alike."""
    from difflib import get_close_matches

    return tuple(get_close_matches(word.lower()[:60], list(known), n=count, cutoff=0.6))


def listed(words: Iterable[str], last: str = "or") -> str:
    """``a``, ``a or b``, ``a, b or c``."""
    items = list(words)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"
