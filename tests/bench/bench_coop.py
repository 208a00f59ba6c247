"""How long a check of a whole co-op takes, and how much memory, as its plans grow in number.

    python tests/bench/bench_coop.py [--plans N ...] [--forms FORM ...] [--processes N ...]

Each run is a process of its own, on plans that tests/made_coop.py makes in a temporary folder. ``cold`` runs begin with
an empty cache, ``warm`` ones find all results in it. Told are seconds by the clock and of the processors (all processes
together), plans a second by the clock, and the peak memory of the first process and of all together (what they share
counted once; needs Linux). On a machine that does other work beside, the seconds of the clock say little.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[1]))

from made_coop import TODAY, Fault, seeded

_EVERY = 0.1
"""Seconds between two looks at the memory."""
_ONE_IN = 100
"""Plans of which one has a fault."""


class Cost(NamedTuple):
    clock: float
    processors: float
    first: float
    """Peak memory, MB."""
    together: float


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--plans", type=int, nargs="+", default=[100, 1_000, 10_000])
    parser.add_argument("--forms", nargs="+", default=["lines", "json", "sarif"])
    parser.add_argument("--processes", type=int, nargs="+", default=[1, 2])
    options = parser.parse_args()
    print(" plans form   processes        clock     CPU  plans/s    first      all")
    for plans in options.plans:
        with tempfile.TemporaryDirectory() as folder:
            coop = seeded(1, plans, dict.fromkeys((Fault.WIDE, Fault.SPOT_TWICE), max(plans // _ONE_IN // 2, 1)))
            coop.write(Path(folder, "coop"))
            count = sum(path.endswith(".stackplan") for path in coop.texts)
            for form in options.forms:
                for processes in options.processes:
                    for kind, cost in _runs(Path(folder), form, processes):
                        print(
                            f"{count:6} {form:6} {processes:9} {kind} {cost.clock:6.1f}s {cost.processors:6.1f}s"
                            f" {count / cost.clock:8.0f} {cost.first:5.0f} MB {cost.together:5.0f} MB",
                            flush=True,
                        )


def _runs(folder: Path, form: str, processes: int) -> Iterator[tuple[str, Cost]]:
    cache = folder / f"cache-{form}-{processes}"
    words = [str(folder / "coop"), "--as", form, "--today", str(TODAY), "--cache", str(cache)]
    for kind in ("cold", "warm"):
        yield kind, _measured(["check", *words, "--processes", str(processes), "--out", str(folder / "report")])


def _measured(words: list[str]) -> Cost:
    start = time.perf_counter()
    process = subprocess.Popen([sys.executable, "-m", "stacklint", *words], stderr=subprocess.DEVNULL)
    together = 0.0
    while True:
        pid, _, used = os.wait4(process.pid, os.WNOHANG)
        if pid:
            break
        together = max(together, sum(map(_memory, [process.pid, *_helpers(process.pid)])))
        time.sleep(_EVERY)
    clock = time.perf_counter() - start
    process.returncode = 0
    return Cost(clock, used.ru_utime + used.ru_stime, used.ru_maxrss / 1e3, together)


def _helpers(pid: int) -> list[int]:
    try:
        return list(map(int, Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()))
    except OSError:
        return []


def _memory(pid: int) -> float:
    """MB, of what processes share each its part."""
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii").split("\n")
    except OSError:
        return 0.0
    return next((float(line.split()[1]) / 1e3 for line in lines if line.startswith("Pss:")), 0.0)


if __name__ == "__main__":
    main()
