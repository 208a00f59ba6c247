"""Where the plan speaks of what: the places that findings point at."""

from __future__ import annotations

from typing import Any

from stacklint.engineering import shelter_facts
from stacklint.engineering.facts import Statement
from stacklint.findings import Mark, Part
from stacklint.plan.node import Node
from stacklint.plan.stack import Stack


def statements(stack: Stack) -> dict[str, Any]:
    """The statements of a stack; the stack's own line where it does not say such a thing."""

    def said(node: Node | None, part: Part | None = None) -> Statement:
        where = node.where if node is not None else stack.name.where
        return Statement(where=where, marks=(Mark(part),) if part is not None else ())

    return {
        "stickers": said(stack.stickers, Part.STICKERS),
        "foundation": said(stack.ground, Part.GROUND),
        "weights": said(stack.top_load, Part.TOP),
        "stack_size": said(stack.size),
        "place_said": said(stack.place, Part.COVER),
        "bearers_said": said(stack.bearers, Part.BEARERS),
        "ends_said": said(stack.ends),
        "sides_said": said(stack.sides or stack.cover, Part.SIDES),
        "wind_said": said(stack.wind),
        "clearance_said": said(stack.clearance or stack.bearers, Part.GROUND),
        "stacked_said": said(stack.stacked or stack.starts),
        "want_said": said(stack.want),
        "schedule_place": said(stack.schedule or (stack.runs[0] if stack.runs else None)),
        "no_cover": None if (has := shelter_facts.covered(stack)) is None else not has,
    }
