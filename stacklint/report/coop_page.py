"""The page of a co-op: all stacks in one table, what is found in each, and what stands where month by month."""

from __future__ import annotations

import base64
import datetime
import hashlib
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from stacklint.files import Trouble
from stacklint.findings import Level
from stacklint.plan.stack import StackKind
from stacklint.report.answer import CAUTION, counted
from stacklint.report.coop_calendar import Calendar, calendar
from stacklint.report.coop_plan import CoopPlan, CoopStack
from stacklint.report.coop_standing import standings
from stacklint.report.forecast_text import CAUTION as FORECAST_CAUTION
from stacklint.report.page import rendered
from stacklint.report.waived import waived_words
from stacklint.show import rounded, show
from stacklint.units import VOLUME, System
from stacklint.yard.presence import presences
from stacklint.yard.stands import Lot

CLEAN = "nothing to change"


class Line(NamedTuple):
    """One line of the table: a stack with its plan, and the number by which the page speaks of it."""

    number: int
    plan: CoopPlan
    stack: CoopStack
    unit: System
    """In whose units its volume is told: those of most plans, so that the column can be read down."""

    @property
    def anchor(self) -> str:
        return f"stack-{self.number}"

    @property
    def steps(self) -> tuple[str, ...]:
        """The path of the plan in pieces between which a line may break."""
        *folders, name = self.plan.path.split("/")
        return (*(f"{folder}/" for folder in folders), name)

    @property
    def sheet(self) -> str | None:
        """The address of its build sheet: in the sheets of its plan, the stack's own."""
        if self.plan.sheet is None or self.stack.kind is None:
            return self.plan.sheet
        return f"{self.plan.sheet}#stack-{self.stack.line}"

    @property
    def state(self) -> str:
        """The gravest level, in a word."""
        return self.stack.worst.value if self.stack.worst else CLEAN

    @property
    def rank(self) -> int:
        return self.stack.worst.rank if self.stack.worst else 0

    @property
    def counts(self) -> tuple[int, ...]:
        """Errors, warnings and notes."""
        return tuple(self.stack.count(level) for level in Level)

    @property
    def volume(self) -> str:
        return "" if self.stack.volume is None else show(self.stack.volume, VOLUME, self.unit)

    @property
    def own_volume(self) -> str:
        """In the units of its plan, where the column is in others."""
        if self.stack.volume is None or self.plan.system is self.unit:
            return ""
        return show(self.stack.volume, VOLUME, self.plan.system)

    @property
    def said(self) -> str:
        """Its findings counted, in words."""
        return counted(each.finding.level for each in self.stack.findings)

    @property
    def name(self) -> str:
        """The stack's heading."""
        if self.stack.kind is None:
            return f"{self.plan.path}, {self.stack.name}"
        title = f", {self.stack.title}" if self.stack.title else ""
        return f"{self.stack.kind.value.capitalize()} {self.stack.name}{title}"


class WoodTotal(NamedTuple):
    """Of one wood: in how many stacks, and how much in all."""

    wood: str
    stacks: int
    volume: str


class Totals(NamedTuple):
    """What all plans come to, in words. ``states`` counts the lines of the table by their state."""

    plans: str
    stacks: str
    volume: str
    findings: str
    states: tuple[tuple[str, int], ...]
    woods: tuple[WoodTotal, ...]
    twice: bool
    """Some boards are in two stacks, a pile and a charge that takes them from it; they are counted once."""


def coop_html(plans: Iterable[CoopPlan], troubles: Iterable[Trouble], today: datetime.date) -> str:
    """One page for a browser and for paper: nothing is fetched, and it reads whole without its script.

    Args:
        plans: in the order in which they are to be listed.
        troubles: what could not be read, plans and house rules.
        today: the day that is marked in the picture of the months.
    """
    from markupsafe import Markup

    plans = tuple(plans)
    lines = tuple(_lines(plans))
    script = rendered("sort_filter.js")
    digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode("ascii")
    return rendered(
        "coop.html.jinja",
        lines=lines,
        totals=_totals(plans, lines),
        calendar=_calendar(plans, lines, today),
        levels=tuple(Level),
        waived_words=waived_words,
        cautions=(CAUTION, FORECAST_CAUTION),
        sheets=any(plan.sheet for plan in plans),
        troubles=tuple(troubles),
        today=today.isoformat(),
        script=Markup(script),
        script_hash=f"sha256-{digest}",
    )


def _calendar(plans: Sequence[CoopPlan], lines: Sequence[Line], today: datetime.date) -> Calendar | None:
    stacks = [line for line in lines if line.stack.kind is not None]
    stands = presences([plan.yard for plan in plans])
    told = [(line.anchor, line.stack, each) for line, each in zip(stacks, stands, strict=True)]
    undated = frozenset(line.anchor for line in stacks if line.stack.stay is None)
    return calendar(tuple(standings(told)), today, undated)


def _lines(plans: Sequence[CoopPlan]) -> Iterator[Line]:
    number = 0
    systems = [plan.system for plan in plans if plan.stacks]
    most = max(System, key=systems.count)
    for plan in plans:
        for stack in plan.lines:
            number += 1
            yield Line(number, plan, stack, most)


def _totals(plans: Sequence[CoopPlan], lines: Sequence[Line]) -> Totals:
    piles = sum(1 for line in lines if line.stack.kind is StackKind.PILE)
    charges = sum(1 for line in lines if line.stack.kind is StackKind.CHARGE)
    systems = [plan.system for plan in plans if plan.stacks]
    lots = {lot.listed: lot for line in lines for lot in line.stack.lots}
    states = [line.state for line in lines]
    return Totals(
        plans=_number(len(plans), "plan"),
        stacks=f"{_number(piles + charges, 'stack')} ({_number(piles, 'pile')}, {_number(charges, 'charge')})",
        volume=_volume(sum(lot.volume for lot in lots.values()), systems),
        findings=counted(each.finding.level for line in lines for each in line.stack.findings),
        states=tuple((state, states.count(state)) for state in (*(level.value for level in Level), CLEAN)),
        woods=tuple(_woods(lots.values(), lines, systems)),
        twice=len(lots) < sum(len(line.stack.lots) for line in lines),
    )


def _woods(lots: Iterable[Lot], lines: Sequence[Line], systems: Sequence[System]) -> Iterator[WoodTotal]:
    """The woods that were reckoned, by name."""
    volumes: dict[str, float] = {}
    for lot in lots:
        volumes[lot.wood] = volumes.get(lot.wood, 0.0) + lot.volume
    stacks: dict[str, int] = {}
    for line in lines:
        for wood in {lot.wood for lot in line.stack.lots}:
            stacks[wood] = stacks.get(wood, 0) + 1
    for wood in sorted(volumes, key=str.casefold):
        yield WoodTotal(wood, stacks[wood], _volume(volumes[wood], systems))


def _volume(volume: float, systems: Iterable[System]) -> str:
    """In the units of the plans; in both where the plans are in both."""
    used = [system for system in System if system in set(systems)] or [System.INCH]
    first, *other = (show(volume, VOLUME, system) for system in used)
    return f"{first} ({other[0]})" if other else first


def _number(count: int, word: str) -> str:
    return f"1 {word}" if count == 1 else f"{rounded(count)} {word}s"
