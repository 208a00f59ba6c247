"""The list of what a text is made of, and what of it folds."""

from __future__ import annotations

from editor_marks import YARD

from stacklint.editor.outline import outline
from stacklint.editor.symbols import Fold, SymbolKind, folds, plan_symbols, rule_symbols


def test_every_block_of_a_plan_is_listed_with_its_groups_of_boards():
    symbols = plan_symbols(outline(YARD))
    assert [(each.kind, each.name) for each in symbols] == [
        (SymbolKind.SITE, "Cold Hollow"),
        (SymbolKind.KILN, "North box"),
        (SymbolKind.WOOD, "bog oak"),
        (SymbolKind.PILE, "B2"),
    ]
    assert symbols[-1].detail == "pile: Ash for flooring"
    assert [part.name for part in symbols[-1].parts] == ["a"]
    assert symbols[-1].parts[0].detail == "60 of white ash 4/4 x 6 in x 8 ft, green"


def test_a_name_lies_within_its_block():
    # LSP 3.17, DocumentSymbol: selectionRange must be contained by range.
    for symbol in plan_symbols(outline(YARD)):
        assert symbol.where[1:3] <= symbol.name_where[1:3]
        assert symbol.name_where[3:] <= symbol.where[3:]


def test_blocks_fold_from_their_name_to_their_last_statement():
    text = f"# the yard\n# of the mill\n\n{YARD}\n"
    laid = outline(text)
    found = folds(plan_symbols(laid), text, laid)
    assert Fold(4, 5) in found
    assert Fold(1, 2, comment=True) in found


def test_a_statement_over_several_lines_folds():
    text = 'pile "P"\n  stickers 3/4 in,\n    every 24 in,\n    dry\n'
    laid = outline(text)
    assert Fold(2, 4) in folds(plan_symbols(laid), text, laid)


def test_a_block_after_a_line_that_ends_in_a_comma_is_listed():
    names = [each.name for each in plan_symbols(outline('pile "A"\n  cover tarp,\npile "B"\n  cover tarp\n'))]
    assert names == ["A", "B"]


def test_rules_are_listed_with_their_titles():
    text = 'rule x\n  title Boards sag\n  why "so"\n\n# of lifting\nskip y because "z"\n'
    symbols = rule_symbols(text, "house.rules")
    assert [(each.name, each.detail) for each in symbols] == [("x", "Boards sag"), ("y", "skip")]
    assert (symbols[0].where.line, symbols[0].where.end_line) == (1, 3), "the comment belongs to what follows"


def test_a_rule_being_written_is_listed():
    assert [each.name for each in rule_symbols("rule\n", "x.rules")] in (["rule"], [])
