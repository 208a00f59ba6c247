"""Changes of a plan's text that leave everything else as it stands, comments and layout too."""

from __future__ import annotations

from stacklint.changes import Change
from stacklint.language.lines import without_comment
from stacklint.mending.written import ORDER, Block, Detail, Source, Statement
from stacklint.where import Where

_INDENT = "  "


def replaced(where: Where, text: str) -> Change:
    return Change(where, text)


def inserted(where: Where, text: str) -> Change:
    """``text`` right after what stands at ``where``."""
    return Change(_end(where), text)


def added_detail(statement: Statement, text: str) -> Change:
    return inserted(statement.where, f", {text}")


def dropped_detail(statement: Statement, detail: Detail) -> tuple[Change, ...]:
    """Takes a detail out with the comma that goes with it; a comment between the two stays."""
    place = statement.details.index(detail)
    if place + 1 < len(statement.details):
        after = statement.details[place + 1]
        assert after.comma is not None
        to = after.where if after.where.line == detail.where.line else _end(after.comma)
        return (Change(Where(detail.where.path, *detail.where[1:3], *to[1:3]), ""),)
    if detail.comma is None:
        return (Change(detail.where, ""),)
    if detail.comma.line == detail.where.line:
        return (Change(detail.comma.to(detail.where), ""),)
    return (Change(detail.comma, ""), Change(detail.where, ""))


def added_statement(source: Source, block: Block, keyword: str, text: str) -> Change:
    """A statement on a line of its own, where the standard order has it among the others."""
    rank = ORDER.index(keyword)
    before = [each.where for each in block.statements if ORDER.index(each.keyword) <= rank]
    return _line_after(source, max(before, key=lambda where: where.end_line, default=block.header), text)


def added_block(source: Source, block: Block, text: str) -> Change:
    """A block of its own behind ``block``, an empty line between them."""
    line = block.last_line
    column = len(source.lines[line - 1]) + 1
    return Change(Where(source.path, line, column, line, column), f"\n\n{text}")


def dropped_statement(source: Source, statement: Statement) -> Change:
    """Takes a statement out with its lines; where a comment stands on them, the comment stays."""
    where = statement.where
    lines = source.lines[where.line - 1 : where.end_line]
    if any(without_comment(line) != line for line in lines) or where.end_line == len(source.lines):
        return Change(where, "")
    return Change(Where(where.path, where.line, 1, where.end_line + 1, 1), "")


def inserted_before(source: Source, statement: Statement, text: str) -> Change:
    """A statement on a line of its own before another one."""
    first = source.lines[statement.where.line - 1]
    indent = first[: len(first) - len(first.lstrip())]
    return Change(Where(source.path, statement.where.line, 1, statement.where.line, 1), f"{indent}{text}\n")


def _line_after(source: Source, where: Where, text: str) -> Change:
    line = source.lines[where.end_line - 1].removesuffix("\r")
    first = source.lines[where.line - 1]
    indent = first[: len(first) - len(first.lstrip())] or _INDENT
    column = len(line) + 1
    return Change(Where(source.path, where.end_line, column, where.end_line, column), f"\n{indent}{text}")


def _end(where: Where) -> Where:
    return Where(where.path, where.end_line, where.end_column, where.end_line, where.end_column)
