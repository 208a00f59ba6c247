"""Arrows of moving air, and the sign for a fan."""

from __future__ import annotations

import math
from collections.abc import Sequence

from stacklint.report.drawings.board import Board, Point
from stacklint.report.svg import Attribute, element


def arrow(board: Board, points: Sequence[Point], **more: Attribute) -> None:
    """The way of the air through points, with a head at the last one."""
    way = more.get("data_way")
    class_ = "air" if way in (None, "through") or str(way).startswith(("down", "up", "back")) else "air round"
    board.line(class_, points, **more)
    (x0, y0), (x, y) = points[-2], points[-1]
    size, angle = board.letters * 0.55, math.atan2(y - y0, x - x0)
    wings = [
        (x - size * math.cos(angle + turn), y - size * math.sin(angle + turn)) for turn in (math.pi / 7, -math.pi / 7)
    ]
    board.area("arrowhead", ((x, y), *wings))


def fan(board: Board, x: float, y: float, radius: float) -> None:
    """A ring with four blades."""
    board.reach(x - radius, y - radius)
    board.reach(x + radius, y + radius)
    board.add(element("circle", class_="fan", cx=x, cy=-y, r=radius))
    for quarter in range(4):
        angle = math.pi / 2 * quarter
        tip = (x + radius * 0.85 * math.cos(angle), y + radius * 0.85 * math.sin(angle))
        side = (x + radius * 0.75 * math.cos(angle + 0.7), y + radius * 0.75 * math.sin(angle + 0.7))
        board.area("blade", ((x, y), tip, side))
