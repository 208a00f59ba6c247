"""Facts of what carries the stack: sticker lines, bearers, pads and the ground."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from stacklint.board_words import size_words
from stacklint.engineering import beam, bearers, bearing, creep, ground
from stacklint.engineering.board_facts import Bend
from stacklint.engineering.facts import Bearer, Line, Pad
from stacklint.engineering.lots import Lot
from stacklint.faults import Assumption
from stacklint.findings import Mark, Part
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind, Pads, Soil
from stacklint.tables import design_values
from stacklint.tables.wood import Wood
from stacklint.units import GRAVITY, ONE_FOOT, ONE_INCH
from stacklint.where import Where

BLOCK_HEIGHT = 7.625 * ONE_INCH
"""Of a nominal 8 in block laid on its side or set upright (practice: nominal less 3/8 in)."""
PALLET_HEIGHT = 5.5 * ONE_INCH
"""Of a common wooden pallet (common practice, no source)."""
_BLOCK_SIDES = (8 * ONE_INCH, 16 * ONE_INCH)
_PAD_SPACING = 5 * ONE_FOOT
"""Pads are taken to stand no wider apart than this under a bearer where the plan does not count them."""
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


class Standing(NamedTuple):
    """How the bearers stand: ``under_each`` on so many pads of ``footprint`` m2, ``height`` m high.

    A pad is ``along`` m wide along the bearer and ``across`` m long across it, along the stack.
    """

    under_each: int
    footprint: float
    along: float
    height: float
    blocks: bool
    across: float


class Foundation(NamedTuple):
    lines: tuple[Line, ...]
    bearers: tuple[Bearer, ...]
    pads: tuple[Pad, ...]
    clearance: float
    rest: float
    """Ground to what the lowest stickers rest on, m."""
    soil: Soil | None
    assumptions: tuple[Assumption, ...]


def stands_on_soil(stack: Stack) -> bool:
    """Outdoors and in sheds without a floor, unless the plan says concrete."""
    kind = stack.place.kind if stack.place is not None else None
    return kind in (None, PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED, PlaceKind.GREENHOUSE) and stack.kiln is None


def standing(stack: Stack, arrangement: Arrangement) -> tuple[Standing | None, tuple[Assumption, ...]]:
    """What the bearers stand on; ``None`` where they lie flat on the ground or floor."""
    said = stack.bearers.pads if stack.bearers is not None else None
    needed = max(2, ceil(arrangement.width / _PAD_SPACING) + 1)
    count = stack.bearers.pads_count if stack.bearers is not None and stack.bearers.pads_count else needed
    if said is not None:
        long, wide, height = pad_sides(said)
        return Standing(count, ground.footprint(long, wide, block=said.blocks), wide, height, said.blocks, long), ()
    high = stack.clearance.height.si if stack.clearance is not None else 0.0
    if arrangement.whole_floor or high <= arrangement.bearer_depth + 1.5 * ONE_INCH:
        return None, ()
    long, wide = max(_BLOCK_SIDES), min(_BLOCK_SIDES)
    where = stack.clearance.where if stack.clearance is not None else stack.name.where
    text = (
        f"It is not said what the bearers stand on: {count} blocks of 8 in x 16 in under each are assumed,"
        " since the boards are said to lie higher than the bearers are deep."
    )
    height = high - _lowest_sticker(arrangement) - arrangement.bearer_depth
    return (
        Standing(count, ground.footprint(long, wide, block=True), wide, height, True, long),
        (Assumption(where, text, "bearers"),),
    )


def pad_sides(said: Pads) -> tuple[float, float, float]:
    """Length, width and height (m) of a pad or block as it lies; a height of 0 is not said.

    Blocks lie on their largest face whatever the order in which their sides are written: the trade names a block by
    width, height and length, and one of 8 in x 8 in x 16 in stands with its cores upright, 8 in high on 8 in x 16 in
    (common practice, no source). Sides of pads are length, width and height as written.
    """
    sides = [side.si for side in said.sides] or list(_BLOCK_SIDES)
    if said.blocks:
        sides.sort(reverse=True)
    long, wide = max(sides[:2]), min(sides[:2])
    return long, wide, sides[2] if len(sides) > 2 else BLOCK_HEIGHT if said.blocks else 0.0


def clearance_of(stack: Stack, arrangement: Arrangement, stands: Standing | None) -> float:
    """Ground to the underside of the lowest board, m: as said, or as bearers, blocks and the first stickers make it."""
    if stack.clearance is not None:
        return stack.clearance.height.si
    return _made_of(stack, arrangement, stands) + _lowest_sticker(arrangement)


def _made_of(stack: Stack, arrangement: Arrangement, stands: Standing | None) -> float:
    """Ground to the top of what the stack is said to stand on, m."""
    if stack.bearers is not None and stack.bearers.kind is BearerKind.PALLETS:
        return PALLET_HEIGHT
    if arrangement.whole_floor:
        return 0.0
    return arrangement.bearer_depth + (stands.height if stands is not None else 0.0)


def rest_of(arrangement: Arrangement, clearance: float) -> float:
    """Ground to what the lowest stickers rest on, m."""
    return max(clearance - _lowest_sticker(arrangement), 0.0)


def _lowest_sticker(arrangement: Arrangement) -> float:
    return arrangement.sticker_thickness if arrangement.sticker_lines else 0.0


def stack_bend(
    arrangement: Arrangement, lots: Mapping[str, Lot], mass: float, temperature: float | None
) -> Bend | None:
    """How the whole stack bends across its bearers, creep included, where a sticker line stands on none.

    Every board bends along with the others, held together by the stickers, so the stack is one beam whose
    stiffness is the sum over its boards. A board counts in a span between bearers only if it runs through it;
    where none does, half the stiffness of those that lie there is taken (a judgement: the boards around a
    joint still share the load).
    """
    if all(line.bearer is not None for line in arrangement.sticker_lines):
        return None
    places = arrangement.bearers
    if len(places) < 2:
        return None
    edges = (0.0, *places, arrangement.length)
    stiffness = [_stiffness(arrangement, lots, *pair) for pair in pairwise(edges)]
    solved = beam.solve(places, 0.0, arrangement.length, mass * GRAVITY / arrangement.length, stiffness)
    if solved is None:
        return None
    wettest = max(lot.moisture.value for lot in lots.values())
    factor = creep.boards(wettest, temperature).likely

    def at(x: float) -> float:
        return solved.deflection(x) * factor

    def span_at(x: float) -> float:
        right = next((place for place in places if place >= x), arrangement.length)
        left = max((place for place in places if place < x), default=0.0)
        return right - left

    return Bend(at, span_at)


def _stiffness(arrangement: Arrangement, lots: Mapping[str, Lot], left: float, right: float) -> float:
    through = touching = 0.0
    slack = arrangement.sticker_width
    for run in arrangement.courses:
        for rows in run.rows:
            for piece in rows.row.pieces:
                lot = lots[piece.label]
                each = run.count * rows.count * lot.stiffness * piece.width * piece.thickness**3 / 12
                if piece.start <= left + slack and piece.end >= right - slack:
                    through += each
                elif piece.start < right and piece.end > left:
                    touching += each
    return through or touching / 2 or 1.0


def foundation(
    stack: Stack,
    arrangement: Arrangement,
    lots: Mapping[str, Lot],
    woods: Mapping[str, Wood],
    *,
    load: float,
    bend: Bend | None,
    temperature: float | None,
) -> Foundation:
    """Facts of lines, bearers and pads under a stack that weighs ``load`` (kg), top load and cover included."""
    stands, assumptions = standing(stack, arrangement)
    soil = stack.ground.soil if stack.ground is not None else None
    lines = _lines(stack, arrangement, lots, woods, load, bend, temperature)
    if arrangement.whole_floor or not arrangement.bearers or "bearers" in stack.faulty:
        clearance = clearance_of(stack, arrangement, stands)
        rest = rest_of(arrangement, clearance)
        return Foundation(lines, (), (), clearance, rest, soil, assumptions)
    kind = stack.bearers.kind if stack.bearers is not None else BearerKind.TIMBER
    wood = woods.get(stack.bearers.wood.text) if stack.bearers is not None and stack.bearers.wood is not None else None
    where = stack.bearers.where if stack.bearers is not None else stack.name.where
    shares = bearers.stack_loads(load * GRAVITY, arrangement.bearers, 0.0, arrangement.length)
    values = None
    unknown = stack.bearers is not None and stack.bearers.wood is not None and wood is None
    if kind is BearerKind.TIMBER and not unknown:
        values = design_values.for_section(wood, arrangement.bearer_width, arrangement.bearer_depth)
    section = _section(stack, arrangement, wood, kind)
    facts, pads = [], []
    wet = stands_on_soil(stack)
    settled = creep.of(creep.Condition.BEARER_WET if wet else creep.Condition.BEARER_DRY).likely
    places = _pad_places(arrangement.width, stands)
    for number, (x, force) in enumerate(zip(arrangement.bearers, shares, strict=True)):
        used = bearers.use(
            force,
            arrangement.width,
            arrangement.bearer_width,
            arrangement.bearer_depth,
            places,
            _strength(values),
            wet=wet,
        )
        mark = Mark(Part.BEARERS, start=x - arrangement.bearer_width / 2, end=x + arrangement.bearer_width / 2)
        name = f"the {_ORDINALS[number]} bearer from the left" if number < 10 else f"bearer {number + 1} from the left"
        worst = used.worst
        facts.append(
            Bearer(
                where=where,
                marks=(mark,),
                name=name[0].upper() + name[1:],
                section=section,
                position=x,
                load=force / GRAVITY,
                bending=used.bending,
                shear=used.shear,
                crushing=used.crushing,
                worst=worst[0] if worst else None,
                worst_way=worst[1].value if worst else None,
                span=used.span,
                sag=used.sag * settled if used.sag is not None else None,
                grade=values.name if values is not None else None,
                memory=values.memory if values is not None else None,
            )
        )
        if wet or stands is not None:
            pads.append(_pad(stack, arrangement, stands, where, mark, name, force, used.pad_load, soil))
    if stack.ground is None and stands_on_soil(stack) and "ground" not in stack.faulty:
        text = "The ground is not described: bare soil, flat and unprepared, is assumed."
        assumptions += (Assumption(stack.name.where, text, "ground"),)
    clearance = clearance_of(stack, arrangement, stands)
    rest = rest_of(arrangement, clearance)
    return Foundation(lines, tuple(facts), tuple(pads), clearance, rest, soil, assumptions)


def _strength(values: design_values.DesignValues | None) -> bearers.Strength | None:
    if values is None:
        return None
    return bearers.Strength(
        bending=values.bending,
        shear=values.shear,
        crushing=values.crushing,
        stiffness=values.stiffness,
        wet_value=values.wet_value,
        size_in_value=values.size_in_value,
    )


def _section(stack: Stack, arrangement: Arrangement, wood: Wood | None, kind: BearerKind) -> str:
    if stack.bearers is not None and stack.bearers.sides:
        sides = " x ".join(size_words(side) for side in stack.bearers.sides)
    else:
        sides = f"{arrangement.bearer_width / ONE_INCH:.3g} in x {arrangement.bearer_depth / ONE_INCH:.3g} in"
    if kind is BearerKind.STEEL:
        return f"{sides} of steel"
    return f"{sides} of {wood.name}" if wood is not None else f"{sides}, wood not said"


def _pad_places(width: float, stands: Standing | None) -> bearers.Pads | None:
    if stands is None:
        return None
    half = stands.along / 2
    if stands.under_each == 1:
        return bearers.Pads((width / 2,), stands.along)
    step = (width - 2 * half) / (stands.under_each - 1)
    return bearers.Pads(tuple(half + step * number for number in range(stands.under_each)), stands.along)


def _pad(
    stack: Stack,
    arrangement: Arrangement,
    stands: Standing | None,
    where: Where,
    mark: Mark,
    name: str,
    force: float,
    pad_load: float | None,
    soil: Soil | None,
) -> Pad:
    if stands is None or pad_load is None:
        on_pad, area = force, arrangement.bearer_width * arrangement.width
        words, blocks = f"{name[0].upper()}{name[1:]}, flat on the ground,", False
    else:
        on_pad, area = pad_load, stands.footprint
        words, blocks = f"The {'blocks' if stands.blocks else 'pads'} under {name}", stands.blocks
    said = stack.ground.bears.si if stack.ground is not None and stack.ground.bears is not None else None
    presumed = None if "ground" in stack.faulty and soil is None else ground.presumed(soil or Soil.BARE_SOIL).pressure
    bears = said if said is not None else presumed
    return Pad(
        where=where,
        marks=(Mark(Part.GROUND, start=mark.start, end=mark.end),),
        name=words,
        flat=stands is None or pad_load is None,
        load=on_pad / GRAVITY,
        pressure=ground.pressure(on_pad, area),
        bears=bears,
        ground=(soil or Soil.BARE_SOIL).value,
        stated=said is not None,
        area_needed=ground.side_needed(on_pad, bears) if bears else None,
        block_load=ground.block_share(on_pad) if blocks else None,
    )


def _lines(
    stack: Stack,
    arrangement: Arrangement,
    lots: Mapping[str, Lot],
    woods: Mapping[str, Wood],
    load: float,
    bend: Bend | None,
    temperature: float | None,
) -> tuple[Line, ...]:
    lines = arrangement.sticker_lines
    if not lines or not arrangement.courses:
        return ()
    lowest = arrangement.courses[0]
    pieces = [(rows.count, piece) for rows in lowest.rows for piece in rows.row.pieces]
    limit = _bearing_limit(stack, {piece.label for _, piece in pieces}, arrangement, lots, woods, temperature)
    where = stack.stickers.where if stack.stickers is not None else stack.name.where
    facts = []
    shares = bearers.stack_loads(load * GRAVITY, [line.x for line in lines], 0.0, arrangement.length)
    for line, force in zip(lines, shares, strict=True):
        reach = arrangement.sticker_width / 2 + 1e-6
        crossed = sum(count * p.width for count, p in pieces if p.start - reach <= line.x <= p.end + reach)
        stress = bearing.line_stress(force, arrangement.sticker_width, crossed) if crossed else None
        facts.append(
            Line(
                where=where,
                marks=(Mark(Part.STICKERS, start=line.x, end=line.x),),
                position=line.x,
                on_bearer=line.bearer is not None,
                off=line.off,
                bend=0.0 if bend is None or line.bearer is not None else max(bend.at(line.x), 0.0),
                load=force,
                use=stress / limit if stress is not None and limit else None,
                stress=stress,
                stress_limit=limit,
            )
        )
    return tuple(facts)


def _bearing_limit(
    stack: Stack,
    labels: set[str],
    arrangement: Arrangement,
    lots: Mapping[str, Lot],
    woods: Mapping[str, Wood],
    temperature: float | None,
) -> float | None:
    """What the softest of the lowest boards and the stickers bears across the grain, Pa."""
    factor = bearing.bearing_area_factor(arrangement.sticker_width)
    limits = [
        bearing.limit(
            lots[label].moisture.value,
            clear_green=lots[label].wood.c_perp_green,
            area_factor=factor,
            temperature=temperature,
        )
        for label in labels
    ]
    wood = (
        woods.get(stack.stickers.wood.text) if stack.stickers is not None and stack.stickers.wood is not None else None
    )
    if wood is not None:
        limits.append(bearing.limit(0.12, clear_green=wood.c_perp_green, temperature=temperature))
    known = [limit.stress for limit in limits if limit is not None]
    return min(known) if known else None
