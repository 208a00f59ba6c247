"""Changes that clear a finding but bring others, made good by mends of those others: one change of all together."""

from __future__ import annotations

from collections.abc import Callable
from difflib import SequenceMatcher

from stacklint.changes import Change, changed
from stacklint.findings import Finding
from stacklint.mending.case import Option
from stacklint.mending.trial import Checker, outcome
from stacklint.where import Where

_MOST_REPAIRS = 2

Mended = Callable[[str, Finding], Option | None]
"""The mend of a finding in a text, by one change alone."""


def made_good(checker: Checker, text: str, finding: Finding, spoiled: Option, mended: Mended) -> Option | None:
    """``spoiled`` together with mends of what it brings, if the whole clears ``finding`` and brings nothing new."""
    changes, said = spoiled.changes, [spoiled.says]
    now = changed(text, changes)
    for _ in range(_MOST_REPAIRS):
        new = outcome(checker, text, finding, changes).new
        mend = mended(now, new[0]) if new else None
        if mend is None:
            return None
        now = changed(now, mend.changes)
        changes = line_changes(text, now, checker.path)
        said.append(f"{mend.says[:1].lower()}{mend.says[1:]}")
        found = outcome(checker, text, finding, changes)
        if found.gone and not found.brought:
            return Option(changes, ", and ".join(said))
    return None


def line_changes(before: str, after: str, path: str) -> tuple[Change, ...]:
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
