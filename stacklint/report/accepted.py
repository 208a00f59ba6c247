"""A record of findings that are accepted, so that only new ones count: a text with a line for each.

It is meant for version control: sorted, a line a finding, and a line taken out makes its finding count again. Columns
are parted by tabs: fingerprint, level, rule, path, stack, message, and the other plans that have a share in it, if any.
The lines may stand in any order; empty ones and those that begin with ``#`` count for nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from stacklint.findings import Finding, Level
from stacklint.report.kept import Told
from stacklint.report.plain import plain

_HEAD = (
    "# Findings accepted with stacklint check --accept-today. Take a line out, and its finding counts again.\n"
    "# fingerprint, level, rule, plan, stack, message, other plans\n"
)
_COLUMNS = 6
"""At the least."""
_OF_A_MERGE = ("<<<<<<<", "|||||||", "=======", ">>>>>>>")


class FaultyRecordError(ValueError):
    """A record that cannot be read; the text says where and why."""


class Accepted(NamedTuple):
    """One finding as it was recorded. ``path`` and the ``others`` are those in the project; ``line`` is its line in the
    record, if read."""

    fingerprint: str
    level: Level
    rule: str
    path: str
    stack: str
    message: str
    others: tuple[str, ...] = ()
    line: int = 0


class Record:
    """What was accepted. Without one nothing was."""

    def __init__(self, accepted: Iterable[Accepted] = ()) -> None:
        self.all = tuple(accepted)
        self._levels: dict[str, Level] = {}
        for each in self.all:
            level = self._levels.get(each.fingerprint)
            if level is None or level.rank < each.level.rank:
                self._levels[each.fingerprint] = each.level

    def knows(self, fingerprint: str) -> bool:
        """Whether a finding stands in it, be it less grave there."""
        return fingerprint in self._levels

    def has(self, told: Told) -> bool:
        """Whether a finding was accepted. One that has become graver since was not."""
        level = self._levels.get(told.fingerprint)
        return level is not None and level.rank >= told.finding.level.rank


def accepted(finding: Finding, fingerprint: str, path: str, others: Iterable[str] = ()) -> Accepted:
    """A finding as it is recorded; ``path`` is that of its text in its project, ``others`` those of other plans."""
    said = (finding.rule, recorded(path), recorded(finding.stack or ""), recorded(finding.message))
    return Accepted(fingerprint, finding.level, *said, tuple(sorted(map(recorded, others))))


def recorded(words: str) -> str:
    """Words as they stand in a column: on one line, and without a tab."""
    return " ".join(plain(words).split())


def written(found: Iterable[Accepted]) -> str:
    """The record as text, in the order of the plans. What is told in several plans stands there once, the gravest."""
    ordered = sorted(found, key=lambda each: (each.path, each.stack, each.rule, each.fingerprint, -each.level.rank))
    first = {each.fingerprint: each for each in reversed(ordered)}
    return _HEAD + "".join("\t".join(_columns(each)) + "\n" for each in ordered if first[each.fingerprint] is each)


def read(text: str) -> Record:
    """The record that :func:`written` wrote, as far as lines were not taken out of it.

    Raises:
        FaultyRecordError: if a line is none of a record.
    """
    found = []
    for number, line in enumerate(text.split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        if line.startswith(_OF_A_MERGE):
            raise FaultyRecordError(
                f"line {number} was left by a merge; keep the findings of both sides, and take out the lines"
                f" that begin with {', '.join(each for each in _OF_A_MERGE)}"
            )
        columns = [column.strip() for column in line.split("\t")]
        levels = {level.value: level for level in Level}
        if len(columns) < _COLUMNS or columns[1] not in levels:
            raise FaultyRecordError(
                f"line {number} is none of a record of accepted findings, which has {_COLUMNS} columns parted by tabs;"
                " take it out, or name another file"
            )
        fingerprint, level, rule, path, stack, message, *others = columns
        found.append(Accepted(fingerprint, levels[level], rule, path, stack, message, tuple(others), number))
    return Record(found)


def _columns(each: Accepted) -> tuple[str, ...]:
    return (each.fingerprint, each.level.value, each.rule, each.path, each.stack, each.message, *each.others)
