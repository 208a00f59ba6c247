"""How the courses are laid, from the ground up, alike courses together."""

from __future__ import annotations

from collections.abc import Iterable

from stacklint.checked import CheckedStack
from stacklint.layout.arrangement import CourseRun, Row
from stacklint.plan.stack import Stack
from stacklint.report.drawings.shape import MM, Shape, rows_across, shape_of
from stacklint.report.invented import ABOUT, invented_groups
from stacklint.report.steps import LaidRow, Laying
from stacklint.report.tape import board_length, tape
from stacklint.units import ONE_INCH, System

_NOTHING = ONE_INCH / 4
"""Metres. Rows that leave no more than this of the stack's width free fill it."""
_MIDDLE = ONE_INCH / 8
"""Metres. Free widths at both sides that differ by no more than this are alike."""


def layings(checked: CheckedStack) -> tuple[Laying, ...]:
    """The courses of a stack. Neighbours that are laid alike are told together, whatever statement they come from."""
    shape = shape_of(checked)
    if shape is None:
        return ()
    joined: list[CourseRun] = []
    for run in shape.laid.courses:
        if joined and joined[-1].rows == run.rows:
            joined[-1] = CourseRun(joined[-1].first, run.last, run.rows, run.where)
        else:
            joined.append(run)
    made_up = {label for label, found in invented_groups(checked.stack).items() if found.laying}
    return tuple(_laying(run, shape, made_up) for run in joined)


def _laying(run: CourseRun, shape: Shape, made_up: Iterable[str]) -> Laying:
    stack, system = shape.stack, shape.facts.system
    rows = tuple(
        LaidRow(
            rows.count,
            _boards(rows.row, stack, system),
            rows.row.joints,
            about=any(piece.label in made_up for piece in rows.row.pieces),
        )
        for rows in run.rows
    )
    return Laying(
        first=run.first,
        last=run.last,
        rows=rows,
        boards=sum(rows.count * len(rows.row.pieces) for rows in run.rows),
        across=_across(run, shape),
        fills=sum(_free(run, shape)) <= min(row.row.width for row in run.rows) / 2,
    )


def _across(run: CourseRun, shape: Shape) -> str:
    """Where the rows lie between the long sides of the stack, as the drawings have them."""
    system = shape.facts.system
    near, far = _free(run, shape)
    if near + far < -_NOTHING:
        return f"standing out {tape(-(near + far) / 2, system)} at each side"
    if near + far <= _NOTHING:
        return "the whole width"
    if abs(near - far) <= _MIDDLE:
        return f"centred, {tape((near + far) / 2, system)} free at each side"
    return f"{tape(near, system)} free at the near side, {tape(far, system)} at the far side"


def _free(run: CourseRun, shape: Shape) -> tuple[float, float]:
    """How much of the stack's width a course leaves free at the near and at the far side, m."""
    rows = rows_across(run, shape)
    return rows[0].z / MM, (shape.width - rows[-1].z - rows[-1].width) / MM


def _boards(row: Row, stack: Stack, system: System) -> str:
    """*8 ft a + 8 ft a*; a gap in a row that does not fill the stack is told with its width."""
    said = ""
    groups = {boards.label.text: boards for boards in stack.boards}
    made_up = {label for label, found in invented_groups(stack).items() if found.length}
    meetings = row.meetings
    before = None
    for piece in row.pieces:
        if before is not None:
            said += " + " if (before, piece) in meetings else f", {tape(piece.start - before.end, system)} free, "
        about = ABOUT if piece.label in made_up else ""
        said += f"{about}{board_length(piece.length, groups[piece.label].length, system)} {piece.label}"
        before = piece
    return said
