"""The fan and the dehumidifier beside a pile."""

from __future__ import annotations

from stacklint.plan.shelter import PlaceKind
from stacklint.plan.stack import Stack, StackKind
from stacklint.report.built import Built, counted
from stacklint.report.steps import Step
from stacklint.show import show
from stacklint.units import FLOW, WATER_RATE

_OUTDOORS = frozenset({None, PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED})


def has_machines(stack: Stack) -> bool:
    """A pile with a fan, or with a machine that takes water out of the air of its room."""
    return stack.kind is StackKind.PILE and bool(_fans(stack) or _dries(stack))


def _fans(stack: Stack) -> int:
    return stack.fan.count if stack.fan is not None else 0


def _dries(stack: Stack) -> bool:
    """In the open there is always more water in the air than a machine takes."""
    place = stack.place.kind if stack.place is not None else None
    return stack.fan is not None and stack.fan.removes is not None and place not in _OUTDOORS


def fan_words(built: Built) -> str:
    """How much air each of the fans moves: *1,500 cfm each*; nothing where there is no fan."""
    said = built.stack.fan
    if said is None or not _fans(built.stack):
        return ""
    each = show(said.each.si, FLOW, built.system) if said.each is not None else "of any size"
    return f"{each} each" if said.count > 1 else each


def machine_words(built: Built) -> str:
    """How much water a machine takes out of the air of the room; nothing where there is none, or in the open."""
    said = built.stack.fan
    if said is None or said.removes is None or not _dries(built.stack):
        return ""
    return f"takes out {show(said.removes.si, WATER_RATE, built.system)}"


def machines(built: Built) -> Step | None:
    """Setting them up."""
    fans, machine = fan_words(built), machine_words(built)
    lines = []
    if fans and built.stack.fan is not None:
        number = counted(built.stack.fan.count, "fan")
        lines.append(f"Set {number} ({fans}) along a long side, so that air crosses the boards in all courses.")
    if machine:
        lines.append(
            f"Set the dehumidifier ({machine}) where it draws the air that has crossed the boards; lead its water"
            " outside, and keep doors and windows closed while it runs."
        )
    if not lines:
        return None
    lines.append("They are wired as the cautions say.")
    return Step("Fan" if fans else "Dehumidifier", tuple(lines))
