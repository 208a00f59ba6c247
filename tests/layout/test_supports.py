"""How a board is held by the sticker lines under it."""

from __future__ import annotations

import pytest

from stacklint.layout import supports_of
from stacklint.layout.arrangement import Piece, StickerLine

LINES = tuple(StickerLine(float(x), 0, 0.0) for x in range(5))
WIDE = 0.04


def board(start: float, length: float) -> Piece:
    return Piece("a", start, length, 0.15, 0.025)


def test_a_board_over_all_lines_has_a_span_between_each_two():
    held = supports_of(board(0, 4), LINES, WIDE)
    assert held.lines == (0, 1, 2, 3, 4)
    assert held.spans == (1, 1, 1, 1)
    assert (held.left_end, held.right_end) == (0, 0)


def test_free_ends_reach_to_the_middle_of_the_nearest_line():
    held = supports_of(board(0.7, 2.8), LINES, WIDE)
    assert held.lines == (1, 2, 3)
    assert held.left_end == pytest.approx(0.3)
    assert held.right_end == pytest.approx(0.5)


def test_a_joint_on_the_middle_of_a_line_is_held_on_both_sides():
    left, right = supports_of(board(0, 2), LINES, WIDE), supports_of(board(2, 2), LINES, WIDE)
    assert 2 in left.lines
    assert 2 in right.lines


def test_a_board_that_just_reaches_onto_a_sticker_is_held_and_has_no_free_end():
    held = supports_of(board(0, 1.985), LINES, WIDE)
    assert held.lines == (0, 1, 2)
    assert held.right_end == 0


def test_a_board_that_stops_short_of_a_sticker_is_not_held_by_it():
    assert supports_of(board(0, 1.975), LINES, WIDE).lines == (0, 1)


def test_a_board_between_two_lines_hangs_on_nothing():
    held = supports_of(board(1.1, 0.8), LINES, WIDE)
    assert held.lines == ()
    assert (held.left_end, held.right_end) == (pytest.approx(0.8), pytest.approx(0.8))
