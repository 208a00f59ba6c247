"""Facts of how a charge is run: its schedule against the published one, its machine against its water."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stacklint.drying import schedule
from stacklint.drying.charge_forecast import air_of
from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.engineering.lots import Lot
from stacklint.plan.stack import Stack
from stacklint.tables import schedules
from stacklint.tables.schedules import Published


def kiln_run(stack: Stack, lots: Mapping[str, Lot], forecast: Forecast | NoForecast) -> dict[str, Any]:
    """What the machine must take out, and where the schedule is harsher than that of any of the boards."""
    facts: dict[str, Any] = {}
    if isinstance(forecast, Forecast) and forecast.machine is not None:
        facts |= {
            "water_scheduled": forecast.machine.scheduled,
            "water_safe": forecast.machine.safe,
            "dryer_takes": forecast.machine.takes,
        }
    return facts | _schedule(stack, lots)


def _schedule(stack: Stack, lots: Mapping[str, Lot]) -> dict[str, Any]:
    said = schedules.known(stack.schedule.text) if stack.schedule is not None else None
    air = air_of(stack.runs[0]) if stack.runs else None
    if said is None and air is None:
        return {}
    for lot in lots.values():
        published = schedules.published(lot.wood, lot.thickness)
        if published is None:
            continue
        if said is not None:
            found = schedule.harsher(said, published.code, lot.moisture.value)
        else:
            assert air is not None
            found = schedule.harsher_air(air, published.code, lot.moisture.value)
        if found is not None:
            words = f"schedule {said}" if said is not None else "the air that the kiln runs at"
            return _harsher(published, words, found.words)
    return {"schedule_harsher": ""}


def _harsher(published: Published, said: str, words: str) -> dict[str, Any]:
    return {
        "schedule_said": said,
        "schedule_published": published.code,
        "schedule_boards": f"{published.row} {_thicknesses(published.thickness)}",
        "schedule_harsher": words,
        "schedule_memory": published.origin.memory,
    }
