"""What is kept of a checked plan for the reports that tell of many: small, and it can be written down as JSON."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from pydantic import TypeAdapter

from stacklint.checked import CheckedPlan, Waived, place_order
from stacklint.findings import Finding, Level
from stacklint.report.coop_plan import CoopStack, coop_stacks
from stacklint.report.fingerprints import fingerprints, texts_of
from stacklint.report.stack_figures import StackFigures
from stacklint.units import System
from stacklint.yard.stands import YardPlan, yard_plan


class Told(NamedTuple):
    """A finding, and what tells it from all others."""

    finding: Finding
    fingerprint: str


class ToldWaived(NamedTuple):
    """A finding that is waived, and what tells it from all others."""

    waived: Waived
    fingerprint: str


class Kept(NamedTuple):
    """One plan: what is found in it, the figures of its stacks, and what the yard needs of it."""

    path: str
    system: System
    findings: tuple[Told, ...]
    waived: tuple[ToldWaived, ...]
    stacks: tuple[CoopStack, ...]
    figures: tuple[StackFigures | None, ...]
    yard: YardPlan

    @property
    def worst(self) -> Level | None:
        """The gravest level among the findings."""
        return max((each.finding.level for each in self.findings), key=lambda level: level.rank, default=None)

    def with_more(self, findings: tuple[Told, ...], waived: tuple[ToldWaived, ...]) -> Kept:
        """The plan with further findings, all in the order of their places."""
        return self._replace(
            findings=tuple(sorted((*self.findings, *findings), key=lambda each: place_order(self.path, each.finding))),
            waived=tuple(sorted((*self.waived, *waived), key=lambda each: place_order(self.path, each.waived.finding))),
        )


def kept(
    checked: CheckedPlan,
    texts: Mapping[str, str] = MappingProxyType({}),
    home: Callable[[str], str] = str,
) -> Kept:
    """What is kept of a plan.

    Args:
        texts: the plan's text and those that it uses, by their paths: what stands at a finding's place is part of what
            tells it from others.
        home: a path in its project, the same wherever the command is run.
    """
    said = texts_of(texts)
    waived = [each.finding for each in checked.waived]
    return Kept(
        path=checked.path,
        system=checked.system,
        findings=tuple(map(Told, checked.findings, fingerprints(checked.findings, home, said))),
        waived=tuple(map(ToldWaived, checked.waived, fingerprints(waived, home, said))),
        stacks=coop_stacks(checked),
        figures=tuple(StackFigures.of(each.facts, each.forecast) if each.facts else None for each in checked.stacks),
        yard=yard_plan(checked),
    )


def written(plan: Kept) -> bytes:
    """The plan as JSON, which :func:`read` takes."""
    return _adapter().dump_json(plan)


def read(content: bytes) -> Kept:
    """A plan from its JSON.

    Raises:
        ValueError: if the content is not what :func:`written` writes.
    """
    return _adapter().validate_json(content)


@cache
def _adapter() -> TypeAdapter[Kept]:
    return TypeAdapter(Kept)
