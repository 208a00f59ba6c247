"""What readings of the moisture content teach a forecast.

A forecast starts again from the last reading: what was measured stands in place of what was forecast. And the rate of
drying is learnt: before any reading the logarithm of its factor on the likely rate is taken as normal about 0 with the
standard deviation ``log(RANGE)``. Some factors are tried; under each the law says what the moisture content would be on
the day of each reading, and how surely, given the start and the readings before (a Kalman filter: the law is linear in
the moisture content). By the rule of Bayes each factor is worth the more, the better it foretold the readings. So
readings pull the forecast, the more the longer the boards have dried, and the range narrows.

How a charge in a kiln learns from its readings stands in :mod:`stacklint.drying.charge_readings`; what is common to
both is here. A reading that cannot be teaches neither: :func:`sift` leaves it out and says so.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import pairwise
from math import exp, log, sqrt
from typing import NamedTuple

from stacklint.drying.air_drying import AIR_RANGE, FAST, LIKELY, RANGE, SLOW, Setting, passage, rate
from stacklint.drying.batch import Batch, Curve
from stacklint.drying.climate import Climate
from stacklint.drying.weather import YEAR, day_of_year, year
from stacklint.plan.stack import Reading
from stacklint.show import percent

_METER = 0.015
"""Uncertainty of a moisture meter below fibre saturation, in moisture content (common practice, no source)."""
_METER_GREEN = 0.10
"""Share of the reading by which meters err in green wood (common practice, no source)."""
GREEN_DIFFERS = 0.15
"""Share by which green boards differ from the table's mean (common practice, no source)."""
ERRS = 0.02
"""A reading further than this below the driest that the air could have made the boards cannot be (common practice, no
source: what a moisture meter may err; the rule reading-implausible has the same)."""
_LEAST = log(1.1)
"""However many readings there are, the rate from now on is no better known: the weather to come is not that of the
mean year (common practice, no source)."""
_TRIED = tuple((3 * log(RANGE) * step / 12, -0.5 * (3 * step / 12) ** 2) for step in range(-12, 13))
"""Logarithms of the factors tried, each with that of its worth before any reading: readings teach no more than three
standard deviations."""


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


class Guess(NamedTuple):
    """A factor on the likely rate (its logarithm), the logarithm of its worth, and the moisture content under it."""

    factor: float
    worth: float
    moisture: float
    variance: float


Passing = Callable[[Guess, Point, int], tuple[float, float]]
"""How moisture goes under a guess from a known point to a day: the share of it that is left, and what is added."""


class Sifted(NamedTuple):
    """The readings that can be, in the order of their days, and a sentence on each of the others."""

    kept: tuple[Reading, ...]
    left_out: tuple[str, ...]


def sift(
    readings: Sequence[Reading],
    batches: Sequence[Batch],
    start: datetime.date,
    held: Callable[[int], float | None],
) -> Sifted:
    """Leaves out the readings that cannot be.

    ``held`` is the driest that the air could hold wood at from the start to a day, ``None`` where it is not known.
    """
    kept, left_out = [], []
    for reading in sorted(readings, key=lambda each: each.day.date):
        day = (reading.day.date - start).days
        own = [batch for batch in batches if is_of(reading, batch, batches)]
        why = ""
        if day < 0:
            why = "it lies before the start"
        elif day > 0 and is_too_dry(reading.moisture.si, lowest(own, held(day))):
            why = "the air could not have dried the boards so far"
        if why:
            left_out.append(f"The reading of {reading.day.date}, {percent(reading.moisture.si)}, is left out: {why}.")
        else:
            kept.append(reading)
    return Sifted(tuple(kept), tuple(dict.fromkeys(left_out)))


def is_too_dry(moisture: float, driest: float | None) -> bool:
    """Whether a reading is drier than boards could have become."""
    return driest is not None and moisture < driest - ERRS


def lowest(own: Sequence[Batch], held: float | None) -> float | None:
    """The driest that boards could be: what the air could hold them at, or as dry as they came."""
    return None if held is None else min((held, *(batch.moisture for batch in own)))


def held_so_far(climate: Climate, start: datetime.date, days: int) -> float:
    """The driest that the air of so many days from the start could hold wood at."""
    airs = year(climate.months)
    first = day_of_year(start)
    return min(airs[(first + day) % YEAR].equilibrium for day in range(min(days, YEAR) + 1))


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
    likely = rate(batch)

    def passing(guess: Guess, before: Point, day: int) -> tuple[float, float]:
        again = start + datetime.timedelta(days=before.day)
        return passage(likely * exp(guess.factor), climate, again, day - before.day)

    days = {(date - start).days: moisture for date, moisture in readings}
    points, guesses = follow(first_point(batch, days, measured=measured), days, _TRIED, passing)
    return Learnt(points, _paces(guesses) if len(points) > 1 else (FAST, LIKELY, SLOW))


def first_point(batch: Batch, days: Mapping[int, float], *, measured: bool) -> Point:
    """The moisture at the start: as read on that day, else the plan's figure, else the table's for green boards."""
    if 0 in days:
        return Point(0, days[0], meter(days[0]))
    if measured:
        return Point(0, batch.moisture, meter(batch.moisture))
    # Boards only said to be green were at least as wet as they were first read to be.
    wettest = max(batch.moisture, days[min(days)]) if days else batch.moisture
    return Point(0, wettest, GREEN_DIFFERS * wettest)


def follow(
    first: Point, days: Mapping[int, float], tried: Iterable[tuple[float, float]], passing: Passing
) -> tuple[tuple[Point, ...], list[Guess]]:
    """The points known, and every factor with what it is worth after the readings (by their days from the start).

    ``tried`` are the logarithms of the factors, each with that of its worth before any reading.
    """
    points = [first]
    guesses = [_anew(Guess(factor, worth, 0.0, 0.0), first) for factor, worth in tried]
    for day, moisture in days.items():
        if day == 0:
            continue
        before, point = points[-1], Point(day, moisture, meter(moisture))
        points.append(point)
        if moisture > before.moisture + before.spread + point.spread:
            guesses = [_anew(guess, point) for guess in guesses]
        else:
            guesses = [_seen(guess, passing(guess, before, day), point) for guess in guesses]
    return tuple(points), guesses


def _anew(guess: Guess, point: Point) -> Guess:
    return guess._replace(moisture=point.moisture, variance=point.spread**2)


def _seen(guess: Guess, passed: tuple[float, float], point: Point) -> Guess:
    """A guess after a reading: worth what it foretold, its moisture between what it foretold and what was read."""
    share, held = passed
    foretold, variance = share * guess.moisture + held, share**2 * guess.variance
    both = variance + point.spread**2
    off, gain = point.moisture - foretold, variance / both
    worth = guess.worth - 0.5 * (off**2 / both + log(both))
    return Guess(guess.factor, worth, foretold + gain * off, variance * (1 - gain))


class Posterior(NamedTuple):
    """The logarithm of the factor after the readings, its standard deviation, and that of the moisture content."""

    mean: float
    width: float
    moisture: float


def posterior(guesses: Sequence[Guess]) -> Posterior:
    shares = _shares(guesses)
    mean = sum(share * guess.factor for share, guess in zip(shares, guesses, strict=True))
    squares = sum(share * (guess.factor - mean) ** 2 for share, guess in zip(shares, guesses, strict=True))
    moist = sum(share * guess.variance for share, guess in zip(shares, guesses, strict=True))
    return Posterior(mean, sqrt(squares), sqrt(moist))


def quantile(guesses: Sequence[Guess], part: float) -> float:
    """The logarithm of the factor that lies above so large a part of what may be, each guess standing for the factors
    nearest to it."""
    below = 0.0
    apart = guesses[1].factor - guesses[0].factor
    for share, guess in zip(_shares(guesses), guesses, strict=True):
        if below + share >= part:
            return guess.factor + apart * ((part - below) / share - 0.5)
        below += share
    return guesses[-1].factor


def _shares(guesses: Sequence[Guess]) -> list[float]:
    best = max(guess.worth for guess in guesses)
    shares = [exp(guess.worth - best) for guess in guesses]
    total = sum(shares)
    return [share / total for share in shares]


def _paces(guesses: Sequence[Guess]) -> tuple[Setting, Setting, Setting]:
    mean, width, _ = posterior(guesses)
    width = max(width, _LEAST)
    return (
        Setting(exp(mean + width), -AIR_RANGE),
        Setting(exp(mean), 0.0),
        Setting(exp(mean - width), AIR_RANGE),
    )


def between(points: Sequence[Point]) -> list[float]:
    """Moisture day by day along the points known, without the last of them."""
    days: list[float] = []
    for before, after in pairwise(points):
        step = (after.moisture - before.moisture) / (after.day - before.day)
        days.extend(before.moisture + step * day for day in range(after.day - before.day))
    return days


def joined(past: Sequence[float], curve: Curve, aim: float) -> Curve:
    """What is known and what is forecast from then on. Boards whose last reading is dry were so from the day after
    the last wet one; where it is wet, an earlier dry one counts for nothing."""
    if not past:
        return curve
    moisture = (*past, *curve.moisture)
    if curve.moisture[0] <= aim:
        return Curve(moisture, max((day + 1.0 for day, now in enumerate(past) if now > aim), default=0.0))
    return Curve(moisture, None if curve.reached is None else curve.reached + len(past))


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
