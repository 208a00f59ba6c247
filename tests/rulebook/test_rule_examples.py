"""The example plans that rules of a house name: how they are written."""

from __future__ import annotations

import pytest

from stacklint.findings import Level
from stacklint.rulebook import builtin, load
from stacklint.rulebook.examples import Expected, examples_of, plans_named
from stacklint.rulebook.reader import read

CHANGE = "change no-cover\n  title Bare to the sky\n"


def test_a_change_names_plans_that_fail_it_and_plans_that_pass() -> None:
    text = CHANGE + '  fails "a b.stackplan"\n  fails: warning "c.stackplan"\n  passes : "x/d.stackplan"\n'
    (block,), faults = read("house.rules", text, house=True)
    assert faults == ()
    assert [(each.expected, each.level, each.plan, each.where.line) for each in examples_of(block)] == [
        (Expected.FAILS, None, "a b.stackplan", 3),
        (Expected.FAILS, Level.WARNING, "c.stackplan", 4),
        (Expected.PASSES, None, "x/d.stackplan", 5),
    ]


def test_examples_are_no_part_of_what_a_rule_judges_by() -> None:
    plain = load([("house.rules", CHANGE)], base=builtin(), house=True).book.rule("no-cover")
    shown = load([("house.rules", CHANGE + '  fails "a.stackplan"\n')], base=builtin(), house=True).book.rule(
        "no-cover"
    )
    assert plain is not None and shown is not None
    assert plain.title == shown.title == "Bare to the sky"
    assert [clause.keyword for clause in shown.clauses] == [clause.keyword for clause in plain.clauses]


def test_the_plans_of_a_text_are_known_whatever_else_is_wrong_in_it() -> None:
    text = CHANGE + '  fails "a.stackplan"\n  eror when x\n  fails b\nskipp y\nchange z\n  passes "c.stackplan"\n'
    assert plans_named(text) == {"a.stackplan", "c.stackplan"}


@pytest.mark.parametrize(
    ("clause", "message", "instead"),
    [
        ("fails a.stackplan", "a is no level.", "error, warning, note"),
        ('fails grave "a.stackplan"', "grave is no level.", "error, warning, note"),
        ("fails warning", "A text in quotes is missing.", "quotes"),
        ("fails:", "Nothing follows fails.", "on the same line"),
        ('fails "a.stackplan" "b.stackplan"', "This fails names two plans.", "again"),
        ('fails " "', "This fails names no plan.", "path of a plan"),
        ('passes note "a.stackplan"', "A plan that passes has no level.", "Leave the level out"),
        ('passes "a.stackplan', "A text is not closed.", "End it"),
    ],
)
def test_an_example_that_names_no_plan_is_a_fault_at_its_clause(clause: str, message: str, instead: str) -> None:
    loaded = load([("house.rules", f"{CHANGE}  {clause}\n")], base=builtin(), house=True)
    (fault,) = loaded.faults
    assert (fault.where.line, fault.message) == (3, message)
    assert instead in fault.instead


def test_examples_belong_to_house_rules() -> None:
    rule = (
        "rule own\n  title T\n  for each stack\n  note when stack.courses_high > 12\n"
        '  say "x"\n  why "x"\n  fails "a.stackplan"\n'
    )
    assert load([("house.rules", rule)], base=builtin(), house=True).faults == ()
    (fault,) = load([("rules/own.rules", rule)]).faults
    assert (fault.where.line, fault.message) == (7, "fails belongs to house rules.")


def test_a_change_of_nothing_but_examples_is_still_no_change() -> None:
    loaded = load([("house.rules", 'change no-cover\n  fails "a.stackplan"\n')], base=builtin(), house=True)
    assert [fault.message for fault in loaded.faults] == ["Nothing of no-cover is changed."]
