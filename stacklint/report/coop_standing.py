"""Stacks in the spots and kilns that they stand in: until when, and which stand there at the same time."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from stacklint.report.coop_plan import NOTHING_WANTED, CoopStack
from stacklint.yard.named import told_apart
from stacklint.yard.presence import Presence
from stacklint.yard.stay import Stay

EVER = datetime.date.max.toordinal() + 1
"""The end of a stay of which no end is known: later than any day (ordinals)."""
_NAMED = 3
"""Others that are named where more stand in the same spot."""


class Standing(NamedTuple):
    """A stack's stay with its address on the page and, where a charge takes its boards, the day and the charge."""

    anchor: str
    stack: CoopStack
    stay: Stay
    taken: datetime.date | None = None
    taken_by: str = ""

    @property
    def surely(self) -> tuple[int, int]:
        """From and up to which day (ordinals) it is likely there; the same day twice where that is not known."""
        start = self.stay.start.toordinal()
        if not self.stay.start_said:
            return start, start
        if self.taken is not None:
            return start, self.taken.toordinal()
        if not self.stay.foretold:
            return start, start
        return start, self.stay.likely.toordinal() if self.stay.likely else EVER

    @property
    def perhaps(self) -> tuple[int, int]:
        """From and up to which day it may be there."""
        start = self.stay.start.toordinal()
        last = self.taken or self.stay.slow
        return start, max(last.toordinal() if last else EVER, start + 1)


def words_of(each: Standing) -> str:
    stay, ready = each.stay, each.stack.ready
    start = stay.start.isoformat()
    since = start if stay.start_said else f"{start} (its day is not said; this one is taken)"
    if not stay.foretold:
        return f"from {since}; when it is ready is not forecast"
    range_ = f" ({ready.span})" if ready.span else ""
    if each.taken is not None:
        return f"{since} to {each.taken.isoformat()}, when {each.taken_by} takes its boards; ready {ready.said}{range_}"
    if ready.said == NOTHING_WANTED:
        return f"from {since} on; nothing is wanted of it"
    if ready.likely is None:
        return f"from {since}; ready {ready.said}{range_}"
    return f"{since} to {ready.said}{range_}"


def standings(stacks: Sequence[tuple[str, CoopStack, Presence]]) -> Iterator[Standing]:
    """Each stack, with its address on the page, in the place in which it stands; those without a day stand nowhere.

    Piles stand until the day on which charges have taken their boards, where there is one; the charge that takes the
    last of them is named. Spots and kilns of one name are told apart.
    """
    takers = {
        (taking.block, charge.start): charge.stand.words for _, _, charge in stacks for taking in charge.stand.takings
    }
    spots = told_apart([presence for _, _, presence in stacks])
    for (anchor, stack, each), spot in zip(stacks, spots, strict=True):
        if stack.stay is None or spot is None:
            continue
        stay = stack.stay._replace(spot=spot)
        if each.taken and each.end is not None and each.end > stay.start:
            yield Standing(anchor, stack, stay, each.end, takers[each.stand.block, each.end])
        else:
            yield Standing(anchor, stack, stay)


def together(group: Sequence[Standing], first: int = 1) -> list[tuple[str, ...]]:
    """For each stack of one spot, in the order in which they come, with which earlier ones it shares the spot.

    Stacks are numbered in that order, from ``first`` on.
    """
    said = []
    there: list[tuple[str, Standing]] = []
    for number, each in enumerate(group, first):
        there = [(name, other) for name, other in there if other.perhaps[1] > each.perhaps[0]]
        both = [(name, shared) for name, other in there if (shared := _shared(each, other))]
        surely = {name for name, _ in both}
        words = [f"together with {name} {_days(*shared)}" for name, shared in both[:_NAMED]]
        rest = [name for name, _ in there if name not in surely]
        words += [f"perhaps together with {name}" for name in rest[: _NAMED - len(words)]]
        if len(there) > len(words):
            words.append(f"and with {len(there) - len(words)} more")
        said.append(tuple(words))
        there.append((f"{number}, {each.stack.name}", each))
    return said


def _shared(one: Standing, other: Standing) -> tuple[int, int] | None:
    """The days (ordinals) in which both are likely there."""
    start, end = max(one.surely[0], other.surely[0]), min(one.surely[1], other.surely[1])
    return (start, end) if start < end else None


def _days(start: int, end: int) -> str:
    first = datetime.date.fromordinal(start).isoformat()
    return f"from {first} on" if end >= EVER else f"from {first} to {datetime.date.fromordinal(end).isoformat()}"


def clashes(group: Sequence[Standing]) -> Iterator[tuple[int, int]]:
    """The stretches of days (ordinals) in which two or more are likely there, each once, in their order."""
    yield from overlaps(each.surely for each in group)


def near_clashes(group: Sequence[Standing]) -> Iterator[tuple[int, int]]:
    """The stretches in which two or more may be there, should all of them dry slowly, but are not likely to be."""
    likely = list(clashes(group))
    for start, end in overlaps(each.perhaps for each in group):
        for first, last in likely:
            if first >= end or last <= start:
                continue
            if start < first:
                yield start, first
            start = max(start, last)
        if start < end:
            yield start, end


def overlaps(stretches: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """The stretches (first day, day after the last) that two or more of the given ones share, each once, in order."""
    latest = shared = 0
    begun: int | None = None
    for start, end in sorted(stretches):
        if begun is not None and start > shared:
            yield begun, shared
            begun = None
        if start < min(latest, end):
            begun = start if begun is None else begun
            shared = max(shared, min(latest, end))
        latest = max(latest, end)
    if begun is not None:
        yield begun, shared
