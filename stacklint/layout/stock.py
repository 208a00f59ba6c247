"""The boards of a stack as lots: so many pieces of one group, all of one length.

A group given by volume becomes a count; a range of lengths becomes several lots. What had to be
assumed for that is said.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from stacklint.faults import Assumption
from stacklint.plan.boards import Boards
from stacklint.plan.node import Quantity, Range
from stacklint.show import rounded, show
from stacklint.units import LENGTH, ONE_FOOT, ONE_INCH, System
from stacklint.where import Where

MEAN_WIDTH_INCH = 7 * ONE_INCH
"""Mean width taken for random widths in plans written in inches (common practice, no source)."""

MEAN_WIDTH_METRIC = 0.180
"""The same for metric plans (common practice, no source)."""

STEP_INCH = ONE_FOOT
STEP_METRIC = 0.3
"""Lumber is cut to whole feet, metric lumber to steps of 0.3 m (common practice, no source)."""

_NEAR = 1e-6
_DIGITS = 7


@dataclass(frozen=True, slots=True, eq=False)
class Lot:
    """``count`` boards alike. ``width_low`` is the narrowest a board can be; 0 where nothing is said of it.

    Two lots are never equal, even if they say the same. Sizes are rounded to a ten-thousandth of a
    millimetre, so that 5/4 and 1 1/4 in are one thickness.
    """

    label: str
    where: Where
    thickness: float
    width: float
    width_low: float
    length: float
    count: int


def system_of(boards: tuple[Boards, ...]) -> System:
    """The system of units that the first board group is written in."""
    for group in boards:
        length = group.length.low if isinstance(group.length, Range) else group.length
        return length.unit.system or System.INCH
    return System.INCH


def lots_of(group: Boards) -> tuple[tuple[Lot, ...], tuple[Assumption, ...]]:
    """The lots of one ``boards`` statement, and what was assumed to get them.

    A range of lengths is taken as spread evenly over its two ends and the whole feet (or steps of
    0.3 m) between them. A volume is divided by the volume of the mean board and rounded to whole
    boards, at least one. Board feet are the trade's, which count boards under 1 in as 1 in.
    """
    system = system_of((group,))
    thickness = round(group.thickness.si, _DIGITS)
    width, width_low = _width(group.width, system)
    lengths = _lengths(group.length, system)
    mean_length = sum(lengths) / len(lengths)
    count = group.count
    if count is None:
        volume = group.wood_volume or 0.0
        count = max(1, math.floor(volume / (thickness * width * mean_length) + 0.5))
    lots = tuple(
        Lot(group.label.text, group.where, thickness, round(width, _DIGITS), width_low, round(length, _DIGITS), share)
        for length, share in _spread(lengths, count)
    )
    if group.width is not None and group.count is not None and len(lengths) == 1:
        return lots, ()
    return lots, (Assumption(group.where, _assumed(group, count, width, lengths, system), "boards"),)


def pieces_of(group: Boards) -> int:
    """The boards of a group, reckoned from its volume where no count is given."""
    return sum(lot.count for lot in lots_of(group)[0])


def volume_of(group: Boards) -> float:
    """The volume (m3) of a group's whole boards."""
    return sum(lot.count * lot.thickness * lot.width * lot.length for lot in lots_of(group)[0])


def _width(width: Quantity | Range | None, system: System) -> tuple[float, float]:
    """Mean and least width."""
    if width is None:
        return (MEAN_WIDTH_INCH if system is System.INCH else MEAN_WIDTH_METRIC), 0.0
    if isinstance(width, Range):
        return width.middle_si, width.low.si
    said = width.si
    return said, said


def _lengths(length: Quantity | Range, system: System) -> tuple[float, ...]:
    if not isinstance(length, Range):
        return (length.si,)
    low, high = length.low.si, length.high.si
    if high - low < _NEAR:
        return (low,)
    if system is System.INCH:
        first, last = math.floor(low / STEP_INCH + _NEAR) + 1, math.ceil(high / STEP_INCH - _NEAR) - 1
        between = [feet * STEP_INCH for feet in range(first, last + 1)]
    else:
        between = [low + step * STEP_METRIC for step in range(1, math.ceil((high - low) / STEP_METRIC - _NEAR))]
    return (low, *between, high)


def _spread(lengths: tuple[float, ...], count: int) -> list[tuple[float, int]]:
    """``count`` boards as evenly over the lengths as whole boards allow."""
    kinds = len(lengths)
    shares = ((place + 1) * count // kinds - place * count // kinds for place in range(kinds))
    return [(length, share) for length, share in zip(lengths, shares, strict=True) if share]


def _assumed(group: Boards, count: int, width: float, lengths: tuple[float, ...], system: System) -> str:
    label = group.label.text
    wide = show(width, LENGTH, system)
    parts = []
    if group.volume is not None:
        volume = f"{rounded(group.volume.number)} {group.volume.unit.symbol}"
        boards = "1 board" if count == 1 else f"{count:,} boards"
        parts.append(f"are taken as about {boards}, from {volume} at a mean width of {wide}")
    elif group.width is None:
        parts.append(f"are taken at a mean width of {wide}")
    if len(lengths) > 1:
        low, high = show(lengths[0], LENGTH, system), show(lengths[-1], LENGTH, system)
        parts.append(f"are taken as spread evenly over the lengths from {low} to {high}")
    return f"Boards {label} {' and '.join(parts)}."
