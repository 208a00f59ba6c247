"""The courses of an arrangement as ``course`` statements, and whether those say it all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from stacklint.arranging.sizes import unpaired
from stacklint.layout import Arrangement, arrange
from stacklint.layout.arrangement import CourseRun, Row
from stacklint.layout.rows import fills
from stacklint.plan.boards import CourseRows, Courses
from stacklint.plan.node import Name
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln


class Laid(NamedTuple):
    """A stack laid with the fewest boards left over.

    ``courses`` are statements that lay it so. Where they end below the top, the courses over them hold rows that no
    statement says (of several boards, yet short); stacklint lays those alike without being told. There are none
    where the boards come in lengths that a statement cannot tell apart, so that it would leave more of them over.
    """

    stack: Stack
    arrangement: Arrangement
    courses: tuple[Courses, ...]


def laid(stack: Stack, kiln: Kiln | None = None) -> Laid:
    """The stack laid anew, whatever courses its plan writes."""
    stack = stack.model_copy(update={"courses": ()})
    arrangement = arrange(stack, kiln)
    courses = statements(_sayable(arrangement))
    again = arrange(stack.model_copy(update={"courses": courses}), kiln)
    worse = unpaired(again) > unpaired(arrangement) or again.course_count > arrangement.course_count
    return Laid(stack, arrangement, () if worse or again.faults != arrangement.faults else courses)


def statements(runs: Sequence[CourseRun]) -> tuple[Courses, ...]:
    """Runs of courses as statements; runs that statements cannot tell apart become one."""
    found: list[Courses] = []
    for run in runs:
        rows = _rows(run)
        if found and found[-1].rows == rows:
            found[-1] = found[-1].model_copy(update={"last": run.last})
        else:
            found.append(Courses(first=run.first, last=run.last, rows=rows))
    return tuple(found)


def is_short(row: Row, length: float) -> bool:
    """Does the row leave some of the stack's length free?"""
    boards = sum(piece.length for piece in row.pieces)
    return boards < length and not fills(boards, length)


def _sayable(arrangement: Arrangement) -> Sequence[CourseRun]:
    """The courses below the first that holds a short row of several boards: written, such a row would lie with its
    boards pushed together, and its last end away from the end of the stack."""
    runs = arrangement.courses
    for place, run in enumerate(runs):
        if any(len(rows.row.pieces) > 1 and is_short(rows.row, arrangement.length) for rows in run.rows):
            return runs[:place]
    return runs


def _rows(run: CourseRun) -> tuple[CourseRows, ...]:
    counts: dict[tuple[str, ...], int] = {}
    for rows in run.rows:
        labels = tuple(piece.label for piece in rows.row.pieces)
        counts[labels] = counts.get(labels, 0) + rows.count
    return tuple(CourseRows(count=count, labels=_names(labels)) for labels, count in counts.items())


def _names(labels: Iterable[str]) -> tuple[Name, ...]:
    return tuple(Name(text=label) for label in labels)
