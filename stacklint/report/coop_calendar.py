"""What stands in which spot and kiln, month by month: where each bar of the picture begins and ends, and its words."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from stacklint.report.coop_plan import CoopStack, Spot, SpotKind
from stacklint.report.coop_standing import EVER, Standing, clashes, together, with_takers, words_of
from stacklint.report.date_axis import MONTHS

_MOST_MONTHS = 60
_BEFORE, _AHEAD = 24, 36
"""Months before and after today that are shown where all the stays together would take more than the most."""
_ROOM = 4.5
"""Per cent of the picture's width that a bar's number needs: 14 of the 320 pixels on a phone."""
_A_PAGE = 16
"""Bars in one picture: where each has a lane of its own, half a page."""
_STEPS = (1, 2, 3, 6, 12)
_FEW, _MANY = 8, 24
"""Months that can be named side by side on a phone and on paper."""
_HEADINGS = {
    SpotKind.SPOT: "Spot",
    SpotKind.KILN: "Kiln",
    SpotKind.YARD: "No spot said:",
    SpotKind.SOME_KILN: "Charges without a kiln",
}


class Span(NamedTuple):
    """A stretch of the picture, in per cent of its width."""

    x: float
    width: float


class Bar(NamedTuple):
    """One stay as it is drawn and told: until the day when it may be ready at the earliest, and from there the range.

    ``open`` is true where the picture ends before the range does.
    """

    number: int
    anchor: str
    name: str
    lane: int
    sure: Span | None
    range: Span | None
    likely: float | None
    open: bool
    words: str
    together: tuple[str, ...]


class Picture(NamedTuple):
    """As many bars as have room on a page, in so many lanes."""

    bars: tuple[Bar, ...]
    lanes: int


class SpotShown(NamedTuple):
    """One spot or kiln. ``clashes`` are the stretches in which more than one stack is likely to stand there."""

    heading: str
    pictures: tuple[Picture, ...]
    clashes: tuple[Span, ...]


class Tick(NamedTuple):
    """A month's name on the axis, and under it the year where it begins or the axis does."""

    x: float
    month: str
    year: str


class Calendar(NamedTuple):
    """The picture: ``months`` are the places of the first days of months, ``cut`` that not all days are shown."""

    first: datetime.date
    last: datetime.date
    spots: tuple[SpotShown, ...]
    months: tuple[float, ...]
    few: tuple[Tick, ...]
    many: tuple[Tick, ...]
    today: float | None
    cut: bool
    undated: frozenset[str]
    """The anchors of the stacks of which no day is known."""


def calendar(lines: Sequence[tuple[str, CoopStack]], today: datetime.date) -> Calendar | None:
    """The picture of stacks, each with its anchor; ``None`` where no stack has a day."""
    standing = [Standing(anchor, stack, stack.stay) for anchor, stack in lines if stack.stay is not None]
    undated = frozenset(anchor for anchor, stack in lines if stack.stay is None and stack.kind is not None)
    if not standing:
        return None
    standing = list(with_takers(standing))
    scale, cut = _scale(standing, today)
    groups: dict[object, list[Standing]] = {}
    for each in sorted(standing, key=lambda each: (each.perhaps, each.anchor)):
        groups.setdefault(each.stay.spot.key, []).append(each)
    ordered = sorted(groups.values(), key=lambda group: _place_order(group[0].stay.spot))
    return Calendar(
        first=scale.first,
        last=scale.last,
        spots=tuple(_spot(group, scale) for group in ordered),
        months=tuple(scale.x(month.toordinal()) for month in scale.months),
        few=tuple(_ticks(scale, _FEW)),
        many=tuple(_ticks(scale, _MANY)),
        today=scale.x(today.toordinal()) if scale.first <= today <= scale.last else None,
        cut=cut,
        undated=undated,
    )


class _Scale(NamedTuple):
    """From the first day of a month to the first day of another."""

    first: datetime.date
    last: datetime.date

    def x(self, day: int) -> float:
        """Per cent of the width at which a day (ordinal) begins; days outside are at the edge."""
        low, high = self.first.toordinal(), self.last.toordinal()
        return round((min(max(day, low), high) - low) / max(high - low, 1) * 100, 2)

    def span(self, start: int, end: int) -> Span | None:
        left, right = self.x(start), self.x(end)
        return Span(left, round(right - left, 2)) if right > left else None

    @property
    def months(self) -> Iterator[datetime.date]:
        month = self.first
        while month < self.last:
            yield month
            month = _months_on(month, 1)


def _scale(standing: Sequence[Standing], today: datetime.date) -> tuple[_Scale, bool]:
    """The months from the first day of all stays to their last; those around today where they are too many."""
    starts = [each.perhaps[0] for each in standing]
    ends = [end for each in standing if (end := each.perhaps[1]) < EVER]
    first = _month_of(datetime.date.fromordinal(min(starts)))
    last = _months_on(_month_of(datetime.date.fromordinal(max(*ends, *starts) if ends else max(starts))), 1)
    if _between(first, last) <= _MOST_MONTHS:
        return _Scale(first, last), False
    now = _month_of(today)
    first, last = max(first, _months_on(now, -_BEFORE)), min(last, _months_on(now, _AHEAD))
    if first >= last:
        first, last = _months_on(now, -_BEFORE), _months_on(now, _AHEAD)
    return _Scale(first, last), True


def _spot(group: Sequence[Standing], scale: _Scale) -> SpotShown:
    spot = group[0].stay.spot
    holds_one = spot.kind in (SpotKind.SPOT, SpotKind.KILN)
    shared = together(group) if holds_one else [()] * len(group)
    pictures = []
    for first in range(0, len(group), _A_PAGE):
        part = group[first : first + _A_PAGE]
        lanes = _lanes(part, scale)
        bars = tuple(
            _bar(number, each, lane, scale, shared[number - 1])
            for number, (each, lane) in enumerate(zip(part, lanes, strict=True), first + 1)
        )
        pictures.append(Picture(bars, max(lanes) + 1))
    name = f"{spot.name}, {spot.within}" if spot.within else spot.name
    stretches = [scale.span(*days) for days in clashes(group)] if holds_one else []
    heading = f"{_HEADINGS[spot.kind]} {name}".strip()
    return SpotShown(heading, tuple(pictures), tuple(span for span in stretches if span is not None))


def _bar(number: int, each: Standing, lane: int, scale: _Scale, together: tuple[str, ...]) -> Bar:
    start, last = each.perhaps
    stay = each.stay
    sure = each.taken or stay.fast
    until = sure.toordinal() if sure else start if not stay.foretold else last
    likely = stay.likely.toordinal() if stay.likely and not each.taken else None
    return Bar(
        number=number,
        anchor=each.anchor,
        name=each.stack.name,
        lane=lane,
        sure=scale.span(start, until),
        range=scale.span(until, last),
        likely=scale.x(likely) if likely and scale.first.toordinal() <= likely <= scale.last.toordinal() else None,
        open=last > scale.last.toordinal(),
        words=words_of(each),
        together=together,
    )


def _lanes(group: Sequence[Standing], scale: _Scale) -> list[int]:
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


def _ticks(scale: _Scale, most: int) -> Iterator[Tick]:
    months = list(scale.months)
    step = next((step for step in _STEPS if len(months) / step <= most), _STEPS[-1])
    year = None
    for month in months:
        if (month.month - 1) % step == 0:
            yield Tick(
                scale.x(month.toordinal()), MONTHS[month.month - 1], "" if month.year == year else str(month.year)
            )
            year = month.year


def _place_order(spot: Spot) -> tuple[int, str]:
    """Spots, kilns, and last what is not said; names in the order of the numbers in them."""
    name = f"{spot.within} {spot.name}".casefold()
    return list(SpotKind).index(spot.kind), re.sub(r"\d+", lambda digits: digits[0].zfill(12), name)


def _month_of(day: datetime.date) -> datetime.date:
    return day.replace(day=1)


def _months_on(month: datetime.date, count: int) -> datetime.date:
    """So many months after the first day of one, as far as there are dates."""
    index = month.year * 12 + month.month - 1 + count
    index = min(max(index, datetime.MINYEAR * 12), datetime.MAXYEAR * 12 + 11)
    return datetime.date(index // 12, index % 12 + 1, 1)


def _between(first: datetime.date, last: datetime.date) -> int:
    return (last.year - first.year) * 12 + last.month - first.month
