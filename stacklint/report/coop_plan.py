"""What the page of a co-op keeps of each plan: small, so that the plans need not all be in memory at once."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.drying.forecast import Forecast, Pace
from stacklint.findings import Level
from stacklint.plan.stack import StackKind
from stacklint.report.by_stack import sorted_out
from stacklint.report.forecast_words import day_or_never
from stacklint.report.no_forecast import why_none
from stacklint.report.numbered import Numbered, numbered
from stacklint.report.stack_figures import finite
from stacklint.units import System
from stacklint.yard.stands import Lot, YardPlan, lots_of
from stacklint.yard.stay import Stay, place_words, stay_of

if TYPE_CHECKING:
    from stacklint.report.kept import Kept

NOTHING_WANTED = "nothing wanted"
"""Said of a stack that no moisture content is wanted of: there is no day on which it is ready."""


class Ready(NamedTuple):
    """When a stack is ready: the likely day if there is one; in words that day and the ends of its range.

    ``why_not`` says why there is no forecast. ``governs`` says in sentences what sets the time, ``floor`` is the driest
    that the air can hold the boards at.
    """

    likely: datetime.date | None
    said: str
    earliest: str = ""
    latest: str = ""
    why_not: str = ""
    governs: tuple[str, ...] = ()
    floor: float | None = None

    @property
    def span(self) -> str:
        """*2026-07-08 to 2027-05-06*; nothing where the boards are not ready in all the time looked at."""
        if not self.earliest:
            return ""
        return f"{self.earliest} to {self.latest}" if self.latest else f"{self.earliest} at the earliest"


class CoopStack(NamedTuple):
    """One line of the page's table: a stack, or under ``kind`` ``None`` a plan as a whole."""

    kind: StackKind | None
    name: str
    title: str | None
    line: int
    place: str
    spot: str
    woods: tuple[str, ...]
    lots: tuple[Lot, ...]
    volume: float | None
    ready: Ready
    due: datetime.date | None
    stay: Stay | None
    findings: tuple[Numbered, ...]
    waived: tuple[Waived, ...]
    reckoned: bool

    @property
    def worst(self) -> Level | None:
        return self.findings[0].finding.level if self.findings else None

    def count(self, level: Level) -> int:
        return sum(1 for each in self.findings if each.finding.level is level)


class CoopPlan(NamedTuple):
    """One plan. ``yard`` has its stacks as they stand in the yard, in the same order. ``sheet`` is the address of its
    build sheet, from the page."""

    path: str
    system: System
    lines: tuple[CoopStack, ...]
    yard: YardPlan
    sheet: str | None = None

    @property
    def stacks(self) -> tuple[CoopStack, ...]:
        return tuple(line for line in self.lines if line.kind is not None)


def coop_stacks(checked: CheckedPlan) -> tuple[CoopStack, ...]:
    """What the page tells of the stacks of a plan, but for what is found in them."""
    return tuple(_stack(stack, checked) for stack in checked.stacks)


def coop_plan(plan: Kept, sheet: str | None = None) -> CoopPlan:
    """What the page tells of a plan; ``sheet`` is the address of its build sheet, if there is one.

    What is found in the plan as a whole is a line of its own.
    """
    places = [(stack.name, stack.line) for stack in plan.stacks]
    findings = sorted_out(places, [each.finding for each in plan.findings])
    waived: dict[int | None, tuple[Waived, ...]] = {}
    of_waived = {id(each.waived.finding): each.waived for each in plan.waived}
    for index, silent in sorted_out(places, [each.waived.finding for each in plan.waived]).items():
        waived[index] = tuple(of_waived[id(finding)] for finding in silent)
    lines = [
        stack._replace(findings=numbered(findings[index]), waived=waived[index])
        for index, stack in enumerate(plan.stacks)
    ]
    if findings[None] or waived[None]:
        lines.insert(0, _whole(numbered(findings[None]), waived[None]))
    return CoopPlan(plan.path, plan.system, tuple(lines), plan.yard, sheet)


def _whole(findings: tuple[Numbered, ...], waived: tuple[Waived, ...]) -> CoopStack:
    return CoopStack(None, "the plan as a whole", None, 1, "", "", (), (), None, Ready(None, ""), None, None,
                     findings, waived, reckoned=True)  # fmt: skip


def _stack(checked: CheckedStack, plan: CheckedPlan) -> CoopStack:
    stack, facts, system = checked.stack, checked.facts, plan.system
    return CoopStack(
        kind=stack.kind,
        name=stack.name.text,
        title=stack.title,
        line=stack.where.line,
        place=place_words(stack),
        spot=stack.spot.text if stack.spot else "",
        woods=tuple(dict.fromkeys(_woods(checked))),
        lots=tuple(lots_of(facts, system)),
        volume=finite(facts.board_feet if system is System.INCH else facts.volume) if facts else None,
        ready=_ready(checked),
        due=stack.want.by.date if stack.want and stack.want.by else None,
        stay=stay_of(checked, plan.only_site),
        findings=(),
        waived=(),
        reckoned=facts is not None,
    )


def _woods(checked: CheckedStack) -> Iterator[str]:
    """As the tables name them; as they are written where the plan was not reckoned."""
    if checked.facts is None:
        yield from (boards.wood.text for boards in checked.stack.boards)
    else:
        yield from (group.wood for group in checked.facts.groups if group.wood)


def _ready(checked: CheckedStack) -> Ready:
    forecast = checked.forecast
    if not isinstance(forecast, Forecast):
        none = why_none(checked)
        return Ready(None, "not forecast", why_not=f"{none.missing} {none.instead}")
    if forecast.wanted is None:
        return Ready(None, NOTHING_WANTED)
    fast, likely, slow = (forecast.ready(pace) for pace in Pace)
    governs, floor = forecast.governs, finite(forecast.floor)
    if fast is None:
        return Ready(None, day_or_never(fast, forecast, Pace.FAST), governs=governs, floor=floor)
    said = day_or_never(likely, forecast, Pace.LIKELY)
    latest = slow.isoformat() if slow else ""
    return Ready(likely, said, fast.isoformat(), latest, governs=governs, floor=floor)
