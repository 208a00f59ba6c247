"""What laying out a plan anew changes, line by line, so that an editor keeps the cursor and its marks."""

from __future__ import annotations

from difflib import SequenceMatcher

from stacklint.changes import Change
from stacklint.where import Where


def line_changes(before: str, after: str, path: str = "-") -> tuple[Change, ...]:
    """The lines that differ, as changes of ``before``."""
    old, new = before.split("\n"), after.split("\n")
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    return tuple(
        _change(old, new[start:end], first, last, path)
        for tag, first, last, start, end in matcher.get_opcodes()
        if tag != "equal"
    )


def _change(old: list[str], put: list[str], first: int, last: int, path: str) -> Change:
    """``put`` in place of the lines ``first`` up to ``last``, counted from 0."""
    if last < len(old):
        return Change(Where(path, first + 1, 1, last + 1, 1), "".join(f"{line}\n" for line in put))
    # The last line has no end: the one before it lends its own.
    end = Where(path, len(old), len(old[-1]) + 1, len(old), len(old[-1]) + 1)
    if first == 0:
        return Change(end._replace(line=1, column=1), "\n".join(put))
    start = end._replace(line=first, column=len(old[first - 1]) + 1)
    return Change(start, "".join(f"\n{line}" for line in put))
