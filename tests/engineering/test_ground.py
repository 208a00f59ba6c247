"""Pads and blocks on the ground."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import ground
from stacklint.plan.supports import Soil
from stacklint.units import GRAVITY, ONE_INCH, ONE_POUND


def test_every_kind_of_ground_is_known_with_its_source() -> None:
    assert all(ground.presumed(soil).source for soil in Soil)


def test_only_concrete_is_not_what_gives_way() -> None:
    assert [soil for soil in Soil if ground.presumed(soil).pressure is None] == [Soil.CONCRETE]


def test_softer_ground_bears_less() -> None:
    order = (Soil.GRAVEL, Soil.SAND, Soil.CLAY, Soil.SOFT_CLAY)
    bears = [ground.presumed(soil).pressure or 0.0 for soil in order]
    assert bears == sorted(bears, reverse=True)
    assert ground.presumed(Soil.GRASS) == ground.presumed(Soil.BARE_SOIL)


@given(st.floats(1.0, 1e5), st.floats(1e3, 3e5))
def test_the_pad_that_is_needed_presses_just_as_the_ground_bears(load: float, bears: float) -> None:
    side = ground.side_needed(load, bears)
    assert ground.pressure(load, ground.footprint(side, side)) == pytest.approx(bears)


def test_a_block_stands_on_less_than_its_nominal_size() -> None:
    nominal = ground.footprint(16 * ONE_INCH, 8 * ONE_INCH)
    actual = ground.footprint(16 * ONE_INCH, 8 * ONE_INCH, block=True)
    assert actual / nominal == pytest.approx(15.625 * 7.625 / 128)


def test_four_thousand_pounds_are_half_of_what_a_block_pier_bears() -> None:
    assert ground.block_share(4000 * ONE_POUND * GRAVITY) == pytest.approx(0.5)
