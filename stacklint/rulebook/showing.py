"""Values as words: in messages and in texts joined with &."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stacklint.engineering.schema import FactKind, Plain
from stacklint.rulebook.values import Run, Standing
from stacklint.show import rounded, show
from stacklint.units import Dimension, System, Unit

UNKNOWN = "unknown"
"""What a message says in place of a value that is not known."""

InWords = Callable[[Any, System], str]


def shown(kind: FactKind) -> InWords | None:
    """How a value of ``kind`` is put in words; ``None`` for kinds that have no words."""
    if isinstance(kind, Dimension):
        return lambda value, system: show(value, kind, system)
    if kind is Plain.TEXT:
        return lambda value, _: str(value)
    if kind is Plain.DATE:
        return lambda value, _: str(value.isoformat())
    return None


def in_unit(unit: Unit) -> InWords:
    """A quantity in one unit, whatever system the plan is written in."""
    blank = "" if unit is Unit.PERCENT else " "
    return lambda value, _: f"{rounded(unit.from_si(value))}{blank}{unit.symbol}"


def joined(parts: tuple[tuple[Run, FactKind], ...]) -> Run:
    """The text of several values one after the other."""
    ways = tuple((run, shown(kind)) for run, kind in parts)

    def run(standing: Standing) -> str:
        return "".join(spoken(part(standing), way, standing[0]) for part, way in ways)

    return run


def spoken(value: Any, way: InWords | None, system: System) -> str:
    """``value`` in words, or that it is unknown."""
    return UNKNOWN if value is None or way is None else way(value, system)
