"""Prints how the work grows with what a text has many of: seconds at the largest size, and the exponent.

Run it with ``python tests/bench/bench_growth.py [PART OF A NAME]``. Each text is made for n, 2n and 4n, n so large that
it shows, and the exponent is half the binary logarithm of how much longer 4n takes than n: 1 is in proportion, 2 is
quadratic. What a limit cuts off does not grow and shows an exponent near 0. No test depends on these figures.
"""

from __future__ import annotations

import argparse
import datetime
import math
import sys
import time
from collections.abc import Callable, Mapping
from pathlib import Path

sys.path.append(str(Path(__file__).parent.parent))
from growing_texts import PLANS, RULES, TALLIES, Growing

from stacklint.changes import changed, diff, line_changes
from stacklint.checking import check
from stacklint.convert import convert
from stacklint.editor.findings import told_of_plan, told_of_rules
from stacklint.editor.names import laid, mentions
from stacklint.editor.symbols import folds, plan_symbols, rule_symbols
from stacklint.language import read
from stacklint.language.lines import LONGEST
from stacklint.mending import mends
from stacklint.report.answer import Answer, Answers
from stacklint.report.coop_page import coop_html
from stacklint.report.coop_plan import coop_plan
from stacklint.report.json_output import as_json
from stacklint.report.kept import kept
from stacklint.report.lines import lines
from stacklint.report.sarif import as_sarif
from stacklint.rulebook import builtin, load
from stacklint.tidying import tidied

TODAY = datetime.date(2026, 6, 1)
SHOWS = 0.04
"""Seconds at n that are surely more than the clock's own trouble."""
QUICK = 0.3
"""Seconds up to which the best of three is taken."""
TOO_LONG = 10.0
"""Seconds after which nothing larger is tried."""
LARGEST = 400_000
"""Characters at 4n; a file may have more."""
STEEP = 1.35
"""Exponents from which a line is marked."""


def _told(text: str) -> None:
    checked = check(text, today=TODAY)
    answers = Answers((Answer(checked, builtin()),))
    list(lines(checked.path, checked.findings))
    as_json(answers)
    as_sarif(answers)
    coop_html([coop_plan(kept(checked))], (), TODAY)
    told_of_plan(checked, text)


def _shown(text: str) -> None:
    own = laid(text, "-")
    mentions(own.outline)
    folds(plan_symbols(own.outline), text, own.outline)


def _laid_out(text: str) -> None:
    after = tidied(text)
    diff(text, after, "-")
    changed(text, line_changes(text, after))


def _mended(text: str) -> None:
    """The mend of the first finding alone: there are as many searches as findings are asked of."""
    next(iter(mends(text, today=TODAY)), None)


def _loaded(text: str) -> None:
    load([("house.rules", text)], base=builtin(), house=True)


def _rules_shown(text: str) -> None:
    told_of_rules(text, "house.rules")
    folds(rule_symbols(text, "house.rules"), text)


WORK: Mapping[str, tuple[Mapping[str, Growing], Callable[[str], object]]] = {
    "read": (PLANS, lambda text: read(text, today=TODAY)),
    "tidy": (PLANS, _laid_out),
    "outline": (PLANS, _shown),
    "check and report": (PLANS, _told),
    "first mend": (PLANS, _mended),
    "load rules": (RULES, _loaded),
    "show rules": (RULES, _rules_shown),
    "convert": (TALLIES, lambda text: convert(text, "x")),
    "convert, together": (TALLIES, lambda text: convert(text, "x", together=True)),
}


def seconds(work: Callable[[str], object], text: str) -> float:
    best = math.inf
    for _ in range(3):
        start = time.process_time()
        work(text)
        best = min(best, time.process_time() - start)
        if best > QUICK:
            break
    return best


def measured(growing: Growing, work: Callable[[str], object]) -> tuple[int, list[float]]:
    """The largest number, and the seconds at a quarter, a half and the whole of it."""
    number = 8
    one_line = growing(64).count("\n") == growing(8).count("\n")
    most = LONGEST if one_line else LARGEST
    while seconds(work, growing(number)) < SHOWS and len(growing(number * 8)) < most:
        number *= 2
    taken: list[float] = []
    for times in (1, 2, 4):
        taken.append(seconds(work, growing(number * times)))
        if taken[-1] > TOO_LONG:
            break
    return number * 2 ** (len(taken) - 1), taken


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("part", nargs="?", default="", help="measure only what has this in its name")
    parser.add_argument("--work", default="", help="measure only this work")
    options = parser.parse_args()
    _told(PLANS["piles"](1))
    for name, (texts, work) in WORK.items():
        if options.work not in name:
            continue
        for kind, growing in texts.items():
            if options.part not in kind:
                continue
            number, taken = measured(growing, work)
            exponent = math.log2(max(taken[-1], 1e-6) / max(taken[0], 1e-6)) / max(len(taken) - 1, 1)
            steep = "  <--" if exponent > STEEP and taken[-1] > 4 * SHOWS else ""
            rate = len(growing(number)) / max(taken[-1], 1e-6) / 1e6
            row = f"{name:18} {kind[:44]:44} {number:9,} {taken[-1]:8.3f} s {rate:8.3f} MB/s {exponent:6.2f}{steep}"
            print(row, flush=True)


if __name__ == "__main__":
    main()
