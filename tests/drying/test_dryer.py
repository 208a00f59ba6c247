"""What takes the water out of a kiln."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying import dryer
from stacklint.drying.climate import Air
from stacklint.units import Unit

RATING = Unit.PINT_PER_DAY.to_si(60)
F = Unit.FAHRENHEIT.to_si


def test_a_dehumidifier_takes_its_rating_in_the_air_that_it_was_rated_in() -> None:
    assert dryer.capacity(RATING, F(80), 0.60) == pytest.approx(RATING)


def test_the_same_machine_takes_about_three_fifths_in_the_air_of_newer_labels() -> None:
    """Labels of machines rated in both ways differ by 0.6 to 0.71 (memory)."""
    assert 0.58 <= dryer.capacity(RATING, F(65), 0.60) / RATING <= 0.71


def test_a_coil_that_ices_takes_nothing() -> None:
    assert dryer.capacity(RATING, F(40), 0.60) == 0.0


def test_hot_damp_air_gives_no_more_than_half_again_the_rating() -> None:
    assert dryer.capacity(RATING, F(120), 0.90) == pytest.approx(1.5 * RATING)


@given(st.floats(0, 80), st.floats(0, 1), st.floats(0, 1))
def test_damper_air_never_gives_less(temperature: float, one: float, other: float) -> None:
    dry, damp = sorted((one, other))
    assert dryer.capacity(RATING, temperature, dry) <= dryer.capacity(RATING, temperature, damp) + 1e-12


def test_the_sun_gives_all_its_heat_in_the_three_warmest_months_or_nearly() -> None:
    months = [Air(temperature, 0.7) for temperature in (-7, -5, 1, 8, 14, 20, 22, 21, 16, 9, 3, -5)]
    shares = dryer.sun(months)
    assert min(shares[5:8]) > 0.95
    assert shares[0] < 0.15
    assert all(0 <= share <= 1 for share in shares)


def test_a_kiln_in_everlasting_frost_gets_nothing_from_the_sun() -> None:
    assert dryer.sun([Air(-20.0, 0.7)] * 12) == (0.0,) * 12


def test_warmed_air_keeps_its_water() -> None:
    from stacklint.drying.air import humidity_ratio

    outdoors = Air(22.0, 0.68)
    inside = dryer.warmed(outdoors, 1.0)
    assert inside.temperature == pytest.approx(22 + dryer.SOLAR_RISE)
    assert humidity_ratio(*inside) == pytest.approx(humidity_ratio(*outdoors))


def test_the_collector_turns_about_a_third_of_a_summer_days_sun_into_vapour() -> None:
    """1,000 Btu a pound (Wengert and Oliveira, read at https://www.woodweb.com/knowledge_base/Solar_Kiln_Designs_2.html);
    a summer day brings some 1,500 to 2,200 Btu to a square foot (common practice, no source)."""
    pounds = Unit.POUND.from_si(dryer.collected(Unit.SQUARE_FOOT.to_si(1), 1.0) * 86_400)
    assert 0.15 * 2200 < pounds * 1000 < 0.6 * 1500
