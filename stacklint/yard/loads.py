"""Sites and kilns that are asked to hold more than they have room, stickers or days for, month by month."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from stacklint.engineering.yard_facts import Load
from stacklint.findings import Related
from stacklint.yard.limits import Limit, limits_of
from stacklint.yard.months import Month, days_in, month_of, months_between, said
from stacklint.yard.presence import Presence

_MOST_RELATED = 6
_EVER = datetime.date.max
_NO_ROOM = 99.0
"""What is asked for over what there is, where there is nothing."""


def loads(presences: Sequence[Presence]) -> Iterator[Load]:
    """Each thing of each site, and each kiln, that is asked for beyond what there is, at the stack that first does so.

    A stack stands until it is gone (see ``Presence``); one of which no such day is known stands on.
    """
    sites: dict[object, list[Presence]] = defaultdict(list)
    kilns: dict[object, list[Presence]] = defaultdict(list)
    for each in presences:
        if each.start is None or (each.end is not None and each.end <= each.start):
            continue
        sites[each.site].append(each)
        if each.kiln is not None and each.end is not None and each.stand.placed_at is not None:
            kilns[each.kiln].append(each)
    for group in sites.values():
        blocks = sorted({each.stand.site for each in group if each.stand.site is not None})
        for limit in limits_of(blocks, group):
            yield from _over(limit, [each for each in group if limit.takes(each)], blocks[0].name)
    for group in kilns.values():
        yield from _kiln(sorted(group, key=_order))


def _order(each: Presence) -> tuple[datetime.date, str, int]:
    return each.start or _EVER, each.stand.block.path, each.stand.block.line


class _Watch:
    """Goes through the comings and goings at a site in the order of the days, and notes when it is too much."""

    def __init__(self, limit: Limit) -> None:
        self._limit = limit
        self._there: dict[int, Presence] = {}
        self._taken = 0.0
        self._over = False
        self.first: tuple[Presence, tuple[Presence, ...]] | None = None
        self.most = 0.0
        self.worst = datetime.date.min
        self.months: set[Month] = set()
        self.on = False
        self.involved: set[str] = set()

    def change(self, day: datetime.date, number: int, each: Presence, *, comes: bool) -> None:
        takes = self._limit.takes(each)
        if comes:
            self._there[number] = each
            self._taken += takes
        else:
            del self._there[number]
            self._taken -= takes
        if self._taken > self.most and self._too_much:
            self.most, self.worst = self._taken, day
        if self._too_much and self.first is None:
            others = tuple(other for other in reversed(self._there.values()) if other is not each)
            self.first = each, others[:_MOST_RELATED]

    def until(self, day: datetime.date, next_day: datetime.date) -> None:
        """Nothing changes from ``day`` until ``next_day``."""
        if not self._too_much:
            self._over = False
            return
        newcomers = self._there.values() if not self._over else list(self._there.values())[-1:]
        self.involved.update(each.plan.path for each in newcomers)
        self.months.update(months_between(day, next_day))
        self.on = self.on or next_day == _EVER
        self._over = True

    @property
    def _too_much(self) -> bool:
        return self._limit.exceeded(self._taken, len(self._there))


def _over(limit: Limit, group: Sequence[Presence], place: str) -> Iterator[Load]:
    """On each day those who go make room before others come."""
    comings = [(each.start or _EVER, True, number) for number, each in enumerate(group)]
    goings = [(each.end, False, number) for number, each in enumerate(group) if each.end is not None]
    events = sorted([*comings, *goings], key=lambda event: (event[0], event[1], _order(group[event[2]])))
    watch = _Watch(limit)
    for index, (day, comes, number) in enumerate(events):
        watch.change(day, number, group[number], comes=comes)
        watch.until(day, events[index + 1][0] if index + 1 < len(events) else _EVER)
    if watch.first is None:
        return
    came, others = watch.first
    months = sorted(watch.months)
    yield Load(
        where=came.stand.started_at or came.stand.at,
        stack=came.stand.name,
        related=(limit.where, *(Related(each.stand.at, each.stand.words) for each in others)),
        involves=frozenset(watch.involved | {came.plan.path}),
        place=f"site {place}",
        need=limit.words(watch.most),
        room=limit.room,
        share=watch.most / limit.limit if limit.limit else _NO_ROOM,
        month=months[0].name,
        months=said(months, on=watch.on),
        worst=month_of(watch.worst).name,
        advice=limit.advice,
    )


def _kiln(group: Sequence[Presence]) -> Iterator[Load]:
    """The days of drying that a kiln's charges ask for in a month, against those that the month has."""
    asked: dict[Month, list[tuple[Presence, int]]] = defaultdict(list)
    for each in group:
        assert each.start is not None and each.end is not None
        for month in months_between(each.start, each.end):
            asked[month].append((each, days_in(month, each.start, each.end)))
    over = {month: charges for month, charges in sorted(asked.items()) if _days(charges) > days_in(month)}
    if not over:
        return
    worst = max(over, key=lambda month: _days(over[month]) / days_in(month))
    first = next(iter(over.values()))
    last = first[-1][0]
    others = [each for each, _ in reversed(first) if each is not last]
    assert last.stand.stay is not None
    yield Load(
        where=last.stand.started_at or last.stand.at,
        stack=last.stand.name,
        related=tuple(Related(each.stand.at, each.stand.words) for each in others)[:_MOST_RELATED],
        involves=frozenset(each.plan.path for charges in over.values() for each, _ in charges),
        place=f"kiln {last.stand.stay.spot.name}",
        need=f"{_days(over[worst])} days of drying",
        room=f"the {days_in(worst)} days of the month",
        share=_days(over[worst]) / days_in(worst),
        month=next(iter(over)).name,
        months=said(list(over)),
        worst=worst.name,
        advice="Move a charge to another month or another kiln",
    )


def _days(charges: Iterable[tuple[Presence, int]]) -> int:
    return sum(days for _, days in charges)
