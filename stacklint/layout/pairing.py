"""From lots to rows: the best matching by length, dealt out to the groups of boards."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from typing import NamedTuple

from stacklint.layout.arrangement import FILL_TOLERANCE, RowPattern
from stacklint.layout.matching import UNIT, WORK, match
from stacklint.layout.shelf import LotRows, Shelf
from stacklint.layout.stock import Lot


class Paired(NamedTuple):
    """The rows of the boards of one thickness.

    ``overlong`` rows are single boards longer than the stack, ``full`` rows fill it, ``short`` rows do not.
    ``proven`` is false if the matching was cut short.
    """

    thickness: float
    overlong: tuple[LotRows, ...]
    full: tuple[LotRows, ...]
    short: tuple[LotRows, ...]
    proven: bool


def pair(shelf: Shelf, thickness: float, length: float, work: int = WORK) -> Paired:
    """Take all boards of a thickness off the shelf, in the rows that leave the fewest unpaired.

    Widths and woods may mix in a row. Among rows alike by length, those of one group come first, then
    those of one width, so that few rows do.
    """
    by_length: dict[int, list[Lot]] = {}
    counts: dict[int, int] = {}
    for lot, left in shelf.remaining():
        if lot.thickness == thickness:
            size = round(lot.length / UNIT)
            by_length.setdefault(size, []).append(lot)
            counts[size] = counts.get(size, 0) + left
    low, high = round((length - FILL_TOLERANCE) / UNIT), round((length + FILL_TOLERANCE) / UNIT)
    matching = match(counts, low, high, work)
    full = tuple(rows for pattern in matching.rows for rows in _dealt(shelf, by_length, pattern.lengths, pattern.count))
    overlong = tuple(
        LotRows((lot,), taken)
        for size in sorted(by_length, reverse=True)
        if size > high
        for lot in by_length[size]
        if (taken := shelf.take((lot,), lot.count))
    )
    short = tuple(_packed(shelf, by_length, high))
    return Paired(thickness, overlong, full, short, matching.proven)


def best_matching(paired: Sequence[Paired]) -> tuple[RowPattern, ...]:
    """The rows by their lengths alone, those that fill first."""
    found: dict[tuple[bool, tuple[float, ...]], int] = {}
    for one in paired:
        for fills, kinds in ((True, one.full), (False, one.overlong), (False, one.short)):
            for rows in kinds:
                lengths = tuple(sorted((lot.length for lot in rows.lots), reverse=True))
                found[fills, lengths] = found.get((fills, lengths), 0) + rows.count
    ordered = sorted(found.items(), key=lambda item: (not item[0][0], len(item[0][1]), tuple(-x for x in item[0][1])))
    return tuple(RowPattern(count, lengths, fills) for (fills, lengths), count in ordered)


def _dealt(
    shelf: Shelf, by_length: Mapping[int, Sequence[Lot]], lengths: Sequence[int], count: int
) -> Iterator[LotRows]:
    """``count`` rows of these lengths: of one group as far as they go, then of one width, then of any."""
    if len(lengths) > 1 and any(len(by_length[size]) > 1 for size in lengths):
        for same in (_label_and_width, _width):
            for kind in dict.fromkeys(same(lot) for lot in by_length[lengths[0]]):
                choices = [[lot for lot in by_length[size] if same(lot) == kind] for size in lengths]
                for rows in shelf.rows(choices, count):
                    count -= rows.count
                    yield rows
    yield from shelf.rows([by_length[size] for size in lengths], count)


def _label_and_width(lot: Lot) -> Hashable:
    return lot.label, lot.width


def _width(lot: Lot) -> Hashable:
    return lot.width


def _packed(shelf: Shelf, by_length: Mapping[int, Sequence[Lot]], high: int) -> Iterator[LotRows]:
    """The boards left over in rows that do not fill: each begins with the longest board and goes on with the
    longest that still goes in."""
    sizes = sorted(by_length, reverse=True)
    while True:
        left = {size: sum(shelf.left(lot) for lot in by_length[size]) for size in sizes}
        lengths: list[int] = []
        room = high
        for size in sizes:
            number = min(left[size], room // size)
            lengths.extend([size] * number)
            room -= size * number
        if not lengths:
            return
        alike = min(left[size] // lengths.count(size) for size in set(lengths))
        yield from shelf.rows([by_length[size] for size in lengths], alike)
