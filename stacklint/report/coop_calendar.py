"""What stands in which spot and kiln, month by month: where each bar of the picture begins and ends, and its words."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from stacklint.report.coop_months import FEW, MANY, Scale, Span, Tick, scale_of
from stacklint.report.coop_standing import EVER, Standing, clashes, near_clashes, together, words_of
from stacklint.yard.stay import Spot, SpotKind

_ROOM = 4.5
"""Per cent of the picture's width that a bar's number needs: 14 of the 320 pixels on a phone."""
_AXIS, _NAME, _LANE = 30, 17, 24
"""Pixels: the months' names, the name of a spot, and a bar with its number above it."""
_A_PAGE = 330
"""Pixels that one picture is high at the most: half a page, for the words to each bar stand below it."""
_LANES = (_A_PAGE - _AXIS - _NAME) // _LANE
_HOLD_ONE = frozenset({SpotKind.SPOT, SpotKind.KILN})


class Bar(NamedTuple):
    """One stay as it is drawn, so many pixels down, and told.

    ``sure`` is the time until the day when it may be ready at the earliest, ``range`` that from there to the latest;
    ``open`` is true where the picture ends before the range does.
    """

    number: int
    anchor: str
    name: str
    y: int
    sure: Span | None
    range: Span | None
    likely: float | None
    open: bool
    words: str
    together: tuple[str, ...]

    @property
    def x(self) -> float | None:
        """Where its number stands; ``None`` where it is outside the months shown."""
        drawn = self.sure or self.range
        return drawn.x if drawn else None


class SpotShown(NamedTuple):
    """One spot or kiln, or a part of it. ``clashes`` are where more than one stack is likely to stand in it, ``near``
    where that is so only if they dry slowly."""

    name: str
    y: int
    height: int
    bars: tuple[Bar, ...]
    clashes: tuple[Span, ...]
    near: tuple[Span, ...] = ()


class Picture(NamedTuple):
    """As many spots as have room on a page, so many pixels high."""

    spots: tuple[SpotShown, ...]
    height: int

    @property
    def bars(self) -> tuple[Bar, ...]:
        return tuple(bar for spot in self.spots for bar in spot.bars)


class Part(NamedTuple):
    """The spots of one site, or all kilns."""

    heading: str
    pictures: tuple[Picture, ...]


class Calendar(NamedTuple):
    """The whole picture. ``months`` are the places of the first days of months, ``cut`` that not all days are shown."""

    first: datetime.date
    last: datetime.date
    parts: tuple[Part, ...]
    months: tuple[float, ...]
    few: tuple[Tick, ...]
    many: tuple[Tick, ...]
    today: float | None
    cut: bool
    undated: frozenset[str]
    """The anchors of the stacks of which no day is known."""


def calendar(standing: Sequence[Standing], today: datetime.date, undated: frozenset[str]) -> Calendar | None:
    """The picture of all months in which stacks stand; ``None`` where no stack has a day.

    ``undated`` are the addresses of those that have none.
    """
    if not standing:
        return None
    scale, cut = scale_of(_days(standing), today)
    return pictured(standing, today, scale, cut=cut, undated=undated)


def pictured(
    standing: Sequence[Standing], today: datetime.date, scale: Scale, *, cut: bool, undated: frozenset[str]
) -> Calendar:
    """The picture of stacks in the months of a scale. ``cut``: not all their days are in these."""
    standing = sorted(standing, key=lambda each: (*spot_order(each.stay.spot), each.perhaps))
    parts = groupby(standing, key=lambda each: heading_of(each.stay.spot))
    return Calendar(
        first=scale.first,
        last=scale.last,
        parts=tuple(Part(heading, tuple(_pictures(list(group), scale))) for heading, group in parts),
        months=tuple(scale.x(month.toordinal()) for month in scale.months),
        few=tuple(scale.ticks(FEW)),
        many=tuple(scale.ticks(MANY)),
        today=scale.x(today.toordinal()) if scale.shows(today) else None,
        cut=cut,
        undated=undated,
    )


def _days(standing: Sequence[Standing]) -> Iterator[datetime.date]:
    for each in standing:
        start, end = each.perhaps
        yield datetime.date.fromordinal(start)
        if end < EVER:
            yield datetime.date.fromordinal(end)


def spot_order(spot: Spot) -> tuple[int, str, str]:
    """Spots, kilns, and last what is not said; names in the order of the numbers in them."""
    return (
        list(SpotKind).index(spot.kind),
        spot.within.casefold(),
        re.sub(r"\d+", lambda digits: digits[0].zfill(12), spot.name.casefold()),
    )


def heading_of(spot: Spot) -> str:
    if spot.kind is SpotKind.SPOT:
        return f"Spots, {spot.within}" if spot.within else "Spots"
    if spot.kind is SpotKind.KILN:
        return "Kilns"
    return "Stacks without a spot" if spot.kind is SpotKind.YARD else "Charges without a kiln"


def _pictures(standing: Sequence[Standing], scale: Scale) -> Iterator[Picture]:
    """The spots one below the other, numbered through; a new picture where one is full."""
    spots: list[SpotShown] = []
    y, number = _AXIS, 1
    for _, group in groupby(standing, key=lambda each: each.stay.spot.key):
        for shown in _spot(list(group), scale, number):
            if spots and y + shown.height > _A_PAGE:
                yield Picture(tuple(spots), y)
                spots, y = [], _AXIS
            spots.append(_moved(shown, y))
            y += shown.height
            number += len(shown.bars)
    yield Picture(tuple(spots), y)


def _moved(shown: SpotShown, y: int) -> SpotShown:
    return shown._replace(y=y, bars=tuple(bar._replace(y=y + bar.y) for bar in shown.bars))


def _spot(group: Sequence[Standing], scale: Scale, number: int) -> Iterator[SpotShown]:
    """One spot at the top of a picture, its bars numbered from ``number``; in parts where it is too high for one."""
    spot = group[0].stay.spot
    shared: Sequence[tuple[str, ...]] = [()] * len(group)
    sure: tuple[Span, ...] = ()
    near: tuple[Span, ...] = ()
    if spot.kind in _HOLD_ONE:
        shared = together(group, number)
        sure, near = _spans(clashes(group), scale), _spans(near_clashes(group), scale)
    for first in range(0, len(group), _LANES):
        part = group[first : first + _LANES]
        lanes = _lanes(part, scale)
        bars = tuple(
            _bar(each, number + index, _NAME + lane * _LANE, scale, shared[index])
            for index, (each, lane) in enumerate(zip(part, lanes, strict=True), first)
        )
        height = _NAME + (max(lanes) + 1) * _LANE
        yield SpotShown(spot.name, 0, height, bars, sure, near)


def _spans(stretches: Iterable[tuple[int, int]], scale: Scale) -> tuple[Span, ...]:
    return tuple(span for days in stretches if (span := scale.span(*days)) is not None)


def _bar(each: Standing, number: int, y: int, scale: Scale, together: tuple[str, ...]) -> Bar:
    start, last = each.perhaps
    stay = each.stay
    sure = each.taken or stay.fast
    until = sure.toordinal() if sure else start if not stay.foretold else last
    likely = stay.likely if stay.likely and not each.taken and scale.shows(stay.likely) else None
    return Bar(
        number=number,
        anchor=each.anchor,
        name=each.stack.name,
        y=y,
        sure=scale.span(start, until),
        range=scale.span(until, last),
        likely=scale.x(likely.toordinal()) if likely else None,
        open=last > scale.last.toordinal(),
        words=words_of(each),
        together=together,
    )


def _lanes(group: Sequence[Standing], scale: Scale) -> list[int]:
    """In which line of the picture each bar has room for itself and its number; the lowest that has."""
    lanes: list[float] = []
    found = []
    for each in group:
        left, right = (scale.x(day) for day in each.perhaps)
        left = min(left, 100 - _ROOM)
        lane = next((lane for lane, end in enumerate(lanes) if end <= left), len(lanes))
        lanes[lane : lane + 1] = [max(right, left + _ROOM)]
        found.append(lane)
    return found
