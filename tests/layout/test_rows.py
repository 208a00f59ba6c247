"""Where the boards of a row stand."""

from __future__ import annotations

import pytest

from stacklint.layout.rows import best_row, fills, row_as_written
from stacklint.layout.stock import Lot
from stacklint.units import ONE_FOOT, ONE_INCH
from stacklint.where import NOWHERE

LONG = 16 * ONE_FOOT
EVERY_2_FT = tuple(place * 2 * ONE_FOOT for place in range(9))


def lots(*feet: float) -> tuple[Lot, ...]:
    return tuple(Lot("a", NOWHERE, 0.025, 0.15, 0.15, length * ONE_FOOT, 9) for length in feet)


def feet(places):
    return [round(x / ONE_FOOT, 3) for x in places]


@pytest.mark.parametrize(("length", "does"), [(15.75, True), (16.25, True), (15.7, False), (16.3, False)])
def test_a_row_within_three_inches_of_the_stack_fills_it(length, does):
    """Common practice, no source."""
    assert fills(length * ONE_FOOT, LONG) is does


def test_a_full_row_is_flush_at_both_ends_and_its_slack_is_in_the_joint():
    row = best_row(lots(12, 3.875), LONG, EVERY_2_FT)
    assert feet([row.pieces[0].start, row.pieces[-1].end]) == [0, 16]
    assert row.pieces[1].start - row.pieces[0].end == pytest.approx(0.125 * ONE_FOOT)


def test_boards_are_turned_so_that_the_joint_comes_on_a_sticker_line():
    """9 ft + 7 ft with lines at 0, 5, 7, 12 and 16 ft: the joint belongs at 7 ft, not at 9 ft."""
    lines = tuple(x * ONE_FOOT for x in (0, 5, 7, 12, 16))
    row = best_row(lots(9, 7), LONG, lines)
    assert feet(row.joints) == [7]


def test_of_equal_orders_the_longest_board_stands_left():
    row = best_row(lots(4, 12), LONG, EVERY_2_FT)
    assert feet(piece.length for piece in row.pieces) == [12, 4]


def test_three_boards_are_tried_in_every_order():
    lines = tuple(x * ONE_FOOT for x in (0, 5, 9, 16))
    row = best_row(lots(7, 5, 4), LONG, lines)
    assert sorted(feet(row.joints)) == [5, 9]


def test_slack_moves_the_first_joint_onto_a_line():
    """5 ft 11 in + 5 ft 11 in + 4 ft: 2 in of slack bring the joint from 5 ft 11 in to 6 ft."""
    row = row_as_written(lots(5 + 11 / 12, 5 + 11 / 12, 4), LONG, EVERY_2_FT)
    assert row.joints[0] == pytest.approx(6 * ONE_FOOT)
    assert row.pieces[-1].end == pytest.approx(LONG)


def test_a_row_as_written_keeps_its_order():
    row = row_as_written(lots(4, 12), LONG, EVERY_2_FT)
    assert feet(piece.start for piece in row.pieces) == [0, 4]


def test_a_single_board_starts_at_the_left_end_and_may_stick_out_at_the_right():
    row = best_row(lots(18), LONG, EVERY_2_FT)
    assert feet([row.pieces[0].start, row.pieces[0].end]) == [0, 18]


def test_boards_of_a_short_row_stand_at_the_two_ends_of_the_stack():
    row = best_row(lots(7, 6), LONG, EVERY_2_FT)
    assert feet([row.pieces[0].start, row.pieces[-1].end]) == [0, 16]
    assert row.joints == ()


def test_a_board_in_the_middle_of_a_short_row_begins_on_a_sticker_line():
    row = best_row(lots(5, 4, 3), LONG, EVERY_2_FT)
    assert feet(piece.start for piece in row.pieces) == [0, 6, 13]


def test_a_row_a_little_too_long_butts_its_boards_together():
    row = best_row(lots(8, 8 + 2 / 12), LONG, EVERY_2_FT)
    assert row.pieces[1].start == row.pieces[0].end
    assert row.pieces[0].start == 0
    assert row.length == pytest.approx(LONG + 2 * ONE_INCH)


def test_boards_that_stand_apart_do_not_meet_but_those_beside_them_do():
    """6 ft, a foot of air to the line at 7 ft, then 5 ft and 4 ft that butt: one joint, of the last two boards."""
    row = best_row(lots(6, 5, 4), LONG, tuple(x * ONE_FOOT for x in (0, 7, 16)))
    assert feet(piece.start for piece in row.pieces) == [0, 7, 12]
    assert feet(row.joints) == [12]
    assert [tuple(feet(piece.length for piece in pair)) for pair in row.meetings] == [(5, 4)]
