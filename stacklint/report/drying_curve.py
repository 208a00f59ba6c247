"""Drying curves drawn with characters: moisture content upward, dates along the bottom."""

from __future__ import annotations

import math
from typing import NamedTuple

from stacklint.report.curve_glyphs import CurveGlyphs
from stacklint.report.date_axis import date_ticks

ROWS = 12
_MARGIN = 8
"""Columns for the figures at the left, the axis included."""
_STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
_MOST_STEPS = 6


class Trace(NamedTuple):
    """How one batch dries: moisture contents (shares) at the start of each day from the day ``first`` on.

    Days are proleptic ordinals, as :meth:`datetime.date.toordinal` gives them. ``range`` is the fastest and the
    slowest that it may go, ``None`` where no range is drawn.
    """

    first: int
    likely: tuple[float, ...]
    range: tuple[tuple[float, ...], tuple[float, ...]] | None = None


class Spot(NamedTuple):
    """A moisture content on a day: a reading, or what is wanted by when."""

    day: int
    moisture: float


class Chart(NamedTuple):
    """What is drawn, from the day ``first`` to the day ``last``."""

    first: int
    last: int
    traces: tuple[Trace, ...]
    wanted: tuple[float, ...] = ()
    due: tuple[Spot, ...] = ()
    readings: tuple[Spot, ...] = ()
    today: int | None = None


def drying_curve(chart: Chart, width: int, glyphs: CurveGlyphs, rows: int = ROWS) -> tuple[str, ...]:
    """The lines of the drawing, none wider than ``width`` columns.

    The ranges come first, over them the moisture contents wanted and today, over these the curves, the first one on
    top, over all the readings.
    """
    drawing = _Drawing(chart, max(width - _MARGIN, 12), rows)
    drawing.shade(glyphs)
    for wanted in chart.wanted:
        drawing.level(wanted, glyphs.wanted)
    if chart.today is not None:
        drawing.upright(chart.today, glyphs.today)
    for index in range(min(len(chart.traces), glyphs.most) - 1, 0, -1):
        drawing.line(chart.traces[index], glyphs.lines[index])
    if chart.traces:
        drawing.first_line(chart.traces[0], glyphs)
    for spot in chart.due:
        drawing.spot(spot, glyphs.due)
    for spot in chart.readings:
        drawing.spot(spot, glyphs.reading)
    return (*drawing.framed(chart.wanted, glyphs), *_dates(chart, drawing.cells, glyphs))


class _Drawing:
    """The cells of a chart, and where a day and a moisture content fall in them.

    Upward a cell has two halves; halves count from the top.
    """

    def __init__(self, chart: Chart, cells: int, rows: int) -> None:
        self._chart = chart
        self.cells = cells
        self._halves = rows * 2
        driest, wettest = _extremes(chart)
        self._step = _step(wettest - driest)
        self._bottom = math.floor(driest / self._step * 2 + 1e-9) * self._step / 2
        self._top = max(math.ceil(wettest / self._step - 1e-9) * self._step, self._bottom + self._step)
        self._grid = [[" "] * cells for _ in range(rows)]

    def shade(self, glyphs: CurveGlyphs) -> None:
        alone, other, both = tuple(glyphs.shades)
        shaded = 0
        for trace in self._chart.traces:
            if trace.range is None:
                continue
            mine = alone if shaded == 0 else other
            shaded += 1
            fast, slow = trace.range
            for column in range(self.cells):
                day = self._day(column + 0.5) - trace.first
                dry, wet = _at(fast, day, held=True), _at(slow, day)
                if dry is None or wet is None:
                    continue
                for row in range(self._half(wet) // 2, self._half(dry) // 2 + 1):
                    self._grid[row][column] = mine if self._grid[row][column] == " " else both

    def level(self, moisture: float, glyph: str) -> None:
        row = self._grid[self._half(moisture) // 2]
        row[:] = [glyph if cell == " " else cell for cell in row]

    def upright(self, day: int, glyph: str) -> None:
        column = self._column(day)
        if column is None:
            return
        for row in self._grid:
            row[column] = glyph

    def line(self, trace: Trace, glyph: str) -> None:
        for column, high, low in self._passes(trace):
            for row in range(high // 2, low // 2 + 1):
                self._grid[row][column] = glyph

    def first_line(self, trace: Trace, glyphs: CurveGlyphs) -> None:
        for column, high, low in self._passes(trace):
            for row in range(high // 2, low // 2 + 1):
                upper, lower = high <= row * 2 <= low, high <= row * 2 + 1 <= low
                glyph = glyphs.lines[0] if upper and lower else glyphs.upper if upper else glyphs.lower
                self._grid[row][column] = glyph

    def spot(self, spot: Spot, glyph: str) -> None:
        column = self._column(spot.day)
        if column is not None:
            self._grid[self._half(spot.moisture) // 2][column] = glyph

    def framed(self, wanted: tuple[float, ...], glyphs: CurveGlyphs) -> tuple[str, ...]:
        """The rows with the moisture contents before them; those wanted come before the round ones."""
        labels: dict[int, str] = {}
        first = math.ceil(self._bottom / self._step - 1e-9)
        ticks = [(first + index) * self._step for index in range(_MOST_STEPS + 2)]
        for moisture in (*wanted, *(tick for tick in ticks if tick <= self._top + 1e-9)):
            labels.setdefault(self._half(moisture) // 2, f"{round(moisture * 100, 1):g}%")
        framed = []
        for index, row in enumerate(self._grid):
            side = glyphs.tick if index in labels else glyphs.side
            framed.append(f"{labels.get(index, ''):>{_MARGIN - 2}} {side}{''.join(row)}".rstrip())
        return tuple(framed)

    def _passes(self, trace: Trace) -> list[tuple[int, int, int]]:
        """For each column that the curve crosses: the highest and the lowest half that it passes there."""
        passes = []
        for column in range(self.cells):
            days = (self._day(column) - trace.first, self._day(column + 1) - trace.first)
            left, right = (_at(trace.likely, max(day, 0.0)) for day in days)
            if days[1] <= 0 or left is None:
                continue
            ends = self._half(left), self._half(left if right is None else right)
            passes.append((column, min(ends), max(ends)))
        return passes

    def _day(self, column: float) -> float:
        return self._chart.first + (self._chart.last - self._chart.first) * column / self.cells

    def _column(self, day: int) -> int | None:
        if not self._chart.first <= day <= self._chart.last:
            return None
        share = (day - self._chart.first) / max(self._chart.last - self._chart.first, 1)
        return min(int(share * self.cells), self.cells - 1)

    def _half(self, moisture: float) -> int:
        share = (self._top - moisture) / (self._top - self._bottom)
        return max(0, min(int(share * self._halves), self._halves - 1))


def _at(moisture: tuple[float, ...], day: float, *, held: bool = False) -> float | None:
    """The moisture content on a day, between two mornings in proportion; the last one after the end if ``held``."""
    if day < 0 or not moisture:
        return None
    before = int(day)
    if before >= len(moisture) - 1:
        return moisture[-1] if held or day <= len(moisture) - 1 else None
    return moisture[before] + (moisture[before + 1] - moisture[before]) * (day - before)


def _extremes(chart: Chart) -> tuple[float, float]:
    """The driest and the wettest of all that is drawn."""
    curves = [trace.likely for trace in chart.traces]
    curves += [curve for trace in chart.traces for curve in trace.range or ()]
    spots = [spot.moisture for spot in (*chart.due, *chart.readings)]
    drawn = [*(moisture for curve in curves for moisture in curve), *spots, *chart.wanted]
    return min(drawn, default=0.0), max(drawn, default=0.0)


def _step(span: float) -> float:
    return next((step for step in _STEPS if span / step <= _MOST_STEPS), _STEPS[-1])


def _dates(chart: Chart, cells: int, glyphs: CurveGlyphs) -> tuple[str, str]:
    axis, labels = [glyphs.base] * cells, [" "] * cells
    for tick in date_ticks(chart.first, chart.last, cells):
        axis[tick.cell] = glyphs.date_tick
        labels[tick.cell : tick.cell + len(tick.label)] = tick.label
    before = " " * (_MARGIN - 1)
    return f"{before}{glyphs.corner}{''.join(axis)}", f"{before} {''.join(labels)}".rstrip()
