"""The left end of a stack, to scale: rows side by side, stickers, a bearer on its pads, the cover."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedStack
from stacklint.findings import Mark, Part
from stacklint.report.drawings import dimensions
from stacklint.report.drawings.badges import Badges, marked
from stacklint.report.drawings.board import Board
from stacklint.report.drawings.footing import soil, supports_from_the_end
from stacklint.report.drawings.roof import Roof, roof_of
from stacklint.report.drawings.shape import MM, PlacedRow, Shape, Tier, rows_across, shape_of

if TYPE_CHECKING:
    from stacklint.report.numbered import Numbered

_LETTERS = 1 / 17
"""Size of the letters as a share of the stack with its cover: the drawing is narrower than that of the side."""
_MANY = 20
"""Of more courses the outlines of boards and stickers would run together, and are drawn as hairlines."""
_AT_END = 1.0
"""A board that begins no further in than this (mm) ends with the stack."""
_PARTS = (Part.COVER, Part.TOP, Part.SIDES, Part.STICKERS, Part.BEARERS, Part.GROUND)


def end_view(checked: CheckedStack, findings: Sequence[Numbered]) -> Element | None:
    """The stack seen from its left end, its near side at the left; ``None`` where there is nothing to draw."""
    shape = shape_of(checked)
    if shape is None:
        return None
    roof = roof_of(shape)
    wide = max(shape.width, shape.laid.sticker_length * MM) + 2 * roof.sides
    letters = max(wide, roof.height(0.0) * 0.75) * _LETTERS
    board = Board(f"end-{checked.stack.where.line}", letters)
    rows = {id(run): rows_across(run, shape) for run in shape.laid.courses}
    soil(board, shape, -roof.sides, shape.width + roof.sides)
    supports_from_the_end(board, shape)
    for tier in shape.tiers:
        _sticker(board, shape, tier)
        _ends(board, tier, rows[id(tier.run)])
    roof.from_the_end(board, shape)
    _dimensions(board, shape, roof)
    _findings(board, shape, roof, findings)
    title = f"End view of {checked.stack.kind.value} {checked.stack.name.text}"
    thinnest = shape.thinnest if len(shape.tiers) <= _MANY else 0.0
    return board.finished(title, _described(shape, roof), "end-view narrow", thinnest)


def _sticker(board: Board, shape: Shape, tier: Tier) -> None:
    """Along its length, in the middle of the stack's width."""
    if not shape.lines:
        return
    length = shape.laid.sticker_length * MM
    z = (shape.width - length) / 2
    board.box("sticker", z, tier.sticker, length, tier.low - tier.sticker, data_course=tier.course)


def _ends(board: Board, tier: Tier, rows: Sequence[PlacedRow]) -> None:
    """The ends of the boards; those that lie further in are darker."""
    for placed in rows:
        piece = placed.row.pieces[0]
        behind = " behind" if piece.start * MM > _AT_END else ""
        wide, high = piece.width * MM, piece.thickness * MM
        z = placed.z + (placed.width - wide) / 2
        board.box(f"board{behind}", z, tier.low, wide, high, data_course=tier.course, data_label=piece.label)


def _dimensions(board: Board, shape: Shape, roof: Roof) -> None:
    letters, system = board.letters, shape.facts.system
    y = -letters * 2.2
    dimensions.across(board, 0.0, shape.width, y, f"stack {dimensions.length(shape.width, system)}", "width")
    if shape.lines:
        y -= letters * 1.6
        length = shape.laid.sticker_length * MM
        z = (shape.width - length) / 2
        dimensions.across(board, z, z + length, y, f"stickers {dimensions.length(length, system)}", "sticker-length")
    if shape.bearers:
        y -= letters * 1.6
        text = f"bearers {dimensions.length(shape.width, system)}"
        dimensions.across(board, 0.0, shape.width, y, text, "bearer-length")
    x = max(shape.width + roof.sides, shape.width) + letters * 1.0
    if shape.facts.top is not None:
        text = f"{dimensions.length(shape.top, system)} to the top"
        dimensions.extension(board, (shape.width, shape.top), (x + letters * 0.4, shape.top))
        dimensions.upright(board, 0.0, shape.top, x, text, "top")


def _findings(board: Board, shape: Shape, roof: Roof, findings: Sequence[Numbered]) -> None:
    badges = Badges(board)
    for each in marked(findings, *_PARTS):
        badges.put(each, *_spot(shape, roof, each.mark, board.letters))
    badges.draw()


def _spot(shape: Shape, roof: Roof, mark: Mark, letters: float) -> tuple[float, float]:
    low, high = shape.between(mark.first_course, mark.last_course)
    if mark.part is Part.COVER:
        return shape.width * 0.75, roof.height(0.0) if roof.drawn else shape.top + letters
    if mark.part is Part.TOP:
        return shape.width * 0.4, shape.top
    if mark.part is Part.STICKERS:
        return shape.width * 0.08, (low.sticker + low.low) / 2
    if mark.part is Part.BEARERS:
        return shape.width * 0.3, max((shape.bearer_low + shape.base) / 2, 0.0)
    if mark.part is Part.GROUND:
        return shape.width * 0.6, 0.0
    return letters, (low.low + high.high) / 2


def _described(shape: Shape, roof: Roof) -> str:
    system = shape.facts.system
    said = f"Seen from its left end, to scale. The stack is {dimensions.length(shape.width, system)} wide"
    most = max(sum(rows.count for rows in run.rows) for run in shape.laid.courses)
    said += f", up to {most} row{'' if most == 1 else 's'} side by side."
    if roof.sides > 0:
        said += f" The cover stands out {dimensions.length(roof.sides, system)} at the sides."
    return said
