"""The numbers of findings at the parts that they speak of."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from stacklint.findings import Finding, Mark, Part
from stacklint.report.drawings.board import Board
from stacklint.report.svg import element, number

if TYPE_CHECKING:
    from stacklint.report.numbered import Numbered

RADIUS = 0.78
"""Of a number's ring, in sizes of the drawing's letters."""
_RINGS = 8
_TURNS = 12


class Marked(NamedTuple):
    number: int
    finding: Finding
    mark: Mark


def marked(findings: Sequence[Numbered], *parts: Part) -> Iterator[Marked]:
    """Every mark of the findings on one of these parts."""
    for each in findings:
        for mark in dict.fromkeys(each.finding.marks):
            if mark.part in parts:
                yield Marked(each.number, each.finding, mark)


class Badges:
    """Sets numbers where they are wanted, or as near as may be without one lying over another."""

    def __init__(self, board: Board) -> None:
        self._board = board
        self._taken: list[tuple[float, float]] = []
        self._told: set[tuple[int, int, int]] = set()

    def put(self, marked_: Marked, x: float, y: float) -> None:
        """A number at a place; a second of the same finding near it is left out."""
        radius = self._board.letters * RADIUS
        near = (marked_.number, round(x / radius / 2), round(y / radius / 2))
        if near in self._told:
            return
        self._told.add(near)
        at = self._free(x, y, radius)
        self._taken.append(at)
        if math.dist(at, (x, y)) > radius:
            self._board.line("leader", ((x, y), at))
        self._ring(marked_, at, (x, y), radius)

    def _free(self, x: float, y: float, radius: float) -> tuple[float, float]:
        for place in _around(x, y, radius):
            if all(math.dist(place, taken) >= 2.1 * radius for taken in self._taken):
                return place
        return x, y

    def _ring(self, marked_: Marked, at: tuple[float, float], of: tuple[float, float], radius: float) -> None:
        board, (x, y), (told, finding, mark) = self._board, at, marked_
        board.reach(x - radius, y - radius)
        board.reach(x + radius, y + radius)
        size = board.letters * (0.95 if told < 10 else 0.8 if told < 100 else 0.6)
        level = finding.level.value
        board.add(
            element(
                "g",
                element("title", f"{told}, {level}: {finding.message}"),
                element("circle", cx=x, cy=-y, r=radius),
                element("text", number(told), x=x, y=-y + size * 0.36, font_size=size, text_anchor="middle"),
                class_=f"finding {level}",
                data_number=told,
                data_part=mark.part.value,
                data_x=of[0],
                data_y=of[1],
            )
        )


def _around(x: float, y: float, radius: float) -> Iterable[tuple[float, float]]:
    yield x, y
    for ring in range(1, _RINGS):
        for turn in range(_TURNS):
            angle = 2 * math.pi * turn / _TURNS
            yield x + ring * 1.1 * radius * math.cos(angle), y + ring * 1.1 * radius * math.sin(angle)
