"""The air day by day: the months of a climate, drawn through their middles."""

from __future__ import annotations

import datetime
from bisect import bisect
from functools import lru_cache
from typing import NamedTuple

from stacklint.drying.air import saturation_pressure
from stacklint.drying.climate import Air, Climate
from stacklint.drying.equilibrium import equilibrium

YEAR = 365
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")  # fmt: skip
_MIDDLES = (15.5, 45.0, 74.5, 105.0, 135.5, 166.0, 196.5, 227.5, 258.0, 288.5, 319.0, 349.5)
"""Days from the start of the year to the middle of each month."""
_AT_20_C = saturation_pressure(20.0)


class Day(NamedTuple):
    """A day's air, the moisture content that it holds wood at, and the pressure of water vapour in air full of it,
    relative to that at 20 C."""

    air: Air
    equilibrium: float
    vapour: float


def day_of_year(date: datetime.date) -> int:
    """0 for the first of January. The last day of a leap year counts as the one before."""
    return min(date.timetuple().tm_yday, YEAR) - 1


@lru_cache(maxsize=64)
def year(months: tuple[Air, ...]) -> tuple[Day, ...]:
    """The 365 days of a mean year: temperature and humidity run straight from mid-month to mid-month."""
    days = []
    for day in range(YEAR):
        air = _between(months, day + 0.5)
        vapour = saturation_pressure(air.temperature) / _AT_20_C
        days.append(Day(air, equilibrium(air.temperature, air.humidity), vapour))
    return tuple(days)


def on(climate: Climate, date: datetime.date) -> Day:
    return year(climate.months)[day_of_year(date)]


def _between(months: tuple[Air, ...], time: float) -> Air:
    """The air at a time of the year, days: on the straight line between the middles of the two months about it."""
    after = bisect(_MIDDLES, time) % len(_MIDDLES)
    length = (_MIDDLES[after] - _MIDDLES[after - 1]) % YEAR
    share = (time - _MIDDLES[after - 1]) % YEAR / length
    first, second = months[after - 1], months[after]
    return Air(
        first.temperature + share * (second.temperature - first.temperature),
        first.humidity + share * (second.humidity - first.humidity),
    )
