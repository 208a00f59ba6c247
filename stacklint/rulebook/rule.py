"""A rule: its clauses as they were written, and the program that they come to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from stacklint.faults import Measure
from stacklint.findings import Level
from stacklint.rulebook.messages import Message
from stacklint.rulebook.reader import BlockKind, Clause
from stacklint.rulebook.scope import Collection
from stacklint.rulebook.values import Run
from stacklint.rulebook.written import RuleFault
from stacklint.units import Dimension
from stacklint.where import Where


class FaultyRules(ValueError):  # noqa: N818 - named for what it reports
    """Rules that should have been right are not; the text lists each fault with its place."""

    def __init__(self, faults: tuple[RuleFault, ...]) -> None:
        lines = (f"{fault.where.path}:{fault.where.line}: {fault.message} {fault.instead}" for fault in faults)
        super().__init__("faulty rules: " + "; ".join(lines))
        self.faults = faults


class Limit(NamedTuple):
    """A limit of a rule: what was written, its value, and where it comes from.

    ``memory`` if the figure is recalled, not read in its source. ``changed`` if house rules set it.
    """

    name: str
    written: str
    value: Measure
    source: str
    memory: bool
    changed: bool
    where: Where


class Amendment(NamedTuple):
    """What house rules have said of a rule: changed it, skipped it or kept it, and why if they must say."""

    kind: BlockKind
    where: Where
    reason: str = ""


class Figures(NamedTuple):
    """What a finding shows as found, and as the limit. ``rising``: 1 if more is worse, -1 if less is."""

    found: Run
    limit: Run
    dimension: Dimension
    rising: int


class Condition(NamedTuple):
    """A level and what must hold for it."""

    level: Level
    holds: Run
    figures: Figures | None


class Program(NamedTuple):
    """A rule made ready to judge with. ``reads``: the facts that its conditions lean on, each with its class."""

    filter: Run | None
    conditions: tuple[Condition, ...]
    reads: frozenset[str]
    place: Run | None
    limits: tuple[Limit, ...]
    message: Callable[[], Message]
    instead: Callable[[], Message]


@dataclass(frozen=True, eq=False)
class Rule:
    """One rule of the book.

    ``each`` is the collection it goes through, ``where`` the place of its first line, ``history`` what house
    rules have said of it, the farthest first. ``house`` if house rules added it.
    """

    name: str
    title: str
    card: str | None
    each: Collection
    why: str
    caution: str | None
    where: Where
    clauses: tuple[Clause, ...] = field(repr=False)
    history: tuple[Amendment, ...] = ()
    house: bool = False

    @property
    def changes(self) -> tuple[Where, ...]:
        """The places of the house rules that changed it."""
        return tuple(said.where for said in self.history if said.kind is BlockKind.CHANGE)

    @cached_property
    def program(self) -> Program:
        """The rule ready to judge with.

        Raises:
            FaultyRules: if an expression in it is wrong.
        """
        from stacklint.rulebook.build import built

        return built(self)

    @property
    def limits(self) -> tuple[Limit, ...]:
        """Its limits in the order they were written."""
        return self.program.limits

    @property
    def levels(self) -> tuple[Level, ...]:
        """The levels that it can give, the gravest first."""
        return tuple(level for level in Level if any(clause.keyword == level.value for clause in self.clauses))
