"""Wind and rain against published figures.

Rows marked "worked from" are figures worked out by hand from the published formula and given to the digits shown.
"""

from __future__ import annotations

import pytest

from stacklint.engineering import rain, wind
from stacklint.plan.shelter import CoverKind
from stacklint.units import ONE_FOOT, ONE_INCH, ONE_POUND, Unit

MPH = Unit.MILE_PER_HOUR.to_si(1)
PSF = Unit.PSF.to_si(1)


def test_a_wind_of_70_mph_presses_with_12_5_psf() -> None:
    """https://g.bajins.eu.org/henryhawke/ballastpublic (ASCE 7: q = 0.00256 V^2)."""
    assert wind.pressure(70 * MPH) / PSF == pytest.approx(12.5, abs=0.06)


def test_the_pressure_in_pascals_is_that_in_pounds_a_square_foot() -> None:
    """0.613 in Pa and m/s is 0.00256 in psf and mph (ASCE 7)."""
    assert wind.pressure(MPH) / PSF == pytest.approx(0.00256, abs=0.000005)


@pytest.mark.parametrize(("mph", "pounds"), [(40, 197), (60, 442), (90, 995)])
def test_a_sheet_of_4_x_10_ft_is_lifted_by_so_many_pounds(mph: float, pounds: float) -> None:
    """Worked from uplift 1.2 of ASCE 7-16 Fig. 30.5-1 and q = 0.00256 V^2."""
    lifted = wind.cover_uplift(4 * 10 * ONE_FOOT**2, mph * MPH) / ONE_POUND
    assert lifted == pytest.approx(pounds, abs=0.6)


@pytest.mark.parametrize(("height_ft", "weight_lb", "factor"), [(8, 7000, 1.01), (4, 3500, 2.03)])
def test_a_dry_stack_of_4_ft_width_stands_in_90_mph_by_this_factor(
    height_ft: float, weight_lb: float, factor: float
) -> None:
    """Worked from force coefficient 1.3 (memory): 3,450 lb at 4 ft against 7,000 lb at 2 ft."""
    found = wind.overturning(weight_lb * ONE_POUND, 16 * ONE_FOOT, 4 * ONE_FOOT, height_ft * ONE_FOOT, speed=90 * MPH)
    assert found == pytest.approx(factor, abs=0.006)


def test_the_gust_is_that_of_a_severe_thunderstorm() -> None:
    """US National Weather Service: 50 knots, 58 mph; https://www.metaglossary.com/define/severe+thunderstorm."""
    gust = wind.GUST
    assert gust == pytest.approx(50 * 1852 / 3600, abs=0.05)
    assert gust / MPH == pytest.approx(58, abs=0.6)


def test_sheet_metal_is_the_light_gauge_of_the_standard() -> None:
    """29 gauge 0.5625 lb/ft2, and 0.156 for galvanising: https://roofonline.com/weight-of-sheet-steel."""
    sheet = wind.cover_mass(CoverKind.SHEET_METAL, ONE_FOOT**2)
    assert sheet / ONE_POUND == pytest.approx(0.5625 + 0.156, abs=0.005)


def test_half_inch_plywood_weighs_half_of_three_pounds() -> None:
    """3 lb/ft2 an inch: http://richland-mall.com/wall-panel/4254-wood-weight-per-square-foot.html (opening read)."""
    assert wind.cover_mass(CoverKind.PLYWOOD, ONE_FOOT**2) / ONE_POUND == pytest.approx(3 / 2)


@pytest.mark.parametrize(("overhang_in", "wind_speed", "share"), [(12, 4.5, 0.83), (24, 4.5, 0.67), (12, 2.25, 0.67)])
def test_rain_reaches_this_share_of_a_side_of_six_feet(overhang_in: float, wind_speed: float, share: float) -> None:
    """Worked from 0.222 U (Blocken and Carmeliet 2004, as used in
    https://github.com/ShotaGhoona/thermal-moisture-analysis-platform)."""
    found = rain.reached(overhang_in * ONE_INCH, 6 * ONE_FOOT, wind=wind_speed)
    assert found == pytest.approx(share, abs=0.005)


@pytest.mark.parametrize(("wind_speed", "across_over_down"), [(2.25, 0.5), (4.5, 1.0)])
def test_rain_falls_at_one_in_two_and_at_45_degrees(wind_speed: float, across_over_down: float) -> None:
    """1 in 2 at peak rainfall: https://www.taylorfrancis.com/books/e/9780203481172/chapters/10.4324/9780203481172-67."""
    assert 1.0 / rain.dry_depth(1.0, wind_speed) == pytest.approx(across_over_down, abs=0.0015)


def test_the_slope_of_rain_lies_between_the_measured_and_the_standard_one() -> None:
    """0.204 measured in Sydney (https://discovery.researcher.life/article/characteristics-of-the-cooccurrence-of-
    wind-and-rain-and-the-drivingrain-index/c0c75a4e92af30db9eaff05c61ca8a72), 2/9 in ISO 15927-3 (memory)."""
    assert 0.204 <= rain.SLOPE_IN_WIND <= 2 / 9
