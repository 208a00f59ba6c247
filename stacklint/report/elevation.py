"""Draws the side of a stack along its length, the faulty places keyed by letters to the findings.

From the top down: cover, top load, courses with the stickers under each, bearers, pads, ground, scale.
A faulty stretch of boards is drawn lighter, and every faulty place holds its finding's letter, so that
nothing hangs on colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.findings import Finding, Mark, Part
from stacklint.layout.arrangement import Arrangement, CourseRun
from stacklint.plan.shelter import CoverKind, SideKind
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind, Soil
from stacklint.report.courses_shown import Hidden, run_of, shown
from stacklint.report.glyphs import Glyphs
from stacklint.report.row import AIR, Frame, Ink, Row
from stacklint.show import show
from stacklint.units import LENGTH, System

LABEL = 8
AFTER = 6
NARROWEST = 16
WIDEST = 72
"""Cells along the stack."""


class Keyed(NamedTuple):
    """A finding and the letter that stands for it in the drawing."""

    key: str
    finding: Finding


def elevation(
    checked: CheckedStack, findings: Sequence[Keyed], *, width: int, glyphs: Glyphs, system: System
) -> tuple[Row, ...]:
    """The rows of the drawing, none wider than ``width``; no rows where there is nothing to draw."""
    laid = checked.arrangement
    if laid is None or not laid.courses or laid.length <= 0:
        return ()
    frame = _frame(checked.stack, laid, width)
    if frame is None:
        return ()
    return tuple(_Elevation(checked.stack, laid, findings, frame, glyphs).rows(system))


def _frame(stack: Stack, laid: Arrangement, width: int) -> Frame | None:
    room = min(width - LABEL - AFTER, WIDEST + 4)
    if room < NARROWEST:
        return None
    overhang = _overhang(stack)
    longest = max((piece.end for run in laid.courses for row in run.rows for piece in row.row.pieces), default=0.0)
    outside = max(overhang, longest - laid.length, 0.0)
    margin = max(2, round(outside / (laid.length + 2 * outside) * room))
    return Frame(laid.length, room - 2 * margin, margin) if room > 2 * margin + 4 else None


def _overhang(stack: Stack) -> float:
    return stack.cover.overhang_ends.si if stack.cover and stack.cover.overhang_ends else 0.0


class _Elevation:
    def __init__(
        self, stack: Stack, laid: Arrangement, findings: Sequence[Keyed], frame: Frame, glyphs: Glyphs
    ) -> None:
        self.stack = stack
        self.laid = laid
        self.findings = findings
        self.frame = frame
        self.glyphs = glyphs

    def rows(self, system: System) -> Iterator[Row]:
        yield from self._cover()
        yield from self._load()
        marks = [mark for _, mark in self._marks(Part.COURSE, Part.STICKERS, Part.SIDES)]
        for course in shown(self.laid.courses, marks):
            if isinstance(course, Hidden):
                yield self._hidden(course)
                continue
            yield self._boards(course)
            if self.laid.sticker_lines and self.laid.sticker_thickness > 0:
                yield self._stickers(course)
        yield from self._supports()
        yield self._ground()
        yield self._scale(system)

    def _marks(self, *parts: Part, course: int | None = None) -> Iterator[tuple[str, Mark]]:
        for key, finding in self.findings:
            for mark in finding.marks:
                if mark.part in parts and (course is None or self._covers(mark, course)):
                    yield key, mark

    def _covers(self, mark: Mark, course: int) -> bool:
        first = mark.first_course or 1
        last = mark.last_course or mark.first_course or self.laid.course_count
        return first <= course <= last

    def _cover(self) -> Iterator[Row]:
        cover, frame = self.stack.cover, self.frame
        rows: list[Row] = []
        if cover and cover.kind is not CoverKind.NONE:
            reach = round(_overhang(self.stack) / frame.length * frame.cells)
            left, right = max(frame.first - reach, 0), min(frame.last + reach, frame.whole - 1)
            rows = self._roof(range(left, right + 1), sloped=bool(cover.slope))
            if cover.gap and cover.gap.si > 0:
                rows.append(self._posts())
        keys = list(self._marks(Part.COVER))
        if keys and not rows:
            rows = [Row.blank(frame, "cover")]
        for key, mark in keys:
            rows[0].key(frame.stretch(mark.start, mark.end), key)
        yield from rows

    def _roof(self, stretch: range, *, sloped: bool) -> list[Row]:
        row = Row.blank(self.frame, "cover")
        if not sloped:
            row.fill(stretch, self.glyphs.cover, Ink.COVER)
            return [row]
        lower, middle = Row.blank(self.frame), (stretch.start + stretch.stop) // 2
        row.fill(range(middle, stretch.stop), self.glyphs.cover, Ink.COVER)
        lower.fill(range(stretch.start, middle), self.glyphs.cover, Ink.COVER)
        lower.put(middle - 1, self.glyphs.rise, Ink.COVER)
        return [row, lower]

    def _posts(self) -> Row:
        row = Row.blank(self.frame)
        for x in (0.0, self.laid.length / 2, self.laid.length):
            row.put(self.frame.at(x), self.glyphs.post, Ink.COVER)
        return row

    def _load(self) -> Iterator[Row]:
        load, frame = self.stack.top_load, self.frame
        keys = list(self._marks(Part.TOP))
        if not load and not keys:
            return
        row = Row.blank(frame, "straps" if load and load.straps else "load" if load else "top")
        if load:
            lines = [line.x for line in self.laid.sticker_lines] or [self.laid.length / 2]
            for x in lines:
                row.put(frame.at(x), self.glyphs.post if load.straps else self.glyphs.load, Ink.LOAD)
        for key, mark in keys:
            row.key(frame.stretch(mark.start, mark.end), key)
        yield row

    def _hidden(self, hidden: Hidden) -> Row:
        row = Row.blank(self.frame, "...")
        words = hidden.words[: self.frame.whole]
        row.put((self.frame.whole - len(words)) // 2, words, Ink.SCALE)
        return row

    def _boards(self, course: int) -> Row:
        row = Row.blank(self.frame, str(course))
        run = run_of(course, self.laid.courses)
        if run:
            _lay(row, run, self.frame, self.glyphs)
        self._cloth(row)
        faults = [
            (key, self.frame.stretch(mark.start, mark.end)) for key, mark in self._marks(Part.COURSE, course=course)
        ]
        for _, stretch in faults:
            row.fill(stretch, self.glyphs.fault, Ink.FAULT)
        for key, stretch in dict.fromkeys(faults):
            row.key(stretch, key)
        for key in dict.fromkeys(key for key, _ in self._marks(Part.SIDES, course=course)):
            row.key(range(self.frame.first - 1), key)
        return row

    def _stickers(self, course: int) -> Row:
        row = Row.blank(self.frame)
        cells = [self.frame.at(line.x) for line in self.laid.sticker_lines]
        for cell in cells:
            row.put(cell, self.glyphs.sticker, Ink.STICKER)
        self._cloth(row)
        for key, mark in dict.fromkeys(self._marks(Part.STICKERS, course=course)):
            stretch = self.frame.stretch(mark.start, mark.end)
            inside = [cell for cell in cells if cell in stretch]
            if mark.start is None:
                inside = inside[:1]
            for cell in inside or [(stretch.start + stretch.stop - 1) // 2]:
                row.key(range(cell, min(cell + 2, self.frame.whole)), key)
        return row

    def _cloth(self, row: Row) -> None:
        sides = self.stack.sides
        if sides and sides.kind is not SideKind.OPEN:
            for index in (self.frame.first - 1, self.frame.last + 1):
                if row.cells[index] == AIR:
                    row.put(index, self.glyphs.cloth, Ink.COVER)

    def _supports(self) -> Iterator[Row]:
        keys = list(dict.fromkeys(self._marks(Part.BEARERS)))
        if self.laid.whole_floor or not self.laid.bearers:
            pallets = self.stack.bearers is not None and self.stack.bearers.kind is BearerKind.PALLETS
            if pallets or keys:
                row = Row.blank(self.frame, "pallets" if pallets else "bearers")
                if pallets:
                    row.fill(range(self.frame.first, self.frame.last + 1), self.glyphs.floor, Ink.SUPPORT)
                for key, mark in keys:
                    row.key(self.frame.stretch(mark.start, mark.end), key)
                yield row
            return
        yield self._bearers(keys)
        if self.stack.bearers and self.stack.bearers.pads:
            row = Row.blank(self.frame, "blocks" if self.stack.bearers.pads.blocks else "pads")
            for x in self.laid.bearers:
                row.put(self._edge(x), self.glyphs.pad * self._support_width, Ink.SUPPORT)
            yield row

    def _bearers(self, keys: Sequence[tuple[str, Mark]]) -> Row:
        row = Row.blank(self.frame, "bearers")
        drawn = self.glyphs.bearer if self._support_width == 2 else self.glyphs.slim
        for x in self.laid.bearers:
            row.put(self._edge(x), drawn, Ink.SUPPORT)
        for key, mark in keys:
            start, end = mark.start, mark.end
            inside = [
                x
                for x in self.laid.bearers
                if start is None or start - self.laid.bearer_width <= x <= (end or start) + self.laid.bearer_width
            ]
            cell = self._edge(inside[0]) if inside else self.frame.stretch(start, end).start
            row.key(range(cell, cell + self._support_width), key)
        return row

    @property
    def _support_width(self) -> int:
        """Cells of a bearer: two, or one where two would run together."""
        cells = [self.frame.at(x) for x in self.laid.bearers]
        return 1 if any(right - left < 3 for left, right in pairwise(cells)) else 2

    def _edge(self, x: float) -> int:
        """The first cell of a bearer, such that it stands within the drawing of the stack."""
        return min(self.frame.at(x), self.frame.last + 1 - self._support_width)

    def _ground(self) -> Row:
        ground = self.stack.ground
        bears_all = self.laid.whole_floor and (self.stack.bearers is None or self.stack.bearers.kind is BearerKind.NONE)
        hard = bears_all or (ground is not None and ground.soil is Soil.CONCRETE)
        row = Row.blank(self.frame, "floor" if bears_all else "ground")
        row.fill(range(self.frame.whole), self.glyphs.floor if hard else self.glyphs.soil, Ink.GROUND)
        for key, mark in dict.fromkeys(self._marks(Part.GROUND)):
            row.key(self.frame.stretch(mark.start, mark.end), key)
        return row

    def _scale(self, system: System) -> Row:
        row = Row.blank(self.frame)
        row.fill(range(self.frame.first, self.frame.last + 1), self.glyphs.line, Ink.SCALE)
        row.put(self.frame.first, self.glyphs.left_stop, Ink.SCALE)
        row.put(self.frame.last, self.glyphs.right_stop, Ink.SCALE)
        words = f" {show(self.laid.length, LENGTH, system)} "
        row.put(self.frame.first + (self.frame.cells - len(words)) // 2, words, Ink.SCALE)
        return row


def _lay(row: Row, run: CourseRun, frame: Frame, glyphs: Glyphs) -> None:
    """The boards of a course: full where every row of it has one, fainter where only some have."""
    total = sum(each.count for each in run.rows)
    covered = [0] * frame.whole
    for each in run.rows:
        cells: set[int] = set()
        for piece in each.row.pieces:
            cells.update(frame.stretch(piece.start, piece.end))
        cells.difference_update(frame.at(joint) for joint in each.row.joints)
        for cell in cells:
            covered[cell] += each.count
    for cell, count in enumerate(covered):
        if count:
            row.put(cell, glyphs.board if count == total else glyphs.some_rows, Ink.WOOD)
