"""Where the parts of a stack stand, in millimetres: ``x`` from its left end, ``z`` across it from its near side, and
heights from the ground."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.engineering.facts import StackFacts
from stacklint.engineering.foundation_facts import standing
from stacklint.layout.arrangement import Arrangement, CourseRun, Row
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind

MM = 1000.0
"""Millimetres in a metre: drawings of a stack have one unit for each."""
_LET_IN = 30.0
"""So much of a pad is drawn in the ground where the bearers leave it no height above."""


class Tier(NamedTuple):
    """One course: its stickers reach from ``sticker`` to ``low``, its boards from ``low`` to ``high``."""

    course: int
    run: CourseRun
    sticker: float
    low: float
    high: float


class Pads(NamedTuple):
    """What each bearer stands on: ``along`` the stack, ``across`` it; ``places`` are the middles across the stack."""

    along: float
    across: float
    low: float
    high: float
    places: tuple[float, ...]
    blocks: bool


class Shape(NamedTuple):
    """A stack upright. ``base`` is the top of what its lowest stickers (or boards) rest on."""

    stack: Stack
    laid: Arrangement
    facts: StackFacts
    base: float
    tiers: tuple[Tier, ...]
    pads: Pads | None

    @property
    def length(self) -> float:
        return self.laid.length * MM

    @property
    def width(self) -> float:
        return self.laid.width * MM

    @property
    def top(self) -> float:
        """Of the boards."""
        return self.tiers[-1].high

    @property
    def underside(self) -> float:
        """Of the lowest boards."""
        return self.tiers[0].low

    @property
    def thinnest(self) -> float:
        """Of all boards."""
        return min(run.thinnest for run in self.laid.courses) * MM

    @property
    def bearers(self) -> tuple[float, ...]:
        """Their middles; none where the stack rests on a floor or on pallets."""
        return () if self.laid.whole_floor else tuple(x * MM for x in self.laid.bearers)

    @property
    def bearer_low(self) -> float:
        return self.base - self.laid.bearer_depth * MM

    @property
    def lines(self) -> tuple[float, ...]:
        """The middles of its sticker lines."""
        return tuple(line.x * MM for line in self.laid.sticker_lines)

    @property
    def kiln_inside(self) -> tuple[float, float, float] | None:
        """Length, width and height of the kiln of a charge, where the plan gives them."""
        kiln = self.facts.kiln
        if kiln is None or kiln.length is None or kiln.width is None or kiln.height is None:
            return None
        return kiln.length * MM, kiln.width * MM, kiln.height * MM

    @property
    def on_pallets(self) -> bool:
        return self.stack.bearers is not None and self.stack.bearers.kind is BearerKind.PALLETS

    @property
    def reach(self) -> tuple[float, float]:
        """From its leftmost to its rightmost board end, its own ends included."""
        pieces = [piece for run in self.laid.courses for rows in run.rows for piece in rows.row.pieces]
        left = min(0.0, *(piece.start * MM for piece in pieces))
        return left, max(self.length, *(piece.end * MM for piece in pieces))

    def between(self, first: int | None, last: int | None) -> tuple[Tier, Tier]:
        """The tiers of courses ``first`` to ``last``; all of them where nothing is said."""
        low = min(max(first or 1, 1), len(self.tiers))
        high = min(max(last or first or len(self.tiers), low), len(self.tiers))
        return self.tiers[low - 1], self.tiers[high - 1]


def shape_of(checked: CheckedStack) -> Shape | None:
    """The shape of a stack; ``None`` where there is nothing to draw.

    The clearance is that of the underside of the lowest boards; their stickers lie below it.
    """
    stack, laid, facts, _ = checked
    if laid is None or facts is None or not laid.courses or laid.length <= 0 or laid.width <= 0:
        return None
    sticker = laid.sticker_thickness * MM if laid.sticker_lines else 0.0
    base = max((facts.clearance or 0.0) * MM - sticker, 0.0)
    tiers, height = [], base
    for run in laid.courses:
        for course in range(run.first, run.last + 1):
            low = height + sticker
            tiers.append(Tier(course, run, height, low, low + run.thickness * MM))
            height = low + run.thickness * MM
    return Shape(stack, laid, facts, base, tuple(tiers), _pads(stack, laid, base))


def _pads(stack: Stack, laid: Arrangement, base: float) -> Pads | None:
    """The long side of a pad lies along the stack, as the check of the bearers takes it."""
    stands, _ = standing(stack, laid)
    if stands is None or laid.whole_floor:
        return None
    across, along = stands.along * MM, stands.across * MM
    high = base - laid.bearer_depth * MM
    low = 0.0 if high > _LET_IN else high - _LET_IN
    width = laid.width * MM
    if stands.under_each == 1:
        return Pads(along, across, low, high, (width / 2,), stands.blocks)
    step = (width - across) / (stands.under_each - 1)
    places = tuple(across / 2 + step * number for number in range(stands.under_each))
    return Pads(along, across, low, high, places, stands.blocks)


class PlacedRow(NamedTuple):
    """A row and where it lies across the stack: from ``z`` to ``z + width``."""

    row: Row
    z: float
    width: float


def rows_across(run: CourseRun, shape: Shape) -> tuple[PlacedRow, ...]:
    """The rows of a course side by side, in the middle of the stack's width, with the gaps between them.

    A flue parts them in two halves: it is as wide as the plan says from board to board.
    """
    rows = [each.row for each in run.rows for _ in range(each.count)]
    gap = shape.laid.gap * MM
    size = shape.stack.size
    flue = max(size.flue.si * MM - gap, 0.0) if size is not None and size.flue is not None else 0.0
    total = sum(row.width * MM for row in rows) + gap * (len(rows) - 1) + (flue if len(rows) > 1 else 0.0)
    z, placed = (shape.width - total) / 2, []
    for number, row in enumerate(rows):
        if number == (len(rows) + 1) // 2:
            z += flue
        placed.append(PlacedRow(row, z, row.width * MM))
        z += row.width * MM + gap
    return tuple(placed)
