"""The dates along the bottom of a drying curve: every month has its tick, as many as have room their name."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import NamedTuple

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_EVERY_MONTHS = (1, 2, 3, 6, 12, 24, 60)
_EVERY_DAYS = (1, 2, 5, 7, 10, 14)
_SHORT = 75
"""Days. A chart of fewer tells days, one of more months."""
_LAST = datetime.date.max.toordinal()


class DayTick(NamedTuple):
    """A day (proleptic ordinal) and how it is written."""

    day: int
    label: str


def day_ticks(first: int, last: int, room: Callable[[str], float]) -> tuple[DayTick, ...]:
    """Days or months from ``first`` to ``last``, with labels that do not run together; ``room`` is what one takes, in
    days. Those between them have none. Among months, January is told with its year, and so is the first that is told.
    """
    last = min(last, _LAST)
    several = (_days, _months) if last - first < _SHORT else (_months,)
    for kind in several:
        for ticks in kind(first, last):
            told = [tick for tick in ticks if tick.label]
            if len(told) >= 2 and all(right.day - left.day >= room(left.label) for left, right in pairwise(told)):
                return ticks
    return (DayTick(first, datetime.date.fromordinal(first).isoformat()),)


def _days(first: int, last: int) -> Iterator[tuple[DayTick, ...]]:
    for step in _EVERY_DAYS:
        days = [datetime.date.fromordinal(day) for day in range(first, last + 1, step)]
        yield tuple(DayTick(day.toordinal(), f"{day.day} {_MONTHS[day.month - 1]}") for day in days)


def _months(first: int, last: int) -> Iterator[tuple[DayTick, ...]]:
    firsts = list(_firsts(first, last))
    for step in _EVERY_MONTHS:
        told = [day for day in firsts if (day.year * 12 + day.month - 1) % step == 0]
        ticks = firsts if step < _EVERY_MONTHS[-2] else told
        yield tuple(DayTick(day.toordinal(), _label(day, told[0]) if day in told else "") for day in ticks)


def _label(day: datetime.date, first: datetime.date) -> str:
    name = _MONTHS[day.month - 1]
    return f"{name} {day.year}" if day == first or day.month == 1 else name


def _firsts(first: int, last: int) -> Iterator[datetime.date]:
    """The first day of each month from ``first`` to ``last``."""
    day = datetime.date.fromordinal(first)
    month = day.year * 12 + day.month - 1 + (1 if day.day > 1 else 0)
    while month < (datetime.MAXYEAR + 1) * 12:
        start = datetime.date(month // 12, month % 12 + 1, 1)
        if start.toordinal() > last:
            return
        yield start
        month += 1
