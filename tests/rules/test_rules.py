"""Every rule has a plan that fails it and a near one that passes it.

``fails.stackplan`` begins with a line ``# fires: RULE LEVEL`` for each finding that it must give, and gives no
other; ``passes.stackplan`` lies just inside the limit and does not give that rule's finding.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from stacklint.check import check
from stacklint.checked import CheckedPlan
from stacklint.lessons import EXAMPLE_DAY
from stacklint.rulebook import builtin

HERE = Path(__file__).parent
TODAY = EXAMPLE_DAY
RULES = builtin().names


def _check(rule: str, name: str) -> CheckedPlan:
    path = HERE / rule / name
    return check(path.read_text(encoding="utf-8"), path.name, today=TODAY)


@pytest.mark.parametrize("rule", RULES)
def test_a_rule_has_a_plan_that_fails_it_and_a_near_one_that_passes(rule: str) -> None:
    assert (HERE / rule / "fails.stackplan").is_file()
    assert (HERE / rule / "passes.stackplan").is_file()


def test_no_plans_stand_for_a_rule_that_does_not_exist() -> None:
    assert {path.name for path in HERE.iterdir() if (path / "fails.stackplan").exists()} <= set(RULES)


@pytest.mark.parametrize("rule", RULES)
def test_the_failing_plan_fires_exactly_what_it_is_meant_to(rule: str) -> None:
    text = (HERE / rule / "fails.stackplan").read_text(encoding="utf-8")
    wanted = sorted(re.findall(r"^# fires: (\S+ \S+)$", text, re.MULTILINE))
    found = sorted(f"{finding.rule} {finding.level.value}" for finding in _check(rule, "fails.stackplan").findings)
    assert found == wanted
    assert any(line.startswith(f"{rule} ") for line in wanted)


@pytest.mark.parametrize("rule", RULES)
def test_the_near_plan_passes_the_rule_and_is_read_whole(rule: str) -> None:
    plan = _check(rule, "passes.stackplan")
    assert rule not in {finding.rule for finding in plan.findings}
    assert "plan-text" not in {finding.rule for finding in plan.findings}
    assert all(stack.facts is not None for stack in plan.stacks)
