"""Gathers every fact of a stack from its plan and its arrangement."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any, NamedTuple

from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.drying.surroundings import site_of
from stacklint.engineering import (
    air_facts,
    board_facts,
    drying_facts,
    finish_facts,
    foundation_facts,
    group_facts,
    shelter_facts,
    statement_facts,
    wind,
)
from stacklint.engineering.facts import StackFacts
from stacklint.engineering.foundation_facts import Foundation
from stacklint.engineering.lacks import lacks
from stacklint.engineering.lots import Lot, lots_of, prone_woods
from stacklint.faults import Assumption
from stacklint.layout.arrangement import Arrangement, Odd
from stacklint.plan.shelter import PlaceKind, SideKind
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.supports import BearerKind, Flatness, Soil
from stacklint.plan.yard import Kiln, Site, StockKind
from stacklint.show import show
from stacklint.tables.kin import kin_of
from stacklint.tables.wood import Wood
from stacklint.units import GRAVITY, LENGTH, ONE_DAY, ONE_INCH, System, Unit

_HOT_PLACES = frozenset({PlaceKind.ATTIC, PlaceKind.GREENHOUSE})
_DRY = 0.20
"""Moisture content below which stain stops (Univ. Missouri Extension G5550) and stickers only steady a pile (common
practice): woods prone to warp or stain are named only above it."""
_NEARLY = ONE_INCH
"""A sticker so little too short still serves (Wengert: 1 to 2 in short already raises cup)."""
_AIRLESS = frozenset(
    {
        PlaceKind.ATTIC,
        PlaceKind.BASEMENT,
        PlaceKind.CONTAINER,
        PlaceKind.GARAGE,
        PlaceKind.CLOSED_BARN,
        PlaceKind.GREENHOUSE,
    }
)
_OUTDOORS = frozenset({PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED})


class Gathered(NamedTuple):
    """The facts of a stack and what had to be assumed for them."""

    facts: StackFacts
    assumptions: tuple[Assumption, ...]
    forecast: Forecast | NoForecast


def gather(
    stack: Stack,
    arrangement: Arrangement,
    woods: Mapping[str, Wood],
    kiln: Kiln | None,
    system: System,
    *,
    sites: Sequence[Site],
    today: datetime.date,
    goes_to_kiln: bool = False,
    look_for_shorter: bool = False,
) -> Gathered:
    """The facts of one stack, and how it dries.

    Args:
        arrangement: of its boards; it must hold at least one course.
        woods: every wood that the stack names, by the name it uses.
        sites: those of the plan.
        today: taken for a day of stacking that is not given.
        goes_to_kiln: a charge of the plan takes its boards from it.
        look_for_shorter: the forecast also says what would bring its day forward.
    """
    place, in_open, assumptions = _place(stack)
    temperature = _temperature(stack, kiln)
    lots = lots_of(stack, arrangement, woods, temperature)
    mass = sum(lot.mass(lot.moisture.value) for lot in lots.values())
    top_mass, top_pressure = _top_load(stack, arrangement)
    load = mass + top_mass + shelter_facts.cover_mass(stack, arrangement)
    bend = None
    if "bearers" not in stack.faulty:
        bend = foundation_facts.stack_bend(arrangement, lots, load, temperature)
    boards = board_facts.board_facts(
        arrangement, lots, top_pressure=top_pressure, temperature=temperature, bend=bend, system=system
    )
    base = foundation_facts.foundation(stack, arrangement, lots, woods, load=load, bend=bend, temperature=temperature)
    drying = drying_facts.drying(stack, lots, sites, kiln, today, system, look_for_shorter=look_for_shorter)
    assumptions += (*drying.assumptions, *_moisture_assumptions(lots), *_kin_assumptions(lots))
    assumptions += shelter_facts.cover_assumptions(stack, in_open=bool(in_open))
    if place in _OUTDOORS:
        assumptions += shelter_facts.machine_outdoors(stack)
    air = air_facts.air(stack, arrangement, kiln, base.rest)
    treatment, unsaid = finish_facts.treatment(stack, lots, kiln, sites, system)
    assumptions += base.assumptions + air.assumptions + unsaid
    facts = StackFacts(
        where=stack.name.where,
        system=system,
        lacks=lacks(stack, lots, kiln, sites, drying, base.bearers),
        name=stack.name.text,
        kind=stack.kind.value,
        is_charge=stack.kind is StackKind.CHARGE,
        place=place.value if place is not None else None,
        in_open=in_open,
        indoors=place is not None and place not in _OUTDOORS,
        hot=place in _HOT_PLACES or stack.kind is StackKind.CHARGE,
        temperature=temperature,
        groups=group_facts.groups(stack, lots.values(), arrangement, boards.widest, drying.forecast),
        courses=board_facts.courses(arrangement, lots),
        ends=boards.ends,
        joints=boards.joints,
        boards=boards.boards,
        spans=boards.spans,
        lines=base.lines,
        bearers=base.bearers,
        pads=base.pads,
        sides=shelter_facts.sides(stack, arrangement),
        fits=shelter_facts.fits(stack, arrangement, kiln, base.rest + arrangement.height, system),
        cover=shelter_facts.cover_facts(stack, arrangement),
        kiln=shelter_facts.kiln_facts(kiln),
        sag_max=boards.largest_sag,
        end_max=boards.longest_end,
        load=load,
        load_target=_load_target(stack, lots, load, mass),
        kiln_measure=_kiln_measure(kiln, lots),
        top_pressure=None if "top load" in stack.faulty else top_pressure,
        strapped=stack.top_load is not None and stack.top_load.straps,
        **_amounts(stack, lots, mass),
        **_shape(stack, arrangement, lots, base, system),
        **drying.facts,
        **_footing(stack, arrangement, base, load),
        **_wind(stack, arrangement, lots, mass, load, base),
        **_shelter(stack),
        **air.facts,
        **treatment,
        goes_to_kiln=goes_to_kiln,
        sticker_stock=_sticker_stock(stack, sites, arrangement.sticker_length),
        **statement_facts.statements(stack),
    )
    return Gathered(facts, arrangement.assumptions + assumptions, drying.forecast)


def _place(stack: Stack) -> tuple[PlaceKind | None, bool | None, tuple[Assumption, ...]]:
    if stack.kind is StackKind.CHARGE:
        if stack.kiln is not None or "charge" in stack.faulty or "kiln" in stack.faulty:
            return PlaceKind.KILN, False, ()
        text = "The charge names no kiln: its size and load are held against none."
        return PlaceKind.KILN, False, (Assumption(stack.name.where, text, "in kiln"),)
    if stack.place is not None:
        said = stack.place.said
        if said is not None:
            text = f"{said[:1].upper()}{said[1:]} is taken as {_article(stack.place.kind.value)}."
            taken = (Assumption(stack.place.where, text, "place"),)
            return stack.place.kind, stack.place.kind is PlaceKind.OPEN_YARD, taken
        return stack.place.kind, stack.place.kind is PlaceKind.OPEN_YARD, ()
    if "place" in stack.faulty:
        return None, None, ()
    text = "It is not said where the stack stands: an open yard is assumed."
    return PlaceKind.OPEN_YARD, True, (Assumption(stack.name.where, text, "place"),)


def _article(words: str) -> str:
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


def _temperature(stack: Stack, kiln: Kiln | None) -> float | None:
    """Highest of the air, degrees C: what the charge runs at or is held at, else what its kiln heats to."""
    if stack.kind is StackKind.CHARGE:
        said = [setting.dry_bulb.si for setting in stack.runs]
        if said:
            return max(said)
        return kiln.heats_to.si if kiln is not None and kiln.heats_to is not None else None
    if stack.place is not None and stack.place.temperature is not None:
        return stack.place.temperature.si
    return None


def _top_load(stack: Stack, arrangement: Arrangement) -> tuple[float, float]:
    """Mass (kg) and pressure (Pa) of weights on the top course. Straps count as none: they go slack."""
    area = arrangement.length * arrangement.width
    said = stack.top_load
    if said is None:
        return 0.0, 0.0
    if said.weight is not None:
        return said.weight.si, said.weight.si * GRAVITY / area
    if said.pressure is not None:
        return said.pressure.si * area / GRAVITY, said.pressure.si
    return 0.0, 0.0


def _moisture_assumptions(lots: Mapping[str, Lot]) -> tuple[Assumption, ...]:
    found = []
    for lot in lots.values():
        if lot.boards.moisture is None:
            text = f"The moisture of boards {lot.label} is not given: green, {lot.moisture.value:.0%}, is assumed."
            found.append(Assumption(lot.boards.where, text, "boards"))
    return tuple(found)


def _kin_assumptions(lots: Mapping[str, Lot]) -> Iterator[Assumption]:
    for lot in lots.values():
        kin = kin_of(lot.wood)
        if kin.nearest:
            text = f"How {lot.wood.name} dries is not known: it is taken to dry as {kin.lender}, the nearest in weight."
            yield Assumption(lot.boards.where, text, "like")


def _amounts(stack: Stack, lots: Mapping[str, Lot], mass: float) -> dict[str, Any]:
    wanted = stack.want.moisture.si if stack.want is not None and stack.want.moisture is not None else None
    target = None if wanted is None else sum(lot.mass(min(wanted, lot.moisture.value)) for lot in lots.values())
    wet = [lot for lot in lots.values() if lot.moisture.value > _DRY]
    heaviest = max(lots.values(), key=lambda lot: lot.weight_density * lot.largest_volume)
    return {
        "pieces": sum(lot.pieces for lot in lots.values()),
        "volume": sum(lot.volume for lot in lots.values()),
        "board_feet": sum(lot.board_feet for lot in lots.values()),
        "mass_now": mass,
        "mass_green": sum(lot.mass(lot.wood.mc_green) for lot in lots.values()),
        "mass_target": target,
        "water": None if target is None else mass - target,
        "wettest": max(lot.moisture.value for lot in lots.values()),
        "driest": min(lot.moisture.value for lot in lots.values()),
        "moisture_stated": all(lot.moisture.stated for lot in lots.values()),
        "wanted": wanted,
        "warp_prone": prone_woods((lot.wood, lot.wood.warp_prone) for lot in wet),
        "stain_prone": prone_woods((lot.wood, lot.wood.stain_prone) for lot in wet),
        "heaviest_board": heaviest.weight_density / GRAVITY * heaviest.largest_volume,
        "heaviest_words": heaviest.words,
    }


def _load_target(stack: Stack, lots: Mapping[str, Lot], load: float, mass: float) -> float | None:
    if stack.want is None or stack.want.moisture is None:
        return None
    wanted = stack.want.moisture.si
    return load - mass + sum(lot.mass(min(wanted, lot.moisture.value)) for lot in lots.values())


def _kiln_measure(kiln: Kiln | None, lots: Mapping[str, Lot]) -> float | None:
    """A rating in board feet counts boards under 1 in as 1 in; one in cubic metres or feet counts the wood."""
    if kiln is None or kiln.holds is None:
        return None
    if kiln.holds.unit is Unit.BOARD_FOOT:
        return sum(lot.board_feet for lot in lots.values())
    return sum(lot.volume for lot in lots.values())


def _shape(
    stack: Stack, arrangement: Arrangement, lots: Mapping[str, Lot], base: Foundation, system: System
) -> dict[str, Any]:
    top = base.rest + arrangement.height
    xs = [line.x for line in arrangement.sticker_lines]
    return {
        "length": arrangement.length,
        "width": arrangement.width,
        "height": arrangement.height,
        "clearance": None if "bearers" in stack.faulty and stack.clearance is None else base.clearance,
        "top": top,
        "courses_high": arrangement.course_count,
        "slenderness": top / arrangement.width,
        "unpaired": sum(odd.count for odd in arrangement.unpaired),
        "left_over": sum(odd.count for odd in arrangement.left_over),
        "matching": _matching(arrangement, system),
        "unpaired_boards": _odd_boards(arrangement.unpaired, lots, system),
        "stickered": None if not xs and "stickers" in stack.faulty else bool(xs),
        "sticker_spacing": max((b - a for a, b in pairwise(xs)), default=None),
        "sticker_lines": len(xs),
        "sticker_count": arrangement.sticker_count,
        "sticker_thickness": arrangement.sticker_thickness,
        "sticker_length": arrangement.sticker_length,
        "piled_solid": stack.stickers.none if stack.stickers is not None else None,
        "sticker_thinnest": arrangement.sticker_thickness_low if xs else None,
        "sticker_width": arrangement.sticker_width if xs else None,
        "grooved": stack.stickers is not None and stack.stickers.grooved,
        "stickers_state": stack.stickers.state.value if stack.stickers is not None and stack.stickers.state else None,
        "sticker_shortfall": arrangement.width - arrangement.sticker_length if xs else None,
        "stickers_in_line": stack.stickers is None or not stack.stickers.out_of_line,
    }


def _sticker_stock(stack: Stack, sites: Sequence[Site], needed: float) -> float | None:
    """Stickers at the stack's site of the length needed or longer, and those of no length said."""
    site, _ = site_of(stack, sites)
    stickers = [stock for stock in site.stock if stock.kind is StockKind.STICKERS] if site is not None else []
    if not stickers:
        return None
    lots = (stock for stock in stickers if stock.length is None or stock.length.si >= needed - _NEARLY)
    return float(sum(stock.count for stock in lots))


def _matching(arrangement: Arrangement, system: System) -> str:
    parts = []
    for pattern in arrangement.matching:
        if pattern.fills:
            lengths = " + ".join(show(length, LENGTH, system) for length in pattern.lengths)
            parts.append(f"{pattern.count} of {lengths}")
    return ", ".join(parts) or f"none that fill {show(arrangement.length, LENGTH, system)}"


def _odd_boards(odds: tuple[Odd, ...], lots: Mapping[str, Lot], system: System) -> str:
    by_length: dict[tuple[float, str], int] = {}
    for odd in odds:
        wood = lots[odd.label].wood.name if odd.label in lots else odd.label
        key = (round(odd.length, 4), wood)
        by_length[key] = by_length.get(key, 0) + odd.count
    several = len({wood for _, wood in by_length}) > 1
    parts = [
        f"{count} of {show(length, LENGTH, system)}{f' ({wood})' if several else ''}"
        for (length, wood), count in sorted(by_length.items(), reverse=True)
    ]
    return ", ".join(parts)


def _footing(stack: Stack, arrangement: Arrangement, base: Foundation, load: float) -> dict[str, Any]:
    ground = stack.ground
    flatness = ground.flatness if ground is not None else None
    unknown = flatness is None and "ground" in stack.faulty
    if flatness is None and not unknown:
        flatness = Flatness.FLAT
    on_floor = arrangement.whole_floor
    carries = stack.bearers.carries.si if stack.bearers is not None and stack.bearers.carries is not None else None
    floor = stack.place.floor_carries.si if stack.place is not None and stack.place.floor_carries is not None else None
    pallets = stack.bearers is not None and stack.bearers.kind is BearerKind.PALLETS
    return {
        "flatness": flatness.value if flatness is not None else None,
        "uneven_by": ground.uneven_by.si if ground is not None and ground.uneven_by is not None else None,
        "flatness_stated": ground is not None and ground.flatness is not None,
        "on_bearers": None if "bearers" in stack.faulty else not on_floor and not pallets,
        "ground": base.soil.value if base.soil is not None else None,
        "ground_words": base.soil.value if base.soil is not None else "the ground",
        "ground_matters": foundation_facts.stands_on_soil(stack) and base.soil is not Soil.CONCRETE,
        "closed_in": stack.place is not None and stack.place.kind in _AIRLESS,
        "frame_carries": carries,
        "floor_pressure": load * GRAVITY / (arrangement.length * arrangement.width),
        "floor_carries": floor,
    }


def _wind(
    stack: Stack, arrangement: Arrangement, lots: Mapping[str, Lot], mass: float, load: float, base: Foundation
) -> dict[str, Any]:
    """Overturning now, and when dry: at the wanted moisture content, or at 12% where none is wanted."""
    wanted = stack.want.moisture.si if stack.want is not None and stack.want.moisture is not None else 0.12
    dry = load - mass + sum(lot.mass(min(wanted, lot.moisture.value)) for lot in lots.values())
    top = base.rest + arrangement.height
    size = (arrangement.length, arrangement.width, top, base.rest)
    return {
        "wind_speed": wind.GUST,
        "overturning": wind.overturning(load, *size),
        "dry_overturning": wind.overturning(dry, *size),
    }


def _shelter(stack: Stack) -> dict[str, Any]:
    sides, size, wind_said = stack.sides, stack.size, stack.wind
    closed = sides is not None and sides.kind in (SideKind.PLASTIC, SideKind.BOARDS) and not sides.on_one_side
    hangs = stack.cover is not None and stack.cover.hanging_down
    unknown = ("sides" in stack.faulty and sides is None) or ("cover" in stack.faulty and stack.cover is None)
    waiting = None
    if stack.sawn is not None and stack.stacked is not None:
        waiting = (stack.stacked.date - stack.sawn.date).days * ONE_DAY
    return {
        "ends_stated": None if "ends" in stack.faulty else stack.ends is not None,
        "end_coat": stack.ends.coat.value if stack.ends is not None else None,
        "days_waiting": waiting,
        "stacked_month": float(stack.stacked.date.month) if stack.stacked is not None else None,
        "fan": None if "fan" in stack.faulty else stack.fan is not None,
        "sealed": None if unknown and not closed and not hangs else (closed and not (sides and sides.on_ends)) or hangs,
        "sides_words": f"{sides.kind.value} on its sides" if closed and sides else "a cover that hangs down",
        "wind_along": None if wind_said is None else not wind_said.across,
        "board_gap": size.boards_apart.si if size is not None and size.boards_apart is not None else None,
        "next_pile": size.next_pile.si if size is not None and size.next_pile is not None else None,
        "flue": size is not None and size.flue is not None,
    }
