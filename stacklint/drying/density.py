"""Weight of wood at a moisture content.

Listed sizes are taken as green sizes, as lumber is tallied at the saw. The oven-dry mass of a board is then its
listed volume times the specific gravity on green volume, whatever it has shrunk since, and the water that a stack
loses is its loss of weight exactly.

Formulas from the Wood Handbook (FPL-GTR-190) ch. 4: density at second hand,
https://github.com/LarsenDR/forfuncPython python/density.py; the others from memory.
"""

from __future__ import annotations

from stacklint.tables.wood import Wood

WATER = 1000.0
"""Density of water, kg/m3."""
FIBRE_SATURATION = 0.30
"""Moisture content below which wood shrinks: the average of woods, Wood Handbook Table 4-1."""
CELL_WALL = 1.54
"""Specific gravity of the cell wall (Wood Handbook ch. 4, memory)."""


def oven_dry_mass(wood: Wood, volume: float) -> float:
    """Mass without any water of a green volume, kg."""
    return volume * wood.sg_green * WATER


def mass(wood: Wood, volume: float, moisture: float) -> float:
    """Mass (kg) of a volume listed at its green size (m3) at a moisture content (share of the oven-dry mass)."""
    return oven_dry_mass(wood, volume) * (1 + moisture)


def water_lost(wood: Wood, volume: float, now: float, wanted: float) -> float:
    """Water (kg) that leaves a green volume (m3) from one moisture content to another; none where it is dry enough."""
    return oven_dry_mass(wood, volume) * max(now - wanted, 0.0)


def density(wood: Wood, moisture: float) -> float:
    """Density of the wood as it is at a moisture content, shrunken, kg/m3: water x Gm x (1 + M)."""
    return WATER * specific_gravity(wood, moisture) * (1 + moisture)


def specific_gravity(wood: Wood, moisture: float) -> float:
    """Oven-dry mass over the volume at a moisture content, relative to water: Gm = Gb / (1 - S)."""
    return wood.sg_green / (1 - shrinkage(wood.shrink_volumetric, moisture))


def shrinkage(total: float, moisture: float) -> float:
    """Shrinkage from green to a moisture content, as a share, of a wood that shrinks by ``total`` to oven-dry."""
    return total * max(FIBRE_SATURATION - moisture, 0.0) / FIBRE_SATURATION


def highest_moisture(wood: Wood) -> float:
    """The moisture content at which every hollow of the wood is full of water.

    It serves to question a figure, not to refuse it: old-growth redwood sapwood is listed above its own.
    """
    return (CELL_WALL - wood.sg_green) / (CELL_WALL * wood.sg_green)
