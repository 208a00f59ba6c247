"""The build list: what to do, in order, from the bare ground to the tied cover, or to the running kiln."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.engineering.facts import StackFacts
from stacklint.engineering.foundation_facts import standing, stands_on_soil
from stacklint.layout.arrangement import Arrangement, Odd
from stacklint.plan.shelter import EndCoat, Fastening, SideKind
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind, Flatness, Wetness
from stacklint.report.cut_list import cover_size, sticker_section, sticker_state, top_weight
from stacklint.report.kiln_steps import before_loading, kiln_steps
from stacklint.report.laying import layings
from stacklint.report.steps import Places, Step
from stacklint.report.tape import tape
from stacklint.show import rounded, show
from stacklint.units import LENGTH, MASS, System

_COATS = {
    EndCoat.COATED: "Coat the ends of all boards before they are stacked.",
    EndCoat.COATED_AT_SAW: "The ends are coated at the saw, as the boards come off it.",
    EndCoat.COATED_LATE: "The ends were coated late: look for checks, and coat again what is bare.",
    EndCoat.PAINTED: "The ends are painted: look for bare spots, and paint them over.",
    EndCoat.BARE: "The ends stay bare.",
}


class _Built(NamedTuple):
    """What the steps are told from."""

    stack: Stack
    laid: Arrangement
    facts: StackFacts

    @property
    def system(self) -> System:
        return self.facts.system

    @property
    def flat(self) -> str:
        """Within which supports lie in one plane: as the rule ground-not-flat has it."""
        return "1/4 in" if self.system is System.INCH else "6 mm"

    def length(self, metres: float) -> str:
        return show(metres, LENGTH, self.system)


def build_list(checked: CheckedStack) -> tuple[Step, ...]:
    """The steps in order; none where the stack could not be laid out."""
    if checked.arrangement is None or checked.facts is None:
        return ()
    built = _Built(checked.stack, checked.arrangement, checked.facts)
    charge = bool(built.facts.is_charge)
    steps = (
        before_loading(checked) if charge else _before(built),
        _ground(built),
        _pads(built),
        _bearers(built),
        _first_stickers(built),
        _courses(built),
        _weights(built),
        *(kiln_steps(checked) if charge else ()),
        _cover(built),
        _sides(built),
    )
    return tuple(step for step in steps if step is not None)


def _before(built: _Built) -> Step:
    stack = built.stack
    lines = [_COATS[stack.ends.coat]] if stack.ends is not None else []
    if len(stack.boards) > 1:
        lines.append("Sort the boards by the letters of the tally, and set them down within reach of the stack.")
    lines.append("Cut, count and bring all that the cut list names.")
    return Step("Before the first board", tuple(lines))


def _ground(built: _Built) -> Step:
    stack, laid = built.stack, built.laid
    footprint = f"Mark out {built.length(laid.length)} along the boards x {built.length(laid.width)} across them."
    if stack.bearers is not None and stack.bearers.kind is BearerKind.PALLETS:
        footprint += " Lay pallets of one height over the whole of it, side by side."
    lines = [footprint]
    if not stands_on_soil(stack):
        lines.append(f"The floor is to be flat within {built.flat}: the lowest boards dry to its shape.")
        return Step("Floor", (*lines, *_flatness(built)))
    said = stack.ground
    if said is not None and said.soil is not None:
        wet = {Wetness.DAMP: ", damp", Wetness.DRAINED: ", drained", None: ""}[said.wetness]
        lines.append(f"The ground: {said.soil.value}{wet}.")
    lines.append("Clear it of plants, bark and scraps, and let no water stand on it.")
    lines += _flatness(built)
    lines += _round_about(stack, built)
    return Step("Ground", tuple(lines))


def _flatness(built: _Built) -> Iterator[str]:
    said = built.stack.ground
    if said is None or said.flatness is None:
        return
    if said.flatness in (Flatness.TWISTED, Flatness.UNEVEN):
        by = f" by {built.length(said.uneven_by.si)}" if said.uneven_by is not None else ""
        yield f"It is {said.flatness.value}{by} by the plan: shim the supports into one plane before anything is laid."
    elif said.flatness is Flatness.SLOPED:
        yield "It slopes: along the boards that does no harm, as long as the supports lie in one plane."


def _round_about(stack: Stack, built: _Built) -> Iterator[str]:
    if stack.wind is not None:
        across = "crosses the boards" if stack.wind.across else "runs along the boards"
        yield f"The usual wind {across}."
    if stack.size is not None and stack.size.next_pile is not None:
        yield f"Leave {built.length(stack.size.next_pile.si)} free to the next pile."


def _pads(built: _Built) -> Step | None:
    laid = built.laid
    stands, _ = standing(built.stack, laid)
    if laid.whole_floor or not laid.bearers or stands is None:
        return None
    what = "blocks" if stands.blocks else "pads"
    total = stands.under_each * len(laid.bearers)
    where = {1: "one in the middle", 2: "one at each end"}.get(
        stands.under_each, "one at each end and the others evenly between"
    )
    lines = [f"Set {total} {what}, {stands.under_each} under each bearer: {where}.", "Bed each so that none rocks."]
    if stands.blocks:
        lines.append("Hollow blocks stand with their cores upright.")
    return Step(what.capitalize(), tuple(lines))


def _bearers(built: _Built) -> Step | None:
    laid, facts = built.laid, built.facts
    if laid.whole_floor or not laid.bearers:
        return None
    section = facts.bearers[0].section if facts.bearers else None
    lines = [f"Lay {_counted(len(laid.bearers), 'bearer')}{f' of {section}' if section else ''} across the stack."]
    if section and laid.bearer_depth > laid.bearer_width + 1e-6:
        lines.append(f"They stand on edge, {tape(laid.bearer_depth, built.system)} deep.")
    lines.append(
        f"Their tops lie in one plane within {built.flat}: stretch a string along both sides and from corner to corner."
        " A slope along the boards does no harm; a twist does."
    )
    if facts.clearance:
        lines.append(f"The lowest boards come {built.length(facts.clearance)} above the ground.")
    return Step("Bearers", tuple(lines), Places("Middles of the bearers from the left end", laid.bearers))


def _first_stickers(built: _Built) -> Step | None:
    laid, system = built.laid, built.system
    if not laid.sticker_lines:
        return None
    section = sticker_section(built.stack, laid, system)
    lines = [
        f"Lay {len(laid.sticker_lines)} stickers of {section}{sticker_state(built.stack)},"
        f" {tape(laid.sticker_length, system)} long, across the stack."
    ]
    off = [tape(line.x, system) for line in laid.sticker_lines if line.bearer is None]
    if off:
        lines.append(f"No bearer stands under {'that' if len(off) == 1 else 'those'} at {', '.join(off)}.")
    elif not laid.whole_floor:
        lines.append("Each lies on a bearer.")
    return Step(
        "First stickers",
        tuple(lines),
        Places("Middles of the stickers from the left end", tuple(line.x for line in laid.sticker_lines)),
    )


def _courses(built: _Built) -> Step:
    laid = built.laid
    lines = [f"{_counted(laid.course_count, 'course')}, counted from the ground; boards from left to right."]
    if laid.sticker_lines:
        lines.append(
            f"A tier of {len(laid.sticker_lines)} stickers under every course, each straight over the one below."
        )
    else:
        lines.append("The courses lie on one another without stickers.")
    if laid.gap > 0:
        lines.append(f"Boards lie {built.length(laid.gap)} apart.")
    if built.stack.size is not None and built.stack.size.flue is not None:
        lines.append(f"Leave a flue {built.length(built.stack.size.flue.si)} wide up the middle.")
    lines.append("Keep both ends and both sides plumb; boards that meet in a joint both rest on its sticker.")
    if laid.left_over:
        lines.append(f"In no course: {_odds(laid.left_over, built)}. Lay them aside.")
    return Step("Courses", tuple(lines), layings=layings(laid, built.system))


def _odds(odds: tuple[Odd, ...], built: _Built) -> str:
    return ", ".join(f"{odd.count} of {built.length(odd.length)} ({odd.label})" for odd in odds)


def _weights(built: _Built) -> Step | None:
    said = built.stack.top_load
    if said is None:
        return None
    weight = top_weight(built.stack, built.laid)
    if weight:
        words = f"Lay {show(weight, MASS, built.system)} on the top course, spread over the sticker lines."
        return Step("Weights", (words, "Nothing that may roll or slide off; keep it low and tied."))
    if said.straps:
        return Step("Straps", ("Strap the stack over its sticker lines. Draw the straps tight again at each reading.",))
    return None


def _cover(built: _Built) -> Step | None:
    cover, size = built.stack.cover, cover_size(built.stack, built.laid)
    if cover is None or size is None:
        return None
    ends = f"{built.length(cover.overhang_ends.si)} past each end" if cover.overhang_ends is not None else ""
    sides = f"{built.length(cover.overhang_sides.si)} past each long side" if cover.overhang_sides is not None else ""
    reach = " and ".join(words for words in (ends, sides) if words)
    lines = [f"Cover of {cover.kind.value}{f', standing out {reach}' if reach else ''}."]
    if cover.gap is not None and cover.gap.si > 0:
        lines.append(f"Hold it {built.length(cover.gap.si)} off the top course, on strips over the sticker lines.")
    if cover.slope:
        lines.append(f"Let it fall 1 in {rounded(1 / cover.slope, 2)}, so that water runs off.")
    if cover.hanging_down:
        lines.append("It hangs down the sides.")
    if cover.fastening is Fastening.TIED:
        lines.append("Tie it down to the bearers as it is laid, and look at the ties after every storm.")
    elif cover.fastening is Fastening.WEIGHTED:
        weight = f" of {show(cover.weight.si, MASS, built.system)}" if cover.weight is not None else ""
        lines.append(f"Hold it down with weights{weight} that cannot slide off.")
    elif cover.fastening is Fastening.UNTIED:
        lines.append("By the plan it is not tied: see the cautions.")
    return Step("Cover", tuple(lines))


def _sides(built: _Built) -> Step | None:
    said = built.stack.sides
    if said is None or said.kind is SideKind.OPEN:
        return None
    where = "on one long side" if said.on_one_side else "on the ends" if said.on_ends else "all round"
    words = f"{said.kind.value.capitalize()} {where}."
    if said.kind is SideKind.SHADE_CLOTH:
        words += " Fasten it above and below, clear of the boards, so that air passes."
    return Step("Sides", (words,))


def _counted(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
