"""The rules that come with the package are right, every one."""

from __future__ import annotations

import datetime
from collections import Counter

import pytest

from stacklint import check
from stacklint.rulebook import FaultyRules, book, builtin, builtin_texts, load


def test_no_built_in_rule_has_a_fault() -> None:
    faults = [f"{fault.where.path}:{fault.where.line} {fault.message}" for fault in load(builtin_texts()).faults]
    assert faults == []


def test_the_book_holds_every_rule_of_the_files_once() -> None:
    names = [line.split()[1] for _, text in builtin_texts() for line in text.split("\n") if line.startswith("rule ")]
    assert Counter(names) == Counter(builtin().names)


def test_the_book_is_loaded_once() -> None:
    assert builtin() is builtin()


def test_every_limit_of_the_book_names_its_source() -> None:
    for rule in builtin().rules:
        for limit in rule.limits:
            assert limit.source.strip(), f"{rule.name}: {limit.name}"


def test_no_caution_begins_with_the_advice_that_was_just_given() -> None:
    """Such as *Lift it with two people. Lift with help.*"""
    for rule in builtin().rules:
        (advice,) = [str(clause) for clause in rule.clauses if clause.keyword == "instead"] or [""]
        assert not rule.caution or f"{rule.caution.split()[0]} " not in advice, rule.name


def test_a_machine_that_takes_out_more_than_its_rating_is_told_with_the_air_that_makes_it_so() -> None:
    """The plan says 10 L/day, 21 pt/day; in warm, damp air it is reckoned with 1.5 times that."""
    checked = check(
        'kiln "Box"\n  type dehumidification\n  inside 18 ft x 7 ft x 6 ft\n  heats to 140 F\n  removes 10 L/day\n'
        'charge "July" in kiln "Box"\n  starts 2026-07-01\n'
        "  boards a: 60 of northern red oak 4/4 x 6 in x 8 ft, green\n  stickers 3/4 in x 1 in, every 24 in\n",
        today=datetime.date(2026, 6, 1),
    )
    (found,) = (each for each in checked.findings if each.rule == "dryer-too-strong")
    assert found.message.startswith("In the air of the first day the machine takes out 31.7 pt/day;")


def test_a_misspelt_rule_name_finds_the_one_meant() -> None:
    assert builtin().nearest("sag-betwen-stickers") == "sag-between-stickers"
    assert builtin().nearest("xyzzy") is None


def test_a_faulty_built_in_rule_says_where_it_is_wrong(monkeypatch: pytest.MonkeyPatch) -> None:
    texts = (("rules/bad.rules", "rule bad\n  title Bad\n"),)
    monkeypatch.setattr(book, "builtin_texts", lambda: texts)
    with pytest.raises(FaultyRules, match=r"rules/bad\.rules:1: The rule bad has no for each"):
        builtin.__wrapped__()


def test_a_faulty_expression_of_a_built_in_rule_is_told_when_the_rule_is_needed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    text = 'rule bad\n  title B\n  for each span\n  error when span.sagg > 1 in\n  say "x"\n  why "x"\n'
    monkeypatch.setattr(book, "builtin_texts", lambda: (("rules/bad.rules", text),))
    rule = builtin.__wrapped__().rule("bad")
    assert rule is not None
    with pytest.raises(FaultyRules, match=r"rules/bad\.rules:4: A span has no fact sagg"):
        _ = rule.limits
