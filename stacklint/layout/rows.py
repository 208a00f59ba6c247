"""Where the boards of one row stand: end to end from the left end of the stack, joints on sticker lines."""

from __future__ import annotations

from bisect import bisect_left
from itertools import permutations

from stacklint.layout.arrangement import FILL_TOLERANCE, Piece, Row
from stacklint.layout.stock import Lot
from stacklint.layout.supports import TOUCH

MOST_REORDERED = 4
"""Rows of more boards than this keep their order, longest first: 5 boards would have 120 orders to try."""


def fills(row_length: float, stack_length: float) -> bool:
    """Does a row of boards of this total length fill the stack's length?"""
    return abs(row_length - stack_length) <= FILL_TOLERANCE + TOUCH


def row_as_written(lots: tuple[Lot, ...], length: float, lines: tuple[float, ...]) -> Row:
    """The row with its boards in this order, from left to right."""
    slack = length - sum(lot.length for lot in lots)
    if len(lots) == 1 or slack <= TOUCH:
        return _placed(lots, (0.0,) * (len(lots) - 1))
    if slack <= FILL_TOLERANCE + TOUCH:
        return _placed(lots, _gaps(lots, slack, lines))
    return _placed(lots, (0.0,) * (len(lots) - 1))


def best_row(lots: tuple[Lot, ...], length: float, lines: tuple[float, ...]) -> Row:
    """The row with its boards in the order that brings the joints nearest to sticker lines.

    Among equals the longest boards stand to the left.
    """
    lots = tuple(sorted(lots, key=lambda lot: -lot.length))
    if len(lots) == 1:
        return _placed(lots, ())
    if length - sum(lot.length for lot in lots) > FILL_TOLERANCE + TOUCH:
        return _short_row(lots, length, lines)
    if len(lots) > MOST_REORDERED or not lines or lots[0].length == lots[-1].length:
        return row_as_written(lots, length, lines)
    best: Row | None = None
    least = 0.0
    for order in dict.fromkeys(permutations(lots)):
        row = row_as_written(order, length, lines)
        off = sum(abs(nearest(joint, lines) - joint) for joint in row.joints)
        if best is None or off < least - TOUCH:
            best, least = row, off
    assert best is not None
    return best


def nearest(x: float, lines: tuple[float, ...]) -> float:
    """The line nearest to ``x``; there is at least one."""
    place = bisect_left(lines, x)
    if place == 0:
        return lines[0]
    if place == len(lines):
        return lines[-1]
    below, above = lines[place - 1], lines[place]
    return below if x - below <= above - x else above


def _placed(lots: tuple[Lot, ...], gaps: tuple[float, ...]) -> Row:
    pieces = []
    start = 0.0
    for lot, gap in zip(lots, (*gaps, 0.0), strict=True):
        pieces.append(Piece(lot.label, start, lot.length, lot.width, lot.thickness))
        start += lot.length + gap
    return Row(tuple(pieces))


def _gaps(lots: tuple[Lot, ...], slack: float, lines: tuple[float, ...]) -> tuple[float, ...]:
    """The slack of a full row shared among its joints, so that both ends are flush with the stack's.

    From left to right, each joint takes what moves its middle onto a sticker line; the last takes the rest.
    """
    gaps = []
    end = 0.0
    for lot in lots[:-2]:
        end += lot.length
        gap = _gap_to_line(end, slack, lines)
        gaps.append(gap)
        slack -= gap
        end += gap
    return (*gaps, slack)


def _gap_to_line(end: float, most: float, lines: tuple[float, ...]) -> float:
    """The gap after a board's ``end`` that brings the joint nearer to a line; 0 where none does."""
    place = bisect_left(lines, end)
    if place == len(lines):
        return 0.0
    gap = min(most, 2 * (lines[place] - end))
    middle = end + gap / 2
    return gap if abs(nearest(middle, lines) - middle) < abs(nearest(end, lines) - end) else 0.0


def _short_row(lots: tuple[Lot, ...], length: float, lines: tuple[float, ...]) -> Row:
    """Boards that leave much of the stack's length free: the first flush with the left end of the stack, the
    last with the right end, those between begin on a sticker line where there is room for it."""
    room = length - sum(lot.length for lot in lots)
    gaps = []
    end = 0.0
    for lot in lots[:-2]:
        end += lot.length
        place = bisect_left(lines, end - TOUCH)
        gap = lines[place] - end if place < len(lines) and lines[place] - end <= room else 0.0
        gap = max(0.0, gap)
        gaps.append(gap)
        room -= gap
        end += gap
    return _placed(lots, (*gaps, room))
