"""What a check of one text comes to: the end of the road, and what the reports are printed from."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from stacklint.engineering.facts import StackFacts
from stacklint.faults import Assumption
from stacklint.findings import Finding, Level
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.stack import Stack, Waiver
from stacklint.plan.yard import Plan
from stacklint.units import System

if TYPE_CHECKING:
    from stacklint.drying.forecast import Forecast, NoForecast


class CheckedStack(NamedTuple):
    """One stack. ``arrangement`` and ``facts`` are ``None`` where faults of the text stood in the way.

    ``forecast`` is ``None`` where that is so, and where nobody asks for one.
    """

    stack: Stack
    arrangement: Arrangement | None
    facts: StackFacts | None
    forecast: Forecast | NoForecast | None = None


class Waived(NamedTuple):
    """A finding that a ``waive`` statement keeps silent."""

    finding: Finding
    waiver: Waiver


class CheckedPlan(NamedTuple):
    """One text, checked. ``findings`` stand in the order of their places in the text."""

    path: str
    system: System
    stacks: tuple[CheckedStack, ...]
    findings: tuple[Finding, ...]
    waived: tuple[Waived, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    plan: Plan = Plan()
    """What the text says."""
    lent: tuple[CheckedStack, ...] = ()
    """The piles of other texts that its charges take boards from: their forecasts, and no more."""

    @property
    def only_site(self) -> str | None:
        """The site of all its piles that name none: that of its plan, where there is but one."""
        sites = self.plan.sites
        return sites[0].name.text if len(sites) == 1 else None

    @property
    def worst(self) -> Level | None:
        """The gravest level among the findings."""
        return max((finding.level for finding in self.findings), key=lambda level: level.rank, default=None)

    def with_more(self, findings: tuple[Finding, ...], waived: tuple[Waived, ...] = ()) -> CheckedPlan:
        """The plan with further findings, all in their order."""
        return self._replace(
            findings=in_order(self.path, (*self.findings, *findings)),
            waived=tuple(sorted((*self.waived, *waived), key=lambda each: place_order(self.path, each.finding))),
        )


def in_order(path: str, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings in the order of their places: the plan's own text before those that it uses, the graver first."""
    return tuple(sorted(findings, key=lambda finding: place_order(path, finding)))


def place_order(path: str, finding: Finding) -> tuple[bool, str, int, int, int]:
    """What :func:`in_order` sorts the findings of the text at ``path`` by."""
    where = finding.where
    return where.path != path, where.path, where.line, where.column, -finding.level.rank
