"""Everyday ways of writing sizes, counts and amounts: the clear ones are taken, the others refused with a way out.

The spellings are those met in public accounts of lumber stacks: common practice, no source.
"""

from __future__ import annotations

import pytest

from stacklint.faults import Fault
from stacklint.language import read
from stacklint.plan.boards import Boards, Face, MoistureWord
from stacklint.plan.node import Quantity, Range
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind
from stacklint.units import Unit


def stack_with(statement: str) -> Stack:
    result = read(f'pile "B2"\n{statement}')
    assert result.faults == ()
    return result.plan.stacks[0]


def fault_of(statement: str) -> Fault:
    (fault,) = read(f'pile "B2"\n{statement}').faults
    return fault


def boards_of(rest: str, amount: str = "60") -> Boards:
    return stack_with(f"boards a: {amount} of white ash {rest}").boards[0]


@pytest.mark.parametrize(
    ("said", "number", "unit"),
    [
        ("24 in", 24, Unit.INCH),
        ("24in", 24, Unit.INCH),
        ("24 in.", 24, Unit.INCH),
        ("24 inches", 24, Unit.INCH),
        ("24-inch", 24, Unit.INCH),
        ('24"', 24, Unit.INCH),
        ("24”", 24, Unit.INCH),
        ("24″", 24, Unit.INCH),
        ("24''", 24, Unit.INCH),
        ('24""', 24, Unit.INCH),
        ("1 1/4 in", 1.25, Unit.INCH),
        ("1-1/4 in", 1.25, Unit.INCH),
        ("1¼ in", 1.25, Unit.INCH),
        ("1 ¼ in", 1.25, Unit.INCH),
        ("¾ in", 0.75, Unit.INCH),
        ('¾"', 0.75, Unit.INCH),
        ("5⅝ in", 5.625, Unit.INCH),
        ("1.25 in", 1.25, Unit.INCH),
        (".5 in", 0.5, Unit.INCH),
        ("2 ft", 2, Unit.FOOT),
        ("2 foot", 2, Unit.FOOT),
        ("2 feet", 2, Unit.FOOT),
        ("2'", 2, Unit.FOOT),
        ("2’", 2, Unit.FOOT),
        ("2′", 2, Unit.FOOT),
        ("8' 6\"", 102, Unit.INCH),
        ("8 ft 6 in", 102, Unit.INCH),
        ("8'6\"", 102, Unit.INCH),
        ("12 feet, 2 inches", 146, Unit.INCH),
        ("about 24 in", 24, Unit.INCH),
        ("roughly 24 in", 24, Unit.INCH),
        ("~24 in", 24, Unit.INCH),
        ("two inch", 2, Unit.INCH),
        ("500mm", 500, Unit.MILLIMETRE),
        ("50 cm", 50, Unit.CENTIMETRE),
        ("2.2m", 2.2, Unit.METRE),
        ("2 metres", 2, Unit.METRE),
    ],
)
def test_a_length_may_be_written_in_many_ways(said: str, number: float, unit: Unit) -> None:
    clearance = stack_with(f"clearance {said}").clearance
    assert clearance is not None
    assert clearance.height == Quantity(number=number, unit=unit)


@pytest.mark.parametrize(
    "said",
    [
        "stickers 16 in on center",
        "stickers 16 in on centers",
        'stickers 16" o.c.',
        "stickers 16 in oc",
        "stickers 16 in centres",
        "stickers 16 in apart",
        "stickers 16-inch spacing",
        "stickers 16 in intervals",
        "stickers every 16 in on centers",
        "sticks every 16 in",
        "slats every 16 in",
        "lath every 16 in",
        "spacers every 16 in",
        "fillets every 16 in",
        "battens every 16 in",
    ],
)
def test_a_spacing_of_stickers_may_be_said_in_many_ways(said: str) -> None:
    assert stack_with(said) == stack_with("stickers every 16 in")


@pytest.mark.parametrize(
    "said",
    ["stickers four stickers per layer", "stickers 4 a course", "stickers 4 sticks per course", "stickers 4 per tier"],
)
def test_stickers_may_be_counted_by_the_course(said: str) -> None:
    stickers = stack_with(said).stickers
    assert stickers is not None and stickers.count == 4


@pytest.mark.parametrize(
    "said", ["stickers 2 in from the ends", "stickers 2 in from each end", 'stickers within 2" of the ends']
)
def test_how_near_the_ends_the_stickers_stand_may_be_said_in_many_ways(said: str) -> None:
    stickers = stack_with(said).stickers
    assert stickers is not None and stickers.from_ends == Quantity(number=2, unit=Unit.INCH)


@pytest.mark.parametrize("word", ["bunks", "bolsters", "sleepers", "skids", "runners", "dunnage", "bearers"])
def test_bearers_go_by_many_names(word: str) -> None:
    bearers = stack_with(f"{word} 4x6 of white oak, every 24 in").bearers
    assert bearers is not None
    assert bearers.kind is BearerKind.TIMBER
    assert [side.number for side in bearers.sides] == [4, 6]


def test_cinder_blocks_are_blocks() -> None:
    bearers = stack_with("bearers 6 in x 6 in, on cinder blocks").bearers
    assert bearers is not None and bearers.pads is not None and bearers.pads.blocks


@pytest.mark.parametrize(
    "rest",
    [
        "2x6 x 16'",
        "2x6x16'",
        "2 x 6 x 16 ft",
        "2×6×16 ft",
        "2 X 6 X 16 ft",
        "2 in by 6 in by 16 ft",
        '2" x 6" x 16\'',
        "2 in thick x 6 in wide x 16 ft long",
        "16 ft long x 6 in wide x 2 in thick",
    ],
)
def test_a_board_may_be_written_in_many_ways(rest: str) -> None:
    boards = boards_of(rest)
    assert boards.thickness == Quantity(number=2, unit=Unit.INCH)
    assert boards.width == Quantity(number=6, unit=Unit.INCH)
    assert boards.length == Quantity(number=16, unit=Unit.FOOT)


def test_a_bare_width_between_quarters_and_feet_is_in_inches() -> None:
    boards = boards_of("5/4 x 6 x 10'")
    assert boards.thickness == Quantity(number=5, unit=Unit.QUARTER)
    assert boards.width == Quantity(number=6, unit=Unit.INCH)


def test_figures_share_the_unit_that_the_last_of_them_has() -> None:
    boards = boards_of("20 x 90 mm x 2.2 - 3.6 m")
    assert boards.thickness == Quantity(number=20, unit=Unit.MILLIMETRE)
    assert boards.length == Range(low=Quantity(number=2.2, unit=Unit.METRE), high=Quantity(number=3.6, unit=Unit.METRE))


@pytest.mark.parametrize("said", ["5 to 9 in", "5-9 in", "5–9 in", '5" to 9"', "5 in - 9 in", "5in-9in"])
def test_a_range_may_be_written_with_to_or_a_dash(said: str) -> None:
    assert boards_of(f"4/4 x {said} x 8 ft").width == Range(
        low=Quantity(number=5, unit=Unit.INCH), high=Quantity(number=9, unit=Unit.INCH)
    )


@pytest.mark.parametrize(
    ("said", "board_feet"),
    [
        ("400bf", 400),
        ("400 BF", 400),
        ("500 b.f.", 500),
        ("300 bd ft", 300),
        ("300 bd. ft.", 300),
        ("150bd-ft", 150),
        ("800 bdft", 800),
        ("800 bd/ft", 800),
        ("16,000 bd'", 16000),
        ("250 board feet", 250),
        ("1.5 MBF", 1500),
        ("20K bf", 20000),
        ("1,400 bf", 1400),
        ("about 250 bf", 250),
    ],
)
def test_board_feet_may_be_written_in_many_ways(said: str, board_feet: float) -> None:
    assert boards_of("4/4 x 6 in x 8 ft", said).volume == Quantity(number=board_feet, unit=Unit.BOARD_FOOT)


@pytest.mark.parametrize("said", ["60", "60 boards", "60 pieces", "60 pcs", "about 60"])
def test_boards_are_counted_by_the_piece(said: str) -> None:
    assert boards_of("4/4 x 6 in x 8 ft", said).count == 60


@pytest.mark.parametrize("said", ["18%", "18 %", "18 percent", "18% MC", "18% moisture content", "at 18%"])
def test_a_moisture_may_be_written_in_many_ways(said: str) -> None:
    assert boards_of(f"4/4 x 6 in x 8 ft, {said}").moisture == Quantity(number=18, unit=Unit.PERCENT)


@pytest.mark.parametrize(
    ("said", "moisture"),
    [
        ("wet off the saw", MoistureWord.GREEN),
        ("dead green", MoistureWord.GREEN),
        ("AD", MoistureWord.AIR_DRIED),
        ("air-dried", MoistureWord.AIR_DRIED),
        ("shed dried", MoistureWord.AIR_DRIED),
        ("KD", MoistureWord.KILN_DRIED),
    ],
)
def test_a_moisture_may_be_said_in_a_word(said: str, moisture: MoistureWord) -> None:
    assert boards_of(f"4/4 x 6 in x 8 ft, {said}").moisture is moisture


def test_quarter_sawn_may_be_two_words() -> None:
    assert boards_of("4/4 x 6 in x 8 ft, quarter-sawn").face is Face.QUARTER


@pytest.mark.parametrize(
    ("said", "kind", "kept"),
    [
        ("carport", PlaceKind.OPEN_SHED, "carport"),
        ("porch", PlaceKind.OPEN_SHED, "porch"),
        ("pole barn", PlaceKind.OPEN_SHED, "pole barn"),
        ("lean-to", PlaceKind.OPEN_SHED, "lean-to"),
        ("barn loft", PlaceKind.CLOSED_BARN, "barn loft"),
        ("open shed", PlaceKind.OPEN_SHED, None),
    ],
)
def test_an_everyday_place_is_the_nearest_kind_and_keeps_its_name(said: str, kind: PlaceKind, kept: str | None) -> None:
    place = stack_with(f"place {said}").place
    assert place is not None
    assert (place.kind, place.said) == (kind, kept)


@pytest.mark.parametrize(
    "said", ["68 F 45%", "68F 45%", "68 deg F 45%", "68 deg. F 45%", "68 degrees F 45% RH", "68°F 45 percent"]
)
def test_the_air_of_a_place_may_be_written_in_many_ways(said: str) -> None:
    place = stack_with(f"place garage, {said}").place
    assert place is not None
    assert place.temperature == Quantity(number=68, unit=Unit.FAHRENHEIT)
    assert place.humidity == Quantity(number=45, unit=Unit.PERCENT)


@pytest.mark.parametrize(
    "said", ["30 psf", "30 lbs per square foot", "30 lbs./sf", "30 lb/ft2", "30 pounds per square foot"]
)
def test_a_top_load_may_be_written_in_many_ways(said: str) -> None:
    load = stack_with(f"top load {said}").top_load
    assert load is not None
    assert load.pressure == Quantity(number=30, unit=Unit.PSF)


@pytest.mark.parametrize("said", ["30 pt/day", "30 pints a day", "30 pints per day", "30 pints/day"])
def test_water_by_the_day_may_be_written_in_many_ways(said: str) -> None:
    fan = stack_with(f"fan removes {said}").fan
    assert fan is not None
    assert fan.removes == Quantity(number=30, unit=Unit.PINT_PER_DAY)


@pytest.mark.parametrize(
    ("statement", "told", "way_out"),
    [
        ('boards a: 60 of white ash 25" x 2" x 7\'', "thickness", "thickness x width x length"),
        ("boards a: 60 of white ash 2/4 x 6 in x 8 ft", "two-by-four", "2 in x 4 in"),
        ("boards a: 60 of white ash 4/4 x 6 in x 2,5 m", "2,5", "2.5"),
        ("boards a: 60 of white ash 4/4 x 6 in x 8", "8 has no unit", "8 ft"),
        ("boards a: 25-30 of white ash 4/4 x 6 in x 8 ft", "range", "one figure"),
        ("boards a: a pack of white ash 4/4 x 6 in x 8 ft", "How many", "number or a volume"),
        ("boards a: 5M of white ash 4/4 x 6 in x 8 ft", "a thousand or a metre", "mbf"),
        ("stickers 3/4 in, 16 centers", "16 has no unit", "16 in, 16 ft, 16 mm or 16 m"),
        ("stickers 3/4 x 1-1/4", "1-1/4 has no unit", "1-1/4 in"),
        ("stickers every 24", "24 has no unit", "24 in, 24 ft, 24 mm or 24 m"),
        ("stickers every 2 to 3 feet", "which spacing", "widest"),
        ("sawn 26-04-02", "more than one day", "2026-04-02"),
        ("sawn 12/22/2016", "more than one day", "2026-04-02"),
        ("sawn 12-22-2016", "more than one day", "2026-04-02"),
        ("sawn 4/2/26", "more than one day", "2026-04-02"),
        ("sawn 05 Dec 2011", "No date", "2026-04-02"),
        ("sawn Dec 5", "No date", "2026-04-02"),
        ("want 12% by next spring", "No date", "2026-04-02"),
        ("want 6 to 8%", "range", "one figure"),
        ("top load 50", "50 has no unit", "50 psf"),
        ("cover tarp, overhang 12", "12 has no unit", "12 in"),
    ],
)
def test_what_could_mean_two_things_is_refused_with_a_plain_way_to_say_it(
    statement: str, told: str, way_out: str
) -> None:
    fault = fault_of(statement)
    assert told in fault.message
    assert way_out in fault.instead
    assert fault.stack == "B2"


@pytest.mark.parametrize("said", ['"row 3"', "“row 3”", '“row 3"', '"  row   3 "'])
def test_a_name_may_stand_in_straight_or_curly_marks(said: str) -> None:
    spot = stack_with(f"spot {said}").spot
    assert spot is not None and spot.text == "row 3"


def test_a_bare_range_of_widths_is_in_the_unit_that_a_bare_width_would_be() -> None:
    """``4/4 x 4 to 6 x 10 ft``: inches wide, as ``4/4 x 6 x 10 ft`` is, and not feet."""
    boards = read('pile "A"\n  boards a: 10 of white ash 4/4 x 4 to 6 x 10 ft\n').plan.stacks[0].boards[0]
    assert isinstance(boards.width, Range)
    assert (boards.width.low.unit, boards.width.high.unit) == (Unit.INCH, Unit.INCH)
    metric = read('pile "A"\n  boards a: 10 of white ash 27 mm x 100 to 150 x 2.4 m\n')
    assert any("has no unit" in fault.message for fault in metric.faults)


def test_a_stack_without_units_is_refused_and_a_nominal_timber_is_taken() -> None:
    stack = read('pile "A"\n  stack 16 x 4\n')
    assert [fault.message for fault in stack.faults] == ["16 has no unit: a length belongs here."]
    assert stack.plan.stacks[0].size is None
    assert read('pile "A"\n  bearers 4x6 of white oak\n').faults == ()
