"""The air of a charge, by its openings and the ways round it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying.kiln_air import Charge, Gaps, Room, bypass, gaps, open_area, speed
from stacklint.units import Unit

INCH, FOOT = 0.0254, 0.3048
CFM, FPM = Unit.CFM.to_si(1), Unit.FEET_PER_MINUTE.to_si(1)
ROOM = Room(18 * FOOT, 6 * FOOT)
CHARGE = Charge(length=16 * FOOT, top=2 * FOOT, under=4 * INCH, bearers=3 * FOOT)


def test_each_course_has_one_opening_less_what_its_stickers_fill() -> None:
    """Eight courses on 3/4 in stickers, 16 ft long, nine stickers 1 1/2 in wide: 8 x 3/4 x 178 1/2 = 1071 sq in."""
    area = open_area(8, 0.75 * INCH, 16 * FOOT, 9 * 1.5 * INCH)
    assert area == pytest.approx(1071 * INCH**2)


def test_the_ways_round_a_charge_are_over_it_past_its_ends_and_under_it() -> None:
    found = gaps(ROOM, CHARGE, top=False, ends=False, floor=False)
    assert found.above == pytest.approx(4 * 18 * FOOT**2)
    assert found.ends == pytest.approx(2 * 2 * FOOT**2)
    assert found.under == pytest.approx(13 * 1 / 3 * FOOT**2)
    assert found.above + found.ends + found.under == found.total


def test_a_baffle_closes_its_way_and_no_other() -> None:
    assert gaps(ROOM, CHARGE, top=True, ends=True, floor=True) == Gaps(0.0, 0.0, 0.0)
    assert gaps(ROOM, CHARGE, top=True, ends=False, floor=True).ends > 0


def test_a_charge_as_large_as_the_room_leaves_no_way_round_it() -> None:
    full = Charge(length=19 * FOOT, top=7 * FOOT, under=0.0, bearers=0.0)
    assert gaps(ROOM, full, top=False, ends=False, floor=False).total == 0.0


def test_air_goes_round_and_through_by_the_areas() -> None:
    assert bypass(3.0, Gaps(0.5, 0.5, 0.0)) == pytest.approx(0.25)
    assert speed(8.0, 3.0, 0.25) == pytest.approx(2.0)


def test_ten_square_feet_of_openings_take_2500_cubic_feet_a_minute_at_250_feet_a_minute() -> None:
    assert speed(2500 * CFM, 10 * FOOT**2, 0.0) / FPM == pytest.approx(250)


@given(st.floats(0.1, 10), st.floats(0, 10), st.floats(0, 10), st.floats(0, 10), st.floats(0.1, 20))
def test_closing_a_way_round_never_slows_the_air_between_the_courses(
    openings: float, above: float, ends: float, under: float, delivery: float
) -> None:
    left, closed = Gaps(above, ends, under), Gaps(0.0, ends, under)
    assert 0 <= bypass(openings, closed) <= bypass(openings, left) < 1
    slow, fast = (speed(delivery, openings, bypass(openings, each)) for each in (left, closed))
    assert slow <= fast <= delivery / openings * 1.0000001
