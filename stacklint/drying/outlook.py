"""The forecast of a stack, whatever it dries by, from what its plan says."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from stacklint.board_words import describe
from stacklint.drying import density, moisture
from stacklint.drying.batch import Batch
from stacklint.drying.forecast import Forecast, NoForecast, Pace, curve
from stacklint.drying.pile_forecast import pile_forecast
from stacklint.drying.surroundings import surroundings
from stacklint.plan.boards import Boards
from stacklint.plan.node import Quantity, Range
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln, Site
from stacklint.tables.wood import Wood
from stacklint.units import System


def outlook(
    stack: Stack,
    batches: Sequence[Batch],
    sites: Sequence[Site],
    kiln: Kiln | None,
    today: datetime.date,
    system: System = System.INCH,
) -> Forecast | NoForecast:
    """How a stack dries.

    Args:
        batches: its boards.
        today: taken for a day of stacking that is not given.
        system: of the units in the forecast's sentences.
    """
    if not batches:
        return NoForecast("How it dries is not forecast: no boards are listed.", "List its boards.")
    if _start_unread(stack):
        return NoForecast("How it dries is not forecast: the day it begins to dry could not be read.", "Mend the date.")
    start, assumed = start_of(stack, today)
    wanted = stack.want.moisture.si if stack.want is not None and stack.want.moisture is not None else None
    if stack.kind is StackKind.CHARGE:
        from stacklint.drying.charge_forecast import charge_forecast

        return charge_forecast(stack, batches, sites, kiln, start, wanted, assumed, system)
    around = surroundings(stack, sites, max(batch.moisture for batch in batches))
    if isinstance(around, NoForecast):
        return around
    measured = frozenset(boards.label.text for boards in stack.boards if isinstance(boards.moisture, Quantity))
    return pile_forecast(batches, around, start, wanted, stack.readings, measured, assumed)


def start_of(stack: Stack, today: datetime.date) -> tuple[datetime.date, tuple[str, ...]]:
    """The day on which a stack begins to dry, and what was assumed for it: that of its first reading, if any."""
    charge = stack.kind is StackKind.CHARGE
    said = (stack.starts or stack.stacked) if charge else stack.stacked
    if said is not None:
        return said.date, ()
    done = "starts" if charge else "is stacked"
    if stack.readings:
        first = min(reading.day.date for reading in stack.readings)
        taken = f"{first}, the day of its first reading, is taken"
    else:
        first, taken = today, f"{today} is taken"
    return first, (f"It is not said when the {stack.kind.value} {done}: {taken}.",)


def _start_unread(stack: Stack) -> bool:
    """A date that could not be read is not guessed."""
    if stack.kind is StackKind.CHARGE:
        return stack.starts is None and (
            "starts" in stack.faulty or (stack.stacked is None and "stacked" in stack.faulty)
        )
    return stack.stacked is None and "stacked" in stack.faulty


def batches_of(stack: Stack, woods: Mapping[str, Wood]) -> tuple[Batch, ...]:
    """The boards that a stack lists, whether they are laid in its courses or not."""
    return tuple(_batch(boards, woods[boards.wood.text]) for boards in stack.boards)


def moisture_on(forecast: Forecast, label: str, date: datetime.date) -> float | None:
    """The likely moisture content of a batch on a day; ``None`` before its start or if it is not of the stack.

    After the last day of its curve it is taken to stay as it was then.
    """
    day = (date - forecast.start).days
    for each in forecast.batches:
        if each.batch.label == label and day >= 0:
            likely = curve(each.spread, Pace.LIKELY).moisture
            return likely[min(day, len(likely) - 1)]
    return None


def _batch(boards: Boards, wood: Wood) -> Batch:
    volume = boards.wood_volume
    if volume is None:
        volume = (boards.count or 0) * boards.thickness.si * _middle(boards.width) * _middle(boards.length)
    return Batch(
        label=boards.label.text,
        words=describe(boards, wood.name),
        wood=wood,
        thickness=boards.thickness.si,
        moisture=moisture.of(boards, wood).value,
        dry_mass=density.oven_dry_mass(wood, volume),
        face=boards.face,
    )


def _middle(size: Quantity | Range | None) -> float:
    """SI. A width that is not given is random: 6 in, as the layout takes it."""
    if size is None:
        return 0.1524
    return size.middle_si if isinstance(size, Range) else size.si
