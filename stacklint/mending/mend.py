"""Mends of a plan: for each finding the smallest change of the text that clears it, checked by checking again."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from stacklint.changes import Change, changed
from stacklint.findings import Finding
from stacklint.language import UseText
from stacklint.mending.case import Case, Option
from stacklint.mending.excerpt import excerpt
from stacklint.mending.proposals import FOR_PEOPLE, PROPOSERS, UNCLEAR
from stacklint.mending.repair import made_good
from stacklint.mending.search import Found, smallest
from stacklint.mending.trial import MOST_CHECKED, OF_THE_TEXT, Checker, Place, outcome, place_of
from stacklint.mending.written import Source
from stacklint.rulebook import RuleBook

_MOST_PASSES = 4
_NO_CHANGE = "No single change that was tried clears it and brings nothing else; it takes a decision of yours."
_TOO_MUCH = (
    f"No mend was looked for any more: more than {MOST_CHECKED:,} characters of plans were checked for those before it."
    " Part the plan, or ask for the mends of one rule."
)


class Mend(NamedTuple):
    """What clears ``finding``. ``reason`` says in a sentence what is changed."""

    rule: str
    finding: Finding
    reason: str
    changes: tuple[Change, ...]


class Unmended(NamedTuple):
    """A finding that no change of the text was found for, and what is left to a person, in a sentence."""

    finding: Finding
    sentence: str


class Step(NamedTuple):
    """A mend of ``before``, and the text that it makes. ``more`` findings are cleared by it beside its own."""

    mend: Mend
    before: str
    after: str
    more: int


class Mended(NamedTuple):
    """A text after all mends that go together. ``steps`` follow one on the other, the gravest first."""

    text: str
    steps: tuple[Step, ...]
    left: tuple[Unmended, ...]


def mends(
    text: str,
    path: str = "-",
    *,
    book: RuleBook | None = None,
    today: datetime.date | None = None,
    use: UseText | None = None,
    only: frozenset[str] | None = None,
) -> tuple[Mend, ...]:
    """For each finding of the plan its own mend, as if it were the only one; in the order of the findings.

    Args:
        text: the plan; the other arguments are those of :func:`stacklint.checking.check`.
        only: the rules whose findings are looked at; all if not given.

    Each mend clears its finding and brings none of its level or graver; where the finding is of the text itself,
    findings that were hidden by it are not counted. Two mends may change the same place: :func:`mended` makes those
    that go together. Never raises for anything that the text says.
    """
    mender = _Mender(path, book, today, use)
    found = mender.findings(text, only)
    return tuple(mend for finding in found if (mend := mender.mend(text, finding)) is not None)


def unmended(
    text: str,
    path: str = "-",
    *,
    book: RuleBook | None = None,
    today: datetime.date | None = None,
    use: UseText | None = None,
    only: frozenset[str] | None = None,
) -> tuple[Unmended, ...]:
    """The findings that :func:`mends` has nothing for, each with what only a person can decide."""
    mender = _Mender(path, book, today, use)
    found = mender.findings(text, only)
    return tuple(mender.left(finding) for finding in found if mender.mend(text, finding) is None)


def mended(
    text: str,
    path: str = "-",
    *,
    book: RuleBook | None = None,
    today: datetime.date | None = None,
    use: UseText | None = None,
    only: frozenset[str] | None = None,
) -> Mended:
    """Makes mend after mend, the whole plan checked again after each, until no finding has one.

    What could not be read comes first, then the gravest. Each step is a mend of the text that the one before made.
    """
    mender = _Mender(path, book, today, use)
    steps: list[Step] = []
    for _ in range(_MOST_PASSES):
        made = list(mender.one_pass(text, only))
        if not made:
            break
        steps += made
        text = made[-1].after
    left = tuple(mender.left(finding) for finding in mender.findings(text, only))
    return Mended(text, tuple(steps), left)


class _Mender:
    def __init__(self, path: str, book: RuleBook | None, today: datetime.date | None, use: UseText | None) -> None:
        self._today = today if today is not None else datetime.date.today()
        self._checker = Checker(path, book, self._today, use)

    def findings(self, text: str, only: frozenset[str] | None) -> tuple[Finding, ...]:
        found = self._checker.check(text).findings
        return tuple(finding for finding in found if only is None or finding.rule in only)

    def mend(self, text: str, finding: Finding) -> Mend | None:
        """The mend of one finding; it is looked for in what concerns its stack, and then tried in the whole."""
        if finding.rule not in PROPOSERS or self._checker.spent:
            return None
        part = excerpt(text, self._checker.path, self._checker.check(text), finding)
        if place_of(finding, ()) not in {place_of(each, ()) for each in self._checker.check(part).findings}:
            part = text
        found = self._found(part, finding)
        for option in (found.option, *self._made_good(part, finding, found)):
            if option is not None and self._is_good(text, finding, option):
                return Mend(finding.rule, finding, f"{option.says}.", option.changes)
        return None

    def left(self, finding: Finding) -> Unmended:
        """What is to be said of a finding without a mend."""
        said = FOR_PEOPLE.get(finding.rule) or UNCLEAR.get(finding.rule)
        if said is None and finding.rule in PROPOSERS:
            said = _TOO_MUCH if self._checker.spent else _NO_CHANGE
        return Unmended(finding, said or "This is for you to decide.")

    def _found(self, text: str, finding: Finding) -> Found:
        proposer = PROPOSERS.get(finding.rule)
        if proposer is None:
            return Found(None, ())
        case = Case(finding, self._checker.check(text), Source(text, self._checker.path), self._today)
        return smallest(self._checker, text, finding, proposer(case))

    def _made_good(self, text: str, finding: Finding, found: Found) -> Iterator[Option | None]:
        if found.option is None:
            for spoiled in found.spoiled:
                yield made_good(self._checker, text, finding, spoiled, lambda now, new: self._found(now, new).option)

    def _is_good(self, text: str, finding: Finding, option: Option) -> bool:
        """Whether an option that was found in an excerpt does as well in the whole text."""
        came = outcome(self._checker, text, finding, option.changes)
        return came.gone and came.brought < finding.level.rank

    def one_pass(self, text: str, only: frozenset[str] | None) -> Iterator[Step]:
        """Mends what it can, each finding tried once."""
        tried: set[Place] = set()
        while True:
            waiting = [each for each in self.findings(text, only) if place_of(each, ()) not in tried]
            if not waiting:
                return
            finding = min(waiting, key=_gravest_first)
            mend = self.mend(text, finding)
            if mend is None:
                tried.add(place_of(finding, ()))
                continue
            after = changed(text, mend.changes)
            tried = {place.after(mend.changes) for place in tried}
            counts = [len(self._checker.check(each).findings) for each in (text, after)]
            yield Step(mend, text, after, max(0, counts[0] - counts[1] - 1))
            text = after


def _gravest_first(finding: Finding) -> tuple[bool, int, int, int]:
    """Faults of the text first, for they hide others; then by level and place."""
    return finding.rule not in OF_THE_TEXT, -finding.level.rank, finding.where.line, finding.where.column
