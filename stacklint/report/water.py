"""The water that leaves the boards, in the measures that people carry it away in."""

from __future__ import annotations

import datetime
from typing import NamedTuple

from stacklint.drying.forecast import Forecast, day_of
from stacklint.show import rounded, show
from stacklint.units import MASS, ONE_LITRE_OF_WATER, ONE_PINT_OF_WATER, System


class WetDay(NamedTuple):
    """A day, and the water (kg) that leaves the boards on it."""

    day: datetime.date
    water: float


def taken_out(forecast: Forecast) -> float:
    """All the water (kg) from the start to the wanted moisture content; as far as followed, where none is wanted."""
    if forecast.wanted is None:
        return sum(forecast.water)
    return sum(
        each.batch.dry_mass * max(each.spread.likely.moisture[0] - forecast.wanted, 0.0) for each in forecast.batches
    )


def most_water(forecast: Forecast) -> WetDay | None:
    """The likely day of most water."""
    if not forecast.water:
        return None
    index = max(range(len(forecast.water)), key=forecast.water.__getitem__)
    return WetDay(day_of(forecast.start, index), forecast.water[index])


def weight_and_measure(water: float, system: System) -> str:
    """*44 lb (42 pints)*, *20 kg (20 litres)*: US liquid pints, as buckets and machines are rated."""
    if system is System.INCH:
        return f"{show(water, MASS, system)} ({rounded(water / ONE_PINT_OF_WATER, 2)} pints)"
    return f"{show(water, MASS, system)} ({rounded(water / ONE_LITRE_OF_WATER, 2)} litres)"
