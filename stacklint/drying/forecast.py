"""Forecasts: how the boards of a stack dry day by day, when they are ready, and what governs it."""

from __future__ import annotations

import datetime
from enum import Enum
from typing import NamedTuple

from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.climate import Air
from stacklint.tables.wood import Origin


class Way(Enum):
    """By what the boards dry."""

    OPEN_AIR = "open air"
    ROOM = "closed place"
    KILN = "kiln"


class Pace(Enum):
    """Which of the three curves of a spread."""

    FAST = "fast"
    LIKELY = "likely"
    SLOW = "slow"


class Step(NamedTuple):
    """What a kiln does before or after the drying: heating up, equalising, conditioning, heat treatment."""

    name: str
    low: float
    high: float
    """Seconds, at least and at most."""
    words: str


class Shorter(NamedTuple):
    """Something that would bring the day forward: in words, the likely day then, and the days saved.

    ``days`` is ``None`` where the plan's own way is not there within the days that were looked at.
    """

    words: str
    ready: datetime.date
    days: float | None


class BatchForecast(NamedTuple):
    """One batch. ``alone`` is its likely time (days) in a charge of its own, for a mixed charge in a kiln; ``unread``
    how it would have dried in its kiln had nothing been read, where something was."""

    batch: Batch
    spread: Spread
    alone: float | None = None
    unread: Spread | None = None


class Machine(NamedTuple):
    """What a kiln has to cope with, kg of water a second: the most in a day that schedule and safe daily loss would
    give, the most that the charge may lose on its first day, and what the dryer takes out in that air (``None`` where
    nothing limits it or its rating is not given)."""

    scheduled: float
    safe: float
    takes: float | None


class Forecast(NamedTuple):
    """How a stack dries from ``start``.

    ``water`` is what leaves all the boards on each day (kg, likely); ``air`` is each day's air. ``floor`` is the
    driest that the air can hold the boards at in any month. ``after`` are the kiln's steps once the boards are dry,
    ``before`` those that come first. ``governs`` says in sentences what sets the time. ``restarted`` is the day of
    the last reading that the curves start again from. ``held`` is the driest that the air of a charge with readings
    could have held wood at by each day, the last of it that of the days after.
    """

    way: Way
    start: datetime.date
    wanted: float | None
    batches: tuple[BatchForecast, ...]
    water: tuple[float, ...]
    air: tuple[Air, ...]
    floor: float
    air_words: str
    governs: tuple[str, ...]
    shorter: tuple[Shorter, ...] = ()
    before: tuple[Step, ...] = ()
    after: tuple[Step, ...] = ()
    assumed: tuple[str, ...] = ()
    origins: tuple[Origin, ...] = ()
    restarted: datetime.date | None = None
    machine: Machine | None = None
    held: tuple[float, ...] = ()

    @property
    def slowest(self) -> BatchForecast:
        """The batch that is ready last."""
        return max(self.batches, key=lambda each: _late(each.spread.likely))

    def ready(self, pace: Pace) -> datetime.date | None:
        """The day on which every batch has the wanted moisture content and the kiln's last step is done.

        ``None`` where nothing is wanted, some batch is not there within the days that were looked at, or the day is
        later than any that has a date.
        """
        days = 0.0
        for each in self.batches:
            reached = curve(each.spread, pace).reached
            if reached is None:
                return None
            days = max(days, reached)
        steps = (*self.before, *self.after)
        if pace is Pace.LIKELY:
            extra = sum((step.low + step.high) / 2 for step in steps)
        else:
            extra = sum(step.low if pace is Pace.FAST else step.high for step in steps)
        return _dated(self.start, days + extra / 86_400)

    def below(self, moisture: float, pace: Pace) -> datetime.date | None:
        """The day on which every batch is at or below a moisture content; ``None`` if not within the days looked at."""
        days = [curve(each.spread, pace).below(moisture) for each in self.batches]
        known = [day for day in days if day is not None]
        return _dated(self.start, max(known, default=0.0)) if len(known) == len(days) else None


class NoForecast(NamedTuple):
    """Why there is no forecast, and what would have to be said, as sentences. ``topic``: the keyword to say it with."""

    missing: str
    instead: str
    topic: str = "want"

    @property
    def reason(self) -> str:
        """``missing`` as a clause of its own: ``The air at site Home is not known``."""
        clause = self.missing.partition(": ")[2].removesuffix(".")
        return clause[:1].upper() + clause[1:]


def curve(spread: Spread, pace: Pace) -> Curve:
    if pace is Pace.FAST:
        return spread.fast
    return spread.likely if pace is Pace.LIKELY else spread.slow


def day_of(start: datetime.date, days: float) -> datetime.date:
    """The day that ends so many days after the morning of ``start``: on the third day it is 2 to 3 days.

    Never later than the last day that has a date.
    """
    return datetime.date.fromordinal(min(start.toordinal() + int(-(-days // 1)), datetime.date.max.toordinal()))


def _dated(start: datetime.date, days: float) -> datetime.date | None:
    """As :func:`day_of`, but ``None`` past the last day that has a date."""
    return day_of(start, days) if start.toordinal() + days <= datetime.date.max.toordinal() else None


def _late(likely: Curve) -> tuple[float, float]:
    """Later than all that get there are those that never do, the wettest at the end last."""
    if likely.reached is not None:
        return likely.reached, 0.0
    return float("inf"), likely.moisture[-1]
