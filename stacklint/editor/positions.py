"""Places in a text as editors count them, and as the rest of the package does.

The Language Server Protocol 3.17 counts lines and characters from 0, the characters in the units of an encoding that
client and server agree on: UTF-16 if nothing else is agreed. Here lines and columns count from 1, and a column is a
character (a Unicode code point). Lines end at ``\\n``, ``\\r\\n`` or ``\\r`` and at nothing else, as the protocol says.
"""

from __future__ import annotations

import re
from enum import Enum
from typing import NamedTuple

from stacklint.where import Where

_LINE_END = re.compile(r"\r\n|\r")


class Encoding(Enum):
    """In what the characters of a line are counted, by the protocol's names."""

    UTF_8 = "utf-8"
    UTF_16 = "utf-16"
    UTF_32 = "utf-32"


class Spot(NamedTuple):
    """A place between two characters, counted from 1."""

    line: int
    column: int


class Point(NamedTuple):
    """A place as an editor counts it, from 0."""

    line: int
    character: int


class Stretch(NamedTuple):
    """From one point up to another."""

    start: Point
    end: Point


class Page:
    """The text of a file as the rest of the package reads it, and its places in an editor's units."""

    __slots__ = ("encoding", "lines", "text")

    def __init__(self, text: str, encoding: Encoding = Encoding.UTF_16) -> None:
        self.text = _LINE_END.sub("\n", text)
        self.lines = self.text.split("\n")
        self.encoding = encoding

    def spot(self, point: Point) -> Spot:
        """Where a point lies; one beyond the end of its line, or of the text, lies at that end."""
        if point.line >= len(self.lines):
            return Spot(len(self.lines), len(self.lines[-1]) + 1)
        line = max(point.line, 0)
        return Spot(line + 1, self._column(self.lines[line], max(point.character, 0)))

    def stretch(self, where: Where) -> Stretch:
        """A place in the editor's units, cut off at the ends of lines and text."""
        return Stretch(self.point(where.line, where.column), self.point(where.end_line, where.end_column))

    def point(self, line: int, column: int) -> Point:
        line = min(max(line, 1), len(self.lines))
        before = self.lines[line - 1][: max(column - 1, 0)]
        return Point(line - 1, self._units(before))

    def written(self, where: Where) -> str:
        """What stands at a place of one line."""
        if not 1 <= where.line <= len(self.lines) or where.line != where.end_line:
            return ""
        return self.lines[where.line - 1][where.column - 1 : where.end_column - 1]

    def _units(self, text: str) -> int:
        match self.encoding:
            case Encoding.UTF_8:
                return len(text.encode("utf-8", "surrogatepass"))
            case Encoding.UTF_16:
                return len(text) + sum(character > "\uffff" for character in text)
            case Encoding.UTF_32:
                return len(text)

    def _column(self, line: str, character: int) -> int:
        if line.isascii() or self.encoding is Encoding.UTF_32:
            return min(character, len(line)) + 1
        units = 0
        for column, each in enumerate(line, 1):
            units += self._units(each)
            if units > character:
                # A point amid the units of one character lies before it.
                return column
        return len(line) + 1
