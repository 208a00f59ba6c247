"""How the boards dry: moisture content upward, months along the bottom, with the days that matter."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedStack
from stacklint.drying.batch import Curve
from stacklint.drying.forecast import Forecast, Pace
from stacklint.report.drawings.board import text_width
from stacklint.report.drawings.calendar import DayTick, day_ticks
from stacklint.report.drawings.drying_legend import legend
from stacklint.report.drawings.strokes import LETTERS, Point, line, path, signs_along, words
from stacklint.report.drying_curve import Chart, Trace
from stacklint.report.forecast_chart import Forecasted, chart_of, names_of
from stacklint.report.forecast_words import KEYS, ready_words
from stacklint.report.svg import drawing, element, number, set_attributes
from stacklint.show import percent

WIDTH = 700.0
_LEFT, _RIGHT = 46.0, 654.0
_TOP, _BOTTOM = 56.0, 304.0
"""Edges of the curves' field, in units of the drawing."""
_STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
_MOST_STEPS = 6
_APART = 11.0
"""From one dot of a reading to another that would lie on it."""


class _Key(NamedTuple):
    """A day that is told at the top of the field, and the place on a curve, ``at`` a day and its fraction."""

    day: int
    words: str
    at: float
    moisture: float


def drying_curve(stack: CheckedStack, today: datetime.date) -> Element | None:
    """The forecast of a stack with its range, what is wanted by when, readings and today.

    ``None`` where there is no forecast. The likely line is thick, the range shaded between dotted edges, what is wanted
    dashed; so that it reads in black and white too.
    """
    forecast = stack.forecast
    if not isinstance(forecast, Forecast):
        return None
    one = Forecasted("", stack, forecast)
    field = _Field(chart_of(one, today))
    names = names_of(forecast)
    parts = [
        *field.grid(),
        *field.range(),
        *field.wanted(),
        *field.today(),
        *field.likely(names, _until(forecast)),
        *field.keys(_key_days(forecast, field.chart), forecast),
        *field.spots(),
    ]
    told, height = legend(field.chart, names, (_LEFT, _BOTTOM + 60.0, WIDTH), forecast.ready(Pace.FAST) is not None)
    name = f"{stack.stack.kind.value} {stack.stack.name.text}"
    made = drawing(
        WIDTH,
        height,
        *parts,
        *told,
        title=f"Drying curve of {name}",
        desc=f"Moisture content by day. Ready: {ready_words(forecast, one.due)}.",
        name=f"drying-{stack.stack.where.line}",
        class_="drawing drying",
    )
    set_attributes(made, style=f"max-width:{number(WIDTH * 15 / LETTERS)}px")
    return made


def _key_days(forecast: Forecast, chart: Chart) -> list[_Key]:
    """Likely days below the moistures on the way and at what is wanted, and the day when it is due."""
    wettest = max((each.spread.likely.moisture[0] for each in forecast.batches), default=0.0)
    keys: list[_Key] = []
    for key in KEYS:
        day = forecast.below(key, Pace.LIKELY)
        if day is not None and key < wettest and (forecast.wanted is None or key > forecast.wanted):
            at = max(trace.first + (Curve(trace.likely, None).below(key) or 0.0) for trace in chart.traces)
            keys.append(_Key(day.toordinal(), f"under {percent(key)} {day.isoformat()}", at, key))
    ready = forecast.ready(Pace.LIKELY)
    if forecast.wanted is not None and ready is not None:
        day_ = ready.toordinal()
        keys.append(_Key(day_, f"ready {ready.isoformat()}", day_, _at(chart.traces[0], day_)))
    return [key for key in keys if chart.first <= key.day <= chart.last]


def _until(forecast: Forecast) -> int | None:
    """The likely day on which all is done: in a kiln the boards are held at what is wanted while its last steps run."""
    ready = forecast.ready(Pace.LIKELY)
    return ready.toordinal() if forecast.wanted is not None and ready is not None else None


def _at(trace: Trace, day: int) -> float:
    """Moisture content on a curve on a day; that of its end after it."""
    return trace.likely[min(max(day - trace.first, 0), len(trace.likely) - 1)]


class _Field:
    """The field of the curves, and where a day and a moisture content fall in it."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        curves = [trace.likely for trace in chart.traces]
        curves += [curve for trace in chart.traces for curve in trace.range or ()]
        spots = [spot.moisture for spot in (*chart.due, *chart.readings)]
        drawn = [*(moisture for curve in curves for moisture in curve), *spots, *chart.wanted]
        driest, wettest = min(drawn, default=0.0), max(drawn, default=1.0)
        self.step = next((step for step in _STEPS if (wettest - driest) / step <= _MOST_STEPS), _STEPS[-1])
        self.low = max(math.floor(driest / self.step - 0.3) * self.step, 0.0)
        self.high = max(math.ceil(wettest / self.step - 1e-9) * self.step, self.low + self.step)

    def x(self, day: float) -> float:
        share = (day - self.chart.first) / max(self.chart.last - self.chart.first, 1)
        return _LEFT + (_RIGHT - _LEFT) * min(max(share, 0.0), 1.0)

    def y(self, moisture: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * (moisture - self.low) / (self.high - self.low)

    def grid(self) -> Iterator[Element]:
        count = round((self.high - self.low) / self.step)
        for index in range(count + 1):
            moisture = self.low + index * self.step
            y = self.y(moisture)
            yield line("grid", ((_LEFT, y), (_RIGHT, y)))
            yield words(f"{round(moisture * 100, 1):g}%", _LEFT - 6, y + 4.5, "end")
        for tick in self._ticks():
            x = self.x(tick.day)
            yield line("grid", ((x, _TOP), (x, _BOTTOM)))
            yield line("tick", ((x, _BOTTOM), (x, _BOTTOM + 5)))
            if tick.label:
                yield words(tick.label, x + 2, _BOTTOM + 19, "start", class_="words date")
        yield line("axis", ((_LEFT, _TOP), (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM)))

    def _ticks(self) -> tuple[DayTick, ...]:
        room = (_RIGHT - _LEFT) / max(self.chart.last - self.chart.first, 1) / LETTERS
        return day_ticks(self.chart.first, self.chart.last, lambda label: (text_width(label) + 0.6) / room)

    def range(self) -> Iterator[Element]:
        for trace in self.chart.traces:
            if trace.range is None:
                continue
            fast, slow = trace.range
            longest = max(len(fast), len(slow))
            held = (*fast, *(fast[-1:] * (longest - len(fast))))
            lower, upper = self._points(trace.first, held), self._points(trace.first, slow)
            yield element("path", class_="range", d=path([*upper, *reversed(lower)]) + "Z")
            yield line("range-edge", self._points(trace.first, fast), data_pace="fast")
            yield line("range-edge", upper, data_pace="slow")

    def likely(self, names: Sequence[str], until: int | None) -> Iterator[Element]:
        """The slowest is thick and goes on ``until`` all is done; the others are thin and bear signs."""
        lines = [self._points(trace.first, trace.likely) for trace in self.chart.traces]
        if until is not None and lines[0] and until <= self.chart.last and self.x(until) > lines[0][-1][0]:
            lines[0].append((self.x(until), lines[0][-1][1]))
        for index in reversed(range(len(lines))):
            class_ = "likely other" if index else "likely"
            yield element("path", class_=class_, d=path(lines[index]), data_batch=names[index])
            if index:
                yield from signs_along(index, lines[index])

    def _points(self, first: int, moisture: Sequence[float]) -> list[Point]:
        """As many as the drawing can show, those of the field's last day and of the curve's the last."""
        shown = min(len(moisture) - 1, max(self.chart.last - first, 0))
        every = max(1, int((shown + 1) / (_RIGHT - _LEFT) * 1.5))
        days = [*range(0, shown, every), shown] if shown >= 0 else []
        return [(self.x(first + day), self.y(moisture[day])) for day in days]

    def wanted(self) -> Iterator[Element]:
        for wanted in self.chart.wanted:
            y = self.y(wanted)
            yield line("wanted", ((_LEFT, y), (_RIGHT, y)), data_moisture=wanted)
            yield words(percent(wanted), _RIGHT + 9, y + 4.5, "start")

    def today(self) -> Iterator[Element]:
        today = self.chart.today
        if today is None:
            return
        x = self.x(today)
        yield line("today", ((x, _TOP - 6), (x, _BOTTOM)), data_day=_iso(today))
        yield words("today", x, _BOTTOM + 34, "middle", class_="words today-word")

    def keys(self, keys: Sequence[_Key], forecast: Forecast) -> Iterator[Element]:
        """Key days over the field, in several lines where they would run together; and when it is ready at the earliest
        and latest."""
        ends = [-WIDTH] * 3
        told: list[Element] = []
        for key in sorted(keys, key=lambda each: each.day):
            x = self.x(key.at)
            wide = text_width(key.words) * LETTERS
            start = min(max(x - wide / 2, 0.0), WIDTH - wide)
            row = next((row for row, end in enumerate(ends) if start > end + 6), len(ends) - 1)
            ends[row] = start + wide
            y = _TOP - 10 - 15 * row
            yield line("key-date", ((x, y + 3), (x, self.y(key.moisture))))
            told.append(words(key.words, start, y, "start", class_="words key-word"))
            yield element(
                "circle",
                class_="key",
                cx=x,
                cy=self.y(key.moisture),
                r=4,
                data_day=_iso(key.day),
                data_moisture=number(key.moisture * 100),
            )
        yield from told
        fast, slow = forecast.ready(Pace.FAST), forecast.ready(Pace.SLOW)
        if fast is not None and forecast.wanted is not None:
            y = self.y(forecast.wanted) + 9
            last = slow.toordinal() if slow is not None else self.chart.last
            start, end = self.x(fast.toordinal()), self.x(last)
            stop = "m0-5v10" if slow is not None and slow.toordinal() <= self.chart.last else ""
            yield element(
                "path",
                class_="ready-range",
                d=f"M{number(start)} {number(y - 5)}v10m0-5H{number(end)}{stop}",
                data_from=fast.isoformat(),
                data_to=None if slow is None else slow.isoformat(),
            )

    def spots(self) -> Iterator[Element]:
        for spot in self.chart.due:
            x, y = self.x(spot.day), self.y(spot.moisture)
            cross = f"M{number(x - 6)} {number(y - 6)}l12 12m-12 0l12-12"
            yield element("path", class_="due", d=cross, data_day=_iso(spot.day))
        placed: list[Point] = []
        for spot in self.chart.readings:
            moisture = number(spot.moisture * 100)
            x, y = self.x(spot.day), self.y(spot.moisture)
            # Two of one day that lie on each other are both shown, side by side.
            while any(math.dist((x, y), other) < _APART - 1 for other in placed):
                x += _APART
            placed.append((x, y))
            yield element("circle", class_="reading", cx=x, cy=y, r=5, data_day=_iso(spot.day), data_moisture=moisture)


def _iso(day: int) -> str:
    return datetime.date.fromordinal(day).isoformat()
