"""What lies over a stack and hangs at its sides, as it is cut and brought: weights, cover, strips, ties, cloth."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import NamedTuple

from stacklint.board_words import size_words
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.shelter import CoverKind, Fastening, SideKind
from stacklint.plan.stack import Stack
from stacklint.report.built import Built
from stacklint.report.cuts import Cut
from stacklint.report.tape import slope_words
from stacklint.show import show
from stacklint.units import AREA, GRAVITY, MASS

_STRIPS = 3
"""Under the cover of a stack without stickers: at both ends and in the middle (common practice, no source)."""


class Rise(NamedTuple):
    """Air under the cover above the top course at the left and at the right end of the stack, and how far a cover that
    hangs down reaches from its high end to the underside of the lowest boards (m)."""

    low: float
    high: float
    drop: float


def top_weight(stack: Stack, laid: Arrangement) -> float | None:
    """What is to lie on the top course (kg); ``None`` where no weight does."""
    said = stack.top_load
    if said is None:
        return None
    if said.weight is not None:
        return said.weight.si
    return said.pressure.si * laid.length * laid.width / GRAVITY if said.pressure is not None else None


def cover_size(stack: Stack, laid: Arrangement) -> tuple[float, float] | None:
    """Length and width (m) of the cover over the stack, seen from above; ``None`` where nothing covers it."""
    cover = stack.cover
    if cover is None or cover.kind is CoverKind.NONE:
        return None
    ends = cover.overhang_ends.si if cover.overhang_ends is not None else 0.0
    sides = cover.overhang_sides.si if cover.overhang_sides is not None else 0.0
    return laid.length + 2 * ends, laid.width + 2 * sides


def rise(built: Built) -> Rise:
    """The cover slopes along the boards and rises to the right end, as it is drawn."""
    cover, facts = built.stack.cover, built.facts
    low = cover.gap.si if cover is not None and cover.gap is not None else 0.0
    slope = cover.slope or 0.0 if cover is not None else 0.0
    over = cover.overhang_ends.si if cover is not None and cover.overhang_ends is not None else 0.0
    top = (facts.top or 0.0) - (facts.clearance or 0.0)
    high = low + slope * built.laid.length
    return Rise(low, high, top + high + slope * over)


def weights(built: Built) -> Iterator[Cut]:
    weight = top_weight(built.stack, built.laid)
    if weight:
        yield Cut("weights", None, "", show(weight, MASS, built.system), "in all, on the top course")
    elif built.stack.top_load is not None and built.stack.top_load.straps:
        lines = len(built.laid.sticker_lines)
        yield Cut("straps", lines or None, "", "", "one over each sticker line" if lines else "over the stack")


def cover(built: Built) -> Iterator[Cut]:
    size, said = cover_size(built.stack, built.laid), built.stack.cover
    if size is None or said is None:
        return
    found = rise(built)
    long, wide = size[0] * hypot(1.0, said.slope or 0.0), size[1]
    notes = [f"{slope_words(said.slope)} counted in"] if said.slope else []
    if said.hanging_down:
        long, wide = long + 2 * found.drop, wide + 2 * found.drop
        notes.append(f"{built.length(found.drop)} to hang down on each side and end counted in")
    if said.kind in (CoverKind.SHEET_METAL, CoverKind.ROOF_PANELS):
        notes.append("more where sheets lap")
    remark = "; ".join([f"{built.length(wide)} wide, {show(long * wide, AREA, built.system)}", *notes])
    part = said.kind.value if said.kind in (CoverKind.TARP, CoverKind.ROOF_PANELS) else f"cover of {said.kind.value}"
    yield Cut(part, None, built.length(long), "", remark)
    yield from _strips(built, size[1], found)
    if said.fastening is Fastening.WEIGHTED and said.weight is not None:
        yield Cut("weights on the cover", None, "", size_words(said.weight), "in all, tied so that none slides off")
    elif said.fastening is Fastening.TIED:
        down = "down to the bearers" if built.on_bearers else "round the stack"
        yield Cut("ties for the cover", None, "", "", f"rope, wire or strap, {down}")


def _strips(built: Built, wide: float, found: Rise) -> Iterator[Cut]:
    """What holds the cover off the top course."""
    if found.high <= 0:
        return
    lines = [line.x for line in built.laid.sticker_lines]
    where = "one over each sticker line, across the stack" if lines else "at both ends and in the middle"
    high = f"{built.length(found.low)} high"
    if found.high > found.low:
        slope = (found.high - found.low) / built.laid.length
        low, top = (found.low + slope * x for x in ((lines[0], lines[-1]) if lines else (0.0, built.laid.length)))
        high = f"{built.length(low)} to {built.length(top)} high"
        where += "; each higher than the one at its left"
    yield Cut("strips under the cover", len(lines) or _STRIPS, built.length(wide), high, where)


def sides(built: Built) -> Iterator[Cut]:
    """What hangs at the sides: one piece for each side and end that it closes."""
    said, facts, laid = built.stack.sides, built.facts, built.laid
    if said is None or said.kind is SideKind.OPEN or facts.top is None:
        return
    high = f"{built.length(facts.top - (facts.clearance or 0.0))} high"
    if not said.on_ends:
        number, where = (1, "for one long side") if said.on_one_side else (2, "for the long sides")
        yield Cut(said.kind.value, number, built.length(laid.length), high, where)
    if not said.on_one_side:
        yield Cut(said.kind.value, 2, built.length(laid.width), high, "for the ends")
