"""Changes of where sticker lines and bearers stand along a stack."""

from __future__ import annotations

from stacklint.changes import Change
from stacklint.language.written import amount
from stacklint.mending import usual
from stacklint.mending.edits import added_detail, inserted, replaced
from stacklint.mending.written import Statement
from stacklint.plan.node import Quantity
from stacklint.units import System
from stacklint.where import Where

_SPACING = ("every", "each_course", "at")
_OF_THEM = " of them"


def spaced(statement: Statement, text: str) -> tuple[Change, ...]:
    """``text`` (``every 24 in``, ``7 a course``) in place of what the statement says of its lines' spacing."""
    for place, detail in enumerate(statement.details):
        if detail.kind in _SPACING or (detail.kind == "section_of" and detail.words.endswith(_OF_THEM)):
            return (replaced(_whole_list(statement, place), text),)
    return (added_detail(statement, text),)


def _whole_list(statement: Statement, place: int) -> Where:
    """A detail, with the positions that go on behind an ``at``."""
    detail = statement.details[place]
    end = detail.where
    if detail.kind == "at":
        for further in statement.details[place + 1 :]:
            if further.kind != "section":
                break
            end = further.where
    return detail.where.to(end)


def moved_to(positions: tuple[Quantity, ...], target: float, add: bool) -> tuple[Change, ...]:
    """The position nearest to ``target`` (in metres) moved there; or a position added beside it."""
    near = min(positions, key=lambda position: abs(position.si - target))
    text = at_text(positions, target)
    if not add:
        return (replaced(near.where, text),)
    if near.si <= target:
        return (inserted(near.where, f", {text}"),)
    return (replaced(near.where, f"{text}, {amount(near)}"),)


def at_text(positions: tuple[Quantity, ...], target: float) -> str:
    return usual.length(max(target, 0.0), positions[0], System.INCH)
