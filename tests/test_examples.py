"""The example yard: sound plans are sound, every card family's plan fails it, and its mended version passes."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.command.main import main
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


YARDS = EXAMPLES / "two-yards"


def test_the_two_yards_are_sound_by_their_house_rules(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(YARDS), "--as", "json", "--fail-at", "note", "--today", TODAY.isoformat()]) == 0
    checked = json.loads(capsys.readouterr().out)["plans"]
    stacks = {stack["name"]: stack["facts"] for plan in checked for stack in plan["stacks"]}
    assert set(stacks) == {"Hill 1", "River 1"}
    assert None not in stacks.values()


def test_the_rules_of_the_two_yards_do_as_their_examples_say(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rules-test", str(YARDS), "--as", "json", "--today", TODAY.isoformat()]) == 0
    rules = json.loads(capsys.readouterr().out)["rules"]
    assert len(rules) == 3
    assert all(rule["holds"] for rule in rules)


def test_the_examples_of_the_two_yards_show_what_the_book_alone_does_not_find() -> None:
    for rule, plan in (
        ("sticker-spacing-too-wide", "shown/ash-24-in.stackplan"),
        ("lift-too-heavy", "hill/shown/oak-12-ft.stackplan"),
    ):
        text = (YARDS / plan).read_text(encoding="utf-8")
        shared = UsedText("sites.stackplan", (YARDS / "sites.stackplan").read_text(encoding="utf-8"))
        found = check(text, plan, today=TODAY, use=lambda *_, shared=shared: shared)
        assert rule not in {finding.rule for finding in found.findings}


SHARED = EXAMPLES / "shared-yard"
SAID_OF_ONE_ANOTHER = {
    ("oak", "spot-double-booked", "error"),
    ("second-charge", "kiln-double-booked", "error"),
    ("second-charge", "pile-taken-twice", "error"),
    ("second-charge", "yard-overfull", "warning"),
    ("first-charge", "pile-not-dry-yet", "note"),
    ("second-charge", "pile-not-dry-yet", "note"),
}


def _found(capsys: pytest.CaptureFixture[str], *paths: Path) -> set[tuple[str, str, str]]:
    """Plan, rule and level of each finding but of what is assumed."""
    main(["check", *map(str, paths), "--as", "json", "--today", "2026-05-01"])
    plans = json.loads(capsys.readouterr().out)["plans"]
    assert all(stack["facts"] is not None for plan in plans for stack in plan["stacks"])
    found = {(Path(plan["path"]).stem, each["rule"], each["level"]) for plan in plans for each in plan["findings"]}
    return {each for each in found if each[1] != "assumed"}


@pytest.mark.parametrize("name", ["ash", "oak", "first-charge", "second-charge"])
def test_each_plan_of_the_shared_yard_is_sound_by_itself(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Only that its pile is not dry yet a charge can tell alone."""
    assert {rule for _, rule, _ in _found(capsys, SHARED / "wrong" / f"{name}.stackplan")} <= {"pile-not-dry-yet"}


def test_what_is_wrong_between_the_plans_of_the_shared_yard_is_told_when_they_are_seen_together(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert _found(capsys, SHARED / "wrong") == SAID_OF_ONE_ANOTHER


def test_the_mended_shared_yard_has_room_and_time_for_all_its_plans(capsys: pytest.CaptureFixture[str]) -> None:
    assert _found(capsys, SHARED / "mended") == set()
