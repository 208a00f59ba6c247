"""Sticker lines and bearers from a spacing, a count or positions; which line stands over which bearer."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.faults import FaultKind
from stacklint.layout.lines import Lines, counted, lines_of, over_bearers, spaced
from stacklint.plan.supports import Bearers, Stickers
from stacklint.units import ONE_FOOT, ONE_INCH, System

LONG = 16 * ONE_FOOT
WIDE = 1.25 * ONE_INCH
STICKERS = Lines("sticker", LONG, WIDE, System.INCH)


def inches(places):
    return [round(x / ONE_INCH, 3) for x in places]


def test_every_24_in_of_16_ft_is_nine_lines_24_in_apart():
    assert inches(spaced(LONG, 24 * ONE_INCH, 0)) == [0, 24, 48, 72, 96, 120, 144, 168, 192]


def test_every_24_in_means_no_wider_than_24_in():
    """14 ft 6 in between the outer lines holds no whole number of 24 in: eight spaces of 21 3/4 in."""
    assert inches(spaced(176 * ONE_INCH, 24 * ONE_INCH, ONE_INCH)) == [1 + 21.75 * place for place in range(9)]


@given(st.floats(0.5, 20), st.floats(0.1, 2), st.floats(0, 0.2))
def test_spaced_lines_are_even_flush_and_never_wider_than_asked(length, spacing, from_ends):
    places = spaced(length, spacing, from_ends)
    gaps = [right - left for left, right in pairwise(places)]
    assert places[0] == pytest.approx(from_ends)
    assert places[-1] == pytest.approx(length - from_ends)
    assert max(gaps) <= spacing + 1e-6
    assert max(gaps) - min(gaps) < 1e-9
    assert (length - 2 * from_ends) / (len(gaps) - 1 or 1) > spacing - 1e-6 or len(gaps) == 1


def test_five_a_course_stand_evenly_and_one_at_mid_length():
    assert inches(counted(LONG, 5, 0)) == [0, 48, 96, 144, 192]


def test_one_sticker_a_course_lies_at_mid_length():
    assert inches(counted(LONG, 1, ONE_INCH)) == [96]


def test_lines_are_flush_with_the_ends_where_nothing_is_said(yard):
    places, faults = lines_of(Stickers(every=yard.inches(24)), STICKERS)
    assert inches(places)[0] == 0.625
    assert inches(places)[-1] == 192 - 0.625
    assert faults == ()


def test_positions_are_taken_as_given_in_order_and_once(yard):
    said = Stickers(at=(yard.feet(4), yard.inches(1), yard.feet(2), yard.inches(24)))
    assert inches(lines_of(said, STICKERS)[0]) == [1, 24, 48]


def test_a_position_outside_the_stack_cannot_be(yard):
    places, faults = lines_of(Stickers(at=(yard.feet(4), yard.feet(17))), STICKERS)
    assert inches(places) == [48]
    assert [fault.kind for fault in faults] == [FaultKind.VALUE_OUT_OF_RANGE]
    assert faults[0].found.value == pytest.approx(17 * ONE_FOOT)
    assert faults[0].limit.value == pytest.approx(16 * ONE_FOOT)


def test_ends_further_in_than_the_middle_cannot_be(yard):
    places, faults = lines_of(Stickers(every=yard.inches(24), from_ends=yard.feet(9)), STICKERS)
    assert places == ()
    assert "past the middle" in faults[0].message


@pytest.mark.parametrize("said", [{"every": 1.0}, {"count": 2000}])
def test_stickers_that_would_lie_over_one_another_cannot_be(yard, said):
    said = {"every": yard.inches(1)} if "every" in said else said
    places, faults = lines_of(Stickers(**said), STICKERS)
    assert places == ()
    assert faults[0].kind is FaultKind.VALUE_OUT_OF_RANGE
    assert faults[0].limit.value == pytest.approx(WIDE)


def test_no_stickers_a_course_is_refused():
    places, faults = lines_of(Stickers(count=0), STICKERS)
    assert places == ()
    assert len(faults) == 1


def test_a_statement_without_a_spacing_gives_no_lines_of_its_own():
    assert lines_of(Bearers(), STICKERS) == (None, ())


def test_a_sticker_whose_middle_is_over_a_bearer_stands_on_it():
    (line,) = over_bearers((2 * ONE_INCH,), WIDE, (0.0, ONE_FOOT), 4 * ONE_INCH)
    assert (line.bearer, line.off) == (0, 0.0)


def test_a_sticker_off_its_bearer_is_off_by_the_clear_distance():
    """Middle 8 in from a 4 in bearer's middle: 8 - 2 - 5/8 in from edge to edge."""
    (line,) = over_bearers((8 * ONE_INCH,), WIDE, (0.0, 10 * ONE_FOOT), 4 * ONE_INCH)
    assert line.bearer is None
    assert line.off == pytest.approx(5.375 * ONE_INCH)


def test_a_sticker_half_over_the_edge_of_a_bearer_does_not_stand_on_it():
    (line,) = over_bearers((2.25 * ONE_INCH,), WIDE, (0.0,), 4 * ONE_INCH)
    assert line.bearer is None
    assert line.off == 0
