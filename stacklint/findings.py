"""Findings: what the rules say of a plan."""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple

from stacklint.faults import Measure
from stacklint.where import Where


class Level(Enum):
    """Severity, in the words of SARIF 2.1.0."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """3 for an error, 2 for a warning, 1 for a note."""
        return {Level.ERROR: 3, Level.WARNING: 2, Level.NOTE: 1}[self]


class Part(Enum):
    """Which part of the drawing of a stack a finding marks."""

    COURSE = "course"
    STICKERS = "stickers"
    BEARERS = "bearers"
    COVER = "cover"
    TOP = "top"
    GROUND = "ground"
    SIDES = "sides"


class Mark(NamedTuple):
    """A faulty place on the stack: a part, the courses it spans and its stretch along the stack in metres."""

    part: Part
    first_course: int | None = None
    last_course: int | None = None
    start: float | None = None
    end: float | None = None


class Related(NamedTuple):
    """Another place that a finding speaks of, perhaps in another text, and what is there, in a few words."""

    where: Where
    words: str


class Finding(NamedTuple):
    """One thing that a rule says of one place of a plan.

    ``more`` counts the other places on the same line of the plan of which the same would be said; the
    finding speaks of the worst. ``caution`` is a sentence of safety, shown with it. ``related`` are other places
    that have a share in it: of two stacks that clash, where the other one is written.
    """

    rule: str
    level: Level
    message: str
    instead: str
    where: Where
    stack: str | None = None
    found: Measure | None = None
    limit: Measure | None = None
    marks: tuple[Mark, ...] = ()
    more: int = 0
    caution: str | None = None
    related: tuple[Related, ...] = ()
