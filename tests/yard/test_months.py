"""Months: which a stretch of days touches, and how it is said."""

from __future__ import annotations

import datetime

from hypothesis import given
from hypothesis import strategies as st

from stacklint.yard.months import Month, after, days_in, month_of, months_between, said

DATE = datetime.date


def test_a_stretch_touches_the_month_that_its_last_day_is_in_but_not_the_one_on_whose_first_day_it_ends() -> None:
    assert [each.name for each in months_between(DATE(2026, 1, 31), DATE(2026, 3, 1))] == [
        "January 2026",
        "February 2026",
    ]
    assert [each.name for each in months_between(DATE(2026, 12, 31), DATE(2027, 1, 2))] == [
        "December 2026",
        "January 2027",
    ]
    assert list(months_between(DATE(2026, 1, 31), DATE(2026, 1, 31))) == [Month(2026, 1)]
    assert list(months_between(DATE(2026, 2, 1), DATE(2026, 2, 1))) == []


def test_of_a_stretch_without_an_end_three_years_are_counted_and_none_after_the_year_9999() -> None:
    assert len(list(months_between(DATE(2026, 5, 4), DATE.max))) == 36
    assert [each.name for each in months_between(DATE(9999, 11, 30), DATE.max)] == ["November 9999", "December 9999"]
    assert after(Month(9999, 12)) is None


def test_days_of_a_month_are_those_of_the_calendar() -> None:
    assert [days_in(Month(2028, number)) for number in (1, 2, 4, 12)] == [31, 29, 30, 31]
    assert days_in(Month(9999, 12)) == 31
    assert days_in(Month(2026, 6), DATE(2026, 6, 30), DATE(2026, 7, 15)) == 1
    assert days_in(Month(2026, 6), DATE(2026, 7, 1), DATE(2026, 7, 15)) == 0


days = st.dates(DATE(1990, 1, 1), DATE(2060, 1, 1))


@given(days, st.integers(0, 900))
def test_the_days_of_its_months_are_all_the_days_of_a_stretch(start: DATE, length: int) -> None:
    end = start + datetime.timedelta(days=length)
    assert sum(days_in(month, start, end) for month in months_between(start, end)) == length


@given(days)
def test_a_day_is_in_its_month(day: DATE) -> None:
    assert days_in(month_of(day), day, day + datetime.timedelta(days=1)) == 1


def test_months_in_a_row_are_said_as_a_stretch_and_many_stretches_are_counted() -> None:
    row = [Month(2026, 11), Month(2026, 12), Month(2027, 1)]
    assert said(row) == "November 2026 to January 2027"
    assert said(row[:1]) == "November 2026"
    assert said([*row, Month(2027, 6)]) == "November 2026 to January 2027, and June 2027"
    assert said([Month(2026, 1), Month(2026, 3), Month(2026, 5)]) == "January 2026, March 2026, and May 2026"
    assert said([Month(2026, number) for number in (1, 3, 5, 7, 9)]) == (
        "January 2026, March 2026, and in 3 stretches more"
    )


def test_what_goes_on_for_ever_is_said_from_its_first_month_on() -> None:
    assert said([Month(2026, 1), Month(2026, 5), Month(2026, 6)], on=True) == "January 2026, and May 2026 and later"
