"""Where sticker lines and bearers stand along a stack: from a spacing, a count or positions."""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import NamedTuple

from stacklint.faults import Fault, FaultKind, Measure
from stacklint.layout.arrangement import StickerLine
from stacklint.layout.supports import TOUCH
from stacklint.plan.node import Quantity
from stacklint.plan.supports import Bearers, Stickers
from stacklint.show import show
from stacklint.units import LENGTH, System


class Lines(NamedTuple):
    """What is to stand across a stack of ``length``: ``what`` names it, each is ``width`` wide along the stack."""

    what: str
    length: float
    width: float
    system: System


def spaced(length: float, spacing: float, from_ends: float) -> tuple[float, ...]:
    """Lines no wider apart than ``spacing``, all alike, the outer ones ``from_ends`` from the stack's ends.

    ``every 24 in`` means no wider than 24 in: a stack of 15 ft gets eight spaces of 22 1/2 in, not seven of
    24 in and one of 12 in.
    """
    inner = length - 2 * from_ends
    if inner <= TOUCH:
        return (length / 2,)
    return counted(length, max(1, math.ceil(inner / spacing - 1e-9)) + 1, from_ends)


def counted(length: float, count: int, from_ends: float) -> tuple[float, ...]:
    """``count`` lines evenly between ``from_ends`` and that far from the other end; one alone at mid length."""
    if count == 1:
        return (length / 2,)
    step = (length - 2 * from_ends) / (count - 1)
    return tuple(from_ends + step * place for place in range(count))


def lines_of(said: Stickers | Bearers, lines: Lines) -> tuple[tuple[float, ...] | None, tuple[Fault, ...]]:
    """The lines that a statement asks for, from left to right; ``None`` where it gives no spacing.

    Figures that cannot be come back as faults, and there are then no lines.
    """
    if said.at:
        return _at(said.at, lines)
    if said.every is None and said.count is None:
        return None, ()
    from_ends = lines.width / 2 if said.from_ends is None else said.from_ends.si
    if said.from_ends is not None and 2 * from_ends > lines.length + TOUCH:
        return (), (_too_far_in(said.from_ends, lines),)
    inner = lines.length - 2 * from_ends
    if said.every is not None:
        if said.every.si < lines.width - TOUCH:
            return (), (_touching(said.every, said.every.si, lines),)
        return spaced(lines.length, said.every.si, from_ends), ()
    count = said.count or 0
    if count < 1:
        return (), (_none_asked(said, lines),)
    if count > 1 and inner / (count - 1) < lines.width - TOUCH:
        return (), (_touching(said, max(0.0, inner) / (count - 1), lines),)
    return counted(lines.length, count, from_ends), ()


def over_bearers(
    lines: tuple[float, ...], sticker_width: float, bearers: tuple[float, ...], bearer_width: float
) -> tuple[StickerLine, ...]:
    """Each sticker line with the bearer that its middle stands on, or its clear distance to the nearest one.

    ``bearers`` are in their order along the stack.
    """
    return tuple(_over(x, sticker_width, bearers, bearer_width) for x in lines)


def _over(x: float, sticker_width: float, bearers: tuple[float, ...], bearer_width: float) -> StickerLine:
    following = bisect_left(bearers, x)
    beside = range(max(0, following - 1), min(len(bearers), following + 1))
    nearest = min(beside, key=lambda index: abs(bearers[index] - x))
    away = abs(bearers[nearest] - x)
    if away <= bearer_width / 2 + TOUCH:
        return StickerLine(x, nearest, 0.0)
    return StickerLine(x, None, max(0.0, away - bearer_width / 2 - sticker_width / 2))


def _at(positions: tuple[Quantity, ...], lines: Lines) -> tuple[tuple[float, ...], tuple[Fault, ...]]:
    outside = tuple(_outside(said, lines) for said in positions if said.si > lines.length + TOUCH)
    places: list[float] = []
    for x in sorted(said.si for said in positions if said.si <= lines.length + TOUCH):
        if not places or x - places[-1] > TOUCH:
            places.append(x)
    return tuple(places), outside


def _outside(said: Quantity, lines: Lines) -> Fault:
    stack = show(lines.length, LENGTH, lines.system)
    return Fault(
        FaultKind.VALUE_OUT_OF_RANGE,
        said.where,
        f"The {lines.what} at {show(said.si, LENGTH, lines.system)} lies outside the stack, which is {stack} long.",
        f"Give positions from the left end of the stack, none beyond {stack}.",
        found=Measure(said.si, LENGTH),
        limit=Measure(lines.length, LENGTH),
    )


def _too_far_in(said: Quantity, lines: Lines) -> Fault:
    half = show(lines.length / 2, LENGTH, lines.system)
    return Fault(
        FaultKind.VALUE_OUT_OF_RANGE,
        said.where,
        f"The outer {lines.what}s would stand {show(said.si, LENGTH, lines.system)} from the ends, "
        f"past the middle of the stack at {half}.",
        f"Give a distance from the ends of less than {half}.",
        found=Measure(said.si, LENGTH),
        limit=Measure(lines.length / 2, LENGTH),
    )


def _touching(said: Quantity | Stickers | Bearers, spacing: float, lines: Lines) -> Fault:
    width = show(lines.width, LENGTH, lines.system)
    return Fault(
        FaultKind.VALUE_OUT_OF_RANGE,
        said.where,
        f"At {show(spacing, LENGTH, lines.system)} apart, {lines.what}s {width} wide would lie over one another.",
        f"Space them wider than {width} from middle to middle.",
        found=Measure(spacing, LENGTH),
        limit=Measure(lines.width, LENGTH),
    )


def _none_asked(said: Stickers | Bearers, lines: Lines) -> Fault:
    return Fault(
        FaultKind.VALUE_OUT_OF_RANGE,
        said.where,
        f"The statement asks for no {lines.what} at all.",
        f"Give at least two {lines.what}s, or write none.",
    )
