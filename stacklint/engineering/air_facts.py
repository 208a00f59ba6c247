"""Facts of the air that a kiln's fans send through a charge and round it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from stacklint.drying import kiln_air
from stacklint.drying.kiln_air import Charge, Gaps, Room
from stacklint.engineering.part_facts import Statement
from stacklint.faults import Assumption
from stacklint.findings import Mark, Part
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.stack import Baffles, Stack
from stacklint.plan.yard import Kiln
from stacklint.units import ONE_INCH

_SLIT = ONE_INCH / 2
"""A gap no wider than this is no way for the air worth a baffle (common practice, no published source)."""


class AirFacts(NamedTuple):
    """The facts, by name, and what had to be assumed for them."""

    facts: dict[str, Any]
    assumptions: tuple[Assumption, ...]


def air(stack: Stack, arrangement: Arrangement, kiln: Kiln | None, clearance: float) -> AirFacts:
    """Of any stack the openings; of a charge in a kiln that says its fans, what they make of them."""
    openings, height = _openings(arrangement)
    baffles = stack.baffles
    facts: dict[str, Any] = {
        "open_area": openings,
        "openings_height": height,
        "baffles_said": Statement(where=(baffles or stack.name).where, marks=(Mark(Part.COURSE),)),
        "baffles_stated": None if "baffles" in stack.faulty else baffles is not None,
    }
    if kiln is None:
        return AirFacts(facts, ())
    if kiln.plenum is not None and height:
        facts["plenum_ratio"] = kiln.plenum.si / height
    if kiln.fan_count is None or kiln.fan_each is None or not openings:
        return AirFacts(facts, ())
    delivery = kiln.fan_count * kiln.fan_each.si
    facts["fan_delivery"] = delivery
    if "baffles" in stack.faulty:
        return AirFacts(facts, ())
    return _round_it(facts, stack, arrangement, kiln, clearance)


def _round_it(facts: dict[str, Any], stack: Stack, arrangement: Arrangement, kiln: Kiln, clearance: float) -> AirFacts:
    """What goes round the charge; where the kiln's inside is not known no gap is, and the speed the most it can be."""
    baffles = stack.baffles or Baffles()
    found = _gaps(baffles, arrangement, kiln, clearance)
    openings, delivery = facts["open_area"], facts["fan_delivery"]
    if found is None:
        facts["air_speed"] = kiln_air.speed(delivery, openings, 0.0)
        left = [words for words, closed in zip(_WAYS, _closed(baffles), strict=True) if not closed]
        facts["gaps"] = _listed(left)
        return AirFacts(facts, ())
    share = kiln_air.bypass(openings, found)
    facts["bypass"] = share
    facts["air_speed"] = kiln_air.speed(delivery, openings, share)
    facts["gaps"] = _listed([words for words, area in zip(_WAYS, found, strict=True) if area > 0])
    if stack.baffles is not None or not share:
        return AirFacts(facts, ())
    text = f"It is not said whether baffles close the ways for the air {facts['gaps']}: none are assumed."
    return AirFacts(facts, (Assumption(stack.name.where, text, "baffles"),))


_WAYS = ("over its top", "round its ends", "under it")


def _listed(ways: Sequence[str]) -> str:
    """``over its top, round its ends and under it``."""
    return " and ".join(part for part in (", ".join(ways[:-1]), *ways[-1:]) if part)


def _closed(baffles: Baffles) -> tuple[bool, bool, bool]:
    return baffles.top, baffles.ends, baffles.floor


def _openings(arrangement: Arrangement) -> tuple[float | None, float | None]:
    """Area and height of one long side's openings; unknown without stickers."""
    lines = len(arrangement.sticker_lines)
    if not lines:
        return None, None
    courses, thickness = arrangement.course_count, arrangement.sticker_thickness
    area = kiln_air.open_area(courses, thickness, arrangement.length, lines * arrangement.sticker_width)
    return area, courses * thickness


def _gaps(baffles: Baffles, arrangement: Arrangement, kiln: Kiln, clearance: float) -> Gaps | None:
    """``None`` where the kiln's inside is not given and some way is open."""
    top, ends, floor = _closed(baffles)
    if kiln.inside is None:
        return Gaps(0.0, 0.0, 0.0) if top and ends and floor else None
    room = Room(kiln.inside.length.si, kiln.inside.height.si)
    bearers = len(arrangement.bearers) * arrangement.bearer_width
    charge = Charge(arrangement.length, clearance + arrangement.height, clearance, bearers)
    return kiln_air.gaps(
        room,
        charge,
        top=top or room.height - charge.top <= _SLIT,
        ends=ends or room.length - charge.length <= _SLIT,
        floor=floor or clearance <= _SLIT,
    )
