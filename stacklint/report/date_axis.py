"""The dates along the bottom of a chart: months where there are several, days where there are not."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_EVERY_MONTHS = (1, 2, 3, 6, 12, 24, 60)
_EVERY_DAYS = (1, 2, 3, 5, 7, 10, 14)
_SHORT = 60
"""Days. A chart of fewer has days along its bottom, one of more has months."""
_LAST = datetime.date.max.toordinal()


class DateTick(NamedTuple):
    """A date on the axis: the cell that it falls in, and how it is written."""

    cell: int
    label: str


def date_ticks(first: int, last: int, cells: int) -> tuple[DateTick, ...]:
    """Dates that fit, evenly spread, from ``first`` to ``last`` (proleptic ordinals of days) over ``cells``.

    The first month of a year is written as the year.
    """
    last = min(last, _LAST)
    kinds = (_days, _months) if last - first < _SHORT else (_months,)
    for kind in kinds:
        for every in kind(first, last, cells):
            ticks = tuple(tick for tick in every if tick.cell + len(tick.label) <= cells)
            if len(ticks) >= 2 and _apart(ticks):
                return ticks
    day = datetime.date.fromordinal(first)
    return (DateTick(0, day.isoformat()),)


def _days(first: int, last: int, cells: int) -> Iterator[tuple[DateTick, ...]]:
    for step in _EVERY_DAYS:
        days = range(first, last + 1, step)
        yield tuple(DateTick(_cell(day, first, last, cells), _day_label(day)) for day in days)


def _months(first: int, last: int, cells: int) -> Iterator[tuple[DateTick, ...]]:
    for step in _EVERY_MONTHS:
        ticks = []
        for month in _firsts(first, last):
            if (month.year * 12 + month.month - 1) % step == 0:
                label = str(month.year) if month.month == 1 else MONTHS[month.month - 1]
                ticks.append(DateTick(_cell(month.toordinal(), first, last, cells), label))
        yield tuple(ticks)


def _firsts(first: int, last: int) -> Iterator[datetime.date]:
    """The first day of each month from ``first`` to ``last``."""
    day = datetime.date.fromordinal(first)
    year, month = day.year, day.month
    if day.day > 1:
        year, month = _next(year, month)
    while year <= datetime.MAXYEAR and (start := datetime.date(year, month, 1)).toordinal() <= last:
        yield start
        year, month = _next(year, month)


def _next(year: int, month: int) -> tuple[int, int]:
    return (year, month + 1) if month < 12 else (year + 1, 1)


def _day_label(ordinal: int) -> str:
    day = datetime.date.fromordinal(ordinal)
    return f"{day.day} {MONTHS[day.month - 1]}"


def _cell(day: int, first: int, last: int, cells: int) -> int:
    return min(int((day - first) / max(last - first, 1) * cells), cells - 1)


def _apart(ticks: tuple[DateTick, ...]) -> bool:
    """Each label ends a blank before the next one begins."""
    return all(tick.cell + len(tick.label) < after.cell for tick, after in pairwise(ticks))
