"""Which boards would fill what an arrangement leaves open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from stacklint.arranging.courses import is_short
from stacklint.layout import Arrangement, supports_of
from stacklint.layout.arrangement import FILL_TOLERANCE, CourseRun, Piece
from stacklint.layout.matching import UNIT
from stacklint.layout.patterns import patterns
from stacklint.units import ONE_FOOT, ONE_INCH, System

_STEP_METRIC = 0.1
_MOST_PATTERNS = 2_000
_MANY = 1_000


class Fill(NamedTuple):
    """So many boards of one size."""

    boards: int
    thickness: float
    length: float


class Stop(NamedTuple):
    """So many rows that stop short of the stack's end by ``gap``, which no board that two stickers hold fills."""

    rows: int
    thickness: float
    gap: float


class Partners(NamedTuple):
    """The boards that would fill the rows that are short, and the rows that none fills."""

    boards: tuple[Fill, ...]
    stops: tuple[Stop, ...]


class Room(NamedTuple):
    """A course with room for ``rows`` more rows, and the boards that would fill them."""

    course: int
    rows: int
    boards: tuple[Fill, ...]


def partners(arrangement: Arrangement, system: System) -> Partners:
    """The fewest boards for each short row: of lengths that the stack has where those fill it, else of the length
    that lacks. Rows are taken as they are laid; one that cannot be filled gives up its shortest board, which then
    heads a row of its own."""
    boards: dict[tuple[float, float], int] = {}
    stops: dict[tuple[float, float], int] = {}
    listed = _listed(arrangement)
    for thickness, lengths, count in _short_rows(arrangement):
        for row in _fillable(lengths, arrangement):
            gap = arrangement.length - sum(row)
            found = _lengths_for(gap, listed[thickness], arrangement, system)
            if not found:
                stops[thickness, round(gap, 5)] = stops.get((thickness, round(gap, 5)), 0) + count
            for length in found:
                boards[thickness, length] = boards.get((thickness, length), 0) + count
    return Partners(
        tuple(Fill(count, thickness, length) for (thickness, length), count in sorted(boards.items(), reverse=True)),
        tuple(Stop(count, thickness, gap) for (thickness, gap), count in sorted(stops.items(), reverse=True)),
    )


def rooms(arrangement: Arrangement, flue: float = 0.0) -> tuple[Room, ...]:
    """The courses in which more rows go side by side, and boards for them in lengths that the stack has.

    ``flue`` is what a flue takes of the width.
    """
    found: list[Room] = []
    for run in arrangement.courses:
        head = run.rows[0].row
        rows = int((_free(run, arrangement, flue) + arrangement.gap + UNIT) / (head.width + arrangement.gap))
        if rows < 1 or is_short(head, arrangement.length):
            continue
        lengths = [piece.length for piece in head.pieces]
        each = [
            Fill(rows * lengths.count(length), head.pieces[0].thickness, length) for length in dict.fromkeys(lengths)
        ]
        found.extend(Room(course, rows, tuple(each)) for course in range(run.first, run.last + 1))
    return tuple(found)


def _free(run: CourseRun, arrangement: Arrangement, flue: float) -> float:
    """Width beside the rows of a course, the gap to them included."""
    taken = sum(rows.count * (rows.row.width + arrangement.gap) for rows in run.rows)
    return arrangement.width - flue - taken


def _listed(arrangement: Arrangement) -> dict[float, set[float]]:
    """The lengths that the stack has of each thickness."""
    found: dict[float, set[float]] = {}
    for run in arrangement.courses:
        for rows in run.rows:
            for piece in rows.row.pieces:
                found.setdefault(piece.thickness, set()).add(piece.length)
    return found


def _short_rows(arrangement: Arrangement) -> Iterator[tuple[float, tuple[float, ...], int]]:
    """Thickness, lengths and number of the rows that are short."""
    for run in arrangement.courses:
        for rows in run.rows:
            if is_short(rows.row, arrangement.length):
                pieces = rows.row.pieces
                yield pieces[0].thickness, tuple(piece.length for piece in pieces), rows.count * run.count


def _fillable(lengths: tuple[float, ...], arrangement: Arrangement) -> Iterator[tuple[float, ...]]:
    """The row, or the rows that it is parted into so that a board goes in beside each."""
    gap = arrangement.length - sum(lengths)
    if len(lengths) == 1 or _held(gap + FILL_TOLERANCE, arrangement):
        yield lengths
        return
    *rest, shortest = sorted(lengths, reverse=True)
    yield from _fillable(tuple(rest), arrangement)
    yield from _fillable((shortest,), arrangement)


def _held(length: float, arrangement: Arrangement) -> bool:
    """Would two sticker lines lie under a board so long at the end of the stack? Always where there are no stickers."""
    if not arrangement.sticker_lines:
        return True
    start = max(0.0, arrangement.length - length)
    piece = Piece("", start, length, 0.1, 0.02)
    return len(supports_of(piece, arrangement.sticker_lines, arrangement.sticker_width).lines) > 1


def _lengths_for(gap: float, listed: set[float], arrangement: Arrangement, system: System) -> Sequence[float]:
    """The boards that fill a gap; none where it is too short for a board."""
    by_size = {round(length / UNIT): length for length in listed if _held(length, arrangement)}
    low, high = round((gap - FILL_TOLERANCE) / UNIT), round((gap + FILL_TOLERANCE) / UNIT)
    found, _ = patterns(dict.fromkeys(by_size, _MANY), low, high, _MOST_PATTERNS)
    if found:
        fewest = min(found, key=lambda pattern: sum(number for _, number in pattern))
        return [by_size[size] for size, number in fewest for _ in range(number)]
    length = _usual(gap, system)
    return [length] if _held(length, arrangement) else []


def _usual(gap: float, system: System) -> float:
    """The length that fills a gap as people would cut it: whole feet where they fill, else whole inches."""
    if system is System.METRIC:
        return round(gap / _STEP_METRIC) * _STEP_METRIC
    feet = round(gap / ONE_FOOT) * ONE_FOOT
    return feet if abs(feet - gap) <= FILL_TOLERANCE else round(gap / ONE_INCH) * ONE_INCH
