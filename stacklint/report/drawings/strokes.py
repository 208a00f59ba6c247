"""Lines, words and signs of a drying curve, in units of its drawing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from xml.etree.ElementTree import Element

from stacklint.report.svg import element, number

LETTERS = 13.0
"""Size of the letters."""
_SIZE = 4.5
"""Of a sign on a curve, from its middle."""
_EVERY = 74.0
"""From one sign on a curve to the next, along it."""
_CORNERS = (
    ((-0.85, -0.85), (0.85, -0.85), (0.85, 0.85), (-0.85, 0.85)),
    ((0.0, -1.1), (1.05, 0.8), (-1.05, 0.8)),
    ((0.0, -1.25), (1.25, 0.0), (0.0, 1.25), (-1.25, 0.0)),
    ((0.0, 1.1), (1.05, -0.8), (-1.05, -0.8)),
)
"""Square, triangle, square on its corner, triangle on its corner: of the curves after the first."""
Point = tuple[float, float]


def line(class_: str, points: Sequence[Point], **data: str | float | None) -> Element:
    return element("path", class_=class_, d=path(points), **data)


def path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)


def words(text: str, x: float, y: float, anchor: str, class_: str = "words") -> Element:
    return element("text", text, class_=class_, x=x, y=y, font_size=LETTERS, text_anchor=anchor)


def sign(curve: int, x: float, y: float) -> Element:
    """The sign of the curve of that number, which no dashes and no colour are needed to tell; the first has none."""
    corners = _CORNERS[(curve - 1) % len(_CORNERS)]
    filled = " filled" if (curve - 1) // len(_CORNERS) % 2 else ""
    shape = path([(x + _SIZE * dx, y + _SIZE * dy) for dx, dy in corners])
    return element("path", class_=f"curve-sign{filled}", d=shape + "Z", data_curve=curve)


def signs_along(curve: int, points: Sequence[Point]) -> Iterator[Element]:
    """Its signs at even distances along it, those of neighbouring curves not beside each other."""
    due = _EVERY * (0.35 + 0.3 * ((curve - 1) % 3))
    gone = 0.0
    for (x, y), (u, v) in pairwise(points):
        step = math.dist((x, y), (u, v))
        while step > 0 and due <= gone + step:
            share = (due - gone) / step
            yield sign(curve, x + share * (u - x), y + share * (v - y))
            due += _EVERY
        gone += step
