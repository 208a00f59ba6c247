"""What the stages before the rules could not accept: faults of the text, of names, of figures, of the fit.

A fault is data. The rule book turns faults into findings, so that levels and house rules apply to
them as to everything else.
"""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple

from stacklint.units import Dimension
from stacklint.where import Where


class FaultKind(Enum):
    """The rule that reports the fault."""

    PLAN_TEXT = "plan-text"
    UNKNOWN_SPECIES = "unknown-species"
    UNKNOWN_PLACE = "unknown-place"
    UNKNOWN_KILN = "unknown-kiln"
    VALUE_OUT_OF_RANGE = "value-out-of-range"
    BOARDS_DO_NOT_FIT = "boards-do-not-fit"
    NAME_USED_TWICE = "name-used-twice"


class Measure(NamedTuple):
    """A value in the SI unit of its dimension (temperature in degrees Celsius)."""

    value: float
    dimension: Dimension


class Fault(NamedTuple):
    """One fault: what is wrong, where, and what to write instead; the figures where there are any."""

    kind: FaultKind
    where: Where
    message: str
    instead: str
    stack: str | None = None
    found: Measure | None = None
    limit: Measure | None = None


class Assumption(NamedTuple):
    """Something the plan left out and what was taken in its stead, as one sentence."""

    where: Where
    text: str
    topic: str
    """The keyword of the statement that would have said it."""


class Lack(NamedTuple):
    """Something that is not said or known, and the facts that are unknown for want of it, each with its class.

    ``of`` and ``what`` make a clause: "Kiln A does not say", "what it holds". ``topic`` is the keyword of the statement
    that would say it.
    """

    where: Where
    of: str
    what: str
    topic: str
    facts: frozenset[str]
    instead: str | None = None
