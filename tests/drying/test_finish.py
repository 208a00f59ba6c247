"""What boards measure when they have dried."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying.finish import dry_size, shrinkage_of
from stacklint.plan.boards import Face
from stacklint.tables import woods
from stacklint.tables.wood import Wood

INCH = 0.0254


def wood(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None
    return found


def test_a_flatsawn_board_shrinks_radially_in_thickness_and_tangentially_in_width() -> None:
    oak = wood("northern red oak")
    assert shrinkage_of(oak, Face.FLAT) == (oak.shrink_radial, oak.shrink_tangential)


def test_a_quartersawn_board_shrinks_the_other_way_round() -> None:
    oak = wood("northern red oak")
    assert shrinkage_of(oak, Face.QUARTER) == (oak.shrink_tangential, oak.shrink_radial)


def test_a_riftsawn_board_and_a_square_shrink_alike_both_ways() -> None:
    oak = wood("northern red oak")
    rift = shrinkage_of(oak, Face.RIFT)
    assert rift.thickness == rift.width == pytest.approx((0.040 + 0.086) / 2)
    assert shrinkage_of(oak, None, both_ways=True) == rift


def test_what_is_not_said_is_taken_as_flatsawn() -> None:
    oak = wood("northern red oak")
    assert shrinkage_of(oak, None) == shrinkage_of(oak, Face.FLAT)


def test_a_wood_of_which_only_the_volume_is_known_shrinks_twice_as_much_tangentially() -> None:
    own = wood("northern red oak")._replace(shrink_radial=None, shrink_tangential=None, shrink_volumetric=0.12)
    assert shrinkage_of(own, Face.FLAT) == pytest.approx((0.04, 0.08))


def test_one_known_shrinkage_gives_the_other() -> None:
    own = wood("northern red oak")._replace(shrink_radial=None, shrink_tangential=0.08)
    assert shrinkage_of(own, Face.FLAT) == pytest.approx((0.04, 0.08))
    own = wood("northern red oak")._replace(shrink_radial=0.03, shrink_tangential=None)
    assert shrinkage_of(own, Face.FLAT) == pytest.approx((0.03, 0.06))


def test_boards_do_not_shrink_above_fibre_saturation() -> None:
    assert dry_size(INCH, 0.04, 0.30) == INCH
    assert dry_size(INCH, 0.04, 0.80) == INCH


@given(st.floats(0.01, 0.15), st.floats(0.0, 0.3), st.floats(0.0, 0.3))
def test_a_drier_board_is_never_thicker(total: float, one: float, other: float) -> None:
    dry, wet = sorted((one, other))
    assert INCH * (1 - total) - 1e-12 <= dry_size(INCH, total, dry) <= dry_size(INCH, total, wet) <= INCH
