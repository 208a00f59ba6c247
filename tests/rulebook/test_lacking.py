"""A rule that could not be judged is told with what it lacked, and only with that."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from stacklint.faults import Lack
from stacklint.rulebook import load
from stacklint.rulebook.judge import standings
from stacklint.rulebook.lacking import lacking
from stacklint.where import NOWHERE

CLIMATE = Lack(NOWHERE, "It is not said", "where it stands", "site", frozenset({"StackFacts.air_temperature"}))
DAY = Lack(NOWHERE, "It is not said", "when it is stacked", "stacked", frozenset({"StackFacts.air_temperature"}))


def told(stack: Any, *conditions: str, each: str = "stack") -> list[tuple[str | None, str | None]]:
    """Of a rule book of such rules, each with its sentence and its topics."""
    rules = "".join(
        f'rule number-{number}\n  title x\n  for each {each}\n  {condition}\n  say "x"\n  why "x"\n'
        for number, condition in enumerate(conditions, 1)
    )
    loaded = load([("house.rules", rules)], house=True)
    assert not loaded.faults
    return [(each.text, each.topic) for each in lacking(loaded.book, stack, standings)]


def test_a_rule_that_leans_on_what_is_lacking_is_named(make: Any) -> None:
    assert told(make("StackFacts", lacks=(CLIMATE,)), "warning when stack.air_temperature > 60 F") == [
        ("It is not said where it stands: number-1 is not judged.", "site")
    ]


def test_rules_that_lack_the_same_are_told_together(make: Any) -> None:
    (text, _), *others = told(
        make("StackFacts", lacks=(CLIMATE,)),
        "warning when stack.air_temperature > 60 F",
        "warning when stack.pieces > 5",
        "note when stack.air_temperature < 60 F",
    )
    assert text == "It is not said where it stands: number-1 and number-3 are not judged."
    assert others == []


def test_what_lacks_in_one_place_is_one_sentence(make: Any) -> None:
    assert told(make("StackFacts", lacks=(CLIMATE, DAY)), "warning when stack.air_temperature > 60 F") == [
        ("It is not said where it stands or when it is stacked: number-1 is not judged.", "site, stacked")
    ]


def test_of_a_rule_that_is_judged_without_it_nothing_is_told(make: Any) -> None:
    for condition in (
        "warning when stack.pieces > 5",
        "warning when stack.air_temperature > 60 F or stack.pieces > 5",
        "warning when stack.air_temperature > 60 F and stack.pieces < 5",
    ):
        assert told(make("StackFacts", lacks=(CLIMATE,), pieces=8.0), condition) == []
    filtered = "where stack.pieces < 5\n  warning when stack.air_temperature > 60 F"
    assert told(make("StackFacts", lacks=(CLIMATE,), pieces=8.0), filtered) == []


def test_a_lesser_level_that_holds_is_a_verdict(make: Any) -> None:
    both = "error when stack.air_temperature > 60 F\n  warning when stack.pieces > 5"
    assert told(make("StackFacts", lacks=(CLIMATE,), pieces=8.0), both) == []
    assert len(told(make("StackFacts", lacks=(CLIMATE,), pieces=3.0), both)) == 1


def test_a_rule_that_something_else_keeps_from_its_verdict_is_not_laid_to_the_lack(make: Any) -> None:
    """Nobody says what is wanted: it would not be judged in a known climate either."""
    condition = "warning when stack.air_temperature > 60 F and stack.wanted < 10%"
    assert told(make("StackFacts", lacks=(CLIMATE,)), condition) == []


def test_a_lack_without_which_the_rule_could_not_be_judged_is_told_though_another_is_told_too(make: Any) -> None:
    condition = "warning when stack.air_temperature > 60 F and any(g in stack.groups: g.moisture > 30%)"
    group = Lack(NOWHERE, "No table says", "how wet it is", "boards", frozenset({"Group.moisture"}))
    facts = make("StackFacts", lacks=(CLIMATE, group), groups=(make("Group"),))
    assert [topic for _, topic in told(facts, condition)] == ["site", "boards"]


@pytest.mark.parametrize(
    ("facts", "condition"),
    [
        ("StackFacts.strapped", "warning when stack.strapped"),
        ("StackFacts.strapped", "warning when not stack.strapped"),
        ("StackFacts.use", 'warning when stack.use != ""'),
        ("StackFacts.ready_likely", "warning when stack.ready_likely > stack.wanted_by"),
    ],
)
def test_facts_of_every_kind_may_be_lacking(make: Any, facts: str, condition: str) -> None:
    lack = Lack(NOWHERE, "It is not said", "so", "want", frozenset({facts}))
    found = told(make("StackFacts", lacks=(lack,), wanted_by=datetime.date(2026, 6, 1)), condition)
    assert found == [("It is not said so: number-1 is not judged.", "want")]
