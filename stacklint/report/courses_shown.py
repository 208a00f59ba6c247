"""Which courses of a tall stack are drawn, and which are told of in a line between them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from stacklint.findings import Mark
from stacklint.layout.arrangement import CourseRun

MOST = 9
"""So many courses are drawn at most: with their stickers they fill a screen of 24 lines."""


@dataclass(frozen=True, slots=True)
class Hidden:
    """Courses left out of the drawing. ``alike`` if they are laid as those drawn on both sides."""

    count: int
    alike: bool

    @property
    def words(self) -> str:
        courses = "course" if self.count == 1 else "courses"
        return f"{self.count} {courses} more{' like this' if self.alike else ''}"


def shown(runs: Sequence[CourseRun], marks: Iterable[Mark]) -> tuple[int | Hidden, ...]:
    """Course numbers from the top down, with what is hidden between them.

    The lowest and the highest are always drawn; then those where a finding begins or ends; then those
    where the laying changes.
    """
    count = runs[-1].last
    if count <= MOST:
        return tuple(range(count, 0, -1))
    wanted = [1, count]
    for mark in marks:
        wanted += [course for course in (mark.first_course, mark.last_course) if course and course <= count]
    for run in runs:
        wanted += [run.first, run.last]
    wanted += [2, count - 1, 3, count - 2]
    drawn: list[int] = []
    for course in wanted:
        if course not in drawn and len(drawn) < MOST - 1:
            drawn.append(course)
    return tuple(_with_gaps(sorted(drawn, reverse=True), runs))


def _with_gaps(drawn: Sequence[int], runs: Sequence[CourseRun]) -> Iterable[int | Hidden]:
    yield drawn[0]
    for above, course in pairwise(drawn):
        between = above - course - 1
        if between == 1:
            yield course + 1
        elif between:
            yield Hidden(between, run_of(above, runs) is run_of(course, runs))
        yield course


def run_of(course: int, runs: Sequence[CourseRun]) -> CourseRun | None:
    """The run that a course belongs to."""
    return next((run for run in runs if run.first <= course <= run.last), None)
