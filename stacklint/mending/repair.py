"""Changes that clear a finding but bring others, made good by mends of those others: one change of all together."""

from __future__ import annotations

from collections.abc import Callable

from stacklint.changes import changed, line_changes
from stacklint.findings import Finding
from stacklint.mending.case import Option
from stacklint.mending.trial import Checker, outcome

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
