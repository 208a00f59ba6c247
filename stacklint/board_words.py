"""Boards and sizes in words, in the units that they were written in."""

from __future__ import annotations

from stacklint.plan.boards import Boards
from stacklint.plan.node import Quantity, Range
from stacklint.show import rounded
from stacklint.units import Unit


def describe(boards: Boards, wood: str) -> str:
    """Boards in words, in the units they were written in: ``white ash 4/4 x 6 in x 8 ft``."""
    sizes = [size_words(boards.thickness)]
    sizes.append(size_words(boards.width) if boards.width is not None else "random width")
    sizes.append(size_words(boards.length))
    return f"{wood} {' x '.join(sizes)}"


def size_words(size: Quantity | Range) -> str:
    if isinstance(size, Range):
        return f"{_figure(size.low)} to {size_words(size.high)}"
    if size.unit is Unit.QUARTER:
        return f"{size.number:g}/4"
    return f"{_figure(size)} {size.unit.symbol}"


def _figure(size: Quantity) -> str:
    if size.unit is Unit.INCH:
        sixteenths = round(size.number * 16)
        if abs(sixteenths / 16 - size.number) < 1e-9 and sixteenths % 16:
            whole, part = divmod(sixteenths, 16)
            top, bottom = part, 16
            while top % 2 == 0:
                top, bottom = top // 2, bottom // 2
            return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    return rounded(size.number, 4)
