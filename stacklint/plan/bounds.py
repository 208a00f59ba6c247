"""What a quantity in a plan can be: its dimension and the range outside which it is a slip of the pen.

The bounds are wide on purpose: they refuse what cannot be (a board of 0 in, 400% moisture), not
what is unwise, which is for the rules to say.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from typing import Annotated

from pydantic import AfterValidator
from pydantic_core import PydanticCustomError

from stacklint.plan.node import Quantity, Range
from stacklint.show import rounded
from stacklint.units import (
    AREA,
    DENSITY,
    FLOW,
    LENGTH,
    MASS,
    NUMBER,
    PRESSURE,
    TEMPERATURE,
    TIME,
    VOLUME,
    WATER_RATE,
    Dimension,
    Unit,
)

_HAIR = 1e-12
"""280 % is 2.8000000000000003."""


@dataclass(frozen=True, slots=True)
class Bounds:
    """Checks that a quantity, or both ends of a range, has a dimension and lies between two SI values."""

    dimension: Dimension
    low: float
    high: float

    def __call__(self, value: Quantity | Range) -> Quantity | Range:
        ends = (value.low, value.high) if isinstance(value, Range) else (value,)
        for end in ends:
            if end.dimension != self.dimension:
                raise PydanticCustomError(
                    "wrong_dimension",
                    "{said} is {is_word}, but {needs_word} belongs here",
                    {
                        "said": _said(end.number, end.unit, 6),
                        "is_word": end.dimension.word,
                        "needs_word": self.dimension.word,
                    },
                )
            if not self.low - _HAIR <= end.si <= self.high + _HAIR:
                raise PydanticCustomError(
                    "out_of_range",
                    "{said} cannot be: it must lie between {low} and {high}",
                    {
                        "said": _said(end.number, end.unit, 6),
                        "low": _said(end.unit.from_si(self.low), end.unit, 4),
                        "high": _said(end.unit.from_si(self.high), end.unit, 4),
                        "value_si": end.si,
                        "low_si": self.low,
                        "high_si": self.high,
                        "unit_si": self.dimension.si,
                    },
                )
        if isinstance(value, Range) and value.low.si > value.high.si:
            raise PydanticCustomError("out_of_range", "the range runs backwards: write the smaller figure first")
        return value


def _said(number: float, unit: Unit, figures: int) -> str:
    """A figure without exponent, to so many significant figures. A fraction over 0 is infinite."""
    if not isfinite(number):
        return "A fraction over 0"
    return f"{rounded(number, figures)}{'' if unit is Unit.PERCENT else ' '}{unit.symbol}"


BoardThickness = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.002, 0.6))]
BoardWidth = Annotated[Quantity | Range, AfterValidator(Bounds(LENGTH, 0.01, 2.0))]
FinishedWidth = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.005, 2.0))]
BoardLength = Annotated[Quantity | Range, AfterValidator(Bounds(LENGTH, 0.1, 25.0))]
StickerThickness = Annotated[Quantity | Range, AfterValidator(Bounds(LENGTH, 0.002, 0.15))]
StickerWidth = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.005, 0.3))]
SectionSide = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.01, 1.2))]
Spacing = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.02, 25.0))]
Position = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.0, 30.0))]
StackLength = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.2, 30.0))]
StackWidth = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.1, 12.0))]
SmallLength = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.0, 5.0))]
RoomLength = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.1, 100.0))]
Distance = Annotated[Quantity, AfterValidator(Bounds(LENGTH, 0.0, 1000.0))]
MOST_LUMBER = 5000.0
"""Cubic metres in one statement."""
Volume = Annotated[Quantity, AfterValidator(Bounds(VOLUME, 1e-5, MOST_LUMBER))]
Weight = Annotated[Quantity, AfterValidator(Bounds(MASS, 0.0, 1e6))]
Pressure = Annotated[Quantity, AfterValidator(Bounds(PRESSURE, 0.0, 1e6))]
"""Of ground, floors and top loads."""
Strength = Annotated[Quantity, AfterValidator(Bounds(PRESSURE, 1e4, 1e11))]
"""Of wood: stiffness and stress."""
MoistureContent = Annotated[Quantity, AfterValidator(Bounds(NUMBER, 0.0, 2.8))]
"""Of the oven-dry mass. The lightest wood of the table is full of water at about 260%."""
Humidity = Annotated[Quantity, AfterValidator(Bounds(NUMBER, 0.01, 1.0))]
Share = Annotated[Quantity, AfterValidator(Bounds(NUMBER, 0.0, 1.0))]
OutdoorTemperature = Annotated[Quantity, AfterValidator(Bounds(TEMPERATURE, -50.0, 60.0))]
KilnTemperature = Annotated[Quantity, AfterValidator(Bounds(TEMPERATURE, -20.0, 160.0))]
AirFlow = Annotated[Quantity, AfterValidator(Bounds(FLOW, 0.0, 200.0))]
WaterRate = Annotated[Quantity, AfterValidator(Bounds(WATER_RATE, 0.0, 1.0))]
Area = Annotated[Quantity, AfterValidator(Bounds(AREA, 0.0, 5000.0))]
WoodDensity = Annotated[Quantity, AfterValidator(Bounds(DENSITY, 80.0, 1300.0))]
HoursADay = Annotated[Quantity, AfterValidator(Bounds(TIME, 0.0, 86400.0))]
Duration = Annotated[Quantity, AfterValidator(Bounds(TIME, 0.0, 400 * 86400.0))]
