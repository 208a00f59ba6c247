"""How the courses are laid, from the ground up, alike courses together."""

from __future__ import annotations

from stacklint.layout.arrangement import Arrangement, CourseRun, Row
from stacklint.report.steps import LaidRow, Laying
from stacklint.show import show
from stacklint.units import LENGTH, System


def layings(laid: Arrangement, system: System) -> tuple[Laying, ...]:
    """The courses of a stack. Neighbours that are laid alike are told together, whatever statement they come from."""
    joined: list[CourseRun] = []
    for run in laid.courses:
        if joined and joined[-1].rows == run.rows:
            joined[-1] = CourseRun(joined[-1].first, run.last, run.rows, run.where)
        else:
            joined.append(run)
    return tuple(
        Laying(
            first=run.first,
            last=run.last,
            rows=tuple(LaidRow(rows.count, _boards(rows.row, system), rows.row.joints) for rows in run.rows),
            boards=sum(rows.count * len(rows.row.pieces) for rows in run.rows),
        )
        for run in joined
    )


def _boards(row: Row, system: System) -> str:
    """*8 ft a + 8 ft a*; a gap in a row that does not fill the stack is told with its width."""
    said = ""
    meetings = row.meetings
    before = None
    for piece in row.pieces:
        if before is not None:
            apart = show(piece.start - before.end, LENGTH, system)
            said += " + " if (before, piece) in meetings else f", {apart} free, "
        said += f"{show(piece.length, LENGTH, system)} {piece.label}"
        before = piece
    return said
