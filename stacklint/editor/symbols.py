"""What a text is made of, for an editor's list of symbols, and the stretches that it can fold."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from typing import NamedTuple

from stacklint.editor.outline import Outline, Said, Section, text_of
from stacklint.language.statements import BlockKind
from stacklint.rulebook import reader
from stacklint.where import Where


class SymbolKind(Enum):
    """What a symbol stands for."""

    SITE = "site"
    KILN = "kiln"
    WOOD = "wood"
    PILE = "pile"
    CHARGE = "charge"
    BOARDS = "boards"
    RULE = "rule"


class Symbol(NamedTuple):
    """A block or a part of one. ``where`` is the whole of it, ``name_where`` its name."""

    name: str
    detail: str
    kind: SymbolKind
    where: Where
    name_where: Where
    parts: tuple[Symbol, ...] = ()


class Fold(NamedTuple):
    """Lines that fold into the first. ``comment`` for a run of comments."""

    first: int
    last: int
    comment: bool = False


def plan_symbols(laid: Outline) -> tuple[Symbol, ...]:
    """The blocks of a plan, with the groups of boards in each."""
    return tuple(_block(section) for section in laid.sections)


def rule_symbols(text: str, path: str) -> tuple[Symbol, ...]:
    """The rules, changes and skipped rules of a rule file, each with its title or its kind."""
    blocks, _ = reader.read(path, text)
    lines = text.split("\n")
    found = []
    for index, block in enumerate(blocks):
        until = blocks[index + 1].where.line - 1 if index + 1 < len(blocks) else len(lines)
        last = _last_said(lines, block.where.line, until)
        title = next((text.text for clause in block.clauses if clause.keyword == "title" for text in clause.texts), "")
        whole = block.where._replace(end_line=last, end_column=len(lines[last - 1]) + 1)
        name = block.name or block.kind.value
        found.append(Symbol(name, title or block.kind.value, SymbolKind.RULE, whole, block.where))
    return tuple(found)


def folds(symbols: tuple[Symbol, ...], text: str, laid: Outline | None = None) -> tuple[Fold, ...]:
    """Every block, every statement that goes on over lines, and every run of comments."""
    stretches = [symbol.where for symbol in symbols]
    if laid is not None:
        stretches += [said.where for section in laid.sections for said in section.statements]
    blocks = [Fold(where.line, where.end_line) for where in stretches if where.end_line > where.line]
    return (*blocks, *_comments(text))


def _block(section: Section) -> Symbol:
    lead = section.lead
    named = lead.at(lead.tokens[1]) if len(lead.tokens) > 1 else lead.where
    title = lead.tokens[2] if len(lead.tokens) > 2 and lead.tokens[2].type == "STRING" else None
    detail = section.kind.value if title is None else f"{section.kind.value}: {text_of(title)}"
    stacks = section.kind in (BlockKind.PILE, BlockKind.CHARGE)
    parts = tuple(_groups(section)) if stacks else ()
    kind = SymbolKind(section.kind.value)
    return Symbol(section.name or section.kind.value, detail, kind, section.where, named, parts)


def _groups(section: Section) -> Iterator[Symbol]:
    for said in section.statements:
        if said.statement is None or said.statement.keyword != "boards" or len(said.tokens) < 2:
            continue
        label = said.tokens[1]
        yield Symbol(label.text, _rest(said), SymbolKind.BOARDS, said.where, said.at(label))


def _rest(said: Said) -> str:
    """What follows the label of a group, on one line."""
    colon = next((token for token in said.tokens if token.type == "COLON"), said.tokens[1])
    return " ".join(said.line.text[colon.end_pos : said.tokens[-1].end_pos].split())


def _last_said(lines: list[str], first: int, last: int) -> int:
    """The last line of a stretch that says something."""
    while last > first and (not lines[last - 1].strip() or lines[last - 1].lstrip().startswith("#")):
        last -= 1
    return last


def _comments(text: str) -> Iterator[Fold]:
    start = None
    lines = text.split("\n")
    for number, line in enumerate([*lines, ""], 1):
        if line.lstrip().startswith("#"):
            start = start or number
        else:
            if start is not None and number - 1 > start:
                yield Fold(start, number - 1, comment=True)
            start = None
