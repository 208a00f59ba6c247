"""What the columns of a tally say, by their headings: everyday words in any order, with or without a unit."""

from __future__ import annotations

import re
from enum import Enum
from types import MappingProxyType
from typing import NamedTuple

from stacklint.language.spellings import unit_at
from stacklint.units import LENGTH, NUMBER, VOLUME, Dimension, Unit


class Column(Enum):
    """What a column says of a row of boards."""

    WOOD = "wood"
    SIZE = "size"
    THICKNESS = "thickness"
    WIDTH = "width"
    LENGTH = "length"
    COUNT = "count"
    VOLUME = "volume"
    MOISTURE = "moisture"
    GRADE = "grade"
    NOTES = "notes"


class HeadingUnit(NamedTuple):
    """A unit in a heading, lent to the bare figures below it. ``times`` is 1000 for MBF."""

    unit: Unit
    times: float = 1.0


class Heading(NamedTuple):
    column: Column
    unit: HeadingUnit | None


_NAMES = MappingProxyType(
    {
        name: column
        for column, names in (
            (Column.WOOD, "wood|woods|species|timber|lumber|kind of wood|wood species|tree"),
            (Column.SIZE, "size|sizes|dimension|dimensions|section|nominal|nominal size|board size"),
            (Column.THICKNESS, "thickness|thick|thk|th|t"),
            (Column.WIDTH, "width|wide|w"),
            (Column.LENGTH, "length|long|len|l"),
            (
                Column.COUNT,
                "count|qty|quantity|pieces|piece|pcs|pc|no|nr|number|number of boards|number of pieces|boards|tally|#",
            ),
            (Column.VOLUME, "volume|vol|amount"),
            (Column.MOISTURE, "moisture|moisture content|mc|dryness"),
            (Column.GRADE, "grade|grades|quality"),
            (Column.NOTES, "notes|note|remarks|remark|comments|comment"),
        )
        for name in names.split("|")
    }
)
_LENGTHS = frozenset({Column.SIZE, Column.THICKNESS, Column.WIDTH, Column.LENGTH})
_QUARTERS = frozenset({"quarters", "quarter", "qtrs", "qtr", "/4", "4/4"})
"""Units of a thickness alone."""
_ALONE = MappingProxyType({VOLUME: Column.VOLUME, NUMBER: Column.MOISTURE})
"""Units that are a heading by themselves: *bf*, *% MC*."""
_UNIT_IN_BRACKETS = re.compile(r"^(.*?)\s*[(\[]\s*([^()\[\]]*?)\s*[)\]]$")
_LONGEST = 80
"""Characters of a heading."""
_NUMBERING = frozenset({"no", "nr", "number", "#"})
"""Headings of a count that may as well stand over the numbers of the rows."""
_LINKS = ("in ", "of ", ", ", ": ", "/ ", "- ")


def heading(text: str) -> Heading | None:
    """What a heading says its column holds; ``None`` for one that says nothing of boards."""
    if len(text) > _LONGEST:
        return None
    said = " ".join(text.replace("_", " ").casefold().split())
    bracketed = _UNIT_IN_BRACKETS.match(said)
    if bracketed:
        return _with_unit(bracketed.group(1), bracketed.group(2))
    column = _column(said)
    if column is not None:
        return Heading(column, None)
    alone = _unit(said)
    if alone is not None:
        by_itself = _ALONE.get(alone.unit.dimension)
        return Heading(by_itself, alone) if by_itself is not None else None
    for place, letter in enumerate(said):
        if letter in " ,/:-":
            found = _with_unit(said[:place], said[place:].lstrip(" ,/:-"))
            if found is not None:
                return found
    return None


def may_number_rows(text: str) -> bool:
    """The heading stands over counts or over the numbers of the rows."""
    return text.casefold().strip().rstrip(".:") in _NUMBERING


def _with_unit(name: str, said: str) -> Heading | None:
    column = _column(name)
    if column is None:
        return None
    for link in _LINKS:
        said = said.removeprefix(link)
    if said in _QUARTERS:
        return Heading(column, HeadingUnit(Unit.QUARTER)) if column is Column.THICKNESS else None
    unit = _unit(said)
    if unit is None:
        return Heading(column, None) if said in _NAMES and _NAMES[said] is column else None
    if column is Column.COUNT and unit.unit.dimension == VOLUME:
        column = Column.VOLUME
    return Heading(column, unit) if unit.unit.dimension == _dimension(column) else None


def _column(name: str) -> Column | None:
    return _NAMES.get(name.strip().rstrip(".:").strip())


def _unit(said: str) -> HeadingUnit | None:
    found = unit_at(said, 0) if said else None
    if found is None or found[1] != len(said):
        return None
    return HeadingUnit(found[0].unit, found[0].times)


def _dimension(column: Column) -> Dimension | None:
    if column in _LENGTHS:
        return LENGTH
    return {Column.VOLUME: VOLUME, Column.MOISTURE: NUMBER}.get(column)
