"""What the page of a co-op keeps of each plan: small, so that the plans need not all be in memory at once."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from enum import Enum
from os.path import normpath
from typing import NamedTuple

from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.drying.forecast import Forecast, Pace
from stacklint.findings import Level
from stacklint.plan.stack import Stack, StackKind
from stacklint.report.by_stack import by_stack, waived_by_stack
from stacklint.report.forecast_words import day_or_never
from stacklint.report.no_forecast import why_none
from stacklint.report.numbered import Numbered, numbered
from stacklint.report.stack_figures import finite
from stacklint.units import ONE_INCH, System
from stacklint.where import Where

_UNSAID = "not said"
NOTHING_WANTED = "nothing wanted"
"""Said of a stack that no moisture content is wanted of: there is no day on which it is ready."""


class Lot(NamedTuple):
    """Like boards: the place where they are listed, which tells them from all others, and their volume (m3).

    In a plan in inches the volume is in the trade's measure: under 1 in thick counts as 1 in.
    """

    listed: Where
    wood: str
    volume: float


class Ready(NamedTuple):
    """When a stack is ready: the likely day if there is one; in words that day and the ends of its range.

    ``why_not`` says why there is no forecast.
    """

    likely: datetime.date | None
    said: str
    earliest: str = ""
    latest: str = ""
    why_not: str = ""

    @property
    def span(self) -> str:
        """*2026-07-08 to 2027-05-06*; nothing where the boards are not ready in all the time looked at."""
        if not self.earliest:
            return ""
        return f"{self.earliest} to {self.latest}" if self.latest else f"{self.earliest} at the earliest"


class SpotKind(Enum):
    """What a stack stands in. Of these ``YARD`` and ``SOME_KILN`` hold any number of stacks: the spot is not said."""

    SPOT = "spot"
    KILN = "kiln"
    YARD = "no spot said"
    SOME_KILN = "no kiln said"


class Spot(NamedTuple):
    """Where a stack stands: the name of the spot or the kiln, and what it is part of."""

    kind: SpotKind
    name: str
    within: str = ""

    @property
    def key(self) -> tuple[SpotKind, str, str]:
        """The same for one spot however it is spelled."""
        return self.kind, self.name.casefold(), self.within.casefold()


class Stay(NamedTuple):
    """From when to when a stack stands in its spot.

    ``start_said`` is false where another day was taken for it. The days of ``fast``, ``likely`` and ``slow`` are
    ``None`` where the boards are not ready in all the time that was looked at, and where ``foretold`` is false.
    """

    spot: Spot
    start: datetime.date
    start_said: bool
    foretold: bool
    """How it dries is forecast. Without anything wanted there is no day on which it is ready, and it stands on."""
    fast: datetime.date | None = None
    likely: datetime.date | None = None
    slow: datetime.date | None = None


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
    """One plan. ``sheet`` is the address of its build sheet, from the page."""

    path: str
    system: System
    lines: tuple[CoopStack, ...]
    sheet: str | None = None

    @property
    def stacks(self) -> tuple[CoopStack, ...]:
        return tuple(line for line in self.lines if line.kind is not None)


def coop_plan(checked: CheckedPlan, sheet: str | None = None) -> CoopPlan:
    """What the page tells of a checked plan; ``sheet`` is the address of its build sheet, if there is one.

    What is found in the plan as a whole is a line of its own.
    """
    findings = by_stack(checked)
    waived = waived_by_stack(checked)
    lines = [
        _stack(stack, checked, numbered(findings[index]), waived[index]) for index, stack in enumerate(checked.stacks)
    ]
    if findings[None] or waived[None]:
        lines.insert(0, _whole(numbered(findings[None]), waived[None]))
    return CoopPlan(checked.path, checked.system, tuple(lines), sheet)


def _whole(findings: tuple[Numbered, ...], waived: tuple[Waived, ...]) -> CoopStack:
    return CoopStack(None, "the plan as a whole", None, 1, "", "", (), (), None, Ready(None, ""), None, None,
                     findings, waived, reckoned=True)  # fmt: skip


def _stack(
    checked: CheckedStack, plan: CheckedPlan, findings: tuple[Numbered, ...], waived: tuple[Waived, ...]
) -> CoopStack:
    stack, facts, system = checked.stack, checked.facts, plan.system
    return CoopStack(
        kind=stack.kind,
        name=stack.name.text,
        title=stack.title,
        line=stack.where.line,
        place=_place(stack),
        spot=stack.spot.text if stack.spot else "",
        woods=tuple(dict.fromkeys(_woods(checked))),
        lots=tuple(_lots(checked, system)),
        volume=finite(facts.board_feet if system is System.INCH else facts.volume) if facts else None,
        ready=_ready(checked),
        due=stack.want.by.date if stack.want and stack.want.by else None,
        stay=_stay(checked, plan.only_site),
        findings=findings,
        waived=waived,
        reckoned=facts is not None,
    )


def _place(stack: Stack) -> str:
    if stack.kind is StackKind.CHARGE:
        return stack.kiln.text if stack.kiln else _UNSAID
    if stack.place is None:
        return _UNSAID
    place = stack.place.said or stack.place.kind.value
    return f"{place}, {stack.place.site.text}" if stack.place.site else place


def _woods(checked: CheckedStack) -> Iterator[str]:
    """As the tables name them; as they are written where the plan was not reckoned."""
    if checked.facts is None:
        yield from (boards.wood.text for boards in checked.stack.boards)
    else:
        yield from (group.wood for group in checked.facts.groups if group.wood)


def _lots(checked: CheckedStack, system: System) -> Iterator[Lot]:
    for group in checked.facts.groups if checked.facts else ():
        volume = finite(group.volume)
        if volume is not None and group.wood:
            counts_as = max(1.0, ONE_INCH / group.thickness) if system is System.INCH and group.thickness else 1.0
            # One text may be named in two ways: as a plan, and as what another plan uses.
            listed = group.where._replace(path=normpath(group.where.path))
            yield Lot(listed, group.wood, volume * counts_as)


def _ready(checked: CheckedStack) -> Ready:
    forecast = checked.forecast
    if not isinstance(forecast, Forecast):
        none = why_none(checked)
        return Ready(None, "not forecast", why_not=f"{none.missing} {none.instead}")
    if forecast.wanted is None:
        return Ready(None, NOTHING_WANTED)
    fast, likely, slow = (forecast.ready(pace) for pace in Pace)
    if fast is None:
        return Ready(None, day_or_never(fast, forecast, Pace.FAST))
    said = day_or_never(likely, forecast, Pace.LIKELY)
    return Ready(likely, said, fast.isoformat(), slow.isoformat() if slow else "")


def _stay(checked: CheckedStack, only_site: str | None) -> Stay | None:
    """``None`` where neither the plan nor a forecast gives a day on which the stack begins to stand."""
    stack, forecast = checked.stack, checked.forecast
    said = (stack.starts or stack.stacked) if stack.kind is StackKind.CHARGE else stack.stacked
    if isinstance(forecast, Forecast):
        if forecast.wanted is None:
            return Stay(_spot(stack, only_site), forecast.start, said is not None, True)
        fast, likely, slow = (forecast.ready(pace) for pace in Pace)
        return Stay(_spot(stack, only_site), forecast.start, said is not None, True, fast, likely, slow)
    return Stay(_spot(stack, only_site), said.date, True, False) if said else None


def _spot(stack: Stack, only_site: str | None) -> Spot:
    """A spot of a stack that names no site is on the only one of its plan."""
    if stack.kind is StackKind.CHARGE:
        return Spot(SpotKind.KILN, stack.kiln.text) if stack.kiln else Spot(SpotKind.SOME_KILN, "")
    if stack.spot is None:
        return Spot(SpotKind.YARD, _place(stack))
    site = stack.place.site.text if stack.place and stack.place.site else only_site or ""
    return Spot(SpotKind.SPOT, stack.spot.text, site)
