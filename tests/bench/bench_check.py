"""Prints what a check costs: CPU of one run from start to end, plans a second, and the share of each stage.

Run it with ``python tests/bench/bench_check.py``. No test depends on these figures.
"""

from __future__ import annotations

import datetime
import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

from stacklint import checking as road
from stacklint import language
from stacklint.engineering import stack_facts
from stacklint.rulebook import builtin

TODAY = datetime.date(2026, 6, 1)
EXAMPLE = Path(__file__).parent.parent.parent / "examples" / "sound-pile.stackplan"

PLAN = """\
# A pile of {count} boards.
site "Larch Bottom {number}"
  near "Burlington, VT"

pile "Row {number}" "Boards for flooring"
  place open yard, site "Larch Bottom {number}", in the shade
  spot "row {number}"
  sawn 2026-03-30
  stacked 2026-04-02
  boards a: {count} of white ash 4/4 x 6 in x 8 ft, green, flatsawn
  boards b: {other} of white ash 4/4 x 7 in x 12 ft, green, flatsawn
  boards c: {other} of white ash 4/4 x 7 in x 4 ft, 35%
  stack 16 ft x 4 ft, boards 1/2 in apart
  stickers 3/4 in x 1 1/2 in, every 24 in, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  clearance 14 in
  ground gravel, flat, drained
  cover sheet metal, overhang 18 in, gap 4 in, slope 1 in 12, tied
  sides shade cloth
  wind across
  top load 30 psf
  ends coated
  want 14% by 2027-05-01 for flooring
  reading 2026-05-10 41%
  waive lift-too-heavy because "lifted by machine" until 2027-01-01
"""

CHARGE = """\
# A charge of {count} boards of two thicknesses.
kiln "Box {number}"
  type dehumidification
  inside 18 ft x 7 ft x 8 ft
  holds 2000 bf
  carries 12000 lb
  heats to 150 F
  removes 100 pt/day
  fans 4 of 1800 cfm
  plenum 18 in

charge "Run {number}" in kiln "Box {number}"
  starts 2026-05-20
  schedule T8-B4
  baffles top, ends, floor
  boards a: {count} of white ash 4/4 x 6 in x 8 ft, 40%, flatsawn
  boards b: {other} of white ash 5/4 x 6 in x 8 ft, 35%, flatsawn
  stack 16 ft x 4 ft, boards 1/2 in apart
  stickers 3/4 in x 1 1/2 in, every 24 in, dry, 4 ft long
  top load 40 psf
  ends coated
  sterilize
  hold 150 F for 3 h
  want 7% by 2026-07-15 for flooring
  reading 2026-05-24 32% of a
"""


def plans(count: int, text: str = PLAN) -> list[str]:
    """So many plans of 25 lines, no two alike."""
    return [text.format(number=n, count=60 + 2 * (n % 40), other=10 + n % 17) for n in range(count)]


def cpu_of_one_check(runs: int = 15) -> list[float]:
    """User and system seconds of ``stacklint check`` as a whole process."""
    figures = []
    for _ in range(runs):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        command = [sys.executable, "-m", "stacklint", "check", str(EXAMPLE), "--as", "lines", "--today", "2026-06-01"]
        subprocess.run(command, check=False, capture_output=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        figures.append(after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime)
    return figures


def plans_a_second(texts: list[str]) -> float:
    book = builtin()
    start = time.process_time()
    for text in texts:
        road.check(text, "plan", book=book, today=TODAY)
    return len(texts) / (time.process_time() - start)


def stages(texts: list[str]) -> dict[str, float]:
    """CPU seconds of reading, layout, engineering and rules, by wrapping each for the time of the run."""
    spent: dict[str, float] = {}
    kept = (language.read, road.arrange, road.gather, road.judge)
    names = ("reading", "layout", "engineering", "rules")

    def timed(name, work):  # type: ignore[no-untyped-def]
        def run(*args, **kwargs):  # type: ignore[no-untyped-def]
            start = time.process_time()
            try:
                return work(*args, **kwargs)
            finally:
                spent[name] = spent.get(name, 0.0) + time.process_time() - start

        return run

    language.read, road.arrange, road.gather, road.judge = (
        timed(name, work) for name, work in zip(names, kept, strict=True)
    )
    try:
        plans_a_second(texts)
    finally:
        language.read, road.arrange, road.gather, road.judge = kept
    return spent


def main() -> None:
    once = cpu_of_one_check()
    middle = statistics.median(once)
    print(f"one check, start to end: median {middle:.3f} s of CPU, least {min(once):.3f}, most {max(once):.3f}")
    texts = plans(600)
    plans_a_second(texts[:50])
    rates = [plans_a_second(texts) for _ in range(3)]
    print(
        f"in one process: {statistics.median(rates):.0f} plans of {len(PLAN.splitlines())} lines a second on one core"
    )
    charges = plans(200, CHARGE)
    plans_a_second(charges[:20])
    rate = statistics.median(plans_a_second(charges) for _ in range(3))
    print(
        f"in one process: {rate:.0f} charges of {len(CHARGE.splitlines())} lines a second, two thicknesses, a reading"
    )
    spent = stages(texts)
    whole = sum(spent.values())
    for name, seconds in spent.items():
        print(f"  {name:12} {seconds / len(texts) * 1000:6.2f} ms a plan, {seconds / whole:4.0%}")


if __name__ == "__main__":
    assert stack_facts.gather is road.gather
    main()
