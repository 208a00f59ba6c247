"""What stacks share: sites, kilns, woods that a plan describes itself; and the plan that holds them all."""

from __future__ import annotations

from enum import Enum

from stacklint.plan.bounds import (
    AirFlow,
    Area,
    Humidity,
    KilnTemperature,
    MoistureContent,
    OutdoorTemperature,
    RoomLength,
    Share,
    SmallLength,
    Spacing,
    Strength,
    Volume,
    WaterRate,
    Weight,
)
from stacklint.plan.node import Name, Node
from stacklint.plan.stack import Stack


class Month(Node):
    """A ``month`` statement: mean temperature and relative humidity. ``number`` is 1 for January."""

    number: int
    temperature: OutdoorTemperature
    humidity: Humidity


class StockKind(Enum):
    STICKERS = "stickers"
    BEARERS = "bearers"


class Stock(Node):
    """A ``stock`` statement: so many pieces lie ready, of a length; of any length where none is said."""

    kind: StockKind
    count: int
    length: Spacing | None = None


class Spots(Node):
    """A ``spots`` statement: so many stacks have room at a time."""

    count: int


class Site(Node):
    """A yard. ``holds`` is how much wood has room there at a time."""

    name: Name
    near: Name | None = None
    months: tuple[Month, ...] = ()
    spots: Spots | None = None
    holds: Volume | None = None
    stock: tuple[Stock, ...] = ()
    faulty: frozenset[str] = frozenset()


class KilnType(Enum):
    DEHUMIDIFICATION = "dehumidification"
    VENTED = "vented"
    SOLAR = "solar"


class Inside(Node):
    """The clear room inside a kiln: length (along the boards) x width x height."""

    length: RoomLength
    width: RoomLength
    height: RoomLength


class Kiln(Node):
    name: Name
    type: KilnType | None = None
    inside: Inside | None = None
    holds: Volume | None = None
    carries: Weight | None = None
    heats_to: KilnTemperature | None = None
    removes: WaterRate | None = None
    fan_count: int | None = None
    fan_each: AirFlow | None = None
    plenum: SmallLength | None = None
    collector: Area | None = None
    faulty: frozenset[str] = frozenset()


class Kind(Enum):
    HARDWOOD = "hardwood"
    SOFTWOOD = "softwood"


class WoodStatement(Node):
    """A ``wood`` block: the plan's own figures for a wood that the table lacks, or knows otherwise.

    ``like`` names a wood of the table that lends whatever is not given.
    """

    name: Name
    like: Name | None = None
    kind: Kind | None = None
    specific_gravity: float | None = None
    stiffness_green: Strength | None = None
    stiffness_dry: Strength | None = None
    crushing_green: Strength | None = None
    green_moisture: MoistureContent | None = None
    shrinkage_radial: Share | None = None
    shrinkage_tangential: Share | None = None
    shrinkage_volumetric: Share | None = None
    source: str | None = None
    faulty: frozenset[str] = frozenset()


class Plan(Node):
    """All the blocks of a text. Blocks that ``use`` brought in stand in ``sites``, ``kilns``, ``woods``;
    stacks of a used file are not part of the plan, but ``lent`` keeps its piles for ``from pile``."""

    uses: tuple[Name, ...] = ()
    sites: tuple[Site, ...] = ()
    kilns: tuple[Kiln, ...] = ()
    woods: tuple[WoodStatement, ...] = ()
    stacks: tuple[Stack, ...] = ()
    lent: tuple[Stack, ...] = ()
