"""Expressions of the rule language: their logic, their units, their figures."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering.schema import Plain
from stacklint.rulebook import RuleFault
from stacklint.rulebook.expressions import check
from stacklint.rulebook.names import Names, Variable
from stacklint.rulebook.quantities import read_quantity, units
from stacklint.rulebook.written import Piece, Refused, Written
from stacklint.units import AREA, LENGTH, NUMBER, PRESSURE, TEMPERATURE, Dimension, System, Unit

VARIABLES = {"stack": Variable(1, "StackFacts"), "span": Variable(2, "Span")}


def written(text: str) -> Written:
    return Written("yard.rules", text, (Piece(0, 1, 1),))


def value(text: str, stack: Any = None, member: Any = None) -> Any:
    checked, _ = check(written(text), Names(VARIABLES))
    return checked.run((System.INCH, stack, member))


def kind(text: str) -> Any:
    return check(written(text), Names(VARIABLES))[0].kind


def fault(text: str) -> RuleFault:
    with pytest.raises(Refused) as refused:
        check(written(text), Names(VARIABLES))
    return refused.value.fault


TRUTH = {"yes": True, "no": False, "unknown": None}
KLEENE_AND = {
    ("yes", "yes"): True,
    ("yes", "no"): False,
    ("yes", "unknown"): None,
    ("no", "no"): False,
    ("no", "unknown"): False,
    ("unknown", "unknown"): None,
}
"""The strong tables of S. C. Kleene, Introduction to Metamathematics (1952), section 64 - memory."""


@pytest.mark.parametrize(("left", "right"), list(itertools.product(TRUTH, TRUTH)))
def test_and_and_or_follow_the_tables_of_three_values(make: Any, left: str, right: str) -> None:
    stack = make("StackFacts", hot=TRUTH[left], in_open=TRUTH[right])
    pair = (left, right) if (left, right) in KLEENE_AND else (right, left)
    assert value("stack.hot and stack.in_open", stack) is KLEENE_AND[pair]
    assert value("not (not stack.hot or not stack.in_open)", stack) is KLEENE_AND[pair]


def test_whatever_leans_on_something_unknown_is_unknown(make: Any) -> None:
    stack = make("StackFacts", hot=None, length=None, place=None)
    for text in (
        "stack.length > 1 m",
        "stack.length + 1 m",
        "2 * stack.length",
        "-stack.length",
        "not stack.hot",
        "1 m if stack.hot else 2 m",
        'stack.place in ("attic", "kiln")',
        "stack.cover.gap",
        "stack.cover.gap < 4 in",
    ):
        assert value(text, stack) is None, text
    assert value("stack.length is unknown and not (stack.length is known)", stack) is True


def test_dividing_by_zero_is_unknown(make: Any) -> None:
    assert value("stack.length / stack.width > 3", make("StackFacts", length=2.0, width=0.0)) is None


def test_quantifiers_over_groups_of_boards(make: Any) -> None:
    groups = tuple(make("Group", moisture=moisture, pieces=1.0) for moisture in (0.6, 0.12, None))
    stack = make("StackFacts", groups=groups)
    assert value("any(g in stack.groups: g.moisture > 50%)", stack) is True
    assert value("any(g in stack.groups: g.moisture > 80%)", stack) is None
    assert value("all(g in stack.groups: g.moisture > 50%)", stack) is False
    assert value("all(g in stack.groups: g.moisture > 5%)", stack) is None
    assert value("count(g in stack.groups: g.moisture > 5%)", stack) == 2
    assert value("largest(g in stack.groups: g.moisture)", stack) == 0.6
    assert value("smallest(g in stack.groups: g.moisture)", stack) == 0.12
    assert value("any(g in stack.groups: any(h in stack.groups: h.moisture < g.moisture))", stack) is True


def test_quantifiers_over_no_groups_at_all(make: Any) -> None:
    stack = make("StackFacts")
    assert value("any(g in stack.groups: g.hardwood)", stack) is False
    assert value("all(g in stack.groups: g.hardwood)", stack) is True
    assert value("count(g in stack.groups: g.hardwood)", stack) == 0
    assert value("largest(g in stack.groups: g.moisture)", stack) is None


def test_and_binds_before_or_and_products_before_sums() -> None:
    assert value("1 = 2 and 1 = 1 or 1 = 1") is True
    assert value("1 = 1 or 1 = 1 and 1 = 2") is True
    assert value("not 1 = 2 and 1 = 1") is True
    assert value("2 + 3 * 4 - 6 / 2") == 11
    assert value("8 - 3 - 2") == 3
    assert value("1 if 1 = 2 else 2 if 1 = 2 else 3") == 3


def test_texts_are_compared_and_sought(make: Any) -> None:
    stack = make("StackFacts", place="attic")
    assert value("stack.place = 'attic'", stack) is True
    assert value('stack.place in ("kiln", "attic")', stack) is True
    assert value('stack.place not in ("kiln", "attic")', stack) is False
    assert value("'in the ' & stack.place & ' for ' & 3 days", stack) == "in the attic for 3 days"


def test_a_fact_that_takes_an_argument_is_given_it(make: Any) -> None:
    span = make("Span", spacing_for=lambda limit: limit * 100)
    assert value("span.spacing_for(1/16 in) > 6 in", None, span) is True
    assert value("span.spacing_for(1/16 in)", None, span) == pytest.approx(0.15875)


@pytest.mark.parametrize(
    ("text", "si"),
    [
        ("1/16 in", 0.0015875),
        ("1 1/2 in", 0.0381),
        ("4/4", 0.0254),
        ("10/4", 0.0635),
        ("20%", 0.2),
        ("4,000 lb", 1814.36948),
        ("30 days", 2592000.0),
        ("1 day", 86400.0),
        ("-40 F", -40.0),
        ("212 F", 100.0),
        ("-5 C", -5.0),
    ],
)
def test_figures_are_read_in_their_units(text: str, si: float) -> None:
    """Factors: NIST SP 811 (2008), appendix B.8: inch 0.0254 m, pound 0.45359237 kg; -40 is one on both scales."""
    assert value(text) == pytest.approx(si)


def test_under_four_quarters_a_stroke_divides() -> None:
    assert kind("3/4") == NUMBER
    assert value("3/4") == 0.75
    assert kind("5/4") == LENGTH


@pytest.mark.parametrize("unit", [unit for unit in Unit if unit is not Unit.QUARTER])
def test_every_unit_of_the_plan_language_is_a_unit_of_rules(unit: Unit) -> None:
    assert kind(f"1.5 {unit.symbol}") == unit.dimension
    assert value(f"1.5 {unit.symbol} + 0 {unit.symbol}" if unit.dimension != TEMPERATURE else f"1.5 {unit.symbol}") == (
        pytest.approx(unit.to_si(1.5))
    )
    assert value(f"(1.5 {unit.symbol})") == pytest.approx(unit.to_si(1.5))


def test_units_follow_products_and_quotients() -> None:
    assert kind("stack.length * stack.width") == AREA
    assert kind("stack.length / stack.width") == NUMBER
    assert kind("stack.load / (stack.length * stack.width)") == Dimension(length=-2, mass=1)
    assert kind("1.45 * span.length") == LENGTH
    assert kind("span.length > 1 in") is Plain.FLAG
    assert kind("stack.floor_pressure") == PRESSURE


QUANTITIES = [unit for unit in units() if units()[unit].dimension != TEMPERATURE]
FIGURES = st.tuples(st.integers(1, 999), st.sampled_from(QUANTITIES))


@given(FIGURES, FIGURES, st.sampled_from("+-*/"))
def test_sums_of_figures_have_the_units_and_values_of_algebra(
    left: tuple[int, str], right: tuple[int, str], sign: str
) -> None:
    first, second = read_quantity(f"{left[0]} {left[1]}"), read_quantity(f"{right[0]} {right[1]}")
    assert first is not None and second is not None
    text = f"({left[0]} {left[1]}) {sign} ({right[0]} {right[1]})"
    if sign in "+-" and first[1] != second[1]:
        assert first[1].word in fault(text).message
        return
    expected = {"*": first[1] * second[1], "/": first[1] / second[1]}.get(sign, first[1])
    assert kind(text) == expected
    reckoned = {
        "+": first[0] + second[0],
        "-": first[0] - second[0],
        "*": first[0] * second[0],
        "/": first[0] / second[0],
    }
    assert value(text) == pytest.approx(reckoned[sign])


@given(FIGURES, FIGURES)
def test_only_quantities_of_one_kind_are_compared(left: tuple[int, str], right: tuple[int, str]) -> None:
    text = f"{left[0]} {left[1]} <= {right[0]} {right[1]}"
    if units()[left[1]].dimension == units()[right[1]].dimension:
        assert value(text) is (units()[left[1]].to_si(left[0]) <= units()[right[1]].to_si(right[0]))
    else:
        assert " but " in fault(text).message


@pytest.mark.parametrize(
    ("text", "columns", "message", "instead"),
    [
        ("span.sagg > 1 in", (6, 10), "A span has no fact sagg.", "Write sag or sag_high."),
        ("spam.sag > 1 in", (1, 5), "Nothing here is named spam.", "Write span."),
        (
            "span.sag > 4000 lb",
            (1, 19),
            "span.sag is a length, but 4000 lb is a weight.",
            "Write a length in place of 4000 lb.",
        ),
        ("24 inches", (4, 10), "There is no unit inches.", "in, ft"),
        ("span.sag == 1 in", (11, 12), "= is not expected here.", "Write a single =."),
        ("span.sag >", (10, 11), "The expression ends too soon.", "Add a fact, a limit or a quantity."),
        ("(span.sag > 1 in", (16, 17), "The expression ends too soon.", "Close the parenthesis"),
        ("span.sag 3", (10, 11), "3 is not expected here.", "Join the parts"),
        ("stack.place = 'attic", (15, 21), "A text is not closed.", "End it with '"),
        ("stack.place > 'attic'", (1, 22), "stack.place is a text, which is neither more nor less.", "="),
        ("not span.sag", (5, 13), "span.sag is a length where yes or no belongs.", "Compare it with a limit."),
        ("stack.groups > 3", (1, 13), "stack.groups is a collection, which cannot be compared.", "one of its facts"),
        ("stack.groups + 3", (1, 13), "stack.groups is a collection where a quantity belongs.", "count(x in"),
        ("stack.groups.moisture > 3%", (14, 22), "moisture is asked of a collection", "any(x in"),
        ("stack.temperature - 3 F > 0 C", (1, 24), "stack.temperature - 3 F reckons with a temperature.", "Compare"),
        ("any(g in stack.length: 1 = 1)", (10, 22), "stack.length is a length, not a collection.", "stack.ends"),
        ("any(span in stack.groups: 1 = 1)", (1, 12), "span stands for something already.", "new name"),
        ("any(stack.groups)", (1, 17), "any does not say what it goes through.", "Write any(x in COLLECTION: ...)."),
        ("largest(g in stack.groups: g.wood) > 3", (28, 34), "g.wood is a text where a quantity belongs.", ""),
        ("span.spacing_fro(1 in)", (1, 22), "A span has no fact spacing_fro that takes", "Write spacing_for."),
        ("span.spacing_for(3 lb)", (18, 22), "spacing_for takes a length; 3 lb is a weight.", "Write a length."),
        ("1 in if 1 = 1 else 2 lb", (1, 24), "1 in is a length, but 2 lb is a weight.", "one kind"),
        ("1/0 in > span.sag", (1, 7), "1/0 in divides by zero.", "Write a figure."),
        ("- stack.temperature > 3 C", (1, 20), "Only a figure of temperature can be negative.", "-5 C"),
        ("(" * 80 + "1" + ")" * 80 + " and 1 = 1", (81, 82), "1 is a plain number where yes", "Compare"),
        ("not " * 100 + "1 = 1", (401, 406), "nested deeper than 60 parts", "let"),
    ],
)
def test_a_fault_has_its_place_and_a_way_out(text: str, columns: tuple[int, int], message: str, instead: str) -> None:
    found = fault(text)
    assert message in found.message
    assert instead in found.instead
    assert (found.where.column, found.where.end_column) == columns
    assert found.where.line == 1


WORDS = st.sampled_from(
    (
        *("span.sag", "stack.groups", "g.moisture", "g", "stack.place", ".", "span.spacing_for(", "3", "1/4", "in"),
        *("20%", "5/4", "'a'", '"', "'", "any(", "all(", "count(", "(", ")", ":", ",", "=", "<", ">=", "and", "or"),
        *("not", "if", "else", "in", "is", "known", "unknown", "+", "-", "*", "/", "&", "{", "}"),
    )
)


@given(st.lists(WORDS, max_size=25).map(" ".join))
def test_no_row_of_words_breaks_the_reader_of_expressions(text: str) -> None:
    try:
        checked, _ = check(written(text), Names(VARIABLES))
    except Refused as refused:
        assert refused.fault.message.endswith(".") and refused.fault.instead
        assert 1 <= refused.fault.where.column < refused.fault.where.end_column
    else:
        assert checked.kind is not None


@given(st.text(max_size=60))
def test_no_text_breaks_the_reader_of_expressions(text: str) -> None:
    try:
        check(written(text), Names(VARIABLES))
    except Refused as refused:
        assert refused.fault.message
