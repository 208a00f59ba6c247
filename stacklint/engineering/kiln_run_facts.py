"""Facts of how a charge is run: its schedule against the published one, its machine against its water."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stacklint.drying import schedule
from stacklint.drying.charge_forecast import air_of
from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.drying.kiln_drying import WANTED
from stacklint.engineering.lots import Lot
from stacklint.plan.stack import Stack
from stacklint.tables import schedules
from stacklint.tables.schedules import Published


def kiln_run(stack: Stack, lots: Mapping[str, Lot], forecast: Forecast | NoForecast) -> dict[str, Any]:
    """What the machine must take out, and where the schedule is harsher than that of any of the boards."""
    facts: dict[str, Any] = {"run_stated": stack.schedule is not None or bool(stack.runs)}
    if isinstance(forecast, Forecast) and forecast.machine is not None:
        facts |= {
            "water_scheduled": forecast.machine.scheduled,
            "water_safe": forecast.machine.safe,
            "dryer_takes": forecast.machine.takes,
        }
    return facts | _schedule(stack, lots)


def _schedule(stack: Stack, lots: Mapping[str, Lot]) -> dict[str, Any]:
    said = schedules.known(stack.schedule.text) if stack.schedule is not None else None
    airs = [air_of(setting) for setting in stack.runs]
    if said is None and not airs:
        return {}
    all_known = True
    for lot in lots.values():
        published = schedules.published(lot.wood, lot.thickness)
        if published is None:
            all_known = False
            continue
        found = schedule.harsher(said, published.code, lot.moisture.value) if said is not None else None
        if found is not None:
            return _harsher(published, f"schedule {said}", found.words)
        for air, moisture in zip(airs, _begins(stack, lot.moisture.value), strict=True):
            found = schedule.harsher_air(air, published.code, moisture) if air is not None else None
            if found is not None:
                return _harsher(published, "the air that the kiln runs at", found.words)
    return {"schedule_harsher": "" if all_known else None}


def _begins(stack: Stack, start: float) -> list[float]:
    """The moisture at which each setting begins: they share the way to what is wanted evenly, as in the forecast."""
    wanted = stack.want.moisture.si if stack.want is not None and stack.want.moisture is not None else WANTED
    count = len(stack.runs)
    return [start - (start - min(wanted, start)) * index / count for index in range(count)]


def _thicknesses(row: str) -> str:
    """``4/4 to 6/4`` of a row for ``4/4;5/4;6/4``."""
    first, *others = row.split(";")
    return f"{first} to {others[-1]}" if others else first


def _harsher(published: Published, said: str, words: str) -> dict[str, Any]:
    return {
        "schedule_said": said,
        "schedule_published": published.code,
        "schedule_boards": f"{published.row} {_thicknesses(published.thickness)}",
        "schedule_harsher": words,
        "schedule_memory": published.origin.memory,
    }
