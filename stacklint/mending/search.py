"""Looks for the smallest change that clears a finding: one search for every rule."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import islice
from typing import NamedTuple

from stacklint.findings import Finding
from stacklint.mending.case import Ladder, Only, Option, Proposal
from stacklint.mending.trial import Checker, Outcome, outcome

MOST_TRIES = 60
"""Proposals that are looked at for one finding; a ladder counts as one."""
MOST_CHECKS = 40
"""Texts that are checked for one finding before the search is given up: a plan is to be mended in a second."""
MOST_SPOILED = 2

Rungs = tuple[int, ...]


def smallest(checker: Checker, text: str, finding: Finding, proposals: Iterable[Proposal]) -> Found:
    """The first proposal that clears ``finding`` and brings nothing new.

    Where there is none, the first that brings only what is less grave than the finding.
    """
    search = _Search(checker, text, finding)
    first = checker.checks
    for proposal in islice(proposals, MOST_TRIES):
        if checker.checks - first > MOST_CHECKS:
            break
        found = search.best_of(proposal)
        if found is not None:
            return Found(found, ())
    return Found(search.second, tuple(search.spoiled))


class Found(NamedTuple):
    """``option`` is what was found; ``spoiled`` are options that clear the finding but bring what is as grave."""

    option: Option | None
    spoiled: tuple[Option, ...]


class _Search:
    """``second`` is the first option met that clears the finding and brings only what is less grave."""

    def __init__(self, checker: Checker, text: str, finding: Finding) -> None:
        self._checker = checker
        self._text = text
        self._finding = finding
        self.second: Option | None = None
        self.spoiled: list[Option] = []

    def best_of(self, proposal: Proposal) -> Option | None:
        if isinstance(proposal, Option):
            return proposal if self._is_clean(proposal) else None
        if isinstance(proposal, Only):
            return self._only(proposal)
        return self._lowest(proposal)

    def _outcome(self, option: Option) -> Outcome:
        return outcome(self._checker, self._text, self._finding, option.changes)

    def _is_clean(self, option: Option) -> bool:
        """Whether an option clears the finding and brings nothing; one that is nearly so is kept as the second best."""
        found = self._outcome(option)
        if found.gone and found.brought < self._finding.level.rank and self.second is None:
            self.second = option
        elif found.gone and len(self.spoiled) < MOST_SPOILED and self._can_be_made_good(found):
            self.spoiled.append(option)
        return found.gone and not found.brought

    def _can_be_made_good(self, found: Outcome) -> bool:
        """Not where the finding has only moved elsewhere."""
        return not found.unreadable and all(each.rule != self._finding.rule for each in found.new)

    def _only(self, ways: Only) -> Option | None:
        found = [(way, self._outcome(way)) for way in ways.options]
        good = [way for way, came in found if came.gone and came.brought < self._finding.level.rank]
        return good[0] if len(good) == 1 else None

    def _lowest(self, ladder: Ladder) -> Option | None:
        """The lowest rungs at which the finding is gone; from there up, the first that bring nothing new."""

        def clears(up: Rungs) -> bool:
            return any(up) and self._outcome(ladder.at(up)).gone

        def is_clean(up: Rungs) -> bool:
            return any(up) and self._is_clean(ladder.at(up))

        if not clears(ladder.rungs):
            return None
        up = _lowered(ladder.rungs, (0,) * len(ladder.rungs), clears)
        floor = up
        for _ in range(ladder.climb + 1):
            if is_clean(up):
                return ladder.at(_lowered(up, floor, is_clean))
            if up == ladder.rungs:
                return None
            up = tuple(min(rung + 1, most) for rung, most in zip(up, ladder.rungs, strict=True))
        return None


def _lowered(up: Rungs, floor: Rungs, holds: Callable[[Rungs], bool]) -> Rungs:
    """``up``, at which ``holds`` does, lowered as far as it still does: one direction after the other, by halving."""
    for direction, least in enumerate(floor):
        low, high = least, up[direction]
        while low < high:
            middle = (low + high) // 2
            if holds((*up[:direction], middle, *up[direction + 1 :])):
                high = middle
            else:
                low = middle + 1
        up = (*up[:direction], high, *up[direction + 1 :])
    return up
