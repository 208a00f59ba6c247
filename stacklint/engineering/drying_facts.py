"""Facts of how a stack dries: when it is ready, how dry its air can make it, what its readings say."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from stacklint.drying import air_drying
from stacklint.drying.air_drying import SLOW
from stacklint.drying.batch import Batch
from stacklint.drying.climate import Climate, lowest_equilibrium
from stacklint.drying.forecast import Forecast, NoForecast, Pace, Way
from stacklint.drying.outlook import outlook, start_of
from stacklint.drying.pile_forecast import STAIN_STOPS, held
from stacklint.drying.readings import GREEN_DIFFERS, is_of, is_too_dry, lowest
from stacklint.drying.surroundings import Surroundings, outdoors, surroundings
from stacklint.drying.weather import MONTHS, day_of_year, year
from stacklint.engineering import mixing_facts
from stacklint.engineering.facts import Reading
from stacklint.engineering.lots import Lot
from stacklint.engineering.unsaid import unsaid
from stacklint.faults import Assumption
from stacklint.plan.node import Quantity
from stacklint.plan.shelter import CoverKind, PlaceKind, SideKind
from stacklint.plan.stack import Reading as SaidReading
from stacklint.plan.stack import ReadingFrom, Stack, StackKind
from stacklint.plan.yard import Kiln, Site
from stacklint.tables import safe_rates
from stacklint.units import ONE_DAY, System


class Drying(NamedTuple):
    """What a stack's drying comes to: the forecast, and the facts by their names."""

    forecast: Forecast | NoForecast
    facts: dict[str, Any]
    assumptions: tuple[Assumption, ...] = ()


def drying(
    stack: Stack,
    lots: Mapping[str, Lot],
    sites: Sequence[Site],
    kiln: Kiln | None,
    today: datetime.date,
    system: System,
    *,
    look_for_shorter: bool = False,
) -> Drying:
    """The forecast of a stack and every fact that follows from it, from its readings and from its woods."""
    batches = batches_of(lots.values())
    forecast = outlook(stack, batches, sites, kiln, today, system)
    if look_for_shorter and isinstance(forecast, Forecast):
        from stacklint.drying.shorter import shorter

        forecast = forecast._replace(shorter=shorter(stack, batches, sites, kiln, today, system, forecast))
    start, _ = start_of(stack, today)
    around: Surroundings | NoForecast | None = None
    if stack.kind is StackKind.PILE:
        around = surroundings(stack, sites, max(batch.moisture for batch in batches))
    outside = outdoors(stack, sites)[0]
    facts = readiness(stack, forecast)
    facts |= reach(around, forecast)
    facts |= season(stack, outside if isinstance(outside, Climate) else None)
    if stack.kind is StackKind.CHARGE:
        from stacklint.engineering.kiln_run_facts import kiln_run

        facts |= kiln_run(stack, lots, forecast)
    facts |= mixing_facts.thickness(stack, lots, forecast)
    facts |= mixing_facts.species(lots)
    facts["readings"] = readings(stack, lots, around, start, forecast)
    return Drying(forecast, facts, tuple(unsaid(stack, batches, sites, kiln, today, system, forecast)))


def batches_of(lots: Iterable[Lot]) -> tuple[Batch, ...]:
    """The lots of a stack as batches that dry."""
    return tuple(
        Batch(
            label=lot.label,
            words=lot.words,
            wood=lot.wood,
            thickness=lot.thickness,
            moisture=lot.moisture.value,
            dry_mass=lot.mass(0.0),
            face=lot.boards.face,
        )
        for lot in lots
    )


def readiness(stack: Stack, forecast: Forecast | NoForecast) -> dict[str, Any]:
    """When the stack is ready, against the day by which it is wanted."""
    by = stack.want.by.date if stack.want is not None and stack.want.by is not None else None
    found: dict[str, Any] = {
        "wanted_by": by,
    }
    if isinstance(forecast, NoForecast) or forecast.wanted is None:
        return found
    if by is not None and by <= forecast.start:
        by = None  # the two dates contradict one another, which is said already
    fast, likely, slow = (forecast.ready(pace) for pace in Pace)
    ahead = max(len(curve.moisture) for each in forecast.batches for curve in each.spread) - 1
    found |= {
        "ready_fast": fast,
        "ready_likely": likely,
        "ready_slow": slow,
        "late_fast": _late(fast, by, forecast, ahead),
        "late_likely": _late(likely, by, forecast, ahead),
        "ready_words": _ready_words(fast, likely, slow, 12 if forecast.way is Way.KILN else 36),
        "look_ahead": ahead * ONE_DAY,
    }
    return found


def _late(ready: datetime.date | None, by: datetime.date | None, forecast: Forecast, ahead: int) -> float | None:
    """Seconds from the day wanted to the day ready; what is never ready is as late as the forecast looks ahead, and a
    day at the least."""
    if by is None:
        return None
    if ready is not None:
        return (ready - by).days * ONE_DAY
    return max(forecast.start.toordinal() + ahead - by.toordinal(), 1) * ONE_DAY


def _ready_words(
    fast: datetime.date | None, likely: datetime.date | None, slow: datetime.date | None, months: int
) -> str:
    """A whole clause. ``months`` is how far the forecast looks."""
    never = f"not within {months} months"
    if fast is None:
        return f"by forecast it does not get there within {months} months"
    if likely is None:
        return f"by forecast it may be there {fast} at the earliest, but likely {never}"
    if slow is None:
        return f"by forecast it is there {likely}, {fast} at the earliest, perhaps {never}"
    return f"by forecast it is there {likely}, between {fast} and {slow}"


def reach(around: Surroundings | NoForecast | None, forecast: Forecast | NoForecast) -> dict[str, Any]:
    """The driest that the air can hold the boards at, and whether it stands still about wet ones."""
    if not isinstance(around, Surroundings):
        if isinstance(forecast, NoForecast):
            return {}
        words = f"{forecast.floor:.1%} ({forecast.air_words})"
        return {"reach": forecast.floor, "reach_words": words, "reach_memory": False, "still": False}
    climate = around.climate
    lowest, month = lowest_equilibrium(climate)
    steady = len(set(climate.months)) == 1
    when = around.words if steady else f"{around.words} in {MONTHS[month - 1]}"
    return {
        "reach": lowest,
        "reach_words": f"{lowest:.1%} ({when})",
        "reach_memory": climate.memory,
        "still": around.still and _wet(forecast),
    }


def _wet(forecast: Forecast | NoForecast) -> bool:
    """Some boards are at first above what they dry from in air that stands."""
    return isinstance(forecast, Forecast) and any(each.batch.moisture > STAIN_STOPS for each in forecast.batches)


def season(stack: Stack, climate: Climate | None) -> dict[str, Any]:
    """The outdoor air on the day of stacking, and whether sun and wind are kept off."""
    shade = stack.sides is not None and stack.sides.kind is SideKind.SHADE_CLOTH
    place = stack.place
    found: dict[str, Any] = {"shaded": shade or (place is not None and place.in_sun is False)}
    if climate is None or stack.stacked is None:
        return found
    air = year(climate.months)[day_of_year(stack.stacked.date)].air
    return found | {"air_temperature": air.temperature, "air_humidity": air.humidity}


def readings(
    stack: Stack,
    lots: Mapping[str, Lot],
    around: Surroundings | NoForecast | None,
    start: datetime.date,
    forecast: Forecast | NoForecast,
) -> tuple[Reading, ...]:
    """The readings against the safe daily loss, the air and a slow stack.

    Each is set against the last one of the same boards and the same part of them: cores are wetter than outer boards.
    """
    facts = []
    batches = batches_of(lots.values())
    last: dict[tuple[str | None, ReadingFrom | None], _Before] = {}
    latest: datetime.date | None = None
    for said in stack.readings:
        label = said.label.text if said.label is not None else None
        own = [lots[batch.label] for batch in batches if is_of(said, batch, batches)]
        if not own:
            continue
        read = last.get((label, said.taken_from), last.get((None, said.taken_from)))
        before = read or _at_start(own, start)
        days = (said.day.date - start).days
        against = _Against(None, None) if days <= 0 else _against(own, around, start, days, forecast)
        order = _Order(latest is not None and said.day.date < latest, days < 0, read is not None)
        facts.append(_reading(stack, said, own, before, against, order))
        latest = max(latest or said.day.date, said.day.date)
        if days >= 0 and not is_too_dry(said.moisture.si, against.held):
            last[label, said.taken_from] = _Before(said.day.date, said.moisture.si, assumed=False)
    return tuple(facts)


class _Order(NamedTuple):
    """Where a reading stands: before one above it, before the stack was built, after one of these boards."""

    back: bool
    early: bool
    follows: bool


class _Before(NamedTuple):
    """What a reading is set against; ``assumed`` where it was not measured."""

    day: datetime.date
    moisture: float
    assumed: bool

    @property
    def least(self) -> float:
        """The least that it may have been: of green boards the dry end of green."""
        return self.moisture * (1 - GREEN_DIFFERS) if self.assumed else self.moisture


class _Against(NamedTuple):
    """The driest that the boards of a reading could be by its day, and what a slow stack would be at."""

    held: float | None
    slow: float | None


def _at_start(own: list[Lot], start: datetime.date) -> _Before:
    """The moisture at the start, where all the boards of a reading have one figure. Boards that are said to be green
    are taken at the table's figure, and of different boards the driest counts."""
    figures = {lot.boards.moisture.si for lot in own if isinstance(lot.boards.moisture, Quantity)}
    if len(figures) == 1 and all(isinstance(lot.boards.moisture, Quantity) for lot in own):
        return _Before(start, figures.pop(), assumed=False)
    return _Before(start, min(lot.moisture.value for lot in own), assumed=True)


def _reading(
    stack: Stack, said: SaidReading, own: list[Lot], before: _Before, against: _Against, order: _Order
) -> Reading:
    safe = [found for lot in own if (found := safe_rates.of(lot.wood, lot.thickness)) is not None]
    least = min(safe, key=lambda each: each.per_day, default=None)
    now = said.moisture.si
    days = (said.day.date - before.day).days
    return Reading(
        where=said.where,
        date=said.day.date,
        boards=own[0].words if len(own) == 1 else "the boards",
        moisture=now,
        before=before.moisture,
        before_assumed=before.assumed,
        since=days * ONE_DAY if days > 0 else None,
        loss=(before.moisture - now) / days if days > 0 else None,
        loss_least=(before.least - now) / days if days > 0 else None,
        rise=now - before.moisture if days > 0 and not before.assumed else None,
        safe=least.per_day if least is not None else None,
        safe_memory=least.memory if least is not None else None,
        held=against.held,
        slow=against.slow,
        back=order.back,
        early=order.early,
        follows=order.follows,
        rained_on=_rained_on(stack),
        core=said.taken_from is ReadingFrom.CORE,
    )


def _against(
    own: list[Lot],
    around: Surroundings | NoForecast | None,
    start: datetime.date,
    days: int,
    forecast: Forecast | NoForecast,
) -> _Against:
    batches = batches_of(own)
    if isinstance(forecast, Forecast) and forecast.way is Way.KILN:
        driest = forecast.held[min(days, len(forecast.held) - 1)] if forecast.held else None
        return _Against(lowest(batches, driest), _slow_charge(own, forecast, days))
    if not isinstance(around, Surroundings):
        return _Against(None, None)
    driest = held(around, start, days)
    if driest is None:
        return _Against(None, None)
    return _Against(lowest(batches, driest), _slow(own, around.climate, start, days))


def _slow_charge(own: list[Lot], forecast: Forecast, days: int) -> float | None:
    """Of the wettest of the boards, by the slow curve of their kiln as if nothing had been read; green ones from the
    wet end of green."""
    labels = {lot.label: lot for lot in own}
    ends = []
    for each in forecast.batches:
        if each.batch.label in labels and each.unread is not None:
            from stacklint.drying.charge_readings import Course

            slow = Course(each.unread.slow.moisture)
            begins = _wet_end(labels[each.batch.label], each.batch)
            ends.append(slow.at(slow.age(begins) + days))
    return max(ends, default=None)


def _rained_on(stack: Stack) -> bool | None:
    open_yard = stack.place is None or stack.place.kind is PlaceKind.OPEN_YARD
    if "cover" in stack.faulty and stack.cover is None:
        return None
    return open_yard and (stack.cover is None or stack.cover.kind is CoverKind.NONE)


def _slow(own: list[Lot], climate: Climate, start: datetime.date, days: int) -> float:
    """Of the wettest of the boards, dried from the start at the slow pace; green ones from the wet end of green."""
    ends = []
    for lot, batch in zip(own, batches_of(own), strict=True):
        wet = _wet_end(lot, batch)
        ends.append(air_drying.after_days(wet, air_drying.rate(batch) * SLOW.rate, climate, start, days))
    return max(ends)


def _wet_end(lot: Lot, batch: Batch) -> float:
    """The moisture at the start: a figure as it is, of green boards the most that is likely."""
    return batch.moisture * (1.0 if isinstance(lot.boards.moisture, Quantity) else 1 + GREEN_DIFFERS)
