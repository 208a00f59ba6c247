"""The build sheet: one page for each stack of a plan, to be printed and taken out to the yard."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.drying.forecast import Forecast
from stacklint.engineering.facts import StackFacts
from stacklint.plan.stack import Reading, Stack, StackKind
from stacklint.report import drawings
from stacklint.report.board_tally import BoardTally, board_tally
from stacklint.report.build_list import build_list
from stacklint.report.by_stack import by_stack, waived_by_stack
from stacklint.report.cautions import GENERAL, Caution, cautions
from stacklint.report.cut_list import Cut, cut_list
from stacklint.report.figures import Figure, figures
from stacklint.report.forecast_chart import Forecasted
from stacklint.report.forecast_text import CAUTION, key_days, said, starts
from stacklint.report.laying import layings
from stacklint.report.no_forecast import why_none
from stacklint.report.numbered import Numbered, numbered
from stacklint.report.page import rendered
from stacklint.report.reading_days import ReadingPlan, reading_plan
from stacklint.report.steps import Step
from stacklint.report.tape import tape
from stacklint.show import percent, rounded, show
from stacklint.units import MASS, VOLUME, System

_MOST_PLANS = 3
"""Courses that are drawn from above: the first of each laying, the commonest first."""


class Drying(NamedTuple):
    """How a stack dries, in words. ``days`` has its heads first; without a forecast there are only ``words``."""

    words: tuple[str, ...]
    days: tuple[tuple[str, ...], ...] = ()
    told: tuple[tuple[str, tuple[str, ...]], ...] = ()


class Pictures(NamedTuple):
    side: Element | None
    end: Element | None
    courses: tuple[Element, ...]
    kiln: Element | None
    curve: Element | None


class StackSheet(NamedTuple):
    """All that the sheet of one stack shows."""

    stack: Stack
    reckoned: bool
    particulars: tuple[Figure, ...]
    findings: tuple[Numbered, ...]
    waived: tuple[Waived, ...]
    pictures: Pictures
    steps: tuple[Step, ...]
    cuts: tuple[Cut, ...]
    tally: BoardTally | None
    drying: Drying
    readings: tuple[Reading, ...]
    to_read: ReadingPlan
    cautions: tuple[Caution, ...]

    @property
    def key(self) -> str:
        """Its place in the page's address."""
        return f"stack-{self.stack.where.line}"

    @property
    def charge(self) -> bool:
        return self.stack.kind is StackKind.CHARGE

    @property
    def name(self) -> str:
        return f"{self.stack.kind.value.capitalize()} {self.stack.name.text}"


def sheet_html(checked: CheckedPlan, today: datetime.date) -> str:
    """The page: complete in itself, without a script, and with every text of the plan escaped."""
    findings, waived = by_stack(checked), waived_by_stack(checked)
    sheets = tuple(
        _sheet(stack, numbered(findings[index]), waived[index], checked, today)
        for index, stack in enumerate(checked.stacks)
    )
    return rendered(
        "sheet.html.jinja",
        path=checked.path,
        today=today.isoformat(),
        sheets=sheets,
        whole=numbered(findings[None]),
        general=GENERAL,
        forecast_caution=CAUTION,
        tape=partial(tape, system=checked.system),
        volume=partial(show, dimension=VOLUME, system=checked.system),
        volume_unit="bf" if checked.system is System.INCH else "m3",
        percent=percent,
        count=rounded,
    )


def _sheet(
    checked: CheckedStack,
    findings: tuple[Numbered, ...],
    waived: tuple[Waived, ...],
    plan: CheckedPlan,
    today: datetime.date,
) -> StackSheet:
    return StackSheet(
        stack=checked.stack,
        reckoned=checked.facts is not None,
        particulars=tuple(_particulars(checked)),
        findings=findings,
        waived=waived,
        pictures=_pictures(checked, findings, plan.system, today),
        steps=build_list(checked),
        cuts=cut_list(checked),
        tally=board_tally(checked),
        drying=_drying(plan.path, checked, plan.system),
        readings=tuple(sorted(checked.stack.readings, key=lambda reading: reading.day.date)),
        to_read=reading_plan(checked, today),
        cautions=cautions(checked),
    )


def _particulars(checked: CheckedStack) -> Iterator[Figure]:
    """What stands in the sheet's head; what is unknown is left out, but for the name of the place."""
    stack, facts = checked.stack, checked.facts
    yield Figure("Place", _place(stack))
    woods = (
        dict.fromkeys(group.wood for group in facts.groups if group.wood)
        if facts is not None
        else dict.fromkeys(boards.wood.text for boards in stack.boards)
    )
    if woods:
        yield Figure("Species", ", ".join(woods))
    for label, day in (("Sawn", stack.sawn), ("Stacked", stack.stacked), ("Starts", stack.starts)):
        if day is not None:
            yield Figure(label, day.date.isoformat())
    want = _want(stack)
    if want:
        yield Figure("Wanted", want)
    if facts is not None:
        yield from _amounts(facts)
        told = {figure.label: figure.text for figure in figures(checked)}
        for label in ("stack", "stickers", "sag", "loads", "ready"):
            if label in told:
                yield Figure(label.capitalize(), told[label])


def _amounts(facts: StackFacts) -> Iterator[Figure]:
    volume = facts.board_feet if facts.system is System.INCH else facts.volume
    if volume is not None:
        yield Figure("Volume", show(volume, VOLUME, facts.system))
    if facts.pieces is not None:
        yield Figure("Pieces", f"{rounded(facts.pieces)} boards" if facts.pieces != 1 else "1 board")
    if facts.mass_now is not None:
        yield Figure("Weight now", show(facts.mass_now, MASS, facts.system))
    if facts.mass_target is not None:
        at = f", at {percent(facts.wanted)}" if facts.wanted is not None else ""
        yield Figure("Weight dry", f"{show(facts.mass_target, MASS, facts.system)}{at}")


def _place(stack: Stack) -> str:
    if stack.kind is StackKind.CHARGE:
        words = [f"kiln {stack.kiln.text}" if stack.kiln is not None else "kiln not said"]
    elif stack.place is None:
        words = ["not said"]
    else:
        words = [stack.place.said or stack.place.kind.value]
        if stack.place.site is not None:
            words.append(f"site {stack.place.site.text}")
        if stack.place.in_sun is not None:
            words.append("in the sun" if stack.place.in_sun else "in the shade")
    if stack.spot is not None:
        words.append(f"spot {stack.spot.text}")
    return ", ".join(words)


def _want(stack: Stack) -> str:
    want = stack.want
    if want is None:
        return ""
    parts = [
        percent(want.moisture.si) if want.moisture is not None else "",
        f"by {want.by.date.isoformat()}" if want.by is not None else "",
        f"for {want.use.text}" if want.use is not None else "",
    ]
    return " ".join(part for part in parts if part)


def _pictures(checked: CheckedStack, findings: tuple[Numbered, ...], system: System, today: datetime.date) -> Pictures:
    if checked.arrangement is None:
        return Pictures(None, None, (), None, None)
    commonest = sorted(layings(checked.arrangement, system), key=lambda laying: -laying.count)[:_MOST_PLANS]
    plans = (drawings.course_plan(checked, first, findings) for first in sorted(each.first for each in commonest))
    return Pictures(
        side=drawings.side_view(checked, findings),
        end=drawings.end_view(checked, findings),
        courses=tuple(plan for plan in plans if plan is not None),
        kiln=drawings.kiln_section(checked, findings) if checked.stack.kind is StackKind.CHARGE else None,
        curve=drawings.drying_curve(checked, today),
    )


def _drying(path: str, checked: CheckedStack, system: System) -> Drying:
    forecast = checked.forecast
    if not isinstance(forecast, Forecast):
        none = why_none(checked)
        return Drying((none.missing, none.instead))
    told = ((label, tuple(paragraphs)) for label, paragraphs in said(forecast, system) if paragraphs)
    return Drying((starts(Forecasted(path, checked, forecast)),), tuple(key_days(forecast)), tuple(told))
