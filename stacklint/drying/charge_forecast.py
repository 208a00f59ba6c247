"""The forecast of a kiln charge."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from stacklint.drying import air_drying, heating, kiln_drying, treatment
from stacklint.drying.air import humidity_from_wet_bulb
from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.climate import Air, Climate
from stacklint.drying.forecast import BatchForecast, Forecast, Machine, NoForecast, Step, Way
from stacklint.drying.kiln_drying import WANTED, KilnDrying
from stacklint.drying.kiln_run import KilnRun, type_of
from stacklint.drying.readings import is_of
from stacklint.drying.surroundings import outdoors
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Reading, Setting, Stack
from stacklint.plan.yard import Kiln, KilnType, Site
from stacklint.tables import schedules
from stacklint.units import System, Unit

_ROOM = 20.0
"""C, of boards before they are heated (common practice, no source: room temperature)."""
_WIDE = 4.0
"""Width over thickness of the boards that are heated through: wide enough for the faces to count alone, nearly."""
_STILL_DRYING = 0.5
"""A batch that is alone in less than so much of a day is as good as dry."""


def charge_forecast(
    stack: Stack,
    batches: Sequence[Batch],
    sites: Sequence[Site],
    kiln: Kiln | None,
    start: datetime.date,
    wanted: float | None,
    assumed: tuple[str, ...],
    system: System,
) -> Forecast | NoForecast:
    """How a charge dries in its kiln, or what is missing to know it."""
    if kiln is None:
        return NoForecast(
            "How it dries is not forecast: the kiln of the charge is not known.",
            'Add a block such as: kiln "North box", and name it: charge "A" in kiln "North box".',
        )
    outside, by_site = outdoors(stack, sites)
    climate = outside if isinstance(outside, Climate) else None
    run = kiln_run(stack, kiln, climate, system)
    if type_of(run) is KilnType.SOLAR:
        if isinstance(outside, NoForecast):
            return outside
        assumed = (*assumed, *by_site)
    aim = WANTED if wanted is None else wanted
    last = _last_readings(stack.readings, batches, start)
    begins = start + datetime.timedelta(days=max((day for day, _ in last.values()), default=0))
    now, pasts = _from_readings(batches, last, (begins - start).days)
    if max(batch.moisture for batch in now) <= aim:
        return _dry_already(stack, batches, kiln, start, wanted, pasts, now, assumed)
    dried = kiln_drying.dry(now, run, wanted, begins)
    spreads = [
        Spread(*(_after(past, curve) for curve in spread)) for past, spread in zip(pasts, dried.spreads, strict=True)
    ]
    water = air_drying.water(batches, [spread.likely for spread in spreads])
    return Forecast(
        way=Way.KILN,
        start=start,
        wanted=wanted,
        batches=tuple(
            BatchForecast(batch, spread, alone)
            for batch, spread, alone in zip(batches, spreads, dried.alone, strict=True)
        ),
        water=water,
        air=dried.air,
        floor=dried.floor,
        air_words=f"the air of kiln {kiln.name.text}",
        governs=(*dried.governs, *_mixing(batches, spreads, dried)),
        before=_before(stack, batches, run.heats_to),
        after=treatment.steps(now, run, wanted),
        assumed=(*assumed, *dried.assumed),
        origins=dried.origins,
        restarted=begins if begins != start else None,
        machine=Machine(dried.peak_wanted, dried.peak_safe, dried.taken),
    )


def kiln_run(stack: Stack, kiln: Kiln, climate: Climate | None, system: System) -> KilnRun:
    """How the plan says that the kiln is run."""
    return KilnRun(
        type=kiln.type,
        heats_to=kiln.heats_to.si if kiln.heats_to is not None else None,
        removes=kiln.removes.si if kiln.removes is not None else None,
        collector=kiln.collector.si if kiln.collector is not None else None,
        schedule=schedules.known(stack.schedule.text) if stack.schedule is not None else None,
        settings=tuple(air for setting in stack.runs if (air := air_of(setting)) is not None),
        hours=stack.fan_hours.a_day.si / 3600 if stack.fan_hours is not None else None,
        outdoor=climate,
        system=system,
    )


def air_of(setting: Setting) -> Air | None:
    """The air that a kiln is set to; ``None`` for a wet bulb above the dry bulb, which cannot be."""
    dry = setting.dry_bulb.si
    if setting.humidity is not None:
        return Air(dry, setting.humidity.si)
    assert setting.wet_bulb is not None
    wet = setting.wet_bulb.si
    return Air(dry, min(humidity_from_wet_bulb(dry, wet), 1.0)) if wet <= dry else None


def _last_readings(
    readings: Sequence[Reading], batches: Sequence[Batch], start: datetime.date
) -> dict[str, tuple[int, float]]:
    """The last reading of each batch since the start: its day, counted from the start, and what was read."""
    found: dict[str, tuple[int, float]] = {}
    for reading in sorted(readings, key=lambda each: each.day.date):
        day = (reading.day.date - start).days
        for batch in batches:
            if day >= 0 and is_of(reading, batch, batches):
                found[batch.label] = (day, reading.moisture.si)
    return found


def _from_readings(
    batches: Sequence[Batch], last: dict[str, tuple[int, float]], days: int
) -> tuple[list[Batch], list[list[float]]]:
    """The batches as they are on the day of the last reading, and their moisture until then on a straight line.

    A batch that was not read on that day goes on from its own last reading, or from the start.
    """
    now, pasts = [], []
    for batch in batches:
        _, moisture = last.get(batch.label, (0, batch.moisture))
        step = (moisture - batch.moisture) / days if days else 0.0
        pasts.append([batch.moisture + step * day for day in range(days)])
        now.append(batch._replace(moisture=moisture))
    return now, pasts


def _after(past: list[float], curve: Curve) -> Curve:
    if not past:
        return curve
    reached = None if curve.reached is None else curve.reached + len(past)
    return Curve((*past, *curve.moisture), reached)


def _dry_already(
    stack: Stack,
    batches: Sequence[Batch],
    kiln: Kiln,
    start: datetime.date,
    wanted: float | None,
    pasts: list[list[float]],
    now: list[Batch],
    assumed: tuple[str, ...],
) -> Forecast:
    """A charge that has the moisture content wanted from the first day or by its last reading."""
    curves = [Curve((*past, batch.moisture), float(len(past))) for past, batch in zip(pasts, now, strict=True)]
    return Forecast(
        way=Way.KILN,
        start=start,
        wanted=wanted,
        batches=tuple(
            BatchForecast(batch, Spread(curve, curve, curve), 0.0) for batch, curve in zip(batches, curves, strict=True)
        ),
        water=air_drying.water(batches, curves),
        air=(),
        floor=0.0,
        air_words=f"the air of kiln {kiln.name.text}",
        governs=("The boards have the moisture content wanted already.",),
        before=_before(stack, batches, kiln.heats_to.si if kiln.heats_to is not None else None),
        assumed=assumed,
    )


def _mixing(batches: Sequence[Batch], spreads: Sequence[Spread], dried: KilnDrying) -> tuple[str, ...]:
    """What it costs the quickest batch to share the charge, and who is last."""
    if len(batches) < 2:
        return ()
    times = [spread.likely.reached for spread in spreads]
    if any(time is None for time in times) or any(alone is None for alone in dried.alone):
        return ()
    together = max(time for time in times if time is not None)
    said = []
    for batch, alone in zip(batches, dried.alone, strict=True):
        if alone is not None and together - alone > _STILL_DRYING:
            said.append(
                f"Alone the {batch.words} would take {alone:.0f} days; in this charge {together:.0f}: "
                f"mixing costs them {together - alone:.0f}."
            )
    return tuple(said)


def _before(stack: Stack, batches: Sequence[Batch], heats_to: float | None) -> tuple[Step, ...]:
    """The heat treatment, where the plan asks for one: a hold as long as it says, or as heating through takes."""
    if stack.hold is not None:
        time, at = stack.hold.time.si, stack.hold.temperature
        return (Step("heat treatment", time, time, f"held at {_degrees(at)}"),)
    if stack.sterilize is None:
        return ()
    thickest = max(batch.thickness for batch in batches)
    air = min(heating.MEASURED_AT, heats_to) if heats_to is not None else heating.MEASURED_AT
    found = heating.heating_time(thickest, thickest * _WIDE, _ROOM, air)
    if found is None:
        return ()
    hot = f"{Unit.FAHRENHEIT.from_si(air):.0f} F ({air:.0f} C)"
    words = f"until the core has had 133 F (56 C) for 30 minutes, in air of {hot}"
    return (Step("heat treatment", found.low + heating.KEPT, found.high + heating.KEPT, words),)


def _degrees(temperature: Quantity) -> str:
    return f"{temperature.number:g} {temperature.unit.symbol}"
