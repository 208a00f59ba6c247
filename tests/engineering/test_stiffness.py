"""Stiffness by moisture and temperature."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import stiffness
from stacklint.tables import woods
from stacklint.tables.wood import Wood


def wood(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None
    return found


anywood = st.sampled_from(woods.names()).map(wood)


@given(anywood)
def test_the_two_table_values_are_met_at_their_moisture(wood: Wood) -> None:
    assert stiffness.modulus(wood, 0.12).value == pytest.approx(wood.moe_dry)
    assert stiffness.modulus(wood, 0.80).value == wood.moe_green
    assert stiffness.modulus(wood, 0.2799999, 21.111).value == pytest.approx(wood.moe_green, rel=0.001)


@given(anywood, st.floats(0.02, 0.5), st.floats(0.02, 0.5))
def test_wetter_wood_is_never_stiffer(wood: Wood, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert stiffness.modulus(wood, low).value >= stiffness.modulus(wood, high).value * (1 - 1e-12)


@given(anywood, st.floats(0.02, 1.2), st.floats(-40, 120), st.floats(-40, 120))
def test_warmer_wood_is_never_stiffer(wood: Wood, moisture: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert stiffness.modulus(wood, moisture, low).value >= stiffness.modulus(wood, moisture, high).value * (1 - 1e-12)


def test_a_kiln_over_150_f_is_beyond_the_data_and_takes_their_end() -> None:
    ash = wood("white ash")
    hot, end = stiffness.modulus(ash, 0.3, 82.0), stiffness.modulus(ash, 0.3, stiffness.HOTTEST)
    assert hot.beyond_data and not end.beyond_data
    assert hot.value == end.value
    assert stiffness.modulus(ash, 0.3, -5.0).beyond_data


def test_temperature_changes_nothing_at_70_f_or_where_it_is_not_known() -> None:
    ash = wood("white ash")
    assert stiffness.modulus(ash, 0.3, 21.1111).value == pytest.approx(stiffness.modulus(ash, 0.3).value, rel=1e-4)
