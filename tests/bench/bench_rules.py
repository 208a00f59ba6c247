"""Times the rule book: loading it, making every rule ready, judging a plan. Run it as a script.

python tests/bench/bench_rules.py
"""

from __future__ import annotations

import dataclasses
import datetime
import time
from collections.abc import Callable
from typing import Any

from stacklint.engineering import facts
from stacklint.engineering.facts import PlanFacts
from stacklint.engineering.schema import Many, Plain
from stacklint.rulebook import RuleBook, builtin, builtin_texts, judge, load
from stacklint.units import System
from stacklint.where import Where

TODAY = datetime.date(2026, 5, 1)
MEMBERS = {"Group": 3, "Course": 4, "End": 8, "Joint": 4, "Board": 4, "Span": 10, "Line": 7, "Bearer": 7, "Pad": 7}
"""How many of each a stack of 25 lines comes to, alike ones together."""


def typical(name: str, line: int, amount: float, **given: Any) -> Any:
    """Facts of a class, every quantity ``amount``, every flag no."""
    cls = getattr(facts, name)
    values: dict[str, Any] = {"where": Where("b2.stackplan", line, 1, line, 9)}
    for field in dataclasses.fields(cls):
        declared = field.metadata.get("declaration")
        if declared is None:
            continue
        kind = declared.kind
        if isinstance(kind, Many):
            count = MEMBERS.get(kind.of, 2)
            values[field.name] = (
                tuple(typical(kind.of, 2 + n, amount) for n in range(count)) if name != "PlanFacts" else ()
            )
        else:
            values[field.name] = {Plain.TEXT: "ash", Plain.FLAG: False, Plain.DATE: TODAY}.get(kind, amount)
            if type(kind).__name__ == "One":
                values[field.name] = typical(kind.of, 20, amount)
    if name == "Span":
        values["spacing_for"] = lambda limit: limit * 100
    if name == "StackFacts":
        values |= {"system": System.INCH, "name": "B2", "kind": "pile"}
    return cls(**(values | given))


def plan(amount: float) -> PlanFacts:
    built: PlanFacts = typical("PlanFacts", 1, amount, stacks=(typical("StackFacts", 1, amount, stickered=True),))
    return built


def milliseconds(work: Callable[[], object], times: int) -> float:
    """CPU time of one run, the best of several."""
    best = float("inf")
    for _ in range(times):
        started = time.process_time()
        work()
        best = min(best, time.process_time() - started)
    return best * 1000


def main() -> None:
    # A check has read the plan before it opens the rule book, so the parser library is there already.
    from lark import Lark

    Lark('start: "x"', parser="lalr").parse("x")
    facts_of_plan = plan(0.001)
    started = time.process_time()
    book = builtin()
    loaded = time.process_time()
    judge(book, facts_of_plan, (), TODAY)
    first = time.process_time()
    for rule in book.rules:
        _ = rule.program
    ready = time.process_time()
    lines = sum(text.count("\n") for _, text in builtin_texts())
    print(f"{len(book.rules)} rules in {lines} lines")
    print(f"load                     {1000 * (loaded - started):6.2f} ms")
    print(f"first plan               {1000 * (first - loaded):6.2f} ms")
    print(f"rest of the rules        {1000 * (ready - first):6.2f} ms")
    print(f"check all, warm          {milliseconds(lambda: load(builtin_texts()), 5):6.2f} ms")
    report("judge, few findings", book, plan(0.001))
    report("judge, many findings", book, plan(50.0))


def report(what: str, book: RuleBook, facts_of_plan: PlanFacts) -> None:
    count = len(judge(book, facts_of_plan, (), TODAY).findings)
    taken = milliseconds(lambda: judge(book, facts_of_plan, (), TODAY), 50)
    print(f"{what:24} {taken:6.3f} ms, {count} findings")


if __name__ == "__main__":
    main()
