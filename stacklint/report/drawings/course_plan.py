"""A course from above, to scale: its boards end to end and side by side, and the stickers under them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedStack
from stacklint.findings import Mark, Part
from stacklint.layout.arrangement import CourseRun, Piece
from stacklint.report.courses_shown import run_of
from stacklint.report.drawings import dimensions
from stacklint.report.drawings.badges import Badges, Marked, marked
from stacklint.report.drawings.board import Board
from stacklint.report.drawings.shape import MM, PlacedRow, Shape, rows_across, shape_of

if TYPE_CHECKING:
    from stacklint.report.numbered import Numbered

_LETTERS = 1 / 38
_SAME = 1e-3
"""Places nearer to each other than this (m) are one."""
_SMALLEST = 0.7
"""Labels on boards are no smaller than this share of the drawing's letters; narrower boards bear none."""


def course_plan(checked: CheckedStack, course_number: int, findings: Sequence[Numbered]) -> Element | None:
    """A course seen from above, the stack's left end at the left and its near side below.

    ``None`` where the stack cannot be drawn or has no such course.
    """
    shape = shape_of(checked)
    run = run_of(course_number, shape.laid.courses) if shape is not None else None
    if shape is None or run is None:
        return None
    left, right = shape.reach
    board = Board(f"course-{checked.stack.where.line}-{course_number}", (right - left) * _LETTERS)
    rows = rows_across(run, shape)
    board.box("outline", 0.0, 0.0, shape.length, shape.width)
    for placed in rows:
        for piece in placed.row.pieces:
            _board(board, placed, piece)
    _stickers(board, shape)
    _joints(board, rows)
    _labels(board, shape, rows)
    _dimensions(board, shape, rows, right)
    _findings(board, shape, rows, course_number, findings)
    alike = f"Course {run.first}" if run.count == 1 else f"Courses {run.first} to {run.last}"
    title = f"{alike} of {checked.stack.kind.value} {checked.stack.name.text} from above"
    return board.finished(title, _described(run, shape), "course-plan", MM)


def _board(board: Board, placed: PlacedRow, piece: Piece) -> None:
    wide = piece.width * MM
    z = placed.z + (placed.width - wide) / 2
    board.box("board", piece.start * MM, z, piece.length * MM, wide, data_label=piece.label)


def _stickers(board: Board, shape: Shape) -> None:
    """As if the boards could be seen through."""
    wide, length = shape.laid.sticker_width * MM, shape.laid.sticker_length * MM
    z = (shape.width - length) / 2
    for x in shape.lines:
        board.box("sticker seen-through", x - wide / 2, z, wide, length, data_middle=x)
    if shape.lines:
        return
    for x in shape.bearers:
        deep = shape.laid.bearer_width * MM
        board.box("bearer seen-through", x - deep / 2, 0.0, deep, shape.width, data_middle=x)


def _joints(board: Board, rows: Sequence[PlacedRow]) -> None:
    for placed in rows:
        for joint in placed.row.joints:
            x = joint * MM
            board.line("joint", ((x, placed.z), (x, placed.z + placed.width)), data_x=x, data_y=placed.z)


def _labels(board: Board, shape: Shape, rows: Sequence[PlacedRow]) -> None:
    """On each board its group and length, between two stickers."""
    system = shape.facts.system
    lines = shape.lines or shape.bearers
    wide = (shape.laid.sticker_width if shape.lines else shape.laid.bearer_width) * MM
    for placed in rows:
        size = min(0.9, placed.width * 0.72 / board.letters)
        if size < _SMALLEST:
            continue
        for piece in placed.row.pieces:
            start, end = piece.start * MM, piece.end * MM
            text = f"{piece.label} {dimensions.length(piece.length * MM, system)}"
            long = board.width_of(text, size)
            edges = [start, *(x for x in lines if start < x < end), end]
            clear = [(a + wide / 2, b - wide / 2) for a, b in pairwise(edges)]
            middle = (start + end) / 2
            roomy = [gap for gap in clear if gap[1] - gap[0] >= long]
            if roomy:
                nearest = min(roomy, key=lambda gap: abs((gap[0] + gap[1]) / 2 - middle))
                middle = sum(nearest) / 2
            elif long > end - start:
                continue
            low = placed.z + placed.width / 2 - board.letters * size * 0.35
            board.words(text, middle, low, size=size, class_="words board-label")


def _dimensions(board: Board, shape: Shape, rows: Sequence[PlacedRow], right: float) -> None:
    letters, system = board.letters, shape.facts.system
    low = min(0.0, rows[0].z, (shape.width - shape.laid.sticker_length * MM) / 2)
    y = low - letters * 1.2
    if shape.lines:
        y = dimensions.string(board, "stickers at", shape.lines, y, system) - letters * 1.1
    elif shape.bearers:
        y = dimensions.string(board, "bearers at", shape.bearers, y, system) - letters * 1.1
    dimensions.across(board, 0.0, shape.length, y, dimensions.length(shape.length, system), "length")
    _row_widths(board, rows, right + letters * 1.0, shape)
    board.words("near side", -letters * 0.8, low + letters * 0.1, anchor="end", size=dimensions.SMALL)


def _row_widths(board: Board, rows: Sequence[PlacedRow], x: float, shape: Shape) -> None:
    """At the right: the width of each row where it has room, and of the course."""
    letters, system = board.letters, shape.facts.system
    start, end = rows[0].z, rows[-1].z + rows[-1].width
    middles = [placed.z + placed.width / 2 for placed in rows]
    widest = 0.0
    for edge in sorted({round(z, 2) for placed in rows for z in (placed.z, placed.z + placed.width)}):
        board.line("tick", ((x - letters * 0.3, edge), (x + letters * 0.3, edge)), data_kind="row", data_y=edge)
    board.line("dimension", ((x, start), (x, end)), data_kind="rows", data_value=end - start)
    alike = len({round(placed.width, 1) for placed in rows}) == 1
    told = (len(rows) // 2,) if alike else dimensions.thinned(middles, letters)
    for index in told:
        text = dimensions.length(rows[index].width, system)
        text = f"{len(rows)} x {text}" if alike and len(rows) > 1 else text
        widest = max(widest, board.width_of(text, dimensions.SMALL))
        low = middles[index] - letters * 0.3
        board.words(text, x + letters * 0.5, low, anchor="start", size=dimensions.SMALL, data_kind="row")
    text = f"{dimensions.length(end - start, system)} wide"
    dimensions.upright(board, start, end, x + widest + letters * 1.2, text, "course-width")
    gap = shape.laid.gap * MM
    if gap > 0 and len(rows) > 1:
        board.words(
            f"{dimensions.length(gap, system)} apart",
            x,
            end + letters * 0.4,
            anchor="start",
            size=dimensions.SMALL,
            data_gap=gap,
        )


def _findings(board: Board, shape: Shape, rows: Sequence[PlacedRow], course: int, findings: Sequence[Numbered]) -> None:
    """Those of this course that stand at a place along it, and those of its sticker lines."""
    badges = Badges(board)
    for each in marked(findings, Part.COURSE, Part.STICKERS):
        mark = each.mark
        if mark.start is None or not _speaks_of(mark, course):
            continue
        start = mark.start * MM
        end = mark.end * MM if mark.end is not None else start
        if mark.part is Part.STICKERS:
            badges.put(each, start, (shape.width + shape.laid.sticker_length * MM) / 2)
            continue
        for low, high in _together(_rows_meant(each, shape, rows), shape.laid.gap * MM):
            if end > start:
                board.box("stretch", start, low, end - start, high - low, style=board.hatch)
            badges.put(each, (start + end) / 2, (low + high) / 2)
    badges.draw()


def _speaks_of(mark: Mark, course: int) -> bool:
    first = mark.first_course
    return first is None or first <= course <= (mark.last_course or first)


def _rows_meant(each: Marked, shape: Shape, rows: Sequence[PlacedRow]) -> list[PlacedRow]:
    """The rows with a board of the group that the finding speaks of at its stretch, or with a joint at its place."""
    start = each.mark.start or 0.0
    end = each.mark.end if each.mark.end is not None else start
    if end - start < _SAME:
        return [placed for placed in rows if any(abs(start - joint) < _SAME for joint in placed.row.joints)]
    groups = {boards.label.text for boards in shape.stack.boards if boards.where == each.finding.where}
    return [
        placed
        for placed in rows
        if any(piece.label in groups or not groups for piece in placed.row.pieces if _lies_over(piece, start, end))
    ]


def _lies_over(piece: Piece, start: float, end: float) -> bool:
    """The board reaches over more than half of the stretch: its ends may lie on the middle of a sticker."""
    return min(piece.end, end) - max(piece.start, start) > (end - start) / 2


def _together(rows: Sequence[PlacedRow], gap: float) -> list[tuple[float, float]]:
    """From where to where the rows reach across the stack, those that lie side by side as one."""
    found: list[tuple[float, float]] = []
    for placed in rows:
        if found and placed.z - found[-1][1] <= gap + 0.1:
            found[-1] = (found[-1][0], placed.z + placed.width)
        else:
            found.append((placed.z, placed.z + placed.width))
    return found


def _described(run: CourseRun, shape: Shape) -> str:
    system = shape.facts.system
    said = []
    for rows in run.rows:
        lengths = " + ".join(dimensions.length(piece.length * MM, system) for piece in rows.row.pieces)
        said.append(f"{rows.count} row{'' if rows.count == 1 else 's'} of {lengths}")
    on = f" on {len(shape.lines)} sticker lines" if shape.lines else ""
    return f"{', '.join(said)}{on}, to scale, the near side below."
