"""Board groups become boards by length."""

from __future__ import annotations

import pytest

from stacklint.language import read
from stacklint.layout.stock import lots_of, pieces_of
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name, Quantity, Range
from stacklint.units import ONE_FOOT, ONE_INCH, Unit


def by_feet(lots):
    return {round(lot.length / ONE_FOOT, 3): lot.count for lot in lots}


def test_boards_given_by_count_are_that_many_of_their_length(yard):
    lots, assumed = lots_of(yard.boards("a", 60, 8))
    assert by_feet(lots) == {8: 60}
    assert assumed == ()


def test_a_range_of_lengths_is_spread_evenly_over_the_whole_feet(yard):
    lots, assumed = lots_of(yard.boards("a", 52, (6, 10)))
    assert by_feet(lots) == {6: 10, 7: 10, 8: 11, 9: 10, 10: 11}
    assert "6 ft to 10 ft" in assumed[0].text
    assert assumed[0].topic == "boards"


def test_a_range_that_begins_between_whole_feet_keeps_its_own_ends(yard):
    lots, _ = lots_of(yard.boards("a", 30, (6.5, 8)))
    assert by_feet(lots) == {6.5: 10, 7: 10, 8: 10}


def test_a_metric_range_of_lengths_goes_by_steps_of_300_mm(yard):
    group = Boards(
        label=Name(text="a"),
        count=12,
        wood=Name(text="oak"),
        thickness=yard.mm(27),
        width=yard.mm(150),
        length=Range(low=yard.metres(2.4), high=yard.metres(3.2)),
    )
    lots, _ = lots_of(group)
    assert {lot.length: lot.count for lot in lots} == {2.4: 3, 2.7: 3, 3.0: 3, 3.2: 3}


def test_fewer_boards_than_lengths_lose_none(yard):
    lots, _ = lots_of(yard.boards("a", 3, (4, 16)))
    assert sum(lot.count for lot in lots) == 3


def test_a_volume_becomes_boards_of_the_mean_width(yard):
    """One board foot is 144 cubic inches (American Softwood Lumber Standard PS 20): 1 in x 7 in x 12 ft is 7 bf."""
    volume = Quantity(number=350, unit=Unit.BOARD_FOOT)
    lots, assumed = lots_of(yard.boards("b", None, 12, width=(5, 9), volume=volume))
    assert by_feet(lots) == {12: 50}
    assert assumed[0].text == "Boards b are taken as about 50 boards, from 350 bf at a mean width of 7 in."


def test_a_volume_less_than_a_board_is_one_board(yard):
    volume = Quantity(number=1, unit=Unit.BOARD_FOOT)
    lots, _ = lots_of(yard.boards("b", None, 12, volume=volume))
    assert by_feet(lots) == {12: 1}


def test_random_widths_are_taken_as_seven_inches_and_it_is_said(yard):
    lots, assumed = lots_of(yard.boards("a", 10, 8, width=None))
    assert lots[0].width == pytest.approx(7 * ONE_INCH)
    assert lots[0].width_low == 0
    assert "mean width of 7 in" in assumed[0].text


def test_quarters_and_inches_give_one_thickness():
    """5/4 is 1 1/4 in: quarters of an inch."""

    def group(thickness):
        length = Quantity(number=8, unit=Unit.FOOT)
        width = Quantity(number=6, unit=Unit.INCH)
        return Boards(
            label=Name(text="a"), count=1, wood=Name(text="oak"), thickness=thickness, width=width, length=length
        )

    quarters = lots_of(group(Quantity(number=5, unit=Unit.QUARTER)))[0][0]
    inches = lots_of(group(Quantity(number=1.25, unit=Unit.INCH)))[0][0]
    assert quarters.thickness == inches.thickness


def test_board_feet_of_thin_boards_are_the_trade_s_which_count_them_as_an_inch_thick():
    """A 6 in board of 8 ft is 4 bf at 3/4 in as at 1 in (the trade's rule, from memory; PS 20 has it for softwood)."""
    for thickness in ("3/4 in", "1 in"):
        (stack,) = read(f'pile "A"\n  boards a: 244 bf of white ash {thickness} x 6 in x 8 ft\n').plan.stacks
        assert pieces_of(stack.boards[0]) == 61
    (thick,) = read('pile "A"\n  boards a: 244 bf of white ash 8/4 x 6 in x 8 ft\n').plan.stacks
    assert pieces_of(thick.boards[0]) == 31
    (metric,) = read('pile "A"\n  boards a: 1 m3 of white ash 20 mm x 150 mm x 2 m\n').plan.stacks
    assert pieces_of(metric.boards[0]) == 167
