"""The build sheet: one page for each stack of a plan, to be printed and taken out to the yard."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from functools import partial
from typing import NamedTuple
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.drying.forecast import Forecast
from stacklint.findings import Level
from stacklint.plan.stack import Reading, Stack, StackKind
from stacklint.report import drawings
from stacklint.report.board_tally import BoardTally, board_tally
from stacklint.report.build_list import build_list
from stacklint.report.by_stack import by_stack, waived_by_stack
from stacklint.report.cautions import GENERAL, Caution, cautions
from stacklint.report.cut_list import cut_list
from stacklint.report.cuts import Cut
from stacklint.report.figures import Figure
from stacklint.report.forecast_chart import Forecasted
from stacklint.report.forecast_text import CAUTION, key_days, said, starts
from stacklint.report.laying import layings
from stacklint.report.no_forecast import why_none
from stacklint.report.numbered import Numbered, numbered
from stacklint.report.page import rendered
from stacklint.report.particulars import particulars
from stacklint.report.plain import plain
from stacklint.report.reading_days import ReadingPlan, reading_plan
from stacklint.report.steps import Laying, Step
from stacklint.report.tape import tape
from stacklint.show import percent, show
from stacklint.units import VOLUME, System

_MOST_FOOT = 60
"""Characters of a name at the foot of a page."""
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
    told: str = ""
    """Which courses are drawn from above, and where the others are to be found."""

    @property
    def marked(self) -> frozenset[int]:
        """The numbers of the findings that stand in a drawing."""
        drawn = (self.side, self.end, self.kiln, *self.courses)
        marks = (mark for each in drawn if each is not None for mark in each.iter() if mark.get("data-number"))
        return frozenset(int(mark.get("data-number", "0")) for mark in marks)


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
    def errors(self) -> int:
        """That are open."""
        return sum(each.finding.level is Level.ERROR for each in self.findings)

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
        css_words=css_words,
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
        particulars=tuple(particulars(checked)),
        findings=findings,
        waived=waived,
        pictures=_pictures(checked, findings, today),
        steps=build_list(checked),
        cuts=cut_list(checked),
        tally=board_tally(checked),
        drying=_drying(plan.path, checked, plan.system),
        readings=tuple(sorted(checked.stack.readings, key=lambda reading: reading.day.date)),
        to_read=reading_plan(checked, today),
        cautions=cautions(checked),
    )


def _pictures(checked: CheckedStack, findings: tuple[Numbered, ...], today: datetime.date) -> Pictures:
    if checked.arrangement is None:
        return Pictures(None, None, (), None, None)
    laid = layings(checked)
    drawn = sorted(sorted(laid, key=lambda laying: -laying.count)[:_MOST_PLANS], key=lambda laying: laying.first)
    plans = (drawings.course_plan(checked, each.first, findings) for each in drawn)
    return Pictures(
        side=drawings.side_view(checked, findings),
        end=drawings.end_view(checked, findings),
        courses=tuple(plan for plan in plans if plan is not None),
        kiln=drawings.kiln_section(checked, findings) if checked.stack.kind is StackKind.CHARGE else None,
        curve=drawings.drying_curve(checked, today),
        told=_drawn(drawn, laid),
    )


def _drawn(drawn: Sequence[Laying], laid: Sequence[Laying]) -> str:
    """Which courses are drawn from above."""
    names = [str(each.first) if each.count == 1 else f"{each.first} to {each.last}" for each in drawn]
    if not names:
        return ""
    if len(drawn) == len(laid):
        return "All courses are drawn from above, alike ones once."
    *first, last = names
    said = f"{', '.join(first)} and {last}" if first else last
    return f"Drawn from above: courses {said}. The others are laid as the build list has them."


def css_words(name: str) -> str:
    """A name as it may stand between the quotes of a style, whatever it holds: every odd character by its number."""
    short = plain(name) if len(name) <= _MOST_FOOT else f"{plain(name)[:_MOST_FOOT]}..."
    return "".join(sign if sign.isascii() and sign.isalnum() else f"\\{ord(sign):06x}" for sign in short)


def _drying(path: str, checked: CheckedStack, system: System) -> Drying:
    forecast = checked.forecast
    if not isinstance(forecast, Forecast):
        none = why_none(checked)
        return Drying((none.missing, none.instead))
    told = ((label, tuple(paragraphs)) for label, paragraphs in said(forecast, system) if paragraphs)
    return Drying((starts(Forecasted(path, checked, forecast)),), tuple(key_days(forecast)), tuple(told))
