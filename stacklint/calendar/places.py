"""Spots and kilns: which stacks stand in each, how many days of each month it is taken, and when it is free."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from stacklint.calendar.frame import Frame
from stacklint.report.coop_calendar import spot_order
from stacklint.report.coop_standing import overlaps
from stacklint.yard.bookings import place_of
from stacklint.yard.months import Month, days_in
from stacklint.yard.named import told_apart
from stacklint.yard.presence import Presence
from stacklint.yard.stay import Spot, SpotKind

_EVER = datetime.date.max.toordinal()


class Stretch(NamedTuple):
    """Days from ``start`` up to, not with, ``end``; without an end all that follow."""

    start: datetime.date
    end: datetime.date | None

    @property
    def words(self) -> str:
        """*from 2026-06-01 to 2026-07-08*, *from 2026-06-01 on*"""
        start = self.start.isoformat()
        return f"from {start} on" if self.end is None else f"from {start} to {self.end.isoformat()}"


class Days(NamedTuple):
    """Of one month: the days on which a stack is likely there, and those that all its stacks ask for together."""

    month: Month
    taken: int
    asked: int
    length: int

    @property
    def over(self) -> bool:
        """More is asked for than the month has."""
        return self.asked > self.length


class Place(NamedTuple):
    """A spot, a kiln, or what is not said, its name told apart from others. ``stacks`` are the indexes of those that
    stand there, the first to come first.

    Of a spot or kiln ``months``, ``free`` and ``clashes`` are told, within the months that are looked at; free are no
    days before today. Places that hold any number of stacks have none.
    """

    spot: Spot
    stacks: tuple[int, ...]
    months: tuple[Days, ...] = ()
    free: tuple[Stretch, ...] = ()
    clashes: tuple[Stretch, ...] = ()

    @property
    def holds_one(self) -> bool:
        return self.spot.kind in (SpotKind.SPOT, SpotKind.KILN)


def places(presences: Sequence[Presence], frame: Frame, today: datetime.date) -> tuple[Place, ...]:
    """Every place in which a stack stands on a day that is known or taken for its own: spots by site, then kilns."""
    spots = told_apart(presences)
    groups: dict[object, list[int]] = defaultdict(list)
    for index, (each, spot) in enumerate(zip(presences, spots, strict=True)):
        if spot is not None:
            groups[place_of(each) or spot.key].append(index)
    found = []
    for group in groups.values():
        first, *others = sorted(group, key=lambda index: _order(presences[index]))
        spot = spots[first]
        assert spot is not None
        found.append(_place(spot, (first, *others), presences, frame, today))
    return tuple(sorted(found, key=lambda place: (*spot_order(place.spot), place.stacks)))


def _order(each: Presence) -> tuple[datetime.date, str, int]:
    assert each.stand.stay is not None
    return each.stand.stay.start, each.plan.path, each.stand.block.line


def _place(
    spot: Spot, group: Sequence[int], presences: Sequence[Presence], frame: Frame, today: datetime.date
) -> Place:
    if spot.kind not in (SpotKind.SPOT, SpotKind.KILN):
        return Place(spot, tuple(group))
    stretches = [_days(presences[index]) for index in group]
    known = sorted((start, end) for start, end in stretches if start < end)
    first, end = frame.first.toordinal(), frame.end.toordinal()
    return Place(
        spot=spot,
        stacks=tuple(group),
        months=tuple(_month(month, known) for month in frame.months),
        free=tuple(map(_stretch, _gaps(_union(known), max(first, today.toordinal()), end))),
        clashes=tuple(_stretch((max(low, first), min(high, _EVER))) for low, high in overlaps(known)
                      if low < end and high > first),
    )  # fmt: skip


def _days(each: Presence) -> tuple[int, int]:
    """From and up to which day it is there; none where its day is not said."""
    if each.start is None:
        return 0, 0
    return each.start.toordinal(), _EVER if each.end is None else each.end.toordinal()


def _union(stretches: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """The stretches that together cover the same days, none of which touch."""
    begun: tuple[int, int] | None = None
    for start, end in stretches:
        if begun is None or start > begun[1]:
            if begun is not None:
                yield begun
            begun = start, end
        else:
            begun = begun[0], max(begun[1], end)
    if begun is not None:
        yield begun


def _gaps(stretches: Iterable[tuple[int, int]], first: int, end: int) -> Iterator[tuple[int, int]]:
    """The days from ``first`` up to ``end`` that are in none of them; the last gap goes on where nothing follows."""
    day = first
    for start, last in stretches:
        if day >= end:
            return
        if start > day:
            yield day, start
        day = max(day, last)
    if day < end:
        yield day, _EVER


def _month(month: Month, stretches: Sequence[tuple[int, int]]) -> Days:
    first = month.first.toordinal()
    length = days_in(month)
    within = [(max(start, first), min(end, first + length)) for start, end in stretches]
    within = [(start, end) for start, end in within if start < end]
    return Days(
        month=month,
        taken=sum(end - start for start, end in _union(within)),
        asked=sum(end - start for start, end in within),
        length=length,
    )


def _stretch(days: tuple[int, int]) -> Stretch:
    start, end = days
    return Stretch(datetime.date.fromordinal(start), None if end >= _EVER else datetime.date.fromordinal(end))
