"""Heating through: how long a board or a timber takes to reach a temperature at its core.

Conduction across the grain with a film of air on the faces, as the exact series for a slab; a bar is the product of
two slabs (any text on heat conduction). With no film it is the MacLean equation of the Wood Handbook (FPL-GTR-190)
ch. 20, eq. 20-4, read at https://issuhub.com/view/index/5801?pageIndex=453. It knows no evaporation: where the wet bulb
is near or under the temperature wanted at the core, wet wood takes much longer (ch. 20 p. 20-2).
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, exp, inf, pi, sin
from typing import NamedTuple

CORE = 56.0
"""C, the 133 F that kills insects at the core within ``KEPT``: ISPM 15, in FPL abstracts and Wood Handbook ch. 20."""
KEPT = 1800.0
"""s, the 30 min for which the core stays at it."""
MEASURED_AT = (160 - 32) / 1.8
"""C, the 160 F of the Wood Handbook's tables of heating times."""
SOLID_LEAST, SOLID_MOST = 2.0, 10.0
"""So many times as long boards take that are piled solid (FPL abstract, Heat sterilization time of ponderosa pine and
Douglas-fir, 2003, http://www.woodweb.com/knowledge_base/Heat_sterilization_time_of_ponderosa_pine_and_Doug.html)."""
_TERMS = 6
_EARLY = 0.03
"""Fourier number (diffusivity x time over half the thickness squared) to which the middle is as it was, to one in ten
thousand; from there on six terms are exact."""
_EXACT = 5e-4
"""Share to which a time is found."""


class Warming(NamedTuple):
    """``diffusivity`` of the wood (m2/s); ``film``: heat that the air hands over by what the wood conducts (1/m)."""

    diffusivity: float
    film: float


FAST = Warming(1.85e-7, inf)
SLOW = Warming(1.25e-7, 12.0 / 0.2)
"""Wood's diffusivity is about 1.6e-7 m2/s (Wood Handbook ch. 4, memory), its conductivity across the grain 0.15 to
0.25 W/mK (eq. 4-15, read at https://issuhub.com/view/index/5801?pageIndex=90); steam leaves no film to speak of, and
slow air hands over 10 to 15 W/m2K (memory). Near these the two are set so that the measured times of five hardwoods and
those fitted for ponderosa pine (Wood Handbook tables 20-4, 20-8), to a wet-bulb depression of 12 F, lie between."""


class HeatingTime(NamedTuple):
    """Seconds until the core is as hot as it should be: at the fastest and at the slowest."""

    low: float
    high: float


def heating_time(
    thickness: float, width: float, start: float, air: float, *, core: float = CORE, solid: bool = False
) -> HeatingTime | None:
    """How long a board (sides in m) that is at ``start`` takes in ``air`` (C) until its core is at ``core``.

    Air passes all four of its sides; piled solid it takes longer. ``None`` where the air is no hotter than the core
    should be: it never gets there.
    """
    if air <= core:
        return None
    if start >= core:
        return HeatingTime(0.0, 0.0)
    left = (air - core) / (air - start)
    low, high = (_until(left, thickness / 2, width / 2, way) for way in (FAST, SLOW))
    return HeatingTime(low * SOLID_LEAST, high * SOLID_MOST) if solid else HeatingTime(low, high)


def core_excess(time: float, half: float, way: Warming) -> float:
    """Share of the first difference from the air that is left at the middle of a slab after ``time`` s."""
    fourier = way.diffusivity * time / half**2
    if fourier < _EARLY:
        return 1.0
    return sum(weight * exp(-root * root * fourier) for root, weight in _terms(way.film * half))


def _until(left: float, half_one: float, half_other: float, way: Warming) -> float:
    """When the excess at the middle of a bar has come down to ``left``."""

    def excess(time: float) -> float:
        return core_excess(time, half_one, way) * core_excess(time, half_other, way)

    low, high = 0.0, 4 * _EARLY * min(half_one, half_other) ** 2 / way.diffusivity
    while excess(high) > left:
        low, high = high, 2 * high
    while high - low > _EXACT * high:
        middle = (low + high) / 2
        if excess(middle) > left:
            low = middle
        else:
            high = middle
    return (low + high) / 2


@lru_cache(maxsize=128)
def _terms(biot: float) -> tuple[tuple[float, float], ...]:
    """The first roots of z tan z = Bi and the weights 4 sin z / (2 z + sin 2z) that they have at the middle."""
    roots = tuple(_root(number, biot) for number in range(_TERMS))
    return tuple((root, 4 * sin(root) / (2 * root + sin(2 * root))) for root in roots)


def _root(number: int, biot: float) -> float:
    """The one root between ``number`` and ``number`` and a half times pi."""
    low, high = number * pi, (number + 0.5) * pi
    if biot == inf:
        return high
    for _ in range(50):
        middle = (low + high) / 2
        if middle * sin(middle) * (1 if cos(middle) >= 0 else -1) < biot * abs(cos(middle)):
            low = middle
        else:
            high = middle
    return (low + high) / 2
