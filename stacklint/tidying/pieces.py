"""Cuts a plan's text into blocks and their statements, with the comments and empty lines before each."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from typing import NamedTuple

from stacklint.language.blocks import Blocks, leading
from stacklint.language.line import Line, Log
from stacklint.language.lines import logical_lines
from stacklint.language.parse import keywords
from stacklint.language.scan import scan
from stacklint.language.statements import BlockKind

ANY_DAY = datetime.date.max
"""The day on which texts are read here: how a plan is laid out does not hang on what day it is."""


class Piece(NamedTuple):
    """A statement, or the line that opens a block, with the lines that it goes on over, as they stand in the text.

    ``lead`` is the terminal that it begins with, and ``None`` if it could not be read.
    """

    number: int
    lines: tuple[str, ...]
    lead: str | None


@dataclass(slots=True)
class Placed:
    """A piece and what stands between it and the one before it: comments and empty lines."""

    gap: list[str]
    piece: Piece


@dataclass(slots=True)
class Section:
    """A block, or what stands before the first: then ``kind`` and ``opening`` are ``None``."""

    kind: BlockKind | None
    opening: Placed | None = None
    items: list[Placed] = field(default_factory=list)
    unread: bool = False
    """Whether anything in it could not be read: then everything keeps its place."""


class Pieces(NamedTuple):
    """``rest`` is what stands after the last statement."""

    sections: list[Section]
    rest: list[str]

    def unread(self) -> list[Piece]:
        """What could not be read."""
        openings = [section.opening for section in self.sections if section.opening is not None]
        placed = [*openings, *(item for section in self.sections for item in section.items)]
        return sorted((each.piece for each in placed if each.piece.lead is None), key=lambda piece: piece.number)


class _Read(NamedTuple):
    """A logical line once it was read: the block that it opened, if it opened one, and the first word's terminal."""

    first: int
    last: int
    opens: BlockKind | None
    lead: str | None
    empty: bool


def pieces(text: str) -> Pieces:
    """``text``, its line ends ``\\n``, cut into blocks. Every line of it is in just one of the parts."""
    lines = text.split("\n")
    read, faulty = _read(text)
    sections = [Section(None)]
    gap: list[str] = []
    done = 0
    for each in read:
        if each.first > done + 1:
            # A statement too long to be read is passed over where logical lines are cut.
            _place(sections, gap, Piece(done + 1, tuple(lines[done : each.first - 1]), None), None)
            gap = []
        done = each.last
        own = tuple(lines[each.first - 1 : each.last])
        if each.empty:
            gap.extend(own)
            continue
        sound = faulty.isdisjoint(range(each.first, each.last + 1))
        _place(sections, gap, Piece(each.first, own, each.lead if sound else None), each.opens)
        gap = []
    if done < len(lines):
        _place(sections, gap, Piece(done + 1, tuple(lines[done:]), None), None)
        gap = []
    return Pieces(sections, gap)


def _place(sections: list[Section], gap: list[str], piece: Piece, opens: BlockKind | None) -> None:
    placed = Placed(gap, piece)
    if opens is not None:
        if piece.lead is None:
            # It may have ended in a comma before the block's line: then its beginning belongs to the block above.
            sections[-1].unread = True
        sections.append(Section(opens, placed))
    else:
        sections[-1].items.append(placed)
    if piece.lead is None:
        sections[-1].unread = True


def _read(text: str) -> tuple[list[_Read], set[int]]:
    """The logical lines, as far as the text was read, and the numbers of the lines that have a fault."""
    log = Log()
    blocks = Blocks("-", log, ANY_DAY)
    read: list[_Read] = []
    for line in logical_lines(text, "-", log):
        if log.full or blocks.full:
            break
        tokens = scan(line.text, keywords())
        before = len(blocks.blocks)
        blocks.take(line)
        opens = blocks.blocks[-1].kind if len(blocks.blocks) > before else None
        lead = leading(tokens[0]) if tokens else None
        read.append(_Read(line.number, line.number + line.text.count("\n"), opens, lead, not tokens))
    for block in blocks.blocks:
        block.build(Line("-", 1, "", log))
    faulty: set[int] = set()
    for fault in log.faults:
        faulty.update(range(fault.where.line, fault.where.end_line + 1))
    return read, faulty
