"""The matching of lengths against counting out every way, and against a general-purpose integer optimiser.

The optimiser is HiGHS as called by ``scipy.optimize.milp``; it is given every way to fill a row.
"""

from __future__ import annotations

import random
from functools import cache

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from stacklint.layout.matching import match
from stacklint.layout.patterns import patterns

INCH = 2540
FOOT = 12 * INCH
TOLERANCE = 3 * INCH


def held(matching) -> tuple[int, int]:
    """Boards in the rows, and rows."""
    return sum(len(row.lengths) * row.count for row in matching.rows), sum(row.count for row in matching.rows)


def counted_out(counts: dict[int, int], low: int, high: int) -> tuple[int, int]:
    """The most boards in full rows, and the most rows that hold as many, by trying every way."""
    lengths = sorted(counts)
    ways = []

    def extend(place: int, total: int, taken: tuple[int, ...]) -> None:
        if place == len(lengths):
            if low <= total <= high:
                ways.append(taken)
            return
        for number in range(counts[lengths[place]] + 1):
            extend(place + 1, total + number * lengths[place], (*taken, number))

    extend(0, 0, ())

    @cache
    def best(left: tuple[int, ...], first: int) -> tuple[int, int]:
        found = (0, 0)
        for place in range(first, len(ways)):
            rest = tuple(have - used for have, used in zip(left, ways[place], strict=True))
            if min(rest) >= 0:
                boards, rows = best(rest, place)
                found = max(found, (boards + sum(ways[place]), rows + 1))
        return found

    return best(tuple(counts[length] for length in lengths), 0)


def optimised(counts: dict[int, int], low: int, high: int) -> tuple[int, int]:
    """The same by mixed-integer programming: first the boards, then the rows at that many boards."""
    found, complete = patterns(counts, low, high, 1_000_000)
    assert complete
    if not found:
        return 0, 0
    places = {length: place for place, length in enumerate(sorted(counts))}
    uses = numpy.zeros((len(places), len(found)))
    for column, pattern in enumerate(found):
        for length, number in pattern:
            uses[places[length], column] = number
    limits = numpy.array([counts[length] for length in places])
    boards = uses.sum(axis=0)
    whole = numpy.ones(len(found))
    exact = {"mip_rel_gap": 0.0}
    first = milp(-boards, constraints=LinearConstraint(uses, ub=limits), integrality=whole, options=exact)
    most = round(-first.fun)
    both = [LinearConstraint(uses, ub=limits), LinearConstraint(boards, lb=most)]
    second = milp(-whole, constraints=both, integrality=whole, options=exact)
    return most, round(-second.fun)


def obeys(matching, counts: dict[int, int], low: int, high: int) -> bool:
    used: dict[int, int] = {}
    for row in matching.rows:
        if not low <= sum(row.lengths) <= high:
            return False
        for length in row.lengths:
            used[length] = used.get(length, 0) + row.count
    return all(number <= counts[length] for length, number in used.items())


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(st.integers(3, 17), st.integers(1, 5), min_size=1, max_size=4), st.integers(8, 17))
def test_no_way_of_pairing_whole_feet_leaves_fewer_over(counts, length):
    in_units = {feet * FOOT: count for feet, count in counts.items()}
    low, high = length * FOOT - TOLERANCE, length * FOOT + TOLERANCE
    matching = match(in_units, low, high)
    assert matching.proven
    assert obeys(matching, in_units, low, high)
    assert held(matching) == counted_out(in_units, low, high)


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(st.integers(30, 170), st.integers(1, 4), min_size=1, max_size=5), st.integers(100, 200))
def test_no_way_of_pairing_whole_inches_leaves_fewer_over(counts, length):
    in_units = {inches * INCH: count for inches, count in counts.items()}
    low, high = length * INCH - TOLERANCE, length * INCH + TOLERANCE
    matching = match(in_units, low, high)
    assert matching.proven
    assert obeys(matching, in_units, low, high)
    assert held(matching) == counted_out(in_units, low, high)


def five_hundred(seed: int, sizes: range, unit: int) -> dict[int, int]:
    """500 boards of ten lengths drawn from ``sizes``."""
    draw = random.Random(seed)
    lengths = [size * unit for size in draw.sample(sizes, 10)]
    counts = dict.fromkeys(lengths, 0)
    for _ in range(500):
        counts[draw.choice(lengths)] += 1
    return counts


KINDS = {
    "whole feet": (range(2, 16), FOOT, 16 * FOOT),
    "half feet": (range(5, 30), FOOT // 2, 14 * FOOT),
    "inches": (range(36, 192), INCH, 16 * FOOT),
    "short inches": (range(24, 100), INCH, 16 * FOOT),
    "300 mm steps": (range(3, 16), 30_000, 480_000),
    "millimetres": (range(700, 3000), 100, 480_000),
}


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("kind", KINDS)
def test_500_boards_of_10_lengths_are_matched_as_the_optimiser_does(kind, seed):
    sizes, unit, length = KINDS[kind]
    counts = five_hundred(seed, sizes, unit)
    matching = match(counts, length - TOLERANCE, length + TOLERANCE)
    assert matching.proven
    assert obeys(matching, counts, length - TOLERANCE, length + TOLERANCE)
    assert held(matching) == optimised(counts, length - TOLERANCE, length + TOLERANCE)


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_many_more_are_matched_as_the_optimiser_does(kind):
    sizes, unit, length = KINDS[kind]
    for seed in range(100, 160):
        counts = five_hundred(seed, sizes, unit)
        matching = match(counts, length - TOLERANCE, length + TOLERANCE)
        assert matching.proven
        assert held(matching) == optimised(counts, length - TOLERANCE, length + TOLERANCE)


def test_taking_the_longest_boards_first_would_leave_boards_over():
    """The longest first, 7 ft + 6 ft, leaves 3 ft that nothing fills; 7 + 5 + 4 and 6 + 5 + 5 ft take every board."""
    counts = {7 * FOOT: 1, 6 * FOOT: 1, 5 * FOOT: 3, 4 * FOOT: 1}
    assert held(match(counts, 16 * FOOT - TOLERANCE, 16 * FOOT + TOLERANCE)) == (6, 2)


def test_a_search_cut_short_says_so():
    """A thousand short boards of forty odd lengths fill a row in more ways than are looked at."""
    draw = random.Random(1)
    counts = {draw.randrange(20 * INCH, 50 * INCH): 25 for _ in range(40)}
    length = 16 * FOOT
    matching = match(counts, length - TOLERANCE, length + TOLERANCE)
    assert obeys(matching, counts, length - TOLERANCE, length + TOLERANCE)
    boards, _ = held(matching)
    assert boards > 0.9 * sum(counts.values())
    assert matching.proven is (boards == sum(counts.values()))
