"""A stack laid anew: its courses, what they leave over, and what would fill them."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.arranging.courses import Laid, laid
from stacklint.arranging.filling import Fill, Partners, Room, partners, rooms
from stacklint.layout import Arrangement, arrange
from stacklint.layout.stacking import flue_of
from stacklint.layout.stock import system_of
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln

_DIGITS = 7
"""As the layout rounds thicknesses."""


class Arranged(NamedTuple):
    """``rooms`` are those of the stack with its ``partners`` laid. ``as_written`` is the stack as the courses of its
    plan lay it, ``None`` where it writes none."""

    laid: Laid
    partners: Partners
    rooms: tuple[Room, ...]
    as_written: Arrangement | None


def arranged(stack: Stack, kiln: Kiln | None = None) -> Arranged:
    """The boards of a stack in the courses that leave the fewest over. It must list some."""
    found = laid(stack, kiln)
    missing = partners(found.arrangement, system_of(stack.boards))
    flue = flue_of(stack, found.arrangement.gap)
    whole = arrange(with_boards(found.stack, missing.boards), kiln) if missing.boards else found.arrangement
    return Arranged(found, missing, rooms(whole, flue), arrange(stack, kiln) if stack.courses else None)


def with_boards(stack: Stack, more: tuple[Fill, ...]) -> Stack:
    """The stack with further boards, like those that it has of their thickness but for the length."""
    added = [_like(stack, fill, number) for number, fill in enumerate(more, 1)]
    return stack.model_copy(update={"boards": (*stack.boards, *added)})


def group_of(stack: Stack, thickness: float) -> Boards:
    """The first group of that thickness; there must be one."""
    return next(group for group in stack.boards if round(group.thickness.si, _DIGITS) == thickness)


def _like(stack: Stack, fill: Fill, number: int) -> Boards:
    group = group_of(stack, fill.thickness)
    written = group.length.low if isinstance(group.length, Range) else group.length
    length = Quantity(number=round(written.unit.from_si(fill.length), 9), unit=written.unit)
    update = {"label": Name(text=f"more {number}"), "count": fill.boards, "volume": None, "length": length}
    return group.model_copy(update=update)


def cannot_be_laid(stack: Stack) -> bool:
    """What a stack is laid by lacks or could not be read: its boards, its size or its stickers."""
    if not stack.boards or not {"boards", "stack", "stickers"}.isdisjoint(stack.faulty):
        return True
    return not arrange(stack.model_copy(update={"courses": ()})).courses
