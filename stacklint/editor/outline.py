"""What stands where in a plan, found by its tokens alone.

It is quick, and it does not mind statements that cannot be read: while somebody types, one of them mostly cannot.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from typing import NamedTuple

from stacklint.editor.positions import Spot
from stacklint.language.line import Line, Log, name_in
from stacklint.language.lines import logical_lines
from stacklint.language.parse import keywords
from stacklint.language.scan import Token, scan
from stacklint.language.statements import BLOCKS, STATEMENTS, BlockKind, Statement
from stacklint.where import Where


class Said(NamedTuple):
    """One logical line that says something. ``statement`` is ``None`` for the lead of a block, ``use`` and others."""

    line: Line
    tokens: tuple[Token, ...]
    statement: Statement | None

    @property
    def where(self) -> Where:
        return self.line.where(self.tokens[0].start_pos, self.tokens[-1].end_pos)

    def at(self, token: Token) -> Where:
        return self.line.at(token)


class Section(NamedTuple):
    """A block: its lead and the statements below it. ``name`` is its first word or name, as written."""

    kind: BlockKind
    lead: Said
    name: str
    statements: tuple[Said, ...]

    @property
    def where(self) -> Where:
        return self.lead.where.to(self.statements[-1].where) if self.statements else self.lead.where


class Outline(NamedTuple):
    """The blocks of a text, and the lines before the first."""

    before: tuple[Said, ...]
    sections: tuple[Section, ...]

    @property
    def all(self) -> Iterator[Said]:
        yield from self.before
        for section in self.sections:
            yield section.lead
            yield from section.statements

    def section_at(self, line: int) -> Section | None:
        """The block that a line belongs to: the last that begins at it or above it."""
        return next((one for one in reversed(self.sections) if one.lead.where.line <= line), None)

    def said_at(self, spot: Spot) -> Said | None:
        """The logical line that a place stands in."""
        return next((one for one in self.all if one.where.line <= spot.line <= one.where.end_line), None)


class Role(Enum):
    """What a name does at its place."""

    GIVES = "gives"
    USES = "uses"


class NameKind(Enum):
    """What bears a name that others use."""

    SITE = "site"
    KILN = "kiln"
    PILE = "pile"


class Mention(NamedTuple):
    """A name in quotation marks where it is given or used. ``where`` holds the marks too."""

    kind: NameKind
    role: Role
    name: str
    where: Where

    @property
    def inside(self) -> Where:
        """The place of the name without its quotation marks."""
        return self.where._replace(column=self.where.column + 1, end_column=self.where.end_column - 1)

    def same(self, other: Mention) -> bool:
        """Both speak of the same thing."""
        return self.kind is other.kind and self.name.casefold() == other.name.casefold()


def outline(text: str, path: str = "-") -> Outline:
    """The blocks and statements of a plan's text."""
    before: list[Said] = []
    sections: list[tuple[BlockKind, Said, list[Said]]] = []
    for said in _said(text, path):
        lead = said.tokens[0]
        kind = next((BLOCKS[name] for name in lead.could_be if name in BLOCKS), None)
        if kind is not None:
            sections.append((kind, said, []))
        elif sections:
            sections[-1][2].append(said)
        else:
            before.append(said)
    return Outline(
        tuple(before),
        tuple(Section(kind, lead, name_of(lead), tuple(statements)) for kind, lead, statements in sections),
    )


def name_of(lead: Said) -> str:
    """The name that a block's first line gives it; nothing where it gives none."""
    named = lead.tokens[1] if len(lead.tokens) > 1 else None
    if named is None:
        return ""
    return text_of(named) if named.type == "STRING" else " ".join(token.text for token in lead.tokens[1:])


def text_of(token: Token) -> str:
    """A name without its quotation marks, as the language reads it; a word by itself as it is written."""
    return name_in(token) if token.type == "STRING" else token.text


def mentions(laid: Outline) -> tuple[Mention, ...]:
    """The names of sites, kilns and piles in a text, where they are given and where they are used."""
    return tuple(mention for said in laid.all for mention in _mentions(said))


def uses(laid: Outline) -> tuple[tuple[str, Where], ...]:
    """The files that a text uses, as it names them, each with the place of its name."""
    return tuple(
        (text_of(said.tokens[1]), said.at(said.tokens[1]))
        for said in laid.all
        if "USE" in said.tokens[0].could_be and len(said.tokens) > 1 and said.tokens[1].type == "STRING"
    )


def _mentions(said: Said) -> Iterator[Mention]:
    first = said.tokens[0]
    draws = "FROM" in first.could_be
    for index, token in enumerate(said.tokens[1:], 1):
        if token.type != "STRING":
            continue
        before = said.tokens[index - 1]
        kind = next((kind for kind in NameKind if kind.name in before.could_be), None)
        if draws and (kind is NameKind.PILE or before.type == "COMMA"):
            yield Mention(NameKind.PILE, Role.USES, text_of(token), said.at(token))
        elif kind is not None and index == 1:
            yield Mention(kind, Role.GIVES, text_of(token), said.at(token))
        elif kind is NameKind.SITE or (kind is NameKind.KILN and "CHARGE" in first.could_be):
            yield Mention(kind, Role.USES, text_of(token), said.at(token))


def _said(text: str, path: str) -> Iterator[Said]:
    known = keywords()
    for line in logical_lines(text, path, Log()):
        tokens = scan(line.text, known)
        for part in _parted(tokens, line):
            statement = next((STATEMENTS[name] for name in part[0].could_be if name in STATEMENTS), None)
            yield Said(line, tuple(part), statement)


def _parted(tokens: list[Token], line: Line) -> Iterator[list[Token]]:
    """The tokens of a logical line; in two if a comma was left at the end of the line before the next block."""
    start = 0
    for index in range(1, len(tokens)) if line.breaks else ():
        token = tokens[index]
        if line.text[token.start_pos - 1] != "\n" or tokens[index - 1].type != "COMMA":
            continue
        if any(name in BLOCKS for name in token.could_be):
            yield tokens[start : index - 1] or tokens[start:index]
            start = index
    if tokens[start:]:
        yield tokens[start:]
