"""Faulty texts: every fault is reported once, at its own place, in a writer's words; the rest is read."""

from __future__ import annotations

import datetime

import pytest

from stacklint.faults import Fault, FaultKind, Measure
from stacklint.language import ReadPlan, read
from stacklint.plan.stack import Stack
from stacklint.plan.supports import StickerState
from stacklint.units import LENGTH, NUMBER

TODAY = datetime.date(2026, 6, 1)

TEN_FAULTS = """\
site "Cold Hollow"
  near "Columbus, OH
kiln "North box"
  type dehumidificaton
  holds 1400 lb
pile "B2"
  place open yard, site "Warm Hollow"
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, grene, flatsawn
  boards b: 40 of whte ash 1 in x 6 in x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 inchs, dri
  bearers 4 in x 6 in of white oak, every 24 in
  reading 2026-02-30 41%
  heats to 150 F
"""


def faults_of(text: str) -> tuple[Fault, ...]:
    return read(text, today=TODAY).faults


def in_pile(statement: str) -> ReadPlan:
    return read(f'pile "B2"\n{statement}', today=TODAY)


def pile_of(result: ReadPlan) -> Stack:
    return result.plan.stacks[0]


def test_a_text_with_ten_faults_gives_ten_each_at_its_own_place() -> None:
    result = read(TEN_FAULTS, "b2.stackplan", today=TODAY)
    assert [(fault.where[1:], fault.kind, fault.stack) for fault in result.faults] == [
        ((2, 8, 2, 21), FaultKind.PLAN_TEXT, None),
        ((4, 8, 4, 23), FaultKind.PLAN_TEXT, None),
        ((5, 9, 5, 16), FaultKind.PLAN_TEXT, None),
        ((7, 25, 7, 38), FaultKind.UNKNOWN_PLACE, "B2"),
        ((8, 48, 8, 53), FaultKind.PLAN_TEXT, "B2"),
        ((9, 19, 9, 27), FaultKind.UNKNOWN_SPECIES, "B2"),
        ((10, 40, 10, 45), FaultKind.PLAN_TEXT, "B2"),
        ((10, 47, 10, 50), FaultKind.PLAN_TEXT, "B2"),
        ((12, 11, 12, 21), FaultKind.VALUE_OUT_OF_RANGE, "B2"),
        ((13, 3, 13, 17), FaultKind.PLAN_TEXT, "B2"),
    ]
    assert {fault.where.path for fault in result.faults} == {"b2.stackplan"}


def test_what_stands_around_the_faults_is_read_all_the_same() -> None:
    stack = pile_of(read(TEN_FAULTS, today=TODAY))
    assert [boards.label.text for boards in stack.boards] == ["a", "b"]
    assert stack.boards[0].face is not None
    assert stack.stickers is not None and stack.stickers.thickness is not None
    assert stack.bearers is not None and stack.bearers.every is not None
    assert stack.faulty == {"place", "boards", "stickers", "reading"}


@pytest.mark.parametrize(
    ("statement", "way_out"),
    [
        ("stickers every 24 inchs", "inches"),
        ("stickers evry 24 in", "every 24 in"),
        ("cover sheet metl", "sheet metal"),
        ("boards a: 60 of white ash 4/4 x 6 in x 8 ft, quatersawn", "quartersawn"),
        ("ends coted", "coated"),
        ("ground gravle", "gravel"),
        ("stikers every 24 in", "stickers"),
        ("top laod 50 psf", "load"),
        ("place grenhouse", "greenhouse"),
        ("boards a: 60 of whit ash 4/4 x 6 in x 8 ft", "white ash"),
    ],
)
def test_a_slip_of_the_pen_is_answered_with_the_nearest_word(statement: str, way_out: str) -> None:
    (fault,) = in_pile(statement).faults
    assert f"Write {way_out}" in fault.instead


@pytest.mark.parametrize(
    ("statement", "columns"),
    [
        ("  stickers every 24 lb", (18, 23)),
        ("  stickers 3/4 in x 1 in every 24 in", (26, 31)),
        ("  stickers 3/4 in, dry,", (23, 24)),
        ("  stickers", (3, 11)),
        ("  clearance 14 in, dry", (20, 23)),
        ('  spot "row 3', (8, 14)),
        ("  ground gravel & flat", (17, 18)),
        ("  boards a: 60 of white ash 4/4 x 6 in x 8 ft green", (47, 52)),
        ("  boards 60 of white ash 4/4 x 6 in x 8 ft", (10, 12)),
        ("  24 in", (3, 8)),
    ],
)
def test_a_fault_stands_at_the_columns_of_what_is_wrong(statement: str, columns: tuple[int, int]) -> None:
    (fault,) = in_pile(statement).faults
    assert (fault.where.line, fault.where.end_line) == (2, 2)
    assert (fault.where.column, fault.where.end_column) == columns


def test_columns_are_right_in_a_statement_over_several_lines() -> None:
    (fault,) = in_pile("stickers 3/4 in,\n  every 24 in,\n    grooved,\n   dri").faults
    assert fault.where[1:] == (5, 4, 5, 7)


def test_a_wrong_kind_of_figure_is_called_by_its_name() -> None:
    (fault,) = in_pile("stickers every 24 lb").faults
    assert fault.message == "24 lb is a weight; a length belongs here."
    assert fault.instead == "Write a length such as 24 in."


def test_two_faulty_details_of_a_line_are_two_faults_and_the_third_is_read() -> None:
    result = in_pile("stickers 3/4 in x 1 in, every 24 lb, dry, drie")
    assert [fault.where.column for fault in result.faults] == [31, 43]
    stickers = pile_of(result).stickers
    assert stickers is not None
    assert stickers.state is StickerState.DRY


def test_positions_whose_first_cannot_be_read_are_one_fault() -> None:
    (fault,) = in_pile("stickers 3/4 in, at 1, 2 ft, 4 ft, dry").faults
    assert fault.where.column == 21


@pytest.mark.parametrize("character", ["\x00", "\x07", "\x1b", "\x0b", "\u2028", "\u200b"])
def test_a_character_that_cannot_be_seen_is_a_fault_where_it_stands(character: str) -> None:
    (fault,) = in_pile(f"ground gravel{character}").faults
    assert fault.where.column == 14
    assert "cannot be seen" in fault.message


def test_a_statement_outside_any_block_is_told_where_it_belongs() -> None:
    (fault,) = faults_of("stickers every 24 in")
    assert fault.message == "The statement stickers stands outside any block."
    assert "pile or charge" in fault.instead


def test_a_statement_in_the_wrong_block_is_told_where_it_belongs() -> None:
    (fault,) = faults_of('kiln "K"\n sawn 2026-03-30')
    assert fault.message == "The statement sawn belongs in a pile or charge, not in a kiln."


def test_hours_of_the_fans_belong_to_a_charge_and_their_number_to_the_kiln() -> None:
    text = 'kiln "K"\n fans 12 h/day\ncharge "C" in kiln "K"\n fans 4 of 2400 cfm'
    assert [fault.where.line for fault in faults_of(text)] == [2, 4]


def test_of_a_statement_said_twice_the_first_is_kept() -> None:
    result = in_pile("clearance 14 in\nclearance 16 in")
    (fault,) = result.faults
    assert fault.where.line == 3
    clearance = pile_of(result).clearance
    assert clearance is not None and clearance.height.number == 14


def test_of_a_detail_said_twice_the_first_is_kept() -> None:
    result = in_pile("cover tarp, gap 4 in, gap 6 in")
    (fault,) = result.faults
    assert fault.where.column == 23
    cover = pile_of(result).cover
    assert cover is not None and cover.gap is not None and cover.gap.number == 4


@pytest.mark.parametrize(
    "statement", ["stickers every 24 in, 5 a course", "bearers every 24 in, at 1 ft", "top load 50 psf, 600 lb"]
)
def test_one_thing_said_in_two_ways_is_a_fault(statement: str) -> None:
    (fault,) = in_pile(statement).faults
    assert "twice" in fault.message


def test_a_misspelt_block_is_still_a_block_of_its_own() -> None:
    result = read('pile "A"\n clearance 14 in\npyle "B"\n clearance 16 in', today=TODAY)
    assert [(fault.where.line, fault.instead) for fault in result.faults] == [(3, "Write pile.")]
    assert [stack.name.text for stack in result.plan.stacks] == ["A", "B"]


def test_a_block_without_quotation_marks_is_still_a_block_of_its_own() -> None:
    result = read("pile B2\n clearance 14 in", today=TODAY)
    (fault,) = result.faults
    assert fault.where[1:] == (1, 6, 1, 8)
    assert "name in quotation marks" in fault.instead
    assert pile_of(result).clearance is not None


def test_a_comma_before_a_new_statement_is_the_fault_and_both_statements_are_read() -> None:
    result = in_pile("stickers 3/4 in, dry,\nwind across")
    (fault,) = result.faults
    assert fault.where[1:] == (2, 21, 2, 22)
    assert pile_of(result).stickers is not None
    assert pile_of(result).wind is not None


def test_a_comma_on_a_line_of_its_own_is_one_fault_and_the_next_statement_is_read() -> None:
    result = in_pile(",\nwind across")
    (fault,) = result.faults
    assert fault.where[1:] == (2, 1, 2, 2)
    assert pile_of(result).wind is not None


@pytest.mark.parametrize(
    ("statement", "columns", "found", "limit"),
    [
        ("clearance 20 ft", (11, 16), Measure(6.096, LENGTH), Measure(5.0, LENGTH)),
        ("clearance -3 in", (11, 16), Measure(-0.0762, LENGTH), Measure(0.0, LENGTH)),
        (
            "boards a: 60 of white ash 4/4 x 6 in x 8 ft, 400%",
            (46, 50),
            Measure(4.0, NUMBER),
            Measure(2.8, NUMBER),
        ),
        ("boards a: 0 of white ash 4/4 x 6 in x 8 ft", (11, 12), Measure(0, NUMBER), Measure(1, NUMBER)),
        (
            "boards a: 100,001 of white ash 4/4 x 6 in x 8 ft",
            (11, 18),
            Measure(100_001, NUMBER),
            Measure(100_000, NUMBER),
        ),
    ],
)
def test_a_figure_that_cannot_be_is_told_with_its_limit(
    statement: str, columns: tuple[int, int], found: Measure, limit: Measure
) -> None:
    (fault,) = in_pile(statement).faults
    assert fault.kind is FaultKind.VALUE_OUT_OF_RANGE
    assert (fault.where.column, fault.where.end_column) == columns
    assert fault.found is not None and fault.limit is not None
    assert fault.found.value == pytest.approx(found.value)
    assert fault.limit == limit


def test_a_figure_that_cannot_be_leaves_the_rest_of_its_statement() -> None:
    result = in_pile("boards a: 60 of white ash 4/4 x 6 in x 8 ft, 400%, flatsawn")
    (boards,) = pile_of(result).boards
    assert boards.moisture is None
    assert boards.face is not None
    assert pile_of(result).faulty == {"boards"}


@pytest.mark.parametrize(
    "statement",
    [
        "sawn 2026-02-30",
        "sawn 2026-13-01",
        "stacked 0000-01-01",
        "reading 2026-06-02 41%",
        "course 6 to 1: 8 rows of a",
        "boards a: 60 of white ash 4/4 x 9 to 5 in x 8 ft",
        "cover tarp, slope 5 in 1",
        "cover tarp, slope 1 in 0",
    ],
)
def test_impossible_dates_readings_to_come_and_backward_ranges_are_out_of_range(statement: str) -> None:
    (fault,) = in_pile(statement).faults
    assert fault.kind is FaultKind.VALUE_OUT_OF_RANGE


def test_a_reading_of_today_is_no_fault() -> None:
    assert in_pile("reading 2026-06-01 41%").faults == ()


def test_a_group_needs_a_whole_number_of_boards() -> None:
    (fault,) = in_pile("boards a: 6.5 of white ash 4/4 x 6 in x 8 ft").faults
    assert "whole number" in fault.message


@pytest.mark.parametrize(
    ("statement", "missing"),
    [
        ("boards a: 60 of white ash 4/4 x 6 in", "length"),
        ("boards a: 60 of white ash 4/4 x 8 ft long", "width"),
        ("stack 16 ft", "width"),
        ("place in the sun", "kind of place"),
        ("cover overhang 12 in", "made of"),
        ("sides on the ends", "sides"),
        ("wind", "Something is missing"),
    ],
)
def test_a_statement_without_its_chief_thing_says_what_is_missing(statement: str, missing: str) -> None:
    (fault,) = in_pile(statement).faults
    assert missing in fault.message


def test_a_label_used_twice_is_a_fault_at_the_second() -> None:
    group = "boards a: 1 of white ash 4/4 x 6 in x 8 ft"
    (fault,) = in_pile(f"{group}\n{group}").faults
    assert (fault.kind, fault.where[1:]) == (FaultKind.PLAN_TEXT, (3, 8, 3, 9))


def test_a_course_of_boards_that_are_not_listed_is_a_fault_with_the_nearest_label() -> None:
    group = "boards long: 1 of white ash 4/4 x 6 in x 8 ft"
    (fault,) = in_pile(f"{group}\ncourse 1: 2 rows of lnog + long").faults
    assert fault.where[1:] == (3, 21, 3, 25)
    assert fault.instead == "Write long."


def test_a_course_of_boards_whose_statement_cannot_be_read_is_no_second_fault() -> None:
    assert len(in_pile("boards a: sixty of white ash\ncourse 1: 2 rows of a").faults) == 1


@pytest.mark.parametrize(
    ("text", "kind", "place", "way_out"),
    [
        ('kiln "North box"\ncharge "C" in kiln "North bx"', FaultKind.UNKNOWN_KILN, (2, 20), 'Write "North box".'),
        ('pile "B2"\ncharge "C"\n from pile "B3"', FaultKind.PLAN_TEXT, (3, 12), 'Write "B2".'),
        ('site "A"\n near "Colombus, OH"', FaultKind.UNKNOWN_PLACE, (2, 7), "Columbus"),
        ('wood "mine"\n like whit ash', FaultKind.UNKNOWN_SPECIES, (2, 7), "white ash"),
        ('pile "B2"\n bearers 4x6 of whit oak', FaultKind.UNKNOWN_SPECIES, (2, 17), "white oak"),
        ('pile "B2"\n stickers 1 in, of whit oak', FaultKind.UNKNOWN_SPECIES, (2, 20), "white oak"),
        ('pile "B2"\npile "B2"', FaultKind.NAME_USED_TWICE, (2, 6), "its own name"),
        ('site "A"\nsite "A"', FaultKind.NAME_USED_TWICE, (2, 6), "its own name"),
    ],
)
def test_a_name_that_nothing_bears_is_answered_with_the_nearest(
    text: str, kind: FaultKind, place: tuple[int, int], way_out: str
) -> None:
    (fault,) = faults_of(text)
    assert fault.kind is kind
    assert (fault.where.line, fault.where.column) == place
    assert way_out in fault.instead


def test_a_wood_that_the_plan_describes_is_known() -> None:
    text = 'wood "osage orange"\n like black locust\npile "B2"\n boards a: 1 of Osage Orange 1 in x 6 in x 8 ft'
    assert faults_of(text) == ()


def test_one_misspelt_detail_is_told_once() -> None:
    faults = read('pile "A"\n  bearers 4 in x 6 in of white oak, evry 24 in\n').faults
    assert [fault.message for fault in faults] == ["evry is not a detail of the statement bearers."]


@pytest.mark.parametrize("date", ["1899-12-31", "2201-01-01", "0001-01-01", "9999-12-31"])
def test_a_day_that_no_stack_of_today_was_built_on_is_a_slip_of_the_pen(date: str) -> None:
    plan = read(f'pile "A"\n  stacked {date}\n', today=datetime.date(2026, 6, 1))
    assert [(fault.kind, fault.where.line) for fault in plan.faults] == [(FaultKind.VALUE_OUT_OF_RANGE, 2)]
