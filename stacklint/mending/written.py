"""A plan's text as its writer sees it: blocks, statements, details, each with its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stacklint.language.blocks import first_statement
from stacklint.language.line import Line, Log, plain
from stacklint.language.lines import logical_lines
from stacklint.language.parse import Branch, keywords, parse
from stacklint.language.scan import Token, scan
from stacklint.language.statements import BLOCKS, STATEMENTS
from stacklint.where import Where

ORDER = tuple(statement.keyword for statement in STATEMENTS.values())
"""The statements in the order of the language reference, but that those of charges alone come last."""


@dataclass(frozen=True, slots=True)
class Detail:
    """What stands between two commas. ``kind`` is its name in the grammar, ``words`` its text as tables spell it.

    ``comma`` is the place of the comma before it; ``None`` where there is none.
    """

    kind: str
    words: str
    where: Where
    comma: Where | None


@dataclass(frozen=True, slots=True)
class Statement:
    """``details`` are empty where the line cannot be read; ``where`` leaves comments out."""

    keyword: str
    where: Where
    details: tuple[Detail, ...]

    def detail(self, *kinds: str) -> Detail | None:
        """The first detail of one of these kinds."""
        return next((detail for detail in self.details if detail.kind in kinds), None)

    def worded(self, *words: str) -> Detail | None:
        """The first detail that says one of these words."""
        return next((detail for detail in self.details if detail.words in words), None)


@dataclass(frozen=True, slots=True)
class Block:
    """``header`` is the block's own line; ``statements`` follow it in the order of the text."""

    kind: str
    header: Where
    statements: tuple[Statement, ...]

    def statement(self, keyword: str) -> Statement | None:
        return next((each for each in self.statements if each.keyword == keyword), None)

    def all(self, keyword: str) -> tuple[Statement, ...]:
        return tuple(each for each in self.statements if each.keyword == keyword)

    @property
    def last_line(self) -> int:
        return self.statements[-1].where.end_line if self.statements else self.header.end_line


class Source:
    """A text cut into its blocks."""

    def __init__(self, text: str, path: str) -> None:
        self.text = text
        self.path = path
        self.lines = text.split("\n")
        self.blocks = tuple(_blocks(text, path))

    def block(self, header: Where) -> Block | None:
        return next((block for block in self.blocks if block.header == header), None)

    def statement(self, where: Where) -> Statement | None:
        """The statement of this text that ``where`` is, or is a part of."""
        if where.path != self.path:
            return None
        start, end = where[1:3], where[3:5]
        return next(
            (
                statement
                for block in self.blocks
                for statement in block.statements
                if statement.where[1:3] <= start and end <= statement.where[3:5]
            ),
            None,
        )

    def said(self, where: Where) -> str:
        """What stands at a place of one line."""
        if where.path != self.path or where.line != where.end_line or not 0 < where.line <= len(self.lines):
            return ""
        return self.lines[where.line - 1][where.column - 1 : where.end_column - 1]


def _blocks(text: str, path: str) -> Iterator[Block]:
    kind = ""
    header: Where | None = None
    statements: list[Statement] = []
    for line, tokens in _statements(text, path):
        lead = _lead(tokens)
        if lead is None:
            continue
        line.start, line.end = tokens[0].start_pos, tokens[-1].end_pos
        if lead in BLOCKS:
            if header is not None:
                yield Block(kind, header, tuple(statements))
            kind, header, statements = BLOCKS[lead].value, line.whole(), []
        elif lead in STATEMENTS:
            statements.append(_statement(line, tokens, STATEMENTS[lead].keyword))
    if header is not None:
        yield Block(kind, header, tuple(statements))


def _statements(text: str, path: str) -> Iterator[tuple[Line, list[Token]]]:
    """The statements with their tokens, also those that a stray comma joins to the one before."""
    words = keywords()
    for logical in logical_lines(text, path, Log()):
        rest: Line | None = logical
        while rest is not None:
            line, tokens = rest, scan(rest.text, words)
            rest = None
            if tokens and line.breaks:
                tokens, rest = first_statement(line, tokens)
            if tokens:
                yield line, tokens


def _lead(tokens: list[Token]) -> str | None:
    return next((name for name in tokens[0].could_be if name in STATEMENTS or name in BLOCKS), None)


def _statement(line: Line, tokens: list[Token], keyword: str) -> Statement:
    branches = parse(tokens)
    if branches is None:
        return Statement(keyword, line.whole(), ())
    head, *rest = branches
    first = head.children[-1] if head.data == "listed" and not isinstance(head.children[-1], Token) else None
    commas = [token for token in tokens if token.type == "COMMA"]
    details = [] if first is None else [Detail(str(first.data), plain(first), line.over(first), None)]
    details += [_detail(line, branch, comma) for branch, comma in zip(rest, commas, strict=False)]
    return Statement(keyword, line.whole(), tuple(details))


def _detail(line: Line, branch: Branch, comma: Token) -> Detail:
    return Detail(str(branch.data), plain(branch), line.over(branch), line.at(comma))
