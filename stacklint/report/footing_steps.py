"""The steps from the bare ground to the first stickers."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.plan.shelter import EndCoat
from stacklint.plan.stack import Stack
from stacklint.plan.supports import Flatness, Wetness
from stacklint.report.built import Built, counted
from stacklint.report.cut_list import bearer_section, sticker_section, sticker_state
from stacklint.report.piers import Piers, bed, bedding, piers_of, reach, tops_of_bearers
from stacklint.report.steps import Places, Step

_COATS = {
    EndCoat.COATED: "Coat the ends of all boards before they are stacked.",
    EndCoat.COATED_AT_SAW: "The ends are coated at the saw, as the boards come off it.",
    EndCoat.COATED_LATE: "The ends were coated late: look for checks, and coat again what is bare.",
    EndCoat.PAINTED: "The ends are painted: look for bare spots, and paint them over.",
    EndCoat.BARE: "The ends stay bare.",
}


def before(built: Built, *, cuts: bool) -> Step | None:
    """``cuts``: there is a cut list."""
    stack = built.stack
    lines = [_COATS[stack.ends.coat]] if stack.ends is not None else []
    if len(stack.boards) > 1:
        lines.append("Sort the boards by the letters of the tally, and set them down within reach of the stack.")
    if cuts:
        lines.append("Cut, count and bring all that the cut list names.")
    return Step("Before the first board", tuple(lines)) if lines else None


def ground(built: Built) -> Step:
    stack, laid = built.stack, built.laid
    lines = [f"Mark out {built.length(laid.length)} along the boards x {built.length(laid.width)} across them."]
    if built.on_pallets:
        lines.append("Lay pallets of one height over the whole of it, side by side.")
    if built.surface == "floor":
        if laid.whole_floor and not built.on_pallets:
            lines.append(f"The floor is to be flat within {built.flat}: the lowest boards dry to its shape.")
        return Step("Floor", (*lines, *_flatness(built)))
    lines += _soil(stack)
    if built.surface == "slab":
        lines.append("Sweep it, and let no water stand on it.")
    else:
        lines.append("Clear it of plants, bark and scraps, and let no water stand on it.")
    lines += _flatness(built)
    lines += _round_about(stack, built)
    return Step("Ground", tuple(lines))


def _soil(stack: Stack) -> Iterator[str]:
    said = stack.ground
    if said is None:
        return
    words = [said.soil.value] if said.soil is not None else []
    words += [said.wetness.value] if said.wetness is not None else []
    if words:
        yield f"The ground: {', '.join(words)}."
    if said.wetness is Wetness.DAMP:
        yield "Keep it drained: lead water away before the stack is built."


def _flatness(built: Built) -> Iterator[str]:
    said = built.stack.ground
    if said is None or said.flatness is None:
        return
    what = "the supports" if built.on_bearers or built.on_pallets else "the lowest stickers"
    if said.flatness in (Flatness.TWISTED, Flatness.UNEVEN):
        by = f" by {built.length(said.uneven_by.si)}" if said.uneven_by is not None else ""
        yield f"It is {said.flatness.value}{by} by the plan: shim {what} into one plane before anything is laid."
    elif said.flatness is Flatness.SLOPED:
        yield f"It slopes: along the boards that does no harm, as long as {what} lie in one plane."


def _round_about(stack: Stack, built: Built) -> Iterator[str]:
    if stack.wind is not None:
        across = "crosses the boards" if stack.wind.across else "runs along the boards"
        yield f"The usual wind {across}."
    if stack.size is not None and stack.size.next_pile is not None:
        yield f"Leave {built.length(stack.size.next_pile.si)} free to the next pile."


def pads(built: Built) -> Step | None:
    piers = piers_of(built)
    if piers is None:
        return None
    each = piers.stands.under_each
    where = {1: "one in the middle", 2: "one at each end"}.get(each, "one at each end and the others evenly between")
    under = f"{each} under each bearer" if piers.tiers == 1 else f"{each} piers under each bearer, {piers.tiers} high"
    lines = [f"Set {piers.number} {piers.word}, {under}: {where}."]
    if piers.stands.across > piers.stands.along + 1e-6:
        lines.append("Their long sides lie along the boards.")
    if piers.stands.blocks:
        lines += _blocks(built, piers)
    tops = f"Tops of the {piers.word} {reach(piers.top, built)}; tops of the bearers {reach_of_bearers(built)}"
    made_up = bedding(piers, built)
    lines += [f"{tops}{f': {made_up}' if made_up else ''}.", "Bed each so that none rocks."]
    return Step(piers.word.capitalize(), tuple(lines))


def _blocks(built: Built, piers: Piers) -> Iterator[str]:
    """Which way up, as the check of the ground takes them."""
    high = f", {built.length(piers.each)} high" if piers.each else ""
    yield f"Each stands on its {bed(piers.stands, built)} side{high}; hollow ones with their cores upright."


def reach_of_bearers(built: Built) -> str:
    return built.length(tops_of_bearers(built))


def bearers(built: Built) -> Step | None:
    laid, facts = built.laid, built.facts
    if not built.on_bearers:
        return None
    lines = [f"Lay {counted(len(laid.bearers), 'bearer')} of {bearer_section(built)} across the stack."]
    if laid.bearer_depth > laid.bearer_width + 1e-6:
        lines.append(f"They stand on edge, {built.length(laid.bearer_depth)} deep.")
    lines.append(
        f"Their tops lie in one plane within {built.flat}: stretch a string along both sides and from corner to corner."
        " A slope along the boards does no harm; a twist does."
    )
    if facts.clearance:
        lines.append(
            f"Tops {reach_of_bearers(built)}, lowest boards {built.length(facts.clearance)} above the {built.surface}."
        )
    return Step("Bearers", tuple(lines), Places("Middles of the bearers from the left end", laid.bearers))


def first_stickers(built: Built) -> Step | None:
    laid = built.laid
    if not laid.sticker_lines:
        return None
    lines = [
        f"Lay {len(laid.sticker_lines)} stickers of {sticker_section(built.stack, laid, built.system)}"
        f"{sticker_state(built.stack)}, {built.length(laid.sticker_length)} long, across the stack."
    ]
    off = [built.length(line.x) for line in laid.sticker_lines if line.bearer is None]
    if off:
        lines.append(f"No bearer stands under {'that' if len(off) == 1 else 'those'} at {', '.join(off)}.")
    elif built.on_bearers:
        lines.append("Each lies on a bearer.")
    return Step(
        "First stickers",
        tuple(lines),
        Places("Middles of the stickers from the left end", tuple(line.x for line in laid.sticker_lines)),
    )
