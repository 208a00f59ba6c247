"""Courses laid anew, for a person to read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from stacklint.arranging.arranged import Arranged, group_of
from stacklint.arranging.filling import Fill, Room
from stacklint.arranging.kilns import KilnLoad, Limit, TooLong, fullest
from stacklint.arranging.sizes import unpaired
from stacklint.board_words import size_words
from stacklint.language.nearest import listed
from stacklint.language.write_stack import course_words
from stacklint.layout import Arrangement
from stacklint.plan.boards import Courses
from stacklint.plan.stack import Stack
from stacklint.report.columns import folded
from stacklint.report.plain import plain
from stacklint.show import show
from stacklint.units import LENGTH, MASS, ONE_FOOT, ONE_INCH, VOLUME, System

WIDTH = 80
_INDENT = "  "


def arranged_lines(found: Arranged, system: System) -> Iterator[str]:
    """The courses of one stack, what they leave over and what would fill them, without line ends."""
    stack, arrangement = found.laid.stack, found.laid.arrangement
    yield plain(f"{_title(stack)}  line {stack.where.line}" if stack.where.line else _title(stack))
    size = f"{_lengths(arrangement, system)}, {_counted(arrangement.course_count, 'course')}"
    yield from _paragraphs([f"{size} of {_counted(_pieces(arrangement), 'board')}."])
    yield ""
    yield from _courses(found.laid.courses, arrangement.course_count)
    yield from _paragraphs(_told(found, system))
    yield ""


def kiln_lines(stack: Stack, load: KilnLoad, system: System) -> Iterator[str]:
    """How a stack would lie in a kiln."""
    arrangement = load.laid.arrangement
    yield plain(f"{_title(stack)} in kiln {load.kiln.name.text}")
    every = _counted(arrangement.course_count, "course")
    going = f"all of {every}" if load.courses == arrangement.course_count else f"{load.courses or 'none'} of {every}"
    yield from _paragraphs([f"{_lengths(arrangement, system)}: {going} go in."])
    yield ""
    yield from _courses(_clipped(load.laid.courses, load.courses), load.courses)
    yield from loaded_lines(load, system, left_out=True)
    yield ""


def too_long_lines(stack: Stack, found: TooLong, kiln: str, system: System) -> Iterator[str]:
    """Why a stack does not go into a kiln at all."""
    yield plain(f"{_title(stack)} in kiln {kiln}")
    long, inside = show(found.length, LENGTH, system), show(found.inside, LENGTH, system)
    yield from _paragraphs([f"Boards {found.label} are up to {long} long; the kiln has {inside} inside."])
    yield ""


def boards_words(fills: Sequence[Fill], stack: Stack, system: System) -> str:
    """``16 boards of 4 ft``, with the thickness where the stack has several."""
    several = len({round(group.thickness.si, 7) for group in stack.boards}) > 1
    parts = []
    for fill in fills:
        thick = f"{size_words(group_of(stack, fill.thickness).thickness)} x " if several else ""
        parts.append(f"{_counted(fill.boards, 'board')} of {thick}{long_words(fill.length, system)}")
    return listed(parts, "and")


def _told(found: Arranged, system: System) -> Iterator[str]:
    arrangement, stack = found.laid.arrangement, found.laid.stack
    odd, long = unpaired(arrangement), show(arrangement.length, LENGTH, system)
    if not odd:
        yield f"All boards lie in rows that fill {long}: none is left over."
    else:
        short = _by_length(((each.label, each.length, each.count) for each in arrangement.unpaired), system)
        if short:
            yield f"Without a partner to fill {long}: {short}."
        wide = _by_length(((each.label, each.length, each.count) for each in arrangement.left_over), system)
        if wide:
            yield f"In no course at all: {wide}."
    if found.partners.boards:
        yield f"To fill the short rows, add {boards_words(found.partners.boards, stack, system)}."
    for stop in found.partners.stops:
        rows = "1 row stops" if stop.rows == 1 else f"{stop.rows} rows stop"
        yield f"{rows} {show(stop.gap, LENGTH, system)} before the end; no board that two stickers hold goes in there."
    yield from _rooms(found.rooms, stack, system, then=bool(found.partners.boards))
    if found.as_written is not None:
        written = unpaired(found.as_written)
        same = "as many" if written == odd else str(written)
        yield f"The courses that the plan writes leave {same} over."


def _rooms(rooms: Iterable[Room], stack: Stack, system: System, *, then: bool) -> Iterator[str]:
    for room in rooms:
        has = "would then have" if then else "has"
        rows = _counted(room.rows, "row")
        boards = boards_words(room.boards, stack, system)
        yield f"Course {room.course} {has} room for {rows} more: {boards}."


def loaded_lines(load: KilnLoad, system: System, *, left_out: bool) -> Iterator[str]:
    """What goes into a kiln comes to so much of what it takes, and what would still go in; with the boards that are
    ``left_out`` if they are wanted."""
    return _paragraphs(_loaded(load, system, left_out=left_out))


def _loaded(load: KilnLoad, system: System, *, left_out: bool) -> Iterator[str]:
    kiln, amounts = load.kiln, load.amounts
    parts = [
        (f"{show(amounts.volume, VOLUME, system)} of wood", kiln.holds.si if kiln.holds else None, VOLUME),
        (show(amounts.mass, MASS, system), kiln.carries.si if kiln.carries else None, MASS),
        (f"{show(amounts.height, LENGTH, system)} high", kiln.inside.height.si if kiln.inside else None, LENGTH),
    ]
    said = [f"{words} of {show(most, of, system)}" if most is not None else words for words, most, of in parts]
    yield f"What goes in comes to {listed(said, 'and')}."
    out = _by_length(((label, length, count) for (label, length), count in load.out.items()), system)
    if out and left_out:
        why = f"for want of {_LACKS[load.stopped]}" if load.stopped else "wider than the room beside the plenum"
        yield f"Left out, {why}: {out}."
    odd = unpaired(load.laid.arrangement)
    if odd and left_out:
        short = _by_length(((each.label, each.length, each.count) for each in load.laid.arrangement.unpaired), system)
        yield f"Without a partner to fill {show(load.laid.arrangement.length, LENGTH, system)}: {short}."
    if load.more:
        yield f"{_counted(load.more, 'course')} more like the fullest would go in: {_more(load, system)}."


_LACKS: Mapping[Limit | None, str] = {
    Limit.HEIGHT: "height",
    Limit.VOLUME: "rated volume",
    Limit.WEIGHT: "rated weight",
}


def _more(load: KilnLoad, system: System) -> str:
    counts: dict[tuple[str, float], int] = {}
    for rows in fullest(load.laid.arrangement.courses).rows:
        for piece in rows.row.pieces:
            key = (piece.label, piece.length)
            counts[key] = counts.get(key, 0) + rows.count * load.more
    return _by_length(((label, length, count) for (label, length), count in counts.items()), system)


def _courses(courses: Sequence[Courses], count: int) -> Iterator[str]:
    for course in courses:
        yield plain(f"{_INDENT}{course_words(course)}")
    if courses:
        yield ""
    said = courses[-1].last if courses else 0
    if said and said < count:
        text = (
            f"Above course {said} lie rows of several boards that stop short of the stack's end. No course statement"
            " says those; stacklint lays them so by itself."
        )
        yield from _paragraphs([text])
    elif not said and count:
        text = (
            "No course statement can say this: boards of one group come in several lengths. Give each length a group"
            " of its own, and arrange again."
        )
        yield from _paragraphs([text])


def _clipped(courses: Sequence[Courses], most: int) -> Sequence[Courses]:
    kept = [course for course in courses if course.first <= most]
    return [course.model_copy(update={"last": min(course.last, most)}) for course in kept]


def _by_length(boards: Iterable[tuple[str, float, int]], system: System) -> str:
    ordered = sorted(boards, key=lambda each: (-each[1], each[0]))
    return listed((f"{count:,} of {label} ({long_words(length, system)})" for label, length, count in ordered), "and")


def long_words(length: float, system: System) -> str:
    """The length of a board: in feet where they are whole, as the trade has it."""
    feet = round(length / ONE_FOOT)
    if system is System.INCH and abs(length - feet * ONE_FOOT) < ONE_INCH / 16:
        return f"{feet} ft"
    return show(length, LENGTH, system)


def _pieces(arrangement: Arrangement) -> int:
    return sum(run.count * rows.count * len(rows.row.pieces) for run in arrangement.courses for rows in run.rows)


def _lengths(arrangement: Arrangement, system: System) -> str:
    return f"{show(arrangement.length, LENGTH, system)} x {show(arrangement.width, LENGTH, system)}"


def _title(stack: Stack) -> str:
    kind = stack.kind.value.capitalize()
    return f"{kind} {stack.name.text}{f', {stack.title}' if stack.title is not None else ''}"


def _counted(number: int, word: str) -> str:
    return f"{number:,} {word}" if number == 1 else f"{number:,} {word}s"


def _paragraphs(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        for line in folded(text, WIDTH - len(_INDENT)):
            yield f"{_INDENT}{line}"
