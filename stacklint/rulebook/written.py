"""Stretches of a rule text that know where they were written."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.where import Where


class RuleFault(NamedTuple):
    """What a rule text says that cannot be taken: what is wrong, where, and what to write instead."""

    where: Where
    message: str
    instead: str


class Refused(Exception):  # noqa: N818 - it carries a fault, and never leaves the package
    """Carries a fault from the depth of an expression to the clause that it spoils."""

    def __init__(self, fault: RuleFault) -> None:
        super().__init__(fault.message)
        self.fault = fault


class Piece(NamedTuple):
    """Where a line's share of a clause begins: its offset in the clause, and its place in the file."""

    offset: int
    line: int
    column: int


class Written(NamedTuple):
    """A stretch of a clause. Comments are taken out and lines are joined by line ends.

    ``start`` is the offset of ``text`` in the clause, which ``pieces`` count from.
    """

    path: str
    text: str
    pieces: tuple[Piece, ...]
    start: int = 0

    def part(self, start: int, end: int | None = None) -> Written:
        """The stretch from ``start`` to ``end``, without the blanks around it."""
        text = self.text[start:end]
        lead = len(text) - len(text.lstrip())
        return Written(self.path, text.strip(), self.pieces, self.start + start + lead)

    def where(self, start: int = 0, end: int | None = None) -> Where:
        """The place of the characters from ``start`` to ``end``; an empty stretch is given one character."""
        stop = len(self.text) if end is None else end
        line, column = self._place(start)
        last_line, last_column = self._place(max(stop - 1, start))
        return Where(self.path, line, column, last_line, last_column + 1)

    def refuse(self, message: str, instead: str, start: int = 0, end: int | None = None) -> Refused:
        """A refusal of that stretch, to be raised."""
        return Refused(RuleFault(self.where(start, end), message, instead))

    def _place(self, offset: int) -> tuple[int, int]:
        position = self.start + offset
        piece = self.pieces[0]
        for candidate in self.pieces:
            if candidate.offset > position:
                break
            piece = candidate
        return piece.line, piece.column + position - piece.offset
