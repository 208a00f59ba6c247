"""The build list: what to do, in order, from the bare ground to the tied cover, or to the running kiln."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.checked import CheckedStack
from stacklint.layout.arrangement import Odd
from stacklint.report import footing_steps, top_steps
from stacklint.report.built import Built, counted
from stacklint.report.cut_list import cut_list
from stacklint.report.kiln_steps import before_loading, kiln_steps
from stacklint.report.laying import layings
from stacklint.report.machines import machines
from stacklint.report.steps import Laying, Step
from stacklint.report.tape import board_length

_MOST_JOINTS = 6
"""Places that are named, of joints that lie on no sticker."""


def build_list(checked: CheckedStack) -> tuple[Step, ...]:
    """The steps in order; none where the stack could not be laid out."""
    if checked.arrangement is None or checked.facts is None:
        return ()
    built = Built(checked.stack, checked.arrangement, checked.facts)
    charge = bool(built.facts.is_charge)
    laid = layings(checked)
    steps = (
        before_loading(checked) if charge else footing_steps.before(built, cuts=bool(cut_list(checked))),
        footing_steps.ground(built),
        footing_steps.pads(built),
        footing_steps.bearers(built),
        footing_steps.first_stickers(built),
        _courses(built, laid),
        top_steps.weights(built, laid),
        *(kiln_steps(checked) if charge else ()),
        top_steps.cover(built),
        top_steps.sides(built),
        None if charge else machines(built),
    )
    return tuple(step for step in steps if step is not None)


def _courses(built: Built, laid: tuple[Laying, ...]) -> Step:
    arrangement = built.laid
    lines = [f"{counted(arrangement.course_count, 'course')}, counted from the ground; boards from left to right."]
    if arrangement.sticker_lines:
        lines.append(
            f"A tier of {len(arrangement.sticker_lines)} stickers under every course, each straight over the one below."
        )
    else:
        lines.append("The courses lie on one another without stickers.")
    if arrangement.gap > 0:
        lines.append(f"Boards lie {built.length(arrangement.gap)} apart.")
    if built.stack.size is not None and built.stack.size.flue is not None:
        lines.append(f"Leave a flue {built.length(built.stack.size.flue.si)} wide up the middle, from board to board.")
    lines.append("Keep both ends and both sides plumb.")
    lines += _joints(built)
    if arrangement.left_over:
        lines.append(f"In no course: {_odds(arrangement.left_over, built)}. Lay them aside.")
    return Step("Courses", tuple(lines), layings=laid)


def _joints(built: Built) -> Iterator[str]:
    """Whether boards that meet have a sticker under their joint."""
    joints = built.facts.joints if built.laid.sticker_lines else ()
    off = [joint for joint in joints if joint.on_sticker is False]
    on = any(joint.on_sticker for joint in joints)
    if off:
        known = sorted({round(joint.position, 4) for joint in off if joint.position is not None})
        places = ", ".join(built.length(place) for place in known[:_MOST_JOINTS])
        more = " and others" if len(known) > _MOST_JOINTS else ""
        one = len(known) == 1
        yield f"{'The joint' if one else 'Joints'} at {places}{more} {'lies' if one else 'lie'} on no sticker."
    if on:
        yield f"Boards that meet in {'any other' if off else 'a'} joint both rest on its sticker."


def _odds(odds: tuple[Odd, ...], built: Built) -> str:
    said = {boards.label.text: boards.length for boards in built.stack.boards}
    return ", ".join(
        f"{odd.count} of {board_length(odd.length, said[odd.label], built.system)} ({odd.label})" for odd in odds
    )
