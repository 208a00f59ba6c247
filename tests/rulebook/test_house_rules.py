"""House rules: a yard changes, skips and adds rules."""

from __future__ import annotations

from typing import Any

import pytest

from stacklint.findings import Level
from stacklint.rulebook import Loaded, RuleBook, load
from stacklint.rulebook.explain import explain
from stacklint.units import System

BASE = """\
rule sag
  title Boards sag
  for each span
  limit noticeable = 1/16 in source "a book"
  limit spoiled = 1/8 in source "another book" memory
  let allowed = noticeable
  error when span.sag > spoiled
  warning when span.sag > allowed
  say "{span.sag} is over {noticeable}"
  instead "Closer."
  why "It bends."
rule lift-too-heavy
  title Too heavy
  for each stack
  limit heavy = 50 lb source "a handbook"
  note when stack.heaviest_board > heavy
  say "x"
  why "x"
"""


@pytest.fixture
def base(book: Any) -> RuleBook:
    found = book(BASE)
    assert isinstance(found, RuleBook)
    return found


def housed(base: RuleBook, text: str) -> Loaded:
    return load([("house.rules", text)], base=base, house=True)


def test_a_changed_limit_keeps_the_others_and_names_the_house_rules_as_its_source(base: RuleBook) -> None:
    loaded = housed(base, "change sag\n  limit noticeable = 1/32 in\n")
    assert loaded.faults == ()
    rule = loaded.book.rule("sag")
    assert rule is not None
    noticeable, spoiled = rule.limits
    assert (noticeable.written, noticeable.source, noticeable.changed) == (
        "1/32 in",
        "house rules, house.rules:2",
        True,
    )
    assert (spoiled.written, spoiled.source, spoiled.changed) == ("1/8 in", "another book", False)
    assert rule.changes[0].line == 1
    assert base.rule("sag") is not rule


def test_a_changed_limit_may_bring_its_own_source(base: RuleBook) -> None:
    rule = housed(base, 'change sag\n  limit noticeable = 1 mm source "our planer"\n').book.rule("sag")
    assert rule is not None and rule.limits[0].source == "our planer"


def test_words_conditions_and_lets_are_replaced(base: RuleBook, make: Any, plan: Any) -> None:
    import datetime

    from stacklint.rulebook import judge

    text = (
        "change sag\n  let allowed = 2 * noticeable\n  warning when span.sag >= allowed\n  never error\n"
        '  say "new {span.sag}"\n  instead "Anew."\n  why "Since."\n  title Anew\n'
    )
    loaded = housed(base, text)
    assert loaded.faults == ()
    rule = loaded.book.rule("sag")
    assert rule is not None and (rule.title, rule.why, rule.levels) == ("Anew", "Since.", (Level.WARNING,))
    facts = plan(spans=(make("Span", sag=0.0254 / 8),))
    (finding,) = judge(loaded.book, facts, (), datetime.date(2026, 1, 1)).findings
    assert (finding.level, finding.message, finding.instead) == (Level.WARNING, "New 1/8 in", "Anew.")


def test_a_rule_is_skipped_for_a_reason(base: RuleBook) -> None:
    loaded = housed(base, 'skip lift-too-heavy because "forklift only"\n')
    assert loaded.faults == ()
    assert loaded.book.names == ("sag",)
    assert loaded.book.rule("lift-too-heavy") is None
    assert loaded.book.knows("lift-too-heavy")
    assert [(one.rule.name, one.reason) for one in loaded.book.skipped] == [("lift-too-heavy", "forklift only")]


def test_a_yard_adds_a_rule_whose_limit_needs_no_source(base: RuleBook) -> None:
    text = (
        "rule own\n  title T\n  for each stack\n  limit most = 12\n"
        '  note when stack.courses_high > most\n  say "x"\n  why "x"\n'
    )
    loaded = housed(base, text)
    assert loaded.faults == ()
    rule = loaded.book.rule("own")
    assert rule is not None and rule.house
    assert (rule.limits[0].source, rule.limits[0].changed) == ("house rules, house.rules:4", False)


def test_one_house_may_change_what_another_has_changed(base: RuleBook) -> None:
    first = housed(base, "change sag\n  limit noticeable = 1/32 in\n").book
    second = housed(first, "change sag\n  limit spoiled = 1/4 in\n").book.rule("sag")
    assert second is not None
    assert [limit.written for limit in second.limits] == ["1/32 in", "1/4 in"]
    assert len(second.changes) == 2


@pytest.mark.parametrize(
    ("text", "line", "message", "instead"),
    [
        ("change sog\n  never error\n", 1, "There is no rule sog.", "Write sag."),
        ('skip lift-to-heavy because "x"\n', 1, "There is no rule lift-to-heavy.", "Write lift-too-heavy."),
        ("skip lift-too-heavy\n", 1, "lift-too-heavy is skipped without a reason.", "because"),
        ("skip lift-too-heavy because\n", 1, "lift-too-heavy is skipped without a reason.", "because"),
        ('skip lift-too-heavy because " "\n', 1, "The reason why lift-too-heavy is skipped is empty.", "Say why"),
        ('skip lift-too-heavy "x"\n', 1, "lift-too-heavy is skipped without a reason.", "because"),
        ("skip\n", 1, "skip names no rule.", "skip RULE because"),
        ("change sag\n  limit noticeable = 1 lb\n", 2, "noticeable is a length; 1 lb is a weight.", "Write a length."),
        ("change sag\n  limit noticable = 1/32 in\n", 2, "noticable is not used in the rule sag.", "noticeable"),
        ("change sag\n  for each line\n", 2, "What sag goes through cannot be changed.", "Skip the rule"),
        ("change sag\n  never note\n", 2, "sag gives no note.", "Leave this out."),
        ("change sag\n  never errors\n", 2, "errors is no level.", "never error"),
        ("change sag\n  never error\n  never warning\n", 1, "sag has no level left.", "skip sag"),
        ("change sag\n", 1, "Nothing of sag is changed.", "below it"),
        ('change sag\n  say "{span.sog}"\n', 2, "A span has no fact sog.", "Write sag"),
        ('change sag\n  say "a"\n  say "b"\n', 3, "This rule has say twice.", "one of the two"),
        ("change sag\n  error when span.sag > spoild\n", 2, "Nothing here is named spoild.", "spoiled"),
        ("change sag\n  eror when span.sag > spoiled\n", 2, "There is no clause eror.", "error"),
        ('skip sag because "a"\nskip sag because "b"\n', 2, "sag is skipped already.", "one of the two"),
        ("rule sag\n  title T\n", 1, "There is a rule sag already in yard.rules, line 1.", "change sag"),
    ],
)
def test_a_fault_of_house_rules_is_named_and_leaves_the_rule_as_it_was(
    base: RuleBook, text: str, line: int, message: str, instead: str
) -> None:
    loaded = housed(base, text)
    (fault,) = loaded.faults
    assert (fault.where.path, fault.where.line) == ("house.rules", line)
    assert fault.message == message
    assert instead in fault.instead
    if not text.startswith('skip sag because "a"'):
        assert loaded.book.rules == base.rules


def test_a_rule_is_explained_with_its_limits_sources_and_changes(base: RuleBook) -> None:
    rule = housed(base, "change sag\n  limit noticeable = 1 mm\n").book.rule("sag")
    assert rule is not None
    told = explain(rule)
    assert (told.name, told.title, told.each, told.where) == ("sag", "Boards sag", "span", None)
    assert [(one.level, one.when) for one in told.levels] == [
        (Level.ERROR, "span.sag > spoiled"),
        (Level.WARNING, "span.sag > allowed"),
    ]
    assert told.lets == (("allowed", "noticeable"),)
    noticeable, spoiled = told.limits
    assert (noticeable.value, noticeable.changed, noticeable.source) == (
        "0.039 in",
        True,
        "house rules, house.rules:2",
    )
    assert (spoiled.value, spoiled.memory, spoiled.source) == ("1/8 in", True, "another book")
    assert (told.say, told.instead, told.why) == ("{span.sag} is over {noticeable}", "Closer.", "It bends.")
    assert (told.place.path, told.place.line, told.history[0].where.path) == ("yard.rules", 1, "house.rules")
    assert explain(rule, System.METRIC).limits[0].value == "1 mm"
