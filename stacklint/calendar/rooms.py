"""How full each site is, month by month: stacks against its spots, wood against what it holds, stickers and bearers
against its stock."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from stacklint.calendar.frame import Frame
from stacklint.yard.limits import Limit, limits_of
from stacklint.yard.months import Month, month_of, months_between
from stacklint.yard.named import with_path
from stacklint.yard.presence import Presence
from stacklint.yard.stands import Block

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
    named: dict[str, list[tuple[Block, Room]]] = defaultdict(list)
    for group in sites.values():
        for block, room in _of_site(group, frame):
            named[block.name.casefold()].append((block, room))
    return tuple(room for _, found in sorted(named.items()) for room in _told_apart(found))


def _told_apart(found: Sequence[tuple[Block, Room]]) -> Iterator[Room]:
    """What sites of one name have: where there are several, each with the path of its text behind its name."""
    several = len({block.where for block, _ in found}) > 1
    for block, room in sorted(found, key=lambda each: each[0].where):
        yield room._replace(site=with_path(room.site, block.where.path)) if several else room


def _of_site(group: Sequence[Presence], frame: Frame) -> Iterator[tuple[Block, Room]]:
    blocks = sorted({each.stand.site for each in group if each.stand.site is not None})
    for limit in limits_of(blocks, group):
        most = _most(limit, group, frame)
        months = tuple(
            Asked(month, taken, limit.words(taken), limit.exceeded(taken, stacks))
            for month, (taken, stacks) in most.items()
        )
        yield blocks[0], Room(blocks[0].name, limit.room, months)


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
    taken, stacks = 0.0, 0
    for day, following in pairwise([*sorted(changes), _EVER]):
        taken, stacks = taken + changes[day][0], stacks + changes[day][1]
        first, end = max(day, frame.first), min(following, frame.end)
        if not stacks or first >= end:
            continue
        for month in months_between(month_of(first).first, end):
            most[month] = max(most[month], (taken, stacks))
    return most
