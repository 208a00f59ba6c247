"""Stickers on boards and bearers on pads: compression across the grain."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import bearing
from stacklint.units import ONE_INCH, Unit

PSI = Unit.PSI.to_si(1)


def stress(moisture: float, **figures: float | bool) -> float:
    found = bearing.limit(moisture, **figures)  # type: ignore[arg-type]
    assert found is not None
    return found.stress / PSI


def test_a_line_load_is_spread_over_sticker_width_and_the_boards_it_crosses() -> None:
    """1,200 lb on a 1 1/4 in sticker across 48 in of boards is 20 psi."""
    load = Unit.POUND.to_si(1200) * 9.80665
    assert bearing.line_stress(load, 1.25 * ONE_INCH, 48 * ONE_INCH) / PSI == pytest.approx(20.0)


def test_wet_wood_bears_two_thirds_of_its_design_value() -> None:
    assert stress(0.60, design_value=800 * PSI) == pytest.approx(536)
    assert stress(0.15, design_value=800 * PSI) == pytest.approx(800)


def test_a_value_tabulated_wet_is_not_reduced_a_second_time() -> None:
    assert stress(0.60, design_value=375 * PSI, wet_value=True) == pytest.approx(375)


def test_without_a_design_value_clear_green_wood_is_reduced() -> None:
    assert stress(0.60, clear_green=640 * PSI) == pytest.approx(640 / 1.67)
    assert stress(0.12, clear_green=640 * PSI) == pytest.approx(640 / 1.67 / 0.67)


def test_the_design_value_goes_before_clear_wood_and_the_answer_tells_which() -> None:
    both = bearing.limit(0.6, design_value=800 * PSI, clear_green=1 * PSI)
    clear = bearing.limit(0.6, clear_green=640 * PSI)
    assert both is not None
    assert clear is not None
    assert both.from_design_value
    assert not clear.from_design_value


def test_wood_that_nothing_is_known_of_has_no_limit() -> None:
    assert bearing.limit(0.6) is None


# White oak, Douglas-fir and loblolly pine: NDS Fc-perp and Wood Handbook Table 5-3 green, both from memory.
@pytest.mark.parametrize(("design", "clear"), [(800, 670), (625, 380), (565, 390)])
def test_the_clear_wood_limit_is_the_more_cautious(design: float, clear: float) -> None:
    assert stress(0.6, clear_green=clear * PSI) < stress(0.6, design_value=design * PSI)


def test_heat_takes_a_third_of_it_by_fifty_degrees_and_beyond_that_there_are_no_data() -> None:
    """Wood Handbook Table 5-15 (memory): 35% less at 50 C than at 20 C."""
    cool, warm, kiln = (bearing.limit(0.6, design_value=800 * PSI, temperature=air) for air in (20.0, 50.0, 70.0))
    assert cool is not None
    assert warm is not None
    assert kiln is not None
    assert warm.stress / cool.stress == pytest.approx(0.65)
    assert not warm.beyond_data
    assert kiln.beyond_data
    assert kiln.stress == warm.stress


@given(st.floats(0.005, 0.3), st.one_of(st.none(), st.floats(0, 2)))
def test_a_short_bearing_never_counts_for_less_than_a_long_one(length: float, away: float | None) -> None:
    assert bearing.bearing_area_factor(length, away) >= 1.0


def test_a_sticker_near_the_board_end_has_no_bonus() -> None:
    """NDS 3.10.4 (memory): 3 in or more from the end."""
    assert bearing.bearing_area_factor(1.5 * ONE_INCH, 2.9 * ONE_INCH) == 1.0
    assert bearing.bearing_area_factor(1.5 * ONE_INCH, 3.0 * ONE_INCH) == pytest.approx(1.25)
