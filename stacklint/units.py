"""Dimensions and the units that plans and rules are written in.

All scales follow from the exact definitions of the inch (0.0254 m), the pound (0.45359237 kg) and
standard gravity (9.80665 m/s2), as tabulated in NIST SP 811 Appendix B.8.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

ONE_FOOT = 0.3048
ONE_INCH = 0.0254
ONE_POUND = 0.45359237
GRAVITY = 9.80665
ONE_BOARD_FOOT = 144 * ONE_INCH**3
ONE_LITRE_OF_WATER = 1.0
ONE_PINT_OF_WATER = 0.473176473
ONE_DAY = 86400.0


@dataclass(frozen=True, slots=True)
class Dimension:
    """Exponents of metre, kilogram, second and degree Celsius."""

    length: int = 0
    mass: int = 0
    time: int = 0
    temperature: int = 0

    def __mul__(self, other: Dimension) -> Dimension:
        return Dimension(
            self.length + other.length,
            self.mass + other.mass,
            self.time + other.time,
            self.temperature + other.temperature,
        )

    def __truediv__(self, other: Dimension) -> Dimension:
        return Dimension(
            self.length - other.length,
            self.mass - other.mass,
            self.time - other.time,
            self.temperature - other.temperature,
        )

    @property
    def si(self) -> str:
        """The SI unit as JSON output writes it: ``m``, ``kg``, ``Pa`` and so on; ``1`` for a plain number."""
        return _SI_NAMES.get(self) or _spell_out(self)

    @property
    def word(self) -> str:
        """What a person calls it: ``a length``, ``a weight``."""
        return _WORDS.get(self, f"a quantity in {self.si}")


NUMBER = Dimension()
LENGTH = Dimension(length=1)
AREA = Dimension(length=2)
VOLUME = Dimension(length=3)
MASS = Dimension(mass=1)
TIME = Dimension(time=1)
TEMPERATURE = Dimension(temperature=1)
PRESSURE = Dimension(mass=1, length=-1, time=-2)
FORCE = Dimension(mass=1, length=1, time=-2)
MOMENT = Dimension(mass=1, length=2, time=-2)
DENSITY = Dimension(mass=1, length=-3)
SPEED = Dimension(length=1, time=-1)
FLOW = Dimension(length=3, time=-1)
WATER_RATE = Dimension(mass=1, time=-1)

_SI_NAMES = MappingProxyType(
    {
        NUMBER: "1",
        LENGTH: "m",
        AREA: "m2",
        VOLUME: "m3",
        MASS: "kg",
        TIME: "s",
        TEMPERATURE: "C",
        PRESSURE: "Pa",
        FORCE: "N",
        MOMENT: "N m",
        DENSITY: "kg/m3",
        SPEED: "m/s",
        FLOW: "m3/s",
        WATER_RATE: "kg/s",
    }
)
_WORDS = MappingProxyType(
    {
        NUMBER: "a plain number",
        LENGTH: "a length",
        AREA: "an area",
        VOLUME: "a volume",
        MASS: "a weight",
        TIME: "a time",
        TEMPERATURE: "a temperature",
        PRESSURE: "a pressure",
        FORCE: "a force",
        MOMENT: "a bending moment",
        DENSITY: "a density",
        SPEED: "a speed",
        FLOW: "a flow of air",
        WATER_RATE: "an amount of water in a time",
    }
)


def _spell_out(dimension: Dimension) -> str:
    parts = (
        ("m", dimension.length),
        ("kg", dimension.mass),
        ("s", dimension.time),
        ("C", dimension.temperature),
    )
    return " ".join(f"{name}{'' if power == 1 else power}" for name, power in parts if power)


class System(Enum):
    """The system of units a plan is written in."""

    INCH = "inch"
    METRIC = "metric"


@dataclass(frozen=True, slots=True)
class UnitScale:
    """One unit: ``SI value = number * scale + offset``."""

    symbol: str
    dimension: Dimension
    scale: float
    system: System | None = None
    offset: float = 0.0


class Unit(Enum):
    """The units of the plan language and the rule language, by their standard spelling.

    Everyday spellings of them belong to the language, not here.
    """

    INCH = UnitScale("in", LENGTH, ONE_INCH, System.INCH)
    FOOT = UnitScale("ft", LENGTH, ONE_FOOT, System.INCH)
    QUARTER = UnitScale("/4", LENGTH, ONE_INCH / 4, System.INCH)
    MILLIMETRE = UnitScale("mm", LENGTH, 0.001, System.METRIC)
    CENTIMETRE = UnitScale("cm", LENGTH, 0.01, System.METRIC)
    METRE = UnitScale("m", LENGTH, 1.0, System.METRIC)
    SQUARE_FOOT = UnitScale("ft2", AREA, ONE_FOOT**2, System.INCH)
    SQUARE_METRE = UnitScale("m2", AREA, 1.0, System.METRIC)
    BOARD_FOOT = UnitScale("bf", VOLUME, ONE_BOARD_FOOT, System.INCH)
    CUBIC_FOOT = UnitScale("ft3", VOLUME, ONE_FOOT**3, System.INCH)
    CUBIC_METRE = UnitScale("m3", VOLUME, 1.0, System.METRIC)
    POUND = UnitScale("lb", MASS, ONE_POUND, System.INCH)
    KILOGRAM = UnitScale("kg", MASS, 1.0, System.METRIC)
    PSF = UnitScale("psf", PRESSURE, ONE_POUND * GRAVITY / ONE_FOOT**2, System.INCH)
    PSI = UnitScale("psi", PRESSURE, ONE_POUND * GRAVITY / ONE_INCH**2, System.INCH)
    KILOPASCAL = UnitScale("kPa", PRESSURE, 1000.0, System.METRIC)
    MEGAPASCAL = UnitScale("MPa", PRESSURE, 1e6, System.METRIC)
    KILOGRAM_PER_SQUARE_METRE = UnitScale("kg/m2", PRESSURE, GRAVITY, System.METRIC)
    """A load of so many kilograms resting on a square metre: the pressure of its weight."""
    KILOGRAM_PER_CUBIC_METRE = UnitScale("kg/m3", DENSITY, 1.0, System.METRIC)
    POUND_PER_CUBIC_FOOT = UnitScale("lb/ft3", DENSITY, ONE_POUND / ONE_FOOT**3, System.INCH)
    FAHRENHEIT = UnitScale("F", TEMPERATURE, 5 / 9, System.INCH, -160 / 9)
    CELSIUS = UnitScale("C", TEMPERATURE, 1.0, System.METRIC)
    PERCENT = UnitScale("%", NUMBER, 0.01)
    CFM = UnitScale("cfm", FLOW, ONE_FOOT**3 / 60, System.INCH)
    CUBIC_METRE_PER_HOUR = UnitScale("m3/h", FLOW, 1 / 3600, System.METRIC)
    PINT_PER_DAY = UnitScale("pt/day", WATER_RATE, ONE_PINT_OF_WATER / ONE_DAY, System.INCH)
    LITRE_PER_DAY = UnitScale("L/day", WATER_RATE, ONE_LITRE_OF_WATER / ONE_DAY, System.METRIC)
    FEET_PER_MINUTE = UnitScale("fpm", SPEED, ONE_FOOT / 60, System.INCH)
    MILE_PER_HOUR = UnitScale("mph", SPEED, 0.44704, System.INCH)
    METRE_PER_SECOND = UnitScale("m/s", SPEED, 1.0, System.METRIC)
    SECOND = UnitScale("s", TIME, 1.0)
    MINUTE = UnitScale("min", TIME, 60.0)
    HOUR = UnitScale("h", TIME, 3600.0)
    DAY = UnitScale("days", TIME, ONE_DAY)

    @property
    def symbol(self) -> str:
        return self.value.symbol

    @property
    def dimension(self) -> Dimension:
        return self.value.dimension

    @property
    def system(self) -> System | None:
        return self.value.system

    def to_si(self, number: float) -> float:
        """``number`` of this unit in the SI unit of its dimension (temperatures in degrees Celsius)."""
        return number * self.value.scale + self.value.offset

    def from_si(self, value: float) -> float:
        """The inverse of :meth:`to_si`."""
        return (value - self.value.offset) / self.value.scale
