"""Which boards lie end to end: the rows that fill the stack's length and leave the fewest boards over, exactly.

Lengths are whole numbers of a small unit (:data:`UNIT`), so that sums of feet and of millimetres are exact.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stacklint.layout.patterns import Pattern, patterns
from stacklint.layout.program import Program, fill_up, maximise

UNIT = 1e-5
"""A hundredth of a millimetre: the inch and the millimetre are whole numbers of it."""

MOST_PATTERNS = 20_000
WORK = 4_000_000
"""Entries of tableaus that are worked over for one stack at the most: about a second."""


@dataclass(frozen=True, slots=True)
class Rows:
    """``count`` rows of boards of these lengths, longest first."""

    lengths: tuple[int, ...]
    count: int


@dataclass(frozen=True, slots=True)
class Matching:
    """The rows that fill. ``proven`` is false if the search was cut short, so that better rows may exist."""

    rows: tuple[Rows, ...]
    proven: bool


def match(counts: Mapping[int, int], low: int, high: int, work: int = WORK) -> Matching:
    """The rows between ``low`` and ``high`` long that take in the most boards and, among these, have the fewest
    joints. ``counts`` gives the number of boards of each length, ``work`` bounds the search."""
    found, complete = patterns(counts, low, high, MOST_PATTERNS)
    rows: list[Rows] = []
    proven = True
    parts = _apart(found)
    each = work // max(1, sum(len(part) > 1 for part in parts))
    for part in parts:
        amounts, part_proven = _single(part[0], counts) if len(part) == 1 else _most(part, counts, each)
        proven = proven and part_proven
        rows.extend(Rows(_lengths(pattern), amount) for pattern, amount in zip(part, amounts, strict=True) if amount)
    if not complete:
        proven = _takes_all(rows, counts, high)
    rows.sort(key=lambda row: row.lengths, reverse=True)
    return Matching(tuple(rows), proven)


def _lengths(pattern: Pattern) -> tuple[int, ...]:
    return tuple(length for length, number in pattern for _ in range(number))


def _apart(found: Sequence[Pattern]) -> list[list[Pattern]]:
    """The patterns in sets that share no length with one another, each a problem of its own."""
    sets: list[tuple[set[int], list[Pattern]]] = []
    for pattern in found:
        lengths = {length for length, _ in pattern}
        touching = [one for one in sets if not lengths.isdisjoint(one[0])]
        if len(touching) == 1:
            touching[0][0].update(lengths)
            touching[0][1].append(pattern)
            continue
        joined = [pattern]
        for one in touching:
            lengths |= one[0]
            joined = one[1] + joined
            sets.remove(one)
        sets.append((lengths, joined))
    return [members for _, members in sets]


def _single(pattern: Pattern, counts: Mapping[int, int]) -> tuple[Sequence[int], bool]:
    return (min(counts[length] // number for length, number in pattern),), True


def _most(part: Sequence[Pattern], counts: Mapping[int, int], work: int) -> tuple[Sequence[int], bool]:
    """Amounts of each pattern: the most boards first, then, with as many boards, the most rows.

    Boards less rows are the joints, so the most rows have the fewest joints.
    """
    places = {
        length: place for place, length in enumerate(sorted({length for pattern in part for length, _ in pattern}))
    }
    limits = [counts[length] for length in places]
    columns = [[(places[length], number) for length, number in pattern] for pattern in part]
    boards = [sum(number for _, number in pattern) for pattern in part]
    # One board more outweighs any number of rows. That a row counts at all also leads the search:
    # without it, ways to lay the same boards would look alike to the linear programs.
    step = sum(limits) + 1
    weights = [step * number + 1 for number in boards]
    start = [0] * len(part)
    fill_up(Program(columns, weights, limits), start, sorted(range(len(part)), key=boards.__getitem__))
    most = maximise(Program(columns, weights, limits), start, work, step)
    if most.utmost or len(set(boards)) == 1:
        return most.amounts, most.proven
    total = most.value // step
    with_total = [[*column, (len(limits), number)] for column, number in zip(columns, boards, strict=True)]
    fewest_joints = Program(with_total, weights, [*limits, total])
    return maximise(fewest_joints, most.amounts, work // 4).amounts, most.proven


def _takes_all(rows: Sequence[Rows], counts: Mapping[int, int], high: int) -> bool:
    """Do the rows hold every board that is not too long? Nothing can then be better, whatever was not listed."""
    fit = sum(count for length, count in counts.items() if length <= high)
    return sum(len(row.lengths) * row.count for row in rows) == fit
