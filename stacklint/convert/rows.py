"""Makes boards of the rows of a tally.

A row is put together as a ``boards`` statement and read by the plan language itself, so that a tally is held to what
a plan is held to: woods that the table knows, figures that can be, thickness before width.
"""

from __future__ import annotations

from typing import NamedTuple

from stacklint.convert.cells import (
    LONGEST,
    CellError,
    count,
    found,
    in_inches,
    moisture,
    side,
    size,
    volume,
    width,
    with_points,
)
from stacklint.convert.headings import Column, HeadingUnit
from stacklint.convert.table import Row, Table
from stacklint.language import read
from stacklint.language.nearest import listed
from stacklint.language.written import wood_name
from stacklint.plan.boards import Boards
from stacklint.report.plain import plain
from stacklint.tables import woods

_UNMARKED = dict.fromkeys(map(ord, '"“”'))


class Tallied(NamedTuple):
    """A row that was read: its boards (their label is not yet theirs), and what the plan keeps as a comment."""

    line: int
    boards: Boards
    remark: str


class Unread(NamedTuple):
    """A row that was not read: why, and what it says."""

    line: int
    why: str
    said: str


def tallied(row: Row, table: Table, wood: str | None) -> Tallied | Unread:
    """The boards of a row; of ``wood`` where the row names none."""
    said = " | ".join(plain(cell.strip()) for cell in row.cells if cell.strip())
    if row.fault is not None:
        return Unread(row.line, row.fault, said)
    try:
        return _Reader(row, table).tallied(wood)
    except CellError as error:
        return Unread(row.line, str(error), said)


class _Reader:
    """Reads one row, cell by cell."""

    def __init__(self, row: Row, table: Table) -> None:
        self._row = row
        self._table = table
        longest = max(map(len, row.cells))
        if longest > LONGEST:
            raise CellError(f"a cell of {longest:,} characters is too long; a cell of a tally has at most {LONGEST:,}")
        if any(cell.strip() for cell in row.cells[len(table.names) :]):
            raise CellError(
                f"there are {len(row.cells)} cells under {len(table.names)} headings; a cell that holds what parts the"
                " cells stands in quotation marks"
            )

    def tallied(self, wood: str | None) -> Tallied:
        statement = f"boards a: {self._amount()} of {self._wood(wood)} {self._sizes()}"
        wetness = self._cell(Column.MOISTURE)
        if wetness:
            statement += f", {moisture(wetness)}"
        plan_read = read(f'pile "row"\n{statement}\n')
        stacks = plan_read.plan.stacks
        if plan_read.faults or not stacks or not stacks[0].boards:
            fault = plan_read.faults[0]
            raise CellError(f"{fault.message} {fault.instead}")
        return Tallied(self._row.line, stacks[0].boards[0], self._remark())

    def _text(self, column: Column) -> str:
        index = self._table.columns.get(column)
        if index is None or index >= len(self._row.cells):
            return ""
        return " ".join(plain(self._row.cells[index]).split())

    def _cell(self, column: Column) -> str:
        """The cell of a figure."""
        text = self._text(column)
        return with_points(text) if self._table.decimal_commas else text

    def _unit(self, column: Column) -> HeadingUnit | None:
        known = self._table.headings.get(column)
        return known.unit if known is not None else None

    def _amount(self) -> str:
        boards, lumber = self._cell(Column.COUNT), self._cell(Column.VOLUME)
        if boards:
            return count(boards)
        if lumber:
            return volume(lumber, self._unit(Column.VOLUME))
        raise CellError("expected how many boards or how much lumber, found nothing")

    def _wood(self, wood: str | None) -> str:
        # Quotation marks in a cell are its writer's; a plan sets its own around a name.
        name = " ".join((self._text(Column.WOOD) or wood or "").translate(_UNMARKED).split())
        if not name:
            raise CellError("expected the wood, found nothing")
        known = _known(name)
        if known is None:
            near = woods.nearest(name)
            offer = f"one the table knows, such as {listed(near)}" if near else "one the table knows, such as white ash"
            raise CellError(f"expected a wood, {offer}; found {found(name)}")
        return wood_name(known)

    def _sizes(self) -> str:
        thick, wide, long = (self._cell(each) for each in (Column.THICKNESS, Column.WIDTH, Column.LENGTH))
        sides: list[str] = []
        whole = self._cell(Column.SIZE)
        if whole:
            sides.extend(size(whole, self._unit(Column.SIZE), length_apart=bool(long)))
            for name, cell, place in (("thickness", thick, 0), ("width", wide, 1), ("length", long, 2)):
                if cell and len(sides) > place:
                    raise CellError(f"the {name} is said twice: {found(whole)} and {found(cell)}")
        else:
            sides.append(side(_there(thick, "thickness"), self._unit(Column.THICKNESS), "thickness"))
            sides.append(width(_there(wide, "width"), self._unit(Column.WIDTH)))
        if len(sides) < 3:
            sides.append(side(_there(long, "length"), self._unit(Column.LENGTH), "length"))
        return " x ".join(in_inches(sides))

    def _remark(self) -> str:
        """What the tally says besides: its notes, and a volume beside a count."""
        lumber = self._text(Column.VOLUME) if self._cell(Column.COUNT) else ""
        stated = f"{self._table.names[self._table.columns[Column.VOLUME]].strip()}: {lumber}" if lumber else ""
        return "; ".join(part for part in (self._text(Column.NOTES), stated) if part)


def _known(name: str) -> str | None:
    """The name of a wood as a plan may say it; ``oak, white`` is turned about."""
    if woods.find(name) is not None:
        return name
    kind, comma, which = name.partition(",")
    turned = f"{which.strip()} {kind.strip()}"
    return turned if comma and woods.find(turned) is not None else None


def _there(cell: str, what: str) -> str:
    if not cell:
        rest = "; write random for random widths" if what == "width" else ""
        raise CellError(f"expected the {what}, found nothing{rest}")
    return cell
