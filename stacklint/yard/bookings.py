"""Spots and kilns that a stack comes to while another stands in them still, by forecast."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import islice

from stacklint.engineering.yard_facts import Booking
from stacklint.findings import Related
from stacklint.where import Where
from stacklint.yard.presence import Presence
from stacklint.yard.stay import SpotKind

_MOST_RELATED = 5
_MOST_INVOLVED = 50
"""Stacks in one place at once of which it is noted that they have a share in what is found."""
_LAST = datetime.date.max


def bookings(presences: Sequence[Presence]) -> Iterator[Booking]:
    """For each stack that comes to a taken place one fact, told where it names the place.

    It is set against the stack that leaves last. A stack whose first day is not said, or that is gone before it comes,
    is nowhere. A place is free on the day on which its stack is likely gone; where no day is known for that (nothing is
    wanted of it, or it is not forecast) it is taken on. Of a stack that could not be reckoned that is not said: what is
    wrong in its text comes first.
    """
    places: dict[tuple[object, ...], list[Presence]] = defaultdict(list)
    for each in presences:
        key = place_of(each)
        if key is not None and _stands(each):
            places[key].append(each)
    for group in places.values():
        yield from _in_one_place(sorted(group, key=_order))


def _stands(each: Presence) -> bool:
    if each.start is None:
        return False
    if each.end is None:
        stay = each.stand.stay
        return each.stand.volume is not None or (stay is not None and stay.foretold)
    return each.end > each.start


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
    there: dict[int, Presence] = {}
    leaving: list[tuple[bool, datetime.date, int]] = []
    last: Presence | None = None
    for number, each in enumerate(group):
        assert each.start is not None
        while leaving and leaving[0][:2] <= (False, each.start):
            del there[heappop(leaving)[2]]
        if there and last is not None:
            yield _clash(last, there, each)
        if not there or last is None or _leaves(each) > _leaves(last):
            last = each
        there[number] = each
        heappush(leaving, (each.end is None, each.end or _LAST, number))


def _leaves(each: Presence) -> tuple[bool, datetime.date, Where]:
    return each.end is None, each.end or _LAST, each.stand.block


def _clash(first: Presence, there: dict[int, Presence], second: Presence) -> Booking:
    """``first`` leaves last of those that are ``there``; of the others those that came last are named."""
    latest = (each for each in reversed(there.values()) if each is not first)
    others = [first, *islice(latest, _MOST_INVOLVED)]
    where, start = second.stand.placed_at, second.start
    assert where is not None and start is not None and first.stand.stay is not None and second.stand.stay is not None
    kiln = second.charge
    ends = [each.end for each in (first, second) if each.end is not None]
    return Booking(
        where=where,
        stack=second.stand.name,
        related=tuple(
            Related(each.stand.placed_at or each.stand.at, each.stand.words) for each in others[:_MOST_RELATED]
        ),
        involves=frozenset(each.plan.path for each in (*others, second)),
        in_kiln=kiln,
        place=f"{'kiln' if kiln else 'spot'} {second.stand.stay.spot.name}",
        first=first.written(second.plan.path),
        second=second.stand.words,
        since=start,
        until=min(ends) if ends else None,
        free=first.end,
        foretold=first.stand.stay.foretold,
        never_ready=first.end is None and first.stand.wanted is not None,
        others=float(len(there) - 1),
    )
