"""Stand-ins for figures that the sources do not print, from the specific gravity of the wood.

Wood Handbook FPL-GTR-190 (2010) Table 5-11a, functions relating mechanical properties to specific gravity
(memory; their agreement with the table of species is tested: within a quarter for most woods). Specific gravity
is on green volume for green properties, on volume at 12% for those at 12%.
"""

from __future__ import annotations

from stacklint.units import Unit

_MPA = Unit.MEGAPASCAL.to_si(1)


def moe_green(sg_green: float, *, hardwood: bool) -> float:
    """Modulus of elasticity of green wood, Pa."""
    return float(13_900 * sg_green**0.72 if hardwood else 16_100 * sg_green**0.76) * _MPA


def moe_dry(sg_green: float, *, hardwood: bool) -> float:
    """Modulus of elasticity at 12% moisture content, Pa."""
    sg = sg_at_12(sg_green)
    return float(16_500 * sg**0.70 if hardwood else 20_500 * sg**0.84) * _MPA


def c_perp_green(sg_green: float, *, hardwood: bool) -> float:
    """Stress across the grain at the proportional limit of green wood, Pa."""
    return float(18.5 * sg_green**2.48 if hardwood else 8.8 * sg_green**1.53) * _MPA


def moe_green_from_dry(dry: float, sg_green: float, *, hardwood: bool) -> float:
    """Green modulus of elasticity of a wood of which only that at 12% is known: the ratio of the two functions."""
    ratio = moe_green(sg_green, hardwood=hardwood) / moe_dry(sg_green, hardwood=hardwood)
    return dry * min(ratio, 1.0)


def moe_dry_from_green(green: float, sg_green: float, *, hardwood: bool) -> float:
    """The inverse of :func:`moe_green_from_dry`."""
    ratio = moe_green(sg_green, hardwood=hardwood) / moe_dry(sg_green, hardwood=hardwood)
    return green / min(ratio, 1.0)


def volumetric(radial: float | None, tangential: float | None, sg_green: float) -> float:
    """Shrinkage of the volume from green to oven-dry, as a share.

    From the two shrinkages across the grain, V = R + T - R T, that along the grain left out; failing them
    0.265 times the specific gravity (Wood Handbook ch. 4, memory).
    """
    if radial is None or tangential is None:
        return 0.265 * sg_green
    return radial + tangential - radial * tangential


def sg_at_12(sg_green: float) -> float:
    """Specific gravity on the volume at 12%, without the wood's own shrinkage (Wood Handbook ch. 4, memory)."""
    return sg_green / (1 - 0.265 * sg_green * (30 - 12) / 30)
