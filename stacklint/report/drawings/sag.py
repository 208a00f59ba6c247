"""How the boards sag, drawn under the side view a stated number of times too deep."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.engineering.facts import End, Span
from stacklint.report.drawings import dimensions
from stacklint.report.drawings.board import Board, Point
from stacklint.report.drawings.shape import MM, Shape
from stacklint.show import show
from stacklint.units import LENGTH

MATTERS = 0.001
"""Metres. A smaller sag is not drawn: nobody finds it with a straightedge (common practice, no source)."""
_FACTORS = (100, 50, 20, 10, 5, 2, 1)
_DEEPEST = 2.0
"""Depth of the deepest sag as drawn, in sizes of the drawing's letters."""
_POINTS = 12


class _Bow(NamedTuple):
    """A stretch between two supports, and how deep it sags, mm."""

    start: float
    end: float
    depth: float


def sag_strip(board: Board, shape: Shape, y: float) -> None:
    """Draws the course that sags most under ``y``, where its sag matters."""
    worst = max(shape.facts.spans, key=lambda span: span.sag or 0.0, default=None)
    if worst is None or (worst.sag or 0.0) <= MATTERS or not worst.marks:
        return
    letters = board.letters
    course = worst.marks[0].first_course or 1
    deepest = (worst.sag or 0.0) * MM
    factor = next((each for each in _FACTORS if deepest * each <= _DEEPEST * letters), _FACTORS[-1])
    level = y - letters * 2.2
    board.line("level", ((0.0, level), (shape.length, level)))
    bows = _bows(shape, course)
    for x in sorted({end for bow in bows for end in (bow.start, bow.end)}):
        size = letters * 0.35
        board.area("prop", ((x, level), (x - size * 0.6, level - size), (x + size * 0.6, level - size)))
    for bow in bows:
        board.line(
            "sag",
            _curve(bow, level, factor),
            data_x=bow.start,
            data_width=bow.end - bow.start,
            data_sag=bow.depth,
            data_factor=factor,
        )
    for end in shape.facts.ends:
        _droop(board, shape, end, course, level, factor)
    times = "true to scale" if factor == 1 else f"drawn {factor} times too deep"
    most = show(worst.sag or 0.0, LENGTH, shape.facts.system)
    board.words(f"Sag of course {course}, {times}: {most} at the most", shape.length / 2, level + letters * 0.5)
    board.words("sag", -letters * 0.8, level - letters * 0.35, anchor="end", size=dimensions.SMALL)
    board.reach(0.0, level - deepest * factor - letters * 0.4)


def _bows(shape: Shape, course: int) -> list[_Bow]:
    """The deepest sag of each stretch of the course."""
    found: dict[tuple[float, float], float] = {}
    for span in shape.facts.spans:
        for start, end in _stretches(span, course):
            found[start, end] = max(found.get((start, end), 0.0), (span.sag or 0.0) * MM)
    return [_Bow(start, end, depth) for (start, end), depth in sorted(found.items())]


def _stretches(part: Span | End, course: int) -> list[tuple[float, float]]:
    return [
        (mark.start * MM, mark.end * MM)
        for mark in part.marks
        if mark.start is not None
        and mark.end is not None
        and (mark.first_course or 1) <= course <= (mark.last_course or mark.first_course or course)
    ]


def _curve(bow: _Bow, level: float, factor: int) -> list[Point]:
    """A parabola, which a beam under an even load nearly bends to."""
    points = []
    for step in range(_POINTS + 1):
        share = step / _POINTS
        depth = 4 * share * (1 - share) * bow.depth * factor
        points.append((bow.start + share * (bow.end - bow.start), level - depth))
    return points


def _droop(board: Board, shape: Shape, end: End, course: int, level: float, factor: int) -> None:
    """A board end that hangs past its last sticker."""
    depth = (end.droop or 0.0) * MM
    supports = shape.lines or shape.bearers
    for start, stop in _stretches(end, course):
        if stop - start < 1.0 or depth * factor < board.letters * 0.05:
            continue
        held, free = (stop, start) if any(abs(x - stop) < 1.0 for x in supports) else (start, stop)
        points = []
        for step in range(_POINTS + 1):
            share = step / _POINTS
            points.append((held + share * (free - held), level - depth * factor * share**2))
        board.line("sag", points, data_x=start, data_width=stop - start, data_droop=depth, data_factor=factor)
