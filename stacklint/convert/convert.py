"""A tally in comma-separated values made a pile with its ``boards`` lines."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import count
from typing import NamedTuple

from stacklint.convert.headings import Column
from stacklint.convert.rows import Tallied, Unread, tallied
from stacklint.convert.table import MOST_ROWS, Table, TableTrouble, read_table
from stacklint.language import write
from stacklint.language.board_statements import MOST_BOARDS
from stacklint.plan.boards import Boards
from stacklint.plan.bounds import MOST_LUMBER
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Plan
from stacklint.report.plain import plain

_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_COMMENT_WIDTH = 100
_LONGEST_COMMENT = 1000
"""Characters that are kept of what a row says that could not be read."""
_LONGEST_NAME = 80


class Converted(NamedTuple):
    """A tally made a plan: its ``text``, the rows that could not be read, and ``notes`` on what was left out."""

    text: str
    unread: tuple[Unread, ...]
    notes: tuple[str, ...]


class _Group(NamedTuple):
    boards: Boards
    remarks: tuple[str, ...]


def convert(text: str, name: str, *, wood: str | None = None, together: bool = False) -> Converted | TableTrouble:
    """A pile of the boards in a tally.

    Args:
        text: comma-separated values (RFC 4180), or such parted by semicolons or tabs, with a line of headings.
        name: the pile's name.
        wood: the wood of rows that name none.
        together: rows that are alike in all but their count or volume become one statement.

    The text that comes out is read without a fault, whatever the tally says. A row that cannot be read stands in it as
    a comment.
    """
    table = read_table(text)
    if isinstance(table, TableTrouble):
        return table
    missing = _missing(table, wood)
    if missing is not None:
        return missing
    rows = [tallied(row, table, wood) for row in table.rows]
    unread = tuple(row for row in rows if isinstance(row, Unread))
    groups = [_Group(row.boards, (row.remark,) if row.remark else ()) for row in rows if isinstance(row, Tallied)]
    if together:
        groups = list(_together(groups))
    labelled = [
        group._replace(boards=group.boards.model_copy(update={"label": Name(text=label)}))
        for group, label in zip(groups, _labels(), strict=False)
    ]
    lines = [*_pile(name, table, labelled), *_kept(unread)]
    return Converted("\n".join(lines) + "\n", unread, tuple(_notes(table)))


def _missing(table: Table, wood: str | None) -> TableTrouble | None:
    """What the tally lacks in all its rows."""
    has = table.columns
    if Column.WOOD not in has and wood is None:
        return TableTrouble("has no column that names the wood; add one headed species, or say --wood NAME")
    sizes = (Column.THICKNESS, Column.WIDTH, Column.LENGTH)
    lacking = [each.value for each in sizes if each not in has]
    if lacking and Column.SIZE not in has:
        return TableTrouble(f"has no column for the {lacking[0]}; add one headed {lacking[0]}, or one headed size")
    if Column.COUNT not in has and Column.VOLUME not in has:
        return TableTrouble("has no column that says how many or how much; add one headed count or volume")
    return None


def _labels() -> Iterator[str]:
    """a, b, ... z, aa, ab, ...: as a spreadsheet heads its columns."""
    for number in count(1):
        label = ""
        while number:
            number, letter = divmod(number - 1, len(_LETTERS))
            label = _LETTERS[letter] + label
        yield label


def _together(groups: Iterable[_Group]) -> Iterator[_Group]:
    """Groups that are alike in all but how many or how much, as one; never more than one statement may say."""
    summed: list[_Group] = []
    places: dict[Boards, int] = {}
    for group in groups:
        boards = group.boards
        volume = boards.volume.model_copy(update={"number": 1.0}) if boards.volume else None
        kind = boards.model_copy(update={"count": None if boards.count is None else 1, "volume": volume})
        place = places.get(kind)
        more = _more(summed[place].boards, boards) if place is not None else None
        if place is None or more is None:
            places[kind] = len(summed)
            summed.append(group)
            continue
        new = tuple(remark for remark in group.remarks if remark not in summed[place].remarks)
        summed[place] = _Group(more, summed[place].remarks + new)
    return iter(summed)


def _more(boards: Boards, others: Boards) -> Boards | None:
    """The boards of both; ``None`` if that is more than one statement may say."""
    if boards.count is not None and others.count is not None:
        total = boards.count + others.count
        return boards.model_copy(update={"count": total}) if total <= MOST_BOARDS else None
    assert boards.volume is not None and others.volume is not None
    number = float(Decimal(repr(boards.volume.number)) + Decimal(repr(others.volume.number)))
    volume: Quantity = boards.volume.model_copy(update={"number": number})
    return boards.model_copy(update={"volume": volume}) if volume.si <= MOST_LUMBER else None


def _pile(name: str, table: Table, groups: Sequence[_Group]) -> Iterator[str]:
    stack = Stack(kind=StackKind.PILE, name=Name(text=_pile_name(name)), boards=tuple(group.boards for group in groups))
    header, *statements = write(Plan(stacks=(stack,))).splitlines()
    yield header
    for row in table.above:
        yield from _comment(" ".join(cell.strip() for cell in row.cells if cell.strip()))
    for statement, group in zip(statements, groups, strict=True):
        if len(group.remarks) == 1 and len(statement) + len(group.remarks[0]) < _COMMENT_WIDTH:
            yield f"{statement}  # {plain(group.remarks[0])}"
            continue
        for remark in group.remarks:
            yield from _comment(remark)
        yield statement


def _pile_name(name: str) -> str:
    """A name that stands in quotation marks on one line."""
    bare = " ".join(plain(name).translate(dict.fromkeys(map(ord, '"“”'), " ")).split())
    return bare[:_LONGEST_NAME].strip() or "boards"


def _kept(unread: Iterable[Unread]) -> Iterator[str]:
    for row in unread:
        yield from _comment(f"line {row.line}, not read: {row.said}")


def _comment(text: str) -> Iterator[str]:
    if len(text) > _LONGEST_COMMENT:
        text = f"{text[:_LONGEST_COMMENT]}..."
    for line in textwrap.wrap(plain(text), _COMMENT_WIDTH):
        yield f"  # {line}"


def _notes(table: Table) -> Iterator[str]:
    for column in table.left_out:
        yield f"the column {plain(column.name.strip())} was left out: {plain(column.why)}"
    if Column.GRADE in table.columns:
        grade = plain(table.names[table.columns[Column.GRADE]].strip())
        yield f"the column {grade} was left out: a plan of a stack asks for no grade"
    if not table.whole:
        yield f"only the first {MOST_ROWS:,} rows were read; part the tally"
