"""The months that a calendar shows."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import NamedTuple

from stacklint.yard.months import Month, after, month_of
from stacklint.yard.presence import Presence

USUAL = 12
"""Months that are shown if nothing else is asked for."""


class Frame(NamedTuple):
    """Whole months, in their order; at least one."""

    months: tuple[Month, ...]

    @property
    def first(self) -> datetime.date:
        return self.months[0].first

    @property
    def end(self) -> datetime.date:
        """The day after the last, or the last day that has a date."""
        following = after(self.months[-1])
        return following.first if following is not None else datetime.date.max

    @property
    def words(self) -> str:
        """*June 2026 to May 2027*"""
        first, last = self.months[0], self.months[-1]
        return first.name if first == last else f"{first.name} to {last.name}"


def frame(first: Month, count: int = USUAL) -> Frame:
    """So many months, as far as there are dates."""
    months = [first]
    while len(months) < count and (following := after(months[-1])) is not None:
        months.append(following)
    return Frame(tuple(months))


def usual_first(presences: Sequence[Presence], today: datetime.date) -> Month:
    """The month of today, or a later one in which the first stack comes; where all are gone, that of the first.

    A stack counts as gone when it is ready even at the slow end, or when charges have taken its boards.
    """
    days = [(each.stand.stay.start, _last(each)) for each in presences if each.stand.stay is not None]
    there = [start for start, last in days if last is None or last > today]
    if there:
        return month_of(max(min(there), today))
    return month_of(min((start for start, _ in days), default=today))


def _last(each: Presence) -> datetime.date | None:
    return each.end if each.taken or each.stand.stay is None else each.stand.stay.slow
