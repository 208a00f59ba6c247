"""Plans as text: the standard layout, and that what is written reads back."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import HealthCheck, given, settings
from random_plans import plans
from random_words import TODAY

from stacklint.faults import FaultKind
from stacklint.language import ReadPlan, UsedText, read
from stacklint.language.write import write
from stacklint.plan.boards import Boards, Face
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.shelter import Cover, CoverKind, TopLoad
from stacklint.plan.stack import Clearance, Stack, StackKind, Want
from stacklint.plan.supports import BearerKind, Bearers, Pads, Stickers
from stacklint.plan.yard import Kiln, Plan, WoodStatement
from stacklint.units import Unit

random_texts = settings(
    max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)

TIDY = """\
use "yard.stackplan"

site "Cold Hollow"
  near "Burlington, VT"
  month jan -1 C 74%

kiln "North box"
  type dehumidification
  inside 17 ft x 5 ft x 6 ft
  holds 1400 bf
  carries 9000 lb
  heats to 150 F
  removes 60 pt/day
  fans 4 of 2400 cfm
  plenum 18 in

wood "osage orange"
  like black locust
  hardwood
  specific gravity 0.76
  stiffness 1,330,000 psi green, 1,660,000 psi dry
  crushing 1200 psi
  green moisture 60%
  shrinks 4% radial, 6% tangential, 9% volumetric
  source "own tests, 2025"

pile "B2" "Ash for flooring"
  place open yard, site "Cold Hollow"
  spot "row 3"
  sawn 2026-03-30
  stacked 2026-04-02
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green, flatsawn
  boards b: 350 bf of white ash 4/4 x 5 to 9 in x 12 ft, 35%
  boards c: 40 of white ash 1 in x 6 in x 4 ft, air dried
  stack 16 ft x 4 ft
  course 1 to 6: 8 rows of a + a
  course 7: 4 rows of b + c, 2 rows of a + a
  stickers 3/4 in x 1 1/4 in, every 24 in, 1 in from ends, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 12 in, gap 4 in, slope 1 in 12, tied
  sides shade cloth
  wind across
  top load 50 psf
  ends coated
  fan 2 of 1500 cfm, removes 30 pt/day
  want 12% by 2027-02-01 for flooring
  wanted 13/16 in thick, 5 in wide, of a
  reading 2026-05-10 41%
  waive stickers-wet because "kiln-dried sticks arrive Friday" until 2026-05-01

charge "2026-07" in kiln "North box"
  starts 2026-07-01
  schedule T8-D4
  runs at 110 F / 102 F
  fans 12 h/day
  baffles top, ends, floor
  hold 150 F for 4 h
  sterilize
  from pile "B2"
"""
"""A plan in the standard layout."""

YARD = """\
kiln "South box"
  type solar

pile "A1"
  boards a: 10 of sugar maple 4/4 x 6 in x 8 ft, green
"""


def read_beside_the_yard(text: str) -> ReadPlan:
    return read(text, "b2.stackplan", use=lambda _name, _user: UsedText("yard.stackplan", YARD), today=TODAY)


def pile(**said: object) -> Plan:
    return Plan(stacks=(Stack(kind=StackKind.PILE, name=Name(text="B2"), **said),))  # type: ignore[arg-type]


def line_of(plan: Plan, keyword: str) -> str:
    """The one line of the written plan that starts with ``keyword``."""
    (line,) = [line.strip() for line in write(plan).splitlines() if line.strip().startswith(keyword)]
    return line


def inches(number: float) -> Quantity:
    return Quantity(number=number, unit=Unit.INCH)


@random_texts
@given(plans())
def test_any_plan_reads_back_as_it_was_written(plan: Plan) -> None:
    text = write(plan)
    back = read(text, today=TODAY)
    assert back.faults == ()
    assert back.plan == plan


@random_texts
@given(plans())
def test_the_standard_layout_of_a_text_in_standard_layout_is_that_text(plan: Plan) -> None:
    text = write(plan)
    assert write(read(text, today=TODAY).plan) == text


def test_a_text_in_the_standard_layout_is_written_as_it_was_read() -> None:
    back = read_beside_the_yard(TIDY)
    assert back.faults == ()
    assert write(back.plan) == TIDY


def test_an_untidy_text_comes_out_in_the_standard_layout() -> None:
    untidy = """\
PILE 'B2'
    Want 12 percent
  cover SHEET METAL, tied, slope 2 in 24,
     gap 4"
sticks 3/4" by 1-1/4", 24" o.c.   # what we have
boards a: 60 of white ash 1¼" × 6" × 8'
""".replace("'B2'", '"B2"')
    assert write(read(untidy).plan) == (
        'pile "B2"\n'
        "  boards a: 60 of white ash 1 1/4 in x 6 in x 8 ft\n"
        "  stickers 3/4 in x 1 1/4 in, every 24 in\n"
        "  cover sheet metal, gap 4 in, slope 1 in 12, tied\n"
        "  want 12%\n"
    )


def test_blocks_of_a_used_file_and_its_piles_are_not_written_again() -> None:
    plan = read_beside_the_yard(TIDY).plan
    assert {kiln.name.text for kiln in plan.kilns} == {"North box", "South box"}
    assert "South box" not in write(plan)
    assert "A1" not in write(plan)


def test_a_charge_takes_boards_from_its_pile_without_saying_them_again() -> None:
    plan = read_beside_the_yard(TIDY).plan
    assert plan.stacks[1].boards
    _, charge = write(plan).split("charge ")
    assert "boards" not in charge
    assert "stickers" not in charge


def test_a_charge_with_boards_and_stickers_of_its_own_beside_those_of_a_pile_keeps_them() -> None:
    text = TIDY + "  boards d: 8 of sugar maple 4/4 x 6 in x 8 ft, green\n  stickers 1 in x 1 in, every 12 in\n"
    back = read_beside_the_yard(text)
    assert back.faults == ()
    assert [boards.label.text for boards in back.plan.stacks[1].boards].count("d") == 1
    assert write(back.plan) == text


def test_two_piles_with_groups_of_one_label_lend_both_to_a_charge_and_write_as_they_were_read() -> None:
    text = """\
pile "1"
  boards a: 10 of white ash 4/4 x 6 in x 8 ft

pile "2"
  boards a: 20 of white ash 4/4 x 7 in x 8 ft

charge "3"
  from pile "1"
  from pile "2"
"""
    plan = read(text).plan
    assert sum(boards.count or 0 for boards in plan.stacks[2].boards) == 30
    assert write(plan) == text


def test_a_plan_built_by_a_program_is_written_whole_though_it_names_a_used_file() -> None:
    plan = Plan(uses=(Name(text="yard.stackplan"),), kilns=(Kiln(name=Name(text="South box")),))
    assert write(plan) == 'use "yard.stackplan"\n\nkiln "South box"\n'


def test_an_empty_plan_is_an_empty_text() -> None:
    assert write(Plan()) == ""


@pytest.mark.parametrize(
    ("number", "unit", "text"),
    [
        (14, Unit.INCH, "14 in"),
        (1.25, Unit.INCH, "1 1/4 in"),
        (0.015625, Unit.INCH, "1/64 in"),  # the finest division of a shop rule: common practice, no source
        (0.1, Unit.INCH, "0.1 in"),
        (1 / 3, Unit.INCH, "0.3333333333333333 in"),
        (1.5, Unit.FOOT, "1.5 ft"),
        (1e-05, Unit.METRE, "0.00001 m"),
        (4999, Unit.MILLIMETRE, "4999 mm"),
        (5, Unit.METRE, "5 m"),
    ],
)
def test_a_length_keeps_its_figure_and_its_unit(number: float, unit: Unit, text: str) -> None:
    height = Quantity(number=number, unit=unit)
    assert line_of(pile(clearance=Clearance(height=height)), "clearance") == f"clearance {text}"


@pytest.mark.parametrize(
    ("number", "text"), [(9999, "9999 lb"), (10000, "10,000 lb"), (1234567, "1,234,567 lb"), (12345.5, "12345.5 lb")]
)
def test_whole_figures_from_ten_thousand_on_have_commas(number: float, text: str) -> None:
    load = TopLoad(weight=Quantity(number=number, unit=Unit.POUND))
    assert line_of(pile(top_load=load), "top") == f"top load {text}"


@pytest.mark.parametrize(("quarters", "text"), [(4, "4/4"), (5, "5/4"), (3, "3/4"), (2, "1/2 in"), (4.5, "1 1/8 in")])
def test_quarters_are_written_as_quarters_unless_they_could_be_misread(quarters: float, text: str) -> None:
    boards = Boards(
        label=Name(text="a"),
        count=1,
        wood=Name(text="white ash"),
        thickness=Quantity(number=quarters, unit=Unit.QUARTER),
        length=Range(low=Quantity(number=6, unit=Unit.FOOT), high=Quantity(number=10, unit=Unit.FOOT)),
        face=Face.RIFT,
        squares=True,
    )
    expected = f"boards a: 1 of white ash {text} x random width x 6 to 10 ft, riftsawn, squares"
    assert line_of(pile(boards=(boards,)), "boards") == expected
    (back,) = read(write(pile(boards=(boards,)))).plan.stacks[0].boards
    assert back.thickness.si == boards.thickness.si


@pytest.mark.parametrize(
    ("slope", "text"),
    [
        (1 / 12, "1 in 12"),
        (2 / 12, "1 in 6"),
        (5 / 12, "5 in 12"),
        (1 / 80, "1 in 80"),
        (0.0, "0 in 1"),
        (1.0, "1 in 1"),
    ],
)
def test_a_slope_is_written_as_rise_in_run(slope: float, text: str) -> None:
    cover = Cover(kind=CoverKind.SHEET_METAL, slope=slope)
    assert line_of(pile(cover=cover), "cover") == f"cover sheet metal, slope {text}"


@pytest.mark.parametrize(
    ("ends", "sides", "text"),
    [
        (12, 12, "overhang 12 in"),
        (12, 6, "overhang 12 in ends, 6 in sides"),
        (12, None, "overhang 12 in ends"),
        (None, 6, "overhang 6 in sides"),
    ],
)
def test_one_overhang_stands_for_ends_and_sides_only_if_both_have_it(
    ends: float | None, sides: float | None, text: str
) -> None:
    cover = Cover(
        kind=CoverKind.TARP,
        overhang_ends=None if ends is None else inches(ends),
        overhang_sides=None if sides is None else inches(sides),
    )
    assert line_of(pile(cover=cover), "cover") == f"cover tarp, {text}"
    assert read(write(pile(cover=cover))).plan == pile(cover=cover)


@pytest.mark.parametrize(
    ("stickers", "text"),
    [
        (Stickers(none=True), "none"),
        (Stickers(every=inches(24)), "every 24 in"),
        (Stickers(thickness=inches(0.75)), "3/4 in"),
        (Stickers(width=inches(1.25)), "1 1/4 in wide"),
        (Stickers(thickness=Range(low=inches(0.75), high=inches(1)), count=7), "3/4 to 1 in, 7 a course"),
        (
            Stickers(thickness=inches(1), at=(inches(1), Quantity(number=2, unit=Unit.FOOT)), grooved=True),
            "1 in, grooved, at 1 in, 2 ft",
        ),
        (Stickers(thickness=inches(1), plywood=True), "1 in, of plywood"),
    ],
)
def test_stickers_are_written_with_what_was_said_of_them(stickers: Stickers, text: str) -> None:
    plan = pile(stickers=stickers)
    assert line_of(plan, "stickers") == f"stickers {text}"
    assert read(write(plan)).plan == plan


@pytest.mark.parametrize(
    ("bearers", "text"),
    [
        (Bearers(kind=BearerKind.NONE), "none"),
        (Bearers(kind=BearerKind.PALLETS), "pallets"),
        (Bearers(), "timber"),
        (Bearers(wood=Name(text="white oak")), "of white oak"),
        (Bearers(kind=BearerKind.STEEL, sides=(inches(4), inches(4)), count=5), "steel 4 in x 4 in, 5 of them"),
        (Bearers(sides=(inches(6), inches(6)), pads=Pads(), pads_count=3), "6 in x 6 in, on 3 pads"),
        (
            Bearers(sides=(inches(6), inches(6)), pads=Pads(blocks=True, sides=(inches(8), inches(16))), pads_count=2),
            "6 in x 6 in, on 2 blocks of 8 in x 16 in",
        ),
    ],
)
def test_bearers_are_written_with_what_is_under_them(bearers: Bearers, text: str) -> None:
    plan = pile(bearers=bearers)
    assert line_of(plan, "bearers") == f"bearers {text}"
    assert read(write(plan)).plan == plan


@pytest.mark.parametrize("name", ["wood no. 7", "steel", "the red one", "random oak", "об, а", "5/4 stuff", "¼"])
def test_a_wood_with_an_odd_name_is_written_in_quotation_marks_and_found_again(name: str) -> None:
    wood = WoodStatement(name=Name(text=name), like=Name(text="white ash"))
    boards = Boards(
        label=Name(text="a"),
        count=1,
        wood=Name(text=name),
        thickness=inches(1),
        width=inches(6),
        length=Quantity(number=8, unit=Unit.FOOT),
    )
    plan = pile(boards=(boards,)).model_copy(update={"woods": (wood,)})
    assert f'1 of "{name}" 1 in' in write(plan)
    back = read(write(plan))
    assert back.faults == ()
    assert back.plan == plan


def test_a_use_that_is_not_plain_words_is_written_in_quotation_marks() -> None:
    plan = pile(want=Want(use=Name(text="floor no. 2, upstairs")))
    assert line_of(plan, "want") == 'want for "floor no. 2, upstairs"'
    assert read(write(plan)).plan == plan


def test_a_statement_that_could_not_be_read_is_left_out_of_the_written_plan() -> None:
    back = read('pile "B2"\n  clearance 14 gallons\n  wind across\n', today=datetime.date(2026, 6, 1))
    assert [fault.kind for fault in back.faults] == [FaultKind.PLAN_TEXT]
    assert write(back.plan) == 'pile "B2"\n  wind across\n'


@pytest.mark.parametrize("name", ['12" slabs', "“wide” ones", "one\ntwo"])
def test_a_name_that_no_text_can_hold_is_not_written(name: str) -> None:
    with pytest.raises(ValueError, match="without quotation marks"):
        write(Plan(kilns=(Kiln(name=Name(text=name)),)))
