"""The air of each day, drawn through the means of the months."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_piles import near, steady, years

from stacklint.drying.air import saturation_pressure
from stacklint.drying.climate import Air, Climate, lowest_equilibrium
from stacklint.drying.equilibrium import equilibrium
from stacklint.drying.weather import YEAR, day_of_year, on, year
from stacklint.tables import places

MIDDLES = [15, 45, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349]
"""Days of the year about the middle of each month."""


@given(years())
def test_about_the_middle_of_a_month_the_air_is_that_of_the_month(climate: Climate) -> None:
    days = year(climate.months)
    for middle, month in zip(MIDDLES, climate.months, strict=True):
        assert days[middle].air.temperature == pytest.approx(month.temperature, abs=0.35)
        assert days[middle].air.humidity == pytest.approx(month.humidity, abs=0.02)


@given(years())
def test_no_day_is_warmer_damper_colder_or_drier_than_every_month(climate: Climate) -> None:
    for place in (0, 1):  # temperature, then humidity
        low, high = (end(month[place] for month in climate.months) for end in (min, max))
        assert all(low - 1e-9 <= day.air[place] <= high + 1e-9 for day in year(climate.months))


@given(years())
def test_the_air_does_not_jump_from_one_day_to_the_next_not_even_at_new_year(climate: Climate) -> None:
    days = year(climate.months)
    assert len(days) == YEAR
    for yesterday, today in zip((days[-1], *days), days, strict=False):
        assert abs(today.air.temperature - yesterday.air.temperature) < 0.6
        assert abs(today.air.humidity - yesterday.air.humidity) < 0.025


def test_new_year_lies_half_way_between_december_and_january() -> None:
    months = (Air(-10, 0.5), *(Air(0, 0.6),) * 10, Air(10, 0.9))
    first = year(months)[0].air
    assert first.temperature == pytest.approx(0, abs=0.4)
    assert first.humidity == pytest.approx(0.7, abs=0.01)


def test_each_day_holds_wood_at_what_its_own_air_does() -> None:
    for day in year(near("Madison, WI").months)[::30]:
        assert day.equilibrium == equilibrium(day.air.temperature, day.air.humidity)


def test_full_air_of_30_c_has_the_1_8_fold_vapour_of_that_of_20_c() -> None:
    """Saturation pressures 4246 and 2339 Pa, steam tables (memory)."""
    assert year(steady(30, 0.5).months)[0].vapour == pytest.approx(4246 / 2339, rel=1e-3)
    assert year(steady(20, 0.5).months)[0].vapour == pytest.approx(1, rel=1e-9)
    assert year(steady(0, 0.5).months)[0].vapour == pytest.approx(611 / 2339, rel=2e-3)


def test_the_driest_day_is_no_drier_than_the_driest_month() -> None:
    """So what a month cannot reach, no day of a forecast does."""
    for name in ("Columbus, OH", "Madison, WI", "Jackson, MS", "Missoula, MT", "Phoenix, AZ", "London", "Flagstaff"):
        climate = near(name)
        assert min(day.equilibrium for day in year(climate.months)) >= lowest_equilibrium(climate)[0] - 1e-9


def test_the_year_begins_with_the_first_of_january_and_has_365_days() -> None:
    assert day_of_year(datetime.date(2025, 1, 1)) == 0
    assert day_of_year(datetime.date(2025, 12, 31)) == YEAR - 1
    assert day_of_year(datetime.date(2024, 12, 31)) == YEAR - 1
    assert day_of_year(datetime.date(2024, 2, 29)) == day_of_year(datetime.date(2025, 3, 1))


@given(st.dates())
def test_every_date_that_there_is_has_its_air(date: datetime.date) -> None:
    climate = near("Columbus, OH")
    assert on(climate, date) == year(climate.months)[day_of_year(date)]


@pytest.mark.parametrize("air", [Air(-50, 0.0), Air(-50, 1.0), Air(60, 0.0), Air(60, 1.0)])
def test_the_coldest_hottest_driest_and_dampest_air_that_a_plan_may_write_is_reckoned(air: Air) -> None:
    day = year((air,) * 12)[100]
    assert 0 <= day.equilibrium < 0.32
    assert day.vapour == pytest.approx(saturation_pressure(air.temperature) / saturation_pressure(20))


def test_every_whole_place_of_the_table_has_a_year() -> None:
    place = places.find("Duluth, MN")
    assert place is not None and place.complete
    assert year(near("Duluth, MN").months)[0].air.temperature < -8
