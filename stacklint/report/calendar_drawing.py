"""The stays of a yard drawn with characters: a line or more for each spot and kiln, over the months."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from stacklint.calendar.gathered import Entry, YardCalendar
from stacklint.calendar.places import Place
from stacklint.report.columns import folded
from stacklint.report.coop_standing import EVER
from stacklint.report.date_axis import date_ticks
from stacklint.report.plain import plain
from stacklint.report.stay_glyphs import StayGlyphs

_LEAST = 12
"""Columns for a place's name at the least, and for the months."""
_INSET = "  "


class Bar(NamedTuple):
    """A stay in columns: from ``start`` to before ``end``, ``sure`` up to where its range begins."""

    key: str
    start: int
    sure: int
    end: int
    likely: int | None
    on: bool

    @property
    def right(self) -> int:
        """Where the next bar of the line may begin: a blank after it and after its number."""
        return max(self.end, self.start + len(self.key)) + 1


class Drawing:
    """Where days fall in the columns, and what is drawn there."""

    def __init__(self, calendar: YardCalendar, width: int, glyphs: StayGlyphs) -> None:
        self._calendar = calendar
        self._glyphs = glyphs
        self._width = width
        longest = max((len(place.spot.name) for place in calendar.places), default=0)
        self._name = min(max(longest + len(_INSET) + 1, _LEAST), max(width // 4, _LEAST))
        self._cells = max(width - self._name, _LEAST)
        self._first, self._last = calendar.frame.first.toordinal(), calendar.frame.end.toordinal()
        today = calendar.today.toordinal()
        self._today = self._column(today) if self._first <= today < self._last else None

    def axis(self) -> str:
        """The names of the months over the columns in which they begin."""
        cells = [" "] * self._cells
        for tick in date_ticks(self._first, self._last, self._cells):
            cells[tick.cell : tick.cell + len(tick.label)] = tick.label
        return " " * self._name + "".join(cells).rstrip()

    def place(self, place: Place) -> Iterator[str]:
        """The lines of one place: its name, its bars, and where two are in it."""
        entries = [self._calendar.entries[index] for index in place.stacks]
        lanes = self._lanes([bar for each in entries if (bar := self._bar(each)) is not None])
        rows = [self._row(lane) for lane in lanes]
        if place.clashes:
            rows.append(self._clash(place))
        if not rows:
            rows = ["free" if place.holds_one and not self._taken(place) else "none in these months"]
        yield from self._named(plain(place.spot.name), rows)

    def _taken(self, place: Place) -> bool:
        return any(month.taken for month in place.months)

    def _named(self, name: str, rows: Sequence[str]) -> Iterator[str]:
        """Rows with the name before the first; one that is too long stands in lines of its own."""
        label = f"{_INSET}{name}"
        if len(label) >= self._name:
            yield from (f"{_INSET}{line}" for line in folded(name, self._width - len(_INSET)))
            label = ""
        for row in rows:
            yield f"{label:<{self._name}}{row}".rstrip()
            label = ""

    def _bar(self, entry: Entry) -> Bar | None:
        """``None`` where it is outside the months."""
        stay, each = entry.stack.stay, entry.presence
        assert stay is not None
        start = stay.start.toordinal()
        last = (each.end if each.taken else stay.slow) or None
        end = max(last.toordinal() if last else EVER, start + 1)
        if start >= self._last or end <= self._first:
            return None
        sure = _sure(each.end if each.taken else stay.fast, end, start, foretold=stay.foretold)
        likely = stay.likely.toordinal() if stay.likely and not each.taken else None
        left = self._column(start)
        right = max(self._column(end), left + 1)
        return Bar(
            key=str(entry.number),
            start=left,
            sure=max(self._column(sure), left),
            end=right,
            likely=self._column(likely) if likely is not None and self._first <= likely < self._last else None,
            on=end > self._last,
        )

    def _lanes(self, bars: Sequence[Bar]) -> list[list[Bar]]:
        """The bars in the fewest lines in which none is over another."""
        lanes: list[list[Bar]] = []
        for bar in bars:
            lane = next((lane for lane in lanes if lane[-1].right <= bar.start), None)
            if lane is None:
                lanes.append([bar])
            else:
                lane.append(bar)
        return lanes

    def _row(self, bars: Sequence[Bar]) -> str:
        glyphs = self._glyphs
        cells = self._empty()
        for bar in bars:
            for column in range(bar.start, min(bar.end, self._cells)):
                cells[column] = glyphs.sure if column < bar.sure else glyphs.range
            if bar.on:
                cells[-1] = glyphs.on
            if bar.likely is not None:
                cells[bar.likely] = glyphs.likely
            at = max(min(bar.start, self._cells - len(bar.key)), 0)
            cells[at : at + len(bar.key)] = bar.key
        return "".join(cells)

    def _clash(self, place: Place) -> str:
        cells = self._empty()
        for stretch in place.clashes:
            start = self._column(stretch.start.toordinal())
            end = self._column(stretch.end.toordinal()) if stretch.end is not None else self._cells
            for column in range(start, max(end, start + 1)):
                cells[column] = self._glyphs.clash
        return "".join(cells)

    def _empty(self) -> list[str]:
        cells = [" "] * self._cells
        if self._today is not None:
            cells[self._today] = self._glyphs.today
        return cells

    def _column(self, day: int) -> int:
        """The column in which a day begins; days outside are at the edge."""
        day = min(max(day, self._first), self._last)
        return min(int((day - self._first) / max(self._last - self._first, 1) * self._cells), self._cells)


def _sure(earliest: datetime.date | None, end: int, start: int, *, foretold: bool) -> int:
    """Up to which day it is there for sure: all its time where nothing is wanted of it, none where nothing is known."""
    if earliest is not None:
        return earliest.toordinal()
    return end if foretold else start
