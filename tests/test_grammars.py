"""The parser tables that are kept beside the grammars are those of the grammars."""

from __future__ import annotations

import hashlib
import json

import lark
import pytest

from stacklint import grammars
from stacklint.data import folder
from stacklint.language.parse import GRAMMAR as PLAN
from stacklint.rulebook.grammar import GRAMMAR as EXPRESSIONS

BOTH = pytest.mark.parametrize("grammar", [PLAN, EXPRESSIONS], ids=lambda grammar: grammar[0])


@BOTH
def test_the_kept_tables_were_made_of_the_grammar_as_it_stands(grammar: grammars.Grammar) -> None:
    kept = json.loads((folder("grammar") / f"{grammar.name}.tables.json").read_text(encoding="utf-8"))
    assert kept["grammar"] == hashlib.sha256(grammar.text.encode()).hexdigest()


@BOTH
def test_tables_of_another_grammar_or_another_lark_are_not_used(
    grammar: grammars.Grammar, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lark, "__version__", "0.0.0")
    built = []
    monkeypatch.setattr(grammars, "made", lambda one: built.append(one) or "made afresh")
    assert grammars.parser(grammar) == "made afresh"
    assert built == [grammar]


@BOTH
def test_a_parser_from_tables_has_the_terminals_and_rules_of_one_made_afresh(grammar: grammars.Grammar) -> None:
    fresh, kept = grammars.made(grammar), grammars.parser(grammar)
    assert {terminal.name for terminal in kept.terminals} == {terminal.name for terminal in fresh.terminals}
    assert [str(rule) for rule in kept.rules] == [str(rule) for rule in fresh.rules]
