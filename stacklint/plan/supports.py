"""What a stack rests on and what parts its courses: stickers, bearers and the ground."""

from __future__ import annotations

from enum import Enum

from stacklint.plan.bounds import (
    Position,
    Pressure,
    SectionSide,
    SmallLength,
    Spacing,
    StickerThickness,
    StickerWidth,
    Weight,
)
from stacklint.plan.node import Name, Node


class StickerState(Enum):
    DRY = "dry"
    GREEN = "green"
    WET = "wet"


class Stickers(Node):
    """A ``stickers`` statement. At most one of ``every``, ``count`` and ``at`` is given.

    ``none`` means boards piled solid. ``material`` is a wood or ``plywood``. ``from_ends`` is how far
    the first and last lines stand from the ends of the stack. Positions count from the stack's left end.
    """

    none: bool = False
    thickness: StickerThickness | None = None
    width: StickerWidth | None = None
    every: Spacing | None = None
    count: int | None = None
    at: tuple[Position, ...] = ()
    from_ends: SmallLength | None = None
    state: StickerState | None = None
    plywood: bool = False
    wood: Name | None = None
    grooved: bool = False
    out_of_line: bool = False
    length: Spacing | None = None


class BearerKind(Enum):
    TIMBER = "timber"
    STEEL = "steel"
    PALLETS = "pallets"
    NONE = "none"


class Pads(Node):
    """What stands under each bearer: pads or blocks, ``length`` x ``width`` (``height`` for blocks).

    The words are kept apart because hollow blocks have a published load of their own.
    """

    blocks: bool = False
    sides: tuple[SectionSide, ...] = ()


class Bearers(Node):
    """A ``bearers`` statement. Bearers lie across the stack, under the boards.

    ``sides`` is the section, width then depth as written (``4 in x 6 in``: the second figure stands
    upright). At most one of ``every``, ``count`` and ``at`` is given.
    """

    kind: BearerKind = BearerKind.TIMBER
    sides: tuple[SectionSide, ...] = ()
    wood: Name | None = None
    every: Spacing | None = None
    count: int | None = None
    at: tuple[Position, ...] = ()
    from_ends: SmallLength | None = None
    pads: Pads | None = None
    pads_count: int | None = None
    carries: Weight | None = None


class Soil(Enum):
    GRAVEL = "gravel"
    CONCRETE = "concrete"
    GRASS = "grass"
    BARE_SOIL = "bare soil"
    CLAY = "clay"
    SOFT_CLAY = "soft clay"
    SAND = "sand"


class Flatness(Enum):
    """Whether the tops of the foundation lie in one plane."""

    FLAT = "flat"
    TWISTED = "twisted"
    UNEVEN = "uneven"
    SLOPED = "sloped"


class Wetness(Enum):
    DAMP = "damp"
    DRAINED = "drained"


class Ground(Node):
    """A ``ground`` statement. ``uneven_by`` is how far out of one plane it is said to be."""

    soil: Soil | None = None
    flatness: Flatness | None = None
    uneven_by: SmallLength | None = None
    bears: Pressure | None = None
    wetness: Wetness | None = None
