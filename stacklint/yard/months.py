"""Months: which a stretch of days touches, how many of its days are in each, and their names."""

from __future__ import annotations

import calendar
import datetime
from collections.abc import Iterator, Sequence
from typing import NamedTuple

_MOST_AHEAD = 36
"""Months that are counted where a stretch has no end."""
_STRETCHES = 3


class Month(NamedTuple):
    year: int
    number: int

    @property
    def first(self) -> datetime.date:
        return datetime.date(self.year, self.number, 1)

    @property
    def name(self) -> str:
        """*July 2026*, in English whatever the system's language."""
        return f"{_NAMES[self.number - 1]} {self.year}"


_NAMES = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def month_of(day: datetime.date) -> Month:
    return Month(day.year, day.month)


def after(month: Month) -> Month | None:
    """The next month; ``None`` after the last that has dates."""
    if month.number < 12:
        return Month(month.year, month.number + 1)
    return Month(month.year + 1, 1) if month.year < datetime.MAXYEAR else None


def months_between(start: datetime.date, end: datetime.date) -> Iterator[Month]:
    """The months that the days from ``start`` up to, not with, ``end`` touch; without an end, those of some years."""
    month: Month | None = month_of(start)
    count = 0
    while month is not None and month.first < end and (end < datetime.date.max or count < _MOST_AHEAD):
        yield month
        month = after(month)
        count += 1


def days_in(month: Month, start: datetime.date = datetime.date.min, end: datetime.date | None = None) -> int:
    """How many days of a month lie from ``start`` up to, not with, ``end``; without them all its days."""
    first = month.first.toordinal()
    after_last = first + calendar.monthrange(*month)[1]
    last = after_last if end is None else min(after_last, end.toordinal())
    return max(0, last - max(first, start.toordinal()))


def said(months: Sequence[Month], *, on: bool = False) -> str:
    """*July 2026 to October 2026, and March 2027*; ``on``: and all that follow the last."""
    stretches: list[list[Month]] = []
    for month in months:
        if stretches and after(stretches[-1][-1]) == month:
            stretches[-1].append(month)
        else:
            stretches.append([month])
    words = [each[0].name if len(each) == 1 else f"{each[0].name} to {each[-1].name}" for each in stretches]
    if on:
        words[-1] = f"{stretches[-1][0].name} and later"
    if len(words) > _STRETCHES:
        words[_STRETCHES - 1 :] = [f"in {len(words) - _STRETCHES + 1} stretches more"]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])}, and {words[-1]}"
