"""Lengths to be measured off with a tape, and slopes to be set with one."""

from __future__ import annotations

from fractions import Fraction

from stacklint.plan.node import Quantity, Range
from stacklint.show import rounded
from stacklint.units import ONE_INCH, System, Unit

_MARKS = 16
"""To the inch, as on every tape."""
_FEET_FROM = 72
"""Inches from which on a length is told in feet and inches, as by :func:`stacklint.show.show`."""
_SAME = 1e-4
"""Metres. Nobody saws closer."""


def tape(metres: float, system: System, feet_from: int = _FEET_FROM) -> str:
    """A length to the nearest sixteenth of an inch or millimetre: *24 5/8 in*, *13 ft 4 1/8 in*, *1,235 mm*.

    ``feet_from`` is the number of inches from which on feet are told.
    """
    if system is System.METRIC:
        return f"{round(metres * 1000):,} mm"
    marks = round(metres / ONE_INCH * _MARKS)
    sign = "-" if marks < 0 else ""
    if abs(marks) < feet_from * _MARKS:
        return f"{sign}{_mixed(abs(marks))} in"
    feet, rest = divmod(abs(marks), 12 * _MARKS)
    if not rest:
        return f"{sign}{feet} ft"
    # 6 ft 3/16 in would be read as a fraction of a foot.
    return f"{sign}{feet} ft {'0 ' if rest < _MARKS else ''}{_mixed(rest)} in"


def board_length(metres: float, said: Quantity | Range, system: System) -> str:
    """The length of a board in the unit that its plan writes it in: *4 ft*, *7 ft 5 in*, *2.4 m*."""
    unit = (said.low if isinstance(said, Range) else said).unit
    if unit is Unit.FOOT:
        return tape(metres, System.INCH, feet_from=12)
    number = unit.from_si(metres)
    if unit.system is System.METRIC and abs(unit.to_si(round(number, 3)) - metres) < _SAME:
        return f"{rounded(round(number, 3), 5)} {unit.symbol}"
    return tape(metres, unit.system or system)


def slope_words(slope: float) -> str:
    """Rise over run as it is set out, one to so many: *1 in 12*."""
    return f"1 in {rounded(1 / slope, 2 if slope > 1 / 10 else 3)}"


def _mixed(marks: int) -> str:
    whole, part = divmod(marks, _MARKS)
    if not part:
        return str(whole)
    fraction = Fraction(part, _MARKS)
    return f"{whole} {fraction}" if whole else str(fraction)
