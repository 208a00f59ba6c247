"""Bearers: how much of the stack each carries, and what share of its design values that uses.

Stresses of elementary beam theory against the design values of the species group, adjusted as the National Design
Specification for Wood Construction (NDS) adjusts them. SI inside; the factors go by sizes in inches.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from math import inf
from typing import NamedTuple

from stacklint.engineering import beam, bearing
from stacklint.units import ONE_INCH, Unit


class SizeClass(Enum):
    """The size classes that design values are tabulated for."""

    DIMENSION = "2 to 4 in thick"
    BEAM = "5 x 5 in and larger, beams and stringers"
    POST = "5 x 5 in and larger, posts and timbers"


class LoadDuration(Enum):
    """Load duration factors (NDS 2.3.2; what they do not apply to, read at
    https://civilengineeringx.com/bdac/adjustment-factors-for-structural-members; the numbers from memory)."""

    TEN_YEARS = 1.0
    PERMANENT = 0.9
    """Over ten years in all: bearers stay in the yard and carry one stack after another."""


class Way(Enum):
    """How a bearer gives way."""

    BENDING = "bending"
    SHEAR = "shear"
    CRUSHING = "crushing"


class Strength(NamedTuple):
    """Design values before adjustment, Pa, for the bearer's species group, grade and size class.

    ``wet_value``: tabulated for wet service already (Southern Pine timbers).
    ``size_in_value``: bending is tabulated for each width, so that no size factor applies (Southern Pine).
    """

    bending: float
    shear: float
    crushing: float
    stiffness: float
    wet_value: bool = False
    size_in_value: bool = False


class Allowable(NamedTuple):
    """Design values after adjustment, Pa. Crushing is before the bearing area factor, which goes by the pad."""

    bending: float
    shear: float
    crushing: float
    stiffness: float


class Pads(NamedTuple):
    """What a bearer stands on: the middles of its pads along it, m from its left end, and their length along it."""

    places: tuple[float, ...]
    length: float


class BearerUse(NamedTuple):
    """What a bearer carries and how.

    The shares of the design values and the elastic ``sag`` are ``None`` where no design value is known (steel, or
    sizes that have none). ``pad_load`` is the largest load on one pad, N, ``None`` where the bearer lies flat on
    the ground; ``span`` is the longest distance between the middles of two pads, 0 where there is none.
    """

    bending: float | None
    shear: float | None
    crushing: float | None
    sag: float | None
    pad_load: float | None
    span: float

    @property
    def worst(self) -> tuple[float, Way] | None:
        """The largest share and its way."""
        if self.bending is None or self.shear is None or self.crushing is None:
            return None
        shares = ((self.bending, Way.BENDING), (self.shear, Way.SHEAR), (self.crushing, Way.CRUSHING))
        return max(shares, key=lambda pair: pair[0])


# Size and flat-use factors by nominal width in inches, from
# https://github.com/xcfem/xc python_modules/materials/awc_nds/dimensional_lumber.py (NDS Supplement Table 4A).
_SIZE_THIN = ((4, 1.5), (5, 1.4), (6, 1.3), (8, 1.2), (10, 1.1), (12, 1.0), (inf, 0.9))
_SIZE_THICK = ((4, 1.5), (5, 1.4), (6, 1.3), (8, 1.3), (10, 1.2), (12, 1.1), (inf, 1.0))
_FLAT_THIN = ((3, 1.0), (5, 1.1), (8, 1.15), (inf, 1.2))
_FLAT_THICK = ((4, 1.0), (10, 1.05), (inf, 1.1))

# Wet service: https://www.yumpu.com/en/document/view/10602831/building-design-and-construction-handbook-merritt-ventech/923
_WET_BENDING, _WET_SHEAR, _WET_STIFFNESS = 0.85, 0.97, 0.90
_WET_BENDING_FREE = Unit.PSI.to_si(1150)

_EDGE = 1e-6
"""Allowance on sizes at the edge of a class, in inches."""


def size_class(width: float, depth: float) -> SizeClass | None:
    """The size class of a section as it is written, m; ``None`` below 2 in nominal, where there are no values.

    A timber is a beam or stringer where one side is more than 2 in over the other; a 6 x 6 is a post.
    """
    thin, wide = sorted((width / ONE_INCH, depth / ONE_INCH))
    if thin < 1.5 - _EDGE:
        return None
    if thin < 4.5 - _EDGE:
        return SizeClass.DIMENSION
    return SizeClass.BEAM if wide - thin > 2 + _EDGE else SizeClass.POST


def adjusted(
    strength: Strength, width: float, depth: float, *, wet: bool = True, duration: LoadDuration = LoadDuration.PERMANENT
) -> Allowable | None:
    """Design values for this section and service, Pa; ``None`` for sizes that have none.

    Repetitive-member use is not credited: bearers are seldom tied together.

    Args:
        width: of the section as it lies, m.
        depth: upright, m.
        wet: over 19% moisture content in service, as near the ground.
    """
    size = size_class(width, depth)
    if size is None:
        return None
    lumber = size is SizeClass.DIMENSION
    damp = wet and not strength.wet_value
    sized = strength.bending * _size_factor(width, depth, lumber=lumber, in_value=strength.size_in_value)
    bending = sized * duration.value
    if lumber and damp and sized > _WET_BENDING_FREE:
        bending *= _WET_BENDING
    if lumber and width > depth + _EDGE * ONE_INCH:
        bending *= _by_width(_FLAT_THICK if depth > 3 * ONE_INCH else _FLAT_THIN, width)
    return Allowable(
        bending=bending,
        shear=strength.shear * duration.value * (_WET_SHEAR if lumber and damp else 1.0),
        crushing=strength.crushing * (bearing.WET_FACTOR if damp else 1.0),
        stiffness=strength.stiffness * (_WET_STIFFNESS if lumber and damp else 1.0),
    )


def stack_loads(total: float, bearers: Sequence[float], start: float, end: float) -> tuple[float, ...]:
    """What each bearer carries of a stack that weighs ``total`` (N) and reaches from ``start`` to ``end`` (m).

    The stack is taken as one uniform beam over its bearers: the middle one of three carries 62.5%, not a third
    (https://www.engineersedge.com/calculators/beam_three_supports_uniform_load_16062.htm). A bearer that the stack
    would lift off carries nothing. Where the stack tips over its bearers, those that hold it up carry more than
    its weight. A single bearer carries all of it.
    """
    load = total / (end - start)
    result = beam.rest(bearers, start, end, load, 1.0) or beam.solve(bearers, start, end, load, 1.0)
    if result is None:
        under = [start - beam.SAME_PLACE <= place <= end + beam.SAME_PLACE for place in bearers]
        return tuple(total / sum(under) if here else 0.0 for here in under)
    carried = dict(zip(result.supports, result.reactions, strict=True))
    return tuple(max(carried.get(place, 0.0), 0.0) for place in bearers)


def use(
    load: float,
    length: float,
    width: float,
    depth: float,
    pads: Pads | None,
    strength: Strength | None,
    *,
    wet: bool = True,
    duration: LoadDuration = LoadDuration.PERMANENT,
) -> BearerUse:
    """How a bearer carries ``load`` (N), spread evenly along its ``length`` (m).

    Args:
        width: of its section as it lies, m.
        depth: of its section, upright, m.
        pads: what it stands on; ``None`` where it lies flat on the ground, which spares it bending and shear.
        strength: design values before adjustment; ``None`` where there are none (steel).
        wet: over 19% moisture content in service.
        duration: of the load.

    The whole shear beside a pad is counted; the NDS would allow what acts within the bearer's depth of it to be
    left out. Crushing is judged over the pads and under the stack, each with its own area.
    """
    values = adjusted(strength, width, depth, wet=wet, duration=duration) if strength is not None else None
    top = load / (width * length)
    if pads is None or not pads.places:
        if values is None:
            return BearerUse(None, None, None, None, None, 0.0)
        return BearerUse(0.0, 0.0, top / values.crushing, 0.0, None, 0.0)
    stiffness = values.stiffness * width * depth**3 / 12 if values is not None else 1.0
    forces = _forces(load, length, pads, stiffness)
    if values is None:
        return BearerUse(None, None, None, None, max(forces.pads), forces.span)
    return BearerUse(
        bending=forces.moment / (width * depth**2 / 6) / values.bending,
        shear=1.5 * forces.shear / (width * depth) / values.shear,
        crushing=max(top / values.crushing, _pad_crushing(forces, pads, length, width, values.crushing)),
        sag=forces.sag,
        pad_load=max(forces.pads),
        span=forces.span,
    )


class _Forces(NamedTuple):
    moment: float
    shear: float
    sag: float
    span: float
    places: tuple[float, ...]
    pads: tuple[float, ...]


def _forces(load: float, length: float, pads: Pads, stiffness: float) -> _Forces:
    each = load / length
    result = beam.rest(pads.places, 0.0, length, each, stiffness)
    if result is not None:
        return _Forces(
            result.largest_moment,
            result.largest_shear,
            max(result.largest_sag, *result.droops),
            max(result.spans),
            result.supports,
            result.reactions,
        )
    # One pad carries it all, as a balanced pair of cantilevers; the longer arm governs.
    place = min(pads.places, key=lambda place: abs(place - length / 2))
    arm = max(place, length - place)
    return _Forces(each * arm**2 / 2, each * arm, each * arm**4 / (8 * stiffness), 0.0, (place,), (load,))


def _pad_crushing(forces: _Forces, pads: Pads, length: float, width: float, crushing: float) -> float:
    """The largest share of crushing over a pad, with its bearing area factor."""
    shares = []
    for place, reaction in zip(forces.places, forces.pads, strict=True):
        left, right = max(place - pads.length / 2, 0.0), min(place + pads.length / 2, length)
        factor = bearing.bearing_area_factor(pads.length, min(left, length - right))
        shares.append(reaction / ((right - left) * width) / (crushing * factor))
    return max(shares)


def _size_factor(width: float, depth: float, *, lumber: bool, in_value: bool) -> float:
    thin, wide = sorted((width, depth))
    thick = thin > (3 + _EDGE) * ONE_INCH
    if not lumber:
        # 5 x 5 in and larger, deeper than 12 in: (12 / d)^(1/9) (NDS Supplement Table 4D, memory)
        return min(float((12 * ONE_INCH / depth) ** (1 / 9)), 1.0)
    if not in_value:
        return _by_width(_SIZE_THICK if thick else _SIZE_THIN, wide)
    # Southern Pine: tabulated by width up to 12 in; 4 in thick and 8 in or wider 1.1 (memory)
    if wide > (12 + _EDGE) * ONE_INCH:
        return 0.9
    return 1.1 if thick and wide > (6 + _EDGE) * ONE_INCH else 1.0


def _by_width(table: tuple[tuple[float, float], ...], width: float) -> float:
    """The factor of the narrowest nominal width that holds the section: 5.5 in is a nominal 6."""
    inches = width / ONE_INCH - _EDGE
    return next(factor for nominal, factor in table if inches <= nominal)
