"""House rules are text of others too: whatever they say, judging by them ends soon and reads nothing but facts."""

from __future__ import annotations

import datetime
import math
from importlib import import_module

import pytest

from stacklint.checking import check
from stacklint.findings import Level
from stacklint.rulebook import builtin, load

PLAN = """\
pile "B2"
  place open yard
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in
"""
TODAY = datetime.date(2026, 6, 1)
JUDGING = import_module("stacklint.rulebook.judge")


def house(*clauses: str, each: str = "group"):
    lines = ("rule house-says", "title T", f"for each {each}", 'why "W"', *clauses)
    return load([("house.rules", "\n".join(lines))], base=builtin(), house=True)


def refused(*clauses: str) -> str:
    loaded = house(*clauses)
    assert loaded.faults
    return loaded.faults[0].message


def said(*clauses: str, each: str = "group"):
    loaded = house(*clauses, each=each)
    assert loaded.faults == ()
    return [one for one in check(PLAN, book=loaded.book, today=TODAY).findings if one.rule == "house-says"]


def doubled(first: str, sign: str, times: int) -> list[str]:
    lets = [f"let a{i + 1} = a{i} {sign} a{i}" for i in range(times)]
    return [f"let a0 = {first}", *lets]


@pytest.mark.parametrize(
    "path",
    [
        "group.__class__",
        "group.label.__class__",
        "group.where.path",
        "group.__class__.__mro__",
        "stack.__dict__",
        "stack._replace",
        "__builtins__",
        "os.environ",
        "open('/etc/passwd')",
        "group.__getattribute__('label')",
        "stack.facts_of(1)",
    ],
)
def test_a_rule_reads_declared_facts_and_nothing_else(path):
    assert refused(f"note when {path} is known", "say 'x'")


@pytest.mark.parametrize("first, sign", [("group.label", "&"), ("group.pieces", "+"), ("group.pieces", "*")])
def test_lets_that_double_one_another_are_refused(first, sign):
    """Thirty of them would be a thousand million letters or sums."""
    assert "works out more than" in refused(*doubled(first, sign, 30), "note when a30 is known", "say 'x'")


def test_a_chain_of_lets_is_refused_before_it_is_too_deep_for_the_stack():
    def chain(count: int) -> list[str]:
        return ["let a0 = group.pieces", *(f"let a{i + 1} = a{i} + 1" for i in range(count))]

    assert house(*chain(2000), "note when a2000 > 1", "say 'x'").faults
    assert said(*chain(180), "note when a180 > 1", "say '{a180}'")


@pytest.mark.parametrize("nested", ["(" * 3000 + "group.pieces > 0" + ")" * 3000, "not " * 3000 + "group.pieces > 0"])
def test_deep_nesting_is_refused_or_judged(nested):
    assert house(f"note when {nested}", "say 'x'") is not None


def test_quantifiers_within_one_another_are_given_up_and_that_is_told(monkeypatch):
    monkeypatch.setattr(JUDGING, "MOST_STEPS", 200_000)
    inner = "x0.sag > 900 in"
    nested = "".join(f"any(x{i} in stack.spans: " for i in range(12)) + inner + ")" * 12
    (one,) = said(f"note when {nested}", "say 'x'", each="stack")
    assert one.level is Level.ERROR
    assert "was not worked out" in one.message


def test_the_other_rules_are_judged_all_the_same(monkeypatch):
    monkeypatch.setattr(JUDGING, "MOST_STEPS", 5)
    book = house("note when any(x in stack.spans: x.sag > 0 in)", "say 'x'").book
    others = [one for one in check(PLAN, book=book, today=TODAY).findings if one.rule != "house-says"]
    monkeypatch.undo()
    assert others == list(check(PLAN, today=TODAY).findings)


def test_the_built_in_rules_stay_far_within_the_steps(monkeypatch):
    monkeypatch.setattr(JUDGING, "MOST_STEPS", JUDGING.MOST_STEPS // 1000)
    assert not [one for one in check(PLAN, today=TODAY).findings if "not worked out" in one.message]


ENDLESS = "9" * 200
"""Its square is more than a number of double precision can hold."""


@pytest.mark.parametrize("figure", ["9" * 400, "9" * 400 + " in", "9" * 400 + " F", "9" * 309 + " ft"])
def test_a_figure_that_no_number_can_hold_is_refused(figure):
    assert "beyond all others" in refused(f"note when group.pieces > {figure}", "say 'x'")


@pytest.mark.parametrize("figure", ["৪", "٣", "６０", "৪ in", "1 ١/4 in", "５/4"])
def test_figures_are_written_with_0_to_9(figure):
    """The Bengali four looks like an eight."""
    assert house(f"note when group.pieces > {figure}", "say 'x'").faults
    assert house(f"limit most = {figure}", "note when group.pieces > 1", "say '{most}'").faults


@pytest.mark.parametrize(
    "condition",
    ["square > 1", "square < 1", "square - square = 0", "square / square = 1", "not square > 1", "-square < 1"],
)
def test_sums_that_no_number_can_hold_are_unknown(condition):
    lets = [f"let big = group.pieces * {ENDLESS}", "let square = big * big"]
    assert said(*lets, f"note when {condition}", "say '{square}'") == []
    (one,) = said(*lets, "note when square is unknown", "say \"It is {square}.\"")
    assert one.message == "It is unknown."


def test_what_a_finding_shows_as_found_is_a_number():
    lets = [f"let big = group.pieces * {ENDLESS}"]
    (one,) = said(*lets, "note when group.pieces > 0", "measure big * big against big", "say '{big}'")
    for measure in (one.found, one.limit):
        assert measure is None or math.isfinite(measure.value)
