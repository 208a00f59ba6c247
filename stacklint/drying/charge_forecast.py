"""The forecast of a kiln charge."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import NamedTuple

from stacklint.drying import air_drying, charge_readings, kiln_drying, treatment
from stacklint.drying.air import humidity_from_wet_bulb
from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.charge_readings import Paced
from stacklint.drying.climate import Air, Climate
from stacklint.drying.forecast import BatchForecast, Forecast, Machine, NoForecast, Way
from stacklint.drying.kiln_drying import WANTED, Unread
from stacklint.drying.kiln_run import KilnRun, type_of
from stacklint.drying.readings import is_of, joined, sift
from stacklint.drying.surroundings import outdoors
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Reading, Setting, Stack
from stacklint.plan.yard import Kiln, KilnType, Site
from stacklint.tables import schedules
from stacklint.units import System

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
    charge = _Charge(stack, kiln, run, start, wanted, aim)
    begun = [_begun(stack.readings, batch, batches, start) for batch in batches]
    unread = _unread(charge, begun)
    kept, left_out = sift(stack.readings, batches, start, unread.held_by if unread is not None else lambda _: None)
    assumed = (*assumed, *left_out)
    known = _known(charge, batches, unread, kept) if unread is not None else None
    now = begun if known is None else known.now
    if max(batch.moisture for batch in now) <= aim:
        return _dry_already(charge, batches, now, known, assumed)
    if known is None:
        dried = kiln_drying.dry(now, run, wanted, start)
        spreads, air, alone = list(dried.spreads), dried.air, dried.alone
        mixing = _mixing(batches, spreads, alone)
    else:
        onward = kiln_drying.Onward(known.unread.how, _leading(known), all(known.paced))
        dried = kiln_drying.dry(now, run, wanted, known.begins, onward=onward)
        spreads, alone = _joined(known, dried.spreads, aim), known.unread.alone
        air = kiln_drying.air_of_days(onward.how, start, _wettest(spreads))
        mixing = _mixing(batches, known.unread.spreads, alone)
    reaches = all(spread.likely.reached is not None for spread in spreads)
    return Forecast(
        way=Way.KILN,
        start=start,
        wanted=wanted,
        batches=tuple(map(BatchForecast, batches, spreads, alone, _unread_spreads(batches, unread))),
        water=air_drying.water(batches, [spread.likely for spread in spreads]),
        air=air,
        floor=dried.floor,
        air_words=_air_words(kiln),
        governs=(*dried.governs, *mixing),
        before=treatment.heat(stack, batches, run.heats_to),
        after=treatment.steps(begun, run, wanted) if reaches else (),
        assumed=(*assumed, *dried.assumed),
        origins=dried.origins,
        restarted=known.begins if known is not None else None,
        machine=Machine(dried.peak_wanted, dried.peak_safe, dried.taken),
        held=unread.held if unread is not None else (),
    )


class _Charge(NamedTuple):
    stack: Stack
    kiln: Kiln
    run: KilnRun
    start: datetime.date
    wanted: float | None
    aim: float


class _Known(NamedTuple):
    """What the readings of a charge come to: how it would have dried without them, what each batch's say, each batch's
    moisture on the days before that of the last reading, and the batches as they are on it."""

    begins: datetime.date
    unread: Unread
    paced: list[Paced | None]
    pasts: list[list[float]]
    now: list[Batch]


def _begun(readings: Sequence[Reading], batch: Batch, batches: Sequence[Batch], start: datetime.date) -> Batch:
    """A batch as it was read on the day it starts, if it was."""
    first = _readings([reading for reading in readings if reading.day.date == start], batch, batches, start)
    return batch._replace(moisture=first.get(0, batch.moisture))


def _unread(charge: _Charge, begun: Sequence[Batch]) -> Unread | None:
    """How the charge would have dried had nothing been read, where something was."""
    later = [reading.moisture.si for reading in charge.stack.readings if reading.day.date > charge.start]
    if not later:
        return None
    return kiln_drying.unread(begun, charge.run, charge.aim, charge.start, min(later))


def _unread_spreads(batches: Sequence[Batch], unread: Unread | None) -> Sequence[Spread | None]:
    return unread.spreads if unread is not None else [None] * len(batches)


def _known(charge: _Charge, batches: Sequence[Batch], unread: Unread, kept: Sequence[Reading]) -> _Known | None:
    """What the readings that can be come to; ``None`` where there are none since the start."""
    read = [_readings(kept, batch, batches, charge.start) for batch in batches]
    last = max((day for days in read for day in days), default=0)
    if not last:
        return None
    said = charge.stack.boards
    measured = {boards.label.text for boards in said if isinstance(boards.moisture, Quantity)}
    paced = [
        charge_readings.learn(batch, spread, days, measured=batch.label in measured)
        for batch, spread, days in zip(batches, unread.spreads, read, strict=True)
    ]
    curves = [charge_readings.until(each, spread, last) for each, spread in zip(paced, unread.spreads, strict=True)]
    now = [batch._replace(moisture=curve[-1]) for batch, curve in zip(batches, curves, strict=True)]
    begins = charge.start + datetime.timedelta(days=last)
    return _Known(begins, unread, paced, [curve[:-1] for curve in curves], now)


def _readings(
    readings: Sequence[Reading], batch: Batch, batches: Sequence[Batch], start: datetime.date
) -> dict[int, float]:
    """A batch's readings by their days from the start, in their order; of those of one day the wettest counts."""
    own = [((each.day.date - start).days, each.moisture.si) for each in readings if is_of(each, batch, batches)]
    return dict(sorted(own))


def _leading(known: _Known) -> float:
    """The factor of the wettest boards that were read: they set the steps of the whole charge."""
    read = [(batch.moisture, paced.factor) for batch, paced in zip(known.now, known.paced, strict=True) if paced]
    return max(read)[1]


def _joined(known: _Known, onward: Sequence[Spread], aim: float) -> list[Spread]:
    """The curves through the readings and on; those of one pace all end on one day."""
    spreads = [charge_readings.stretched(spread, paced, aim) for spread, paced in zip(onward, known.paced, strict=True)]
    ends = [max(len(curve.moisture) for curve in pace) for pace in zip(*spreads, strict=True)]
    return [
        Spread(*(joined(past, _until(curve, end), aim) for curve, end in zip(spread, ends, strict=True)))
        for past, spread in zip(known.pasts, spreads, strict=True)
    ]


def _until(curve: Curve, count: int) -> Curve:
    """A curve that goes on as it ends, for so many days in all."""
    return curve._replace(moisture=curve.moisture + curve.moisture[-1:] * (count - len(curve.moisture)))


def _wettest(spreads: Sequence[Spread]) -> list[float]:
    """The likely moisture content of the wettest boards on each day but the last."""
    days = zip(*(spread.likely.moisture for spread in spreads), strict=True)
    return [max(day) for day in days][:-1]


def _air_words(kiln: Kiln) -> str:
    return f"the air of kiln {kiln.name.text}"


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
    """The air that a kiln is set to; ``None`` where its humidity could not be read, or its wet bulb is above its dry
    bulb, which cannot be."""
    dry = setting.dry_bulb.si
    if setting.humidity is not None:
        return Air(dry, setting.humidity.si)
    if setting.wet_bulb is None:
        return None
    wet = setting.wet_bulb.si
    return Air(dry, min(humidity_from_wet_bulb(dry, wet), 1.0)) if wet <= dry else None


def _dry_already(
    charge: _Charge, batches: Sequence[Batch], now: Sequence[Batch], known: _Known | None, assumed: tuple[str, ...]
) -> Forecast:
    """A charge that has the moisture content wanted from the first day or by its last reading."""
    pasts: Sequence[Sequence[float]] = known.pasts if known is not None else [()] * len(batches)
    curves = [joined(past, Curve((batch.moisture,), 0.0), charge.aim) for past, batch in zip(pasts, now, strict=True)]
    unread = known.unread if known is not None else None
    air: tuple[Air, ...] = ()
    if known is not None:
        air = kiln_drying.air_of_days(known.unread.how, charge.start, [max(day) for day in zip(*pasts, strict=True)])
    return Forecast(
        way=Way.KILN,
        start=charge.start,
        wanted=charge.wanted,
        batches=tuple(
            BatchForecast(batch, Spread(curve, curve, curve), 0.0, each)
            for batch, curve, each in zip(batches, curves, _unread_spreads(batches, unread), strict=True)
        ),
        water=air_drying.water(batches, curves),
        air=air,
        floor=0.0,
        air_words=_air_words(charge.kiln),
        governs=("The boards have the moisture content wanted already.",),
        before=treatment.heat(charge.stack, batches, charge.run.heats_to),
        assumed=assumed,
        restarted=known.begins if known is not None else None,
        held=unread.held if unread is not None else (),
    )


def _mixing(batches: Sequence[Batch], spreads: Sequence[Spread], alone: Sequence[float | None]) -> tuple[str, ...]:
    """What it costs the quickest batch to share the charge, and who is last."""
    times = [spread.likely.reached for spread in spreads]
    if len(batches) < 2 or any(time is None for time in (*times, *alone)):
        return ()
    together = max(time for time in times if time is not None)
    return tuple(
        f"Alone the {batch.words} would take {time:.0f} days; in this charge {together:.0f}: "
        f"mixing costs them {together - time:.0f}."
        for batch, time in zip(batches, alone, strict=True)
        if time is not None and together - time > _STILL_DRYING
    )
