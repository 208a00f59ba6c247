"""Moist air: what its water comes to by dry bulb, relative humidity, wet bulb and dew point.

Formulas of the ASHRAE Handbook, Fundamentals, ch. 1 (memory); checked against a psychrometrics package in
``tests/against``. Temperatures in degrees Celsius, pressures in Pa, humidities as shares, humidity ratios in kg of
water to a kg of dry air.
"""

from __future__ import annotations

from collections.abc import Callable
from math import exp, inf, log

SEA_LEVEL = 101_325.0
"""Standard air pressure, Pa. Altitude changes the humidity at a given wet bulb little: 26.4% at sea level, 27.0% at
84 kPa, for 180 F and 130 F."""
_KELVIN = 273.15
_ICE = (-5.6745359e3, 6.3925247, -9.6778430e-3, 6.2215701e-7, 2.0747825e-9, -9.4840240e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)
_MASS_RATIO = 0.621945
"""Molar mass of water over that of dry air."""


def saturation_pressure(temperature: float) -> float:
    """Pressure of water vapour over water, or over ice below the triple point, Pa."""
    k = temperature + _KELVIN
    c1, c2, c3, c4, c5, c6, c7 = _WATER if temperature > 0.01 else _ICE
    return exp(c1 / k + c2 + k * (c3 + k * (c4 + k * (c5 + k * c6))) + c7 * log(k))


def humidity_ratio(temperature: float, humidity: float, pressure: float = SEA_LEVEL) -> float:
    """Water in a kg of dry air, kg; infinite where there is only steam."""
    vapour = humidity * saturation_pressure(temperature)
    return _MASS_RATIO * vapour / (pressure - vapour) if vapour < pressure else inf


def humidity_from_wet_bulb(dry: float, wet: float, pressure: float = SEA_LEVEL) -> float:
    """Relative humidity from dry and wet bulb, 0 where no air can be so dry.

    The wick must stand in moving air, about 3 m/s or more; in still air it reads too wet.
    """
    saturated = humidity_ratio(wet, 1.0, pressure)
    if saturated == inf:  # The wick boils: there is nothing but steam about it.
        return pressure / saturation_pressure(dry)
    if wet >= 0:
        ratio = ((2501 - 2.326 * wet) * saturated - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet)
    else:
        ratio = ((2830 - 0.24 * wet) * saturated - 1.006 * (dry - wet)) / (2830 + 1.86 * dry - 2.1 * wet)
    ratio = max(ratio, 0.0)
    return ratio * pressure / (_MASS_RATIO + ratio) / saturation_pressure(dry)


def humidity_from_dew_point(dry: float, dew_point: float) -> float:
    """Relative humidity from dry bulb and dew point."""
    return saturation_pressure(dew_point) / saturation_pressure(dry)


def dew_point(temperature: float, humidity: float) -> float:
    """Temperature at which the air's water begins to condense (below freezing: to frost)."""
    vapour = humidity * saturation_pressure(temperature)
    return _bisect(lambda t: saturation_pressure(t) - vapour, -100.0, temperature)


def wet_bulb(temperature: float, humidity: float, pressure: float = SEA_LEVEL) -> float:
    """Wet bulb from dry bulb and relative humidity."""
    return _bisect(lambda t: humidity_from_wet_bulb(temperature, t, pressure) - humidity, -60.0, temperature)


def _bisect(excess: Callable[[float], float], low: float, high: float) -> float:
    """Where a function that grows from ``low`` to ``high`` passes 0, to a millionth of a degree."""
    for _ in range(60):
        middle = (low + high) / 2
        if excess(middle) > 0:
            high = middle
        else:
            low = middle
        if high - low < 1e-6:
            break
    return (low + high) / 2
