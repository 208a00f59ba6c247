"""Drying in moving air that nobody heats: a yard, a shed, a room with a fan.

The law is that of the published constant-condition equation for red oak, (M - Me) / (M0 - Me) = exp(-t / tau) with tau
growing as a power of the thickness (an encyclopedia article on wood drying, quoted in a teaching notebook,
https://raw.githubusercontent.com/damontallen/Construction-materials/master/Red%20Oak%20Drying%20Time.ipynb), gone
through day by day with each day's equilibrium moisture content Me. That equation is for a kiln's moving air: it gives
25 days where yards report 60 to 82. So its rate is replaced by one calibrated on published yard times:

    1 / tau = rate x (vapour pressure of saturated air / that at 20 C) ** 0.8 / (thickness / 1 in) ** 1.5

The power 0.8 was chosen by five published times for red oak by month of stacking: 0.6 to 0.8 give them within 8 to 13%
(root mean square), other powers worse. The rate of each wood is that which gives its published time of the good season
in its region of growth (:mod:`stacklint.drying.air_fit`). What was not used for the fit, the times for lumber stacked
too late, tells how good the model is (they would have the power a little higher); from it comes ``RANGE``.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache
from itertools import cycle, islice, pairwise
from typing import NamedTuple

from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.climate import Air, Climate
from stacklint.drying.weather import YEAR, day_of_year, year
from stacklint.plan.boards import Face
from stacklint.tables.kin import kin_of
from stacklint.tables.rows import read
from stacklint.tables.wood import Wood
from stacklint.units import ONE_INCH

VAPOUR_POWER = 0.8
THICKNESS_POWER = 1.5
"""1.52 measured on red oak; 1.585 from 60 and 180 days for 4/4 and 8/4; 1.466 from 15% more time for 10% more
thickness (Wengert); 1.5 in the Dry Kiln Operator's Manual AH-188 (memory)."""
RANGE = 1.4
"""How much faster or slower a stack may dry than is likely: about two thirds of the published times that were not
fitted lie within this factor of the model (``tests/bench/bench_air_times.py`` prints the distribution)."""
AIR_RANGE = 0.01
"""How much drier or wetter the air may hold the boards than the table says, in moisture content. Recalled monthly
figures differ from published ones by 0.4 points (root mean square); means of hourly figures lie 0.4 to 2 points
higher; recent climate normals of one place lie up to 1.5 lower."""
QUARTERSAWN = 1.15
"""Quartersawn boards take so much longer (Wengert, Drying oak lumber step 1)."""
MOST_DAYS = 3 * YEAR
"""How far ahead a forecast looks. What is not dry by then waits for something else than time."""
NEEDS_NO_WIND = 0.20
"""Below this a board in still air goes on drying as its air lets it (common practice, no source): what it gives off
no longer makes the air damp."""


class Setting(NamedTuple):
    """How one of the three paces goes: a factor on every rate, and what is added to each day's equilibrium."""

    rate: float
    air: float


FAST = Setting(RANGE, -AIR_RANGE)
LIKELY = Setting(1.0, 0.0)
SLOW = Setting(1 / RANGE, AIR_RANGE)


class Unaided(NamedTuple):
    """A room as it is without the machine that takes water out of its air: its air, and whether that stands still."""

    climate: Climate
    still: bool


class AirDrying(NamedTuple):
    """Batches that dried together: their curves, and the water that left on each day, kg, likely."""

    spreads: tuple[Spread, ...]
    water: tuple[float, ...]


def rate(batch: Batch) -> float:
    """Of a batch, a day, in saturated air of 20 C as reference: the inverse of tau."""
    slower = QUARTERSAWN if batch.face is Face.QUARTER else 1.0
    return wood_rate(batch.wood) * math.pow(ONE_INCH / batch.thickness, THICKNESS_POWER) / slower


def wood_rate(wood: Wood) -> float:
    """Of a wood sawn flat and 1 in thick, a day, in saturated air of 20 C as reference."""
    return _rates()[kin_of(wood).air]


def dry(
    batches: Sequence[Batch],
    climate: Climate,
    start: datetime.date,
    wanted: float,
    *,
    removes: float | None = None,
    still: bool = False,
    unaided: Unaided | None = None,
    paces: tuple[Setting, Setting, Setting] = (FAST, LIKELY, SLOW),
) -> AirDrying:
    """How batches dry from ``start`` to a moisture content, or for :data:`MOST_DAYS`.

    Args:
        climate: the air that they stand in.
        removes: water that a machine takes out of the room's air, kg a day at the most; ``None`` where it can blow
            away.
        still: nothing moves the air. Boards above :data:`NEEDS_NO_WIND` then stay as wet as they are.
        unaided: how the room would be without the machine. Its boards lose no less than they would there: what the
            room's own air carries off it carries off beside a machine too, however small that is.
    """
    first = day_of_year(start)
    if removes is None and not still:
        spreads = tuple(
            Spread(
                *(_alone(batch.moisture, rate(batch) * pace.rate, climate, first, wanted, pace.air) for pace in paces)
            )
            for batch in batches
        )
    else:
        room = _Room(climate, removes, still, unaided)
        runs = [_together(batches, room, first, wanted, pace) for pace in paces]
        spreads = tuple(Spread(*curves) for curves in zip(*runs, strict=True))
    return AirDrying(spreads, water(batches, [spread.likely for spread in spreads]))


def in_one_room(
    batches: Sequence[Batch],
    climate: Climate,
    start: datetime.date,
    days: int,
    removes: float | None,
    *,
    still: bool,
    unaided: Unaided | None = None,
) -> list[Curve]:
    """The likely curves of batches that share a room's air, for so many days whatever they come to."""
    room = _Room(climate, removes, still, unaided)
    return _together(batches, room, day_of_year(start), -1.0, LIKELY, most=days)


def after_days(now: float, pace: float, climate: Climate, start: datetime.date, days: int) -> float:
    """Moisture content that a board has after so many days in an outdoor or moved air."""
    share, held = passage(pace, climate, start, days)
    return share * now + held


def passage(pace: float, climate: Climate, start: datetime.date, days: int) -> tuple[float, float]:
    """What so many days make of any moisture content: the share of it that is left, and what is added to that.

    Each day is such a step, and so are steps one after another. Whole years are all alike.
    """
    first = day_of_year(start)
    years, rest = divmod(days, YEAR)
    share, held = _run(climate, first, rest, pace)
    if years == 0:
        return share, held
    one_share, one_held = _run(climate, first, YEAR, pace)
    all_share = one_share**years
    all_held = one_held * ((1 - all_share) / (1 - one_share) if one_share < 1 else years)
    return share * all_share, share * all_held + held


def _run(climate: Climate, first: int, days: int, pace: float) -> tuple[float, float]:
    exp = math.exp
    left, held = 1.0, 0.0
    for towards, factor in _from(climate, first, days):
        kept = exp(-pace * factor)
        left *= kept
        held = towards + (held - towards) * kept
    return left, held


def water(batches: Sequence[Batch], curves: Sequence[Curve]) -> tuple[float, ...]:
    """Water that leaves on each day, kg: what the batches lose in weight. Below 0 where they take it up."""
    longest = max((len(curve.moisture) for curve in curves), default=0)
    total = [0.0] * max(longest - 1, 0)
    for batch, (moisture, _) in zip(batches, curves, strict=True):
        mass = batch.dry_mass
        for day, (before, after) in enumerate(pairwise(moisture)):
            total[day] += mass * (before - after)
    return tuple(total)


def air_by_day(climate: Climate, start: datetime.date, count: int) -> tuple[Air, ...]:
    days = year(climate.months)
    first = day_of_year(start)
    return tuple(days[(first + day) % YEAR].air for day in range(count))


def _from(climate: Climate, first: int, count: int, shift: float = 0.0) -> Iterator[tuple[float, float]]:
    """So many days from a day of the year on: what the air holds wood at, shifted, and its factor on the rate."""
    return islice(cycle(_steps(climate.months, shift)), first, first + count)


@lru_cache(maxsize=64)
def _steps(months: tuple[Air, ...], shift: float) -> tuple[tuple[float, float], ...]:
    return tuple((max(day.equilibrium + shift, 0.0), day.vapour**VAPOUR_POWER) for day in year(months))


def _alone(now: float, pace: float, climate: Climate, first: int, wanted: float, shift: float) -> Curve:
    """One batch: exact through each day, in which the air stays as it is."""
    if now <= wanted:
        return Curve((now,), 0.0)
    exp = math.exp
    moisture = [now]
    for held, factor in _from(climate, first, MOST_DAYS, shift):
        after = held + (now - held) * exp(-pace * factor)
        moisture.append(after)
        if after <= wanted:
            return Curve(tuple(moisture), len(moisture) - 2 + (now - wanted) / (now - after))
        now = after
    return Curve(tuple(moisture), None)


class _Room(NamedTuple):
    """The air that batches share, as in :func:`dry`."""

    climate: Climate
    removes: float | None
    still: bool
    unaided: Unaided | None


def _together(
    batches: Sequence[Batch], room: _Room, first: int, wanted: float, pace: Setting, *, most: int = MOST_DAYS
) -> list[Curve]:
    """Batches that share a room's air: what they lose on a day is cut down to what a machine takes out, or to what
    they would lose without it where that is more."""
    rates = [rate(batch) * pace.rate for batch in batches]
    curves = [[batch.moisture] for batch in batches]
    reached: list[float | None] = [0.0 if batch.moisture <= wanted else None for batch in batches]
    without = room.unaided or Unaided(room.climate, room.still)
    airs = (_from(each, first, most, pace.air) for each in (room.climate, without.climate))
    for day, (air, own) in enumerate(zip(*airs, strict=True)):
        if None not in reached:
            break
        now = [curve[-1] for curve in curves]
        losses = _losses(now, rates, air, still=room.still)
        share = _share(batches, losses, room.removes)
        losses = [loss * share if loss > 0 else loss for loss in losses]
        if room.unaided is not None:
            losses = list(map(max, losses, _losses(now, rates, own, still=without.still)))
        for index, (before, loss) in enumerate(zip(now, losses, strict=True)):
            after = before - loss
            curves[index].append(after)
            if reached[index] is None and after <= wanted:
                reached[index] = day + (before - wanted) / loss
    return [Curve(tuple(curve), end) for curve, end in zip(curves, reached, strict=True)]


def _losses(now: Sequence[float], rates: Sequence[float], air: tuple[float, float], *, still: bool) -> list[float]:
    """What boards of each moisture content lose in a day of some air; below 0 where they take water up."""
    held, factor = air
    return [
        0.0 if still and moisture > NEEDS_NO_WIND else (moisture - held) * (1 - math.exp(-each * factor))
        for moisture, each in zip(now, rates, strict=True)
    ]


def _share(batches: Sequence[Batch], losses: Sequence[float], removes: float | None) -> float:
    if removes is None:
        return 1.0
    given = sum(batch.dry_mass * loss for batch, loss in zip(batches, losses, strict=True) if loss > 0)
    return min(1.0, removes / given) if given > 0 else 1.0


@cache
def _rates() -> dict[str, float]:
    return {row["species"]: float(row["rate_per_day"]) for row in read("air_rates")}
