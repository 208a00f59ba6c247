"""Puts a plan's text into the standard layout."""

from __future__ import annotations

from itertools import zip_longest
from types import MappingProxyType
from typing import NamedTuple

from stacklint.changes import BYTE_ORDER_MARK, line_end, with_line_ends
from stacklint.language.lines import MOST_LINES
from stacklint.language.statements import STATEMENTS, BlockKind
from stacklint.tidying.pieces import Piece, Pieces, Placed, Section, pieces
from stacklint.tidying.statement import laid_out

_INDENT = "  "
_USE = "USE"
_OF_KILNS = ("type", "inside", "holds", "carries", "heats to", "removes", "fans", "plenum", "collector")
_OF_WOODS = (
    *("like", "hardwood", "softwood", "specific gravity"),
    *("stiffness", "crushing", "green moisture", "shrinks", "source"),
)
_OF_STACKS = (
    *("starts", "schedule", "runs", "fans", "baffles", "hold", "sterilize", "from pile"),
    *("place", "spot", "sawn", "stacked"),
    *("boards", "stack", "course", "stickers", "bearers", "clearance", "ground"),
    *("cover", "sides", "wind", "top load", "ends", "fan"),
    *("want", "wanted", "reading", "waive"),
)
ORDER = MappingProxyType(
    {
        BlockKind.SITE: ("near", "month", "spots", "holds", "stock"),
        BlockKind.KILN: _OF_KILNS,
        BlockKind.WOOD: _OF_WOODS,
        BlockKind.PILE: _OF_STACKS,
        BlockKind.CHARGE: _OF_STACKS,
    }
)
"""The standard order of statements, by their keywords: that of the language reference."""
_HEAD, _USES, _SITES, _KILNS, _WOODS, _STACKS, _FOOT = range(7)
_RANKS = MappingProxyType({BlockKind.SITE: _SITES, BlockKind.KILN: _KILNS, BlockKind.WOOD: _WOODS, None: _USES})
"""The standard order of blocks. Piles and charges keep the order that they have among themselves."""


class Tidied(NamedTuple):
    """A text in the standard layout, and the lines (from 1) of what it left alone because it cannot be read."""

    text: str
    left: tuple[int, ...]


def tidied(text: str) -> str:
    """``text`` in the standard layout.

    It says the same: reading it gives an equal plan and the same faults. Every comment is kept, above or behind
    the statement that it stood above or behind. A statement that cannot be read is left as it stands, and its block
    in the order that it has. A byte order mark is kept, and lines end as most of them did.
    """
    return tidy(text).text


def tidy(text: str) -> Tidied:
    """``text`` in the standard layout, and what was left alone; see :func:`tidied`."""
    mark = BYTE_ORDER_MARK if text.startswith(BYTE_ORDER_MARK) else ""
    ending = line_end(text)
    plain = with_line_ends(text.removeprefix(BYTE_ORDER_MARK), "\n")
    cut = pieces(plain)
    laid = "\n".join(_lines(cut))
    if laid.count("\n") >= MOST_LINES:
        laid = plain
    left = tuple(piece.number for piece in cut.unread())
    return Tidied(mark + with_line_ends(laid, ending), left)


class _Stretch(NamedTuple):
    """Lines that stay together. An empty line parts them from those before, unless they are ``tight``."""

    rank: int
    lines: list[str]
    tight: bool = False


def _lines(cut: Pieces) -> list[str]:
    """The lines of the whole text, without their ends; an empty one at the end stands for the last line's end."""
    moving = not any(section.unread for section in cut.sections)
    stretches = [_Stretch(_HEAD, _take_head(cut)), _Stretch(_USES, _take_uses(cut))] if moving else []
    above: list[str] = []
    tight = False
    for section, following in zip_longest(cut.sections, cut.sections[1:]):
        opening = following.opening if following is not None else None
        gap = opening.gap if opening is not None else cut.rest
        raw = section.unread or (opening is not None and opening.piece.lead is None)
        tail, next_above = ([], gap) if raw else _parted(gap, section, following)
        lines = [*above, *_section(section), *_comments(tail, _INDENT)]
        stretches.append(_Stretch(_RANKS.get(section.kind, _STACKS), lines, tight))
        above, tight = next_above, raw
    stretches.append(_Stretch(_FOOT, above if tight else _without_last_gap(above), tight))
    lines = _joined(sorted(stretches, key=lambda stretch: stretch.rank) if moving else stretches)
    return lines if tight or not lines else [*lines, ""]


def _joined(stretches: list[_Stretch]) -> list[str]:
    lines: list[str] = []
    for stretch in stretches:
        if stretch.lines and lines and not stretch.tight:
            lines.append("")
        lines += stretch.lines
    return lines


def _section(section: Section) -> list[str]:
    """A block, without the comments above the line that opens it and those after its last statement."""
    lines: list[str] = []
    if section.opening is not None:
        lines = _placed(section.opening.piece, None, "")
    indent = _INDENT if section.opening is not None else ""
    items = section.items if section.unread else sorted(section.items, key=lambda item: _order(item, section.kind))
    for item in items:
        if section.unread:
            lines += item.gap
        else:
            lines += _comments(item.gap, indent) if indent else _paragraphs(item.gap)
        lines += _placed(item.piece, None if item.piece.lead == _USE else section.kind, indent)
    return lines


def _placed(piece: Piece, kind: BlockKind | None, indent: str) -> list[str]:
    return list(piece.lines) if piece.lead is None else laid_out(piece, kind, indent)


def _order(item: Placed, kind: BlockKind | None) -> int:
    lead = item.piece.lead
    if kind is None or lead is None or lead == _USE:
        return -1
    return ORDER[kind].index(STATEMENTS[lead].keyword)


def _take_head(cut: Pieces) -> list[str]:
    """The comments at the top that stand apart from the first statement: they stay there whatever comes first."""
    first = next((item for section in cut.sections for item in (section.opening, *section.items) if item), None)
    if first is None or "" not in (gap := [line.strip() for line in first.gap]):
        return []
    apart = len(gap) - gap[::-1].index("")
    head, first.gap = first.gap[:apart], first.gap[apart:]
    return _without_last_gap(_paragraphs(head))


def _take_uses(cut: Pieces) -> list[str]:
    lines: list[str] = []
    for section in cut.sections:
        for item in section.items:
            if item.piece.lead == _USE:
                lines += [*_paragraphs(item.gap), *laid_out(item.piece, None, "")]
        section.items = [item for item in section.items if item.piece.lead != _USE]
    return lines


def _parted(gap: list[str], section: Section, following: Section | None) -> tuple[list[str], list[str]]:
    """Comments after a block's last statement: those that belong to the block, and those of the next.

    What is indented deeper than the line that opens the next block belongs to the block, and so do comments right
    below its last statement that an empty line parts from the next block.
    """
    if section.opening is None:
        return [], _paragraphs(gap)
    opening = following.opening if following is not None else section.opening
    assert opening is not None
    margin = _indentation(opening.piece.lines[0])
    deeper = [index for index, line in enumerate(gap) if line.strip() and _indentation(line) > margin]
    if deeper:
        own = deeper[-1] + 1
    else:
        empty = next((index for index, line in enumerate(gap) if not line.strip()), None)
        own = empty or 0 if following is not None or empty is not None else len(gap)
    return gap[:own], _paragraphs(gap[own:])


def _indentation(line: str) -> int:
    return len(line) - len(line.lstrip())


def _comments(gap: list[str], indent: str) -> list[str]:
    return [indent + line.strip() for line in gap if line.strip()]


def _paragraphs(gap: list[str]) -> list[str]:
    """Comments with one empty line where there are any between them, none before the first."""
    lines: list[str] = []
    for line in gap:
        if line.strip() or (lines and lines[-1]):
            lines.append(line.strip())
    return lines


def _without_last_gap(lines: list[str]) -> list[str]:
    return lines[:-1] if lines and not lines[-1] else lines
