"""Changes the code in small ways, a sample of them, and says which changes no test notices.

    python tests/mutation/sample.py --count 300

mutmut (its settings stand in ``pyproject.toml``) makes every mutant of the engineering, the layout and the rule engine
in the folder ``mutants/`` and runs the tests that reach it. Of tens of thousands a seeded sample is run. Printed are
the share of each module's mutants that a test noticed, and the survivors; ``mutmut show NAME`` shows one.
"""

from __future__ import annotations

import argparse
import json
import random
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

MUTANTS = Path("mutants")
AT_ONCE = 100
"""Names given to one run: a command line holds no more than so many."""
SURVIVED = 0
NO_TESTS = 33


class Mutant(NamedTuple):
    """A change, by the name that mutmut gives it, and the exit code of the tests; ``None`` where they were not run."""

    module: str
    name: str
    code: int | None

    @property
    def noticed(self) -> bool:
        return self.code not in (None, SURVIVED, NO_TESTS)


def mutants() -> Iterator[Mutant]:
    """All that were made, module by module."""
    for path in sorted(MUTANTS.rglob("*.meta")):
        module = str(path.relative_to(MUTANTS)).removesuffix(".meta")
        codes = json.loads(path.read_text(encoding="utf-8"))["exit_code_by_key"]
        yield from (Mutant(module, name, code) for name, code in codes.items())


def sample(made: Sequence[Mutant], count: int, seed: int) -> list[str]:
    """Of every module its share, at the least one."""
    chance = random.Random(seed)
    by_module: dict[str, list[str]] = {}
    for mutant in made:
        by_module.setdefault(mutant.module, []).append(mutant.name)
    share = count / max(len(made), 1)
    found = []
    for names in by_module.values():
        found += chance.sample(names, min(len(names), round(len(names) * share) or 1))
    return found


def run(names: Sequence[str]) -> None:
    for start in range(0, len(names), AT_ONCE):
        subprocess.run([sys.executable, "-m", "mutmut", "run", *names[start : start + AT_ONCE]], check=True)


def told(names: Sequence[str]) -> Iterator[str]:
    """The score of each module, and what survived."""
    chosen = set(names)
    ran = [mutant for mutant in mutants() if mutant.name in chosen]
    for module in dict.fromkeys(mutant.module for mutant in ran):
        own = [mutant for mutant in ran if mutant.module == module]
        yield f"{sum(mutant.noticed for mutant in own):4} of {len(own):4}  {module}"
    yield f"{sum(mutant.noticed for mutant in ran):4} of {len(ran):4}  in all"
    for mutant in ran:
        if not mutant.noticed:
            yield f"{'reached by no test' if mutant.code == NO_TESTS else 'survived'}: {mutant.name}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=300, help="how many mutants, about (300)")
    parser.add_argument("--seed", type=int, default=1, help="which of them (1)")
    given = parser.parse_args()
    # A name that no mutant has makes them all and runs none.
    subprocess.run([sys.executable, "-m", "mutmut", "run", "none"], check=False)
    names = sample(tuple(mutants()), given.count, given.seed)
    run(names)
    print("\n".join(told(names)))


if __name__ == "__main__":
    main()
