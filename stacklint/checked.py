"""What a check of one text comes to: the end of the road, and what the reports are printed from."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from stacklint.engineering.facts import StackFacts
from stacklint.faults import Assumption
from stacklint.findings import Finding, Level
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.stack import Stack, Waiver
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
    only_site: str | None = None
    """The site of all its piles that name none: that of its plan, where there is but one."""

    @property
    def worst(self) -> Level | None:
        """The gravest level among the findings."""
        return max((finding.level for finding in self.findings), key=lambda level: level.rank, default=None)
