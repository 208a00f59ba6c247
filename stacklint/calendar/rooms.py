"""How full each site is, month by month: stacks against its spots, wood against what it holds, stickers and bearers
against its stock."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from stacklint.calendar.frame import Frame
from stacklint.yard.limits import Limit, limits_of
from stacklint.yard.months import Month, month_of, months_between
from stacklint.yard.presence import Presence

_EVER = datetime.date.max


class Asked(NamedTuple):
    """The most that is asked for at once in a month, in words, and whether that is more than there is."""

    month: Month
    most: float
    words: str
    over: bool


class Room(NamedTuple):
    """One thing that a site has so much of, and what is asked of it in each month that is looked at."""

    site: str
    there_is: str
    months: tuple[Asked, ...]


def rooms(presences: Sequence[Presence], frame: Frame) -> tuple[Room, ...]:
    """Every limit that a site says, in the order of the sites' names. A stack whose day is not said counts nowhere."""
    sites: dict[object, list[Presence]] = defaultdict(list)
    for each in presences:
        if each.start is not None and (each.end is None or each.end > each.start):
            sites[each.site].append(each)
    found = (room for group in sites.values() for room in _of_site(group, frame))
    return tuple(sorted(found, key=lambda room: room.site.casefold()))


def _of_site(group: Sequence[Presence], frame: Frame) -> Iterator[Room]:
    blocks = sorted({each.stand.site for each in group if each.stand.site is not None})
    for limit in limits_of(blocks, group):
        most = _most(limit, group, frame)
        yield Room(
            blocks[0].name,
            limit.room,
            tuple(
                Asked(month, taken, limit.words(taken), limit.exceeded(taken, stacks))
                for month, (taken, stacks) in most.items()
            ),
        )


def _most(limit: Limit, group: Sequence[Presence], frame: Frame) -> dict[Month, tuple[float, int]]:
    """For each month the most that is taken on one of its days, and by how many stacks.

    On each day those who go make room before others come.
    """
    most = dict.fromkeys(frame.months, (0.0, 0))
    changes: dict[datetime.date, tuple[float, int]] = defaultdict(lambda: (0.0, 0))
    for each in group:
        takes = limit.takes(each)
        if not takes or each.start is None:
            continue
        for day, sign in ((each.start, 1), (each.end or _EVER, -1)):
            taken, stacks = changes[day]
            changes[day] = taken + sign * takes, stacks + sign
    days = sorted(changes)
    taken, stacks = 0.0, 0
    for day, following in zip(days, [*days[1:], _EVER], strict=True):
        taken, stacks = taken + changes[day][0], stacks + changes[day][1]
        first, end = max(day, frame.first), min(following, frame.end)
        if not stacks or first >= end:
            continue
        for month in months_between(month_of(first).first, end):
            most[month] = max(most[month], (taken, stacks))
    return most
