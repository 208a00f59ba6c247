"""Courses laid anew: the fewest left over, said as statements that lay them so, and what would fill the rest."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stacklint.arranging.arranged import arranged, with_boards
from stacklint.arranging.sizes import best_length, unpaired, usual_lengths
from stacklint.language import read
from stacklint.language.write_stack import course_words
from stacklint.layout import Arrangement, arrange
from stacklint.plan.stack import Stack
from stacklint.units import ONE_FOOT, System

PLAN = 'pile "B2"\n {}\n stack {}\n stickers 3/4 in x 1 1/4 in, every 24 in\n'


def stack_of(*boards: str, size: str = "16 ft x 4 ft", courses: tuple[str, ...] = ()) -> Stack:
    lines = [f"boards {label}: {said}" for label, said in zip("abcdefgh", boards, strict=False)]
    found = read(PLAN.format("\n ".join([*lines, *courses]), size))
    assert found.faults == ()
    return found.plan.stacks[0]


def ash(count: int, length: str, thickness: str = "4/4", width: str = "6 in") -> str:
    return f"{count} of white ash {thickness} x {width} x {length}, green"


def said(stack: Stack) -> list[str]:
    return [course_words(course) for course in arranged(stack).laid.courses]


def pieces(arrangement: Arrangement) -> list[Counter[tuple[str, ...]]]:
    """The rows of each course by their labels."""
    found = []
    for run in arrangement.courses:
        rows: Counter[tuple[str, ...]] = Counter()
        for each in run.rows:
            rows[tuple(piece.label for piece in each.row.pieces)] += each.count
        found += [rows] * run.count
    return found


def wanted(stack: Stack) -> list[tuple[int, float]]:
    return [(fill.boards, round(fill.length / ONE_FOOT, 3)) for fill in arranged(stack).partners.boards]


def test_twelves_and_fours_share_rows_of_sixteen_feet() -> None:
    assert said(stack_of(ash(64, "8 ft"), ash(16, "12 ft"), ash(16, "4 ft"))) == [
        "course 1 to 2: 8 rows of b + c",
        "course 3 to 6: 8 rows of a + a",
    ]


def test_the_courses_of_the_plan_are_laid_anew() -> None:
    """As written each 12 ft board lies alone (four fours fill a row); beside the fours none is left over."""
    stack = stack_of(ash(8, "12 ft"), ash(8, "4 ft"), courses=("course 1: 8 rows of a",))
    found = arranged(stack)
    assert unpaired(found.laid.arrangement) == 0
    assert found.as_written is not None
    assert unpaired(found.as_written) == 8


def test_boards_without_a_partner_lie_on_top_and_their_partners_are_told() -> None:
    stack = stack_of(ash(16, "8 ft"), ash(3, "12 ft"))
    assert said(stack)[-1] == "course 2: 3 rows of b"
    assert wanted(stack) == [(3, 4.0)]


def test_a_short_row_is_filled_with_lengths_that_the_stack_has() -> None:
    """6 ft and 10 ft come to 16 ft: the sixes want tens, of which there are too few."""
    assert wanted(stack_of(ash(8, "6 ft"), ash(5, "10 ft"), size="16 ft x 4 ft"))[0] == (1, 10.0)


def test_a_gap_too_short_for_a_board_is_told_and_not_filled() -> None:
    """No board of a foot lies on two stickers that stand two feet apart."""
    found = arranged(stack_of(ash(4, "15 ft")))
    assert found.partners.boards == ()
    assert [(stop.rows, round(stop.gap / ONE_FOOT, 3)) for stop in found.partners.stops] == [(4, 1.0)]


def test_a_short_row_that_no_board_fills_gives_up_its_shortest_board() -> None:
    """10 ft and 5 ft leave a foot; apart they want 6 ft and 11 ft."""
    assert wanted(stack_of(ash(1, "10 ft"), ash(1, "5 ft"))) == [(1, 11.0), (1, 6.0)]


def test_a_course_not_full_has_room_for_more_rows() -> None:
    (room,) = arranged(stack_of(ash(26, "8 ft"))).rooms
    assert (room.course, room.rows) == (2, 3)
    assert [(fill.boards, fill.length / ONE_FOOT) for fill in room.boards] == [(6, pytest.approx(8))]


def test_a_full_course_has_no_room() -> None:
    assert arranged(stack_of(ash(32, "8 ft"))).rooms == ()


def test_gaps_and_a_flue_take_their_room_from_the_course() -> None:
    """Three rows of 6 in with 1 in between, and a flue of 7 in: 48 in hold 6 rows with gaps, 5 beside the flue."""
    (room,) = arranged(stack_of(ash(3, "16 ft"), size="16 ft x 4 ft, boards 1 in apart, flue 7 in")).rooms
    laid = arrange(stack_of(ash(60, "16 ft"), size="16 ft x 4 ft, boards 1 in apart, flue 7 in"))
    assert room.rows == sum(rows.count for rows in laid.courses[0].rows) - 3


def test_each_thickness_has_courses_and_partners_of_its_own() -> None:
    stack = stack_of(ash(3, "12 ft"), ash(5, "4 ft", thickness="8/4"))
    found = arranged(stack)
    assert {fill.thickness for fill in found.partners.boards} == {0.0254, 0.0508}
    assert len({run.thickness for run in found.laid.arrangement.courses}) == 2


def test_lengths_that_one_group_mixes_are_said_where_a_statement_lays_them_as_well() -> None:
    """6 and 10, 7 and 9, 8 and 8 ft: every row is of a + a, and the layout finds the pairs again."""
    stack = stack_of(ash(50, "6 to 10 ft"))
    courses = arranged(stack).laid.courses
    again = arrange(stack.model_copy(update={"courses": courses}))
    assert unpaired(again) == unpaired(arranged(stack).laid.arrangement)
    assert courses


def test_short_rows_of_several_boards_are_left_to_be_laid_by_themselves() -> None:
    """Two boards of 6 ft leave 4 ft free between them; as a written row they would lie pushed together."""
    found = arranged(stack_of(ash(16, "16 ft"), ash(4, "6 ft")))
    assert [course_words(course) for course in found.laid.courses] == ["course 1 to 2: 8 rows of a"]
    assert found.laid.arrangement.course_count == 3


LENGTHS = st.lists(
    st.tuples(st.integers(1, 40), st.integers(3, 16), st.sampled_from(["4/4", "8/4"])), min_size=1, max_size=6
)
RANGES = st.lists(st.tuples(st.integers(1, 60), st.integers(4, 9), st.integers(1, 7)), min_size=1, max_size=3)


@settings(max_examples=120, deadline=None)
@given(LENGTHS)
def test_the_statements_lay_what_was_laid(boards: list[tuple[int, int, str]]) -> None:
    stack = stack_of(*(ash(count, f"{length} ft", thickness) for count, length, thickness in boards))
    found = arranged(stack).laid
    again = arrange(stack.model_copy(update={"courses": found.courses}))
    assert again.faults == ()
    assert unpaired(again) == unpaired(found.arrangement)
    assert again.course_count == found.arrangement.course_count
    if found.courses:
        top = found.courses[-1].last
        assert pieces(again)[:top] == pieces(found.arrangement)[:top]


@settings(max_examples=60, deadline=None)
@given(RANGES)
def test_statements_on_ranges_of_lengths_never_leave_more_over(boards: list[tuple[int, int, int]]) -> None:
    stack = stack_of(*(ash(count, f"{low} to {min(16, low + more)} ft") for count, low, more in boards))
    found = arranged(stack).laid
    again = arrange(stack.model_copy(update={"courses": found.courses}))
    assert unpaired(again) <= unpaired(found.arrangement)


@settings(max_examples=120, deadline=None)
@given(LENGTHS)
def test_with_the_partners_told_no_board_is_left_over_but_where_none_fits(boards: list[tuple[int, int, str]]) -> None:
    stack = stack_of(*(ash(count, f"{length} ft", thickness) for count, length, thickness in boards))
    missing = arranged(stack).partners
    after = arrange(with_boards(stack, missing.boards))
    if not missing.stops:
        assert unpaired(after) == 0
    assert unpaired(after) <= unpaired(arrange(stack))


@settings(max_examples=60, deadline=None)
@given(LENGTHS)
def test_with_the_rooms_filled_no_course_has_room_for_another_row(boards: list[tuple[int, int, str]]) -> None:
    stack = stack_of(*(ash(count, f"{length} ft", thickness) for count, length, thickness in boards))
    found = arranged(stack)
    full = with_boards(stack, found.partners.boards)
    for room in found.rooms:
        full = with_boards(full, room.boards)
    if not found.partners.stops:
        assert arranged(full).rooms == ()


def test_the_length_is_chosen_that_leaves_the_fewest_over() -> None:
    """Nine boards of 8 ft: in pairs one is left over, one by one none."""
    stack = stack_of(ash(9, "8 ft"))
    lengths = tuple(usual_lengths(8 * ONE_FOOT, 17 * ONE_FOOT, System.INCH))
    assert best_length(stack, lengths) == pytest.approx(8 * ONE_FOOT)
    assert best_length(stack_of(ash(10, "8 ft")), lengths) == pytest.approx(16 * ONE_FOOT)


def test_usual_lengths_are_whole_feet_or_thirds_of_a_metre() -> None:
    assert [round(x / ONE_FOOT, 2) for x in usual_lengths(7.5 * ONE_FOOT, 10 * ONE_FOOT, System.INCH)] == [
        7.5,
        8,
        9,
        10,
    ]
    assert [round(x, 2) for x in usual_lengths(2.2, 3.0, System.METRIC)] == [2.2, 2.4, 2.7, 3.0]
