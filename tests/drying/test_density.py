"""The weight of wood and the water in it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying import density
from stacklint.tables import woods
from stacklint.tables.wood import Wood


def wood(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None
    return found


anywood = st.sampled_from(woods.names()).map(wood)
moisture = st.floats(0, 2)


@given(anywood, st.floats(0.001, 20), moisture, moisture)
def test_the_water_that_leaves_is_the_weight_that_is_lost(wood: Wood, volume: float, one: float, other: float) -> None:
    now, wanted = max(one, other), min(one, other)
    lost = density.mass(wood, volume, now) - density.mass(wood, volume, wanted)
    assert density.water_lost(wood, volume, now, wanted) == pytest.approx(lost, abs=1e-9)


def test_boards_drier_than_wanted_give_up_no_water() -> None:
    assert density.water_lost(wood("white ash"), 1.0, 0.10, 0.12) == 0


@given(anywood, moisture, moisture)
def test_wetter_wood_is_never_lighter(wood: Wood, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert density.density(wood, low) <= density.density(wood, high) * (1 + 1e-12)


@given(anywood, st.floats(0, 0.3))
def test_the_weight_of_a_dried_board_is_its_density_over_its_shrunken_volume(wood: Wood, moisture: float) -> None:
    shrunken = 1 - density.shrinkage(wood.shrink_volumetric, moisture)
    assert density.density(wood, moisture) * shrunken == pytest.approx(density.mass(wood, 1.0, moisture))


def test_wood_above_fibre_saturation_has_not_shrunk() -> None:
    assert density.shrinkage(0.137, 0.30) == density.shrinkage(0.137, 0.9) == 0
