"""How many of a stack's courses go into a kiln, and what keeps out the rest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from itertools import accumulate
from typing import NamedTuple

from stacklint.arranging.courses import Laid, laid
from stacklint.arranging.sizes import best_length, of_size, usual_lengths, whole_inches
from stacklint.drying import density, moisture
from stacklint.layout.arrangement import CourseRun, Piece
from stacklint.layout.stock import lots_of, system_of
from stacklint.layout.supports import TOUCH
from stacklint.plan.boards import Boards
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln
from stacklint.tables.wood import Wood
from stacklint.units import GRAVITY, ONE_INCH, Unit

_HAIR = 1e-9
_LONGEST = 20.0
"""No stack is tried longer, m, but for a longer board: kilns that are longer take several end to end (common practice,
no source)."""


class Limit(Enum):
    """What keeps a course out of a kiln; ``value`` is the kiln's word for it."""

    HEIGHT = "height"
    VOLUME = "volume"
    WEIGHT = "weight"


class Amounts(NamedTuple):
    """Of some courses: the volume as the kiln is rated (m3), the mass now (kg), and the height with stickers (m)."""

    volume: float
    mass: float
    height: float

    def __add__(self, other: object) -> Amounts:
        if not isinstance(other, Amounts):
            return NotImplemented
        return Amounts(self.volume + other.volume, self.mass + other.mass, self.height + other.height)


class KilnLoad(NamedTuple):
    """A stack as it would lie in a kiln.

    The lowest ``courses`` of ``laid`` go in and come to ``amounts``; ``stopped`` is what the kiln lacks for one more
    course, ``None`` where it lacks nothing that is known. ``more`` counts the further courses like
    the fullest that would still go in after all of the stack's.
    """

    kiln: Kiln
    laid: Laid
    courses: int
    amounts: Amounts
    stopped: Limit | None
    more: int

    @property
    def boards(self) -> Mapping[tuple[str, float], int]:
        """The boards that go in, by label and length."""
        return _counted(self.laid.arrangement.courses, self.courses)

    @property
    def out(self) -> Mapping[tuple[str, float], int]:
        """The boards that stay out, by label and length."""
        inside = self.boards
        every = _counted(self.laid.arrangement.courses, self.laid.arrangement.course_count)
        found = {key: count - inside.get(key, 0) for key, count in every.items()}
        for odd in self.laid.arrangement.left_over:
            key = (odd.label, round(odd.length, 5))
            found[key] = found.get(key, 0) + odd.count
        return {key: count for key, count in found.items() if count}


class TooLong(NamedTuple):
    """Boards longer than a kiln is inside (m)."""

    label: str
    length: float
    inside: float


MOST_MORE = 200
"""Courses more than this are not counted: where a kiln states no height, weight nor volume, there is no end."""


def load_kiln(stack: Stack, kiln: Kiln, woods: Mapping[str, Wood]) -> KilnLoad | TooLong:
    """The stack as a charge of the kiln: in the length that its boards fill best and the width beside the plenum.

    A kiln that does not say its inside takes the stack in the size that it has. What a pile stands on and what covers
    it stays in the yard; a load on top goes in with it.
    """
    charge = _as_charge(stack, kiln)
    inside = kiln.inside
    if inside is not None:
        label, longest = _longest(stack)
        if longest > inside.length.si + TOUCH:
            return TooLong(label, longest, inside.length.si)
        system = system_of(stack.boards)
        plenum = kiln.plenum.si if kiln.plenum is not None else 0.0
        width = whole_inches(max(inside.width.si - plenum, ONE_INCH), system)
        charge = of_size(charge, longest, width)
        lengths = tuple(usual_lengths(longest, min(inside.length.si, _LONGEST), system))
        charge = of_size(charge, best_length(charge, lengths), width)
    found = laid(charge, kiln)
    runs = found.arrangement.courses
    each = [amounts for run in runs for amounts in _of_courses(run, found, kiln, woods)]
    on_top = Amounts(0.0, _top_mass(found), _rest(found))
    sums = list(accumulate(each))
    courses = 0
    stopped = None
    for number, amounts in enumerate(sums, 1):
        stopped = _beyond(amounts + on_top, kiln)
        if stopped is not None:
            break
        courses = number
    amounts = sums[courses - 1] if courses else Amounts(0.0, 0.0, 0.0)
    more = 0
    another = each[fullest(runs).first - 1] if runs else amounts
    while courses == len(sums) and each and stopped is None and more < MOST_MORE:
        stopped = _beyond(_with(amounts, another, more + 1) + on_top, kiln)
        more += stopped is None
    return KilnLoad(kiln, found, courses, amounts + on_top, stopped, more)


def fullest(runs: tuple[CourseRun, ...]) -> CourseRun:
    """The courses with the most wood; of several alike the highest. There must be some."""
    return max(runs, key=lambda run: (round(_wood(run), 9), run.last))


def _wood(run: CourseRun) -> float:
    return sum(rows.count * piece.length * piece.width for rows in run.rows for piece in rows.row.pieces)


def _as_charge(stack: Stack, kiln: Kiln) -> Stack:
    """The stack in the kiln; a pile without what stays in the yard."""
    update: dict[str, object] = {"kind": StackKind.CHARGE, "kiln": kiln.name, "courses": ()}
    if stack.kind is StackKind.PILE:
        update |= dict.fromkeys(("place", "bearers", "clearance", "ground", "cover", "sides"))
    return stack.model_copy(update=update)


def _rest(found: Laid) -> float:
    """Floor to what the lowest stickers rest on, m."""
    stack, arrangement = found.stack, found.arrangement
    if stack.clearance is not None:
        return max(stack.clearance.height.si - arrangement.sticker_thickness, 0.0)
    return 0.0 if arrangement.whole_floor else arrangement.bearer_depth


def _longest(stack: Stack) -> tuple[str, float]:
    return max(
        ((boards.label.text, lot.length) for boards in stack.boards for lot in lots_of(boards)[0]),
        key=lambda each: each[1],
    )


def _of_courses(run: CourseRun, found: Laid, kiln: Kiln, woods: Mapping[str, Wood]) -> Iterator[Amounts]:
    groups = {boards.label.text: boards for boards in found.stack.boards}
    one = Amounts(0.0, 0.0, run.thickness + found.arrangement.sticker_thickness)
    for rows in run.rows:
        for piece in rows.row.pieces:
            boards = groups[piece.label]
            volume = rows.count * piece.length * piece.width * piece.thickness
            one += Amounts(volume * _measure(piece, kiln), volume * _density(boards, woods), 0.0)
    for _ in range(run.count):
        yield one


def _measure(piece: Piece, kiln: Kiln) -> float:
    """A rating in board feet counts boards under 1 in as 1 in; one in cubic metres or feet counts the wood."""
    in_board_feet = kiln.holds is not None and kiln.holds.unit is Unit.BOARD_FOOT
    return max(1.0, ONE_INCH / piece.thickness) if in_board_feet else 1.0


def _density(boards: Boards, woods: Mapping[str, Wood]) -> float:
    wood = woods[boards.wood.text]
    return density.mass(wood, 1.0, moisture.of(boards, wood).value)


def _top_mass(found: Laid) -> float:
    load = found.stack.top_load
    if load is None:
        return 0.0
    if load.weight is not None:
        return load.weight.si
    area = found.arrangement.length * found.arrangement.width
    return load.pressure.si * area / GRAVITY if load.pressure is not None else 0.0


def _beyond(amounts: Amounts, kiln: Kiln) -> Limit | None:
    if kiln.inside is not None and amounts.height > kiln.inside.height.si + _HAIR:
        return Limit.HEIGHT
    if kiln.holds is not None and amounts.volume > kiln.holds.si + _HAIR:
        return Limit.VOLUME
    if kiln.carries is not None and amounts.mass > kiln.carries.si + _HAIR:
        return Limit.WEIGHT
    return None


def _with(amounts: Amounts, course: Amounts, times: int) -> Amounts:
    for _ in range(times):
        amounts += course
    return amounts


def _counted(runs: tuple[CourseRun, ...], courses: int) -> dict[tuple[str, float], int]:
    found: dict[tuple[str, float], int] = {}
    for run in runs:
        times = min(run.last, courses) - run.first + 1
        for rows in run.rows if times > 0 else ():
            for piece in rows.row.pieces:
                key = (piece.label, round(piece.length, 5))
                found[key] = found.get(key, 0) + rows.count * times
    return found
