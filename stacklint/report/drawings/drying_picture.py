"""How the boards dry: moisture content upward, months along the bottom, with the days that matter."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedStack
from stacklint.drying.forecast import Forecast, Pace
from stacklint.report.drawings.board import text_width
from stacklint.report.drawings.calendar import DayTick, day_ticks
from stacklint.report.drying_curve import Chart
from stacklint.report.forecast_chart import Forecasted, chart_of, names_of
from stacklint.report.forecast_words import KEYS, ready_words
from stacklint.report.svg import drawing, element, number, set_attributes
from stacklint.show import percent

WIDTH = 700.0
_LEFT, _RIGHT = 46.0, 654.0
_TOP, _BOTTOM = 56.0, 304.0
"""Edges of the curves' field, in units of the drawing."""
_LETTERS = 13.0
_STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
_MOST_STEPS = 6
_DASHES = (None, "9 4", "3 3", "9 3 2 3", "14 4")
"""Of the likely curves, one for each batch: the slowest is drawn through."""
_SIGN = 26.0
Point = tuple[float, float]


class _Key(NamedTuple):
    """A day that is told at the top of the field."""

    day: int
    words: str
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
    parts = [
        *field.grid(),
        *field.range(),
        *field.wanted(),
        *field.today(),
        *field.likely(names_of(forecast)),
        *field.keys(_key_days(forecast, field.chart), forecast),
        *field.spots(),
    ]
    legend, height = _legend(field.chart, _BOTTOM + 44.0, ready=forecast.ready(Pace.FAST) is not None)
    name = f"{stack.stack.kind.value} {stack.stack.name.text}"
    made = drawing(
        WIDTH,
        height,
        *parts,
        *legend,
        title=f"Drying curve of {name}",
        desc=f"Moisture content by day. Ready: {ready_words(forecast, one.due)}.",
        name=f"drying-{stack.stack.where.line}",
        class_="drawing drying",
    )
    set_attributes(made, style=f"max-width:{number(WIDTH * 15 / _LETTERS)}px")
    return made


def _key_days(forecast: Forecast, chart: Chart) -> list[_Key]:
    """Likely days below the moistures on the way and at what is wanted, and the day when it is due."""
    wettest = max((each.spread.likely.moisture[0] for each in forecast.batches), default=0.0)
    days: list[tuple[datetime.date | None, str, float]] = []
    for key in KEYS:
        if key < wettest and (forecast.wanted is None or key > forecast.wanted):
            days.append((forecast.below(key, Pace.LIKELY), f"under {percent(key)}", key))
    if forecast.wanted is not None:
        days.append((forecast.ready(Pace.LIKELY), "ready", forecast.wanted))
    return [
        _Key(day.toordinal(), f"{words} {day.isoformat()}", moisture)
        for day, words, moisture in days
        if day is not None and chart.first <= day.toordinal() <= chart.last
    ]


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
            yield _line("grid", ((_LEFT, y), (_RIGHT, y)))
            yield _words(f"{round(moisture * 100, 1):g}%", _LEFT - 6, y + 4.5, "end")
        for tick in self._ticks():
            x = self.x(tick.day)
            yield _line("grid", ((x, _TOP), (x, _BOTTOM)))
            yield _line("tick", ((x, _BOTTOM), (x, _BOTTOM + 5)))
            if tick.label:
                yield _words(tick.label, x + 2, _BOTTOM + 19, "start", class_="words date")
        yield _line("axis", ((_LEFT, _TOP), (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM)))

    def _ticks(self) -> tuple[DayTick, ...]:
        room = (_RIGHT - _LEFT) / max(self.chart.last - self.chart.first, 1) / _LETTERS
        return day_ticks(self.chart.first, self.chart.last, lambda label: (text_width(label) + 0.6) / room)

    def range(self) -> Iterator[Element]:
        for trace in self.chart.traces:
            if trace.range is None:
                continue
            fast, slow = trace.range
            longest = max(len(fast), len(slow))
            held = (*fast, *(fast[-1:] * (longest - len(fast))))
            lower, upper = self._points(trace.first, held), self._points(trace.first, slow)
            yield element("path", class_="range", d=_path([*upper, *reversed(lower)]) + "Z")
            yield _line("range-edge", self._points(trace.first, fast), data_pace="fast")
            yield _line("range-edge", upper, data_pace="slow")

    def likely(self, names: Sequence[str]) -> Iterator[Element]:
        several = len(self.chart.traces) > 1
        for index, trace in reversed(list(enumerate(self.chart.traces))):
            points = self._points(trace.first, trace.likely)
            dashes = _DASHES[index % len(_DASHES)]
            yield element(
                "path",
                class_="likely other" if index else "likely",
                d=_path(points),
                style=f"stroke-dasharray:{dashes}" if dashes else None,
                data_batch=names[index],
            )
            if several:
                x, y = points[min(len(points) - 1, max(1, len(points) // 4))]
                yield _words(names[index], x + 4, y - 6, "start", class_="words batch")

    def _points(self, first: int, moisture: Sequence[float]) -> list[Point]:
        """As many as the drawing can show, those of the field's last day and of the curve's the last."""
        shown = min(len(moisture) - 1, max(self.chart.last - first, 0))
        every = max(1, int((shown + 1) / (_RIGHT - _LEFT) * 1.5))
        days = [*range(0, shown, every), shown] if shown >= 0 else []
        return [(self.x(first + day), self.y(moisture[day])) for day in days]

    def wanted(self) -> Iterator[Element]:
        for wanted in self.chart.wanted:
            y = self.y(wanted)
            yield _line("wanted", ((_LEFT, y), (_RIGHT, y)), data_moisture=wanted)
            yield _words(percent(wanted), _RIGHT + 9, y + 4.5, "start")

    def today(self) -> Iterator[Element]:
        today = self.chart.today
        if today is None:
            return
        x = self.x(today)
        yield _line("today", ((x, _TOP - 6), (x, _BOTTOM)), data_day=_iso(today))
        yield _words("today", x, _BOTTOM + 34, "middle", class_="words today-word")

    def keys(self, keys: Sequence[_Key], forecast: Forecast) -> Iterator[Element]:
        """Key days over the field, in several lines where they would run together; and when it is ready at the earliest
        and latest."""
        ends = [-WIDTH] * 3
        told: list[Element] = []
        for key in sorted(keys, key=lambda each: each.day):
            x = self.x(key.day)
            wide = text_width(key.words) * _LETTERS
            start = min(max(x - wide / 2, 0.0), WIDTH - wide)
            row = next((row for row, end in enumerate(ends) if start > end + 6), len(ends) - 1)
            ends[row] = start + wide
            y = _TOP - 10 - 15 * row
            yield _line("key-date", ((x, y + 3), (x, self.y(key.moisture))))
            told.append(_words(key.words, start, y, "start", class_="words key-word"))
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
        for spot in self.chart.readings:
            moisture = number(spot.moisture * 100)
            x, y = self.x(spot.day), self.y(spot.moisture)
            yield element("circle", class_="reading", cx=x, cy=y, r=5, data_day=_iso(spot.day), data_moisture=moisture)


def _legend(chart: Chart, y: float, *, ready: bool) -> tuple[list[Element], float]:
    """What the signs mean, in as many lines as it takes; and the height that the drawing has then."""
    signs: list[tuple[str, str]] = [("likely", "likely")]
    if any(trace.range for trace in chart.traces):
        signs.append(("range", "from fastest to slowest"))
    if chart.wanted:
        signs.append(("wanted", "wanted"))
    if chart.wanted and ready:
        signs.append(("ready-range", "ready, earliest to latest"))
    if chart.due:
        days = sorted({_iso(spot.day) for spot in chart.due})
        signs.append(("due", f"wanted by {' and '.join(days)}"))
    if chart.readings:
        signs.append(("reading", "readings" if len(chart.readings) > 1 else "reading"))
    if chart.today is not None:
        signs.append(("today", f"today, {_iso(chart.today)}"))
    made: list[Element] = []
    x, y = _LEFT, y + 16
    for sign, words in signs:
        wide = _SIGN + 8 + text_width(words) * _LETTERS + 18
        if x + wide > WIDTH and x > _LEFT:
            x, y = _LEFT, y + 20
        made += [*_sign(sign, x, y - 4.5), _words(words, x + _SIGN + 6, y, "start", class_="words legend")]
        x += wide
    return made, y + 12


def _sign(sign: str, x: float, y: float) -> list[Element]:
    middle = x + _SIGN / 2
    if sign == "range":
        edge = [_line("range-edge", ((x, y + way), (x + _SIGN, y + way))) for way in (-5.0, 5.0)]
        return [element("rect", class_="range", x=x, y=y - 5, width=_SIGN, height=10), *edge]
    if sign == "ready-range":
        return [element("path", class_=sign, d=f"M{number(x)} {number(y - 5)}v10m0-5h{number(_SIGN)}m0-5v10")]
    if sign == "due":
        return [element("path", class_="due", d=f"M{number(middle - 6)} {number(y - 6)}l12 12m-12 0l12-12")]
    if sign == "reading":
        return [element("circle", class_="reading", cx=middle, cy=y, r=5)]
    if sign == "today":
        return [_line("today", ((middle, y - 8), (middle, y + 8)))]
    return [_line(sign, ((x, y), (x + _SIGN, y)))]


def _line(class_: str, points: Sequence[Point], **data: str | float | None) -> Element:
    return element("path", class_=class_, d=_path(points), **data)


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)


def _words(text: str, x: float, y: float, anchor: str, class_: str = "words") -> Element:
    return element("text", text, class_=class_, x=x, y=y, font_size=_LETTERS, text_anchor=anchor)


def _iso(day: int) -> str:
    return datetime.date.fromordinal(day).isoformat()
