"""Every rule's failing plan is mended, or it is said here why only a person can mend it."""

from __future__ import annotations

import datetime
from pathlib import Path
from types import MappingProxyType

import pytest

from stacklint.changes import changed
from stacklint.checking import check
from stacklint.findings import Finding
from stacklint.mending import Mend, mends, unmended
from stacklint.mending.trial import OF_THE_TEXT
from stacklint.rulebook import builtin

RULES_TESTED = Path(__file__).parent.parent / "rules"
TODAY = datetime.date(2026, 6, 1)

EARLIER = MappingProxyType(
    {
        "slow-to-stack": datetime.date(2025, 12, 20),
        "season-for-stain": datetime.date(2026, 4, 1),
        "spot-double-booked": datetime.date(2026, 5, 1),
    }
)
"""Days on which what the plan tells of is still to come, and so can be put off."""

LEFT_TO_PEOPLE = MappingProxyType(
    {
        "airflow-too-fast": "which fans run, and how fast, is decided at the kiln",
        "assumed": "only the writer knows what was left out",
        "dried-too-fast": "a reading tells what was measured",
        "dried-too-slow": "a reading tells what was measured",
        "dryer-too-strong": "the machine is held back by its controls",
        "ground-not-flat": "the ground was measured so, and levelling it is work",
        "insects-not-killed": "this kiln does not get hot enough to kill, whatever is asked of it",
        "lift-too-heavy": "boards do not become lighter",
        "not-judged": "only the writer knows what was left out",
        "pile-taken-twice": "which charge gets the boards is not in the plan",
        "place-too-hot": "where else the boards could stand is not in the plan",
        "place-without-air": "whether to move them or to set up a fan is not in the plan",
        "reading-implausible": "a reading tells what was measured; in another order the last would dry too fast",
        "stickers-short": "at the widest spacing that will do there are still too few sticks",
        "unknown-place": "Columbus is nearer to no other place by its letters than two edits",
        "value-out-of-range": "400% could be 40%, or anything",
        "waiver-expired": "what it was for is still there, and a new day is a promise",
        "waiver-without-reason": "only the writer knows the reason",
        "weights-on-few-boards": "boards that fill the course are not in the plan",
        "wind-along-boards": "whether the stack can be turned is not in the plan",
    }
)
"""The rules whose failing plan has no mend, and why."""


def _text(rule: str) -> str:
    return (RULES_TESTED / rule / "fails.stackplan").read_text(encoding="utf-8")


def _mends(rule: str) -> tuple[Mend, ...]:
    return mends(_text(rule), today=EARLIER.get(rule, TODAY), only=frozenset({rule}))


def _found(text: str, today: datetime.date) -> tuple[Finding, ...]:
    return check(text, today=today).findings


@pytest.mark.parametrize("rule", [rule for rule in builtin().names if rule not in LEFT_TO_PEOPLE])
def test_what_fails_a_rule_is_mended_and_then_passes_it(rule: str) -> None:
    text, today = _text(rule), EARLIER.get(rule, TODAY)
    found = _mends(rule)
    assert found
    before = sum(finding.rule == rule for finding in _found(text, today))
    for mend in found:
        after = _found(changed(text, mend.changes), today)
        assert sum(finding.rule == rule for finding in after) < before
        assert mend.rule == rule
        assert mend.reason.endswith(".")


@pytest.mark.parametrize("rule", [rule for rule in builtin().names if rule not in LEFT_TO_PEOPLE])
def test_a_mend_brings_no_finding_as_grave_as_the_one_it_clears(rule: str) -> None:
    text, today = _text(rule), EARLIER.get(rule, TODAY)
    before = [(finding.rule, finding.level) for finding in _found(text, today)]
    for mend in _mends(rule):
        left = list(before)
        for finding in _found(changed(text, mend.changes), today):
            kind = (finding.rule, finding.level)
            if kind in left:
                left.remove(kind)
            elif rule not in OF_THE_TEXT:
                assert finding.level.rank < mend.finding.level.rank or kind in before, kind


@pytest.mark.parametrize("rule", sorted(LEFT_TO_PEOPLE))
def test_what_only_a_person_can_mend_is_said_and_not_guessed(rule: str) -> None:
    assert _mends(rule) == ()
    told = unmended(_text(rule), today=TODAY, only=frozenset({rule}))
    assert told
    assert all(each.finding.rule == rule and each.sentence.endswith(".") for each in told)


def test_no_rule_is_left_to_people_that_does_not_exist() -> None:
    assert set(LEFT_TO_PEOPLE) <= set(builtin().names)
