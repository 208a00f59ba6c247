"""Every rule teaches by a plan that fails it, and by the same plan mended."""

from __future__ import annotations

import pytest

from stacklint.checking import check
from stacklint.lessons import EXAMPLE_DAY, Step, lesson, steps
from stacklint.rulebook import builtin

RULES = builtin().names


@pytest.mark.parametrize("rule", RULES)
def test_the_mended_plan_of_a_lesson_no_longer_fails_the_rule(rule: str) -> None:
    taught = lesson(rule)
    assert taught is not None
    assert taught.finding.rule == rule
    assert rule in _found(taught.plan)
    assert rule not in _found(_mended(taught.plan, taught.steps))


def test_a_rule_of_the_house_has_no_lesson() -> None:
    assert lesson("forklift-aisle") is None


def test_a_step_says_what_to_change_take_out_or_add_below_what() -> None:
    assert steps(("pile", "a", "b", "c"), ("pile", "x", "c", "d")) == (
        Step("pile", ("a", "b"), ("x",)),
        Step("c", (), ("d",)),
    )
    assert steps(("pile", "a"), ("pile",)) == (Step("pile", ("a",), ()),)


def _found(plan: tuple[str, ...]) -> set[str]:
    return {finding.rule for finding in check("\n".join(plan), "example.stackplan", today=EXAMPLE_DAY).findings}


def _mended(plan: tuple[str, ...], mend: tuple[Step, ...]) -> tuple[str, ...]:
    """The plan with its steps followed as a reader would, each found by the line it stands below."""
    lines = list(plan)
    start = 0
    for step in mend:
        place = next(
            place
            for place in range(start, len(lines) + 1)
            if tuple(lines[place : place + len(step.old)]) == step.old
            and (lines[place - 1] if place else "") == step.below
        )
        lines[place : place + len(step.old)] = step.new
        start = place + len(step.new)
    return tuple(lines)
