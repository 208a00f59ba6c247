"""The board that a drawing to scale is drawn on: millimetres to the right and upward, with letters of one size."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from xml.etree.ElementTree import Element

from stacklint.report.svg import Attribute, drawing, element, number, set_attributes

_NARROW, _WIDE = frozenset(" /'.,;:|!ijlft()-"), frozenset("mwMW%")
_WIDTHS = (0.3, 0.56, 0.87)
"""Of narrow letters, others and wide ones of a plain face, in its size (common practice, no source)."""
_LATIN = 0x24F
"""The last letter of the blocks of Latin letters in the Unicode Standard; many beyond are wider."""
_EDGE = 0.5
"""Margin round a drawing, in sizes of its letters."""
_PIXELS = 15
"""No drawing is shown so large that its letters are higher than this many CSS pixels."""
_FINE = 1 / 350
"""Boards that are thinner than this share of the drawing's width are outlined with hairlines."""
Point = tuple[float, float]


class Board:
    """Gathers the parts of a drawing and how far they reach.

    Parts stand in a group that is shifted to the stack's left end and the ground, so that in it ``x`` is the distance
    from that end and ``y`` the height turned over.
    """

    def __init__(self, name: str, letters: float) -> None:
        self.name = name
        self.letters = letters
        self._parts: list[Element] = []
        self._words: list[tuple[float, float, float, float]] = []
        self._left = self._right = self._low = self._high = 0.0

    def box(self, class_: str, x: float, y: float, width: float, height: float, **more: Attribute) -> Element:
        """A rectangle from its lower left corner. It bears its place and size as ``data-x``, ``data-y`` and so on."""
        self.reach(x, y)
        self.reach(x + width, y + height)
        made = element("rect", class_=class_, x=x, y=-(y + height), width=width, height=height)
        set_attributes(made, data_x=x, data_y=y, data_width=width, data_height=height, **more)
        return self.add(made)

    def line(self, class_: str, points: Sequence[Point], **more: Attribute) -> Element:
        """A line through points."""
        for x, y in points:
            self.reach(x, y)
        return self.add(element("path", class_=class_, d=path(points), **more))

    def area(self, class_: str, points: Sequence[Point], **more: Attribute) -> Element:
        """A closed shape."""
        for x, y in points:
            self.reach(x, y)
        return self.add(element("path", class_=class_, d=path(points) + "Z", **more))

    def words(
        self,
        text: str,
        x: float,
        y: float,
        *,
        anchor: str = "middle",
        size: float = 1.0,
        upward: bool = False,
        class_: str = "words",
        **more: Attribute,
    ) -> Element:
        """A line of text whose letters stand on ``y``; ``upward`` ones read from below and begin or end there."""
        letters = self.letters * size
        wide = self.width_of(text, size)
        before = {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        if upward:
            box = (x - letters, x + letters * 0.3, y - before, y + wide - before)
        else:
            box = (x - before, x + wide - before, y - letters * 0.3, y + letters)
        self._words.append(box)
        self.reach(box[0], box[2])
        self.reach(box[1], box[3])
        turned = f"rotate(-90 {number(x)} {number(-y)})" if upward else None
        made = element(
            "text", text, class_=class_, x=x, y=-y, font_size=letters, text_anchor=anchor, transform=turned, **more
        )
        return self.add(made)

    def over_words(self, x: float, y: float, radius: float) -> bool:
        """A ring there would lie over words."""
        for left, right, low, high in self._words:
            aside, away = max(left - x, 0.0, x - right), max(low - y, 0.0, y - high)
            if math.hypot(aside, away) < radius:
                return True
        return False

    def width_of(self, text: str, size: float = 1.0) -> float:
        """How wide a text will be, nearly."""
        return text_width(text) * self.letters * size

    def add(self, made: Element) -> Element:
        self._parts.append(made)
        return made

    def reach(self, x: float, y: float) -> None:
        """The drawing is to reach there at least."""
        self._left, self._right = min(self._left, x), max(self._right, x)
        self._low, self._high = min(self._low, y), max(self._high, y)

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, right, low and high ends of all that is drawn."""
        return self._left, self._right, self._low, self._high

    @property
    def hatch(self) -> str:
        """The style of a faulty stretch, which fills it with slanting strokes."""
        return f"fill:url(#{self.name}-hatch)"

    def finished(self, title: str, desc: str, kind: str, thinnest: float) -> Element:
        """The drawing. ``kind`` is its class; ``thinnest`` the height of its thinnest boards, by which lines go."""
        edge = self.letters * _EDGE
        left, top = edge - self._left, edge + self._high
        width, height = self._right + left + edge, top - self._low + edge
        fine = " fine" if thinnest < width * _FINE else ""
        group = element(
            "g",
            *sorted(self._parts, key=_layer),
            transform=f"translate({number(left)} {number(top)})",
            class_="to-scale",
        )
        made = drawing(
            width,
            height,
            _hatch(self.name, self.letters),
            group,
            title=title,
            desc=desc,
            name=self.name,
            class_=f"drawing {kind}{fine}",
        )
        set_attributes(made, data_left=left, data_ground=top, data_letters=self.letters)
        set_attributes(made, style=f"max-width:{number(width / self.letters * _PIXELS)}px")
        return made


def _layer(part: Element) -> int:
    """Words lie over all lines, and the numbers of findings over the words."""
    return 2 if part.tag == "g" else 1 if part.tag == "text" else 0


def text_width(text: str) -> float:
    """How wide a text is in the size of its letters, nearly; letters that are unknown are taken for wide ones."""
    narrow, other, wide = _WIDTHS
    return sum(
        narrow if letter in _NARROW else wide if letter in _WIDE or ord(letter) > _LATIN else other for letter in text
    )


def path(points: Iterable[Point]) -> str:
    """The way through points, with heights turned over."""
    return "M" + "L".join(f"{number(x)} {number(-y)}" for x, y in points)


def _hatch(name: str, letters: float) -> Element:
    """Slanting strokes, so that a faulty stretch is told without colour."""
    size = letters * 0.55
    stroke = element(
        "path",
        class_="stroke",
        d=f"M{number(-size / 4)} {number(size / 4)}L{number(size / 4)} {number(-size / 4)}"
        f"M0 {number(size)}L{number(size)} 0"
        f"M{number(size * 3 / 4)} {number(size * 5 / 4)}L{number(size * 5 / 4)} {number(size * 3 / 4)}",
        style=f"stroke-width:{number(size / 9)}px",
    )
    pattern = element("pattern", stroke, id=f"{name}-hatch", width=size, height=size, patternUnits="userSpaceOnUse")
    return element("defs", pattern)
