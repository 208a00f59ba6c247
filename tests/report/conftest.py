"""A yard of hand-built checked plans: what a check of them would come to, without checking."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable
from typing import Any

import pytest

from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.engineering import facts as engineering
from stacklint.engineering.facts import StackFacts
from stacklint.engineering.schema import Many, declarations
from stacklint.faults import Measure
from stacklint.findings import Finding, Level, Mark, Part
from stacklint.layout.arrangement import Arrangement, CourseRun, Piece, Row, RowRun, StickerLine
from stacklint.plan.node import Name, Quantity
from stacklint.plan.shelter import Cover, CoverKind, TopLoad
from stacklint.plan.stack import Day, Stack, StackKind, Waiver
from stacklint.plan.supports import Bearers, Ground, Pads, Soil
from stacklint.report.answer import Answer
from stacklint.rulebook import RuleBook, load
from stacklint.units import LENGTH, ONE_BOARD_FOOT, ONE_FOOT, ONE_INCH, ONE_POUND, System, Unit
from stacklint.where import Where

RULES = """
rule end-sticker-missing
  title   A board end hangs past its last sticker
  card    end stickers
  for each end
  limit   spoiled = 12 in  source "a foreman's rule" memory
  error   when end.past > spoiled
  say     "The end hangs {end.past} past its last sticker."
  instead "Set a sticker there."
  why     "A free end dries faster than the rest."
"""


def where(line: int, column: int = 3, end_column: int = 40) -> Where:
    return Where("b2.stackplan", line, column, line, end_column)


def facts_of(kind: type, /, **known: Any) -> Any:
    """Facts in which all that is not given is unknown."""
    values: dict[str, Any] = {
        name: () if isinstance(declared.kind, Many) else None for name, declared in declarations(kind).items()
    }
    values["where"] = where(1)
    required = {field.name for field in dataclasses.fields(kind)}
    assert set(known) <= required
    return kind(**(values | known))


def quantity(number: float, unit: Unit) -> Quantity:
    return Quantity(number=number, unit=unit)


def arranged(courses: int = 6, *, broken: bool = True) -> Arrangement:
    """A 16 ft stack of 8 ft boards end to end, with a last course of 12 ft boards if ``broken``."""
    half = 8 * ONE_FOOT
    pair = Row(tuple(Piece("a", start, half, 6 * ONE_INCH, ONE_INCH) for start in (0.0, half)))
    single = Row((Piece("b", 0.0, 12 * ONE_FOOT, 6 * ONE_INCH, ONE_INCH),))
    full = CourseRun(1, courses - 1 if broken else courses, (RowRun(pair, 8),), where(12))
    top = CourseRun(courses, courses, (RowRun(pair, 2), RowRun(single, 4)), where(13))
    xs = [i * 2 * ONE_FOOT for i in range(9)]
    return Arrangement(
        length=16 * ONE_FOOT,
        width=4 * ONE_FOOT,
        gap=0.0,
        courses=(full, top) if broken else (full,),
        sticker_lines=tuple(StickerLine(x, i, 0.0) for i, x in enumerate(xs)),
        sticker_thickness=0.75 * ONE_INCH,
        sticker_thickness_low=0.75 * ONE_INCH,
        sticker_width=1.25 * ONE_INCH,
        sticker_length=4 * ONE_FOOT,
        bearers=tuple(xs),
        bearer_width=4 * ONE_INCH,
        bearer_depth=6 * ONE_INCH,
        whole_floor=False,
        matching=(),
        unpaired=(),
        left_over=(),
        assumptions=(),
        faults=(),
    )


def known_facts(courses: int = 6) -> StackFacts:
    pad = facts_of(engineering.Pad, pressure=50_000.0, load=300.0)
    bearer = facts_of(engineering.Bearer, load=280.0, worst=0.4)
    end = facts_of(engineering.End, count=192.0, past=0.0)
    return facts_of(  # type: ignore[no-any-return]
        StackFacts,
        system=System.INCH,
        name="B2",
        kind="pile",
        pieces=96.0,
        volume=384 * ONE_BOARD_FOOT,
        board_feet=384 * ONE_BOARD_FOOT,
        mass_now=1600 * ONE_POUND,
        mass_green=1700 * ONE_POUND,
        mass_target=1200 * ONE_POUND,
        water=400 * ONE_POUND,
        wanted=0.12,
        length=16 * ONE_FOOT,
        width=4 * ONE_FOOT,
        height=10.5 * ONE_INCH,
        clearance=14 * ONE_INCH,
        courses_high=float(courses),
        stickered=True,
        sticker_lines=9.0,
        sticker_count=54.0,
        sticker_length=4 * ONE_FOOT,
        sticker_spacing=2 * ONE_FOOT,
        sag_max=0.0009,
        end_max=0.0,
        load=1650 * ONE_POUND,
        bearers=(bearer,),
        pads=(pad,),
        ends=(end,),
    )


def finding(rule: str = "end-sticker-missing", **changes: Any) -> Finding:
    values: dict[str, Any] = {
        "rule": rule,
        "level": Level.ERROR,
        "message": "The end of 4 of white ash 4/4 x 6 in x 12 ft hangs 2 ft past its last sticker.",
        "instead": "Set a sticker within 3 in of that end.",
        "where": where(14),
        "stack": "B2",
        "found": Measure(2 * ONE_FOOT, LENGTH),
        "limit": Measure(1 * ONE_FOOT, LENGTH),
        "marks": (Mark(Part.COURSE, 6, 6, 10 * ONE_FOOT, 12 * ONE_FOOT),),
        "more": 3,
    }
    return Finding(**(values | changes))


def pile(name: str = "B2", title: str | None = "Ash for flooring", **parts: Any) -> Stack:
    values: dict[str, Any] = {
        "kind": StackKind.PILE,
        "name": Name(text=name),
        "title": title,
        "where": Where("b2.stackplan", 5, 1, 5, 30),
        "bearers": Bearers(pads=Pads(sides=(quantity(8, Unit.INCH), quantity(16, Unit.INCH)))),
        "ground": Ground(soil=Soil.GRAVEL),
        "cover": Cover(
            kind=CoverKind.SHEET_METAL, overhang_ends=quantity(12, Unit.INCH), gap=quantity(4, Unit.INCH), slope=1 / 12
        ),
        "top_load": TopLoad(pressure=quantity(50, Unit.PSF)),
    }
    return Stack(**(values | parts))


def waived() -> Waived:
    waiver = Waiver(
        rule=Name(text="stickers-wet"),
        reason="kiln-dried sticks arrive Friday",
        until=Day(date=datetime.date(2026, 5, 1)),
    )
    return Waived(finding("stickers-wet", level=Level.WARNING, message="The stickers are wet.", marks=()), waiver)


def checked(*findings: Finding, courses: int = 6, stack: Stack | None = None, **changes: Any) -> CheckedPlan:
    one = CheckedStack(stack or pile(), arranged(courses), known_facts(courses))
    values: dict[str, Any] = {
        "path": "b2.stackplan",
        "system": System.INCH,
        "stacks": (one,),
        "findings": findings,
    }
    return CheckedPlan(**(values | changes))


class Yard:
    """The builders above, for tests to call."""

    where = staticmethod(where)
    facts_of = staticmethod(facts_of)
    quantity = staticmethod(quantity)
    arranged = staticmethod(arranged)
    facts = staticmethod(known_facts)
    finding = staticmethod(finding)
    pile = staticmethod(pile)
    waived = staticmethod(waived)
    checked = staticmethod(checked)


@pytest.fixture(scope="session")
def yard() -> type[Yard]:
    return Yard


@pytest.fixture(scope="session")
def book() -> RuleBook:
    loaded = load([("rules.rules", RULES)])
    assert not loaded.faults
    return loaded.book


@pytest.fixture
def answer(book: RuleBook) -> Callable[[CheckedPlan], Answer]:
    return lambda plan: Answer(plan, book)
