"""Driving rain: how far down a stack's side it reaches under the cover's overhang.

Rain falls at a slope of 0.222 U (across over down) in a wind of U m/s: R = 0.222 U Rh cos(theta), Blocken and
Carmeliet 2004, as used in https://github.com/ShotaGhoona/thermal-moisture-analysis-platform; ISO 15927-3 has 2/9
(memory). The air cushion that lifts drops over a wall is left out, so the reach is on the cautious side.
"""

from __future__ import annotations

from collections.abc import Iterable

from stacklint.plan.shelter import SideKind

SLOPE_IN_WIND = 0.222
"""Across over down of falling rain, for each m/s of wind."""
STRONG = 4.5
"""Wind, m/s, in which rain falls at 45 degrees: the case a side is judged by. A judgement."""
MILD = 2.25
"""Wind, m/s, in which rain falls at 1 in 2, as a roof drainage rule has it at peak rainfall:
https://www.taylorfrancis.com/books/e/9780203481172/chapters/10.4324/9780203481172-67."""

_WATERTIGHT = frozenset({SideKind.BOARDS, SideKind.PLASTIC})


def dry_depth(overhang: float, wind: float = STRONG) -> float:
    """How far below the cover an overhang keeps a side dry, m: ``overhang / (0.222 wind)``."""
    return overhang / (SLOPE_IN_WIND * wind)


def reached(overhang: float, height: float, gap: float = 0.0, wind: float = STRONG) -> float:
    """Share of a side that rain reaches below the overhang alone, 0 to 1.

    Args:
        overhang: of the cover beyond the boards, m.
        height: of the boards on that side, from the top course down, m; greater than 0.
        gap: air between the cover and the top course, m: rain comes in through it too.
        wind: m/s.
    """
    return min(max((gap + height - dry_depth(overhang, wind)) / height, 0.0), 1.0)


def wetted(share: float, sides: Iterable[SideKind]) -> float:
    """What is left of a reached share behind what hangs or stands on that side.

    Boards and plastic keep rain out. Shade cloth is given no credit: no published figure of the rain that it lets
    through was found, and woven screens break drops up more than they stop them.
    """
    return 0.0 if any(side in _WATERTIGHT for side in sides) else share


def overhang_needed(height: float, share: float = 0.5, gap: float = 0.0, wind: float = STRONG) -> float:
    """The overhang (m) at which rain reaches no more than ``share`` of a side ``height`` high."""
    return (gap + height * (1 - share)) * SLOPE_IN_WIND * wind
