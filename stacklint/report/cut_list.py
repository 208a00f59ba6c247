"""What to cut and to fetch before a stack is built: stickers, bearers, pads, cover, weights."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.board_words import size_words
from stacklint.checked import CheckedStack
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind
from stacklint.report import cover_cuts
from stacklint.report.built import Built, counted
from stacklint.report.cuts import Cut
from stacklint.report.machines import fan_words, machine_words
from stacklint.report.piers import bed, bedding, piers_of, reach
from stacklint.report.tape import tape
from stacklint.tables import woods
from stacklint.units import System


def cut_list(checked: CheckedStack) -> tuple[Cut, ...]:
    """The parts from the ground up; none where the stack could not be laid out."""
    if checked.arrangement is None or checked.facts is None:
        return ()
    built = Built(checked.stack, checked.arrangement, checked.facts)
    return (
        *_pads(built),
        *_bearers(built),
        *_stickers(built),
        *cover_cuts.weights(built),
        *cover_cuts.cover(built),
        *cover_cuts.sides(built),
        *_machines(built),
    )


def _pads(built: Built) -> Iterator[Cut]:
    piers = piers_of(built)
    if piers is None:
        return
    said = built.stack.bearers.pads if built.stack.bearers is not None else None
    sides = " x ".join(size_words(side) for side in said.sides) if said is not None else ""
    under = f"{piers.stands.under_each} under each bearer"
    if piers.tiers > 1:
        under += f", {piers.tiers} high"
    made_up = bedding(piers, built)
    remark = f"{under}; tops {reach(piers.top, built)}{f': {made_up}' if made_up else ''}"
    yield Cut(piers.word, piers.number, "", sides or bed(piers.stands, built), remark)


def _bearers(built: Built) -> Iterator[Cut]:
    laid = built.laid
    if built.on_pallets:
        size = f"{built.length(laid.length)} x {built.length(laid.width)}"
        yield Cut("pallets", None, "", "", f"to carry {size}, all of one height")
    elif built.on_bearers:
        yield Cut("bearers", len(laid.bearers), built.length(laid.width), bearer_section(built))


def bearer_section(built: Built) -> str:
    """*4 in x 6 in of white oak*, in the plan's words; *(wood not said)* where it is not."""
    said, laid = built.stack.bearers, built.laid
    taken = (laid.bearer_width, laid.bearer_depth)
    sides = [size_words(side) for side in said.sides] if said is not None else []
    section = " x ".join(sides or [built.length(side) for side in taken])
    if said is not None and said.kind is BearerKind.STEEL:
        return f"{section} of steel"
    if said is None or said.wood is None:
        return f"{section} (wood not said)"
    known = woods.find(said.wood.text)
    return f"{section} of {known.name if known is not None else said.wood.text}"


def _stickers(built: Built) -> Iterator[Cut]:
    stack, laid = built.stack, built.laid
    if not laid.sticker_lines:
        return
    each = f"{len(laid.sticker_lines)} in each of {counted(laid.course_count, 'course')}"
    yield Cut(
        "stickers",
        laid.sticker_count,
        built.length(laid.sticker_length),
        sticker_section(stack, laid, built.system),
        f"{each}{sticker_state(stack)}; all of one thickness",
    )


def sticker_section(stack: Stack, laid: Arrangement, system: System) -> str:
    """Thickness x width as the plan writes them, else as they were taken."""
    said = stack.stickers
    thick = size_words(said.thickness) if said is not None and said.thickness is not None else None
    wide = size_words(said.width) if said is not None and said.width is not None else None
    return f"{thick or tape(laid.sticker_thickness, system)} x {wide or tape(laid.sticker_width, system)}"


def sticker_state(stack: Stack) -> str:
    """*, dry, of white oak*: what the plan says the stickers are like; nothing where it says nothing."""
    said = stack.stickers
    if said is None:
        return ""
    words = [said.state.value] if said.state is not None else []
    if said.plywood:
        words.append("of plywood")
    elif said.wood is not None:
        words.append(f"of {said.wood.text}")
    if said.grooved:
        words.append("grooved")
    return "".join(f", {word}" for word in words)


def _machines(built: Built) -> Iterator[Cut]:
    said = built.stack.fan
    fans, machine = fan_words(built), machine_words(built)
    if said is not None and fans:
        yield Cut("fans" if said.count > 1 else "fan", said.count, "", fans, "with its wiring: see the cautions")
    if machine:
        yield Cut("dehumidifier", None, "", machine, "with its wiring and a drain: see the cautions")
