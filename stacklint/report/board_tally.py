"""The boards of a stack by wood, thickness, width and length, with their volume, as a tally sheet lists them."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.board_words import size_words
from stacklint.checked import CheckedStack
from stacklint.layout.stock import lots_of
from stacklint.plan.boards import Boards
from stacklint.report.invented import ABOUT, Invented, invented
from stacklint.report.tape import board_length, tape
from stacklint.units import ONE_INCH, System


class TallyRow(NamedTuple):
    """So many boards alike. ``volume`` is in m3, in the trade's measure where the plan is in inches.

    ``about``: their number follows from what the plan leaves open; ``about_volume``: their volume does.
    """

    labels: str
    wood: str
    thickness: str
    width: str
    length: str
    pieces: int
    volume: float
    about: bool = False
    about_volume: bool = False


class BoardTally(NamedTuple):
    """The boards in the courses, row by row, and those that stand in no course.

    ``about``: how many there are in all follows from a volume.
    """

    rows: tuple[TallyRow, ...]
    left_over: tuple[TallyRow, ...]
    about: bool = False

    @property
    def pieces(self) -> int:
        return sum(row.pieces for row in self.rows)

    @property
    def about_volume(self) -> bool:
        return any(row.about_volume for row in self.rows)

    @property
    def volume(self) -> float:
        return sum(row.volume for row in self.rows)


class _Size(NamedTuple):
    """What makes boards alike; ``thick`` and ``long`` (m) put the rows in order."""

    wood: str
    thick: float
    thickness: str
    width: str
    long: float
    length: str
    made_up: Invented


class _Counted(NamedTuple):
    labels: frozenset[str]
    pieces: int
    volume: float


def board_tally(checked: CheckedStack) -> BoardTally | None:
    """The tally of a stack; ``None`` where it could not be laid out.

    Board feet are the trade's: boards under 1 in thick count as 1 in. Cubic metres are of the
    wood as it is.
    """
    laid, facts = checked.arrangement, checked.facts
    if laid is None or facts is None:
        return None
    stacked: dict[_Size, _Counted] = {}
    over: dict[_Size, _Counted] = {}
    said = {boards.label.text: boards for boards in checked.stack.boards}
    woods = {group.label: group.wood or "" for group in facts.groups}

    def add(into: dict[_Size, _Counted], label: str, length: float, width: float, count: int) -> None:
        boards = said[label]
        size = _size(boards, woods.get(label) or boards.wood.text, length, width, facts.system)
        each = boards.thickness.si * width * length
        if facts.system is System.INCH:
            each *= max(1.0, ONE_INCH / boards.thickness.si)
        had = into.get(size, _Counted(frozenset(), 0, 0.0))
        into[size] = _Counted(had.labels | {label}, had.pieces + count, had.volume + count * each)

    for run in laid.courses:
        for rows in run.rows:
            for piece in rows.row.pieces:
                add(stacked, piece.label, piece.length, piece.width, run.count * rows.count)
    for odd in laid.left_over:
        lots, _ = lots_of(said[odd.label])
        add(over, odd.label, odd.length, lots[0].width, odd.count)
    return BoardTally(_rows(stacked), _rows(over), any(invented(boards).volume for boards in said.values()))


def _size(boards: Boards, wood: str, length: float, width: float, system: System) -> _Size:
    wide = size_words(boards.width) if boards.width is not None else f"random width, about {tape(width, system)}"
    made_up = invented(boards)
    long = f"{ABOUT if made_up.length else ''}{board_length(length, boards.length, system)}"
    return _Size(wood, boards.thickness.si, size_words(boards.thickness), wide, round(length, 4), long, made_up)


def _rows(counted: dict[_Size, _Counted]) -> tuple[TallyRow, ...]:
    """By wood, the thick before the thin and the long before the short."""
    ordered = sorted(counted.items(), key=lambda each: (each[0].wood, -each[0].thick, each[0].width, -each[0].long))
    return tuple(
        TallyRow(
            labels=", ".join(sorted(found.labels)),
            wood=size.wood,
            thickness=size.thickness,
            width=size.width,
            length=size.length,
            pieces=found.pieces,
            volume=found.volume,
            about=size.made_up.pieces,
            about_volume=size.made_up.laying,
        )
        for size, found in ordered
    )
