"""Lays out one statement: its lines with the indentation, broken where they are long, and its comments."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.language.parse import keywords
from stacklint.language.scan import Token, scan
from stacklint.language.statements import STATEMENTS, BlockKind
from stacklint.tidying.pieces import Piece
from stacklint.tidying.wording import Statement, Words

WIDTH = 100
"""Columns. Longer lines go on in the next where a comma lets them, under the first detail."""
_BEFORE_COMMENT = "  "


def laid_out(piece: Piece, kind: BlockKind | None, indent: str) -> list[str]:
    """The lines of a statement that can be read, with its comments, in a block of this kind.

    ``kind`` is ``None`` for what stands in no block: the line that opens one, or a ``use``.
    """
    statement = Statement(piece, kind)
    for lines in _ways(statement, indent):
        if statement.is_said_by(lines):
            return lines
    return list(piece.lines)


def _ways(statement: Statement, indent: str) -> Iterator[list[str]]:
    """The layouts of a statement, the best first. One that would not read back as the same is passed over."""
    as_it_stands = statement.unchanged()
    if not any(words.comment for words in as_it_stands[:-1]):  # those stand with details
        comment = as_it_stands[-1].comment
        for spell in (statement.standard, statement.on_one_line):
            whole = spell()
            if whole is not None:
                yield _with_comment([each for line in whole for each in _broken(line, indent)], comment, indent)
                yield _with_comment(whole, comment, indent)
    yield _in_lines(statement.respaced(), indent)
    yield _in_lines(as_it_stands, indent)


def _with_comment(lines: list[str], comment: str, indent: str) -> list[str]:
    """The comment goes behind the last line, or above the first where the last would become too long."""
    lines = [indent + line for line in lines]
    if not comment:
        return lines
    last = lines[-1] + _BEFORE_COMMENT + comment
    return [*lines[:-1], last] if len(last) <= WIDTH else [indent + comment, *lines]


def _in_lines(said: list[Words], indent: str) -> list[str]:
    """A statement that keeps its lines; all but the first begin under the first detail."""
    further = indent + " " * _first_detail(said[0].text)
    lines: list[str] = []
    for words in said:
        gap = _BEFORE_COMMENT if words.text and words.comment else ""
        lines.append((further if lines else indent) + words.text + gap + words.comment)
    return lines


def _broken(line: str, indent: str) -> list[str]:
    """The line, in several where it is long and has commas."""
    if len(indent) + len(line) <= WIDTH:
        return [line]
    commas = [token.end_pos for token in scan(line, keywords()) if token.type == "COMMA"]
    further = " " * _first_detail(line)
    lines: list[str] = []
    held = ""
    for start, end in zip([0, *commas], [*commas, len(line)], strict=True):
        part = line[start:end].strip()
        if held and len(indent) + len(held) + 1 + len(part) > WIDTH:
            lines.append(held)
            held = further + part
        else:
            held = f"{held} {part}" if held else part
    return [*lines, held]


def _first_detail(line: str) -> int:
    """Where what follows the keyword, or the label and its colon, begins in a line."""
    tokens = scan(line, keywords())
    begins = _colon(tokens) + 1 or _words_of_keyword(tokens[0])
    return tokens[begins].start_pos if begins < len(tokens) else 0


def _colon(tokens: list[Token]) -> int:
    """The index of the colon before the first comma, or -1."""
    for index, token in enumerate(tokens):
        if token.type in ("COLON", "COMMA"):
            return index if token.type == "COLON" else -1
    return -1


def _words_of_keyword(token: Token) -> int:
    known = next((STATEMENTS[name].keyword for name in token.could_be if name in STATEMENTS), "")
    return known.count(" ") + 1
