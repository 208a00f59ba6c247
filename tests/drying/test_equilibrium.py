"""How the equilibrium moisture content runs; its figures are checked in ``tests/against``."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying.air import dew_point, wet_bulb
from stacklint.drying.equilibrium import COLDEST, HOTTEST, equilibrium, from_dew_point, from_wet_bulb, humidity_for

TEMPERATURE = st.floats(COLDEST, HOTTEST)


@given(TEMPERATURE, st.floats(0.0, 0.98), st.floats(0.001, 0.02))
def test_damper_air_holds_wood_wetter(temperature: float, humidity: float, more: float) -> None:
    assert equilibrium(temperature, humidity) < equilibrium(temperature, humidity + more)


@given(st.floats(5, 130), st.floats(0.01, 0.95), st.floats(0.1, 40))
def test_warmer_air_of_the_same_humidity_holds_wood_drier(temperature: float, humidity: float, by: float) -> None:
    assert equilibrium(temperature + by, humidity) <= equilibrium(temperature, humidity) + 1e-9


@given(st.floats(-1, 5), st.floats(0.01, 0.99), st.floats(0, 6))
def test_near_freezing_the_temperature_hardly_matters(temperature: float, humidity: float, by: float) -> None:
    """Below 5 C the equation's small terms turn; what they add is under 0.1% moisture content."""
    assert equilibrium(temperature + by, humidity) <= equilibrium(temperature, humidity) + 0.001


@given(TEMPERATURE, st.floats(0.0, 1.0))
def test_the_humidity_for_a_moisture_content_is_the_humidity_that_holds_it(temperature: float, humidity: float) -> None:
    assert humidity_for(temperature, equilibrium(temperature, humidity)) == pytest.approx(humidity, abs=1e-6)


def test_wood_wetter_than_any_air_can_hold_it_needs_saturated_air() -> None:
    assert humidity_for(20, 0.60) == pytest.approx(1.0)


def test_air_without_water_dries_wood_altogether() -> None:
    assert equilibrium(20, 0.0) == 0.0
    assert humidity_for(20, 0.0) == pytest.approx(0.0, abs=1e-6)


@given(st.floats(-40, COLDEST), st.floats(0.05, 0.95))
def test_in_frost_wood_is_taken_as_at_the_coldest_of_the_published_table(frost: float, humidity: float) -> None:
    """30 F."""
    assert equilibrium(frost, humidity) == equilibrium(COLDEST, humidity)


@given(st.floats(20, 90), st.floats(0.1, 0.95))
def test_wet_bulb_and_dew_point_are_two_ways_to_say_the_same_air(temperature: float, humidity: float) -> None:
    meant = equilibrium(temperature, humidity)
    assert from_wet_bulb(temperature, wet_bulb(temperature, humidity)) == pytest.approx(meant, abs=1e-5)
    assert from_dew_point(temperature, dew_point(temperature, humidity)) == pytest.approx(meant, abs=1e-5)


def test_a_rise_from_50_to_60_percent_humidity_is_two_percent_of_moisture_content() -> None:
    """Common practice, no source: near room temperature ten points of humidity are about two of moisture content."""
    assert equilibrium(21, 0.6) - equilibrium(21, 0.5) == pytest.approx(0.02, abs=0.004)
