"""Heating boards and timbers through."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying.heating import CORE, FAST, SLOW, Warming, core_excess, heating_time

INCH = 0.0254
ROOM, HOT = 20.0, 71.0

sides = st.floats(0.01, 0.3)
airs = st.floats(58.0, 110.0)
starts = st.floats(-20.0, 55.0)


def minutes(thickness: float, width: float, **kept: bool) -> tuple[float, float]:
    time = heating_time(thickness * INCH, width * INCH, ROOM, HOT, **kept)
    assert time is not None
    return time.low / 60, time.high / 60


def test_a_core_never_gets_hotter_than_the_air_round_the_board() -> None:
    assert heating_time(INCH, 6 * INCH, ROOM, CORE) is None


def test_boards_that_are_hot_through_already_take_no_time() -> None:
    time = heating_time(INCH, 6 * INCH, CORE, HOT)
    assert time is not None
    assert time == (0.0, 0.0)


def test_twice_the_thickness_without_a_film_takes_four_times_as_long() -> None:
    assert minutes(2, 200)[0] == pytest.approx(4 * minutes(1, 100)[0], rel=1e-3)


def test_a_square_timber_is_hot_before_a_plank_of_its_thickness() -> None:
    square, plank = minutes(6, 6), minutes(6, 60)
    assert square[0] < plank[0]
    assert square[1] < plank[1]


def test_boards_piled_solid_take_two_to_ten_times_as_long() -> None:
    apart, solid = minutes(2, 6), minutes(2, 6, solid=True)
    assert solid == pytest.approx((2 * apart[0], 10 * apart[1]))


@given(sides, sides, starts, airs)
def test_slow_air_never_heats_sooner_than_fast(thickness: float, width: float, start: float, air: float) -> None:
    time = heating_time(thickness, width, start, air)
    assert time is not None
    assert 0 < time.low < time.high


@given(sides, st.floats(1.01, 3.0), starts, airs)
def test_a_thicker_board_never_heats_sooner(thickness: float, times: float, start: float, air: float) -> None:
    thin, thick = (heating_time(each, 0.3, start, air) for each in (thickness, thickness * times))
    assert thin is not None
    assert thick is not None
    assert thin.low <= thick.low * 1.001
    assert thin.high <= thick.high * 1.001


@given(sides, sides, starts, airs, st.floats(0.5, 30.0))
def test_hotter_air_never_heats_later(thickness: float, width: float, start: float, air: float, more: float) -> None:
    cool, hot = (heating_time(thickness, width, start, each) for each in (air, air + more))
    assert cool is not None
    assert hot is not None
    assert hot.low <= cool.low * 1.001
    assert hot.high <= cool.high * 1.001


@pytest.mark.parametrize("way", [FAST, SLOW])
def test_a_core_stays_as_cold_as_it_was_at_first_and_ends_at_the_airs_heat(way: Warming) -> None:
    assert core_excess(60.0, 0.1, way) == 1.0
    assert core_excess(1e6, 0.1, way) == pytest.approx(0.0, abs=1e-3)
