"""Dimensions as a carpenter draws them: a line between two slashes with the figure beside it; strings of distances."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from stacklint.report.drawings.board import Board
from stacklint.report.drawings.shape import MM
from stacklint.report.tape import tape
from stacklint.units import System

_SLASH = 0.3
_STEPS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30, 50, 100)
SMALL = 0.9
"""Size of the figures in a string, in sizes of the drawing's letters."""


def length(millimetres: float, system: System) -> str:
    """A length in the plan's units, as a tape tells it."""
    return tape(millimetres / MM, system)


def across(board: Board, start: float, end: float, y: float, text: str, kind: str) -> None:
    """A level dimension. Its figure stands over the line, beside it where there is no room."""
    _slashed(board, ((start, y), (end, y)), kind, end - start)
    wide = board.width_of(text)
    if wide <= abs(end - start) * 1.1:
        board.words(text, (start + end) / 2, y + board.letters * 0.35)
    else:
        board.words(text, max(start, end) + board.letters * 0.5, y - board.letters * 0.35, anchor="start")


def upright(board: Board, low: float, high: float, x: float, text: str, kind: str) -> None:
    """An upright dimension with its figure at the right of the line."""
    _slashed(board, ((x, low), (x, high)), kind, high - low)
    board.words(text, x + board.letters * 0.5, (low + high) / 2 - board.letters * 0.35, anchor="start")


def extension(board: Board, *points: tuple[float, float]) -> None:
    """A thin line from a part out to its dimension."""
    board.line("extension", points)


def string(board: Board, name: str, places: Sequence[float], y: float, system: System) -> float:
    """Distances of ``places`` from the left end, under a line with a tick for each; gives the height below it all.

    Figures are level where they have room, upright where that gives them room, and else only every second, third and
    so on, with the first and the last.
    """
    letters = board.letters
    start, end = min(0.0, *places), max(places)
    board.line("dimension", ((start, y), (end, y)), data_kind=name)
    for x in places:
        board.line("tick", ((x, y - letters * 0.3), (x, y + letters * 0.3)), data_kind=name, data_x=x)
    board.words(name, start - letters * 0.8, y - letters * 0.35, anchor="end", size=SMALL)
    texts = [length(x, system) for x in places]
    widths = [board.width_of(text, SMALL) + letters * 0.6 for text in texts]
    level = all((a + b) / 2 <= right - left for (left, a), (right, b) in pairwise(zip(places, widths, strict=True)))
    if level:
        for x, text in zip(places, texts, strict=True):
            board.words(text, x, y - letters * 1.4, size=SMALL, data_kind=name)
        return y - letters * 2.0
    for index in thinned(places, letters * SMALL * 1.15):
        x = places[index] + letters * SMALL * 0.35
        board.words(texts[index], x, y - letters * 0.6, size=SMALL, upward=True, anchor="end", data_kind=name)
    return y - letters * 0.9 - max(board.width_of(text, SMALL) for text in texts)


def thinned(places: Sequence[float], room: float) -> tuple[int, ...]:
    """Which of ``places`` are told so that each has ``room``: every one, or every second and so on, and the last."""
    count = len(places)
    for step in _STEPS:
        told = list(range(0, count, step))
        if told[-1] != count - 1:
            while len(told) > 1 and places[-1] - places[told[-1]] < room:
                told.pop()
            told.append(count - 1)
        if all(places[right] - places[left] >= room for left, right in pairwise(told)):
            return tuple(told)
    return (0, count - 1) if count > 1 else (0,)


def _slashed(board: Board, ends: tuple[tuple[float, float], tuple[float, float]], kind: str, value: float) -> None:
    size = board.letters * _SLASH
    board.line("dimension", ends, data_kind=kind, data_value=value)
    for x, y in ends:
        board.line("slash", ((x - size, y - size), (x + size, y + size)))
