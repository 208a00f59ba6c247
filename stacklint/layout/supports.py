"""How one board is held: the sticker lines under it, its spans and its free ends."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import NamedTuple

from stacklint.layout.arrangement import Piece, StickerLine

TOUCH = 1e-6
"""Two places nearer to each other than this (in metres) are one."""


class PieceSupports(NamedTuple):
    """The supports of one board.

    ``lines`` are the indices of the sticker lines under it, from left to right; ``spans`` the distances
    between them. ``left_end`` and ``right_end`` are the distances from the board's ends to the middle of
    the nearest line under it: 0 where that line carries the very end, the board's whole length where
    no line is under it.
    """

    lines: tuple[int, ...]
    spans: tuple[float, ...]
    left_end: float
    right_end: float


def supports_of(piece: Piece, lines: Sequence[StickerLine], sticker_width: float) -> PieceSupports:
    """Which of ``lines`` (in order of ``x``) carry ``piece``.

    A line carries a board that reaches onto its stickers at all, so that a joint on the middle of a
    line is held on both sides.
    """
    reach = sticker_width / 2 + TOUCH
    first, last = piece.start - reach, piece.end + reach
    under = tuple(index for index, line in enumerate(lines) if first <= line.x <= last)
    if not under:
        return PieceSupports((), (), piece.length, piece.length)
    spans = tuple(lines[right].x - lines[left].x for left, right in itertools.pairwise(under))
    left_end = max(0.0, lines[under[0]].x - piece.start)
    right_end = max(0.0, piece.end - lines[under[-1]].x)
    return PieceSupports(under, spans, left_end, right_end)
