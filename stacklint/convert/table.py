"""Reads comma-separated values (RFC 4180), also parted by semicolons or tabs, into rows under their headings.

The parting character is the one under which the csv module finds the most headings that a tally has; the module's
own guess goes by quotation marks, which in a tally are inches and feet.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from typing import NamedTuple

from stacklint.convert.headings import Column, Heading, heading, may_number_rows

MOST_ROWS = 5000
"""A tally of more boards than stacklint checks in one stack, one a row, is no tally of a stack."""
_MOST_LINES_A_ROW = 20
LONGEST_LINE = 5000
"""Characters of one line."""
_HEADINGS_BY_LINE = 30
"""Titles and dates may stand above the headings, but not a page of them."""
_SURELY_NUMBERED = 3
_PARTED_BY = (",", ";", "\t")


class TableTrouble(NamedTuple):
    """Why a text is no tally; one sentence's end, after the file's name."""

    message: str


class Row(NamedTuple):
    """One row: the line it starts on (from 1), its cells, and what is wrong with its writing, if anything is."""

    line: int
    cells: tuple[str, ...]
    fault: str | None = None

    @property
    def blank(self) -> bool:
        return not any(cell.strip() for cell in self.cells)


class LeftOut(NamedTuple):
    """A column that is not read, and why."""

    name: str
    why: str


class Table(NamedTuple):
    """A tally: where each column stands, the columns that are not read, and its rows.

    ``above`` are the rows over the headings. ``decimal_commas``: commas do not part the cells, so that they may be
    decimal marks. ``whole`` is false if there were more rows than are read.
    """

    columns: Mapping[Column, int]
    headings: Mapping[Column, Heading]
    names: tuple[str, ...]
    left_out: tuple[LeftOut, ...]
    above: tuple[Row, ...]
    rows: tuple[Row, ...]
    decimal_commas: bool
    whole: bool


def read_table(text: str) -> Table | TableTrouble:
    """The table in ``text``."""
    lines = text.split("\n")
    found = _headings(lines)
    if found is None:
        return TableTrouble(
            "has no line of headings that a tally has; write one, such as: species, thickness, width, length, count"
        )
    mark, above, head = found
    columns: dict[Column, int] = {}
    headings: dict[Column, Heading] = {}
    left_out = []
    for index, name in enumerate(head.cells):
        known = heading(name)
        if known is None:
            if name.strip():
                left_out.append(LeftOut(name, "it is not known what it says of the boards"))
            continue
        first = columns.get(known.column)
        if first is not None:
            kept = _of_two(known.column, head.cells, first, index)
            if isinstance(kept, TableTrouble):
                return kept
            left_out.append(kept)
            if kept.name != head.cells[first]:
                continue
        columns[known.column] = index
        headings[known.column] = known
    below = (row for row in _rows(lines, head.line, mark) if not row.blank)
    next(below)
    rows = tuple(islice(below, MOST_ROWS))
    if _numbered(columns, head.cells, rows):
        name = head.cells[columns[Column.COUNT]].strip()
        return TableTrouble(f"numbers its rows in the column {name}; head the column that says how many with qty")
    return Table(columns, headings, head.cells, tuple(left_out), above, rows, mark != ",", next(below, None) is None)


def _of_two(column: Column, names: Sequence[str], first: int, second: int) -> LeftOut | TableTrouble:
    """Which of two columns that say the same is left out; that is not guessed for what a row cannot do without."""
    one, other = names[first].strip(), names[second].strip()
    if column is Column.COUNT and may_number_rows(one) is not may_number_rows(other):
        numbers = first if may_number_rows(one) else second
        return LeftOut(names[numbers], "it numbers the rows")
    if column in (Column.VOLUME, Column.GRADE, Column.NOTES):
        return LeftOut(names[second], f"the column {one} says the same")
    return TableTrouble(f"has two columns for the {column.value}, {one} and {other}; leave one of them")


def _numbered(columns: Mapping[Column, int], names: Sequence[str], rows: Sequence[Row]) -> bool:
    """What may be counts is the numbers of the rows: 1, 2, 3 and so on."""
    place = columns.get(Column.COUNT)
    if place is None or not may_number_rows(names[place]) or len(rows) < _SURELY_NUMBERED:
        return False
    said = [row.cells[place].strip().rstrip(".") for row in rows if place < len(row.cells)]
    return said == [str(number) for number in range(1, len(rows) + 1)]


def _headings(lines: Sequence[str]) -> tuple[str, tuple[Row, ...], Row] | None:
    """What parts the cells, the rows above the headings, and the headings: the row that has the most of them."""
    best: tuple[int, str, tuple[Row, ...], Row] | None = None
    for mark in _PARTED_BY:
        rows = [row for row in _rows(lines[:_HEADINGS_BY_LINE], 1, mark) if not row.blank]
        for index, row in enumerate(rows):
            known = {found.column for cell in row.cells if (found := heading(cell)) is not None}
            if row.fault is None and len(known) > (best[0] if best else 1):
                best = (len(known), mark, tuple(rows[:index]), row)
    return best[1:] if best else None


def _rows(lines: Sequence[str], first: int, mark: str) -> Iterator[Row]:
    """The rows from line ``first`` on. A row whose writing is at fault ends with its first line."""
    at = first - 1
    while at < len(lines):
        if len(lines[at]) > LONGEST_LINE:
            yield Row(at + 1, (lines[at][:80],), f"has more than {LONGEST_LINE:,} characters in one line")
            at += 1
            continue
        reader = csv.reader((f"{line}\n" for line in lines[at : at + _MOST_LINES_A_ROW]), delimiter=mark, strict=True)
        try:
            cells = tuple(next(reader))
        except csv.Error:
            yield Row(
                at + 1,
                tuple(lines[at].split(mark)),
                'a cell that begins with a quotation mark must end with one; within it, write marks twice: "6"""',
            )
            at += 1
            continue
        yield Row(at + 1, cells)
        at += reader.line_num
