"""Rows side by side into courses, courses one over the other."""

from __future__ import annotations

from collections.abc import Sequence

from stacklint.layout.arrangement import CourseRun, Row, RowRun
from stacklint.layout.supports import TOUCH
from stacklint.where import Where


class CourseLayer:
    """Lays courses from the ground up. ``width`` is what rows and the gaps between them may take."""

    def __init__(self, width: float, gap: float) -> None:
        self._width = width
        self._gap = gap
        self._runs: list[CourseRun] = []
        self._open: list[RowRun] = []
        self._open_where: Where | None = None
        self._taken = 0.0

    def put(self, rows: Sequence[tuple[Row, int]], courses: int, where: Where) -> None:
        """Lay so many courses of exactly these rows."""
        self._add(tuple(RowRun(row, number) for row, number in rows), courses, where)

    def lay(self, row: Row, count: int, where: Where) -> None:
        """Lay rows in courses of one thickness, as many side by side as the width takes."""
        if self._open and self._open[0].row.pieces[0].thickness != row.pieces[0].thickness:
            self.close()
        while count:
            across = self.room_for(row)
            if not across and self._open:
                self.close()
                continue
            across = max(1, across)
            if not self._open and count >= across:
                self._add((RowRun(row, across),), count // across, where)
                count %= across
                continue
            number = min(across, count)
            self._begin(row, number, where)
            count -= number

    def room_for(self, row: Row) -> int:
        """How many more of these rows the course that is being laid takes."""
        return int((self._width + self._gap - self._taken + TOUCH) / (row.width + self._gap))

    def room_beside(self, row: Row) -> int:
        """The same, but none where no course of this thickness is being laid."""
        if not self._open or self._open[0].row.pieces[0].thickness != row.pieces[0].thickness:
            return 0
        return self.room_for(row)

    def close(self) -> None:
        """End the course that is being laid."""
        if self._open and self._open_where is not None:
            self._add(tuple(self._open), 1, self._open_where)
        self._open, self._open_where, self._taken = [], None, 0.0

    def courses(self) -> tuple[CourseRun, ...]:
        self.close()
        return tuple(self._runs)

    def _begin(self, row: Row, number: int, where: Where) -> None:
        self._open.append(RowRun(row, number))
        self._open_where = self._open_where or where
        self._taken += number * (row.width + self._gap)

    def _add(self, rows: tuple[RowRun, ...], courses: int, where: Where) -> None:
        last = self._runs[-1] if self._runs else None
        if last is not None and last.where == where and last.rows == rows:
            self._runs[-1] = CourseRun(last.first, last.last + courses, rows, where)
            return
        first = last.last + 1 if last is not None else 1
        self._runs.append(CourseRun(first, first + courses - 1, rows, where))
