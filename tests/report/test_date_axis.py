"""Dates along the bottom of a chart."""

import datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.report.date_axis import date_ticks

LAST = datetime.date.max.toordinal()


def day(text):
    return datetime.date.fromisoformat(text).toordinal()


def labels(first, last, cells):
    return [tick.label for tick in date_ticks(day(first), day(last), cells)]


def test_a_summer_is_told_in_months():
    assert labels("2026-04-02", "2026-09-20", 60) == ["May", "Jun", "Jul", "Aug", "Sep"]


def test_a_month_stands_where_it_begins():
    first, last = day("2026-01-01"), day("2027-01-01")
    for tick in date_ticks(first, last, 73):
        if tick.label == "Jul":
            # 181 of the 365 days of 2026 are over when July begins: half a year less a day and a half.
            assert tick.cell == 36
            return
    pytest.fail("July is not told")


def test_the_first_month_of_a_year_is_told_as_the_year():
    assert "2027" in labels("2026-10-01", "2027-06-01", 60)
    assert "Jan" not in labels("2026-10-01", "2027-06-01", 60)


def test_three_weeks_in_a_kiln_are_told_in_days():
    assert labels("2026-04-02", "2026-04-23", 60)[:2] == ["2 Apr", "5 Apr"]


@given(st.integers(1, LAST), st.integers(1, 4000), st.integers(20, 115))
def test_labels_stay_apart_and_inside_whatever_the_days(first, span, cells):
    ticks = date_ticks(min(first, LAST - 1), first + span, cells)
    assert ticks
    assert all(left.cell + len(left.label) < right.cell for left, right in pairwise(ticks))
    assert all(tick.cell >= 0 and tick.cell + len(tick.label) <= cells for tick in ticks)
