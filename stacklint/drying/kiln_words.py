"""What governs a charge in a kiln and what was assumed of it, in sentences."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stacklint.drying.batch import Batch
from stacklint.drying.kiln_run import Running, unknown_limits
from stacklint.show import rounded
from stacklint.tables import safe_rates
from stacklint.tables.wood import Origin

LAW = Origin(
    "Drying equation for red oak in constant air, encyclopedia article on wood drying, quoted in a teaching notebook; "
    "https://raw.githubusercontent.com/damontallen/Construction-materials/master/Red%20Oak%20Drying%20Time.ipynb",
    memory=False,
)
TIMES = Origin("FPL Technical Note 233 (1960), kiln-drying periods of 1-inch lumber; table not read", memory=True)


class Told(NamedTuple):
    """What the sentences are about."""

    batches: Sequence[Batch]
    how: Running
    wanted: float | None


def governs(told: Told, held: Sequence[Sequence[bool]], short: Sequence[bool]) -> tuple[str, ...]:
    """What sets the pace: the safe daily loss, the machine, else the schedule."""
    said: list[str] = []
    for index, batch in enumerate(told.batches):
        days = [day[index] and not late for day, late in zip(held, short, strict=True)]
        safe = safe_rates.of(batch.wood, batch.thickness)
        if safe is not None and any(days):
            what = f"The safe daily loss of {batch.words} ({rounded(safe.per_day * 100, 2)}% a day)"
            _say(said, f"{what} sets the pace {_when(days)}.")
    if any(short):
        said.append(f"{told.how.machine} sets the pace {_when(short)}.")
    kept = [not late and not any(day) for day, late in zip(held, short, strict=True)]
    if any(kept):
        said.append(f"{told.how.pace} {_when(kept)}.")
    if len(told.batches) > 1 and held:
        wettest = max(told.batches, key=lambda batch: batch.moisture)
        said.append(f"The wettest boards, {wettest.words} at first, set the steps for the whole charge.")
    return tuple(said)


def _when(days: Sequence[bool]) -> str:
    count = sum(days)
    if count == len(days):
        return "throughout"
    unit = "day" if count == 1 else f"{count} days"
    if all(days[:count]):
        return f"for the first {unit}"
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


def _say(sentences: list[str], sentence: str) -> None:
    if sentence not in sentences:
        sentences.append(sentence)
