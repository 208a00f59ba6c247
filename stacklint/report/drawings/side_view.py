"""The long side of a stack, to scale: ground, bearers, stickers, courses with their joints, cover and weights."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedStack
from stacklint.findings import Mark, Part
from stacklint.report.drawings import dimensions
from stacklint.report.drawings.badges import Badges, marked
from stacklint.report.drawings.board import Board
from stacklint.report.drawings.footing import soil, supports_from_the_side
from stacklint.report.drawings.roof import Roof, roof_of
from stacklint.report.drawings.sag import sag_strip
from stacklint.report.drawings.shape import MM, Shape, Tier, shape_of
from stacklint.report.svg import element, number

if TYPE_CHECKING:
    from stacklint.report.numbered import Numbered

_LETTERS = 1 / 38
"""Size of the letters as a share of the stack with its cover: with the margins a fiftieth of the drawing's width."""


def side_view(checked: CheckedStack, findings: Sequence[Numbered]) -> Element | None:
    """The stack seen from its near side, its left end at the left; ``None`` where there is nothing to draw.

    One unit is a millimetre of the stack. Boards of the row nearest to the eye are drawn full; what lies behind them
    shows where they leave it free, and its joints as dashed lines.
    """
    shape = shape_of(checked)
    if shape is None:
        return None
    roof = roof_of(shape)
    left, right = shape.reach
    if shape.pads is not None and shape.bearers:
        left = min(left, shape.bearers[0] - shape.pads.along / 2)
        right = max(right, shape.bearers[-1] + shape.pads.along / 2)
    letters = (max(right, roof.right) - min(left, roof.left)) * _LETTERS
    board = Board(f"side-{checked.stack.where.line}", letters)
    soil(board, shape, min(left, roof.left), max(right, roof.right))
    supports_from_the_side(board, shape)
    for tier in shape.tiers:
        _course(board, tier)
    _stickers(board, shape)
    _course_numbers(board, shape)
    roof.from_the_side(board, shape)
    _heights(board, shape, max(right, roof.right))
    below = _strings(board, shape)
    sag_strip(board, shape, below)
    _findings(board, shape, roof, findings)
    title = f"Side view of {checked.stack.kind.value} {checked.stack.name.text}"
    return board.finished(title, _described(shape), "side-view", shape.thinnest)


def _course(board: Board, tier: Tier) -> None:
    """The rows of a course from the far side to the near one."""
    rows = [each.row for each in tier.run.rows]
    for depth, row in reversed(list(enumerate(rows))):
        for piece in row.pieces:
            behind = " behind" if depth else ""
            board.box(
                f"board{behind}",
                piece.start * MM,
                tier.low,
                piece.length * MM,
                piece.thickness * MM,
                data_course=tier.course,
                data_label=piece.label,
            )
    full_from, full_to = rows[0].pieces[0].start * MM, rows[0].pieces[-1].end * MM
    told: set[float] = set()
    for depth, row in enumerate(rows):
        for joint in row.joints:
            x = joint * MM
            if round(x, 1) in told:
                continue
            told.add(round(x, 1))
            behind = " behind" if depth and full_from < x < full_to else ""
            board.line(
                f"joint{behind}", ((x, tier.low), (x, tier.high)), data_x=x, data_y=tier.low, data_course=tier.course
            )


def _stickers(board: Board, shape: Shape) -> None:
    """One shape for each sticker line, with a rectangle for its sticker under each course that reaches over it."""
    wide = shape.laid.sticker_width * MM
    for x in shape.lines:
        tiers = shape.tiers
        spans = "".join(
            f"M{number(x - wide / 2)} {number(-tier.low)}h{number(wide)}v{number(tier.low - tier.sticker)}"
            f"h{number(-wide)}z"
            for tier in tiers
        )
        board.add(
            element(
                "path",
                class_="sticker",
                d=spans,
                data_x=x,
                data_y=tiers[0].sticker,
                data_width=wide,
                data_height=tiers[0].low - tiers[0].sticker,
                data_count=len(tiers),
            )
        )


def _course_numbers(board: Board, shape: Shape) -> None:
    """At the left, as many as have room."""
    left = shape.reach[0] - board.letters * (0.4 if shape.stack.sides is None else 0.65)
    middles = [(tier.low + tier.high) / 2 for tier in shape.tiers]
    if 0 < middles[-1] - middles[0] < board.letters * 1.05:
        y = (middles[0] + middles[-1]) / 2 - board.letters * 0.32
        board.words(f"1 to {len(middles)}", left, y, anchor="end", size=dimensions.SMALL, class_="words course-number")
        return
    for index in dimensions.thinned(middles, board.letters * 1.05):
        text = str(shape.tiers[index].course)
        x, y = left, middles[index] - board.letters * 0.32
        board.words(text, x, y, anchor="end", size=dimensions.SMALL, class_="words course-number")


def _heights(board: Board, shape: Shape, right: float) -> None:
    """At the right: the clearance, and the height of boards and stickers."""
    letters, system = board.letters, shape.facts.system
    x = right + letters * 1.2
    if shape.underside > 0 and (shape.facts.clearance or 0) > 0:
        dimensions.extension(board, (shape.length, shape.underside), (x + letters * 0.4, shape.underside))
        dimensions.extension(board, (shape.length, 0.0), (x + letters * 0.4, 0.0))
        text = f"{dimensions.length(shape.underside, system)} clear"
        dimensions.upright(board, 0.0, shape.underside, x, text, "clearance")
        low_enough = (shape.underside - letters) / 2 < shape.base and shape.underside > letters * 1.2
        x += letters * 1.4 + (0.0 if low_enough else board.width_of(text))
    high = dimensions.length(shape.top - shape.base, system)
    dimensions.extension(board, (shape.length, shape.top), (x + letters * 0.4, shape.top))
    dimensions.extension(board, (shape.length, shape.base), (x + letters * 0.4, shape.base))
    dimensions.upright(board, shape.base, shape.top, x, f"{high} high", "height")


def _strings(board: Board, shape: Shape) -> float:
    """Under the ground: distances of sticker lines and of bearers, and the length; gives the height below them."""
    letters, system = board.letters, shape.facts.system
    lines, bearers = shape.lines, shape.bearers
    y = -letters * 1.7
    alike = len(lines) == len(bearers) and all(abs(a - b) < 0.5 for a, b in zip(lines, bearers, strict=True))
    if lines:
        y = dimensions.string(board, "stickers, bearers" if alike else "stickers at", lines, y, system) - letters * 0.7
    if bearers and not alike:
        y = dimensions.string(board, "bearers at", bearers, y, system) - letters * 0.7
    y -= letters * 0.6
    dimensions.across(board, 0.0, shape.length, y, dimensions.length(shape.length, system), "length")
    return y - letters * 0.6


def _findings(board: Board, shape: Shape, roof: Roof, findings: Sequence[Numbered]) -> None:
    badges = Badges(board)
    drawn: set[tuple[float, float, float, float]] = set()
    for each in marked(findings, *Part):
        mark = each.mark
        if mark == Mark(Part.COURSE) and shape.kiln_inside is not None:
            # It speaks of the kiln and stands in its section.
            continue
        place = _stretch(board, shape, mark, drawn)
        badges.put(each, *(place or _spot(shape, roof, mark, board.letters)))
    badges.draw()


def _stretch(
    board: Board, shape: Shape, mark: Mark, drawn: set[tuple[float, float, float, float]]
) -> tuple[float, float] | None:
    """Hatches the faulty stretch of courses, or marks whole courses at the left; gives where the number goes."""
    if mark.part is not Part.COURSE:
        return None
    low, high = shape.between(mark.first_course, mark.last_course)
    middle = (low.low + high.high) / 2
    if mark.start is None:
        x = -board.letters * 0.15
        board.line("courses-marked", ((x, low.low), (x, high.high)))
        return board.letters * 1.2, middle
    start = mark.start * MM
    end = mark.end * MM if mark.end is not None else start
    box = (start, end, low.low, high.high)
    if end > start and box not in drawn:
        drawn.add(box)
        board.box("stretch", start, low.low, end - start, high.high - low.low, style=board.hatch)
    return (start + end) / 2, middle


def _spot(shape: Shape, roof: Roof, mark: Mark, letters: float) -> tuple[float, float]:
    """Where the number of a finding goes that speaks of no stretch of courses."""
    x = None if mark.start is None else (mark.start + (mark.end if mark.end is not None else mark.start)) / 2 * MM
    low, high = shape.between(mark.first_course, mark.last_course)
    if mark.part is Part.STICKERS:
        default = shape.lines[0] if shape.lines else 0.0
        return (default if x is None else x), (low.sticker + low.low) / 2
    if mark.part is Part.BEARERS:
        default = shape.bearers[0] if shape.bearers else 0.0
        return (default if x is None else x), max((shape.bearer_low + shape.base) / 2, 0.0)
    if mark.part is Part.COVER:
        at = shape.length * 0.75 if x is None else x
        return at, roof.height(at) if roof.drawn else shape.top + letters
    if mark.part is Part.TOP:
        return (shape.length * 0.55 if x is None else x), shape.top
    if mark.part is Part.GROUND:
        return (shape.length * 0.3 if x is None else x), 0.0
    return letters, (low.low + high.high) / 2


def _described(shape: Shape) -> str:
    laid, system = shape.laid, shape.facts.system
    size = f"{dimensions.length(shape.length, system)} long"
    parts = [f"Seen from its near side, {size}, to scale."]
    courses = len(shape.tiers)
    parts.append(f"{courses} course{'' if courses == 1 else 's'} of boards")
    if shape.lines:
        parts[-1] += f" on {len(shape.lines)} lines of stickers"
    if shape.bearers:
        parts[-1] += f", over {len(laid.bearers)} bearers"
    parts[-1] += "."
    if shape.facts.clearance:
        parts.append(f"The lowest boards lie {dimensions.length(shape.underside, system)} off the ground.")
    return " ".join(parts)
