"""What governs a charge in a kiln and what was assumed of it, in sentences."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import NamedTuple

from stacklint.drying.batch import Batch
from stacklint.drying.kiln_run import KilnRun, Running, Stage, type_of, unknown_limits
from stacklint.plan.yard import KilnType
from stacklint.show import rounded, show
from stacklint.tables import safe_rates
from stacklint.tables.wood import Origin
from stacklint.units import ONE_DAY, WATER_RATE

LAW = Origin(
    "Drying equation for red oak in constant air, encyclopedia article on wood drying, quoted in a teaching notebook; "
    "https://raw.githubusercontent.com/damontallen/Construction-materials/master/Red%20Oak%20Drying%20Time.ipynb",
    memory=False,
)
TIMES = Origin("FPL Technical Note 233 (1960), kiln-drying periods of 1-inch lumber; table not read", memory=True)

_AS_RECKONED = 0.05


class Told(NamedTuple):
    """What the sentences are about. ``factor`` is that on the time, for a charge that goes on from its readings."""

    batches: Sequence[Batch]
    how: Running
    wanted: float | None
    run: KilnRun
    factor: float | None = None


class Paced(NamedTuple):
    """What set the pace of each likely day: which batches the safe loss held, whether the machine was short, and the
    stage; and the day from which on nothing dries any more."""

    held: Sequence[Sequence[bool]]
    short: Sequence[bool]
    stages: Sequence[Stage]
    stands: int | None


def governs(told: Told, paced: Paced) -> tuple[str, ...]:
    """What sets the pace: the safe daily loss, the machine, else the schedule. Each day has one of them."""
    said: list[str] = []
    if told.factor is not None and abs(told.factor - 1) > _AS_RECKONED:
        said.append(f"By its readings it dries at {told.factor:.0%} of the pace that its kiln and wood would have.")
    if told.how.share <= 0:
        return (*said, "Its fans never run: nothing dries.")
    days = _setters(told, paced)
    for setter in dict.fromkeys(days):
        said.append(f"{setter} {_when([day == setter for day in days], told)}.")
    if paced.stands is not None:
        stage = paced.stages[-1]
        why = f"the kiln's air holds the wood at {stage.condition.emc:.1%}"
        if stage.limit <= 0:
            why = f"{told.how.machine} takes no water out of this air"
        said.append(f"Then nothing dries any more: {why}." if days else f"Nothing dries: {why}.")
    if len(told.batches) > 1 and days:
        wettest = max(told.batches, key=lambda batch: batch.moisture)
        now = "at first" if told.factor is None else "at the last reading"
        said.append(f"The wettest boards, {wettest.words} {now}, set the steps for the whole charge.")
    return tuple(said)


def _setters(told: Told, paced: Paced) -> list[str]:
    """What sets the pace on each day, until nothing dries any more; days are as long as the readings make them."""
    count = len(paced.short) if paced.stands is None else paced.stands
    machine = _machine(told, paced)
    safe = [_safe(batch) for batch in told.batches]
    setters = []
    for held, late in zip(paced.held[:count], paced.short[:count], strict=True):
        if late:
            setters.append(f"{machine} sets the pace")
        elif any(held):
            setters.append(_held([words for words, is_held in zip(safe, held, strict=True) if is_held]))
        else:
            setters.append(told.how.pace)
    if told.factor is None or not count:
        return setters
    return [setters[min(int(day * told.factor), count - 1)] for day in range(ceil(count / told.factor))]


def _safe(batch: Batch) -> str:
    safe = safe_rates.of(batch.wood, batch.thickness)
    return f"{batch.words} ({rounded(safe.per_day * 100, 2)}% a day)" if safe is not None else batch.words


def _held(batches: Sequence[str]) -> str:
    *first, last = dict.fromkeys(batches)
    if not first:
        return f"The safe daily loss of {last} sets the pace"
    return f"The safe daily losses of {', '.join(first)} and {last} set the pace"


def _machine(told: Told, paced: Paced) -> str:
    """A dehumidifier by its label and by what it takes out of the air that it stands in."""
    if type_of(told.run) is not KilnType.DEHUMIDIFICATION or told.run.removes is None:
        return told.how.machine
    takes = [stage.limit / ONE_DAY for stage, late in zip(paced.stages, paced.short, strict=True) if late]
    if not takes:
        return told.how.machine
    low, high = (show(take, WATER_RATE, told.run.system).split()[0] for take in (min(takes), max(takes)))
    about = low if low == high else f"{low} to {high}"
    return f"{told.how.machine} on its label, about {about} in this air,"


def _when(days: Sequence[bool], told: Told) -> str:
    """Days counted from the start, or from the last reading."""
    count, onward = sum(days), told.factor is not None
    unit = "day" if count == 1 else f"{count} days"
    if count == len(days):
        return "from the last reading on" if onward else "throughout"
    if all(days[:count]):
        return f"for the next {unit}" if onward else f"for the first {unit}"
    if all(days[-count:]):
        return f"for the last {unit}"
    return "on 1 day" if count == 1 else f"on {count} days"


def assumed(told: Told) -> tuple[str, ...]:
    said = list(told.how.assumed)
    if told.wanted is None:
        said.insert(0, "No moisture content is wanted; the run is reckoned to 8%.")
    said += unknown_limits(told.batches)
    first = told.how.months[0][0].condition
    if len(told.batches) > 1 and any(batch.moisture < first.emc for batch in told.batches):
        said.append("Boards drier than the air of the first steps are taken to stay so; they take up a little.")
    return tuple(said)


def origins(told: Told) -> tuple[Origin, ...]:
    found = [*told.how.origins]
    for batch in told.batches:
        safe = safe_rates.of(batch.wood, batch.thickness)
        if safe is not None:
            found.append(Origin(safe.source, safe.memory))
    return tuple(dict.fromkeys((*found, TIMES, LAW)))
