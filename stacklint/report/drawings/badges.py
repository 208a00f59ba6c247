"""The numbers of findings at the parts that they speak of."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from stacklint.findings import Finding, Mark, Part
from stacklint.report.drawings.board import Board, Point
from stacklint.report.svg import element, number

if TYPE_CHECKING:
    from stacklint.report.numbered import Numbered

RADIUS = 0.78
"""Of a number's ring, in sizes of the drawing's letters."""
_TOGETHER = 9.0
"""Places of one finding that are no further apart than this, in the same, have one number between them."""
_RINGS = 14
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


class _Group:
    """Places of one finding that stand close together, and bear its number once."""

    def __init__(self, first: Marked, place: Point) -> None:
        self.first = first
        self.places = [place]

    @property
    def place(self) -> Point:
        """That of its places which is nearest to the middle of them all."""
        middle = tuple(sum(values) / len(self.places) for values in zip(*self.places, strict=True))
        return min(self.places, key=lambda place: math.dist(place, middle))


class Badges:
    """Sets numbers where they are wanted, or as near as may be without lying over one another or over words.

    Numbers are put first and drawn last, when all the words of the drawing stand.
    """

    def __init__(self, board: Board) -> None:
        self._board = board
        self._taken: list[Point] = []
        self._groups: list[_Group] = []

    def put(self, marked_: Marked, x: float, y: float) -> None:
        """Wants a number at a place; those of one finding that are close together become one."""
        near = self._board.letters * _TOGETHER
        for group in self._groups:
            if group.first.number == marked_.number and math.dist(group.places[0], (x, y)) <= near:
                group.places.append((x, y))
                return
        self._groups.append(_Group(marked_, (x, y)))

    def draw(self) -> None:
        """Draws them; one that does not stand at its place has a line to it."""
        radius = self._board.letters * RADIUS
        for group in self._groups:
            wanted = group.place
            at = self._free(*wanted, radius)
            self._taken.append(at)
            if math.dist(at, wanted) > radius:
                self._board.line("leader", (wanted, at))
            self._ring(group, at, wanted, radius)

    def _free(self, x: float, y: float, radius: float) -> Point:
        for place in _around(x, y, radius):
            if all(math.dist(place, taken) >= 2.1 * radius for taken in self._taken) and not self._board.over_words(
                *place, radius * 1.08
            ):
                return place
        return x, y

    def _ring(self, group: _Group, at: Point, of: Point, radius: float) -> None:
        board, (x, y), (told, finding, mark) = self._board, at, group.first
        board.reach(x - radius, y - radius)
        board.reach(x + radius, y + radius)
        size = board.letters * (0.95 if told < 10 else 0.8 if told < 100 else 0.6)
        level, count = finding.level.value, len(set(group.places))
        places = f" (at {count} places here)" if count > 1 else ""
        board.add(
            element(
                "g",
                element("title", f"{told}, {level}: {finding.message}{places}"),
                element("circle", cx=x, cy=-y, r=radius),
                element("text", number(told), x=x, y=-y + size * 0.36, font_size=size, text_anchor="middle"),
                class_=f"finding {level}",
                data_number=told,
                data_part=mark.part.value,
                data_x=of[0],
                data_y=of[1],
            )
        )


def _around(x: float, y: float, radius: float) -> Iterable[Point]:
    yield x, y
    for ring in range(1, _RINGS):
        for turn in range(_TURNS):
            angle = 2 * math.pi * turn / _TURNS
            yield x + ring * 1.1 * radius * math.cos(angle), y + ring * 1.1 * radius * math.sin(angle)
