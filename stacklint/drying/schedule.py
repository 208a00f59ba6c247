"""Kiln schedules put together: the air of each step, and whether one schedule is harsher than another."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache
from math import inf
from typing import NamedTuple

from stacklint.drying.air import humidity_from_wet_bulb, wet_bulb
from stacklint.drying.climate import Air
from stacklint.drying.equilibrium import equilibrium, from_wet_bulb
from stacklint.drying.kiln_law import pull
from stacklint.tables import schedules
from stacklint.units import Unit

known = schedules.known
nearest = schedules.nearest

DRIEST = 0.35
"""Relative humidity that a machine brings cool air to (common practice, no source: 35 to 40% in a box at 85 to
95 F)."""
COLDEST_WET_BULB = Unit.FAHRENHEIT.to_si(80)
"""A depression of 50 F at a low dry bulb means a wet bulb of 60 to 80 F, which neither a vented kiln in humid weather
nor a dehumidifier reaches; the steps of 50 F mean as dry as the kiln will go. FPL-GTR-57 goes no lower than 90 F
(read at https://containerkiln.com/2018/03/08/softwoods-conifers-drying/); 80 F is assumed as the least."""
_ONE_FAHRENHEIT = 1 / 1.8
_DRIER_AIR = 0.005
"""Set air counts as drier if it holds wood drier by more than this, in moisture content: the equation and the older
printed table differ by up to half a point."""


class Step(NamedTuple):
    """Dry bulb (C) and wet-bulb depression (K) from a moisture content down to the next step's."""

    start: float
    dry_bulb: float
    depression: float


class Condition(NamedTuple):
    """The air of a step as the kiln runs it: what it holds wood at, how strongly it draws (a day), and the moisture
    content ``until`` which it is kept."""

    air: Air
    emc: float
    pull: float
    until: float


class Harsher(NamedTuple):
    """Where one schedule first is hotter or drier than another: the moisture content that the step starts at
    (``inf`` for green wood), the two steps and what they hold wood at."""

    moisture: float
    said: Step
    published: Step
    said_emc: float
    published_emc: float
    words: str


@cache
def assemble(code: str) -> tuple[Step, ...]:
    """The steps of a known code, the wettest first.

    Raises:
        KeyError: for a code that :func:`known` does not know.
    """
    hot, dry = schedules.temperatures(code), schedules.depressions(code)
    starts = sorted({start for start, _ in (*hot, *dry)}, reverse=True)
    return tuple(Step(start, _at(hot, start), _at(dry, start)) for start in starts)


@lru_cache(maxsize=256)
def mildest(codes: tuple[str, ...]) -> tuple[Step, ...]:
    """The steps of a charge of several schedules: at each moisture content the lowest dry bulb and the smallest
    depression of all. "The mildest schedule governs" (AH-188 ch. 7, memory)."""
    each = [assemble(code) for code in codes]
    starts = sorted({step.start for steps in each for step in steps}, reverse=True)
    merged = []
    for start in starts:
        now = [step_at(steps, start) for steps in each]
        merged.append(Step(start, min(step.dry_bulb for step in now), min(step.depression for step in now)))
    return tuple(merged)


def step_at(steps: Sequence[Step], moisture: float) -> Step:
    """The step that a moisture content stands in: a step begins when the wettest boards come down to its start."""
    found = steps[0]
    for step in steps:
        if step.start < moisture:
            break
        found = step
    return found


@lru_cache(maxsize=64)
def coldest_wet_bulb(dry: float) -> float:
    """The lowest wet bulb (C) that a kiln reaches at a dry bulb: in cool air as low as ``DRIEST`` humidity has it."""
    return min(COLDEST_WET_BULB, wet_bulb(dry, DRIEST))


@lru_cache(maxsize=256)
def conditions(steps: tuple[Step, ...], hottest: float) -> tuple[Condition, ...]:
    """The air of each step in a kiln that heats to ``hottest`` (C)."""
    found = []
    for index, step in enumerate(steps):
        dry = min(step.dry_bulb, hottest)
        wet = min(max(dry - step.depression, coldest_wet_bulb(dry)), dry)
        until = steps[index + 1].start if index + 1 < len(steps) else -inf
        found.append(condition(Air(dry, humidity_from_wet_bulb(dry, wet)), until))
    return tuple(found)


def condition(air: Air, until: float = -inf) -> Condition:
    return Condition(air, equilibrium(*air), pull(air.temperature), until)


@lru_cache(maxsize=256)
def harsher(said: str, published: str, moisture: float = inf) -> Harsher | None:
    """Where a schedule first is hotter by over 1 F, or has a wet-bulb depression over 1 F bigger, than another.

    Both codes must be known. ``moisture`` is that of the wettest boards: steps before it are not run. ``None`` where
    it is as mild at every step. Cooler air of the same depression holds wood a little drier, but draws less; it does
    not count as harsher.
    """
    ours, theirs = assemble(said), assemble(published)
    starts = {step.start for step in (*ours, *theirs) if step.start < moisture}
    for start in (moisture, *sorted(starts, reverse=True)):
        mine, other = step_at(ours, start), step_at(theirs, start)
        hotter = mine.dry_bulb - other.dry_bulb > _ONE_FAHRENHEIT + 1e-9
        drier = mine.depression - other.depression > _ONE_FAHRENHEIT + 1e-9
        if hotter or drier:
            return _harsher(start, mine, other, hotter=hotter, drier=drier)
    return None


def harsher_air(air: Air, published: str, moisture: float) -> Harsher | None:
    """Whether set air is hotter by over 1 F than a known schedule's at a moisture content, or drier: its wet-bulb
    depression over 1 F bigger, and holding wood over half a point drier."""
    other = step_at(assemble(published), moisture)
    mine = Step(moisture, air.temperature, air.temperature - wet_bulb(*air))
    hotter = mine.dry_bulb - other.dry_bulb > _ONE_FAHRENHEIT + 1e-9
    wider = mine.depression - other.depression > _ONE_FAHRENHEIT + 1e-9
    drier = wider and _emc(other) - _emc(mine) > _DRIER_AIR
    return _harsher(moisture, mine, other, hotter=hotter, drier=drier) if hotter or drier else None


def _harsher(moisture: float, said: Step, published: Step, *, hotter: bool, drier: bool) -> Harsher:
    what = "hotter and drier" if hotter and drier else "hotter" if hotter else "drier"
    where = f"from {moisture * 100:.3g}%" if moisture < inf else "in green wood"
    words = f"{what} {where}: {_words(said)} against {_words(published)}"
    return Harsher(moisture, said, published, _emc(said), _emc(published), words)


def _words(step: Step) -> str:
    dry = Unit.FAHRENHEIT.from_si(step.dry_bulb)
    return (
        f"{dry:.0f} F ({step.dry_bulb:.0f} C) with a wet-bulb depression of {step.depression * 1.8:.0f} F "
        f"({step.depression:.0f} C), which holds wood at {_emc(step) * 100:.1f}%"
    )


def _emc(step: Step) -> float:
    return from_wet_bulb(step.dry_bulb, step.dry_bulb - step.depression)


def _at(steps: Sequence[tuple[float, float]], moisture: float) -> float:
    found = steps[0][1]
    for start, figure in steps:
        if start < moisture:
            break
        found = figure
    return found
