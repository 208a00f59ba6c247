"""What a plan or house rules say reaches an editor as text: it renders Markdown in some of what it is answered."""

from __future__ import annotations

import datetime
import json
import re
from typing import Any

import pytest
from hostile_yard import MARKS, harmful, plan_text, rules_text, shared_text
from lsprotocol import converters
from markdown_it import MarkdownIt

from stacklint.checking import check
from stacklint.editor import protocol
from stacklint.editor.completion import completion
from stacklint.editor.findings import told_of_plan, told_of_rules
from stacklint.editor.hover import hover
from stacklint.editor.markdown import code, escaped
from stacklint.editor.names import laid
from stacklint.editor.positions import Page, Spot
from stacklint.editor.rule_answers import rule_hover
from stacklint.editor.symbols import plan_symbols, rule_symbols
from stacklint.language import UsedText
from stacklint.report.plain import plain
from stacklint.rulebook import builtin, load

TODAY = datetime.date(2026, 6, 1)


@pytest.fixture(scope="module", params=["markup", "links", "joiners", "unseen"])
def mark(request):
    return MARKS[request.param]


@pytest.fixture(scope="module")
def plan(mark) -> str:
    return f"{shared_text(mark)}\n{plan_text(mark, 'shared')}".replace("\r", "")


@pytest.fixture(scope="module")
def book(mark):
    return load([("house.rules", rules_text(mark))], base=builtin(), house=True)


@pytest.fixture(scope="module")
def hovers(plan, mark, book):
    """What there is to say of each line of the plan and of the house rules."""
    own, rules = laid(plan, "plan.stackplan"), Page(rules_text(mark))
    pages = [hover(own, Spot(line, 4), book.book, use, TODAY) for line in range(1, plan.count("\n") + 2)]
    pages += [rule_hover(rules, Spot(line, 8), book.book, "house.rules") for line in range(1, len(rules.lines) + 1)]
    return [page for page in pages if page is not None]


def use(_name: str, _using: str) -> UsedText:
    return UsedText("shared", "")


def sent(message: Any) -> str:
    """What goes to the editor, its escapes of JSON undone."""
    return json.dumps(converters.get_converter().unstructure(message), ensure_ascii=False)


def elements(markdown: str) -> set[str]:
    """The kinds of elements that a renderer of CommonMark, which lets markup through, makes of a text."""
    tokens = MarkdownIt("commonmark", {"html": True}).enable("table").parse(markdown)
    return {each.type for token in tokens for each in (token, *(token.children or ()))}


def test_nothing_that_hovers_is_a_link_a_picture_or_markup(hovers):
    assert hovers
    for page in hovers:
        assert elements(page.text).isdisjoint({"link_open", "image", "html_inline", "html_block", "em_open", "fence"})


def test_no_address_hovers_that_an_editor_would_make_a_link_of(hovers):
    """As extensions of Markdown do with what begins with a scheme or with www."""
    for page in hovers:
        but_for_code = re.sub(r"(`+).*?\1", "", page.text)
        assert not re.search(r"\w://|www\.|\w@", but_for_code)


def test_nothing_that_hovers_hides_or_turns_text_round(hovers):
    assert not any(harmful(page.text) for page in hovers)


def test_findings_symbols_and_offers_are_told_as_text(plan, mark, book):
    page, own = Page(plan), laid(plan, "plan.stackplan")
    rules = Page(rules_text(mark))
    checked = check(plan, "plan.stackplan", book=book.book, today=TODAY, use=use)
    messages = [protocol.diagnostic(page, one, None) for one in told_of_plan(checked, plan, book.faults)]
    messages += [protocol.diagnostic(rules, one, None) for one in told_of_rules(rules.text, "house.rules")]
    messages += [protocol.symbol(page, one) for one in plan_symbols(own.outline)]
    messages += [protocol.symbol(rules, one) for one in rule_symbols(rules.text, "house.rules")]
    for message in messages:
        assert harmful(sent(message)) == set()
    for line, text in enumerate(page.lines, 1):
        for order, offer in enumerate(completion(page, own, Spot(line, len(text) + 1), book.book, use)):
            item = protocol.completion_item(page, offer, order)
            # What is put into the plan is what the plan calls it.
            assert harmful(f"{item.label}{item.detail}{item.documentation}") == set()


@pytest.mark.parametrize("text", [*MARKS.values(), "``a`", "`", "a`b``c", "- item", "+ item", "# head", "a|b", "~~s~~"])
def test_an_escaped_text_and_code_render_as_that_text(text):
    tokens = MarkdownIt("commonmark").parse(f"a {code(text)}")
    shown = {
        " ".join("".join(child.content for child in token.children).split()) for token in tokens if token.children
    }
    assert shown == {" ".join(f"a {plain(text)}".split())}
    assert elements(escaped(text)) <= {"paragraph_open", "inline", "text", "text_special", "paragraph_close"}
