"""How a kiln is run on a charge: the air of each stage and the water that it takes out, with what had to be assumed."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import inf
from typing import NamedTuple

from stacklint.drying import dryer
from stacklint.drying.batch import Batch
from stacklint.drying.climate import Air, Climate
from stacklint.drying.density import WATER
from stacklint.drying.schedule import (
    COLDEST_WET_BULB,
    Condition,
    Step,
    coldest_wet_bulb,
    condition,
    conditions,
    mildest,
)
from stacklint.plan.yard import KilnType
from stacklint.show import rounded, show
from stacklint.tables import safe_rates, schedules
from stacklint.tables.wood import Origin
from stacklint.units import AREA, ONE_BOARD_FOOT, ONE_DAY, TEMPERATURE, WATER_RATE, System, Unit

DEHUMIDIFICATION_HEAT = Unit.FAHRENHEIT.to_si(120)
"""AH-188 ch. 2 (memory): 120 F for low-temperature units, 160 F for others."""
VENTED_HEAT = Unit.FAHRENHEIT.to_si(180)
"""As hot as the published schedules of all but the easiest woods go."""
BEHIND = 0.80
"""Relative humidity that the air rises to while a dehumidifier falls behind the boards, and that what it can take out
is reckoned in (assumed): what it leaves in the air is what makes it take out more."""
ANY_MONTH = 12
RATINGS = Origin("Rating conditions of household dehumidifiers before and since 2019, AHAM and DOE tests", True)
SOLAR_PLANS = Origin("Wengert and Meyer, solar kiln plans; http://owic.oregonstate.edu/solarkiln/plans.htm", False)


class KilnRun(NamedTuple):
    """How a kiln is run, as far as it is said.

    ``heats_to`` is its hottest air (C), ``removes`` the dehumidifier's rating (kg/s), ``collector`` the area of a
    solar kiln's roof (m2), ``schedule`` a code that :func:`stacklint.drying.schedule.known` knows, ``settings`` the
    air that it is set to instead of a schedule, ``hours`` how long it runs in a day (``None``: always, a solar
    kiln by day). A solar kiln needs ``outdoor``.
    ``system`` is that of the units in sentences.
    """

    type: KilnType | None
    heats_to: float | None = None
    removes: float | None = None
    collector: float | None = None
    schedule: str | None = None
    settings: tuple[Air, ...] = ()
    hours: float | None = None
    outdoor: Climate | None = None
    system: System = System.INCH


class Stage(NamedTuple):
    """Air that the kiln keeps until the wettest boards come down to a moisture content, and the water that it can
    take out in it, kg a day of running; infinite where nothing limits it."""

    condition: Condition
    limit: float


class Running(NamedTuple):
    """The stages in each month, wettest first, the same all the year but in a solar kiln; and what was assumed.

    ``pace`` says what sets it where neither the boards' limits nor the machine do, ``machine`` what takes the water
    out. ``share`` is that of the day in which the boards dry.
    """

    months: tuple[tuple[Stage, ...], ...]
    pace: str
    machine: str
    share: float
    assumed: tuple[str, ...]
    origins: tuple[Origin, ...]


def type_of(run: KilnRun) -> KilnType:
    """The type of a kiln, from what else is said of it where its type is not."""
    if run.type is not None:
        return run.type
    if run.removes is not None:
        return KilnType.DEHUMIDIFICATION
    return KilnType.SOLAR if run.collector is not None else KilnType.VENTED


def running(batches: Sequence[Batch], run: KilnRun, wanted: float) -> Running:
    """How a charge of batches is run.

    Raises:
        ValueError: for a solar kiln without its outdoor air.
    """
    kind = type_of(run)
    assumed = list(unsaid(batches, run))
    if kind is KilnType.SOLAR:
        return _solar(batches, run, assumed)
    steps, pace, origins = _steps(batches, run, wanted, assumed)
    stages, machine = _drawn(steps, run, kind, assumed)
    share = 1.0 if run.hours is None else min(run.hours / 24, 1.0)
    if share < 1:
        assumed.append(f"It runs {rounded(24 * share)} hours a day; the boards dry only in those.")
    if machine:
        origins = (*origins, RATINGS)
    return Running((stages,) * ANY_MONTH, pace, machine, share, tuple(assumed), origins)


def unsaid(batches: Sequence[Batch], run: KilnRun) -> tuple[str, ...]:
    """A sentence for each thing of the kiln that is not said and that its drying leans on."""
    kind = type_of(run)
    said = [] if run.type else [f"The kiln's type is not said; it is taken as a {kind.value} kiln."]
    if kind is KilnType.SOLAR:
        if run.collector is None:
            area = show(_collector(batches, run), AREA, run.system)
            said.append(f"The collector's area is not said; {area} is taken, 10 board feet to 1 ft2.")
        return tuple(said)
    if run.heats_to is None and not run.settings:
        heat = show(_hottest(run), TEMPERATURE, run.system)
        said.append(f"How hot the kiln gets is not said; {heat} is taken, usual for a {kind.value} kiln.")
    if kind is KilnType.DEHUMIDIFICATION and run.removes is None:
        said.append("What the dehumidifier removes is not said; it is taken to keep up with the boards.")
    return tuple(said)


def _collector(batches: Sequence[Batch], run: KilnRun) -> float:
    """Its area, m2; as much as the published plans give the charge where it is not said."""
    if run.collector is not None:
        return run.collector
    board_feet = sum(batch.dry_mass / (batch.wood.sg_green * WATER) for batch in batches) / ONE_BOARD_FOOT
    return Unit.SQUARE_FOOT.to_si(board_feet / dryer.BOARD_FEET_TO_COLLECTOR)


def _steps(
    batches: Sequence[Batch], run: KilnRun, wanted: float, assumed: list[str]
) -> tuple[tuple[Condition, ...], str, tuple[Origin, ...]]:
    if run.settings:
        return _set(batches, run, wanted, assumed), "The kiln's settings set the pace", ()
    hottest = _hottest(run)
    codes, pace, origins = _published(batches, assumed) if run.schedule is None else _said(run.schedule)
    steps = mildest(codes)
    wettest = max(batch.moisture for batch in batches)
    if _clipped(steps, hottest, wettest):
        low = show(COLDEST_WET_BULB, TEMPERATURE, run.system)
        assumed.append(
            f"The wet bulb goes no lower than {low}, in cool air no lower than 35% humidity has it, "
            "whatever the schedule says."
        )
    return conditions(steps, hottest), pace, origins


def _said(code: str) -> tuple[tuple[str, ...], str, tuple[Origin, ...]]:
    return (code,), _follows(code), (schedules.origin(code),)


def _follows(code: str) -> str:
    return f"Schedule {code} sets the pace"


def _published(batches: Sequence[Batch], assumed: list[str]) -> tuple[tuple[str, ...], str, tuple[Origin, ...]]:
    codes: dict[str, str] = {}
    origins = []
    for batch in batches:
        row = schedules.published(batch.wood, batch.thickness)
        if row is None:
            code = schedules.mild(batch.wood)
            kind = "hardwood" if batch.wood.hardwood else "softwood"
            _say(assumed, f"No schedule is known for {batch.wood.name} so thick; {code} is taken, mild for a {kind}.")
            origins.append(schedules.origin(code))
        else:
            code = row.code
            if row.beyond:
                _say(assumed, f"{batch.words} is thicker than any published schedule; that of 8/4, {code}, is taken.")
            origins.append(row.origin)
        codes.setdefault(code, batch.wood.name)
    if len(codes) == 1:
        return tuple(codes), _follows(next(iter(codes))), tuple(origins)
    *first, last = (f"{code} of {name}" for code, name in codes.items())
    return tuple(codes), f"The mildest of {', '.join(first)} and {last} sets the pace", tuple(origins)


def _set(batches: Sequence[Batch], run: KilnRun, wanted: float, assumed: list[str]) -> tuple[Condition, ...]:
    """Several settings share the way from the wettest start to the wanted moisture content evenly."""
    start = max(batch.moisture for batch in batches)
    count = len(run.settings)
    if count > 1:
        assumed.append(
            f"The kiln's {count} settings follow each other in equal steps of moisture content, "
            f"from {start:.0%} to {wanted:.0%}."
        )
    ends = [start - (start - wanted) * (index + 1) / count for index in range(count - 1)]
    hottest = inf if run.heats_to is None else run.heats_to
    airs = (air._replace(temperature=min(air.temperature, hottest)) for air in run.settings)
    return tuple(condition(air, until) for air, until in zip(airs, (*ends, -inf), strict=True))


def _hottest(run: KilnRun) -> float:
    """C; what is usual for its type where it is not said."""
    if run.heats_to is not None:
        return run.heats_to
    return DEHUMIDIFICATION_HEAT if type_of(run) is KilnType.DEHUMIDIFICATION else VENTED_HEAT


@lru_cache(maxsize=256)
def _clipped(steps: tuple[Step, ...], hottest: float, wettest: float) -> bool:
    ends = [step.start for step in steps[1:]] + [-inf]
    used = [step for step, end in zip(steps, ends, strict=True) if end < wettest]
    airs = ((min(step.dry_bulb, hottest), step.depression) for step in used)
    return any(dry - depression < coldest_wet_bulb(dry) - 1e-6 for dry, depression in airs)


def _drawn(
    steps: tuple[Condition, ...], run: KilnRun, kind: KilnType, assumed: list[str]
) -> tuple[tuple[Stage, ...], str]:
    if kind is not KilnType.DEHUMIDIFICATION or run.removes is None:
        if kind is KilnType.VENTED:
            assumed.append("The vents are taken to carry away whatever the boards give.")
            if run.removes is not None:
                assumed.append("What the kiln removes a day is said, but a vented kiln is not held to it.")
        return tuple(Stage(step, inf) for step in steps), ""
    rating = show(run.removes, WATER_RATE, run.system)
    point = show(dryer.RATED.temperature, TEMPERATURE, run.system)
    newer = show(Unit.FAHRENHEIT.to_si(65), TEMPERATURE, run.system)
    assumed.append(
        f"The dehumidifier's {rating} is taken as its rating at {point} and 60% humidity, as on older labels; "
        f"a label of 2019 or later, at {newer}, would stand for about 1.6 times as much."
    )
    stages = tuple(
        Stage(step, dryer.capacity(run.removes, step.air.temperature, max(step.air.humidity, BEHIND)) * ONE_DAY)
        for step in steps
    )
    return stages, f"The dehumidifier's {rating}"


def _solar(batches: Sequence[Batch], run: KilnRun, assumed: list[str]) -> Running:
    if run.outdoor is None:
        raise ValueError("a solar kiln needs the air outdoors")
    area = _collector(batches, run)
    rise = "54 F" if run.system is System.INCH else "30 C"
    assumed.append(
        f"In the warm months the sun warms a solar kiln's air by {rise} for {dryer.SUN_HOURS:g} hours a day, less in "
        "proportion to how cold a month is."
    )
    if run.hours is not None and run.hours > dryer.SUN_HOURS:
        assumed.append("Fans that run day and night stall a solar kiln near 15%; they are taken to rest at night.")
    if run.schedule is not None or run.settings:
        assumed.append("A solar kiln follows the sun, not a schedule or a setting; what the plan sets is left out.")
    months = run.outdoor.months
    stages = tuple(_sunny(air, share, area) for air, share in zip(months, dryer.sun(months), strict=True))
    outdoor = Origin(run.outdoor.source, run.outdoor.memory)
    hours = dryer.SUN_HOURS if run.hours is None else min(run.hours, dryer.SUN_HOURS)
    assumed += run.outdoor.assumed
    pace, machine = "The sun's warmth sets the pace", "The sun on the collector"
    return Running(stages, pace, machine, hours / 24, tuple(assumed), (SOLAR_PLANS, outdoor))


@lru_cache(maxsize=256)
def _sunny(outdoors: Air, share: float, area: float) -> tuple[Stage, ...]:
    limit = dryer.collected(area, share) * ONE_DAY * 24 / dryer.SUN_HOURS
    return (Stage(condition(dryer.warmed(outdoors, share)), limit),)


def unknown_limits(batches: Sequence[Batch]) -> list[str]:
    """A sentence for each wood that no safe daily loss is known for."""
    said: list[str] = []
    for batch in batches:
        if safe_rates.of(batch.wood, batch.thickness) is None:
            _say(said, f"No safe daily loss is published for {batch.wood.name} as far as known; none is held to.")
    return said


def _say(sentences: list[str], sentence: str) -> None:
    if sentence not in sentences:
        sentences.append(sentence)
