"""What readings of the moisture content teach a forecast.

A forecast starts again from the last reading: what was measured stands in place of what was forecast. And the rate of
drying is learnt: before any reading the logarithm of its factor on the likely rate is taken as normal about 0 with the
standard deviation ``log(RANGE)``. Some factors are tried; under each the law says what the moisture content would be on
the day of each reading, and how surely, given the start and the readings before (a Kalman filter: the law is linear in
the moisture content). By the rule of Bayes each factor is worth the more, the better it foretold the readings. So
readings pull the forecast, the more the longer the boards have dried, and the range narrows.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from math import exp, log, sqrt
from typing import NamedTuple

from stacklint.drying.air_drying import AIR_RANGE, FAST, LIKELY, RANGE, SLOW, Setting, passage, rate
from stacklint.drying.batch import Batch
from stacklint.drying.climate import Climate
from stacklint.plan.stack import Reading

_METER = 0.015
"""Uncertainty of a moisture meter below fibre saturation, in moisture content (common practice, no source)."""
_METER_GREEN = 0.10
"""Share of the reading by which meters err in green wood (common practice, no source)."""
GREEN_DIFFERS = 0.15
"""Share by which green boards differ from the table's mean (common practice, no source)."""
_LEAST = log(1.1)
"""However many readings there are, the rate from now on is no better known: the weather to come is not that of the
mean year (common practice, no source)."""
_TRIED = tuple(3 * log(RANGE) * step / 12 for step in range(-12, 13))
"""Logarithms of the factors tried: readings teach no more than three standard deviations."""


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


class _Guess(NamedTuple):
    """A factor on the likely rate (its logarithm), the logarithm of its worth, and the moisture content under it."""

    factor: float
    worth: float
    moisture: float
    variance: float


def learn(
    batch: Batch,
    climate: Climate,
    start: datetime.date,
    readings: Sequence[tuple[datetime.date, float]],
    *,
    measured: bool,
) -> Learnt:
    """What readings (in the order of their days, none before the start) say of a batch.

    ``measured`` tells that the moisture at the start is a figure, not a word. Of the readings of one day the last
    counts. One that is wetter than meters err tells of rain and not of the rate: from it things start anew.
    """
    points = [Point(0, batch.moisture, meter(batch.moisture) if measured else GREEN_DIFFERS * batch.moisture)]
    days = {(date - start).days: moisture for date, moisture in readings}
    if 0 in days:
        points = [Point(0, days[0], meter(days[0]))]
    guesses = [_anew(_Guess(tried, -0.5 * (tried / log(RANGE)) ** 2, 0.0, 0.0), points[0]) for tried in _TRIED]
    likely = rate(batch)
    for day, moisture in days.items():
        if day == 0:
            continue
        before, point = points[-1], Point(day, moisture, meter(moisture))
        points.append(point)
        if moisture > before.moisture + before.spread + point.spread:
            guesses = [_anew(guess, point) for guess in guesses]
            continue
        again = start + datetime.timedelta(days=before.day)
        guesses = [
            _seen(guess, passage(likely * exp(guess.factor), climate, again, day - before.day), point)
            for guess in guesses
        ]
    return Learnt(tuple(points), _paces(guesses) if len(points) > 1 else (FAST, LIKELY, SLOW))


def _anew(guess: _Guess, point: Point) -> _Guess:
    return guess._replace(moisture=point.moisture, variance=point.spread**2)


def _seen(guess: _Guess, passed: tuple[float, float], point: Point) -> _Guess:
    """A guess after a reading: worth what it foretold, its moisture between what it foretold and what was read."""
    share, held = passed
    foretold, variance = share * guess.moisture + held, share**2 * guess.variance
    both = variance + point.spread**2
    off, gain = point.moisture - foretold, variance / both
    worth = guess.worth - 0.5 * (off**2 / both + log(both))
    return _Guess(guess.factor, worth, foretold + gain * off, variance * (1 - gain))


def _paces(guesses: Sequence[_Guess]) -> tuple[Setting, Setting, Setting]:
    best = max(guess.worth for guess in guesses)
    shares = [exp(guess.worth - best) for guess in guesses]
    mean = sum(share * guess.factor for share, guess in zip(shares, guesses, strict=True)) / sum(shares)
    squares = sum(share * (guess.factor - mean) ** 2 for share, guess in zip(shares, guesses, strict=True))
    width = max(sqrt(squares / sum(shares)), _LEAST)
    return (
        Setting(exp(mean + width), -AIR_RANGE),
        Setting(exp(mean), 0.0),
        Setting(exp(mean - width), AIR_RANGE),
    )


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
