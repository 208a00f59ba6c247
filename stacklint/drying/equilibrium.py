"""Equilibrium moisture content: what air of a temperature and humidity holds wood at.

Wood Handbook (FPL-GTR-282, 2021) equation 4-5, read in three places; the Celsius form. Table 4-2 is computed from it.
Wood that dries from green stays a little wetter than it says, wood that takes up water a little drier: the data lie
between the two.
"""

from __future__ import annotations

from stacklint.drying.air import humidity_from_dew_point, humidity_from_wet_bulb

COLDEST, HOTTEST = -1.0, 132.0
"""The published table runs from 30 to 270 F. Colder air is taken as that of 30 F: below it the equation was fitted to
nothing, and its small terms turn."""


def equilibrium(temperature: float, humidity: float) -> float:
    """Equilibrium moisture content (share of the oven-dry mass) at a temperature (C) and relative humidity (share)."""
    t = min(max(temperature, COLDEST), HOTTEST)
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * min(max(humidity, 0.0), 1.0)
    bound = k1 * kh
    double = k1 * k2 * kh * kh
    return 18 / w * (kh / (1 - kh) + (bound + 2 * double) / (1 + bound + double))


def from_wet_bulb(dry: float, wet: float) -> float:
    """Equilibrium moisture content at a dry and a wet bulb, C."""
    return equilibrium(dry, humidity_from_wet_bulb(dry, wet))


def from_dew_point(dry: float, dew_point: float) -> float:
    """Equilibrium moisture content at a dry bulb and a dew point, C."""
    return equilibrium(dry, humidity_from_dew_point(dry, dew_point))


def humidity_for(temperature: float, moisture: float) -> float:
    """The relative humidity that holds wood at a moisture content: the inverse of :func:`equilibrium`, 0 to 1."""
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = (low + high) / 2
        if equilibrium(temperature, middle) > moisture:
            high = middle
        else:
            low = middle
    return (low + high) / 2
