"""The arrangement: where every board, sticker and bearer of a stack stands.

All lengths are metres. Along the stack ``x`` counts from its left end; courses count from the ground.
Courses that are laid alike share one :class:`CourseRun`, rows that are alike one :class:`RowRun`, so
that a stack of a thousand boards is a few objects.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from stacklint.faults import Assumption, Fault
from stacklint.units import ONE_INCH
from stacklint.where import Where

FILL_TOLERANCE = 3 * ONE_INCH
"""A row fills the stack when it is no more than this short of the stack's length or over it; two boards
meet in a joint when the gap between them is no wider (common practice, no source)."""


class Piece(NamedTuple):
    """One board in a row. ``label`` names its ``boards`` statement; ``width`` is the mean for random widths."""

    label: str
    start: float
    length: float
    width: float
    thickness: float

    @property
    def end(self) -> float:
        return self.start + self.length


class Row(NamedTuple):
    """Boards end to end, from left to right."""

    pieces: tuple[Piece, ...]

    @property
    def width(self) -> float:
        return max(piece.width for piece in self.pieces)

    @property
    def length(self) -> float:
        return self.pieces[-1].end - self.pieces[0].start

    @property
    def joints(self) -> tuple[float, ...]:
        """Where two boards meet end to end: the middle of the gap between them."""
        return tuple((left.end + right.start) / 2 for left, right in self.meetings)

    @property
    def meetings(self) -> tuple[tuple[Piece, Piece], ...]:
        """The boards on both sides of each joint, in the order of ``joints``.

        Boards of a short row that stand further apart than ``FILL_TOLERANCE`` do not meet.
        """
        return tuple(
            (left, right)
            for left, right in zip(self.pieces, self.pieces[1:], strict=False)
            if right.start - left.end <= FILL_TOLERANCE + 1e-6
        )


@dataclass(frozen=True, slots=True)
class RowRun:
    row: Row
    count: int


@dataclass(frozen=True, slots=True)
class CourseRun:
    """Courses ``first`` to ``last``, laid alike. ``where`` is the statement that they come from."""

    first: int
    last: int
    rows: tuple[RowRun, ...]
    where: Where

    @property
    def count(self) -> int:
        return self.last - self.first + 1

    @property
    def thickness(self) -> float:
        """Of the thickest board."""
        return max(piece.thickness for run in self.rows for piece in run.row.pieces)

    @property
    def thinnest(self) -> float:
        return min(piece.thickness for run in self.rows for piece in run.row.pieces)


class StickerLine(NamedTuple):
    """Stickers one over the other through all courses, at ``x``.

    ``bearer`` is the index of the bearer it stands on, ``None`` where it stands on none; ``off`` is the
    clear distance from its edge to the edge of the nearest bearer (0 where the two overlap). It stands on
    a bearer when its middle does. On a floor, a slab or pallets every line is carried and ``bearer`` is 0.
    """

    x: float
    bearer: int | None
    off: float


@dataclass(frozen=True, slots=True)
class Odd:
    """So many boards of one length of a group."""

    label: str
    length: float
    count: int


@dataclass(frozen=True, slots=True)
class RowPattern:
    """Rows of the best matching: ``count`` rows of these lengths (longest first)."""

    count: int
    lengths: tuple[float, ...]
    fills: bool


class Arrangement(NamedTuple):
    """A laid-out stack.

    ``unpaired`` boards stand in rows that do not fill the stack's length; ``left_over`` boards stand in
    no course. ``bearers`` are the x of their middles. ``whole_floor`` is true where the lowest course
    rests everywhere (floor, slab, pallets, kiln floor) instead of on bearers.
    """

    length: float
    width: float
    gap: float
    courses: tuple[CourseRun, ...]
    sticker_lines: tuple[StickerLine, ...]
    sticker_thickness: float
    sticker_thickness_low: float
    sticker_width: float
    sticker_length: float
    bearers: tuple[float, ...]
    bearer_width: float
    bearer_depth: float
    whole_floor: bool
    matching: tuple[RowPattern, ...]
    unpaired: tuple[Odd, ...]
    left_over: tuple[Odd, ...]
    assumptions: tuple[Assumption, ...]
    faults: tuple[Fault, ...]

    @property
    def course_count(self) -> int:
        return self.courses[-1].last if self.courses else 0

    @property
    def sticker_count(self) -> int:
        """Stickers to cut: one tier under each course."""
        return self.course_count * len(self.sticker_lines)

    @property
    def height(self) -> float:
        """Of boards and stickers, from the top of the bearers to the top of the top course."""
        return sum(run.count * (run.thickness + self.sticker_thickness) for run in self.courses)
