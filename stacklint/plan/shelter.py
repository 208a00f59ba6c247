"""Where a stack stands and what shelters it: place, cover, sides, ends, wind, top load, fans."""

from __future__ import annotations

from enum import Enum

from stacklint.plan.bounds import (
    AirFlow,
    Humidity,
    OutdoorTemperature,
    Pressure,
    SmallLength,
    WaterRate,
    Weight,
)
from stacklint.plan.node import Name, Node


class PlaceKind(Enum):
    OPEN_YARD = "open yard"
    OPEN_SHED = "open shed"
    CLOSED_BARN = "closed barn"
    GARAGE = "garage"
    CONTAINER = "container"
    BASEMENT = "basement"
    ATTIC = "attic"
    GREENHOUSE = "greenhouse"
    HEATED_SHOP = "heated shop"
    KILN = "kiln"


class PlaceStatement(Node):
    """A ``place`` statement. ``said`` is the everyday name where one was used (``carport``).

    ``in_sun`` and ``windy`` are ``None`` where nothing was said.
    """

    kind: PlaceKind
    said: str | None = None
    site: Name | None = None
    temperature: OutdoorTemperature | None = None
    humidity: Humidity | None = None
    in_sun: bool | None = None
    windy: bool | None = None
    floor_carries: Pressure | None = None


class CoverKind(Enum):
    NONE = "none"
    SHEET_METAL = "sheet metal"
    PLYWOOD = "plywood"
    BOARDS = "boards"
    ROOF_PANELS = "roof panels"
    TARP = "tarp"


class Fastening(Enum):
    TIED = "tied"
    UNTIED = "untied"
    WEIGHTED = "weighted"


class Cover(Node):
    """A ``cover`` statement. ``slope`` is rise over run; ``gap`` is the air between cover and top course."""

    kind: CoverKind
    overhang_ends: SmallLength | None = None
    overhang_sides: SmallLength | None = None
    gap: SmallLength | None = None
    slope: float | None = None
    fastening: Fastening | None = None
    weight: Weight | None = None
    hanging_down: bool = False


class SideKind(Enum):
    OPEN = "open"
    SHADE_CLOTH = "shade cloth"
    BOARDS = "boards"
    PLASTIC = "plastic"


class Sides(Node):
    """A ``sides`` statement; both long sides and both ends unless it says otherwise."""

    kind: SideKind
    on_one_side: bool = False
    on_ends: bool = False


class EndCoat(Enum):
    COATED = "coated"
    COATED_AT_SAW = "coated at the saw"
    COATED_LATE = "coated late"
    PAINTED = "painted"
    BARE = "bare"


class Ends(Node):
    coat: EndCoat


class WindAcross(Node):
    """A ``wind`` statement: does the wind cross the boards, or run along them?"""

    across: bool


class TopLoad(Node):
    """A ``top load`` statement: a pressure, a weight or straps; exactly one."""

    pressure: Pressure | None = None
    weight: Weight | None = None
    straps: bool = False


class Fan(Node):
    """A ``fan`` statement: ``count`` fans of ``each``, and water that a machine in the room removes."""

    count: int = 0
    each: AirFlow | None = None
    removes: WaterRate | None = None
