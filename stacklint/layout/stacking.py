"""From a stack as it is written to the arrangement of its boards, stickers and bearers."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from stacklint.faults import Assumption, Fault, FaultKind, Measure
from stacklint.layout.arrangement import Arrangement, Odd, RowPattern
from stacklint.layout.footing import Footing, carried
from stacklint.layout.laying import CourseLayer
from stacklint.layout.matching import WORK
from stacklint.layout.pairing import Paired, best_matching, pair
from stacklint.layout.rows import best_row, fills
from stacklint.layout.shelf import LotRows, Shelf
from stacklint.layout.stock import Lot, lots_of, system_of
from stacklint.layout.supports import TOUCH
from stacklint.layout.written import LotsByLabel, Room, WrittenCheck, lay_written, lots_by_label, written_size
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln
from stacklint.show import show
from stacklint.units import LENGTH, NUMBER, ONE_FOOT, System

MOST_BOARDS = 100_000
"""More boards than this are a slip of the pen: some 50 truckloads in one stack."""

USUAL_WIDTH_INCH = 4 * ONE_FOOT
USUAL_WIDTH_METRIC = 1.2
"""Width of a stack whose plan gives no size (common practice, no source)."""


class _Size(NamedTuple):
    length: float
    width: float


def arrange(stack: Stack, kiln: Kiln | None = None, work: int = WORK) -> Arrangement:
    """Lay out a stack: which board stands where, on which sticker lines, over which bearers.

    Courses that the plan writes come first, as written. The boards left are laid over them, one thickness a
    course: the thickest lowest, rows that fill the stack's length below, and on top the boards that pair
    with no others. Rows are matched so that the fewest boards stand in rows that do not fill, exactly. A last
    course of a thickness that is not full is made up with such short rows of the same thickness.
    ``matching`` is the best matching of all the boards, also where written courses lay them otherwise.

    Without a size, the stack is as long as its longest board or written row and 4 ft (1.2 m) wide, or as
    wide as its widest written course; never wider than the room of ``kiln`` beside its plenum.
    Whatever is assumed or cannot be is said in ``assumptions`` and ``faults``; nothing is raised. ``work`` bounds the
    search for the best rows (see :mod:`stacklint.layout.matching`); where it ends the search, that is said too.
    """
    system = system_of(stack.boards)
    assumptions: list[Assumption] = []
    faults: list[Fault] = []
    lots = _lots(stack, assumptions, faults)
    by_label = lots_by_label(lots)
    size = _size(stack, kiln, by_label, system, assumptions)
    footing = Footing(stack, size.length, size.width, system, assumptions, faults)
    stickers = footing.stickers()
    bearers = footing.bearers(stickers)
    gap = _apart(stack)
    flue = flue_of(stack, gap)
    room = Room(size.length, max(0.0, size.width - flue), gap, stickers.places, system)
    if stack.courses:
        whole, complete = "boards" not in stack.faulty, "course" not in stack.faulty
        widest = size.width if stack.size is not None else math.inf
        faults.extend(WrittenCheck(stack.courses, by_label, room, widest, flue, whole, complete).faults())
    boards = _Boards(stack, lots, by_label, room, work)
    boards.lay(faults)
    if not boards.proven:
        text = "The rows are the best that were found; the lengths are so many that better ones may exist."
        assumptions.append(Assumption(stack.name.where, text, "course"))
    return Arrangement(
        length=size.length,
        width=size.width,
        gap=gap,
        courses=boards.layer.courses(),
        sticker_lines=carried(stickers, bearers),
        sticker_thickness=stickers.thickness,
        sticker_thickness_low=stickers.thickness_low,
        sticker_width=stickers.width,
        sticker_length=stickers.length,
        bearers=bearers.places,
        bearer_width=bearers.width,
        bearer_depth=bearers.depth,
        whole_floor=bearers.whole_floor,
        matching=boards.matching,
        unpaired=_unpaired(boards.laid, size.length),
        left_over=boards.left_over,
        assumptions=tuple(assumptions),
        faults=tuple(fault._replace(stack=stack.name.text) for fault in faults),
    )


def flue_of(stack: Stack, gap: float) -> float:
    """What a flue adds to the gap between the two rows beside it: it is as wide as is said from board to board."""
    said = stack.size.flue if stack.size is not None else None
    return max(said.si - gap, 0.0) if said is not None else 0.0


class _Boards:
    """Lays the boards of one stack."""

    def __init__(
        self, stack: Stack, lots: Sequence[Lot], by_label: LotsByLabel, room: Room, work: int
    ) -> None:
        self._work = work
        self._stack = stack
        self._lots = lots
        self._by_label = by_label
        self._room = room
        self.layer = CourseLayer(room.width, room.gap)
        self.laid: list[LotRows] = []
        self.left_over: tuple[Odd, ...] = ()
        self.matching: tuple[RowPattern, ...] = ()
        self.proven = True

    def lay(self, faults: list[Fault]) -> None:
        shelf = Shelf(self._lots)
        if self._stack.courses:
            self.laid.extend(lay_written(self._stack.courses, self._by_label, shelf, self._room, self.layer))
        self._leave_over(shelf, faults)
        paired = self._pair(shelf)
        self._lay_paired(paired)
        if self._stack.courses and any(rows.count for rows in self.laid):
            paired = self._pair(Shelf(self._lots))
        self.matching = best_matching(paired)

    def _pair(self, shelf: Shelf) -> list[Paired]:
        thicknesses = sorted({lot.thickness for lot, _ in shelf.remaining()}, reverse=True)
        each = self._work // max(1, len(thicknesses))
        paired = [pair(shelf, thickness, self._room.length, each) for thickness in thicknesses]
        self.proven = self.proven and all(one.proven for one in paired)
        return paired

    def _leave_over(self, shelf: Shelf, faults: list[Fault]) -> None:
        """Boards wider than the stack stand nowhere."""
        odd = []
        room = self._room
        for lot, left in shelf.remaining():
            if lot.width <= room.width + TOUCH:
                continue
            shelf.take((lot,), left)
            odd.append(Odd(lot.label, lot.length, left))
            wide, stack = show(lot.width, LENGTH, room.system), show(room.width, LENGTH, room.system)
            text = f"Boards {lot.label} are {wide} wide, but the stack has room for {stack}."
            fault = Fault(
                FaultKind.BOARDS_DO_NOT_FIT,
                lot.where,
                text,
                "Make the stack wider, or stack these boards elsewhere.",
                found=Measure(lot.width, LENGTH),
                limit=Measure(room.width, LENGTH),
            )
            if fault not in faults:
                faults.append(fault)
        self.left_over = tuple(odd)

    def _lay_paired(self, paired: Sequence[Paired]) -> None:
        self.layer.close()
        waiting: list[LotRows] = []
        for one in paired:
            self._lay_rows((*one.overlong, *one.full))
            waiting.extend(self._made_up(one.short))
        self._lay_rows(waiting)

    def _made_up(self, short: Iterable[LotRows]) -> list[LotRows]:
        """Make up the course that is being laid with short rows. Gives those for which it has no room."""
        waiting = []
        for rows in short:
            row = best_row(rows.lots, self._room.length, self._room.lines)
            beside = min(rows.count, self.layer.room_beside(row))
            if beside:
                self._lay_rows((LotRows(rows.lots, beside),))
            if rows.count > beside:
                waiting.append(LotRows(rows.lots, rows.count - beside))
        return waiting

    def _lay_rows(self, laid: Iterable[LotRows]) -> None:
        for rows in laid:
            row = best_row(rows.lots, self._room.length, self._room.lines)
            self.layer.lay(row, rows.count, rows.lots[0].where)
            self.laid.append(rows)


def _lots(stack: Stack, assumptions: list[Assumption], faults: list[Fault]) -> tuple[Lot, ...]:
    """All lots of the stack; none where they come to more boards than a stack holds."""
    lots: list[Lot] = []
    for group in stack.boards:
        of_group, assumed = lots_of(group)
        lots.extend(of_group)
        assumptions.extend(assumed)
    total = sum(lot.count for lot in lots)
    if total <= MOST_BOARDS:
        return tuple(lots)
    faults.append(
        Fault(
            FaultKind.VALUE_OUT_OF_RANGE,
            max(lots, key=lambda lot: lot.count).where,
            f"The stack lists {total:,} boards; no stack of more than {MOST_BOARDS:,} is laid out.",
            "Divide the boards among several stacks, or mend the number.",
            found=Measure(total, NUMBER),
            limit=Measure(MOST_BOARDS, NUMBER),
        )
    )
    return ()


def _apart(stack: Stack) -> float:
    return stack.size.boards_apart.si if stack.size is not None and stack.size.boards_apart is not None else 0.0


def _size(stack: Stack, kiln: Kiln | None, lots: LotsByLabel, system: System, assumptions: list[Assumption]) -> _Size:
    if stack.size is not None:
        return _Size(stack.size.length.si, stack.size.width.si)
    row, course = written_size(stack.courses, lots, 0.0)
    longest = max((lot.length for group in lots.values() for lot in group), default=0.0)
    length = max(row, longest)
    width = course or (USUAL_WIDTH_INCH if system is System.INCH else USUAL_WIDTH_METRIC)
    if not course and stack.kind is StackKind.CHARGE and kiln is not None and kiln.inside is not None:
        plenum = kiln.plenum.si if kiln.plenum is not None else 0.0
        beside = kiln.inside.width.si - plenum
        width = min(width, beside) if beside > 0 else width
    if lots and "stack" not in stack.faulty:
        long, wide = show(length, LENGTH, system), show(width, LENGTH, system)
        what = "row" if row > longest else "board"
        text = f"A stack {long} long, as its longest {what}, and {wide} wide is assumed: the plan gives no size."
        assumptions.append(Assumption(stack.name.where, text, "stack"))
    return _Size(length, width)


def _unpaired(laid: Iterable[LotRows], length: float) -> tuple[Odd, ...]:
    """The boards in rows that do not fill, group by group, longest first."""
    found: dict[tuple[str, float], int] = {}
    for rows in laid:
        if fills(rows.length, length):
            continue
        for lot in rows.lots:
            found[lot.label, lot.length] = found.get((lot.label, lot.length), 0) + rows.count
    ordered = sorted(found.items(), key=lambda item: (item[0][0], -item[0][1]))
    return tuple(Odd(label, board, count) for (label, board), count in ordered)
