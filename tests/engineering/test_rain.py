"""Driving rain under a cover's overhang."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import rain
from stacklint.plan.shelter import SideKind

OVERHANG = st.floats(0.0, 2.0)
HEIGHT = st.floats(0.2, 5.0)
GAP = st.floats(0.0, 0.5)
WIND = st.floats(0.5, 20.0)


@given(OVERHANG, HEIGHT, GAP, WIND)
def test_rain_reaches_some_share_of_a_side(overhang: float, height: float, gap: float, wind: float) -> None:
    assert 0.0 <= rain.reached(overhang, height, gap, wind) <= 1.0


@given(OVERHANG, st.floats(0.0, 1.0), HEIGHT, GAP, WIND)
def test_a_longer_overhang_never_lets_more_rain_in(
    overhang: float, more: float, height: float, gap: float, wind: float
) -> None:
    assert rain.reached(overhang + more, height, gap, wind) <= rain.reached(overhang, height, gap, wind)


@given(OVERHANG, HEIGHT, GAP, st.floats(0.0, 0.5), WIND)
def test_a_wider_gap_under_the_cover_never_keeps_more_dry(
    overhang: float, height: float, gap: float, more: float, wind: float
) -> None:
    assert rain.reached(overhang, height, gap + more, wind) >= rain.reached(overhang, height, gap, wind)


@given(HEIGHT, st.floats(0.05, 0.95), GAP, WIND)
def test_the_overhang_that_is_needed_keeps_just_that_share_dry(
    height: float, share: float, gap: float, wind: float
) -> None:
    overhang = rain.overhang_needed(height, share, gap, wind)
    assert rain.reached(overhang, height, gap, wind) == pytest.approx(share)


def test_a_side_without_overhang_is_wetted_whole() -> None:
    assert rain.reached(0.0, 1.8) == 1.0


@pytest.mark.parametrize(
    ("side", "left"),
    [(SideKind.OPEN, 0.8), (SideKind.SHADE_CLOTH, 0.8), (SideKind.BOARDS, 0.0), (SideKind.PLASTIC, 0.0)],
)
def test_boards_and_plastic_keep_rain_out_and_shade_cloth_is_given_no_credit(side: SideKind, left: float) -> None:
    assert rain.wetted(0.8, [side]) == left
