"""What stands before the cursor in a plan, and what the grammar has room for there."""

from __future__ import annotations

import re
from typing import NamedTuple

from stacklint.editor.outline import Outline
from stacklint.editor.positions import Page, Spot
from stacklint.language.line import Line, Log
from stacklint.language.lines import logical_lines, without_comment
from stacklint.language.parse import Refusal, keywords, parse_part
from stacklint.language.scan import BAD, Token, scan
from stacklint.language.statements import STATEMENTS, BlockKind, Statement
from stacklint.where import Where

_WORD = re.compile(r"[^\W\d_][\w/.-]*\Z|[%°]\Z")
_CLOSING = re.compile(r'[^"“”\n]*["”]')


class Cursor(NamedTuple):
    """A place in a plan.

    ``kind`` is the block that it stands in, ``said`` the statements that the block has elsewhere. ``parts`` are the
    tokens of its logical line before it, parted at the commas, without the word that is being written: that one is
    ``word``. ``quoted`` where that word stands in quotation marks; ``closed`` where they are closed behind it.
    """

    spot: Spot
    path: str
    line: Line
    kind: BlockKind | None
    said: frozenset[str]
    parts: tuple[tuple[Token, ...], ...]
    word: Where
    written: str
    quoted: bool
    closed: bool

    @property
    def part(self) -> tuple[Token, ...]:
        """What stands between the last comma and the word."""
        return self.parts[-1]

    @property
    def statement(self) -> Statement | None:
        """The statement of the line, if its first word begins one that its block takes."""
        lead = self.parts[0][0] if self.parts[0] else None
        found = next((STATEMENTS[name] for name in lead.could_be if name in STATEMENTS), None) if lead else None
        return found if found is not None and self.kind in found.blocks else None

    @property
    def leads(self) -> tuple[str, ...]:
        """The terminals that the first word of the line could be."""
        return self.parts[0][0].could_be if self.parts[0] else ()

    def since(self, token: Token | None) -> Where:
        """From a token up to the cursor, if it stands on the cursor's line; else the word."""
        if token is None:
            return self.word
        start = self.line.at(token)
        return (
            start._replace(end_line=self.spot.line, end_column=self.word.end_column)
            if (start.line == self.spot.line)
            else self.word
        )


def cursor(page: Page, laid: Outline, spot: Spot, path: str = "-") -> Cursor | None:
    """What stands before a place; ``None`` in a comment."""
    before = "\n".join([*page.lines[: spot.line - 1], page.lines[spot.line - 1][: spot.column - 1]])
    lines = list(logical_lines(before, path, Log()))
    if not lines:
        return None
    line = lines[-1]
    physical = line.text.rpartition("\n")[2]
    if without_comment(physical) != physical:
        return None
    start, quoted = _word_start(line.text)
    rest = page.lines[spot.line - 1][spot.column - 1 :]
    behind = _CLOSING.match(rest) if quoted else None
    end = spot.column + (behind.end() - 1 if behind else 0)
    column = spot.column - (len(line.text) - start)
    section = laid.section_at(line.number if line.text.strip() else spot.line)
    others = section.statements if section is not None else ()
    said = frozenset(
        each.statement.keyword
        for each in others
        if each.statement is not None and not (line.number <= each.where.line <= spot.line)
    )
    tokens = scan(line.text[: start - quoted], keywords())
    return Cursor(
        spot=spot,
        path=path,
        line=line,
        kind=section.kind if section is not None and section.lead.where.line < line.number else None,
        said=said,
        parts=_parts(tokens),
        word=Where(path, spot.line, column, spot.line, end),
        written=line.text[start:],
        quoted=quoted,
        closed=behind is not None,
    )


def room_for(part: tuple[Token, ...]) -> frozenset[str]:
    """The terminals of the grammar that may follow the tokens of a part."""
    found = parse_part((*part, _marker(BAD))).said
    if not isinstance(found, Refusal):
        return frozenset()
    return frozenset(name for name in found.expected if _follows(part, name))


def _follows(part: tuple[Token, ...], terminal: str) -> bool:
    """The grammar's tables name more terminals than can follow: whether this one is not refused."""
    token = _marker(terminal)
    said = parse_part((*part, token)).said
    return not isinstance(said, Refusal) or said.token is not token


def _marker(terminal: str) -> Token:
    return Token(terminal, "", 0, 0)


def _word_start(text: str) -> tuple[int, bool]:
    """Where the word at the end of a line begins, and whether it stands in quotation marks that are open."""
    tokens = scan(text, keywords())
    last = tokens[-1] if tokens else None
    if last is not None and last.type == BAD and last.text[0] in '"“' and last.end_pos == len(text):
        return last.start_pos + 1, True
    match = _WORD.search(text)
    return (match.start() if match else len(text)), False


def _parts(tokens: list[Token]) -> tuple[tuple[Token, ...], ...]:
    """The tokens parted at the commas; each part but the first begins with its comma."""
    parts: list[list[Token]] = [[]]
    for token in tokens:
        if token.type == "COMMA" and parts[-1]:
            parts.append([])
        parts[-1].append(token)
    return tuple(tuple(part) for part in parts)
