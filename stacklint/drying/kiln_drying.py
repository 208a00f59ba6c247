"""How a charge dries in a kiln, day by day."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from itertools import accumulate
from math import inf
from typing import NamedTuple

from stacklint.drying import kiln_law, kiln_words
from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.climate import Air
from stacklint.drying.forecast import day_of
from stacklint.drying.kiln_law import Goer, after, days_to
from stacklint.drying.kiln_run import KilnRun, Running, Stage, running
from stacklint.tables.safe_rates import UNTIL
from stacklint.tables.wood import Origin
from stacklint.units import ONE_DAY

WANTED = 0.08
"""Where no moisture content is wanted: what lumber for use indoors is dried to, Wood Handbook ch. 13 (6 to 8%)."""
MACHINE_RANGE = 1.25
"""How much more or less a dehumidifier or collector may take out than reckoned (assumed): labels of two kinds, fans,
leaks, clouds."""
_SHORTEST = 1 / 96
"""A quarter of an hour: the shortest time between two changes of the air."""
_STANDS_STILL = 1e-5
"""Boards that lose less than this in a day, a thousandth of a point, are taken to stay as they are."""
MOST_DAYS = 365
"""How far ahead a run is followed. One in which nothing dries any more stays as it is until then."""
_NEAR = 0.002


class KilnDrying(NamedTuple):
    """A charge in a kiln.

    ``spreads`` has one for each batch; curves end on the day that the last batch is there, each pace on its own.
    ``alone`` is each batch's likely time (days) in a charge of its own. ``water`` (kg) and ``air`` are those of each
    likely day. ``floor`` is the driest that the kiln's air can hold the boards. ``governs`` and ``assumed`` are
    sentences.

    ``peak_wanted`` is the most water, as a mean over a day (kg/s), that schedule and safe loss would give, ``taken``
    what the machine takes out in the air of that day, ``None`` where nothing limits it; ``peak_safe`` is the safe
    loss of all the boards on the first day, where no safe loss is known what the schedule gives.
    """

    spreads: tuple[Spread, ...]
    alone: tuple[float | None, ...]
    water: tuple[float, ...]
    air: tuple[Air, ...]
    floor: float
    governs: tuple[str, ...]
    assumed: tuple[str, ...]
    origins: tuple[Origin, ...]
    peak_wanted: float
    peak_safe: float
    taken: float | None


class Days(NamedTuple):
    """One run at one pace: each batch's curve, and for each day the water that left (kg), the water that would have
    left had the machine kept up, and the stage that the day began in."""

    curves: tuple[Curve, ...]
    water: tuple[float, ...]
    free: tuple[float, ...]
    stages: tuple[Stage, ...]
    held: tuple[tuple[bool, ...], ...]
    """For each day, which batches the safe loss held."""
    stands: int | None
    """The day from which on nothing dries any more."""


class Onward(NamedTuple):
    """That a charge has dried for a while: how it is run since its start, the factor on the time that its readings
    show, and whether all its batches were read: then the likely curve stands for the fast and the slow one too, which
    the readings make of it."""

    how: Running
    factor: float
    all_read: bool


def dry(
    batches: Sequence[Batch],
    run: KilnRun,
    wanted: float | None,
    start: datetime.date,
    most_days: int = MOST_DAYS,
    onward: Onward | None = None,
) -> KilnDrying:
    """How batches dry together from ``start`` in a kiln to a moisture content, or for ``most_days``.

    ``onward`` is for a charge that goes on from its readings: ``alone`` is then not looked for.

    Raises:
        ValueError: for no batches, or for a solar kiln without its outdoor air.
    """
    target = WANTED if wanted is None else wanted
    how = _running(batches, run, target) if onward is None else onward.how
    factors = [kiln_law.factors(batch) for batch in batches]
    if onward is not None and onward.all_read:
        fast = likely = slow = _likely(batches, how, target, start, most_days)
    else:
        fast, likely, slow = _three(batches, how, target, start, most_days)
    alone: tuple[float | None, ...] = (None,) * len(batches)
    if onward is None:
        alone = _alone(batches, run, likely.curves, target, start, most_days)
    peak = max(range(len(likely.free)), key=likely.free.__getitem__, default=None)
    limit = likely.stages[peak].limit if peak is not None else inf
    words = kiln_words.Told(batches, how, wanted, run, onward.factor if onward is not None else None)
    paced = kiln_words.Paced(likely.held, _short(likely), likely.stages, likely.stands)
    return KilnDrying(
        spreads=tuple(Spread(*curves) for curves in zip(fast.curves, likely.curves, slow.curves, strict=True)),
        alone=alone,
        water=likely.water,
        air=tuple(stage.condition.air for stage in likely.stages),
        floor=_floor(batches, how),
        governs=kiln_words.governs(words, paced),
        assumed=kiln_words.assumed(words),
        origins=kiln_words.origins(words),
        peak_wanted=likely.free[peak] / ONE_DAY if peak is not None else 0.0,
        peak_safe=_safe_water(batches, how, start, factors) / ONE_DAY,
        taken=limit * how.share / ONE_DAY if limit < inf else None,
    )


class Unread(NamedTuple):
    """How a charge would have dried had nothing been read: spreads that are followed down to the lowest reading,
    ``alone`` as in :class:`KilnDrying`, and how it is run. ``held`` is the driest that its air would have held wood at
    by each day at the fast pace, the last of it that of the days after."""

    spreads: tuple[Spread, ...]
    alone: tuple[float | None, ...]
    how: Running
    held: tuple[float, ...]

    def held_by(self, day: int) -> float:
        return self.held[min(day, len(self.held) - 1)]


def unread(batches: Sequence[Batch], run: KilnRun, target: float, start: datetime.date, lowest_read: float) -> Unread:
    """What readings are set against; ``lowest_read`` is the lowest of them.

    Raises:
        ValueError: for no batches, or for a solar kiln without its outdoor air.
    """
    how = _running(batches, run, target)
    floor = _floor(batches, how)
    follow_to = target if lowest_read >= target else min(max(lowest_read, floor + _NEAR), target)
    days = _three(batches, how, follow_to, start, MOST_DAYS)
    curves = [[curve._replace(reached=curve.below(target)) for curve in each.curves] for each in days]
    spreads = tuple(Spread(*three) for three in zip(*curves, strict=True))
    alone = _alone(batches, run, [spread.likely for spread in spreads], target, start, MOST_DAYS)
    held = accumulate((stage.condition.emc for stage in days[0].stages), min)
    return Unread(spreads, alone, how, (*held, floor))


def air_of_days(how: Running, start: datetime.date, wettest: Sequence[float]) -> tuple[Air, ...]:
    """The kiln's air on each day, by the moisture content of the wettest boards on it."""
    return tuple(
        _stage(how.months[day_of(start, day).month - 1], moisture).condition.air for day, moisture in enumerate(wettest)
    )


def _running(batches: Sequence[Batch], run: KilnRun, target: float) -> Running:
    if not batches:
        raise ValueError("a charge needs boards")
    return running(batches, run, target)


def _three(
    batches: Sequence[Batch], how: Running, target: float, start: datetime.date, most_days: int
) -> tuple[Days, Days, Days]:
    """A charge at the fast, the likely and the slow pace."""
    factors = [kiln_law.factors(batch) for batch in batches]
    return (
        _go(batches, [each.fast for each in factors], MACHINE_RANGE, how, target, start, most_days),
        _likely(batches, how, target, start, most_days),
        _go(batches, [each.slow for each in factors], 1 / MACHINE_RANGE, how, target, start, most_days),
    )


def _likely(batches: Sequence[Batch], how: Running, target: float, start: datetime.date, most_days: int) -> Days:
    factors = [kiln_law.factors(batch).likely for batch in batches]
    return _go(batches, factors, 1.0, how, target, start, most_days)


def _alone(
    batches: Sequence[Batch],
    run: KilnRun,
    together: Sequence[Curve],
    target: float,
    start: datetime.date,
    most_days: int,
) -> tuple[float | None, ...]:
    if len(batches) == 1:
        return (together[0].reached,)
    times = []
    for batch in batches:
        how = running([batch], run, target)
        times.append(_likely([batch], how, target, start, most_days).curves[0].reached)
    return tuple(times)


def _go(
    batches: Sequence[Batch],
    factors: Sequence[float],
    machine: float,
    how: Running,
    wanted: float,
    start: datetime.date,
    most_days: int,
) -> Days:
    """Exact in the air of each stage, which holds until the wettest batch comes down to the next. A machine that
    cannot keep up slows all boards alike."""
    goers = [kiln_law.goer(batch, factor) for batch, factor in zip(batches, factors, strict=True)]
    now = [batch.moisture for batch in batches]
    curves = [[moisture] for moisture in now]
    water: list[float] = []
    free: list[float] = []
    stages: list[Stage] = []
    held: list[tuple[bool, ...]] = []
    by_month = how.months
    turning = any(each is not by_month[0] for each in by_month)
    stands = None
    for day in range(most_days):
        if max(now) <= wanted:
            break
        month = day_of(start, day).month - 1 if turning else 0
        stage = _stage(by_month[month], max(now))
        stages.append(stage)
        held.append(tuple(_is_held(goer, moisture, stage) for goer, moisture in zip(goers, now, strict=True)))
        now, left, could = _day(goers, now, by_month[month], machine, how.share)
        water.append(left)
        free.append(could)
        for curve, moisture in zip(curves, now, strict=True):
            curve.append(moisture)
        if not turning and all(curve[-2] - curve[-1] < _STANDS_STILL for curve in curves):
            stands, rest = day, most_days - day - 1
            for curve in curves:
                curve += [curve[-1]] * rest
            water += [0.0] * rest
            free += [0.0] * rest
            stages += [stage] * rest
            held += [held[-1]] * rest
            break
    ended = tuple(Curve(tuple(curve), _reached(curve, wanted)) for curve in curves)
    return Days(ended, tuple(water), tuple(free), tuple(stages), tuple(held), stands)


def _day(
    goers: Sequence[Goer], now: list[float], stages: tuple[Stage, ...], machine: float, share: float
) -> tuple[list[float], float, float]:
    """Moisture contents after a day, the water that left (kg), and what would have left had the machine kept up."""
    left = could = 0.0
    while share > 0:
        wettest = max(now)
        condition, limit = _stage(stages, wettest)
        _, emc, pull, until = condition
        time = share
        then = [after(m, emc, g.speed * pull, g.safe, time) for g, m in zip(goers, now, strict=True)]
        if max(then) < until:
            waits = (days_to(m, until, emc, g.speed * pull, g.safe) for g, m in zip(goers, now, strict=True))
            time = min(max(max(waits), _SHORTEST), share)
            then = [after(m, emc, g.speed * pull, g.safe, time) for g, m in zip(goers, now, strict=True)]
        lost = sum(g.mass * (before - m) for g, before, m in zip(goers, now, then, strict=True))
        could += lost
        most = limit * machine * time
        if lost > most:
            part = most / lost
            then = [before - (before - m) * part for before, m in zip(now, then, strict=True)]
            lost = most
        left += lost
        now = then
        share -= time
    return now, left, could


def _stage(stages: tuple[Stage, ...], wettest: float) -> Stage:
    for stage in stages:
        if wettest > stage.condition.until + 1e-12:
            return stage
    return stages[-1]


def _is_held(goer: Goer, moisture: float, stage: Stage) -> bool:
    """Whether the safe loss, and not the air, sets how fast a batch dries."""
    if goer.safe == inf or moisture <= UNTIL:
        return False
    pace = goer.speed * stage.condition.pull * (kiln_law.SLOWING if moisture <= kiln_law.DRY else 1.0)
    return pace * (moisture - stage.condition.emc) > goer.safe


def _reached(curve: Sequence[float], wanted: float) -> float | None:
    return Curve(tuple(curve), None).below(wanted)


def _short(days: Days) -> tuple[bool, ...]:
    """For each day, whether the machine could not keep up."""
    return tuple(left < could * (1 - 1e-9) for left, could in zip(days.water, days.free, strict=True))


def _floor(batches: Sequence[Batch], how: Running) -> float:
    """The driest that any stage still to come holds wood."""
    wettest = max(batch.moisture for batch in batches)
    return min(stage.condition.emc for stages in how.months for stage in stages if stage.condition.until < wettest)


def _safe_water(
    batches: Sequence[Batch], how: Running, start: datetime.date, factors: Sequence[kiln_law.Factors]
) -> float:
    """Water (kg) of the first day at each batch's safe loss."""
    stage = _stage(how.months[start.month - 1], max(batch.moisture for batch in batches))
    emc, pull = stage.condition.emc, stage.condition.pull
    total = 0.0
    for batch, each in zip(batches, factors, strict=True):
        goer = kiln_law.goer(batch, each.likely)
        if goer.safe < inf:
            total += goer.safe * goer.mass
        else:
            total += goer.mass * (batch.moisture - after(batch.moisture, emc, goer.speed * pull, inf, 1.0))
    return total
