"""The ground under pads, blocks and bearers: what presses on it and what it is presumed to bear.

Pa, m, N.
"""

from __future__ import annotations

from math import sqrt
from types import MappingProxyType
from typing import NamedTuple

from stacklint.plan.supports import Soil
from stacklint.units import GRAVITY, ONE_INCH, ONE_POUND, Unit

BLOCK_JOINT = 0.375 * ONE_INCH
"""A block is made this much smaller than its nominal size, for the joint (industry practice, memory)."""
BLOCK_PIER = 8000 * ONE_POUND * GRAVITY
"""What a single dry-stacked pier of 8 x 8 x 16 in hollow blocks bears, cores upright, N: 8,000 lb, read at
https://markconte3.wordpress.com/2017/06/07/piers-part-3-pier-componants/."""

_IBC = (
    "International Building Code 2012 Table 1806.2, read at "
    "http://what-when-how.com/Tutorial/topic-10034nh/Geotechnical-Earthquake-Engineering-484.html"
)
_CHICAGO = (
    "Chicago building code (archived) 13-132-060(a), read at https://codelibrary.amlegal.com/codes/chicago/"
    "c7209359-81de-4059-a679-f6a211f04dea/chicagobuilding_il/0-0-0-346987"
)


class Bearing(NamedTuple):
    """What a kind of ground is presumed to bear, Pa; ``None`` where the ground is not what gives way."""

    pressure: float | None
    as_published: str
    source: str


_PRESUMED = MappingProxyType(
    {
        Soil.GRAVEL: Bearing(Unit.PSF.to_si(3000), "sandy gravel and gravel", _IBC),
        Soil.SAND: Bearing(Unit.PSF.to_si(2000), "sand, silty sand, clayey sand", _IBC),
        Soil.CLAY: Bearing(Unit.PSF.to_si(1500), "clay, sandy clay, silty clay, silt", _IBC),
        # Yard ground is loam that nobody compacted. The building code gives nothing for unprepared fill.
        Soil.GRASS: Bearing(Unit.PSF.to_si(500), "filled ground or loam", _CHICAGO),
        Soil.BARE_SOIL: Bearing(Unit.PSF.to_si(500), "filled ground or loam", _CHICAGO),
        # The same code gives soft clay 1500 and very soft clay 500; a yard's word does not tell them apart.
        Soil.SOFT_CLAY: Bearing(Unit.PSF.to_si(500), "very soft clay", _CHICAGO),
        Soil.CONCRETE: Bearing(None, "a slab spreads the load", "common practice, no source"),
    }
)


def presumed(soil: Soil) -> Bearing:
    """What ground of that kind is presumed to bear. A plan that says ``bears`` knows better.

    The figures are for natural ground: gravel spread over soft soil bears what the soil below bears.
    """
    return _PRESUMED[soil]


def footprint(length: float, width: float, *, block: bool = False) -> float:
    """Area (m2) of a pad; of a block, whose actual sides are 3/8 in shorter than the nominal ones."""
    shorter = BLOCK_JOINT if block else 0.0
    return (length - shorter) * (width - shorter)


def pressure(load: float, area: float) -> float:
    """Of ``load`` (N) on the ground under ``area`` (m2). No spread through the pad or a gravel layer is counted."""
    return load / area


def side_needed(load: float, bears: float) -> float:
    """Side (m) of the square pad under which ground that bears ``bears`` (Pa) carries ``load`` (N)."""
    return sqrt(load / bears)


def block_share(load: float) -> float:
    """Load on a pier of dry-stacked blocks as a share of the 8,000 lb that it bears."""
    return load / BLOCK_PIER
