"""The courses that the plan writes out, laid as written with the boards that are listed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations_with_replacement, product
from math import comb, prod
from typing import NamedTuple

from stacklint.faults import Fault, FaultKind, Measure
from stacklint.layout.laying import CourseLayer
from stacklint.layout.program import Program, fill_up, maximise
from stacklint.layout.rows import fills, row_as_written
from stacklint.layout.shelf import LotRows, Shelf
from stacklint.layout.stock import Lot
from stacklint.layout.supports import TOUCH
from stacklint.plan.boards import CourseRows, Courses
from stacklint.show import show
from stacklint.units import LENGTH, NUMBER, System
from stacklint.where import Where

MOST_CHOICES = 2_000
"""Ways to choose the boards of one row by length; beyond, the first board of each group is taken."""

WORK = 500_000

LotsByLabel = Mapping[str, Sequence[Lot]]


class Room(NamedTuple):
    """The stack's length and clear width, the gap between rows and the sticker lines."""

    length: float
    width: float
    gap: float
    lines: tuple[float, ...]
    system: System


def lots_by_label(lots: Sequence[Lot]) -> dict[str, list[Lot]]:
    found: dict[str, list[Lot]] = {}
    for lot in lots:
        found.setdefault(lot.label, []).append(lot)
    return found


def written_size(courses: Sequence[Courses], lots: LotsByLabel, gap: float) -> tuple[float, float]:
    """Length of the longest row and width of the widest course that are written; 0 where none are."""
    longest = widest = 0.0
    for course in courses:
        width = -gap
        for rows in course.rows:
            groups = [lots[label.text] for label in rows.labels if label.text in lots]
            if groups:
                longest = max(longest, sum(max(lot.length for lot in group) for group in groups))
                width += rows.count * (max(lot.width for group in groups for lot in group) + gap)
        widest = max(widest, width)
    return longest, widest


def lay_written(
    courses: Sequence[Courses], lots: LotsByLabel, shelf: Shelf, room: Room, layer: CourseLayer
) -> list[LotRows]:
    """Lay the written courses from the ground up, as far as the boards go. Gives the rows that were laid."""
    laid: list[LotRows] = []
    for course in sorted(courses, key=lambda course: course.first):
        number = max(0, course.last - course.first + 1)
        queues: list[tuple[int, list[LotRows]]] = []
        for rows in course.rows:
            groups = [lots.get(label.text, ()) for label in rows.labels]
            if all(groups) and rows.count > 0:
                taken = _taken(groups, rows.count * number, shelf, room)
                laid.extend(taken)
                queues.append((rows.count, list(taken)))
        _lay_alike(queues, course.where, room, layer)
    return laid


def _taken(groups: Sequence[Sequence[Lot]], count: int, shelf: Shelf, room: Room) -> tuple[LotRows, ...]:
    """The boards of so many rows. Where groups come in several lengths, as many rows as can be fill the stack."""
    taken: list[LotRows] = []
    if any(len(group) > 1 for group in groups) and _number_of_ways(groups) <= MOST_CHOICES:
        for lots, number in _chosen(groups, count, shelf, room.length):
            rows = shelf.take(lots, number)
            count -= rows
            taken.append(LotRows(lots, rows))
    taken.extend(shelf.rows(groups, count))
    return tuple(taken)


def _chosen(
    groups: Sequence[Sequence[Lot]], count: int, shelf: Shelf, length: float
) -> list[tuple[tuple[Lot, ...], int]]:
    """Which lots stand in the rows: rows that fill come first, then the longest that are not too long."""
    lots = list(dict.fromkeys(lot for group in groups for lot in group))
    places = {lot: place for place, lot in enumerate(lots)}
    choices = sorted(_ways(groups), key=lambda way: _worth(way, length))
    columns = [[*((places[lot], way.count(lot)) for lot in dict.fromkeys(way)), (len(lots), 1)] for way in choices]
    limits = [*(shelf.left(lot) for lot in lots), count]
    filling = sum(fills(sum(lot.length for lot in way), length) for way in choices)
    program = Program(columns, [1] * len(choices), limits)
    amounts = [0] * len(choices)
    if filling:
        full = Program(columns[:filling], [1] * filling, limits)
        start = [0] * filling
        fill_up(full, start, range(filling))
        amounts[:filling] = maximise(full, start, WORK).amounts
    fill_up(program, amounts, range(len(choices)))
    return [(way, amount) for way, amount in zip(choices, amounts, strict=True) if amount]


def _number_of_ways(groups: Sequence[Sequence[Lot]]) -> int:
    return prod(comb(len(group) + len(slots) - 1, len(slots)) for group, slots in _alike(groups))


def _ways(groups: Sequence[Sequence[Lot]]) -> Iterator[tuple[Lot, ...]]:
    """Each choice of a lot for each board of a row; boards of one group, which may change places, in one order."""
    alike = _alike(groups)
    for picked in product(*(combinations_with_replacement(group, len(slots)) for group, slots in alike)):
        way: dict[int, Lot] = {}
        for (_, slots), lots in zip(alike, picked, strict=True):
            way.update(zip(slots, lots, strict=True))
        yield tuple(way[slot] for slot in range(len(groups)))


def _alike(groups: Sequence[Sequence[Lot]]) -> list[tuple[Sequence[Lot], list[int]]]:
    """The groups that a row is laid of, each once, with the places of its boards in the row."""
    found: dict[int, tuple[Sequence[Lot], list[int]]] = {}
    for slot, group in enumerate(groups):
        found.setdefault(id(group), (group, []))[1].append(slot)
    return list(found.values())


def _worth(way: tuple[Lot, ...], length: float) -> tuple[int, float]:
    total = sum(lot.length for lot in way)
    if fills(total, length):
        return 0, -total
    return (1, -total) if total < length else (2, total)


def _lay_alike(queues: list[tuple[int, list[LotRows]]], where: Where, room: Room, layer: CourseLayer) -> None:
    """Deal the rows out to courses of so many of each kind."""
    while any(queue for _, queue in queues):
        # As many courses alike as the row at the head of each queue allows.
        alike = min((max(1, queue[0].count // count) for count, queue in queues if queue), default=1)
        rows = [(taken, number) for count, queue in queues for taken, number in _dealt(queue, count, alike)]
        layer.put([(row_as_written(lots.lots, room.length, room.lines), number) for lots, number in rows], alike, where)


def _dealt(queue: list[LotRows], count: int, courses: int) -> list[tuple[LotRows, int]]:
    """The rows of one course, taken off the queue for so many courses alike."""
    dealt: list[tuple[LotRows, int]] = []
    while count and queue:
        head = queue[0]
        number = min(count, head.count // courses)
        left = head.count - number * courses
        dealt.append((head, number))
        count -= number
        if left:
            queue[0] = LotRows(head.lots, left)
        else:
            queue.pop(0)
    return dealt


class WrittenCheck(NamedTuple):
    """Finds what cannot be in the written courses. ``all_boards`` and ``all_courses`` are false where a
    ``boards`` or ``course`` statement could not be read: what then seems to be missing may be in it. ``flue`` is what
    a flue adds to the gap between two rows."""

    courses: Sequence[Courses]
    lots: LotsByLabel
    room: Room
    stack_width: float
    flue: float
    all_boards: bool
    all_courses: bool

    def faults(self) -> list[Fault]:
        found = [*self._numbers(), *self._boards()]
        for course in self.courses:
            for rows in course.rows:
                found.extend(self._row_length(rows))
            found.extend(self._course_width(course))
        return found

    def _numbers(self) -> list[Fault]:
        found = []
        expected = 1
        for course in sorted(self.courses, key=lambda course: course.first):
            if course.last < course.first:
                text = f"Courses {course.first} to {course.last} run backwards."
                found.append(_does_not_fit(course.where, text, "Write the lower course first."))
            elif course.first < expected:
                text = f"Course {course.first} is laid twice: the courses below reach to course {expected - 1}."
                found.append(_does_not_fit(course.where, text, f"Begin these courses at {expected}."))
            elif course.first > expected and self.all_courses:
                text = f"{_courses(expected, course.first - 1)} missing under course {course.first}."
                found.append(
                    _does_not_fit(
                        course.where, text, f"Begin these courses at {expected}, or write what lies under them."
                    )
                )
            expected = max(expected, course.last + 1)
        return found

    def _boards(self) -> list[Fault]:
        wanted: dict[str, int] = {}
        first: dict[str, Where] = {}
        for course in self.courses:
            for rows in course.rows:
                for label in rows.labels:
                    wanted[label.text] = wanted.get(label.text, 0) + rows.count * max(0, course.last - course.first + 1)
                    listed = self._listed(label.text)
                    if wanted[label.text] > listed:
                        first.setdefault(label.text, label.where)
        found = []
        for label_text, where in first.items():
            listed, asked = self._listed(label_text), wanted[label_text]
            if label_text not in self.lots:
                if self.all_boards:
                    text = f"The courses are laid of boards {label_text}, but no boards {label_text} are listed."
                    found.append(
                        _does_not_fit(
                            where, text, f"List boards {label_text}, or lay these rows of boards that are listed."
                        )
                    )
                continue
            text = f"The courses are laid of {asked:,} boards {label_text}, but only {listed:,} are listed."
            fault = _does_not_fit(where, text, f"Lay no more than {listed:,} boards {label_text}, or list the rest.")
            found.append(_with(fault, asked, listed))
        return found

    def _listed(self, label: str) -> int:
        return sum(lot.count for lot in self.lots.get(label, ()))

    def _row_length(self, rows: CourseRows) -> list[Fault]:
        groups = [self.lots[label.text] for label in rows.labels if label.text in self.lots]
        shortest = sum(min(lot.length for lot in group) for group in groups)
        length = self.room.length
        if shortest <= length or fills(shortest, length):
            return []
        system = self.room.system
        text = (
            f"A row of {' + '.join(label.text for label in rows.labels)} is {show(shortest, LENGTH, system)} long, "
            f"but the stack is {show(length, LENGTH, system)} long."
        )
        instead = "Lay boards end to end that come to the stack's length, or make the stack longer."
        return [
            Fault(
                FaultKind.BOARDS_DO_NOT_FIT,
                rows.where,
                text,
                instead,
                found=Measure(shortest, LENGTH),
                limit=Measure(length, LENGTH),
            )
        ]

    def _course_width(self, course: Courses) -> list[Fault]:
        number = sum(rows.count for rows in course.rows)
        least = self.flue + max(0, number - 1) * self.room.gap
        for rows in course.rows:
            widths = [
                min(lot.width_low for lot in self.lots[label.text]) for label in rows.labels if label.text in self.lots
            ]
            least += rows.count * max(widths, default=0.0)
        if least <= self.stack_width + TOUCH:
            return []
        system = self.room.system
        wide, stack = show(least, LENGTH, system), show(self.stack_width, LENGTH, system)
        return [
            Fault(
                FaultKind.VALUE_OUT_OF_RANGE,
                course.where,
                f"{number} rows side by side are {wide} wide, but the stack is {stack} wide.",
                "Lay fewer rows in the course, or make the stack wider.",
                found=Measure(least, LENGTH),
                limit=Measure(self.stack_width, LENGTH),
            )
        ]


def _courses(first: int, last: int) -> str:
    return f"Course {first} is" if first == last else f"Courses {first} to {last} are"


def _does_not_fit(where: Where, text: str, instead: str) -> Fault:
    return Fault(FaultKind.BOARDS_DO_NOT_FIT, where, text, instead)


def _with(fault: Fault, found: int, limit: int) -> Fault:
    return Fault(
        fault.kind,
        fault.where,
        fault.message,
        fault.instead,
        found=Measure(found, NUMBER),
        limit=Measure(limit, NUMBER),
    )
