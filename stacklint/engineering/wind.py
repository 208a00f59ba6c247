"""Wind: what overturns a stack, what lifts its cover.

Metres, kilograms, newtons, m/s. Nothing here replaces the wind loads of a building code: the stack is judged in
the gust of a severe thunderstorm, on open ground, as a solid block.
"""

from __future__ import annotations

from types import MappingProxyType

from stacklint.plan.shelter import CoverKind
from stacklint.units import GRAVITY, ONE_FOOT, ONE_POUND

GUST = 25.7
"""The gust that stacks and covers are judged in, m/s: 50 knots (58 mph), from which the US weather service calls a
thunderstorm severe (https://www.metaglossary.com/define/severe+thunderstorm)."""
HALF_AIR_DENSITY = 0.613
"""Velocity pressure in Pa at 1 m/s; 0.00256 in psf and mph (ASCE 7). The second read at
https://g.bajins.eu.org/henryhawke/ballastpublic: 70 mph gives 12.5 psf."""
FACE = 1.3
"""Force coefficient of a solid block on its long face, 1.3 to 1.4 (memory)."""
UPLIFT = 1.2
"""Net uplift on a sheet over a pile, which blocks the flow below it: ASCE 7-16 Fig. 30.5-1, read at
https://collaborate.asce.org/standards-exchange/discussion/wind-loads-on-building-canopies-asce-7-16-22?hlmlt=VT.
Edges and corners see more."""

_PSF = ONE_POUND / ONE_FOOT**2

COVER_WEIGHTS = MappingProxyType(
    {
        CoverKind.SHEET_METAL: 0.72 * _PSF,
        CoverKind.PLYWOOD: 1.5 * _PSF,
        CoverKind.BOARDS: 2.5 * _PSF,
        CoverKind.ROOF_PANELS: 0.72 * _PSF,
        CoverKind.TARP: 0.05 * _PSF,
    }
)
"""What covers weigh, kg/m2, the light sort of each kind, since a light cover lifts first.

Sheet metal and roof panels: 29 gauge galvanised, 0.5625 + 0.156 lb/ft2, Manufacturers' Standard Gauge read at
https://roofonline.com/weight-of-sheet-steel; corrugation adds 30 to 70%, which is left out.
Plywood: 1/2 in at 3 lb/ft2 for each inch of thickness, softwood (opening of an article on its weight read at
http://richland-mall.com/wall-panel/4254-wood-weight-per-square-foot.html).
Boards: 1 in of dry softwood at 30 lb/ft3 (memory). Tarp: about 7 oz/yd2 (memory).
"""


def pressure(speed: float = GUST) -> float:
    """Velocity pressure of a wind, Pa: 0.613 V^2."""
    return HALF_AIR_DENSITY * speed * speed


def overturning(
    mass: float, length: float, width: float, top: float, clearance: float = 0.0, speed: float = GUST
) -> float | None:
    """What holds a stack down over what the wind turns it over with, about its leeward bottom edge.

    Below 1 it goes over. The wind blows on the long face, from the lowest board up; the open space below is not
    pushed on but lengthens the lever. Ties, neighbours and a cover are left out.

    Args:
        mass: of the stack, kg.
        length: of the face, m.
        width: of the base, m.
        top: ground to the top of the top course, m.
        clearance: ground to the underside of the lowest board, m.
        speed: of the gust, m/s.

    Returns:
        ``None`` where there is no face or no wind.
    """
    face = length * (top - clearance)
    turning = FACE * pressure(speed) * face * (top + clearance) / 2
    if turning <= 0:
        return None
    return mass * GRAVITY * width / 2 / turning


def cover_uplift(area: float, speed: float = GUST) -> float:
    """The mass (kg) whose weight a gust lifts off a cover of ``area`` m2: 1.2 q A / g."""
    return UPLIFT * pressure(speed) * area / GRAVITY


def cover_mass(kind: CoverKind, area: float) -> float:
    """Mass of a cover, kg; 0 where there is none."""
    return COVER_WEIGHTS.get(kind, 0.0) * area
