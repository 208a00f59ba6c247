"""What a rule teaches by example: a plan that fails it, what is said of that plan, and how it is mended.

The examples are the plans that the rules are tested with, so that there is one set of them: ``tests/rules/`` in a
checkout, the folder ``cases`` in an installed wheel. What is said of the failing plan is not written down anywhere: it
is what a check finds in it.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from difflib import SequenceMatcher
from typing import NamedTuple

from stacklint.checking import check
from stacklint.data import folder
from stacklint.findings import Finding
from stacklint.rulebook import builtin

EXAMPLE_DAY = datetime.date(2026, 6, 1)
"""The day that the examples are judged by."""


class Step(NamedTuple):
    """Lines ``old`` of the failing plan that give way to ``new``; one of the two may be empty. ``below`` is the line
    above them."""

    below: str
    old: tuple[str, ...]
    new: tuple[str, ...]


class Lesson(NamedTuple):
    """The lines of a plan that fails a rule, what the rule says of it, and the steps that mend it."""

    plan: tuple[str, ...]
    finding: Finding
    steps: tuple[Step, ...]


def lesson(rule: str) -> Lesson | None:
    """The example of a built-in rule, judged by the built-in limits; ``None`` for a rule of the house."""
    if builtin().rule(rule) is None:
        return None
    cases = folder("cases") / rule
    fails = (cases / "fails.stackplan").read_text(encoding="utf-8")
    passes = (cases / "passes.stackplan").read_text(encoding="utf-8")
    found = check(fails, "example.stackplan", book=builtin(), today=EXAMPLE_DAY).findings
    said = max((each for each in found if each.rule == rule), key=lambda each: each.level.rank)
    plan = _said(fails)
    return Lesson(plan, said, steps(plan, _said(passes)))


def steps(before: Sequence[str], after: Sequence[str]) -> tuple[Step, ...]:
    """What changes lines ``before`` into lines ``after``."""
    matcher = SequenceMatcher(None, before, after, autojunk=False)
    return tuple(
        Step(before[start - 1] if start else "", tuple(before[start:end]), tuple(after[new_start:new_end]))
        for change, start, end, new_start, new_end in matcher.get_opcodes()
        if change != "equal"
    )


def _said(text: str) -> tuple[str, ...]:
    """The plan without the comments at its head, which speak to the tests."""
    lines = text.rstrip().splitlines()
    first = next(number for number, line in enumerate(lines) if line.strip() and not line.startswith("#"))
    return tuple(lines[first:])
