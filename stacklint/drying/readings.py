"""What readings of the moisture content teach a forecast.

A forecast starts again from the last reading: what was measured stands in place of what was forecast. And the rate of
drying is learnt: before any reading the logarithm of its factor on the likely rate is taken as normal about 0 with the
standard deviation ``log(RANGE)``. Each reading gives the factor that would have brought the boards from the point
before to it, with the uncertainty that the meter's leaves; the two are weighed by their variances (the rule of Bayes
for a normal mean). So a reading pulls the forecast, the more the longer the boards have dried, and the range narrows.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from math import exp, log, sqrt
from typing import NamedTuple

from stacklint.drying.air_drying import AIR_RANGE, RANGE, Setting, after_days, rate
from stacklint.drying.batch import Batch
from stacklint.drying.climate import Climate
from stacklint.plan.stack import Reading

_METER = 0.015
"""Uncertainty of a moisture meter below fibre saturation, in moisture content (common practice, no source)."""
_METER_GREEN = 0.10
"""Share of the reading by which meters err in green wood (common practice, no source)."""
GREEN_DIFFERS = 0.15
"""Share by which green boards differ from the table's mean (common practice, no source)."""
_MOST = 10.0
"""Readings that would need a rate so many times the likely one, or so small a part of it, teach no more than that."""

_CLOSE = 0.001
"""Moisture content to which the factor is sought: a fifteenth of what a meter can tell."""
_TRIES = 24


class Point(NamedTuple):
    """A known moisture content: days from the start, the moisture, and its uncertainty."""

    day: int
    moisture: float
    spread: float


class Learnt(NamedTuple):
    """What the readings of a batch come to: the points known, and the three paces from the last of them on."""

    points: tuple[Point, ...]
    paces: tuple[Setting, Setting, Setting]

    @property
    def last(self) -> Point:
        return self.points[-1]


def learn(
    batch: Batch,
    climate: Climate,
    start: datetime.date,
    readings: Sequence[tuple[datetime.date, float]],
    *,
    measured: bool,
) -> Learnt:
    """What readings (in the order of their days, none before the start) say of a batch.

    ``measured`` tells that the moisture at the start is a figure, not a word.
    """
    first = meter(batch.moisture) if measured else GREEN_DIFFERS * batch.moisture
    points = [Point(0, batch.moisture, first)]
    mean, variance = 0.0, log(RANGE) ** 2
    for date, moisture in readings:
        point = Point((date - start).days, moisture, meter(moisture))
        if point.day == points[-1].day:
            points[-1] = point
            continue
        seen = _factor(batch, climate, start, points[-1], point)
        points.append(point)
        if seen is None:
            continue
        factor, uncertainty = seen
        weight = variance / (variance + uncertainty)
        mean += weight * (log(factor) - mean)
        variance *= 1 - weight
    width = sqrt(variance)
    paces = (
        Setting(exp(mean + width), -AIR_RANGE),
        Setting(exp(mean), 0.0),
        Setting(exp(mean - width), AIR_RANGE),
    )
    return Learnt(tuple(points), paces)


def is_of(reading: Reading, batch: Batch, batches: Sequence[Batch]) -> bool:
    """Whether a reading is of a batch: of the boards that it names, else of those that were as wet at the start.

    Where none were, it is of all: it is then for others to say that it cannot be.
    """
    if reading.label is not None:
        return reading.label.text == batch.label
    least = reading.moisture.si - meter(reading.moisture.si)
    return batch.moisture >= least or all(each.moisture < least for each in batches)


def meter(moisture: float) -> float:
    """Uncertainty of a reading, in moisture content."""
    return max(_METER, _METER_GREEN * moisture)


def _factor(
    batch: Batch, climate: Climate, start: datetime.date, before: Point, after: Point
) -> tuple[float, float] | None:
    """The factor on the likely rate that leads from one point to the next, and the variance of its logarithm.

    ``None`` where no rate makes a difference: the boards were as dry as the air lets them be.
    """
    from_day = start + datetime.timedelta(days=before.day)
    days = after.day - before.day
    likely = rate(batch)

    def end(factor: float, moisture: float = before.moisture) -> float:
        return after_days(moisture, likely * factor, climate, from_day, days)

    low, high = 1 / _MOST, _MOST
    wettest, driest = end(low), end(high)
    if wettest - driest < _METER:
        return None
    wanted = min(max(after.moisture, driest), wettest)
    factor = 1.0
    for _ in range(_TRIES):
        got = end(factor)
        if abs(got - wanted) < _CLOSE:
            break
        low, high = (factor, high) if got > wanted else (low, factor)
        factor = sqrt(low * high)
    by_factor = (end(factor) - end(factor * 1.05)) / log(1.05)
    by_start = (end(factor, before.moisture + 0.01) - end(factor)) / 0.01
    if by_factor <= 1e-6:
        return None
    return factor, (after.spread**2 + (by_start * before.spread) ** 2) / by_factor**2
