"""Forecasts made by hand for the reports to show: boards that dry as an exponential decay, whose days are known."""

from __future__ import annotations

import datetime
import math
from typing import Any

from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.climate import Air
from stacklint.drying.forecast import BatchForecast, Forecast, NoForecast, Shorter, Step, Way
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Day, Reading, Stack, StackKind, Want
from stacklint.tables import woods
from stacklint.tables.wood import Origin
from stacklint.units import System, Unit
from stacklint.where import Where

START = datetime.date(2026, 4, 2)
FOLLOWED = 1095
"""Days after which boards that have not got there are given up."""
GREEN = 0.8
DRY_MASS = 500.0


def decay(days: float, floor: float, wanted: float | None, green: float = GREEN) -> Curve:
    """Moisture that nears ``floor`` by a factor e in so many days, up to the morning when ``wanted`` is reached."""
    reached = None
    if wanted is not None and wanted > floor:
        reached = days * math.log((green - floor) / (wanted - floor))
        reached = reached if reached <= FOLLOWED else None
    last = FOLLOWED if reached is None else math.ceil(reached)
    return Curve(tuple(floor + (green - floor) * math.exp(-day / days) for day in range(last + 1)), reached)


def batch(label: str = "a", days: float = 40.0, *, floor: float, wanted: float | None, **more: Any) -> BatchForecast:
    """A batch of white ash that takes 0.7 to 1.4 times its likely time."""
    wood = woods.find("white ash")
    assert wood is not None
    one = Batch(label, f"white ash, {days:g} days", wood, 0.0254, GREEN, DRY_MASS)
    curves = (decay(days * factor, floor, wanted) for factor in (0.7, 1.0, 1.4))
    return BatchForecast(one, Spread(*curves), **more)


def forecast(*batches: BatchForecast, wanted: float | None = 0.12, floor: float = 0.1, **changes: Any) -> Forecast:
    """In open air unless ``changes`` say otherwise; of one batch if none is given."""
    batches = batches or (batch(floor=floor, wanted=wanted),)
    longest = max(len(each.spread.likely.moisture) for each in batches)
    water = [0.0] * (longest - 1)
    for each in batches:
        curve = each.spread.likely.moisture
        for day in range(len(curve) - 1):
            water[day] += each.batch.dry_mass * (curve[day] - curve[day + 1])
    values: dict[str, Any] = {
        "way": Way.OPEN_AIR,
        "start": START,
        "wanted": wanted,
        "batches": batches,
        "water": tuple(water),
        "air": tuple(Air(-5.0, 0.7) for _ in water),
        "floor": floor,
        "air_words": "the air of Cold Hollow",
        "governs": ("The thickest boards set the time.",),
        "shorter": (Shorter("stacked in May", datetime.date(2026, 8, 20), 23.0),),
        "assumed": ("The air of the nearest station stands for the yard.",),
        "origins": (Origin("A handbook, chapter 4", False), Origin("A manual, chapter 7", True)),
    }
    return Forecast(**(values | changes))


def in_kiln(**changes: Any) -> Forecast:
    """With 12 to 24 h of conditioning at the end."""
    step = Step("conditioning", 12 * 3600.0, 24 * 3600.0, "conditioned in damp air")
    return forecast(way=Way.KILN, after=(step,), air_words='kiln "North box"', **changes)


def percentage(number: float) -> Quantity:
    return Quantity(number=number, unit=Unit.PERCENT)


def reading(day: datetime.date, moisture: float, *, of: str | None = None) -> Reading:
    return Reading(day=Day(date=day), moisture=percentage(moisture), label=Name(text=of) if of else None)


def stack(name: str = "B2", due: datetime.date | None = datetime.date(2026, 10, 1), **parts: Any) -> Stack:
    values: dict[str, Any] = {
        "kind": StackKind.PILE,
        "name": Name(text=name),
        "title": "Ash for flooring",
        "where": Where("b2.stackplan", 5, 1, 5, 30),
        "want": Want(moisture=percentage(12), by=Day(date=due) if due else None),
    }
    return Stack(**(values | parts))


def checked(made: Forecast | NoForecast | None, name: str = "B2", **parts: Any) -> CheckedStack:
    return CheckedStack(stack(name, **parts), None, None, made)


def plan(*stacks: CheckedStack, path: str = "b2.stackplan", system: System = System.INCH) -> CheckedPlan:
    return CheckedPlan(path, system, stacks, ())
