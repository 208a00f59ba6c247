"""Modulus of elasticity of wood at its moisture content and temperature."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from stacklint.tables.rows import read
from stacklint.tables.wood import Wood
from stacklint.units import Unit

DRY = 0.12
"""Moisture content of the dry values in the table."""
INTERSECTION = 0.25
"""Moisture content at which stiffness begins to change in drying, of woods that have none of their own in
``intersection_moisture.csv`` (Wood Handbook Table 5-13 and text, memory)."""
COLDEST, HOTTEST = Unit.FAHRENHEIT.to_si(32), Unit.FAHRENHEIT.to_si(150)
"""Range of Wood Handbook Table 5-16 that holds for green and dry wood alike, degrees Celsius."""
_REFERENCE_F = 70.0


class Stiffness(NamedTuple):
    """Modulus of elasticity, Pa.

    ``beyond_data``: the wood is colder or hotter than the data reach; the value is that at their end.
    """

    value: float
    beyond_data: bool


def modulus(wood: Wood, moisture: float, temperature: float | None = None) -> Stiffness:
    """Modulus of elasticity at a moisture content (share) and temperature (degrees Celsius; ``None``: 70 F).

    P = P12 (P12 / Pg)^((12 - M) / (Mp - 12)) below the intersection moisture content Mp, the green value above it:
    Wood Handbook (FPL-GTR-190) equation 5-3 (memory). Temperature: see :func:`temperature_factor`.
    """
    limit = _intersections().get(wood.name, INTERSECTION)
    value = wood.moe_green
    if moisture < limit:
        value = wood.moe_dry * float((wood.moe_dry / wood.moe_green) ** ((DRY - moisture) / (limit - DRY)))
    if temperature is None:
        return Stiffness(value, beyond_data=False)
    within = min(max(temperature, COLDEST), HOTTEST)
    factor = temperature_factor(moisture, within, limit)
    return Stiffness(value * factor, beyond_data=within != temperature)


def temperature_factor(moisture: float, temperature: float, intersection: float = INTERSECTION) -> float:
    """Modulus of elasticity at a temperature (degrees Celsius, 32 to 150 F) over that at 70 F.

    Wood Handbook (FPL-GTR-190) Table 5-16, https://fliphtml5.com/kbpub/hdrb/Wood_Handbook/136: change in percent,
    13.1215 - 0.1793 T green, 7.8553 - 0.1108 T at 12% moisture content, T in F. In between linear in moisture; drier
    wood takes the line for 12%. The lines miss zero at 70 F by half a percent, which is taken out.
    """
    wetness = min(max((moisture - DRY) / (intersection - DRY), 0.0), 1.0)
    slope = -0.1108 + wetness * (-0.1793 + 0.1108)
    return 1 + slope * (Unit.FAHRENHEIT.from_si(temperature) - _REFERENCE_F) / 100


@cache
def _intersections() -> dict[str, float]:
    return {row["wood"]: float(row["moisture_pct"]) / 100 for row in read("intersection_moisture")}
