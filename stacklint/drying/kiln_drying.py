"""How a charge dries in a kiln, day by day."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
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
_STANDS_STILL = 1e-7


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


def dry(
    batches: Sequence[Batch],
    run: KilnRun,
    wanted: float | None,
    start: datetime.date,
    most_days: int = 365,
) -> KilnDrying:
    """How batches dry together from ``start`` in a kiln to a moisture content, or for ``most_days``.

    Raises:
        ValueError: for no batches, or for a solar kiln without its outdoor air.
    """
    if not batches:
        raise ValueError("a charge needs boards")
    target = WANTED if wanted is None else wanted
    how = running(batches, run, target)
    factors = [kiln_law.factors(batch) for batch in batches]
    paces = (
        ([each.fast for each in factors], MACHINE_RANGE),
        ([each.likely for each in factors], 1.0),
        ([each.slow for each in factors], 1 / MACHINE_RANGE),
    )
    fast, likely, slow = (_go(batches, each, machine, how, target, start, most_days) for each, machine in paces)
    alone = _alone(batches, run, likely, target, start, most_days)
    peak = max(range(len(likely.free)), key=likely.free.__getitem__, default=None)
    limit = likely.stages[peak].limit if peak is not None else inf
    words = kiln_words.Told(batches, how, wanted)
    return KilnDrying(
        spreads=tuple(Spread(*curves) for curves in zip(fast.curves, likely.curves, slow.curves, strict=True)),
        alone=alone,
        water=likely.water,
        air=tuple(stage.condition.air for stage in likely.stages),
        floor=_floor(batches, how),
        governs=kiln_words.governs(words, likely.held, _short(likely)),
        assumed=kiln_words.assumed(words),
        origins=kiln_words.origins(words),
        peak_wanted=likely.free[peak] / ONE_DAY if peak is not None else 0.0,
        peak_safe=_safe_water(batches, how, start, factors) / ONE_DAY,
        taken=limit * how.share / ONE_DAY if limit < inf else None,
    )


def _alone(
    batches: Sequence[Batch], run: KilnRun, together: Days, target: float, start: datetime.date, most_days: int
) -> tuple[float | None, ...]:
    if len(batches) == 1:
        return (together.curves[0].reached,)
    times = []
    for batch in batches:
        how = running([batch], run, target)
        likely = [kiln_law.factors(batch).likely]
        times.append(_go([batch], likely, 1.0, how, target, start, most_days).curves[0].reached)
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
            break
    ended = tuple(Curve(tuple(curve), _reached(curve, wanted)) for curve in curves)
    return Days(ended, tuple(water), tuple(free), tuple(stages), tuple(held))


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
