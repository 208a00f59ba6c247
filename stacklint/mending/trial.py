"""Tries changes out: checks the changed text, and compares what is found with what was found before."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from stacklint.changes import Change, changed
from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.findings import Finding
from stacklint.language import UseText
from stacklint.rulebook import RuleBook

OF_THE_TEXT = frozenset(
    {"plan-text", "unknown-species", "unknown-place", "unknown-kiln", "value-out-of-range", "name-used-twice"}
)
"""Rules on what could not be read or accepted: while they find something, other findings may be hidden."""


MOST_CHECKED = 20_000_000
"""Characters that are checked for the mends of one plan, all tries together: some minutes' work."""
MOST_KEPT = 500_000
"""Characters of the texts whose checks are kept: what is known of a text takes some hundred times its own memory."""


class Checker:
    """Checks texts of one plan, each once as long as it is remembered.

    ``checks`` are the texts that were checked, ``characters`` those of all of them.
    """

    def __init__(self, path: str, book: RuleBook | None, today: datetime.date, use: UseText | None) -> None:
        self.path = path
        self.book = book
        self.today = today
        self.use = use
        self.checks = self.characters = 0
        self._known: dict[str, CheckedPlan] = {}
        self._kept = 0

    @property
    def spent(self) -> bool:
        """So much has been checked that no more mends are looked for."""
        return self.characters > MOST_CHECKED

    def check(self, text: str) -> CheckedPlan:
        found = self._known.pop(text, None)
        if found is None:
            found = check(text, self.path, book=self.book, today=self.today, use=self.use)
            self.checks += 1
            self.characters += len(text)
            self._kept += len(text)
        self._known[text] = found
        self._forget()
        return found

    def _forget(self) -> None:
        """What was not asked for the longest is forgotten; two texts, before and after a change, always stay."""
        while self._kept > MOST_KEPT and len(self._known) > 2:
            oldest = next(iter(self._known))
            del self._known[oldest]
            self._kept -= len(oldest)


class Outcome(NamedTuple):
    """``gone``: the finding is cleared. ``new``: what is found that was not before, or has become graver."""

    gone: bool
    new: tuple[Finding, ...]
    unreadable: bool = False
    """A stack that could be judged no longer can."""

    @property
    def brought(self) -> int:
        """The gravest rank (see ``Level``) of what is new; 0 for nothing, beyond all ranks for a stack lost."""
        return _LOST if self.unreadable else max((each.level.rank for each in self.new), default=0)


class Place(NamedTuple):
    """By what a finding is known again: its rule, its stack and the line that it stands on."""

    rule: str
    stack: str | None
    path: str
    line: int
    column: int

    def after(self, changes: Iterable[Change]) -> Place:
        """Where it stands once ``changes`` are made."""
        line = self.line
        for change in changes:
            if change.where.path == self.path and change.where[3:5] <= (self.line, self.column):
                line += change.text.count("\n") - (change.where.end_line - change.where.line)
        return self._replace(line=line, column=0)


def outcome(checker: Checker, text: str, finding: Finding, changes: Sequence[Change]) -> Outcome:
    """What becomes of ``finding`` and of the rest of the plan if ``changes`` are made."""
    before = checker.check(text)
    try:
        after = checker.check(changed(text, changes))
    except ValueError:
        return Outcome(False, (), unreadable=True)
    old = Counter(place_of(each, changes) for each in before.findings)
    place = place_of(finding, changes)
    left = sum(place_of(each, ()) == place for each in after.findings)
    new = tuple(_new(before, after, changes, finding.rule))
    moved = any(each.rule == finding.rule and each.stack == finding.stack for each in new)
    return Outcome(left < old[place] and not moved, new, _judged(after) < _judged(before))


def _judged(plan: CheckedPlan) -> int:
    return sum(one.facts is not None for one in plan.stacks)


def _new(before: CheckedPlan, after: CheckedPlan, changes: Sequence[Change], rule: str) -> Iterator[Finding]:
    """Findings that were not there, that have become graver, or that speak for more places than they did."""
    known: dict[Place, list[Finding]] = {}
    for each in before.findings:
        known.setdefault(place_of(each, changes), []).append(each)
    stacks = {each.stack for each in before.findings} | {one.stack.name.text for one in before.stacks}
    had = {(each.rule, each.level) for each in before.findings}
    for each in after.findings:
        same = known.get(place_of(each, ()))
        if same:
            one = same.pop(0)
            if each.level.rank <= one.level.rank and each.more <= one.more:
                continue
        if rule in OF_THE_TEXT and each.rule not in OF_THE_TEXT:
            continue
        # A stack that is parted in two has what is left of its faults twice.
        if each.stack not in stacks and each.rule != rule and (each.rule, each.level) in had:
            continue
        yield each


_LOST = 4


def place_of(finding: Finding, changes: Iterable[Change]) -> Place:
    """The place of a finding in the text that ``changes`` make."""
    where = finding.where
    return Place(finding.rule, finding.stack, where.path, where.line, where.column).after(changes)
