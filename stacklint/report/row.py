"""A row of a drawing: cells along the stack's length, a label before them and words after them."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum, auto
from typing import NamedTuple


class Ink(Enum):
    """What a cell shows, for the screen to give it a style."""

    AIR = auto()
    WOOD = auto()
    STICKER = auto()
    SUPPORT = auto()
    GROUND = auto()
    COVER = auto()
    LOAD = auto()
    SCALE = auto()
    FAULT = auto()
    KEY = auto()


class Cell(NamedTuple):
    character: str
    ink: Ink


AIR = Cell(" ", Ink.AIR)


class Frame(NamedTuple):
    """Maps the stack's length onto cells: ``cells`` for the stack, ``margin`` free ones at either end."""

    length: float
    cells: int
    margin: int

    @property
    def first(self) -> int:
        return self.margin

    @property
    def last(self) -> int:
        return self.margin + self.cells - 1

    @property
    def whole(self) -> int:
        return self.cells + 2 * self.margin

    def at(self, x: float) -> int:
        """The cell that ``x`` metres from the left end falls in; what lies far outside, in the outermost."""
        # The little more keeps a figure such as 0.6096 m from falling before its own cell's edge.
        cell = self.margin + math.floor(x / self.length * self.cells + 1e-6)
        if x <= self.length + 1e-6:
            cell = min(cell, self.last)
        return max(0, min(cell, self.whole - 1))

    def stretch(self, start: float | None, end: float | None) -> range:
        """The cells from ``start`` to ``end``; the whole stack where neither is said. Never empty."""
        left = self.first if start is None else self.at(start)
        if end is None:
            right = self.last if start is None else left
        else:
            right = self.at(max(end - self.length / self.cells / 2, 0.0))
        return range(left, max(left, right) + 1)


@dataclass(slots=True)
class Row:
    """One row while it is drawn. ``after`` gathers the keys for which the row has no room."""

    label: str
    cells: list[Cell]
    after: list[str] = field(default_factory=list)

    @classmethod
    def blank(cls, frame: Frame, label: str = "") -> Row:
        return cls(label, [AIR] * frame.whole)

    def put(self, index: int, text: str, ink: Ink) -> None:
        """``text`` from ``index`` on, one character a cell; what stands over the edge is lost."""
        for offset, character in enumerate(text):
            if 0 <= index + offset < len(self.cells):
                self.cells[index + offset] = Cell(character, ink)

    def fill(self, stretch: range, character: str, ink: Ink) -> None:
        for index in stretch:
            self.cells[index] = Cell(character, ink)

    def key(self, stretch: range, letter: str) -> None:
        """The letter of a finding: in the middle of its stretch, or the nearest cell there that is free."""
        middle = (stretch.start + stretch.stop - 1) // 2
        for index in sorted(stretch, key=lambda each: (abs(each - middle), each)):
            if self.cells[index].ink is not Ink.KEY:
                self.cells[index] = Cell(letter, Ink.KEY)
                return
        if letter not in self.after:
            self.after.append(letter)
