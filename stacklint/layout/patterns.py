"""All the ways in which boards of given lengths fill a row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice, takewhile
from math import gcd

FINEST = 16_384
"""The search tells so many sums along a row apart."""

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
    found = list(islice(finder.rows(), most + 1))
    complete = len(found) <= most
    if not complete:
        # A fair share for each length as the longest of its rows, so that short boards come up too.
        share = most // len(lengths)
        found = [row for place in range(len(lengths)) for row in islice(finder.rows_headed_by(place), share)]
    return [tuple((lengths[place], number) for place, number in row) for row in found], complete


class _Finder:
    """Depth-first search that turns back from ways without an end.

    The sums in reach are kept as bits of whole numbers, in steps of ``grain``. With a grain of one the search
    never goes astray; a coarser one, for odd lengths, takes each length as its two neighbouring steps
    and so may go astray, but misses nothing.
    """

    def __init__(self, lengths: list[int], counts: list[int], low: int, high: int) -> None:
        self._lengths = lengths
        self._counts = counts
        self._low = low
        self._high = high
        self._grain = -(-high // FINEST)
        self._reach = self._sums_in_reach()

    def rows(self) -> Iterator[tuple[tuple[int, int], ...]]:
        return self._from(0, 0, ())

    def rows_headed_by(self, place: int) -> Iterator[tuple[tuple[int, int], ...]]:
        """The rows whose longest boards are of one length."""
        # The search takes the most of each length first, so rows without this one come after all that have it.
        return takewhile(lambda row: row[0][0] == place, self._from(place, 0, ()))

    def _sums_in_reach(self) -> list[int]:
        """For each place, the sums that the lengths from there on can make, as bits."""
        grain = self._grain
        mask = (1 << (self._high // grain + 1)) - 1
        reach = [1]
        for length, count in zip(reversed(self._lengths), reversed(self._counts), strict=True):
            below, above = length // grain, -(-length // grain)
            sums = shifted = reach[-1]
            for _ in range(min(count, self._high // length)):
                shifted = ((shifted << below) | (shifted << above)) & mask
                sums |= shifted
            reach.append(sums)
        reach.reverse()
        return reach

    def _from(
        self, place: int, total: int, taken: tuple[tuple[int, int], ...]
    ) -> Iterator[tuple[tuple[int, int], ...]]:
        if place == len(self._lengths):
            if self._low <= total:
                yield taken
            return
        length, grain = self._lengths[place], self._grain
        after = self._reach[place + 1]
        for number in range(min(self._counts[place], (self._high - total) // length), -1, -1):
            sum_now = total + number * length
            first = max(0, self._low - sum_now) // grain
            last = (self._high - sum_now) // grain
            if (after >> first) & ((2 << (last - first)) - 1):
                yield from self._from(place + 1, sum_now, (*taken, (place, number)) if number else taken)
