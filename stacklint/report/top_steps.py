"""The steps over the top course: weights, the cover, and what hangs at the sides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stacklint.plan.shelter import Cover, Fastening, SideKind
from stacklint.report.built import Built
from stacklint.report.cover_cuts import cover_size, rise, top_weight
from stacklint.report.steps import Laying, Step
from stacklint.report.tape import slope_words
from stacklint.show import show
from stacklint.units import MASS


def weights(built: Built, laid: Sequence[Laying]) -> Step | None:
    said = built.stack.top_load
    if said is None:
        return None
    over = "its sticker lines" if built.laid.sticker_lines else "its whole length"
    weight = top_weight(built.stack, built.laid)
    if weight:
        top = laid[-1] if laid else None
        words = f"Lay {show(weight, MASS, built.system)} on the top course, spread over {over}."
        lines = [words, "Nothing that may roll or slide off; keep it low and tied. See the cautions."]
        if top is not None and not top.fills:
            lines.insert(1, f"The top course is not full: set the weights on its rows only ({top.across}).")
        return Step("Weights", tuple(lines))
    if said.straps:
        return Step("Straps", (f"Strap the stack over {over}. Draw the straps tight again at each reading.",))
    return None


def cover(built: Built) -> Step | None:
    said = built.stack.cover
    if said is None or cover_size(built.stack, built.laid) is None:
        return None
    ends = f"{built.length(said.overhang_ends.si)} past each end" if said.overhang_ends is not None else ""
    sides = f"{built.length(said.overhang_sides.si)} past each long side" if said.overhang_sides is not None else ""
    reach = " and ".join(words for words in (ends, sides) if words)
    lines = [f"Cover of {said.kind.value}{f', standing out {reach}' if reach else ''}."]
    lines += _height(said, built)
    if said.hanging_down:
        lines.append(f"It hangs down {built.length(rise(built).drop)} at the sides and ends.")
    lines += _fastening(said, built)
    return Step("Cover", tuple(lines))


def _height(said: Cover, built: Built) -> Iterator[str]:
    low, high = rise(built).low, rise(built).high
    on = "strips over the sticker lines" if built.laid.sticker_lines else "strips across the stack"
    if said.slope:
        left = f"it lies {built.length(low)} over" if low > 0 else "it lies on"
        yield (
            f"It slopes {slope_words(said.slope)} along the boards and rises to the right end: on {on} {left}"
            f" the top course at the left end of the stack, {built.length(high)} over it at the right."
        )
    elif low > 0:
        yield f"Hold it {built.length(low)} off the top course, on {on}."


def _fastening(said: Cover, built: Built) -> Iterator[str]:
    if said.fastening is Fastening.TIED:
        to = "to the bearers" if built.on_bearers else "to the stack"
        yield f"Tie it down {to} as it is laid, and look at the ties after every storm."
    elif said.fastening is Fastening.WEIGHTED:
        weight = f" of {show(said.weight.si, MASS, built.system)}" if said.weight is not None else ""
        yield f"Hold it down with weights{weight} that cannot slide off."
    elif said.fastening is Fastening.UNTIED:
        yield "By the plan it is not tied: see the cautions."


def sides(built: Built) -> Step | None:
    said = built.stack.sides
    if said is None or said.kind is SideKind.OPEN:
        return None
    where = "on one long side" if said.on_one_side else "on the ends" if said.on_ends else "all round"
    words = f"{said.kind.value.capitalize()} {where}."
    if said.kind is SideKind.SHADE_CLOTH:
        words += " Fasten it above and below, clear of the boards, so that air passes."
    return Step("Sides", (words,))
