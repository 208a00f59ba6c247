"""What moist air does, whatever the formulas; the figures are checked in ``tests/against/test_humidity.py``."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying import air

TEMPERATURE = st.floats(-30, 120)
HUMIDITY = st.floats(0.01, 1.0)


@given(TEMPERATURE)
def test_saturated_air_has_its_wet_bulb_and_dew_point_at_its_own_temperature(temperature: float) -> None:
    assert air.dew_point(temperature, 1.0) == pytest.approx(temperature, abs=1e-4)
    if temperature < 99:
        assert air.wet_bulb(temperature, 1.0) == pytest.approx(temperature, abs=1e-4)


@given(TEMPERATURE, HUMIDITY)
def test_the_wet_bulb_lies_between_the_dew_point_and_the_dry_bulb(temperature: float, humidity: float) -> None:
    wet_bulb = air.wet_bulb(temperature, humidity)
    assert wet_bulb <= temperature + 1e-5
    if air.dew_point(temperature, humidity) < 99:
        assert air.dew_point(temperature, humidity) <= wet_bulb + 1e-4


@given(TEMPERATURE, st.floats(0.01, 0.9))
def test_damper_air_has_a_higher_dew_point(temperature: float, humidity: float) -> None:
    assert air.dew_point(temperature, humidity) < air.dew_point(temperature, humidity + 0.1)


@given(st.floats(-30, 90), HUMIDITY)
def test_the_humidity_of_a_wet_bulb_is_the_humidity_that_it_came_from(temperature: float, humidity: float) -> None:
    wet_bulb = air.wet_bulb(temperature, humidity)
    if abs(wet_bulb) > 0.5:  # About freezing a frozen wick and a wet one read differently in the same air.
        assert air.humidity_from_wet_bulb(temperature, wet_bulb) == pytest.approx(humidity, abs=1e-5)


@given(TEMPERATURE, HUMIDITY)
def test_the_humidity_of_a_dew_point_is_the_humidity_that_it_came_from(temperature: float, humidity: float) -> None:
    back = air.humidity_from_dew_point(temperature, air.dew_point(temperature, humidity))
    assert back == pytest.approx(humidity, abs=1e-5)


@given(st.floats(-20, 90), st.floats(0.05, 0.95), st.floats(1, 40))
def test_air_that_is_warmed_with_no_water_added_is_drier(temperature: float, humidity: float, by: float) -> None:
    dew_point = air.dew_point(temperature, humidity)
    assert air.humidity_from_dew_point(temperature + by, dew_point) < humidity


def test_a_wick_colder_than_any_air_can_make_it_means_no_water_at_all() -> None:
    assert air.humidity_from_wet_bulb(60, 10) == 0.0


def test_at_the_boil_there_is_nothing_but_steam() -> None:
    """Steam at 110 C is at 101 325 of the 143 400 Pa that would saturate it."""
    assert air.humidity_from_wet_bulb(110, 100) == pytest.approx(101_325 / 143_400, abs=0.001)
    assert air.humidity_ratio(110, 0.9) == inf


@pytest.mark.parametrize("temperature", [100, 110, 120, 130])
def test_the_wet_bulb_of_a_hot_kiln_is_below_the_boil(temperature: float) -> None:
    wet_bulb = air.wet_bulb(temperature, 0.3)
    assert wet_bulb < 100
    assert air.humidity_from_wet_bulb(temperature, wet_bulb) == pytest.approx(0.3, abs=1e-5)


def test_altitude_changes_the_humidity_at_a_wet_bulb_little() -> None:
    """180 F and 130 F: 26.4% at sea level, 27.0% at 84 kPa, some 1 600 m up."""
    dry, wet = (180 - 32) / 1.8, (130 - 32) / 1.8
    assert 100 * air.humidity_from_wet_bulb(dry, wet) == pytest.approx(26.4, abs=0.05)
    assert 100 * air.humidity_from_wet_bulb(dry, wet, 84_000) == pytest.approx(27.0, abs=0.05)
