"""What to cut and to fetch before a stack is built: stickers, bearers, pads, cover, weights."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stacklint.board_words import size_words
from stacklint.checked import CheckedStack
from stacklint.engineering.facts import StackFacts
from stacklint.engineering.foundation_facts import standing
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.shelter import CoverKind, Fastening, SideKind
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind
from stacklint.report.tape import tape
from stacklint.show import show
from stacklint.units import AREA, GRAVITY, LENGTH, MASS, System


class Cut(NamedTuple):
    """So many parts alike. ``number`` is ``None`` where it is one thing, or so much by area or weight."""

    part: str
    number: int | None
    length: str
    section: str
    remark: str = ""


def cut_list(checked: CheckedStack) -> tuple[Cut, ...]:
    """The parts from the ground up; none where the stack could not be laid out."""
    laid, facts = checked.arrangement, checked.facts
    if laid is None or facts is None:
        return ()
    stack = checked.stack
    return (
        *_pads(stack, laid),
        *_bearers(stack, laid, facts),
        *_stickers(stack, laid, facts.system),
        *_weights(stack, laid, facts.system),
        *_cover(stack, laid, facts.system),
        *_sides(stack, laid, facts),
    )


def _pads(stack: Stack, laid: Arrangement) -> Iterator[Cut]:
    stands, _ = standing(stack, laid)
    if laid.whole_floor or not laid.bearers or stands is None:
        return
    said = stack.bearers.pads if stack.bearers is not None else None
    sides = [size_words(side) for side in said.sides] if said is not None else []
    each = f"{stands.under_each} under each bearer"
    part = "blocks" if stands.blocks else "pads"
    yield Cut(part, stands.under_each * len(laid.bearers), "", " x ".join(sides) or "8 in x 16 in", each)


def _bearers(stack: Stack, laid: Arrangement, facts: StackFacts) -> Iterator[Cut]:
    said = stack.bearers
    if said is not None and said.kind is BearerKind.PALLETS:
        size = f"{show(laid.length, LENGTH, facts.system)} x {show(laid.width, LENGTH, facts.system)}"
        yield Cut("pallets", None, "", "", f"to carry {size}, all of one height")
        return
    if laid.whole_floor or not laid.bearers:
        return
    section = facts.bearers[0].section if facts.bearers else None
    yield Cut("bearers", len(laid.bearers), tape(laid.width, facts.system), section or "")


def _stickers(stack: Stack, laid: Arrangement, system: System) -> Iterator[Cut]:
    if not laid.sticker_lines:
        return
    each = f"{len(laid.sticker_lines)} in each of {_counted(laid.course_count, 'course')}"
    yield Cut(
        "stickers",
        laid.sticker_count,
        tape(laid.sticker_length, system),
        sticker_section(stack, laid, system),
        f"{each}{sticker_state(stack)}; all of one thickness",
    )


def sticker_section(stack: Stack, laid: Arrangement, system: System) -> str:
    """Thickness x width as the plan writes them, else as they were taken."""
    said = stack.stickers
    thick = size_words(said.thickness) if said is not None and said.thickness is not None else None
    wide = size_words(said.width) if said is not None and said.width is not None else None
    return f"{thick or tape(laid.sticker_thickness, system)} x {wide or tape(laid.sticker_width, system)}"


def sticker_state(stack: Stack) -> str:
    """*, dry, of white oak*: what the plan says the stickers are like; nothing where it says nothing."""
    said = stack.stickers
    if said is None:
        return ""
    words = [said.state.value] if said.state is not None else []
    if said.plywood:
        words.append("of plywood")
    elif said.wood is not None:
        words.append(f"of {said.wood.text}")
    if said.grooved:
        words.append("grooved")
    return "".join(f", {word}" for word in words)


def top_weight(stack: Stack, laid: Arrangement) -> float | None:
    """What is to lie on the top course (kg); ``None`` where no weight does."""
    said = stack.top_load
    if said is None:
        return None
    if said.weight is not None:
        return said.weight.si
    return said.pressure.si * laid.length * laid.width / GRAVITY if said.pressure is not None else None


def cover_size(stack: Stack, laid: Arrangement) -> tuple[float, float] | None:
    """Length and width (m) of the cover, flat; ``None`` where nothing covers the stack."""
    cover = stack.cover
    if cover is None or cover.kind is CoverKind.NONE:
        return None
    ends = cover.overhang_ends.si if cover.overhang_ends is not None else 0.0
    sides = cover.overhang_sides.si if cover.overhang_sides is not None else 0.0
    return laid.length + 2 * ends, laid.width + 2 * sides


def _weights(stack: Stack, laid: Arrangement, system: System) -> Iterator[Cut]:
    weight = top_weight(stack, laid)
    if weight:
        yield Cut("weights", None, "", show(weight, MASS, system), "in all, on the top course")
    elif stack.top_load is not None and stack.top_load.straps:
        yield Cut("straps", len(laid.sticker_lines) or None, "", "", "one over each sticker line")


def _cover(stack: Stack, laid: Arrangement, system: System) -> Iterator[Cut]:
    size, cover = cover_size(stack, laid), stack.cover
    if size is None or cover is None:
        return
    length, width = size
    area = show(length * width, AREA, system)
    words = f"{tape(width, system)} wide flat, {area}; more where sheets lap and for the slope"
    if cover.kind is CoverKind.TARP:
        words = f"{tape(width, system)} wide flat, {area}"
    part = cover.kind.value if cover.kind in (CoverKind.TARP, CoverKind.ROOF_PANELS) else f"cover of {cover.kind.value}"
    yield Cut(part, None, tape(length, system), "", words)
    if cover.fastening is Fastening.WEIGHTED and cover.weight is not None:
        yield Cut("weights on the cover", None, "", size_words(cover.weight), "in all, tied so that none slides off")
    elif cover.fastening is Fastening.TIED:
        yield Cut("ties for the cover", None, "", "", "rope, wire or strap, down to the bearers")


def _sides(stack: Stack, laid: Arrangement, facts: StackFacts) -> Iterator[Cut]:
    said = stack.sides
    if said is None or said.kind is SideKind.OPEN or facts.top is None:
        return
    around = 2 * laid.width if said.on_ends else laid.length if said.on_one_side else 2 * (laid.length + laid.width)
    height = facts.top - (facts.clearance or 0.0)
    yield Cut(
        said.kind.value, None, tape(around, facts.system), "", f"{tape(height, facts.system)} high, for the sides"
    )


def _counted(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
