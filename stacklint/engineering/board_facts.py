"""Facts of the boards: how each is held, how its spans sag and its ends droop, where boards meet."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import NamedTuple

from stacklint.engineering import beam, creep
from stacklint.engineering.facts import Board, Course, End, Joint, Span
from stacklint.engineering.lots import Lot
from stacklint.findings import Mark, Part
from stacklint.layout.arrangement import Arrangement, CourseRun, Piece, Row, StickerLine
from stacklint.layout.rows import fills
from stacklint.layout.supports import PieceSupports, supports_of
from stacklint.show import show
from stacklint.units import LENGTH, System

_AT_END = 0.03
"""A board end within this (m) of the stack's end counts as lying at it."""


class Bend(NamedTuple):
    """How the whole stack bends between its bearers: deflection with creep (m) at a place, and the bearers' spacing."""

    at: Callable[[float], float]
    span_at: Callable[[float], float]


class BoardFacts(NamedTuple):
    ends: tuple[End, ...]
    joints: tuple[Joint, ...]
    boards: tuple[Board, ...]
    spans: tuple[Span, ...]
    widest: Mapping[str, float]
    """Widest distance between stickers under the boards of each label, m."""

    @property
    def largest_sag(self) -> float | None:
        return max((span.sag for span in self.spans if span.sag is not None), default=None)

    @property
    def longest_end(self) -> float | None:
        return max((end.past for end in self.ends if end.past is not None), default=None)


@dataclass(slots=True)
class _Place:
    """Boards alike: one label at one place along the stack, in one or several runs of courses."""

    piece: Piece
    runs: list[CourseRun]
    count: int
    joint_left: bool
    joint_right: bool
    top: bool
    lines: tuple[StickerLine, ...]
    """The sticker lines that have boards of the course below under them: the others hold nothing up."""


def course_name(first: int, last: int) -> str:
    return f"course {first}" if first == last else f"courses {first} to {last}"


def _courses(runs: list[CourseRun]) -> str:
    joined: list[tuple[int, int]] = []
    for run in runs:
        if joined and joined[-1][1] + 1 == run.first:
            joined[-1] = (joined[-1][0], run.last)
        else:
            joined.append((run.first, run.last))
    return ", ".join(course_name(first, last) for first, last in joined)


def courses(arrangement: Arrangement, lots: Mapping[str, Lot]) -> tuple[Course, ...]:
    """Facts of each run of courses."""
    runs = arrangement.courses
    return tuple(
        _course(run, below, above, arrangement, lots)
        for run, below, above in zip(runs, (None, *runs), (*runs[1:], None), strict=False)
    )


def _course(
    run: CourseRun,
    below: CourseRun | None,
    above: CourseRun | None,
    arrangement: Arrangement,
    lots: Mapping[str, Lot],
) -> Course:
    pieces = [piece for rows in run.rows for piece in rows.row.pieces]
    thick = max(pieces, key=lambda piece: piece.thickness)
    thin = min(pieces, key=lambda piece: piece.thickness)
    return Course(
        where=run.where,
        marks=(Mark(Part.COURSE, run.first, run.last),),
        name=course_name(run.first, run.last),
        first=run.first,
        last=run.last,
        thickest=thick.thickness,
        thinnest=thin.thickness,
        thick_boards=lots[thick.label].words,
        thin_boards=lots[thin.label].words,
        width=_width(run, arrangement.gap),
        bare=None if above is None else 1 - min(_width(run, arrangement.gap) / _width(above, arrangement.gap), 1.0),
        beyond=0.0 if below is None else _beyond(run, below),
        out=max(max(-row.pieces[0].start, row.pieces[-1].end - arrangement.length) for row in _rows(run)),
        short=_short(run, arrangement.length),
        moisture=max(lots[piece.label].moisture.value for piece in pieces),
    )


def _width(run: CourseRun, gap: float) -> float:
    """Of the rows of a course side by side, gaps included, m."""
    rows = sum(rows.count for rows in run.rows)
    return sum(rows.count * rows.row.width for rows in run.rows) + (rows - 1) * gap


def _beyond(run: CourseRun, below: CourseRun) -> float:
    """How far the boards of a run reach past those of the run below it, at the worse end, m."""
    start, end = _reach(run)
    held_from, held_to = _reach(below)
    return max(held_from - start, end - held_to, 0.0)


def _short(run: CourseRun, length: float) -> float:
    """How far the rows of a run that fill the stack's length stop before its end, at the worse end, m.

    Rows that do not fill it are of boards that find no partner.
    """
    full = [row for row in _rows(run) if fills(row.length, length)]
    return max((max(row.pieces[0].start, length - row.pieces[-1].end) for row in full), default=0.0)


def _rows(run: CourseRun) -> list[Row]:
    return [rows.row for rows in run.rows]


def _reach(run: CourseRun) -> tuple[float, float]:
    rows = _rows(run)
    return min(row.pieces[0].start for row in rows), max(row.pieces[-1].end for row in rows)


def board_facts(
    arrangement: Arrangement,
    lots: Mapping[str, Lot],
    *,
    top_pressure: float,
    temperature: float | None,
    bend: Bend | None,
    system: System,
) -> BoardFacts:
    """Facts of ends, joints, boards and spans.

    Args:
        top_pressure: of weights on the top course, Pa: its boards carry a share of it between their stickers.
        temperature: highest of the air, degrees C, or ``None``.
        bend: how the stack bends where sticker lines stand on no bearer; ``None`` where it does not.
    """
    ends: list[End] = []
    joints: dict[tuple[str, str, float], Joint] = {}
    boards: list[Board] = []
    spans: list[Span] = []
    widest: dict[str, float] = {}
    arrangement = _on_bearers_if_solid(arrangement)
    for place in _places(arrangement, top_pressure):
        piece = place.piece
        lot = lots[piece.label]
        held = supports_of(piece, place.lines, arrangement.sticker_width)
        name = _courses(place.runs)
        first, last = place.runs[0].first, place.runs[-1].last
        boards.append(
            Board(
                where=lot.boards.where,
                marks=(Mark(Part.COURSE, first, last, piece.start, piece.end),),
                boards=lot.words,
                course=name,
                lines=len(held.lines),
                length=piece.length,
                count=place.count,
            )
        )
        solved = _bent(place, held, lot, top_pressure if place.top else 0.0)
        factor = creep.boards(lot.moisture.value, temperature)
        ends.extend(_ends(place, held, arrangement, lot, name, solved, factor.likely, system))
        if solved is None:
            continue
        spans.extend(_spans(place, held, lot, name, solved, factor, bend))
        widest[lot.label] = max(widest.get(lot.label, 0.0), *held.spans)
    for run in arrangement.courses:
        _add_joints(joints, run, arrangement, lots)
    return BoardFacts(tuple(ends), tuple(joints.values()), tuple(boards), tuple(spans), widest)


def _on_bearers_if_solid(arrangement: Arrangement) -> Arrangement:
    """Boards piled solid on bearers are held by the bearers alone, as by sticker lines."""
    if arrangement.sticker_lines or arrangement.whole_floor:
        return arrangement
    lines = tuple(StickerLine(x, number, 0.0) for number, x in enumerate(arrangement.bearers))
    return arrangement._replace(sticker_lines=lines, sticker_width=arrangement.bearer_width)


def _places(arrangement: Arrangement, top_pressure: float) -> list[_Place]:
    """Pieces of one label at one place, whatever course they lie in; those under a top load apart."""
    found: dict[tuple[str, float, float, bool, bool, bool, int], _Place] = {}
    last = arrangement.course_count
    for run, lines in zip(arrangement.courses, _carried(arrangement), strict=True):
        top = run.last == last and top_pressure > 0
        for rows in run.rows:
            pieces = rows.row.pieces
            for number, piece in enumerate(pieces):
                left, right = number > 0, number < len(pieces) - 1
                key = (piece.label, round(piece.start, 4), round(piece.length, 4), left, right, top, len(lines))
                place = found.get(key)
                if place is None:
                    found[key] = place = _Place(piece, [], 0, left, right, top, lines)
                told = replace(run, first=run.last) if top else run
                if not place.runs or place.runs[-1] != told:
                    place.runs.append(told)
                place.count += run.count * rows.count
    return list(found.values())


def _carried(arrangement: Arrangement) -> list[tuple[StickerLine, ...]]:
    """For each run of courses, the sticker lines that stand on boards of the run below it; all for the lowest."""
    carried = [arrangement.sticker_lines] if arrangement.courses else []
    reach = arrangement.sticker_width / 2 + 1e-6
    for below in arrangement.courses[:-1]:
        stretches = {(piece.start - reach, piece.end + reach) for rows in below.rows for piece in rows.row.pieces}
        carried.append(tuple(line for line in arrangement.sticker_lines if any(a <= line.x <= b for a, b in stretches)))
    return carried


BETWEEN = 0.25
"""Share of a top load that bears on the boards between their stickers. Weights are stiff (concrete, beams) and laid
over the sticker lines, which carry most of it (Wengert 2014: they work only with a support under each sticker
column); the quarter is a judgement, no published figure was found."""


def _bent(place: _Place, held: PieceSupports, lot: Lot, top_pressure: float) -> beam.BeamResult | None:
    if len(held.lines) < 2:
        return None
    piece = place.piece
    xs = [place.lines[index].x for index in held.lines]
    load = (lot.weight_density * piece.thickness + BETWEEN * top_pressure) * piece.width
    second_moment = piece.width * piece.thickness**3 / 12
    # A line may carry the very edge of a board from beyond it: the board is taken to reach it.
    start, end = min(piece.start, xs[0]), max(piece.end, xs[-1])
    return beam.solve(xs, start, end, load, lot.stiffness * second_moment)


def _spans(
    place: _Place,
    held: PieceSupports,
    lot: Lot,
    name: str,
    solved: beam.BeamResult,
    factor: creep.Creep,
    bend: Bend | None,
) -> list[Span]:
    facts = []
    first, last = place.runs[0].first, place.runs[-1].last
    allowed = partial(_spacing_for, factor.likely, solved.loads[1], solved.stiffness[1])
    for number, elastic in enumerate(solved.sags):
        left = place.lines[held.lines[number]]
        right = place.lines[held.lines[number + 1]]
        length = right.x - left.x
        sunk = 0.0
        if bend is not None and (left.bearer is None or right.bearer is None):
            sunk = max(bend.at(left.x), bend.at(right.x), bend.at((left.x + right.x) / 2), 0.0)
        with_stack = sunk > elastic * factor.likely
        facts.append(
            Span(
                where=lot.boards.where,
                marks=(Mark(Part.COURSE, first, last, left.x, right.x),),
                boards=lot.words,
                course=name,
                length=bend.span_at((left.x + right.x) / 2) if with_stack and bend is not None else length,
                elastic=elastic,
                sag=elastic * factor.likely + sunk,
                sag_low=elastic * factor.low + sunk * factor.low / factor.likely,
                sag_high=elastic * factor.high + sunk * factor.high / factor.likely,
                with_stack=with_stack,
                beyond_data=factor.beyond_data or lot.beyond_data,
                moisture=lot.moisture.value,
                moisture_stated=lot.moisture.stated,
                memory=lot.memory,
                spacing_for=allowed,
            )
        )
    return facts


def _spacing_for(factor: float, load: float, stiffness: float, limit: float) -> float | None:
    if limit <= 0 or load <= 0:
        return None
    return beam.widest_spacing(limit / factor, load, stiffness)


def _ends(
    place: _Place,
    held: PieceSupports,
    arrangement: Arrangement,
    lot: Lot,
    name: str,
    solved: beam.BeamResult | None,
    factor: float,
    system: System,
) -> list[End]:
    if not held.lines:
        return []
    piece = place.piece
    first, last = place.runs[0].first, place.runs[-1].last
    facts = []
    for left in (True, False):
        past = held.left_end if left else held.right_end
        x = piece.start if left else piece.end
        at_stack_end = x < _AT_END or x > arrangement.length - _AT_END
        side = "left" if left else "right"
        position = f"at the {side} end of the stack" if at_stack_end else f"{show(x, LENGTH, system)} from the left end"
        near = x + past if left else x - past
        facts.append(
            End(
                where=lot.boards.where,
                marks=(Mark(Part.COURSE, first, last, min(x, near), max(x, near)),),
                boards=lot.words,
                course=name,
                position=position,
                inside=not at_stack_end,
                at_joint=place.joint_left if left else place.joint_right,
                past=past,
                moisture=lot.moisture.value,
                droop=None if solved is None else max(solved.droops[0 if left else 1], 0.0) * factor,
                count=place.count,
            )
        )
    return facts


def _add_joints(
    joints: dict[tuple[str, str, float], Joint], run: CourseRun, arrangement: Arrangement, lots: Mapping[str, Lot]
) -> None:
    if not arrangement.sticker_lines:
        return
    for rows in run.rows:
        for x, (left, right) in zip(rows.row.joints, rows.row.meetings, strict=True):
            key = (left.label, right.label, round(x, 4))
            if key in joints:
                continue
            off = min(abs(line.x - x) for line in arrangement.sticker_lines)
            one, other = lots[left.label], lots[right.label]
            both = one.words if one is other else f"{one.words} and {other.words}"
            joints[key] = Joint(
                where=run.where,
                marks=(Mark(Part.COURSE, run.first, run.last, x, x),),
                boards=f"Two boards of {both}" if one is other else f"Boards of {both}",
                course=course_name(run.first, run.last),
                position=x,
                off=off,
                on_sticker=off <= arrangement.sticker_width / 2 + 1e-6,
                moisture=max(one.moisture.value, other.moisture.value),
                count=run.count * rows.count,
            )
