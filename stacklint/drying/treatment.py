"""What a kiln does before and after it dries: heat treatment, and equalising and conditioning, which make dry boards
even and free of stress.

Dry Kiln Operator's Manual AH-188 (1991) ch. 7, table for equalising and conditioning (memory; its rows stand in
``kiln_limits.csv``): for a wanted average f, equalise at an EMC of f - 2 points from when the driest sample is there
until the wettest is at f; then condition at f + 4 points for a hardwood, f + 3 for a softwood.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, inf, log

from stacklint.drying import heating, kiln_law
from stacklint.drying.batch import Batch
from stacklint.drying.forecast import Step
from stacklint.drying.kiln_run import KilnRun, running, type_of
from stacklint.drying.schedule import Condition
from stacklint.plan.stack import Stack
from stacklint.plan.yard import KilnType
from stacklint.show import percent
from stacklint.units import ONE_DAY, ONE_INCH, Unit

DRIEST, WETTEST = 0.05, 0.11
"""The wanted moisture contents that the table has rows for."""
BELOW = 0.02
OVER_HARDWOOD, OVER_SOFTWOOD = 0.04, 0.03
HOURS_BY_INCH = (16.0, 24.0)
"""Conditioning takes 16 to 24 h for 4/4 and up to 48 h for 8/4 (same table); by thickness between and beyond."""
UNEVEN = (0.05, 0.15)
"""How much faster and slower than the mean single boards dry, at least and at most (assumed)."""
_BOUND = 0.30
_ROOM = 20.0
"""C, of boards before they are heated (common practice, no source: room temperature)."""
_WIDE = 4.0
"""Width over thickness of the boards that are heated through: wide enough for the faces to count alone, nearly."""
_IN_DRY_AIR = "in dry air (wet bulb below 133 F (56 C)) wet wood takes much longer"
"""Wood Handbook (FPL-GTR-190) ch. 20 p. 20-2: evaporation cools the wood, which then stays under the wet bulb."""


def heat(stack: Stack, batches: Sequence[Batch], heats_to: float | None) -> tuple[Step, ...]:
    """The heat treatment, where the plan asks for one: a hold as long as it says, or as heating through takes.

    No kiln is said to have steam, so each is told what dry air does.
    """
    if stack.hold is not None:
        time, at = stack.hold.time.si, stack.hold.temperature
        words = f"held at {at.number:g} {at.unit.symbol}; {_IN_DRY_AIR}"
        return (Step("heat treatment", time, time, words),)
    if stack.sterilize is None:
        return ()
    thickest = max(batch.thickness for batch in batches)
    air = min(heating.MEASURED_AT, heats_to) if heats_to is not None else heating.MEASURED_AT
    found = heating.heating_time(thickest, thickest * _WIDE, _ROOM, air)
    if found is None:
        return ()
    hot = f"{Unit.FAHRENHEIT.from_si(air):.0f} F ({air:.0f} C)"
    words = f"until the core has had 133 F (56 C) for 30 minutes, in moist air of {hot}; {_IN_DRY_AIR}"
    return (Step("heat treatment", found.low + heating.KEPT, found.high + heating.KEPT, words),)


def steps(batches: Sequence[Batch], run: KilnRun, wanted: float | None) -> tuple[Step, ...]:
    """What follows once the boards are at a wanted average, with how long it takes; nothing for targets outside 5 to
    11%, nor in a solar kiln, which cannot hold an EMC."""
    if wanted is None or not DRIEST - 1e-9 <= wanted <= WETTEST + 1e-9 or type_of(run) is KilnType.SOLAR:
        return ()
    last = running(batches, run, wanted).months[0][-1].condition
    conditioning = _conditioning(batches, wanted)
    low, high = (max(_equalising(batch, last, wanted, uneven) for batch in batches) for uneven in UNEVEN)
    if high <= 0:
        return (conditioning,)
    words = (
        f"equalised until the wettest boards are at {percent(wanted)}, in air that holds wood at "
        f"{percent(wanted - BELOW)} once the driest are there"
    )
    return Step("equalising", low * ONE_DAY, high * ONE_DAY, words), conditioning


def _equalising(batch: Batch, last: Condition, wanted: float, uneven: float) -> float:
    """Days from when the mean is at the wanted moisture content until the wettest boards are.

    Boards dry exponentially towards the last step's EMC, the fastest by ``1 + uneven`` of the mean's rate, the slowest
    by ``1 - uneven``, all from the same start: at or under 30%, above which the differences even out. Once the fastest
    are 2 points under the wanted average, the air is kept at that.
    """
    start, driest, emc = min(batch.moisture, _BOUND), wanted - BELOW, last.emc
    if wanted <= emc or start <= wanted:
        return 0.0
    rate = kiln_law.goer(batch, kiln_law.factors(batch).likely).speed * last.pull * kiln_law.SLOWING
    span = start - emc
    mean = log(span / (wanted - emc))
    ends = mean / (1 - uneven)
    begins = log(span / (driest - emc)) / (1 + uneven) if driest > emc else inf
    if begins < ends:
        wettest = emc + span * exp(-begins * (1 - uneven))
        ends = begins + log((wettest - driest) / (wanted - driest)) / (1 - uneven)
    return (ends - mean) / rate


def _conditioning(batches: Sequence[Batch], wanted: float) -> Step:
    thickest = max(batch.thickness for batch in batches) / ONE_INCH
    over = OVER_HARDWOOD if any(batch.wood.hardwood for batch in batches) else OVER_SOFTWOOD
    low, high = (hours * thickest * ONE_DAY / 24 for hours in HOURS_BY_INCH)
    words = (
        f"conditioned in damp air that holds wood at {percent(wanted + over)}, which needs steam or a spray of water"
    )
    return Step("conditioning", low, high, words)
