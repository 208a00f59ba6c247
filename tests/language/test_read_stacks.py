"""Every statement of a pile or charge, and every detail, as text and as the part of the plan that it stands for.

Texts follow the table of statements in the language reference.
"""

from __future__ import annotations

import datetime

import pytest

from stacklint.language import read
from stacklint.plan.boards import Boards, CourseRows, Courses, Face, MoistureWord
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.shelter import (
    Cover,
    CoverKind,
    EndCoat,
    Ends,
    Fan,
    Fastening,
    PlaceKind,
    PlaceStatement,
    SideKind,
    Sides,
    TopLoad,
    WindAcross,
)
from stacklint.plan.stack import (
    Baffles,
    Clearance,
    Day,
    FanHours,
    Hold,
    Reading,
    ReadingFrom,
    Said,
    Setting,
    Stack,
    StackKind,
    StackSize,
    Waiver,
    Want,
)
from stacklint.plan.supports import (
    BearerKind,
    Bearers,
    Flatness,
    Ground,
    Pads,
    Soil,
    Stickers,
    StickerState,
    Wetness,
)
from stacklint.units import Unit

TODAY = datetime.date(2026, 6, 1)
GROUP = "boards a: 1 of white ash 4/4 x 6 in x 8 ft"


def of(number: float, unit: Unit) -> Quantity:
    return Quantity(number=number, unit=unit)


def inches(number: float) -> Quantity:
    return of(number, Unit.INCH)


def feet(number: float) -> Quantity:
    return of(number, Unit.FOOT)


def percent(number: float) -> Quantity:
    return of(number, Unit.PERCENT)


def name(text: str) -> Name:
    return Name(text=text)


def day(text: str) -> Day:
    return Day(date=datetime.date.fromisoformat(text))


def stack_with(*statements: str, header: str = 'pile "B2"') -> Stack:
    result = read("\n".join(['site "Cold Hollow"', 'kiln "North box"', header, *statements]), today=TODAY)
    assert result.faults == ()
    return result.plan.stacks[0]


@pytest.mark.parametrize(
    ("statement", "field", "expected"),
    [
        ("place open yard", "place", PlaceStatement(kind=PlaceKind.OPEN_YARD)),
        (
            'place open yard, site "Cold Hollow"',
            "place",
            PlaceStatement(kind=PlaceKind.OPEN_YARD, site=name("Cold Hollow")),
        ),
        (
            "place garage, 60 F 45%",
            "place",
            PlaceStatement(kind=PlaceKind.GARAGE, temperature=of(60, Unit.FAHRENHEIT), humidity=percent(45)),
        ),
        (
            "place basement, 20 C",
            "place",
            PlaceStatement(kind=PlaceKind.BASEMENT, temperature=of(20, Unit.CELSIUS)),
        ),
        (
            "place open shed, in the sun, windy",
            "place",
            PlaceStatement(kind=PlaceKind.OPEN_SHED, in_sun=True, windy=True),
        ),
        (
            "place closed barn, in the shade, sheltered, floor carries 40 psf",
            "place",
            PlaceStatement(kind=PlaceKind.CLOSED_BARN, in_sun=False, windy=False, floor_carries=of(40, Unit.PSF)),
        ),
        ("place container", "place", PlaceStatement(kind=PlaceKind.CONTAINER)),
        ("place attic", "place", PlaceStatement(kind=PlaceKind.ATTIC)),
        ("place greenhouse", "place", PlaceStatement(kind=PlaceKind.GREENHOUSE)),
        ("place heated shop", "place", PlaceStatement(kind=PlaceKind.HEATED_SHOP)),
        ("place kiln", "place", PlaceStatement(kind=PlaceKind.KILN)),
        ('spot "row 3"', "spot", name("row 3")),
        ("sawn 2026-03-30", "sawn", day("2026-03-30")),
        ("stacked 2027-04-02", "stacked", day("2027-04-02")),
        ("stack 16 ft x 4 ft", "size", StackSize(length=feet(16), width=feet(4))),
        (
            "stack 16 ft x 4 ft, boards 1 in apart, next pile 3 ft away, flue 8 in",
            "size",
            StackSize(length=feet(16), width=feet(4), boards_apart=inches(1), next_pile=feet(3), flue=inches(8)),
        ),
        ("clearance 14 in", "clearance", Clearance(height=inches(14))),
        ("ground gravel, flat", "ground", Ground(soil=Soil.GRAVEL, flatness=Flatness.FLAT)),
        ("ground concrete, twisted", "ground", Ground(soil=Soil.CONCRETE, flatness=Flatness.TWISTED)),
        (
            "ground bare soil, uneven 1 in, damp",
            "ground",
            Ground(soil=Soil.BARE_SOIL, flatness=Flatness.UNEVEN, uneven_by=inches(1), wetness=Wetness.DAMP),
        ),
        ("ground uneven", "ground", Ground(flatness=Flatness.UNEVEN)),
        (
            "ground soft clay, sloped, drained, bears 2000 psf",
            "ground",
            Ground(soil=Soil.SOFT_CLAY, flatness=Flatness.SLOPED, wetness=Wetness.DRAINED, bears=of(2000, Unit.PSF)),
        ),
        ("ground grass", "ground", Ground(soil=Soil.GRASS)),
        ("ground clay", "ground", Ground(soil=Soil.CLAY)),
        ("ground sand", "ground", Ground(soil=Soil.SAND)),
        ("cover none", "cover", Cover(kind=CoverKind.NONE)),
        ("cover boards", "cover", Cover(kind=CoverKind.BOARDS)),
        ("cover plywood, untied", "cover", Cover(kind=CoverKind.PLYWOOD, fastening=Fastening.UNTIED)),
        (
            "cover sheet metal, overhang 12 in, gap 4 in, slope 1 in 12, tied",
            "cover",
            Cover(
                kind=CoverKind.SHEET_METAL,
                overhang_ends=inches(12),
                overhang_sides=inches(12),
                gap=inches(4),
                slope=1 / 12,
                fastening=Fastening.TIED,
            ),
        ),
        (
            "cover roof panels, overhang 12 in ends, 6 in sides, weighted 200 lb",
            "cover",
            Cover(
                kind=CoverKind.ROOF_PANELS,
                overhang_ends=inches(12),
                overhang_sides=inches(6),
                fastening=Fastening.WEIGHTED,
                weight=of(200, Unit.POUND),
            ),
        ),
        ("cover tarp, overhang 6 in sides", "cover", Cover(kind=CoverKind.TARP, overhang_sides=inches(6))),
        (
            "cover tarp, weighted, slope 5%, hanging down",
            "cover",
            Cover(kind=CoverKind.TARP, fastening=Fastening.WEIGHTED, slope=0.05, hanging_down=True),
        ),
        ("sides open", "sides", Sides(kind=SideKind.OPEN)),
        ("sides boards", "sides", Sides(kind=SideKind.BOARDS)),
        ("sides shade cloth, on one side", "sides", Sides(kind=SideKind.SHADE_CLOTH, on_one_side=True)),
        ("sides plastic, on the ends", "sides", Sides(kind=SideKind.PLASTIC, on_ends=True)),
        ("wind across", "wind", WindAcross(across=True)),
        ("wind along", "wind", WindAcross(across=False)),
        ("top load 50 psf", "top_load", TopLoad(pressure=of(50, Unit.PSF))),
        ("top load 600 lb", "top_load", TopLoad(weight=of(600, Unit.POUND))),
        ("top load straps", "top_load", TopLoad(straps=True)),
        ("ends coated", "ends", Ends(coat=EndCoat.COATED)),
        ("ends coated at the saw", "ends", Ends(coat=EndCoat.COATED_AT_SAW)),
        ("ends coated late", "ends", Ends(coat=EndCoat.COATED_LATE)),
        ("ends painted", "ends", Ends(coat=EndCoat.PAINTED)),
        ("ends bare", "ends", Ends(coat=EndCoat.BARE)),
        ("fan 2 of 1500 cfm", "fan", Fan(count=2, each=of(1500, Unit.CFM))),
        ("fan 3", "fan", Fan(count=3)),
        (
            "fan 2 of 1500 cfm, removes 30 pt/day",
            "fan",
            Fan(count=2, each=of(1500, Unit.CFM), removes=of(30, Unit.PINT_PER_DAY)),
        ),
        ("fan removes 30 pt/day", "fan", Fan(removes=of(30, Unit.PINT_PER_DAY))),
        (
            "want 12% by 2027-02-01 for flooring",
            "want",
            Want(moisture=percent(12), by=day("2027-02-01"), use=name("flooring")),
        ),
        ("want for kitchen cabinets, 8%", "want", Want(moisture=percent(8), use=name("kitchen cabinets"))),
        ("want by 2027-02-01", "want", Want(by=day("2027-02-01"))),
    ],
)
def test_a_statement_of_a_pile_says_what_it_says(statement: str, field: str, expected: object) -> None:
    assert getattr(stack_with(statement), field) == expected


@pytest.mark.parametrize(
    ("statement", "expected"),
    [
        ("stickers none", Stickers(none=True)),
        ("stickers every 24 in", Stickers(every=inches(24))),
        (
            "stickers 3/4 in x 1 1/4 in, every 24 in, 1 in from ends, dry, 4 ft long",
            Stickers(
                thickness=inches(0.75),
                width=inches(1.25),
                every=inches(24),
                from_ends=inches(1),
                state=StickerState.DRY,
                length=feet(4),
            ),
        ),
        ("stickers 3/4 in, 7 a course", Stickers(thickness=inches(0.75), count=7)),
        (
            "stickers 3/4 in, at 1 in, 2 ft, 4 ft, green",
            Stickers(thickness=inches(0.75), at=(inches(1), feet(2), feet(4)), state=StickerState.GREEN),
        ),
        (
            "stickers 3/4 to 1 in, wet",
            Stickers(thickness=Range(low=inches(0.75), high=inches(1)), state=StickerState.WET),
        ),
        ("stickers 3/4 in, of plywood", Stickers(thickness=inches(0.75), plywood=True)),
        (
            "stickers 3/4 in x 1 in of white oak, grooved, out of line",
            Stickers(thickness=inches(0.75), width=inches(1), wood=name("white oak"), grooved=True, out_of_line=True),
        ),
        ("stickers 1 in thick, 2 in wide", Stickers(thickness=inches(1), width=inches(2))),
    ],
)
def test_stickers_are_told_by_size_spacing_and_state(statement: str, expected: Stickers) -> None:
    assert stack_with(statement).stickers == expected


@pytest.mark.parametrize(
    ("statement", "expected"),
    [
        ("bearers none", Bearers(kind=BearerKind.NONE)),
        ("bearers pallets", Bearers(kind=BearerKind.PALLETS)),
        (
            "bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads",
            Bearers(
                sides=(inches(4), inches(6)),
                wood=name("white oak"),
                every=inches(24),
                pads=Pads(sides=(inches(8), inches(16))),
            ),
        ),
        (
            "bearers steel 4 in x 4 in, at 1 ft, 5 ft, carries 4000 lb",
            Bearers(
                kind=BearerKind.STEEL,
                sides=(inches(4), inches(4)),
                at=(feet(1), feet(5)),
                carries=of(4000, Unit.POUND),
            ),
        ),
        (
            "bearers 6 in x 6 in, 3 of them, 1 ft from ends",
            Bearers(sides=(inches(6), inches(6)), count=3, from_ends=feet(1)),
        ),
        (
            "bearers 6 in x 6 in, on 3 pads of 8 in x 16 in",
            Bearers(sides=(inches(6), inches(6)), pads=Pads(sides=(inches(8), inches(16))), pads_count=3),
        ),
        (
            "bearers 6 in x 6 in, on 8 in x 8 in x 16 in blocks",
            Bearers(
                sides=(inches(6), inches(6)),
                pads=Pads(blocks=True, sides=(inches(8), inches(8), inches(16))),
            ),
        ),
        ("bearers timber, on 2 blocks", Bearers(pads=Pads(blocks=True), pads_count=2)),
    ],
)
def test_bearers_are_told_by_section_spacing_and_what_they_stand_on(statement: str, expected: Bearers) -> None:
    assert stack_with(statement).bearers == expected


PLAIN = Boards(
    label=name("a"), count=60, wood=name("white ash"), thickness=of(4, Unit.QUARTER), width=inches(6), length=feet(8)
)


@pytest.mark.parametrize(
    ("statement", "changes"),
    [
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft", {}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, green", {"moisture": MoistureWord.GREEN}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, air dried", {"moisture": MoistureWord.AIR_DRIED}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, kiln dried", {"moisture": MoistureWord.KILN_DRIED}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, 35%", {"moisture": percent(35)}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, at 35%", {"moisture": percent(35)}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, flatsawn", {"face": Face.FLAT}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, quartersawn", {"face": Face.QUARTER}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, riftsawn", {"face": Face.RIFT}),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, live edge", {"live_edge": True}),
        (
            "boards a: 60 of white ash 4/4 x 6 in x 8 ft, boxed heart, squares",
            {"boxed_heart": True, "squares": True},
        ),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, for 13/16 in finished", {"finished": inches(0.8125)}),
        (
            "boards a: 350 bf of white ash 4/4 x 5 to 9 in x 8 ft",
            {
                "count": None,
                "volume": of(350, Unit.BOARD_FOOT),
                "width": Range(low=inches(5), high=inches(9)),
            },
        ),
        ("boards a: 60 of white ash 4/4 x 6 in x 6 to 10 ft", {"length": Range(low=feet(6), high=feet(10))}),
        ("boards a: 60 of white ash 4/4 x 6 in, 6 to 10 ft", {"length": Range(low=feet(6), high=feet(10))}),
        ("boards a: 60 of white ash 4/4 x random width x 8 ft", {"width": None}),
        ("boards a: 60 of white ash 4/4 x 8 ft, random width", {"width": None}),
        ("boards a: 60 of white ash 4/4 x 6 in, 8 ft long", {}),
    ],
)
def test_boards_are_told_by_count_wood_size_and_state(statement: str, changes: dict[str, object]) -> None:
    assert stack_with(statement).boards == (PLAIN.model_copy(update=changes),)


def test_green_ash_is_a_wood_though_green_is_a_moisture() -> None:
    (boards,) = stack_with("boards a: 60 of green ash 4/4 x 6 in x 8 ft, green").boards
    assert boards.wood == name("green ash")
    assert boards.moisture is MoistureWord.GREEN


def test_courses_are_told_from_the_ground_up() -> None:
    stack = stack_with(
        GROUP,
        GROUP.replace("a:", "b:"),
        "course 1 to 6: 8 rows of a + a",
        "course 7: 4 rows of a + b, 1 row of b",
    )
    a, b = name("a"), name("b")
    assert stack.courses == (
        Courses(first=1, last=6, rows=(CourseRows(count=8, labels=(a, a)),)),
        Courses(first=7, last=7, rows=(CourseRows(count=4, labels=(a, b)), CourseRows(count=1, labels=(b,)))),
    )


def test_readings_say_when_how_wet_and_where() -> None:
    stack = stack_with(
        GROUP, "reading 2026-05-10 41%", "reading 2026-05-20 38%, of a, core", "reading 2026-05-21 30%, outer boards"
    )
    assert stack.readings == (
        Reading(day=day("2026-05-10"), moisture=percent(41)),
        Reading(day=day("2026-05-20"), moisture=percent(38), label=name("a"), taken_from=ReadingFrom.CORE),
        Reading(day=day("2026-05-21"), moisture=percent(30), taken_from=ReadingFrom.OUTER_BOARDS),
    )


def test_a_rule_is_waived_with_a_reason_until_a_day() -> None:
    stack = stack_with('waive stickers-wet because "dry ones come # Friday" until 2026-07-01', "waive ends-bare")
    assert stack.waivers == (
        Waiver(rule=name("stickers-wet"), reason="dry ones come # Friday", until=day("2026-07-01")),
        Waiver(rule=name("ends-bare")),
    )


@pytest.mark.parametrize(
    ("statement", "field", "expected"),
    [
        ("starts 2026-07-01", "starts", day("2026-07-01")),
        ("schedule T8-D4", "schedule", name("T8-D4")),
        ('schedule "own, mild"', "schedule", name("own, mild")),
        ("baffles top, ends, floor", "baffles", Baffles(top=True, ends=True, floor=True)),
        ("baffles none", "baffles", Baffles()),
        ("sterilize", "sterilize", Said()),
        (
            "runs at 110 F 85%",
            "runs",
            (Setting(dry_bulb=of(110, Unit.FAHRENHEIT), humidity=percent(85)),),
        ),
        (
            "runs at 110 F / 102 F",
            "runs",
            (Setting(dry_bulb=of(110, Unit.FAHRENHEIT), wet_bulb=of(102, Unit.FAHRENHEIT)),),
        ),
        (
            "hold 150 F for 4 h",
            "hold",
            Hold(temperature=of(150, Unit.FAHRENHEIT), time=of(4, Unit.HOUR)),
        ),
        ("fans 12 h/day", "fan_hours", FanHours(a_day=of(12, Unit.HOUR))),
    ],
)
def test_a_statement_of_a_charge_says_how_the_kiln_is_run(statement: str, field: str, expected: object) -> None:
    stack = stack_with(statement, header='charge "2026-07" in kiln "North box"')
    assert stack.kind is StackKind.CHARGE
    assert stack.kiln == name("North box")
    assert getattr(stack, field) == expected


def test_a_pile_has_a_name_and_a_title() -> None:
    stack = stack_with(header='pile "B2" "Ash for flooring"')
    assert (stack.kind, stack.name.text, stack.title) == (StackKind.PILE, "B2", "Ash for flooring")


def test_letter_case_and_indentation_mean_nothing() -> None:
    assert (
        stack_with("STICKERS 3/4 IN, Every 24 In").stickers == stack_with("    stickers 3/4 in, every 24 in").stickers
    )


def test_a_line_that_ends_in_a_comma_goes_on_over_comments() -> None:
    stack = stack_with("stickers 3/4 in,  # dry ones, if they come", "  # the others are wet", "  every 24 in")
    assert stack.stickers == Stickers(thickness=inches(0.75), every=inches(24))
