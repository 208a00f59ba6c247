"""A record of findings that are accepted, so that only new ones count: a text with a line for each.

It is meant for version control: sorted, a line a finding, and a line taken out makes its finding count again. Columns
are parted by tabs: fingerprint, level, rule, path, stack, message.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from stacklint.findings import Finding, Level
from stacklint.report.kept import Told
from stacklint.report.plain import plain

_HEAD = (
    "# Findings accepted with stacklint check --accept-today. Take a line out, and its finding counts again.\n"
    "# fingerprint, level, rule, plan, stack, message\n"
)
_COLUMNS = 6


class FaultyRecordError(ValueError):
    """A record that cannot be read; the text says where and why."""


class Accepted(NamedTuple):
    """One finding as it was recorded. ``path`` is that in the project; ``line`` its line in the record, if read."""

    fingerprint: str
    level: Level
    rule: str
    path: str
    stack: str
    message: str
    line: int = 0


class Record:
    """What was accepted. Without one nothing was."""

    def __init__(self, accepted: Iterable[Accepted] = ()) -> None:
        self.all = tuple(accepted)
        self._by_fingerprint = {each.fingerprint: each for each in self.all}

    def has(self, told: Told) -> bool:
        """Whether a finding was accepted. One that has become graver since was not."""
        found = self._by_fingerprint.get(told.fingerprint)
        return found is not None and found.level.rank >= told.finding.level.rank


def accepted(finding: Finding, fingerprint: str, path: str) -> Accepted:
    """A finding as it is recorded; ``path`` is that of its text in its project."""
    return Accepted(
        fingerprint, finding.level, finding.rule, plain(path), plain(finding.stack or ""), plain(finding.message)
    )


def written(found: Iterable[Accepted]) -> str:
    """The record as text, in the order of the plans."""
    ordered = sorted(set(found), key=lambda each: (each.path, each.stack, each.rule, each.fingerprint))
    lines = ("\t".join(_columns(each)) + "\n" for each in ordered)
    return _HEAD + "".join(lines)


def read(text: str) -> Record:
    """The record that :func:`written` wrote, as far as lines were not taken out of it.

    Raises:
        FaultyRecordError: if a line is none of a record.
    """
    found = []
    for number, line in enumerate(text.split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        columns = line.split("\t")
        levels = {level.value: level for level in Level}
        if len(columns) != _COLUMNS or columns[1] not in levels:
            raise FaultyRecordError(f"line {number} is none of a record of accepted findings; take it out")
        fingerprint, level, rule, path, stack, message = columns
        found.append(Accepted(fingerprint, levels[level], rule, path, stack, message, number))
    return Record(found)


def _columns(each: Accepted) -> tuple[str, ...]:
    said = (each.fingerprint, each.level.value, each.rule, each.path, each.stack, each.message)
    return tuple(" ".join(part.split()) for part in said)
