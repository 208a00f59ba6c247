"""Facts of what the boards are for: the sizes that they come out at, the use's moisture content, the heat."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Any

from stacklint.drying import finish, heating, times
from stacklint.drying.surroundings import site_of
from stacklint.engineering.lots import Lot, prone_woods
from stacklint.engineering.part_facts import Statement
from stacklint.faults import Assumption
from stacklint.plan.boards import MoistureWord
from stacklint.plan.node import Quantity, Range
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln, Site
from stacklint.show import percent
from stacklint.units import System

_CHARGE_END = 0.08
"""Moisture content that a kiln charge is taken to be dried to where nothing says: boards for furniture come out of the
kiln at 6 to 8% (Wood Handbook ch. 13, https://issuhub.com/view/index?id=5801&pageIndex=304)."""
_COLD_CHARGE = 20.0
"""C, of boards before the heat where nothing says how the kiln runs (common practice, no source: room temperature)."""


_HOT = MappingProxyType({System.INCH: heating.MEASURED_AT, System.METRIC: 70.0})
"""C, of air that is hot enough, in round figures: 160 F, 70 C."""


def sizes(lot: Lot, stack: Stack) -> dict[str, Any]:
    """Facts of one group: what its boards measure when dry, and what is wanted of them."""
    boards = lot.boards
    dried_to = min(_dried_to(stack), lot.moisture.value)
    shrinks = finish.shrinkage_of(lot.wood, boards.face, both_ways=boards.squares or boards.boxed_heart)
    width = _narrowest(boards.width)
    if boards.live_edge:
        width = None
    thickness_wanted, width_wanted = _wanted(lot, stack)
    return {
        "dried_to": dried_to,
        "thickness_dry": finish.dry_size(lot.thickness, shrinks.thickness, dried_to),
        "width_narrowest": width,
        "width_dry": finish.dry_size(width, shrinks.width, dried_to) if width is not None else None,
        "wanted_thickness": thickness_wanted,
        "wanted_width": width_wanted,
        "powderpost_prone": lot.wood.powderpost_prone,
    }


def treatment(
    stack: Stack, lots: Mapping[str, Lot], kiln: Kiln | None, sites: Sequence[Site], system: System
) -> tuple[dict[str, Any], tuple[Assumption, ...]]:
    """Facts of a whole stack, by name, and what had to be assumed for them."""
    facts: dict[str, Any] = {
        "heat_said": Statement(where=(stack.hold or stack.sterilize or stack.name).where),
    }
    assumptions: tuple[Assumption, ...] = ()
    if stack.want is not None and stack.want.use is not None:
        assumptions = _use(facts, stack, lots, sites)
    if stack.kind is StackKind.CHARGE:
        facts.update(_heat(stack, lots, kiln, system))
    return facts, assumptions


def _use(facts: dict[str, Any], stack: Stack, lots: Mapping[str, Lot], sites: Sequence[Site]) -> tuple[Assumption, ...]:
    from stacklint.tables import targets

    assert stack.want is not None and stack.want.use is not None
    said = stack.want.use
    facts["use"] = said.text
    text = f"No published moisture content is known for {said.text}: what is wanted is taken as it stands."
    unknown = (Assumption(said.where, text, "want"),)
    known = targets.find(said.text)
    if known is None:
        return unknown
    facts["indoor_use"] = known.indoors
    alive = (lot.wood for lot in lots.values() if not _from_a_kiln(lot))
    facts["powderpost_prone"] = prone_woods((wood, wood.powderpost_prone) for wood in alive)
    target = targets.range_for(said.text, _near(stack, sites))
    if target is None:
        return unknown
    low, high = target.low, target.high
    facts |= {
        "target_low": low if low is not None else 0.0,
        "target_high": high,
        "target_range": _range(low, high),
        "target_of": target.words,
        "target_source": f"{target.title}{', recalled' if target.memory else ''}",
    }
    return ()


def _from_a_kiln(lot: Lot) -> bool:
    """Boards said to be kiln dried, or drier than air gets them, were hot already."""
    return lot.boards.moisture is MoistureWord.KILN_DRIED or lot.moisture.value < times.AIR_EQUILIBRIUM


def _near(stack: Stack, sites: Sequence[Site]) -> str | None:
    """The climate table's place that the stack stands near."""
    site, _ = site_of(stack, sites)
    return site.near.text if site is not None and site.near is not None else None


def _range(low: float | None, high: float | None) -> str:
    """``6 to 9%``, ``19% or less``."""
    if high is None:
        return f"{percent(low or 0.0)} or more"
    return f"{percent(high)} or less" if low is None else f"{percent(low).rstrip('%')} to {percent(high)}"


def _heat(stack: Stack, lots: Mapping[str, Lot], kiln: Kiln | None, system: System) -> dict[str, Any]:
    """How hot the charge gets, and how long its thickest boards take to be hot through."""
    reaches = kiln.heats_to.si if kiln is not None and kiln.heats_to is not None else None
    hold = stack.hold
    said = [setting.dry_bulb.si for setting in stack.runs]
    if hold is not None:
        said.append(hold.temperature.si)
    if reaches is not None and (not said or stack.sterilize is not None or stack.schedule is not None):
        said.append(reaches)
    unknown = not {"hold", "sterilize", "runs at", "schedule"}.isdisjoint(stack.faulty)
    facts: dict[str, Any] = {
        "hottest": max(said) if said and not unknown else None,
        "heat_asked": hold is not None or stack.sterilize is not None,
        "hold_temperature": _as_said(hold.temperature.si, reaches) if hold is not None else None,
        "hold_time": hold.time.si if hold is not None else None,
    }
    if not facts["heat_asked"]:
        return facts
    at = hold.temperature.si if hold is not None else reaches
    facts["heat_temperature"] = at
    enough = at if at is not None and at > heating.CORE + 2 else _HOT[system]
    thickest = max(lots.values(), key=lambda lot: (lot.thickness, lot.width))
    solid = stack.stickers is not None and stack.stickers.none
    start = _start(stack)
    time = heating.heating_time(thickest.thickness, thickest.width, start, enough, solid=solid)
    assert time is not None  # the air is hotter than the core should be
    return facts | {
        "heating_at": enough,
        "heating_from": start,
        "heating_low": time.low,
        "heating_high": time.high,
        "thickest_boards": thickest.words,
    }


def _as_said(held: float, reaches: float | None) -> float:
    """C. Heats said in Fahrenheit and in Celsius may differ by a degree and be meant alike."""
    return reaches if reaches is not None and reaches < held <= reaches + 1.0 else held


def _start(stack: Stack) -> float:
    """How warm the boards are before the heat, C: as warm as the wet bulb of the last setting, for what dries from wet
    wood cools it; as a room where no setting is given."""
    if not stack.runs:
        return _COLD_CHARGE
    last = stack.runs[-1]
    if last.wet_bulb is not None:
        return last.wet_bulb.si
    if last.humidity is None:
        return _COLD_CHARGE
    from stacklint.drying.air import wet_bulb

    return wet_bulb(last.dry_bulb.si, min(max(last.humidity.si, 0.01), 1.0))


def _dried_to(stack: Stack) -> float:
    """What is wanted; else what air drying comes to (12%), or a kiln charge for furniture (8%)."""
    if stack.want is not None and stack.want.moisture is not None:
        return stack.want.moisture.si
    return times.AIR_EQUILIBRIUM if stack.kind is StackKind.PILE else _CHARGE_END


def _narrowest(width: Quantity | Range | None) -> float | None:
    """Of the boards of a group, m; unknown for random widths."""
    if width is None:
        return None
    return width.low.si if isinstance(width, Range) else width.si


def _wanted(lot: Lot, stack: Stack) -> tuple[float | None, float | None]:
    """Thickness and width wanted of a group: what its own line says, what is wanted of it, what is wanted of all."""
    if "wanted" in stack.faulty:
        return (lot.boards.finished.si if lot.boards.finished is not None else None), None
    own = [wish for wish in stack.wanted if wish.label is not None and wish.label.text == lot.label]
    of_all = [wish for wish in stack.wanted if wish.label is None]
    thickness = _first([lot.boards.finished, *(wish.thickness for wish in (*own, *of_all))])
    return thickness, _first(wish.width for wish in (*own, *of_all))


def _first(sizes: Iterable[Quantity | None]) -> float | None:
    return next((size.si for size in sizes if size is not None), None)
