"""What a check of one text comes to: the end of the road, and what the reports are printed from."""

from __future__ import annotations

from dataclasses import dataclass

from stacklint.engineering.facts import StackFacts
from stacklint.faults import Assumption
from stacklint.findings import Finding, Level
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.stack import Stack, Waiver
from stacklint.units import System


@dataclass(frozen=True, slots=True)
class CheckedStack:
    """One stack. ``arrangement`` and ``facts`` are ``None`` where faults of the text stood in the way."""

    stack: Stack
    arrangement: Arrangement | None
    facts: StackFacts | None


@dataclass(frozen=True, slots=True)
class Waived:
    """A finding that a ``waive`` statement keeps silent."""

    finding: Finding
    waiver: Waiver


@dataclass(frozen=True, slots=True)
class CheckedPlan:
    """One text, checked. ``findings`` stand in the order of their places in the text."""

    path: str
    system: System
    stacks: tuple[CheckedStack, ...]
    findings: tuple[Finding, ...]
    waived: tuple[Waived, ...] = ()
    assumptions: tuple[Assumption, ...] = ()

    @property
    def worst(self) -> Level | None:
        """The gravest level among the findings."""
        return max((finding.level for finding in self.findings), key=lambda level: level.rank, default=None)
