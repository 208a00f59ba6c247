"""All the ways in which boards of given lengths fill a row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice
from math import gcd

Pattern = tuple[tuple[int, int], ...]
"""Lengths and how many boards of each stand in the row, longest first."""


def patterns(counts: Mapping[int, int], low: int, high: int, most: int) -> tuple[list[Pattern], bool]:
    """The rows of boards that come to between ``low`` and ``high``, and whether these are all of them.

    ``counts`` gives the boards of each length; no row holds more. Lengths are whole numbers of one small
    unit. Rows of long boards come first. At most ``most`` are listed.
    """
    lengths = sorted((length for length, count in counts.items() if count and length <= high), reverse=True)
    if not lengths:
        return [], True
    unit = gcd(*lengths)
    scaled = [length // unit for length in lengths]
    least, greatest = -(-low // unit), high // unit
    if least > greatest:
        return [], True
    finder = _Finder(scaled, [counts[length] for length in lengths], least, greatest)
    found = [tuple((lengths[place], number) for place, number in row) for row in islice(finder.rows(), most + 1)]
    return found[:most], len(found) <= most


class _Finder:
    """Depth-first search that never takes a way without an end: sums in reach are kept as bits of whole numbers."""

    def __init__(self, lengths: list[int], counts: list[int], low: int, high: int) -> None:
        self._lengths = lengths
        self._counts = counts
        self._low = low
        self._high = high
        self._reach = self._sums_in_reach()

    def rows(self) -> Iterator[tuple[tuple[int, int], ...]]:
        return self._from(0, 0, ())

    def _sums_in_reach(self) -> list[int]:
        """For each place, the sums that the lengths from there on can make, as bits."""
        mask = (1 << (self._high + 1)) - 1
        reach = [1]
        for length, count in zip(reversed(self._lengths), reversed(self._counts), strict=True):
            sums = shifted = reach[-1]
            for _ in range(min(count, self._high // length)):
                shifted = (shifted << length) & mask
                sums |= shifted
            reach.append(sums)
        reach.reverse()
        return reach

    def _from(
        self, place: int, total: int, taken: tuple[tuple[int, int], ...]
    ) -> Iterator[tuple[tuple[int, int], ...]]:
        if place == len(self._lengths):
            yield taken
            return
        length = self._lengths[place]
        after = self._reach[place + 1]
        for number in range(min(self._counts[place], (self._high - total) // length), -1, -1):
            sum_now = total + number * length
            window = after >> max(0, self._low - sum_now)
            room = self._high - max(self._low, sum_now)
            if window & ((2 << room) - 1):
                yield from self._from(place + 1, sum_now, (*taken, (place, number)) if number else taken)
