"""What a build list is made of: steps with sentences, places to measure off, and rows of a table."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


class Places(NamedTuple):
    """Places along the stack: what stands there, and metres from the stack's left end."""

    words: str
    at: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class LaidRow:
    """So many rows of a course: the boards from left to right in words, and where they meet (m from the left end).

    ``about``: the number follows from sizes or numbers that the plan leaves open.
    """

    count: int
    boards: str
    joints: tuple[float, ...]
    about: bool = False


@dataclass(frozen=True, slots=True)
class Laying:
    """Courses ``first`` to ``last``, all laid alike; ``boards`` in each of them.

    ``across`` says where the rows lie between the long sides of the stack, ``fills`` whether they fill its width.
    """

    first: int
    last: int
    rows: tuple[LaidRow, ...]
    boards: int
    across: str
    fills: bool

    @property
    def about(self) -> bool:
        return any(row.about for row in self.rows)

    @property
    def numbers(self) -> range:
        return range(self.first, self.last + 1)

    @property
    def count(self) -> int:
        return self.last - self.first + 1


class Air(NamedTuple):
    """The air of a kiln's step, in words: from what moisture content or day on, and what is set."""

    begins: str
    dry_bulb: str
    wet_bulb: str
    humidity: str
    holds: str


class Step(NamedTuple):
    """One thing to do, or one after the other. ``layings`` and ``airs`` are the rows of its table, if it has one."""

    title: str
    lines: tuple[str, ...]
    places: Places | None = None
    layings: tuple[Laying, ...] = ()
    airs: tuple[Air, ...] = ()
