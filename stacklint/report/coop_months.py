"""The months along the top of the picture of a co-op: where each day stands, and which months are named."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from stacklint.report.date_axis import MONTHS

_MOST_MONTHS = 60
_BEFORE, _AHEAD = 24, 36
"""Months before and after today that are shown where all the days together would take more than the most."""
_STEPS = (1, 2, 3, 6, 12)
FEW, MANY = 8, 24
"""Months that can be named side by side on a phone and on paper."""


class Span(NamedTuple):
    """A stretch of the picture, in per cent of its width."""

    x: float
    width: float


class Tick(NamedTuple):
    """A month's name on the axis, and under it the year where it begins or the axis does."""

    x: float
    month: str
    year: str


class Scale(NamedTuple):
    """From the first day of a month to the first day of another."""

    first: datetime.date
    last: datetime.date

    def x(self, day: int) -> float:
        """Per cent of the width at which a day (ordinal) begins; days outside are at the edge."""
        low, high = self.first.toordinal(), self.last.toordinal()
        return round((min(max(day, low), high) - low) / max(high - low, 1) * 100, 2)

    def span(self, start: int, end: int) -> Span | None:
        left, right = self.x(start), self.x(end)
        return Span(left, round(right - left, 2)) if right > left else None

    def shows(self, day: datetime.date) -> bool:
        return self.first <= day <= self.last

    @property
    def months(self) -> Iterator[datetime.date]:
        month = self.first
        while month < self.last:
            yield month
            month = _months_on(month, 1)

    def ticks(self, most: int) -> Iterator[Tick]:
        """Months to be named, so many at the most."""
        months = list(self.months)
        step = next((step for step in _STEPS if len(months) / step <= most), _STEPS[-1])
        year = None
        for month in months:
            if (month.month - 1) % step == 0:
                year_shown = "" if month.year == year else str(month.year)
                yield Tick(self.x(month.toordinal()), MONTHS[month.month - 1], year_shown)
                year = month.year


def scale_of(days: Iterable[datetime.date], today: datetime.date) -> tuple[Scale, bool]:
    """The months from the first of the days to the last, and whether they are cut.

    Where they are too many, those around today.
    """
    days = list(days)
    first, last = _month_of(min(days)), _months_on(_month_of(max(days)), 1)
    if _between(first, last) <= _MOST_MONTHS:
        return Scale(first, last), False
    now = _month_of(today)
    earliest, latest = _months_on(now, -_BEFORE), _months_on(now, _AHEAD)
    if max(first, earliest) >= min(last, latest):
        return Scale(earliest, latest), True
    return Scale(max(first, earliest), min(last, latest)), True


def _month_of(day: datetime.date) -> datetime.date:
    return day.replace(day=1)


def _months_on(month: datetime.date, count: int) -> datetime.date:
    """So many months after the first day of one, as far as there are dates."""
    index = month.year * 12 + month.month - 1 + count
    index = min(max(index, datetime.MINYEAR * 12), datetime.MAXYEAR * 12 + 11)
    return datetime.date(index // 12, index % 12 + 1, 1)


def _between(first: datetime.date, last: datetime.date) -> int:
    return (last.year - first.year) * 12 + last.month - first.month
