"""The example yard: sound plans are sound, every card family's plan fails it, and its mended version passes."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.language import UsedText, UseRefused
from stacklint.rulebook import builtin

EXAMPLES = Path(__file__).parent.parent / "examples"
TODAY = datetime.date(2026, 6, 1)
FAMILIES = {
    "sag": "sag",
    "end-stickers": "end stickers",
    "mixed-thickness": "mixed thickness",
    "rain": "rain",
    "unpaired-lengths": "unpaired lengths",
    "overloads": "overloads",
}


def _check(name: str) -> CheckedPlan:
    path = EXAMPLES / name

    def use(used: str, _: str) -> UsedText | UseRefused:
        return UsedText(used, (EXAMPLES / used.removeprefix("../")).read_text(encoding="utf-8"))

    return check(path.read_text(encoding="utf-8"), path.name, today=TODAY, use=use)


def _families(plan: CheckedPlan) -> set[str | None]:
    return {rule.card for finding in plan.findings if (rule := builtin().rule(finding.rule)) is not None}


@pytest.mark.parametrize(
    "name",
    [
        "sound-pile.stackplan",
        "sound-charge.stackplan",
        "drying/oak-in-april.stackplan",
        "drying/oak-in-september.stackplan",
    ],
)
def test_a_sound_example_has_no_finding(name: str) -> None:
    plan = _check(name)
    assert plan.findings == ()
    assert all(stack.facts is not None for stack in plan.stacks)


def test_every_card_family_has_its_example() -> None:
    cards = {rule.card for rule in builtin().rules if rule.card}
    assert cards == set(FAMILIES.values())


@pytest.mark.parametrize("family", FAMILIES)
def test_the_wrong_plan_of_a_family_fails_it(family: str) -> None:
    assert FAMILIES[family] in _families(_check(f"families/{family}-wrong.stackplan"))


@pytest.mark.parametrize("family", FAMILIES)
def test_the_mended_plan_of_a_family_has_no_finding(family: str) -> None:
    plan = _check(f"families/{family}-mended.stackplan")
    assert plan.findings == ()
    assert all(stack.facts is not None for stack in plan.stacks)


def _ready(name: str) -> datetime.date:
    facts = _check(name).stacks[0].facts
    assert facts is not None
    assert facts.ready_likely is not None
    return facts.ready_likely


def test_oak_stacked_in_april_is_ready_half_a_year_before_that_of_september() -> None:
    saved = _ready("drying/oak-in-september.stackplan") - _ready("drying/oak-in-april.stackplan")
    assert datetime.timedelta(days=180) < saved < datetime.timedelta(days=400)


def test_the_promise_that_cannot_be_kept_is_told_in_every_way() -> None:
    rules = {finding.rule for finding in _check("drying/promised-wrong.stackplan").findings}
    assert rules >= {
        "target-below-reach",
        "not-ready-in-time",
        "schedule-too-harsh",
        "too-thin-after-drying",
        "season-for-stain",
    }


def test_the_promise_that_is_mended_is_kept() -> None:
    assert {finding.rule for finding in _check("drying/promised-mended.stackplan").findings} == {"assumed"}
