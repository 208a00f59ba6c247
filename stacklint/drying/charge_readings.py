"""What readings of the moisture content teach the forecast of a charge.

As for piles (:mod:`stacklint.drying.readings`), but the law of a kiln is not linear: its air changes in steps, the safe
loss and the machine hold it back. So the readings are set against the likely curve of the charge from its start, as if
nothing had been read. A factor on the time is learnt: a charge that dries at half the pace has by the fortieth day got
to where that curve is on its twentieth. Before any reading the factor's logarithm is taken as normal about 0 with half
the distance between the logarithms of the slow and the fast time of that forecast as its standard deviation; in one
charge of twenty, which is not run as its plan says, with a much larger one. From a reading on, each factor tried
foretells the next along the curve from where it has what was read; how surely, given that meters err, is carried along
by the curve's slope. By the rule of Bayes each factor is worth the more, the better it foretold the readings. Taken are
the middle one and those that two thirds lie between, which the few odd charges do not move.

What is still to come, reckoned from the last reading in the air of its days, is stretched by the factor. Its fast and
slow ends have two parts: what is left of the doubt about the factor, and the time in which the boards lose as much as
the last reading may be wrong. A solar kiln's curve from the start has the months of its own days: its factor is true
for a charge that is a few weeks ahead or behind.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from math import ceil, exp, hypot, log, log1p
from typing import NamedTuple

from stacklint.drying import kiln_law
from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.kiln_drying import MOST_DAYS
from stacklint.drying.readings import Guess, Point, between, first_point, follow, posterior, quantile

_TRIED = tuple(0.06 * step for step in range(-50, 51))
"""Logarithms of the factors tried: from a twentieth of the pace to twenty times as fast."""
_OTHERWISE, _WIDE = 0.05, log(3)
"""The share of charges that are not run as their plan says, and the standard deviation of the factor's logarithm in
them (both common practice, no source): a kiln whose fans stand, whose door leaks or that does not get hot is further
from its forecast than boards of one wood are from one another."""
_LOW = 0.159
"""Of what is normal so much lies below one standard deviation under the mean."""
_LEAST = 0.1
"""Charges that the safe loss or a machine holds to one pace are no surer than this to keep it (common practice, no
source: fans stop, samples are not the mean of the charge)."""


class Course(NamedTuple):
    """A curve as a way that boards go faster or slower: an ``age`` is a day of it. Before its first day and where it
    stands still it goes on as straight as it does there."""

    moisture: tuple[float, ...]

    def at(self, age: float) -> float:
        if age < 0:
            return self.moisture[0] - age * self.slope(0.0)
        day = int(age)
        if day >= len(self.moisture) - 1:
            return self.moisture[-1]
        before, then = self.moisture[day], self.moisture[day + 1]
        return before + (then - before) * (age - day)

    def slope(self, age: float) -> float:
        """What is lost in a day."""
        last = len(self.moisture) - 2
        if last < 0:
            return 0.0
        day = min(max(int(age), 0), last)
        return self.moisture[day] - self.moisture[day + 1]

    def age(self, moisture: float) -> float:
        """The day on which the boards are as dry; below 0 for wetter ones than it begins with."""
        first = self.moisture[0]
        if moisture > first:
            slope = self.slope(0.0)
            return (first - moisture) / slope if slope > 0 else 0.0
        day = bisect_left(self.moisture, -moisture, key=lambda each: -each)
        if day == 0 or day == len(self.moisture):
            return float(min(day, len(self.moisture) - 1))
        before, then = self.moisture[day - 1], self.moisture[day]
        return day - 1 + (before - moisture) / (before - then)

    def passing(self, guess: Guess, before: Point, day: int) -> tuple[float, float]:
        """How moisture goes along the curve under a guess: the share of a difference that is left, and the rest."""
        then = self.age(guess.moisture)
        now = then + exp(guess.factor) * (day - before.day)
        slope = self.slope(then)
        share = min(self.slope(now) / slope, 1.0) if slope > 0 else 1.0
        return share, guess.moisture - (self.at(then) - self.at(now)) - share * guess.moisture


class Paced(NamedTuple):
    """What the readings of a batch come to: the points known, the factor on the time and by how much its logarithm may
    be wrong from the last of them on, and by how much the moisture content may then be."""

    points: tuple[Point, ...]
    factor: float
    width: float
    doubt: float

    @property
    def last(self) -> Point:
        return self.points[-1]


def learn(batch: Batch, unread: Spread, days: Mapping[int, float], *, measured: bool) -> Paced | None:
    """What readings (by their days from the start, in their order) say of a batch; ``None`` where there are none.

    ``unread`` is how it would have dried. What is said of the readings of a pile holds here too.
    """
    if not any(days):
        return None
    first = first_point(batch, days, measured=measured)
    tried = _before(_width(batch, unread))
    points, guesses = follow(first, days, tried, Course(unread.likely.moisture).passing)
    low, middle, high = (quantile(guesses, share) for share in (_LOW, 0.5, 1 - _LOW))
    return Paced(points, exp(middle), (high - low) / 2, posterior(guesses).moisture)


def _before(width: float) -> list[tuple[float, float]]:
    """Every factor tried with what it is worth before any reading."""
    return [
        (factor, log((1 - _OTHERWISE) * _normal(factor, width) + _OTHERWISE * _normal(factor, _WIDE)))
        for factor in _TRIED
    ]


def _normal(off: float, width: float) -> float:
    return exp(-0.5 * (off / width) ** 2) / width


def _width(batch: Batch, unread: Spread) -> float:
    """Of the factor's logarithm before any reading. Where an end of the forecast is not reached, that of the wood."""
    fast, slow = unread.fast.reached, unread.slow.reached
    if fast and slow:
        return max(log(slow / fast) / 2, _LEAST)
    found = kiln_law.factors(batch)
    return max(log(found.fast / found.slow) / 2, _LEAST)


def until(paced: Paced | None, unread: Spread, day: int) -> list[float]:
    """A batch's moisture on each day up to ``day``, from its first: through its readings, and from the last of them (or
    from the start) along the curve that it would have had, at its own pace."""
    course = Course(unread.likely.moisture)
    if paced is None:
        return [course.at(float(each)) for each in range(day + 1)]
    past = between(paced.points)
    begins = course.age(paced.last.moisture)
    end = paced.last.moisture - course.at(begins)
    past += [course.at(begins + paced.factor * each) + end for each in range(day - paced.last.day + 1)]
    return past


def stretched(spread: Spread, paced: Paced | None, aim: float) -> Spread:
    """What is to come of a batch, reckoned from the last reading, at the pace that its readings show."""
    if paced is None:
        return spread
    width = _doubt(spread.likely, paced)
    return Spread(*(_stretch(spread.likely, paced.factor * exp(off), aim) for off in (width, 0.0, -width)))


def _doubt(likely: Curve, paced: Paced) -> float:
    """Half the distance between the logarithms of the slow and the fast time from now on."""
    if not likely.reached:
        return paced.width
    days = likely.reached / paced.factor
    course = Course(likely.moisture)
    loss = (course.at(0.0) - course.at(min(likely.reached, 1.0))) / min(likely.reached, 1.0) * paced.factor
    return hypot(paced.width, log1p(paced.doubt / loss / days)) if loss > 0 else paced.width


def _stretch(curve: Curve, factor: float, aim: float) -> Curve:
    course = Course(curve.moisture)
    last = len(curve.moisture) - 1
    count = min(ceil(last / factor), MOST_DAYS) if curve.reached is not None else last
    found = Curve(tuple(course.at(day * factor) for day in range(count + 1)), None)
    return found._replace(reached=found.below(aim))
