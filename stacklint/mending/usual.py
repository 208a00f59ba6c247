"""Usual values, in the order in which they are tried, and how they are written in the writer's own units.

They are the sizes that yards have (common practice, no published source); whether one will do is for the rules.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from stacklint.language.written import amount
from stacklint.plan.node import Quantity, Range
from stacklint.units import ONE_INCH, System, Unit


class Usual(NamedTuple):
    """Lengths in inches and in millimetres, each from small to large."""

    inches: tuple[float, ...]
    millimetres: tuple[float, ...]


SPACINGS = Usual((12, 16, 18, 20, 24, 36), (300, 400, 500, 600, 900))
STICKER_THICKNESSES = Usual((0.75, 0.875, 1, 1.25), (20, 22, 25, 30))
STICKER_WIDTHS = Usual((1, 1.25, 1.5, 1.75, 2, 2.5, 3), (25, 30, 38, 45, 50, 60, 75))
ENDS = Usual((1, 2, 3), (25, 50, 75))
CLEARANCES = Usual(tuple(range(4, 37)), tuple(range(100, 925, 25)))
SECTIONS = Usual((2, 3, 4, 6, 8, 10, 12), (50, 75, 100, 150, 200, 250, 300))
OVERHANGS = Usual(
    (*range(2, 13), 14, 16, 18, 20, 22, 24, 28, 32, 36, 42, 48),
    (50, 75, 100, 125, 150, 175, 200, 225, 250, 275, 300, 350, 400, 450, 500, 600, 700, 800, 900, 1000, 1200),
)
COVER_GAPS = Usual((2, 3, 4, 6), (50, 75, 100, 150))
BOARD_GAPS = Usual((0.25, 0.375, 0.5, 0.75, 1), (6, 10, 12, 20, 25))
PILE_GAPS = Usual((24, 30, 36, 48), (600, 750, 900, 1200))
FLUES = Usual((6, 8, 12), (150, 200, 300))
FINISHED = Usual(tuple(step / 16 for step in range(2, 192)), tuple(range(3, 300)))


def system_of(value: Quantity | Range | None, otherwise: System) -> System:
    unit = _unit(value)
    return otherwise if unit is None or unit.system is None else unit.system


def written(base: float, like: Quantity | Range | None, otherwise: System) -> str:
    """``base``, in inches or in millimetres, as a length in the unit of ``like`` where that shows it well."""
    system = system_of(like, otherwise)
    unit = _unit(like)
    if system is System.INCH:
        if unit is Unit.FOOT and base % 12 == 0:
            return _amount(base / 12, Unit.FOOT)
        if unit is Unit.QUARTER and base * 4 == int(base * 4) and base * 4 >= 3:
            return _amount(base * 4, Unit.QUARTER)
        return _amount(base, Unit.INCH)
    if unit is Unit.METRE:
        return _amount(round(base / 1000, 4), Unit.METRE)
    if unit is Unit.CENTIMETRE:
        return _amount(round(base / 10, 3), Unit.CENTIMETRE)
    return _amount(base, Unit.MILLIMETRE)


def larger(usual: Usual, value: Quantity | None, otherwise: System) -> tuple[str, ...]:
    """The usual values above ``value``, the least first; all where there is none."""
    values, si = _values(usual, value, otherwise)
    return tuple(written(base, value, otherwise) for base in values if value is None or base * si > value.si + 1e-6)


def smaller(usual: Usual, value: Quantity | None, otherwise: System) -> tuple[str, ...]:
    """The usual values below ``value``, the largest first; all where there is none."""
    values, si = _values(usual, value, otherwise)
    return tuple(
        written(base, value, otherwise) for base in reversed(values) if value is None or base * si < value.si - 1e-6
    )


def length(metres: float, like: Quantity | Range | None, otherwise: System, *, up: bool | None = None) -> str:
    """Any length in the writer's unit, to a quarter of an inch or 5 mm: up, down or to the nearest."""
    system = system_of(like, otherwise)
    step = ONE_INCH / 4 if system is System.INCH else 0.005
    whole = _steps(metres / step, up)
    base = whole / 4 if system is System.INCH else whole * 5
    return written(base, like, otherwise)


def size(metres: float, like: Quantity, otherwise: System, *, up: bool | None = None) -> str:
    """The length or the width of a stack: as :func:`length`, but in feet and inches where the writer has inches."""
    if system_of(like, otherwise) is not System.INCH:
        return length(metres, like, otherwise, up=up)
    feet, inches = divmod(_steps(metres / (ONE_INCH / 4), up) / 4, 12)
    return " ".join(_amount(number, unit) for number, unit in ((feet, Unit.FOOT), (inches, Unit.INCH)) if number)


def _steps(steps: float, up: bool | None) -> int:
    if up is None:
        return round(steps)
    return math.ceil(steps - 1e-6) if up else math.floor(steps + 1e-6)


def _values(usual: Usual, value: Quantity | None, otherwise: System) -> tuple[tuple[float, ...], float]:
    if system_of(value, otherwise) is System.INCH:
        return usual.inches, ONE_INCH
    return usual.millimetres, 0.001


def _unit(value: Quantity | Range | None) -> Unit | None:
    if value is None:
        return None
    return value.unit if isinstance(value, Quantity) else value.high.unit


def _amount(number: float, unit: Unit) -> str:
    return amount(Quantity(number=number, unit=unit))


Tried = Callable[[Usual, Quantity | None, System], tuple[str, ...]]
"""Which way along usual values: :func:`larger` or :func:`smaller`."""
