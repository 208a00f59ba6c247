"""Spots and kilns that a stack comes to while another stands in them still, by forecast."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterator, Sequence

from stacklint.engineering.yard_facts import Booking
from stacklint.findings import Related
from stacklint.yard.presence import Presence
from stacklint.yard.stay import SpotKind

_MOST_RELATED = 5
_LAST = datetime.date.max


def bookings(presences: Sequence[Presence]) -> Iterator[Booking]:
    """For each stack that comes to a taken place one fact, told where it names the place.

    It is set against the stack that leaves last. A stack whose first day is not said, or that is gone before it comes,
    is nowhere. A place is free on the day on which its stack is likely gone; where no day is known for that (nothing is
    wanted of it, or it is not forecast) it is taken on.
    """
    places: dict[tuple[object, ...], list[Presence]] = defaultdict(list)
    for each in presences:
        key = place_of(each)
        if key is not None and each.start is not None and (each.end is None or each.end > each.start):
            places[key].append(each)
    for group in places.values():
        yield from _in_one_place(sorted(group, key=_order))


def place_of(each: Presence) -> tuple[object, ...] | None:
    """The same for all stacks of one spot or one kiln; ``None`` where none is said."""
    if each.stand.placed_at is None or each.stand.stay is None:
        return None
    spot = each.stand.stay.spot
    if spot.kind is SpotKind.KILN:
        return "kiln", each.kiln
    return ("spot", each.site, spot.name.casefold()) if spot.kind is SpotKind.SPOT else None


def _order(each: Presence) -> tuple[datetime.date, str, int]:
    assert each.start is not None
    return each.start, each.stand.block.path, each.stand.block.line


def _in_one_place(group: Sequence[Presence]) -> Iterator[Booking]:
    there: list[Presence] = []
    for each in group:
        there = [other for other in there if other.end is None or each.start is None or other.end > each.start]
        if there:
            yield _clash(there, each)
        there.append(each)


def _clash(there: Sequence[Presence], second: Presence) -> Booking:
    first = max(there, key=lambda each: (each.end or _LAST, each.stand.block))
    where, start = second.stand.placed_at, second.start
    assert where is not None and start is not None and second.stand.stay is not None
    kiln = second.charge
    ends = [each.end for each in (first, second) if each.end is not None]
    others = sorted(there, key=lambda each: each is not first)
    return Booking(
        where=where,
        stack=second.stand.name,
        related=tuple(Related(each.stand.placed_at or each.stand.at, each.stand.words) for each in others)[
            :_MOST_RELATED
        ],
        involves=frozenset(each.plan.path for each in (*there, second)),
        in_kiln=kiln,
        place=f"{'kiln' if kiln else 'spot'} {second.stand.stay.spot.name}",
        first=first.written(second.plan.path),
        second=second.stand.words,
        since=start,
        until=min(ends) if ends else None,
        free=first.end,
        others=float(len(there) - 1),
    )
