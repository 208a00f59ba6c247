"""Lots: the groups of boards of a stack with their wood's figures, their moisture and their weight."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from stacklint.board_words import describe
from stacklint.drying import density, moisture
from stacklint.drying.moisture import Moisture
from stacklint.engineering import stiffness
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.boards import Boards
from stacklint.plan.node import Range
from stacklint.plan.stack import Stack
from stacklint.tables.wood import Wood
from stacklint.units import GRAVITY, ONE_INCH

TIMBER = 4.5 * ONE_INCH
"""Thickness from which a piece is a timber: nominal 5 in, which is sawn or dressed down to 4 1/2 in."""


class Lot(NamedTuple):
    """One ``boards`` statement, as laid out. Sizes are those listed, taken as green; ``volume`` is of all its boards.

    ``stiffness`` is the modulus of elasticity (Pa) at the present moisture and temperature.
    """

    boards: Boards
    wood: Wood
    moisture: Moisture
    words: str
    pieces: int
    volume: float
    board_feet: float
    longest: float
    width: float
    largest_volume: float
    stiffness: float
    beyond_data: bool

    @property
    def label(self) -> str:
        return self.boards.label.text

    @property
    def thickness(self) -> float:
        return self.boards.thickness.si

    def mass(self, moisture_content: float) -> float:
        """Of all its boards at a moisture content, kg."""
        return density.mass(self.wood, self.volume, moisture_content)

    @property
    def weight_density(self) -> float:
        """Weight of its wood now over its green volume, N/m3."""
        return density.mass(self.wood, 1.0, self.moisture.value) * GRAVITY

    @property
    def memory(self) -> bool:
        """True where the stiffness or the density rests on recalled or derived figures."""
        return self.wood.mechanics.memory or bool(self.wood.derived)


def lots_of(
    stack: Stack, arrangement: Arrangement, woods: Mapping[str, Wood], temperature: float | None
) -> dict[str, Lot]:
    """The lots of a stack, by label. ``woods`` has every wood that the stack names."""
    tallies = _tallies(arrangement)
    lots: dict[str, Lot] = {}
    for boards in stack.boards:
        tally = tallies.get(boards.label.text)
        if tally is None:
            continue
        wood = woods[boards.wood.text]
        wet = moisture.of(boards, wood)
        modulus, beyond = stiffness.modulus(wood, wet.value, temperature)
        lots[boards.label.text] = Lot(
            boards=boards,
            wood=wood,
            moisture=wet,
            words=describe(boards, wood.name),
            pieces=tally.pieces,
            volume=tally.volume,
            board_feet=tally.volume * max(1.0, ONE_INCH / boards.thickness.si),
            longest=tally.longest,
            width=tally.width,
            largest_volume=boards.thickness.si * _widest(boards, tally.width) * tally.longest,
            stiffness=modulus,
            beyond_data=beyond,
        )
    return lots


@dataclass(slots=True)
class _Tally:
    pieces: int = 0
    volume: float = 0.0
    longest: float = 0.0
    width: float = 0.0


def _tallies(arrangement: Arrangement) -> dict[str, _Tally]:
    tallies: dict[str, _Tally] = {}
    for run in arrangement.courses:
        for rows in run.rows:
            count = run.count * rows.count
            for piece in rows.row.pieces:
                tally = tallies.setdefault(piece.label, _Tally())
                each = piece.length * piece.width * piece.thickness
                tally.pieces += count
                tally.volume += count * each
                tally.longest = max(tally.longest, piece.length)
                tally.width = max(tally.width, piece.width)
    return tallies


def _widest(boards: Boards, laid: float) -> float:
    """Width of the widest board, m: the upper end of a range, else as laid."""
    return boards.width.high.si if isinstance(boards.width, Range) else laid


def prone_woods(woods: Iterable[tuple[Wood, bool | None]]) -> str | None:
    """Those woods that are prone to something, in words; ``None`` where none is but of some it is not known."""
    each = list(woods)
    prone = ", ".join(dict.fromkeys(wood.name for wood, is_prone in each if is_prone))
    return prone if prone or all(is_prone is not None for _, is_prone in each) else None
