"""What the drying curve of a forecast, or of several side by side, is to show, and what its signs mean."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable, Sequence
from pathlib import PurePath
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.drying.batch import Spread
from stacklint.drying.forecast import BatchForecast, Forecast
from stacklint.report.curve_glyphs import CurveGlyphs
from stacklint.report.drying_curve import Chart, Spot, Trace
from stacklint.report.forecast_words import drying_alike, labels
from stacklint.show import percent

_BEYOND = 3
"""A chart ends at the slowest curve's end, but not later than at so many times the likely one's."""
_ENDLESS = 2 * 365
"""Days that are drawn of boards that never get there: enough to see the seasons come round."""


class Forecasted(NamedTuple):
    """A stack with its forecast, and the text that it stands in."""

    path: str
    checked: CheckedStack
    forecast: Forecast

    @property
    def name(self) -> str:
        return f"{self.checked.stack.kind.value.capitalize()} {self.checked.stack.name.text}"

    @property
    def due(self) -> datetime.date | None:
        want = self.checked.stack.want
        return want.by.date if want is not None and want.by is not None else None


class Sign(NamedTuple):
    """A character of the drawing and what it stands for."""

    glyph: str
    words: str


def chart_of(one: Forecasted, today: datetime.date) -> Chart:
    """All batches of one stack, the slowest on top and with its range."""
    first = one.forecast.start.toordinal()
    slowest, *others = _slowest_first(one.forecast)
    traces = [_trace(first, slowest[0].spread, ranged=True)]
    traces += [_trace(first, group[0].spread, ranged=False) for group in others]
    return _chart((one,), traces, _readings(one, one.forecast.batches), today)


def compared_chart(several: Sequence[Forecasted], today: datetime.date) -> Chart:
    """The slowest batch of each stack, each with its range."""
    traces = [_trace(each.forecast.start.toordinal(), each.forecast.slowest.spread, ranged=True) for each in several]
    readings = [spot for each in several for spot in _readings(each, _slowest_first(each.forecast)[0])]
    return _chart(several, traces, readings, today)


def signs_of(one: Forecasted, chart: Chart, glyphs: CurveGlyphs) -> tuple[Sign, ...]:
    """The signs in the chart of one stack."""
    names = names_of(one.forecast)
    if len(names) == 1:
        lines = [Sign(glyphs.lines[0], "likely"), Sign(glyphs.shades[0], "from the fastest to the slowest")]
    else:
        lines = [Sign(glyph, f"{name} likely") for glyph, name in zip(glyphs.lines, names, strict=False)]
        lines.insert(1, Sign(glyphs.shades[0], f"{names[0]} from the fastest to the slowest"))
    return (*lines, *_marks(chart, glyphs))


def names_of(forecast: Forecast) -> list[str]:
    """The labels of the boards of each curve, in the order in which :func:`chart_of` has them."""
    return [labels(group) for group in _slowest_first(forecast)]


def compared_signs(several: Sequence[Forecasted], chart: Chart, glyphs: CurveGlyphs) -> tuple[Sign, ...]:
    """The signs in the chart of several stacks."""
    lines = []
    for index, each in enumerate(several[: glyphs.most]):
        lines.append(Sign(glyphs.lines[index], told_apart(each, several)))
        lines.append(Sign(glyphs.shades[min(index, 1)], "its range"))
    return (*lines, Sign(glyphs.shades[2], "both ranges"), *_marks(chart, glyphs))


def told_apart(one: Forecasted, several: Iterable[Forecasted]) -> str:
    """The stack's name; with its file's where another of them bears the same, and the whole path where need be."""
    alike = [each for each in several if each.name == one.name]
    if len(alike) < 2:
        return one.name
    files = {PurePath(each.path).name for each in alike}
    return f"{one.name} ({PurePath(one.path).name if len(files) == len(alike) else one.path})"


def _slowest_first(forecast: Forecast) -> list[tuple[BatchForecast, ...]]:
    slowest = forecast.slowest
    return sorted(drying_alike(forecast.batches), key=lambda group: slowest not in group)


def _trace(first: int, spread: Spread, *, ranged: bool) -> Trace:
    shade = (spread.fast.moisture, spread.slow.moisture) if ranged else None
    return Trace(first, spread.likely.moisture, shade)


def _readings(one: Forecasted, batches: Iterable[BatchForecast]) -> list[Spot]:
    """Those of the batches that are drawn, and of the stack as a whole."""
    drawn = {None, *(each.batch.label for each in batches)}
    return [
        Spot(reading.day.date.toordinal(), reading.moisture.si)
        for reading in one.checked.stack.readings
        if (reading.label.text if reading.label is not None else None) in drawn
    ]


def _chart(
    several: Sequence[Forecasted], traces: Sequence[Trace], readings: Sequence[Spot], today: datetime.date
) -> Chart:
    first = min((trace.first for trace in traces), default=today.toordinal())
    last = max(_last(each.forecast) for each in several)
    due = [
        Spot(each.due.toordinal(), each.forecast.wanted)
        for each in several
        if each.due is not None and each.forecast.wanted is not None
    ]
    # A day far from those of the curves would press these together.
    span = last - first
    readings = [spot for spot in readings if first - span <= spot.day <= last + span]
    due = [spot for spot in due if first - span <= spot.day <= last + span]
    days = [spot.day for spot in (*readings, *due)]
    first, last = min([first, *days]), max([last, *days])
    wanted = sorted({each.forecast.wanted for each in several if each.forecast.wanted is not None})
    return Chart(
        first=first,
        last=last,
        traces=tuple(traces),
        wanted=tuple(wanted),
        due=tuple(due),
        readings=tuple(readings),
        today=today.toordinal() if first <= today.toordinal() <= last else None,
    )


def _last(forecast: Forecast) -> int:
    """The day up to which a forecast is worth drawing."""
    return forecast.start.toordinal() + max(max(map(_end, forecast.batches), default=1), 1)


def _end(each: BatchForecast) -> int:
    spread = each.spread
    longest = max(len(curve.moisture) for curve in spread) - 1
    if spread.likely.reached is None:
        return min(longest, _ENDLESS)
    slow = longest if spread.slow.reached is None else spread.slow.reached
    return min(math.ceil(min(slow, _BEYOND * max(spread.likely.reached, 1.0))), max(longest, 1))


def _marks(chart: Chart, glyphs: CurveGlyphs) -> Iterable[Sign]:
    if chart.wanted:
        yield Sign(glyphs.wanted, f"wanted, {' and '.join(percent(wanted) for wanted in chart.wanted)}")
    if chart.due:
        days = sorted({datetime.date.fromordinal(spot.day).isoformat() for spot in chart.due})
        yield Sign(glyphs.due, f"wanted by {' and '.join(days)}")
    if chart.today is not None:
        yield Sign(glyphs.today, f"today, {datetime.date.fromordinal(chart.today).isoformat()}")
    if chart.readings:
        yield Sign(glyphs.reading, "reading" if len(chart.readings) == 1 else "readings")
