"""The law that boards dry by in a kiln's moving air, and how fast each wood goes by it.

    dM/dt = -min(safe loss, s x (a + b p) x (M - EMC) / L ** 1.5),  half of that below 20%

M is the moisture content, EMC what the air holds wood at, L the thickness in inches, p the pressure (mmHg) of
saturated vapour at the dry bulb, t in days. a and b are those of the published equation for red oak in constant kiln
air, (M - EMC) / (M0 - EMC) = exp(-t / tau) with tau = L ** 1.52 / (a + b p) (an encyclopedia article on wood drying,
quoted in a teaching notebook,
https://raw.githubusercontent.com/damontallen/Construction-materials/master/Red%20Oak%20Drying%20Time.ipynb).
The factor s of a wood makes the law give its published time (:mod:`stacklint.drying.kiln_fit`).
"""

from __future__ import annotations

from functools import cache
from math import exp, inf, log
from typing import NamedTuple

from stacklint.drying.air import saturation_pressure
from stacklint.drying.batch import Batch
from stacklint.plan.boards import Face
from stacklint.tables import safe_rates
from stacklint.tables.kin import kin_of
from stacklint.tables.rows import read
from stacklint.tables.safe_rates import UNTIL
from stacklint.units import ONE_INCH

A, B = 0.0575, 0.00142
THICKNESS_POWER = 1.5
"""1.52 in the equation for red oak; 1.5 in AH-188 (memory) and from 15% more time for 10% more thickness (Wengert);
1.32 from 2.5 times the time for twice the thickness (Wengert)."""
QUARTERSAWN = 1.15
"""Quartersawn boards take so much longer (Wengert, Drying oak lumber step 1)."""
DRY = 0.20
SLOWING = 0.5
"""Below 20% boards dry at half the rate of the law: water that the cell walls hold moves the slower the drier they
are. With one rate throughout, woods that take their published time from green would dry from 20% to 6% in 0.66 of
theirs (geometric mean of 22 rows); with a half, in 1.0 of it, two rows in three within a fifth
(``tests/bench/bench_kiln_times.py``)."""
_MMHG = 133.322


class Factors(NamedTuple):
    """A wood's factor s at the slowest, as is likely, and at the fastest."""

    slow: float
    likely: float
    fast: float


class Goer(NamedTuple):
    """A batch as the law takes it: what the air's pull is multiplied by, its safe daily loss, its oven-dry mass."""

    speed: float
    safe: float
    mass: float


@cache
def pull(temperature: float) -> float:
    """How strongly air of a temperature (C) draws, a day: a + b p."""
    return A + B * saturation_pressure(temperature) / _MMHG


def factors(batch: Batch) -> Factors:
    """The factors of a batch's wood; of one without a row those of the wood that lends it its rows."""
    return _factors()[kin_of(batch.wood).lender]


def goer(batch: Batch, factor: float) -> Goer:
    """A batch, at a factor s of its wood."""
    slower = QUARTERSAWN if batch.face is Face.QUARTER else 1.0
    safe = safe_rates.of(batch.wood, batch.thickness)
    speed = factor * float((ONE_INCH / batch.thickness) ** THICKNESS_POWER) / slower
    return Goer(speed, safe.per_day if safe else inf, batch.dry_mass)


def after(moisture: float, emc: float, rate: float, safe: float, days: float) -> float:
    """Moisture content after so many days in steady air, at the rate (a day) above :data:`DRY`.

    The safe loss holds down to :data:`safe_rates.UNTIL`. Boards that the air would wet stay as they are.
    """
    if moisture <= emc or rate <= 0:
        return moisture
    for end, pace, most in ((DRY, rate, safe), (UNTIL, rate * SLOWING, safe), (emc, rate * SLOWING, inf)):
        if moisture <= end:
            continue
        needed = _stretch(moisture, max(end, emc), emc, pace, most)
        if needed > days:
            return _within(moisture, emc, pace, most, days)
        moisture, days = end, days - needed
    return moisture


def days_to(moisture: float, wanted: float, emc: float, rate: float, safe: float) -> float:
    """Days in steady air until boards come down to a moisture content; infinite where they never do."""
    if moisture <= wanted:
        return 0.0
    if wanted <= emc or rate <= 0:
        return inf
    days = 0.0
    for end, pace, most in ((DRY, rate, safe), (UNTIL, rate * SLOWING, safe), (wanted, rate * SLOWING, inf)):
        end = max(end, wanted)
        if moisture > end:
            days += _stretch(moisture, end, emc, pace, most)
            moisture = end
    return days


def _stretch(moisture: float, end: float, emc: float, pace: float, safe: float) -> float:
    """Days between two moisture contents within which pace and limit stay as they are."""
    days = 0.0
    if pace * (moisture - emc) > safe:
        free = max(emc + safe / pace, end)
        days = (moisture - free) / safe
        moisture = free
    if moisture <= end:
        return days
    return days + log((moisture - emc) / (end - emc)) / pace if end > emc else inf


def _within(moisture: float, emc: float, pace: float, safe: float, days: float) -> float:
    if pace * (moisture - emc) > safe:
        free = emc + safe / pace
        held = (moisture - free) / safe
        if held >= days:
            return moisture - safe * days
        moisture, days = free, days - held
    return emc + (moisture - emc) * exp(-pace * days)


@cache
def _factors() -> dict[str, Factors]:
    return {row["wood"]: Factors(*(float(row[end]) for end in Factors._fields)) for row in read("kiln_rates")}
