"""Prints how far forecasts of kiln drying lie from published times, and what they cost.

Each wood's factor is fitted to its own time from green, without the safe loss. Of the times from 20% none is used for
its own wood, but one number, the slowing below 20%, was chosen on all of them together: they are no independent test.

Run it with ``PYTHONPATH=tests python tests/bench/bench_kiln_times.py``. No test depends on what it prints.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterable
from math import exp, log, sqrt
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from kiln_charges import JUNE, VENTED, batch, days, dehumidifier, wood

from stacklint.drying.kiln_drying import dry
from stacklint.drying.kiln_fit import published_times
from stacklint.drying.kiln_law import SLOWING
from stacklint.tables import woods
from stacklint.tables.kin import kin_of


def usual(start: str, name: str) -> float:
    row = published_times(start)[kin_of(wood(name)).kiln]
    return sqrt(float(row["days_low"]) * float(row["days_high"])) * kin_of(wood(name)).kiln_factor


def one_of_each_row() -> list[str]:
    found: dict[str, str] = {}
    for name in woods.names():
        if wood(name).hardwood:
            found.setdefault(kin_of(wood(name)).kiln, name)
    return list(found.values())


def spread(label: str, ratios: Iterable[float]) -> None:
    logs = sorted(log(ratio) for ratio in ratios)
    mean = exp(sum(logs) / len(logs))
    apart = sorted(abs(each) for each in logs)
    within = [exp(apart[int(share * (len(apart) - 1))]) for share in (0.5, 2 / 3, 0.9, 1.0)]
    print(f"{label:34} n {len(logs):2}  mean {mean:.2f}  half, 2/3, 9/10, all within x", end=" ")
    print(", ".join(f"{each:.2f}" for each in within))


def main() -> None:
    names = one_of_each_row()
    print(f"forecast over published days (geometric mean of the range); rate below 20% times {SLOWING}")
    spread("green to 6%, held to safe loss", (days(batch(name)) / usual("green", name) for name in names))
    spread("20% to 6%, no wood's own used", (days(batch(name, moisture=0.20)) / usual("20", name) for name in names))
    spread("8/4 over 4/4, against 2.5", (days(batch(name, 2)) / days(batch(name)) / 2.5 for name in names))
    print("\nwood                       green  published   from 20%  published   8/4 over 4/4")
    for name in names:
        green, turn = (published_times(start)[kin_of(wood(name)).kiln] for start in ("green", "20"))
        row = [days(batch(name)), days(batch(name, moisture=0.20)), days(batch(name, 2)) / days(batch(name))]
        print(
            f"{name:25} {row[0]:6.1f}  {green['days_low']:>4} to {green['days_high']:<4}"
            f"{row[1]:8.1f}  {turn['days_low']:>4} to {turn['days_high']:<4} {row[2]:8.2f}"
        )
    cost()


def cost() -> None:
    charge = [batch("northern red oak", 1), batch("black cherry", 2, 0.30)]
    for label, run in (("vented", VENTED), ("dehumidifier, 60 pt/day", dehumidifier(60, 110, 20))):
        dry(charge, run, 0.08, JUNE)
        begun = time.process_time()
        for _ in range(100):
            dry(charge, run, 0.08, JUNE)
        print(f"two batches, three paces and alone, {label}: {(time.process_time() - begun) * 10:.2f} ms")


if __name__ == "__main__":
    main()
