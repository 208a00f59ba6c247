"""Facts of the cover, of the rain that reaches past it, and of the kiln that a charge goes into."""

from __future__ import annotations

from stacklint.engineering import rain, wind
from stacklint.engineering.facts import Cover, Fit, KilnFacts, Side
from stacklint.faults import Assumption
from stacklint.findings import Mark, Part
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.shelter import CoverKind, Fastening
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, KilnType
from stacklint.show import show
from stacklint.units import LENGTH, System

HALF_DRY = 0.5
FIFTH_DRY = 0.8
"""Share of a side that may still be reached."""
_COVER_MARK = (Mark(Part.COVER),)


def covered(stack: Stack) -> bool | None:
    """Whether anything covers the stack; ``None`` where the plan's cover could not be read."""
    if stack.cover is not None:
        return stack.cover.kind is not CoverKind.NONE
    return None if "cover" in stack.faulty else False


def cover_mass(stack: Stack, arrangement: Arrangement) -> float:
    """Of the cover and what weights it, kg."""
    if stack.cover is None:
        return 0.0
    area = (arrangement.length + 2 * _overhang(stack, ends=True)) * (
        arrangement.width + 2 * _overhang(stack, ends=False)
    )
    weight = stack.cover.weight.si if stack.cover.weight is not None else 0.0
    return wind.cover_mass(stack.cover.kind, area) + weight


def _overhang(stack: Stack, *, ends: bool) -> float:
    """As said, 0 where nothing was said."""
    if stack.cover is None:
        return 0.0
    said = stack.cover.overhang_ends if ends else stack.cover.overhang_sides
    return said.si if said is not None else 0.0


def cover_assumptions(stack: Stack, *, in_open: bool) -> tuple[Assumption, ...]:
    cover = stack.cover
    if cover is None or cover.kind is CoverKind.NONE or not in_open or "cover" in stack.faulty:
        return ()
    if cover.overhang_ends is None and cover.overhang_sides is None and not cover.hanging_down:
        return (Assumption(cover.where, "No overhang of the cover is given: none is assumed.", "cover"),)
    return ()


def machine_outdoors(stack: Stack) -> tuple[Assumption, ...]:
    """Of a stack in a yard or an open shed: a machine that takes water out of a room's air does nothing to theirs."""
    if stack.fan is None or stack.fan.removes is None:
        return ()
    text = "What the machine removes is left out: in the open there is always more water in the air than it takes."
    return (Assumption(stack.fan.where, text, "fan"),)


def cover_facts(stack: Stack, arrangement: Arrangement) -> Cover | None:
    cover = stack.cover
    if cover is None or cover.kind is CoverKind.NONE:
        return None
    faulty = "cover" in stack.faulty
    area = (arrangement.length + 2 * _overhang(stack, ends=True)) * (
        arrangement.width + 2 * _overhang(stack, ends=False)
    )
    return Cover(
        where=cover.where,
        marks=_COVER_MARK,
        kind=cover.kind.value,
        overhang_ends=None if faulty and cover.overhang_ends is None else _overhang(stack, ends=True),
        overhang_sides=None if faulty and cover.overhang_sides is None else _overhang(stack, ends=False),
        gap=cover.gap.si if cover.gap is not None else None,
        slope=cover.slope,
        tied=None if cover.fastening is None else cover.fastening is Fastening.TIED,
        hanging_down=cover.hanging_down,
        uplift=wind.cover_uplift(area),
        holds_down=cover_mass(stack, arrangement),
    )


def sides(stack: Stack, arrangement: Arrangement) -> tuple[Side, ...]:
    """What rain reaches on the long sides and on the ends of a covered stack in the open.

    A cover that hangs down the sides, boards and plastic keep rain out; shade cloth is given no credit.
    """
    cover = stack.cover
    if cover is None or cover.kind is CoverKind.NONE or not arrangement.courses:
        return ()
    facts = []
    for ends in (False, True):
        said = cover.overhang_ends if ends else cover.overhang_sides
        if said is None and "cover" in stack.faulty:
            continue
        facts.append(_side(stack, arrangement, _overhang(stack, ends=ends), ends=ends))
    return tuple(facts)


def _side(stack: Stack, arrangement: Arrangement, overhang: float, *, ends: bool) -> Side:
    cover = stack.cover
    assert cover is not None
    gap = cover.gap.si if cover.gap is not None else 0.0
    height = arrangement.height
    strong = _rain_wind(stack)
    share = rain.reached(overhang, height, gap, strong)
    if cover.hanging_down:
        wet = 0.0
    elif stack.sides is not None and (not stack.sides.on_ends or ends) and not (stack.sides.on_one_side and not ends):
        wet = rain.wetted(share, (stack.sides.kind,))
    elif "sides" in stack.faulty:
        wet = None
    else:
        wet = share
    return Side(
        where=cover.where,
        marks=_COVER_MARK,
        side="ends" if ends else "long sides",
        at_ends=ends,
        overhang=overhang,
        height=height,
        closed=None if wet is None else wet == 0.0 < share,
        dry_depth=min(max(rain.dry_depth(overhang, rain.MILD) - gap, 0.0), height),
        wetted=wet,
        reached=rain.reached(overhang, height, gap, rain.MILD),
        overhang_in_driving_rain=rain.overhang_needed(height, FIFTH_DRY, gap, strong),
        overhang_needed=rain.overhang_needed(height, HALF_DRY, gap, rain.MILD),
    )


def _rain_wind(stack: Stack) -> float:
    """Wind that slants the rain, m/s: 4.5; half of it where the place is sheltered, twice where it is windy."""
    windy = stack.place.windy if stack.place is not None else None
    if windy is None:
        return rain.STRONG
    return 2 * rain.STRONG if windy else rain.MILD


def _type(kiln: Kiln) -> KilnType | None:
    """The type of a kiln, or that of which it says such a part."""
    if kiln.type is not None or "type" in kiln.faulty:
        return kiln.type
    if kiln.removes is not None:
        return KilnType.DEHUMIDIFICATION
    return KilnType.SOLAR if kiln.collector is not None else None


def kiln_facts(kiln: Kiln | None) -> KilnFacts | None:
    if kiln is None:
        return None
    inside = kiln.inside
    return KilnFacts(
        where=kiln.where,
        name=f"kiln {kiln.name.text}",
        type=kind.value if (kind := _type(kiln)) is not None else None,
        holds=kiln.holds.si if kiln.holds is not None else None,
        carries=kiln.carries.si if kiln.carries is not None else None,
        length=inside.length.si if inside is not None else None,
        width=inside.width.si if inside is not None else None,
        height=inside.height.si if inside is not None else None,
        plenum=kiln.plenum.si if kiln.plenum is not None else None,
        heats_to=kiln.heats_to.si if kiln.heats_to is not None else None,
        removes=kiln.removes.si if kiln.removes is not None else None,
    )


def fits(stack: Stack, arrangement: Arrangement, kiln: Kiln | None, top: float, system: System) -> tuple[Fit, ...]:
    """Length, width (with the plenum on the fans' side) and height of a charge against the kiln's inside.

    Without a plenum it is not known how wide a room the boards need, unless they alone are too wide for it.
    """
    if kiln is None:
        return ()
    inside = kiln.inside
    longest = max((run.row.length for course in arrangement.courses for run in course.rows), default=0.0)
    plenum = kiln.plenum.si if kiln.plenum is not None else 0.0
    wide = f"{show(arrangement.width, LENGTH, system)} of boards"
    if plenum:
        wide += f" and {show(plenum, LENGTH, system)} of plenum"
    where = stack.size.where if stack.size is not None else stack.name.where
    across: float | None = arrangement.width + plenum
    if kiln.plenum is None and inside is not None and arrangement.width <= inside.width.si:
        across = None
    needs = (
        ("length", max(arrangement.length, longest), inside.length.si if inside else None, "along the boards"),
        ("width", across, inside.width.si if inside else None, wide),
        ("height", top, inside.height.si if inside else None, "boards, stickers and what they stand on"),
    )
    return tuple(
        Fit(where=where, marks=(Mark(Part.COURSE),), direction=direction, needs=need, has=has, made_of=made_of)
        for direction, need, has, made_of in needs
    )
