"""What the signs of a drying curve mean, told under it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element

from stacklint.report.drawings.board import text_width
from stacklint.report.drawings.strokes import LETTERS, line, sign, words
from stacklint.report.drying_curve import Chart
from stacklint.report.svg import element, number

_WIDE = 26.0


class _Told(NamedTuple):
    """A sign, named as its class in the look, with the number of its curve if it is of one, and what it means."""

    sign: str
    words: str
    curve: int = 0


def legend(
    chart: Chart, names: Sequence[str], room: tuple[float, float, float], ready: bool
) -> tuple[list[Element], float]:
    """Signs and words in as many lines as it takes, from ``room``'s left end and height on, to its right end; and the
    height that the drawing has then. ``ready`` says that the days from the earliest to the latest are drawn."""
    left, y, right = room
    made: list[Element] = []
    x = left
    for each in _told(chart, names, ready):
        wide = _WIDE + 8 + text_width(each.words) * LETTERS + 18
        if x + wide > right and x > left:
            x, y = left, y + 20
        made += [*_sign(each, x, y - 4.5), words(each.words, x + _WIDE + 6, y, "start", class_="words legend")]
        x += wide
    return made, y + 12


def _told(chart: Chart, names: Sequence[str], ready: bool) -> Iterator[_Told]:
    several = len(chart.traces) > 1
    yield _Told("likely", f"{names[0]}, likely" if several else "likely")
    if any(trace.range for trace in chart.traces):
        yield _Told("range", f"{names[0]} from fastest to slowest" if several else "from fastest to slowest")
    for index in range(1, len(chart.traces)):
        yield _Told("likely other", f"{names[index]}, likely", index)
    if chart.wanted:
        yield _Told("wanted", "wanted")
    if chart.wanted and ready:
        yield _Told("ready-range", "ready, earliest to latest")
    if chart.due:
        yield _Told("due", f"wanted by {' and '.join(sorted({_iso(spot.day) for spot in chart.due}))}")
    if chart.readings:
        yield _Told("reading", "readings" if len(chart.readings) > 1 else "reading")
    if chart.today is not None:
        yield _Told("today", f"today, {_iso(chart.today)}")


def _sign(told: _Told, x: float, y: float) -> list[Element]:
    middle, kind = x + _WIDE / 2, told.sign
    if kind == "range":
        edge = [line("range-edge", ((x, y + way), (x + _WIDE, y + way))) for way in (-5.0, 5.0)]
        return [element("rect", class_="range", x=x, y=y - 5, width=_WIDE, height=10), *edge]
    if kind == "ready-range":
        return [element("path", class_=kind, d=f"M{number(x)} {number(y - 5)}v10m0-5h{number(_WIDE)}m0-5v10")]
    if kind == "due":
        return [element("path", class_="due", d=f"M{number(middle - 6)} {number(y - 6)}l12 12m-12 0l12-12")]
    if kind == "reading":
        return [element("circle", class_="reading", cx=middle, cy=y, r=5)]
    if kind == "today":
        return [line("today", ((middle, y - 8), (middle, y + 8)))]
    through = line(kind, ((x, y), (x + _WIDE, y)))
    return [through, sign(told.curve, middle, y)] if told.curve else [through]


def _iso(day: int) -> str:
    return datetime.date.fromordinal(day).isoformat()
