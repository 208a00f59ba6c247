"""Reads a text into a plan: the whole road from characters to a model with every name looked up."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple, TypeVar

from stacklint.faults import Fault, FaultKind
from stacklint.language.blocks import Blocks
from stacklint.language.inherit import Piles
from stacklint.language.line import MOST_FAULTS, Line, Log, Logged
from stacklint.language.lines import logical_lines
from stacklint.language.names import Lookup, check_labels, check_twice
from stacklint.language.used import UsedText, Uses, UseText
from stacklint.plan.node import Node
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, Plan, Site, WoodStatement
from stacklint.units import System
from stacklint.where import Where

BlockNode = TypeVar("BlockNode", bound=Node)
_KEPT = 128
"""Texts kept read: what the plans of a yard use is used by many of them, one after the other."""
_SMALL = 50_000
"""Characters of the largest text that is kept read."""


@dataclass(frozen=True, slots=True)
class ReadPlan:
    """A plan as it was read, the faults of its text, and the system of units that most of it is written in."""

    plan: Plan
    faults: tuple[Fault, ...]
    system: System


def read(text: str, path: str = "-", use: UseText | None = None, today: datetime.date | None = None) -> ReadPlan:
    """Reads a plan. Never raises, whatever the text holds: what cannot be read becomes faults.

    ``path`` is the text's name in the places of its parts. ``use`` finds the texts that ``use``
    statements name; without it they are faults. Readings after ``today`` are faults; without it the
    day of the system's clock is taken.
    """
    log = Log()
    reader = _Reader(use, log, today or datetime.date.today())
    plan = reader.read(UsedText(path, text), log)
    faults = sorted(log.faults, key=lambda fault: (fault.where.path != path, fault.where.path, fault.where[1:3]))
    if log.full:
        faults.append(_too_many(path, text))
    return ReadPlan(plan, tuple(faults), log.system)


class _Reader:
    def __init__(self, use: UseText | None, log: Log, today: datetime.date) -> None:
        self._uses = Uses(use, log)
        self._main = log
        self._today = today

    def read(self, given: UsedText, log: Log) -> Plan:
        """One text and those that it uses."""
        own, logged = _read(given, self._today)
        log.take(logged)
        used = self._uses.follow(own, given.path, self._used)
        sites = _together(own.sites, (plan.sites for plan in used))
        kilns = _together(own.kilns, (plan.kilns for plan in used))
        woods = _together(own.woods, (plan.woods for plan in used))
        lent = _together((), [*(plan.stacks for plan in used), *(plan.lent for plan in used)])
        for kind, blocks in (("site", sites), ("kiln", kilns), ("wood", woods), ("stack", own.stacks)):
            check_twice(kind, (block.name for block in blocks), log)
        own = Lookup(sites, kilns, woods, log).check_yard(own)
        piles = Piles((*own.stacks, *lent), log)
        stacks = tuple(piles.lend(stack) if stack.from_piles else stack for stack in own.stacks)
        stacks = tuple(check_labels(stack, log) for stack in stacks)
        sites = _together(own.sites, (plan.sites for plan in used))
        woods = _together(own.woods, (plan.woods for plan in used))
        return own.model_copy(update={"sites": sites, "kilns": kilns, "woods": woods, "stacks": stacks, "lent": lent})

    def _used(self, given: UsedText) -> Plan:
        """A used text. Its faults count with the others; its units do not."""
        log = Log()
        plan = self.read(given, log)
        for fault in log.faults:
            self._main.add(fault)
        return plan


class _Own(NamedTuple):
    """The blocks of one text alone, and what was logged of them."""

    plan: Plan
    log: Logged


def _read(given: UsedText, today: datetime.date) -> _Own:
    return _kept(given, today) if len(given.text) <= _SMALL else _own(given, today)


@lru_cache(maxsize=_KEPT)
def _kept(given: UsedText, today: datetime.date) -> _Own:
    return _own(given, today)


def _own(given: UsedText, today: datetime.date) -> _Own:
    log = Log()
    blocks = Blocks(given.path, log, today)
    for line in logical_lines(given.text, given.path, log):
        blocks.take(line)
        if log.full or blocks.full:
            break
    reporter = Line(given.path, 1, "", log)
    nodes = [node for block in blocks.blocks if (node := block.build(reporter)) is not None]
    plan = Plan(
        where=Where(given.path, 1, 1, 1, 1),
        uses=tuple(blocks.uses),
        sites=tuple(node for node in nodes if isinstance(node, Site)),
        kilns=tuple(node for node in nodes if isinstance(node, Kiln)),
        woods=tuple(node for node in nodes if isinstance(node, WoodStatement)),
        stacks=tuple(node for node in nodes if isinstance(node, Stack)),
    )
    return _Own(plan, log.logged)


def _together(own: tuple[BlockNode, ...], used: Iterable[tuple[BlockNode, ...]]) -> tuple[BlockNode, ...]:
    """The used blocks and then the own ones, each once."""
    seen: dict[int, BlockNode] = {}
    for blocks in (*used, own):
        for block in blocks:
            seen.setdefault(id(block), block)
    return tuple(seen.values())


def _too_many(path: str, text: str) -> Fault:
    last = text.count("\n") + 1
    return Fault(
        FaultKind.PLAN_TEXT,
        Where(path, last, 1, last, 2),
        f"There are more faults than the {MOST_FAULTS} listed here; the rest is not listed.",
        "Mend these first, and check again.",
    )
