"""The forecast of a pile: in the open air, or in the air of a closed place."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from functools import lru_cache
from math import inf

from stacklint.drying import air_drying
from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.climate import Air, lowest_equilibrium
from stacklint.drying.forecast import BatchForecast, Forecast
from stacklint.drying.readings import Learnt, between, held_so_far, is_of, joined, learn, sift
from stacklint.drying.surroundings import Surroundings
from stacklint.drying.weather import YEAR, day_of_year, year
from stacklint.plan.stack import Reading
from stacklint.tables.wood import Origin

STAIN_STOPS = 0.20
"""Moisture content below which stain stops (Univ. Missouri Extension G5550, MO-312). Every curve is followed to it."""
AIR_DRIED = 0.15
"""What a pile is followed to where nothing is wanted: air dried; in damp air as near as it comes."""
_NEARLY = 0.015
_SLOW_DAYS = 1 / 3
"""A day whose air dries less than this part of the best day's is one on which the pile waits."""
_TIMES = Origin(
    "Wood Handbook list of air-drying times (days to 20%, 1 in thick), from FPL Technical Note 233", memory=True
)
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December")  # fmt: skip


def pile_forecast(
    batches: Sequence[Batch],
    around: Surroundings,
    start: datetime.date,
    wanted: float | None,
    readings: Sequence[Reading] = (),
    measured: frozenset[str] = frozenset(),
    assumed: tuple[str, ...] = (),
) -> Forecast:
    """How batches dry in the air of their place.

    Args:
        readings: those of the pile, in any order.
        measured: labels of the batches whose moisture at the start is a figure and not a word.
        assumed: sentences on what was assumed before.
    """
    floor, _ = lowest_equilibrium(around.climate)
    aim = wanted if wanted is not None else max(AIR_DRIED, floor + _NEARLY)
    run_to = min(aim, STAIN_STOPS)
    kept, left_out = sift(readings, batches, start, lambda day: held(around, start, day))
    learnt = {
        batch.label: _learnt(
            batch, around, start, [reading for reading in kept if is_of(reading, batch, batches)], measured
        )
        for batch in batches
    }
    if around.removes is None and not around.still:
        spreads = [_apart(batch, around, start, run_to, learnt[batch.label]) for batch in batches]
    else:
        spreads = list(_in_one_room(batches, around, start, run_to, list(learnt.values())))
    spreads = [_aimed(spread, aim, run_to) for spread in spreads]
    likely = [spread.likely for spread in spreads]
    water = air_drying.water(batches, likely)
    longest = max(len(curve.moisture) for spread in spreads for curve in spread)
    last = max(each.last.day for each in learnt.values())
    return Forecast(
        way=around.way,
        start=start,
        wanted=wanted,
        batches=tuple(BatchForecast(batch, spread) for batch, spread in zip(batches, spreads, strict=True)),
        water=water,
        air=air_drying.air_by_day(around.climate, start, longest),
        floor=floor,
        air_words=around.words,
        governs=_governs(batches, likely, around, start, water),
        assumed=(*assumed, *around.assumed, *left_out, *_nothing_wanted(wanted, aim)),
        origins=(Origin(around.climate.source, around.climate.memory), _TIMES),
        restarted=start + datetime.timedelta(days=last) if last else None,
    )


def held(around: Surroundings, start: datetime.date, day: int) -> float | None:
    """The driest that the air of a pile could hold wood at by a day; ``None`` where a machine dries it or it is still:
    its own water makes that air another than the place's."""
    if around.removes is not None or around.still:
        return None
    return held_so_far(around.climate, start, day)


def _learnt(
    batch: Batch, around: Surroundings, start: datetime.date, readings: Sequence[Reading], measured: frozenset[str]
) -> Learnt:
    own = [(reading.day.date, reading.moisture.si) for reading in readings]
    return learn(batch, around.climate, start, sorted(own), measured=batch.label in measured)


def _apart(batch: Batch, around: Surroundings, start: datetime.date, run_to: float, learnt: Learnt) -> Spread:
    """A batch whose air nothing else makes damp: along the points known, then on from the last of them."""
    last = learnt.last
    again = start + datetime.timedelta(days=last.day)
    onward = air_drying.dry([batch._replace(moisture=last.moisture)], around.climate, again, run_to, paces=learnt.paces)
    past = between(learnt.points)
    return Spread(*(joined(past, curve, run_to) for curve in onward.spreads[0]))


def _in_one_room(
    batches: Sequence[Batch], around: Surroundings, start: datetime.date, run_to: float, learnt: list[Learnt]
) -> tuple[Spread, ...]:
    """Batches that share a room's water: at the likely rates to each day on which one of them was read, then on."""
    batches = [batch._replace(moisture=each.points[0].moisture) for batch, each in zip(batches, learnt, strict=True)]
    pasts = [between(each.points) for each in learnt]
    last = 0
    for day in sorted({point.day for each in learnt for point in each.points[1:]}):
        again = start + datetime.timedelta(days=last)
        curves = air_drying.in_one_room(
            batches,
            around.climate,
            again,
            day - last,
            around.removes,
            still=around.still,
            unaided=around.unaided,
        )
        for past, each, curve in zip(pasts, learnt, curves, strict=True):
            if each.last.day <= last:
                past.extend(curve.moisture[:-1])
        read = [{point.day: point.moisture for point in each.points}.get(day) for each in learnt]
        batches = [
            batch._replace(moisture=curve.moisture[-1] if moisture is None else moisture)
            for batch, curve, moisture in zip(batches, curves, read, strict=True)
        ]
        last = day
    onward = air_drying.dry(
        batches,
        around.climate,
        start + datetime.timedelta(days=last),
        run_to,
        removes=around.removes,
        still=around.still,
        unaided=around.unaided,
    )
    return tuple(
        Spread(*(joined(past, curve, run_to) for curve in spread))
        for past, spread in zip(pasts, onward.spreads, strict=True)
    )


def _aimed(spread: Spread, aim: float, run_to: float) -> Spread:
    """A spread that was followed further than what is wanted: reached where it passed that."""
    if aim <= run_to:
        return spread
    return Spread(*(curve._replace(reached=curve.below(aim)) for curve in spread))


def _governs(
    batches: Sequence[Batch],
    likely: Sequence[Curve],
    around: Surroundings,
    start: datetime.date,
    water: tuple[float, ...],
) -> tuple[str, ...]:
    said = []
    if len(batches) > 1:
        slowest = max(
            zip(batches, likely, strict=True),
            key=lambda pair: (inf if pair[1].reached is None else pair[1].reached, pair[1].moisture[-1]),
        )
        said.append(f"The {slowest[0].words} are ready last.")
    if around.removes is not None:
        full = sum(1 for day in water if 0.99 * around.removes < day < 1.01 * around.removes)
        if full:
            said.append(f"What the machine takes out of the room's air sets the pace on {full} days.")
    days = year(around.climate.months)
    held = [day.equilibrium for day in days]
    driest, wettest = held.index(min(held)), held.index(max(held))
    if around.way.value == "open air" or max(held) - min(held) > _NEARLY:
        said.append(
            f"The air holds wood at {min(held):.1%} in {_month(driest)}, its driest, "
            f"and at {max(held):.1%} in {_month(wettest)}."
        )
    waits = _waiting(around, start, len(water))
    if waits:
        said.append(f"On {waits} of the {len(water)} days the air is too cold to dry much.")
    return tuple(said)


def _waiting(around: Surroundings, start: datetime.date, count: int) -> int:
    """Of the days from the start, those whose air dries but a small part of what the best day's does."""
    slow = _slow_days(around.climate.months)
    first = day_of_year(start)
    return sum(slow[(first + day) % YEAR] for day in range(count))


@lru_cache(maxsize=64)
def _slow_days(months: tuple[Air, ...]) -> tuple[bool, ...]:
    factors = [day.vapour**air_drying.VAPOUR_POWER for day in year(months)]
    bar = _SLOW_DAYS * max(factors)
    return tuple(factor < bar for factor in factors)


def _month(day: int) -> str:
    return _MONTHS[(datetime.date(2025, 1, 1) + datetime.timedelta(days=day)).month - 1]


def _nothing_wanted(wanted: float | None, aim: float) -> tuple[str, ...]:
    if wanted is not None:
        return ()
    return (f"No moisture content is wanted: it is followed to {aim:.0%}, about air dried.",)
