"""A charge in its kiln, to scale: from above and in section, with plenum, baffles and the way of the air."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedStack
from stacklint.findings import Mark, Part
from stacklint.plan.stack import Baffles
from stacklint.report.drawings import dimensions
from stacklint.report.drawings.air_arrows import arrow, fan
from stacklint.report.drawings.badges import Badges, marked
from stacklint.report.drawings.board import Board
from stacklint.report.drawings.roof import draw_load, load_words, weight_in_kiln
from stacklint.report.drawings.shape import MM, Shape, rows_across, shape_of
from stacklint.show import percent, rounded, show
from stacklint.units import FLOW, SPEED

if TYPE_CHECKING:
    from stacklint.report.numbered import Numbered

_LETTERS = 1 / 38
_SLIT = 12.7
"""Half an inch: a narrower gap needs no baffle (as the air facts take it)."""
_ARROWS = 5
_BETWEEN = 5.0
"""Room between the two drawings, in sizes of the letters."""


class _Room(NamedTuple):
    """The kiln's inside and where the charge stands in it, mm: the plenum is on the near side, the fans' side."""

    length: float
    width: float
    height: float
    x: float
    z: float
    plenum: float | None
    beside: float
    """What is left over between the charge and the far wall; below 0 where it stands out."""

    @property
    def way_in(self) -> bool:
        """There is room on the fans' side for the air to come to the courses."""
        return self.z > _SLIT

    @property
    def way_out(self) -> bool:
        """There is room on the far side for the air to leave the courses."""
        return self.beside > _SLIT


def kiln_section(checked: CheckedStack, findings: Sequence[Numbered]) -> Element | None:
    """The kiln from above and, under that, in section with its fans' side at the left.

    ``None`` for a pile, and where the plan does not give the kiln's inside. Fans are drawn over the ceiling: where they
    stand differs from kiln to kiln.
    """
    shape = shape_of(checked)
    room = _room_of(shape) if shape is not None else None
    if shape is None or room is None:
        return None
    letters = max(room.length, shape.length) * _LETTERS
    board = Board(f"kiln-{checked.stack.where.line}", letters)
    above = _Plan(board, shape, room, room.height + letters * (_BETWEEN + 3.4))
    above.draw()
    section = _Section(board, shape, room)
    section.draw()
    _notes(board, shape, room)
    badges = Badges(board)
    for each in marked(findings, Part.COURSE):
        if each.mark == Mark(Part.COURSE):
            badges.put(each, room.z + shape.width / 2, shape.base + (shape.top - shape.base) / 2)
    badges.draw()
    title = f"{_name(shape)} with charge {checked.stack.name.text}, from above and in section"
    return board.finished(title, _described(shape, room), "kiln-section", shape.thinnest)


def _room_of(shape: Shape) -> _Room | None:
    inside, kiln = shape.kiln_inside, shape.facts.kiln
    if inside is None or kiln is None:
        return None
    length, width, height = inside
    plenum = kiln.plenum * MM if kiln.plenum is not None else None
    z = plenum if plenum is not None else max((width - shape.width) / 2, 0.0)
    return _Room(length, width, height, (length - shape.length) / 2, z, plenum, width - z - shape.width)


class _Plan:
    """From above: the charge along the kiln, the baffles at its ends, the air across it."""

    def __init__(self, board: Board, shape: Shape, room: _Room, low: float) -> None:
        self.board, self.shape, self.room, self.low = board, shape, room, low

    def draw(self) -> None:
        board, room, shape, letters = self.board, self.room, self.shape, self.board.letters
        low = self.low
        if room.plenum is not None:
            board.box("plenum", 0.0, low, room.length, room.plenum, fill=None, data_view="plan")
        z = low + room.z
        too_big = " too-big" if shape.length > room.length + 0.5 or room.z + shape.width > room.width + 0.5 else ""
        board.box(f"charge{too_big}", room.x, z, shape.length, shape.width, data_view="plan")
        board.box("wall", 0.0, low, room.length, room.width, data_view="plan")
        for x in shape.lines:
            board.line("extension", ((room.x + x, z), (room.x + x, z + shape.width)))
        self._end_baffles(z)
        for number in range(_ARROWS):
            x = room.x + shape.length * (number + 0.5) / _ARROWS
            start = z - min(letters * 0.9, max(room.z * 0.8, 0.0))
            out = min(letters * 0.9, room.beside * 0.8) if room.way_out else min(room.beside, 0.0) - letters * 0.3
            arrow(board, ((x, start), (x, z + shape.width + out)), data_way="through")
        self._dimensions()

    def _end_baffles(self, z: float) -> None:
        room, shape = self.room, self.shape
        closed = (shape.stack.baffles or Baffles()).ends
        for start, end, way in ((0.0, room.x, "left"), (room.x + shape.length, room.length, "right")):
            if end - start <= _SLIT:
                continue
            missing = "" if closed else " missing"
            self.board.line(
                f"baffle{missing}", ((start, z), (end, z)), data_kind="ends", data_side=way, data_closed=str(closed)
            )
            if not closed:
                x = (start + end) / 2
                start = z - min(self.board.letters * 0.6, max(room.z * 0.8, 0.0))
                arrow(
                    self.board,
                    ((x, start), (x, z + min(shape.width, room.width - room.z) - self.board.letters * 0.3)),
                    data_way="round the ends",
                )

    def _dimensions(self) -> None:
        board, room, letters, system = self.board, self.room, self.board.letters, self.shape.facts.system
        low = self.low
        y = low - letters * 1.6
        dimensions.across(
            board, 0.0, room.length, y, f"inside {dimensions.length(room.length, system)}", "inside-length"
        )
        x = room.length + letters * 1.2
        text = f"inside {dimensions.length(room.width, system)}"
        dimensions.upright(board, low, low + room.width, x, text, "inside-width")
        over = max(room.width, room.z + self.shape.width) + letters * 1.2
        board.words("From above", 0.0, low + over, anchor="start", class_="words caption")
        if room.plenum is not None:
            board.words("plenum, fans' side", letters * 0.6, low + room.plenum / 2 - letters * 0.35, anchor="start")


class _Section:
    """Across the boards: plenum, charge, baffles, and the air down the plenum, between the courses and back."""

    def __init__(self, board: Board, shape: Shape, room: _Room) -> None:
        self.board, self.shape, self.room = board, shape, room

    def draw(self) -> None:
        board, room, letters, shape = self.board, self.room, self.board.letters, self.shape
        system = shape.facts.system
        board.box("wall", 0.0, 0.0, room.width, room.height, data_view="section")
        if room.plenum is not None:
            board.box("plenum", 0.0, 0.0, room.plenum, room.height, fill=None, data_view="section")
        self._charge()
        self._baffles()
        self._air()
        y = -letters * 1.6
        dimensions.across(board, 0.0, room.width, y, f"inside {dimensions.length(room.width, system)}", "inside-width")
        far = room.z + shape.width
        for kind, start, end, told in (
            ("charge-width", room.z, far, f"charge {dimensions.length(shape.width, system)}"),
            ("plenum", 0.0, room.z, f"plenum {dimensions.length(room.z, system)}" if room.plenum is not None else ""),
            ("beside", far, room.width, f"beside it {dimensions.length(room.beside, system)}" if room.way_out else ""),
        ):
            if told:
                y -= letters * 1.6
                dimensions.across(board, start, end, y, told, kind)
        text = f"inside {dimensions.length(room.height, system)}"
        x = max(room.width, room.z + shape.width + letters) + letters
        dimensions.upright(board, 0.0, room.height, x, text, "inside-height")
        board.words("In section", 0.0, room.height + letters * 2.9, anchor="start", class_="words caption")

    def _charge(self) -> None:
        board, shape, room = self.board, self.shape, self.room
        if shape.base > 0:
            board.box("support", room.z, 0.0, shape.width, shape.base)
        rows = {id(run): rows_across(run, shape) for run in shape.laid.courses}
        for tier in shape.tiers:
            if shape.lines:
                long = shape.laid.sticker_length * MM
                z = room.z + (shape.width - long) / 2
                board.box(
                    "sticker seen-through", z, tier.sticker, long, tier.low - tier.sticker, data_course=tier.course
                )
            for placed in rows[id(tier.run)]:
                piece = placed.row.pieces[0]
                board.box(
                    "board", room.z + placed.z, tier.low, placed.width, piece.thickness * MM, data_course=tier.course
                )
        if shape.top > room.height or room.z + shape.width > room.width:
            board.box("too-big", room.z, 0.0, shape.width, shape.top, data_view="section")

        draw_load(board, shape, room.z, room.height - shape.top)

    def _baffles(self) -> None:
        board, shape, room, letters = self.board, self.shape, self.room, self.board.letters
        said = shape.stack.baffles or Baffles()
        for kind, closed, low, high in (
            ("top", said.top, shape.top, room.height),
            ("floor", said.floor, 0.0, shape.base),
        ):
            if high - low <= _SLIT:
                continue
            missing = "" if closed else " missing"
            board.line(f"baffle{missing}", ((room.z, low), (room.z, high)), data_kind=kind, data_closed=str(closed))
            if not closed:
                if kind == "top":
                    low += weight_in_kiln(board, shape, high - low)
                y = (low + high) / 2
                way = "over the top" if kind == "top" else "under it"
                far = room.z + shape.width
                out = min(letters, room.beside * 0.8) if room.way_out else min(room.beside, 0.0) - letters * 0.3
                arrow(board, ((room.z * 0.6, y), (far + out, y)), data_way=way)

    def _air(self) -> None:
        """Down the plenum, through the courses, up the far side and back; no way goes through a wall."""
        board, shape, room, letters = self.board, self.shape, self.room, self.board.letters
        duct = room.height + letters * 1.3
        down = max(room.z, letters) / 2 if room.way_in else 0.0
        far = room.z + shape.width
        up = far + room.beside / 2 if room.way_out else min(far, room.width) - letters * 0.3
        openings = [tier for tier in shape.tiers if tier.low > tier.sticker]
        every = -(-len(openings) // _ARROWS) if openings else 1
        chosen = openings[::every]
        lowest = max(chosen[0].sticker if chosen else shape.base, letters * 0.4)
        if room.way_in:
            arrow(board, ((down, duct), (down, lowest)), data_way="down the plenum")
            for tier in chosen:
                y = (tier.sticker + tier.low) / 2
                arrow(board, ((down, y), (up, y)), data_way="through")
        if room.way_in and room.way_out:
            arrow(board, ((up, lowest), (up, duct)), data_way="up the far side")
            arrow(board, ((up, duct), (down + letters, duct)), data_way="back to the fans")
        top = duct + letters * 1.1
        sides = ((0.0, room.height), (0.0, top), (room.width, top), (room.width, room.height))
        board.line("extension", sides)
        if shape.facts.fan_delivery is not None:
            fan(board, down + letters * 1.6, duct, letters * 0.8)
            board.words("fans", down + letters * 2.8, duct + letters * 0.25, anchor="start", size=dimensions.SMALL)


def _notes(board: Board, shape: Shape, room: _Room) -> None:
    """At the right of the section, what the drawing stands for in words."""
    facts, letters = shape.facts, board.letters
    x = max(room.width, room.z + shape.width) + letters * 2.5 + board.width_of("inside 18 ft 10 in")
    y = max(room.height, letters * 9) - letters * 0.6
    for line in _lines(shape, room):
        board.words(line, x, y, anchor="start")
        y -= letters * 1.5
    if facts.gaps:
        board.reach(x, y)


def _lines(shape: Shape, room: _Room) -> list[str]:
    facts, system = shape.facts, shape.facts.system
    kiln = facts.kiln
    lines = []
    if facts.fan_delivery is not None:
        lines.append(f"Fans move {show(facts.fan_delivery, FLOW, system)}")
    if facts.air_speed is not None:
        lines.append(f"{show(facts.air_speed, SPEED, system)} between the courses at most")
    if facts.bypass:
        lines.append(f"{percent(round(facts.bypass, 2))} of the air goes round the charge")
    lines += [f"{way}: {state}" for way, state in _baffle_states(shape, room)]
    lines += _walls_touched(shape, room)
    load = load_words(shape)
    if load:
        lines.append(f"On top: {load}")
    if room.plenum is None:
        lines.append("Width of the plenum not said")
    elif facts.plenum_ratio is not None:
        lines.append(f"Plenum {rounded(facts.plenum_ratio, 2)} times the openings' height")
    if kiln is not None and kiln.type is not None:
        lines.append(f"{kiln.type.capitalize()} kiln")
    return lines


def _baffle_states(shape: Shape, room: _Room) -> list[tuple[str, str]]:
    said = shape.stack.baffles or Baffles()
    ways = (
        ("Over the top", said.top, room.height - shape.top),
        ("At the ends", said.ends, room.length - shape.length),
        ("Under the charge", said.floor, shape.base),
    )
    states = []
    for words, closed, gap in ways:
        state = "no gap" if gap <= _SLIT else "closed by a baffle" if closed else "no baffle, air goes round"
        states.append((words, state))
    return states


def _walls_touched(shape: Shape, room: _Room) -> list[str]:
    """Where the charge leaves the air no way, in words."""
    if shape.width > room.width + 0.5:
        return ["The charge is wider than the kiln"]
    touched = []
    if not room.way_in:
        touched.append("The charge touches the near wall: the air has no way in")
    if room.beside < -0.5:
        touched.append("The charge and the plenum are wider than the kiln: the air has no way out")
    elif not room.way_out:
        touched.append("The charge touches the far wall: the air has no way out")
    return touched


def _name(shape: Shape) -> str:
    name = shape.facts.kiln.name if shape.facts.kiln is not None else None
    return f"{(name or 'kiln')[0].upper()}{(name or 'kiln')[1:]}"


def _described(shape: Shape, room: _Room) -> str:
    system = shape.facts.system
    size = " x ".join(dimensions.length(side, system) for side in (room.length, room.width, room.height))
    said = f"The inside is {size}, to scale. The fans send the air down the plenum on their side, between the courses"
    said += " across the boards, and up the other side back to the fans."
    touched = _walls_touched(shape, room)
    if touched:
        said = f"The inside is {size}, to scale. {'. '.join(touched)}."
    elif room.way_out:
        said += f" Beside the charge {dimensions.length(room.beside, system)} are left on the far side."
    states = "; ".join(f"{way.lower()}, {state}" for way, state in _baffle_states(shape, room))
    load = load_words(shape)
    return f"{said} Gaps: {states}.{f' On top: {load}.' if load else ''}"
