"""The page on the rule language, the grammar as a whole and the loader say the same."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from stacklint.data import folder
from stacklint.rulebook import builtin_texts, load
from stacklint.rulebook.grammar import QUANTIFIERS, unit_symbols
from stacklint.rulebook.reader import CLAUSES
from stacklint.rulebook.reference import facts_section

if TYPE_CHECKING:
    from lark import Lark

PAGE = (folder("grammar") / "RULES.md").read_text(encoding="utf-8")
EXAMPLES = [(kind, text) for kind, text in re.findall(r"```(rules|house|nearer)\n(.*?)```", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def grammar() -> Lark:
    from lark import Lark

    return Lark.open(str(folder("grammar") / "rules.lark"), parser="lalr", start=["file", "filling"])


def test_every_example_of_the_page_is_right() -> None:
    rules = load([(f"example {number}", text) for number, (kind, text) in enumerate(EXAMPLES) if kind == "rules"])
    assert rules.faults == ()
    base = rules.book
    for kind, text in EXAMPLES:
        if kind == "rules":
            continue
        loaded = load([(f"{kind}.rules", text)], base=rules.book if kind == "house" else base, house=True)
        assert loaded.faults == ()
        base = loaded.book


def test_the_page_has_an_example_of_every_clause_and_every_quantifier() -> None:
    shown = "\n".join(text for _, text in EXAMPLES)
    for clause in CLAUSES:
        assert re.search(rf"(?m)^ +{clause}\b", shown), clause
    for start in ("rule", "change", "skip", "keep"):
        assert re.search(rf"(?m)^{start} ", shown), start
    for way in QUANTIFIERS:
        assert f"{way}(" in PAGE


def test_the_page_lists_every_unit() -> None:
    for symbol in unit_symbols().split(", "):
        assert f"`{symbol}`" in PAGE


def test_the_facts_of_the_page_are_those_that_rules_see() -> None:
    assert PAGE.split("## Facts\n\n")[1] == facts_section(), "print it anew: python -m stacklint.rulebook.reference"


@pytest.mark.parametrize("text", [text for _, text in EXAMPLES] + [text for _, text in builtin_texts()])
def test_the_grammar_of_whole_files_takes_what_the_loader_takes(grammar: Lark, text: str) -> None:
    found = grammar.parse(text, start="file")
    clauses = len(re.findall(r"(?m)^ +(?:error|warning|note) +when\b", text))
    assert len(list(found.find_data("level"))) == clauses


@pytest.mark.parametrize("text", ["span.sag", "span.sag as in", "stack.wettest as %", "'a' & 3 days", "x as kg/m2"])
def test_the_grammar_takes_what_stands_between_braces(grammar: Lark, text: str) -> None:
    assert grammar.parse(text, start="filling").data == "filling"


@pytest.mark.parametrize(
    "text",
    [
        'rule a\n  say "x\n',
        "rule a\n  error span.sag > 1 in\n",
        "rule a\n  where span.sag >\n",
        "rule a\n  spam 3\n",
        "skip a\n",
        'rule a\n  limit b source "x"\n',
        "title x\n",
    ],
)
def test_the_grammar_of_whole_files_refuses_what_the_loader_refuses(grammar: Lark, text: str) -> None:
    from lark.exceptions import UnexpectedInput

    assert load([("a.rules", text)], house=True).faults
    with pytest.raises(UnexpectedInput):
        grammar.parse(text, start="file")
