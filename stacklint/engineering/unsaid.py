"""What a plan leaves out that a verdict on its drying leans on: each becomes a note."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence

from stacklint.drying.batch import Batch
from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.drying.outlook import start_of
from stacklint.drying.surroundings import site_of
from stacklint.faults import Assumption
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln, KilnType, Site
from stacklint.units import System


def unsaid(
    stack: Stack,
    batches: Sequence[Batch],
    sites: Sequence[Site],
    kiln: Kiln | None,
    today: datetime.date,
    system: System,
    forecast: Forecast | NoForecast,
) -> Iterator[Assumption]:
    """Of a stack that says what it is wanted at: why it is not forecast, or what its forecast had to assume; of one
    with readings from when they are judged."""
    want = stack.want
    charge = stack.kind is StackKind.CHARGE
    _, said = start_of(stack, today)
    start = [Assumption(stack.name.where, text, "starts" if charge else "stacked") for text in said]
    if want is None or want.moisture is None or all(batch.moisture <= want.moisture.si for batch in batches):
        yield from start if stack.readings else ()
        return
    if isinstance(forecast, NoForecast):
        yield Assumption(want.where, f"{forecast.missing} {forecast.instead}", forecast.topic)
        return
    yield from start
    if not charge or (kiln is not None and _solar(stack, kiln, system)):
        _, said = site_of(stack, sites)
        where = stack.place.where if stack.place is not None else stack.name.where
        yield from (Assumption(where, text, "site") for text in said)
    if kiln is not None:
        yield from _of_kiln(stack, batches, kiln, system)


def _solar(stack: Stack, kiln: Kiln, system: System) -> bool:
    """The kiln dries by the sun of its site."""
    from stacklint.drying.charge_forecast import kiln_run
    from stacklint.drying.kiln_run import type_of

    return type_of(kiln_run(stack, kiln, None, system)) is KilnType.SOLAR


def _of_kiln(stack: Stack, batches: Sequence[Batch], kiln: Kiln, system: System) -> Iterator[Assumption]:
    from stacklint.drying import kiln_run
    from stacklint.drying.charge_forecast import kiln_run as run_of

    if stack.schedule is not None and stack.runs:
        text = "A schedule and settings are both given: it is forecast by the settings."
        yield Assumption(stack.schedule.where, text, "schedule")
    where = stack.kiln.where if stack.kiln is not None else stack.name.where
    for text in kiln_run.unsaid(batches, run_of(stack, kiln, None, system)):
        yield Assumption(where, text, "kiln")
