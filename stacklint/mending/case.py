"""What a proposal is made from, and what it is made of."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from stacklint.changes import Change
from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.engineering.facts import StackFacts
from stacklint.findings import Finding
from stacklint.mending.written import Block, Source, Statement
from stacklint.plan.node import Node
from stacklint.plan.stack import Stack
from stacklint.units import System


class Option(NamedTuple):
    """One change of the text. ``says`` tells it to a reader, as an instruction without its full stop."""

    changes: tuple[Change, ...]
    says: str


class Ladder(NamedTuple):
    """Changes by degrees, in one direction or in several at once: the more, the surer that a finding goes.

    ``rungs`` is how many rungs each direction has. ``at`` gives the option at so many rungs up each direction;
    at 0 nothing is changed that way. The engine looks for the lowest rungs that will do, and climbs so many further
    where those bring something new.
    """

    rungs: tuple[int, ...]
    at: Callable[[tuple[int, ...]], Option]
    climb: int = 16


class Only(NamedTuple):
    """Ways of which one is taken if no other will do as well; else a person must choose."""

    options: tuple[Option, ...]


Proposal = Option | Ladder | Only


@dataclass(frozen=True, slots=True)
class Case:
    """A finding, and all that is known of its plan. ``text`` is that of ``source``."""

    finding: Finding
    checked: CheckedPlan
    source: Source
    today: datetime.date

    @property
    def system(self) -> System:
        return self.checked.system

    @property
    def checked_stack(self) -> CheckedStack | None:
        """The stack that the finding is of; of several with one name, the one that it stands in."""
        named = [one for one in self.checked.stacks if one.stack.name.text == self.finding.stack]
        line = self.finding.where.line
        above = [one for one in named if one.stack.where.line <= line]
        return above[-1] if above else next(iter(named), None)

    @property
    def stack(self) -> Stack | None:
        found = self.checked_stack
        return None if found is None else found.stack

    @property
    def facts(self) -> StackFacts | None:
        found = self.checked_stack
        return None if found is None else found.facts

    @property
    def block(self) -> Block | None:
        return None if self.stack is None else self.source.block(self.stack.where)

    def statement(self, node: Node | None) -> Statement | None:
        """The statement that ``node`` was read from; ``None`` where it stands in another text."""
        return None if node is None else self.source.statement(node.where)


Proposer = Callable[[Case], Iterable[Proposal]]
"""What could be tried for a finding, the smallest change first."""


def ladder(options: Iterable[Option], climb: int = 16) -> Iterator[Proposal]:
    """One direction, from the smallest change to the largest; nothing where there is no option."""
    rungs = tuple(options)
    if rungs:
        yield Ladder((len(rungs),), lambda up: rungs[up[0] - 1], climb)
