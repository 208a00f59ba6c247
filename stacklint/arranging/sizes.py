"""Which length of stack the boards fill best."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from stacklint.layout import Arrangement, arrange
from stacklint.layout.supports import TOUCH
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Stack, StackSize
from stacklint.units import ONE_FOOT, ONE_INCH, System, Unit

STEP_METRIC = 0.3
"""Lumber is cut to whole feet, metric lumber to steps of 0.3 m (common practice, no source)."""


def usual_lengths(least: float, most: float, system: System) -> Iterator[float]:
    """``least`` and the whole feet (or steps of 0.3 m) above it up to ``most``, in metres."""
    step = ONE_FOOT if system is System.INCH else STEP_METRIC
    yield least
    number = math.floor(least / step + TOUCH) + 1
    while number * step <= most + TOUCH:
        yield number * step
        number += 1


def best_length(stack: Stack, lengths: Sequence[float]) -> float:
    """Of ``lengths`` (at least one) the one that leaves the fewest boards without a partner; of two alike the longer,
    which makes the lower stack."""
    if len(lengths) == 1:
        return lengths[0]
    return min(lengths, key=lambda length: (unpaired(arrange(of_size(stack, length))), -length))


def of_size(stack: Stack, length: float, width: float | None = None) -> Stack:
    """The stack without its own courses, so long, and so wide or else as wide as it says."""
    said = stack.size
    unit = said.length.unit if said is not None else _unit(stack)
    long = _in_unit(length, unit)
    if width is None:
        wide = said.width if said is not None else _in_unit(4 * ONE_FOOT, unit)
    else:
        wide = _in_unit(width, Unit.INCH if unit.system is System.INCH else Unit.MILLIMETRE)
    if said is not None:
        size = said.model_copy(update={"length": long, "width": wide})
    else:
        size = StackSize(where=stack.name.where, length=long, width=wide)
    return stack.model_copy(update={"size": size, "courses": ()})


def unpaired(arrangement: Arrangement) -> int:
    """Boards in rows that do not fill the stack's length, and boards that stand nowhere."""
    return sum(odd.count for odd in (*arrangement.unpaired, *arrangement.left_over))


def whole_inches(width: float, system: System) -> float:
    """``width`` rounded down to what a tape shows: a whole inch or a whole centimetre."""
    step = ONE_INCH if system is System.INCH else 0.01
    return math.floor(width / step + TOUCH) * step


def _in_unit(metres: float, unit: Unit) -> Quantity:
    """The length in the unit, or in another one in which it is a round figure where in this it is not."""
    for each in (unit, Unit.FOOT, Unit.METRE, Unit.INCH, Unit.MILLIMETRE):
        number = each.from_si(metres)
        if abs(number - round(number, 2)) < TOUCH:
            return Quantity(number=round(number, 2), unit=each)
    return Quantity(number=round(unit.from_si(metres), 9), unit=unit)


def _unit(stack: Stack) -> Unit:
    from stacklint.layout.stock import system_of

    return Unit.FOOT if system_of(stack.boards) is System.INCH else Unit.METRE
