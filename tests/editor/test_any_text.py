"""No text and no place in it is too odd for an answer."""

from __future__ import annotations

from editor_marks import YARD
from hypothesis import given, settings
from hypothesis import strategies as st

from stacklint.changes import changed
from stacklint.checking import check
from stacklint.editor.completion import completion
from stacklint.editor.findings import told_of_plan, told_of_rules
from stacklint.editor.fixes import near_names
from stacklint.editor.hover import hover
from stacklint.editor.names import definition, laid, mentions, renamed
from stacklint.editor.offers import Offer
from stacklint.editor.positions import Page, Point
from stacklint.editor.rule_answers import rule_completion, rule_hover
from stacklint.editor.symbols import folds, plan_symbols, rule_symbols
from stacklint.rulebook import builtin, builtin_texts

WORDS = st.sampled_from(
    [
        *YARD.split(" "),
        "\n",
        ",",
        "\n  ",
        '"',
        "“",
        "#",
        "1/2",
        "8'",
        "use",
        "from pile",
        "of",
        "é🪵",
        "\t",
        "\x00",
        "\r",
    ]
)
PLANS = st.one_of(st.lists(WORDS, max_size=40).map(" ".join), st.text(max_size=60))
RULES = builtin_texts()[0][1].split(" ")[:400]
RULE_TEXTS = st.lists(st.sampled_from([*RULES, "\n", "{", "(", '"', "x in"]), max_size=60).map(" ".join)


def _can_be_put(page: Page, offers: tuple[Offer, ...]) -> None:
    """Every offer stands on one line of the text (LSP 3.17, CompletionItem.textEdit: a single line range)."""
    for offer in offers[:5]:
        assert offer.where.line == offer.where.end_line
        assert 1 <= offer.where.column <= offer.where.end_column <= len(page.lines[offer.where.line - 1]) + 1


@settings(max_examples=150)
@given(PLANS, st.integers(0, 30), st.integers(0, 60))
def test_any_place_of_any_plan_is_answered(text, line, character):
    page = Page(text)
    own, spot, book = laid(page.text, "-"), page.spot(Point(line, character)), builtin()
    _can_be_put(page, completion(page, own, spot, book, None))
    hover(own, spot, book, None)
    definition(own, spot, None)
    for fold in folds(plan_symbols(own.outline), page.text, own.outline):
        assert 1 <= fold.first < fold.last <= len(page.lines)
    for told in told_of_plan(check(page.text), page.text):
        page.stretch(told.where)
        for fix in near_names(page, own, told, book, None):
            changed(page.text, fix.changes)


@settings(max_examples=150)
@given(RULE_TEXTS, st.integers(0, 30), st.integers(0, 60))
def test_any_place_of_any_rule_file_is_answered(text, line, character):
    page = Page(text)
    spot = page.spot(Point(line, character))
    _can_be_put(page, rule_completion(page, spot, builtin()))
    rule_hover(page, spot, builtin())
    told_of_rules(page.text, "house.rules")
    folds(rule_symbols(page.text, "house.rules"), page.text)


@settings(max_examples=60)
@given(PLANS)
def test_any_name_can_be_given_anew(text):
    own = laid(Page(text).text, "-")
    for mention in mentions(own.outline):
        spot = Page(text).spot(Point(mention.where.line - 1, 0))._replace(column=mention.where.column)
        answer = renamed(own, spot, "Quite new", None)
        assert answer is not None and answer.refused is None
        after = laid(changed(own.text, answer.changes), "-")
        assert sum(each.name == "Quite new" for each in mentions(after.outline)) == len(answer.changes)
