"""Figures as people write them: an SI value in the units of the plan, rounded to what matters."""

from __future__ import annotations

from fractions import Fraction

from stacklint.units import (
    AREA,
    DENSITY,
    FLOW,
    LENGTH,
    MASS,
    NUMBER,
    ONE_FOOT,
    ONE_INCH,
    PRESSURE,
    SPEED,
    TEMPERATURE,
    TIME,
    VOLUME,
    WATER_RATE,
    Dimension,
    System,
    Unit,
)

_WIND = 25.0
"""Speed (m/s) from which moving air is a wind, told in miles an hour: the gust that stacks are judged by is 26 m/s;
what fans send between the courses, if only on paper, stays below."""


def show(value: float, dimension: Dimension, system: System) -> str:
    """``value``, in the SI unit of ``dimension``, with a unit of ``system``: ``1/8 in``, ``14 ft``, ``3.2 mm``."""
    if dimension == LENGTH:
        return _show_length(value, system)
    if dimension == NUMBER:
        return rounded(value)
    if dimension == TIME:
        return _show_time(value)
    unit = _unit(value, dimension, system)
    if unit is None:
        return f"{rounded(value)} {dimension.si}"
    return f"{rounded(unit.from_si(value))} {unit.symbol}"


def show_range(low: float, high: float, dimension: Dimension, system: System) -> str:
    """Two values as one range, its unit said once where both have it: ``80 to 250 days``, ``40 h to 3 days``."""
    first, last = show(low, dimension, system), show(high, dimension, system)
    number, _, unit = first.rpartition(" ")
    return f"{number if number and last.endswith(f' {unit}') else first} to {last}"


def percent(share: float) -> str:
    """A share as a whole or half percentage: ``0.125`` is ``12.5%``."""
    return f"{rounded(share * 100)}%"


def rounded(number: float, figures: int = 3) -> str:
    """``number`` to so many significant figures, without exponent, thousands parted by commas."""
    if number == 0:
        return "0"
    if abs(number) >= 10**figures:
        return f"{number:,.0f}"
    text = f"{number:.{figures}g}"
    if "e" in text and abs(number) >= 1:
        # Rounding has carried it over to one digit more: 99.98 is 100.
        return f"{number:,.0f}"
    if "e" in text:
        text = f"{number:.10f}".rstrip("0").rstrip(".")
    return text


def _show_length(metres: float, system: System) -> str:
    if system is System.METRIC:
        if abs(metres) >= 1.0:
            return f"{rounded(metres)} m"
        return f"{rounded(metres * 1000)} mm"
    inches = metres / ONE_INCH
    if abs(inches) >= 72:
        return _feet_and_inches(metres)
    return f"{_inch_figure(inches)} in"


def _feet_and_inches(metres: float) -> str:
    inches = round(metres / ONE_INCH)
    feet, rest = divmod(inches, 12)
    if not rest:
        return f"{feet} ft" if abs(metres - feet * ONE_FOOT) < ONE_INCH else f"{rounded(metres / ONE_FOOT)} ft"
    return f"{feet} ft {rest} in"


def _inch_figure(inches: float) -> str:
    """Sixteenths where the value is one, as a rule reads; decimals otherwise."""
    sixteenths = Fraction(round(inches * 16), 16)
    if abs(float(sixteenths) - inches) > 1e-6:
        return rounded(inches, 2 if abs(inches) < 1 else 3)
    whole, part = divmod(sixteenths, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def _show_time(seconds: float) -> str:
    days = seconds / Unit.DAY.to_si(1)
    if days >= 2:
        return f"{rounded(days, 2 if days < 100 else 3)} days"
    hours = seconds / 3600
    return f"{rounded(hours, 2)} h"


def _unit(value: float, dimension: Dimension, system: System) -> Unit | None:
    inch = system is System.INCH
    if dimension == PRESSURE:
        if not inch:
            return Unit.MEGAPASCAL if abs(value) >= 1e6 else Unit.KILOPASCAL
        return Unit.PSI if abs(value) >= 5e5 else Unit.PSF
    pairs = {
        AREA: (Unit.SQUARE_FOOT, Unit.SQUARE_METRE),
        VOLUME: (Unit.BOARD_FOOT, Unit.CUBIC_METRE),
        MASS: (Unit.POUND, Unit.KILOGRAM),
        TEMPERATURE: (Unit.FAHRENHEIT, Unit.CELSIUS),
        DENSITY: (Unit.POUND_PER_CUBIC_FOOT, Unit.KILOGRAM_PER_CUBIC_METRE),
        SPEED: (Unit.FEET_PER_MINUTE if abs(value) < _WIND else Unit.MILE_PER_HOUR, Unit.METRE_PER_SECOND),
        FLOW: (Unit.CFM, Unit.CUBIC_METRE_PER_HOUR),
        WATER_RATE: (Unit.PINT_PER_DAY, Unit.LITRE_PER_DAY),
    }
    pair = pairs.get(dimension)
    if pair is None:
        return None
    return pair[0] if inch else pair[1]
