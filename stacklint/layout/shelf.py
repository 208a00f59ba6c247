"""The boards not yet laid, and rows made of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stacklint.layout.stock import Lot


@dataclass(frozen=True, slots=True)
class LotRows:
    """``count`` rows of one board of each of these lots, end to end."""

    lots: tuple[Lot, ...]
    count: int

    @property
    def length(self) -> float:
        return sum(lot.length for lot in self.lots)

    @property
    def width(self) -> float:
        return max(lot.width for lot in self.lots)


class Shelf:
    """So many boards of each lot are still to be laid."""

    def __init__(self, lots: Sequence[Lot]) -> None:
        self.lots = tuple(lots)
        self._left = [lot.count for lot in lots]
        self._place = {lot: place for place, lot in enumerate(lots)}

    def left(self, lot: Lot) -> int:
        return self._left[self._place[lot]]

    def remaining(self) -> tuple[tuple[Lot, int], ...]:
        """The lots of which boards are left, and how many."""
        return tuple((lot, left) for lot, left in zip(self.lots, self._left, strict=True) if left)

    def take(self, lots: tuple[Lot, ...], most: int) -> int:
        """Take up to ``most`` rows of one board of each of ``lots``; how many were taken."""
        rows = most
        for lot in set(lots):
            rows = min(rows, self.left(lot) // lots.count(lot))
        if rows > 0:
            for lot in lots:
                self._left[self._place[lot]] -= rows
        return max(0, rows)

    def rows(self, choices: Sequence[Sequence[Lot]], count: int) -> Iterator[LotRows]:
        """Take ``count`` rows, or as many as there are: for each board of a row, the first of its ``choices``
        that is left."""
        while count:
            lots = self._next(choices)
            if lots is None:
                return
            taken = self.take(lots, count)
            count -= taken
            yield LotRows(lots, taken)

    def _next(self, choices: Sequence[Sequence[Lot]]) -> tuple[Lot, ...] | None:
        lots: list[Lot] = []
        for slot in choices:
            found = next((lot for lot in slot if self.left(lot) > lots.count(lot)), None)
            if found is None:
                return None
            lots.append(found)
        return tuple(lots)
