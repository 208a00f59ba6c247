"""Where in a text something was written."""

from __future__ import annotations

from typing import NamedTuple


class Where(NamedTuple):
    """A stretch of a text. Lines and columns count from 1; ``end_column`` is one past the last character.

    ``path`` is the text's name as findings show it.
    """

    path: str
    line: int
    column: int
    end_line: int
    end_column: int

    def to(self, other: Where) -> Where:
        """The stretch from the start of this one to the end of ``other`` (of the same text)."""
        return Where(self.path, self.line, self.column, other.end_line, other.end_column)


NOWHERE = Where("", 0, 0, 0, 0)
"""The place of a value that no text gave: one that was assumed or built by a program."""
