"""Stacks and covers in the wind."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import wind
from stacklint.plan.shelter import CoverKind

SPEED = st.floats(1.0, 60.0)


@given(SPEED)
def test_twice_the_wind_presses_four_times_as_hard(speed: float) -> None:
    assert wind.pressure(2 * speed) == pytest.approx(4 * wind.pressure(speed))


@given(st.floats(100, 20_000), st.floats(1, 8), st.floats(0.3, 3), st.floats(0.6, 5), st.floats(0, 0.5), SPEED)
def test_a_stack_stands_firmer_heavier_and_wider_and_less_firm_raised(
    mass: float, length: float, width: float, height: float, clearance: float, speed: float
) -> None:
    top = clearance + height
    stands = wind.overturning(mass, length, width, top, clearance, speed)
    raised = wind.overturning(mass, length, width, top + 0.3, clearance + 0.3, speed)
    assert stands is not None
    assert raised is not None
    assert wind.overturning(2 * mass, length, width, top, clearance, speed) == pytest.approx(2 * stands)
    assert wind.overturning(mass, length, 2 * width, top, clearance, speed) == pytest.approx(2 * stands)
    assert raised < stands


def test_a_stack_with_no_face_is_not_blown_over() -> None:
    assert wind.overturning(100.0, 0.0, 1.0, 1.0) is None
    assert wind.overturning(100.0, 4.0, 1.0, 0.3, 0.3) is None


def test_no_loose_sheet_of_any_kind_stays_down_in_the_gust() -> None:
    """Common practice, no source: covers are tied or weighted, whatever they are made of."""
    for kind in CoverKind:
        if kind is not CoverKind.NONE:
            assert 0 < wind.cover_mass(kind, 4.0) < wind.cover_uplift(4.0)


def test_no_cover_weighs_nothing() -> None:
    assert wind.cover_mass(CoverKind.NONE, 4.0) == 0.0
