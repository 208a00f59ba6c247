"""Every rule has a plan that fails it and a near one that passes it.

``fails.stackplan`` begins with a line ``# fires: RULE LEVEL`` for each finding that it must give, and gives no
other; ``passes.stackplan`` lies just inside the limit and does not give that rule's finding. A rule of several limits
may have two plans more: each stack of ``beyond.stackplan`` lies just beyond one of them, whose first lines tell the
rule's findings alone, and each stack of ``inside.stackplan`` just inside.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.lessons import EXAMPLE_DAY
from stacklint.report.reasons import rule_reasons
from stacklint.rulebook import builtin

HERE = Path(__file__).parent
TODAY = EXAMPLE_DAY
RULES = builtin().names


AT_LIMITS = tuple(sorted(path.parent.name for path in HERE.glob("*/beyond.stackplan")))


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


@pytest.mark.parametrize("rule", AT_LIMITS)
def test_just_beyond_each_of_its_limits_a_rule_fires_and_just_inside_it_does_not(rule: str) -> None:
    text = (HERE / rule / "beyond.stackplan").read_text(encoding="utf-8")
    wanted = sorted(re.findall(r"^# fires: \S+ (\S+)$", text, re.MULTILINE))
    beyond, inside = (_check(rule, f"{name}.stackplan").findings for name in ("beyond", "inside"))
    assert sorted(finding.level.value for finding in beyond if finding.rule == rule) == wanted
    assert len(wanted) >= 2
    assert {"plan-text", rule}.isdisjoint(finding.rule for finding in inside)
    assert "plan-text" not in {finding.rule for finding in beyond}


@pytest.mark.parametrize("rule", RULES)
def test_no_finding_speaks_of_what_is_unknown(rule: str) -> None:
    """What is not known keeps a rule silent; no figure of it may get into a sentence."""
    for path in sorted((HERE / rule).glob("*.stackplan")):
        for finding in _check(rule, path.name).findings:
            told = f"{finding.message} {finding.instead}"
            assert not re.search(r"\b(unknown|None|nan|inf|True|False)\b", told), f"{path.name}: {told}"


@pytest.mark.parametrize("rule", RULES)
def test_a_limit_that_is_recalled_is_told_as_recalled(rule: str) -> None:
    found = builtin().rule(rule)
    assert found is not None
    told = " ".join(" ".join(rule_reasons(found)).split())
    assert told.count("recalled from memory, not read there") == sum(limit.memory for limit in found.limits)
    for limit in found.limits:
        assert limit.source in told
