"""Fits each wood's factor in the law of kiln drying to its published time, and writes the table.

Run it with ``python -m stacklint.drying.kiln_fit`` after a change of the law, the schedules or the times. The times
are those from green to 6% for 1 in lumber in ordinary kilns (FPL Technical Note 233, memory), each on the wood's own
schedule, with the share that the table of kin gives a wood of another's row. Their low end is the fastest reported
and often cost quality, so the fit does not hold to the safe daily loss; a forecast does, and takes longer where that
loss governs.
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from math import inf, sqrt
from pathlib import Path

from stacklint.drying.kiln_law import Factors, days_to
from stacklint.drying.schedule import assemble, conditions
from stacklint.tables import schedules, woods
from stacklint.tables.kin import kin_of
from stacklint.tables.rows import Row, read
from stacklint.tables.wood import Wood
from stacklint.units import ONE_INCH, Unit

FITTED_TO = 0.06
ORDINARY_KILN = Unit.FAHRENHEIT.to_si(180)


def days_on(
    code: str, speed: float, moisture: float, wanted: float, safe: float = inf, hottest: float = ORDINARY_KILN
) -> float:
    """Days on a schedule for one batch that sets its steps itself. ``speed`` multiplies the air's pull."""
    days = 0.0
    for step in conditions(assemble(code), hottest):
        end = max(step.until, wanted)
        if moisture > end:
            days += days_to(moisture, end, step.emc, speed * step.pull, safe)
            moisture = end
    return days


def code_of(wood: Wood, thickness: float) -> str:
    row = schedules.published(wood, thickness)
    return row.code if row is not None else schedules.mild(wood)


def fit(wood: Wood, low: float, high: float) -> Factors:
    """The factors that dry 1 in boards of a wood from green to 6% in ``high``, the geometric mean, and ``low`` days."""
    code = code_of(wood, ONE_INCH)

    def factor(days: float) -> float:
        return solve(lambda speed: days_on(code, speed, wood.mc_green, FITTED_TO) - days)

    return Factors(factor(high), factor(sqrt(low * high)), factor(low))


def solve(late: Callable[[float], float]) -> float:
    """Where a function that falls from a high positive number passes 0, between 0.001 and 1,000."""
    low, high = 1e-3, 1e3
    for _ in range(80):
        middle = sqrt(low * high)
        if late(middle) > 0:
            low = middle
        else:
            high = middle
    return sqrt(low * high)


def published_times(start: str) -> dict[str, Row]:
    """The rows of times in ordinary kilns to 6%, from ``green`` or from ``20`` percent, by the name of the row."""
    rows = (row for row in read("kiln_drying_times") if row["kiln_type"] == "conventional")
    return {row["species"]: row for row in rows if row["to_mc_pct"] == "6" and row["from_mc_pct"] == start}


def fitted() -> list[tuple[str, str, Factors, Row]]:
    """Every wood of the table of kin, with the row that it goes by and its factors."""
    times = published_times("green")
    found = []
    for name in (row["wood"] for row in read("drying_kin")):
        wood = woods.find(name)
        if wood is None:
            raise LookupError(f"the table of kin names {name}, which the table of woods lacks")
        kin = kin_of(wood)
        row = times[kin.kiln]
        low, high = (float(row[end]) * kin.kiln_factor for end in ("days_low", "days_high"))
        found.append((name, kin.kiln, fit(wood, low, high), row))
    return found


def write(path: Path) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(("wood", "row", *Factors._fields, "source", "how"))
        for name, row_name, factors, row in fitted():
            how = f"computed from {row['how']}"
            table.writerow((name, row_name, *(f"{each:.4g}" for each in factors), row["source"], how))


if __name__ == "__main__":
    write(Path(__file__).parents[1] / "tables" / "kiln_rates.csv")
