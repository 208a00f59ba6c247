"""Lengths to be measured off with a tape."""

from __future__ import annotations

from fractions import Fraction

from stacklint.units import ONE_INCH, System

_MARKS = 16
"""To the inch, as on every tape."""
_FEET_FROM = 72
"""Inches from which on a length is told in feet and inches, as by :func:`stacklint.show.show`."""


def tape(metres: float, system: System) -> str:
    """A length to the nearest sixteenth of an inch or millimetre: *24 5/8 in*, *13 ft 4 1/8 in*, *1,235 mm*."""
    if system is System.METRIC:
        return f"{round(metres * 1000):,} mm"
    marks = round(metres / ONE_INCH * _MARKS)
    sign = "-" if marks < 0 else ""
    if abs(marks) < _FEET_FROM * _MARKS:
        return f"{sign}{_mixed(abs(marks))} in"
    feet, rest = divmod(abs(marks), 12 * _MARKS)
    return f"{sign}{feet} ft {_mixed(rest)} in" if rest else f"{sign}{feet} ft"


def _mixed(marks: int) -> str:
    whole, part = divmod(marks, _MARKS)
    if not part:
        return str(whole)
    fraction = Fraction(part, _MARKS)
    return f"{whole} {fraction}" if whole else str(fraction)
