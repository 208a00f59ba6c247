"""Judges the facts of a plan by the rule book."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from stacklint.checked import Waived
from stacklint.engineering.facts import FaultFacts, PlanFacts, StackFacts, WaiverFacts
from stacklint.faults import Measure
from stacklint.findings import Finding, Mark
from stacklint.plan.stack import Waiver
from stacklint.rulebook.book import RuleBook
from stacklint.rulebook.rule import Condition, Rule
from stacklint.rulebook.scope import NOT_WAIVABLE, STACK_KINDS, Collection
from stacklint.rulebook.values import Standing
from stacklint.units import System
from stacklint.where import NOWHERE, Where

MOST_MARKS = 24
"""A finding that speaks for many places marks no more of them on the drawing than this."""


class StackWaiver(NamedTuple):
    """A ``waive`` statement and the stack that it was written in."""

    stack: str
    waiver: Waiver


class Judgement(NamedTuple):
    """What the rules say, in the order of the text, and what waivers keep silent."""

    findings: tuple[Finding, ...]
    waived: tuple[Waived, ...]


class _Held(NamedTuple):
    """A condition that holds somewhere. ``excess``: how far past its limit, as a share of the limit."""

    condition: Condition
    standing: Standing
    where: Where
    marks: tuple[Mark, ...]
    found: Measure | None
    limit: Measure | None
    excess: float


def judge(book: RuleBook, facts: PlanFacts, waivers: Sequence[StackWaiver], today: datetime.date) -> Judgement:
    """Every finding of ``book`` on ``facts``.

    A waiver silences the findings of its rule on its stack up to its last day; faults of the text
    cannot be waived. The rules on waivers themselves are judged last.
    """
    system = facts.stacks[0].system if facts.stacks else System.INCH
    findings: list[Finding] = []
    waived: list[Waived] = []
    used: set[int] = set()
    for rule, finding in _found(book, facts, system):
        waiver = None if rule.each.name in NOT_WAIVABLE else _waiver(waivers, finding, today, used)
        if waiver is None:
            findings.append(finding)
        else:
            waived.append(Waived(finding, waiver))
    for number, one in enumerate(waivers):
        seen = _waiver_facts(book, one.waiver, today, used=number in used)
        for rule in book.by_collection.get("waiver", ()):
            findings.extend(_of_plan(rule, (seen,), system, one.stack))
    home = facts.where.path
    findings.sort(key=lambda finding: _order(finding, home))
    waived.sort(key=lambda one: _order(one.finding, home))
    return Judgement(tuple(findings), tuple(waived))


def _order(finding: Finding, home: str) -> tuple[bool, str, int, int, int]:
    where = finding.where
    return where.path != home, where.path, where.line, where.column, -finding.level.rank


def _found(book: RuleBook, facts: PlanFacts, system: System) -> Iterator[tuple[Rule, Finding]]:
    for rules in book.by_collection.values():
        each = rules[0].each
        if each.name == "waiver":
            continue
        if each.of_plan:
            members = _members(facts, each)
            for rule in rules:
                for finding in _of_plan(rule, members, system):
                    yield rule, finding
            continue
        for stack in facts.stacks:
            standings = [(stack.system, stack, member) for member in _members(stack, each)]
            if not standings:
                continue
            for rule in rules:
                for finding in _of_stack(rule, stack, standings):
                    yield rule, finding


def _members(owner: Any, each: Collection) -> tuple[Any, ...]:
    if each.name in STACK_KINDS:
        return (owner,) if each.name in ("stack", owner.kind) else ()
    value = getattr(owner, each.field)
    if each.single:
        return () if value is None else (value,)
    return tuple(value)


def _of_plan(rule: Rule, members: Iterable[Any], system: System, stack: str | None = None) -> Iterator[Finding]:
    """Findings on the text itself: each stands alone, since no two say the same."""
    for member in members:
        held = _held(rule, (system, None, member))
        if held is not None and isinstance(member, FaultFacts):
            # A fault brings its own figures: the rule only judges that it is one.
            held = held._replace(found=member.found, limit=member.limit)
        if held is not None:
            yield _finding(rule, held, stack or getattr(member, "stack", None))


def _of_stack(rule: Rule, stack: StackFacts, standings: Iterable[Standing]) -> Iterator[Finding]:
    """Findings on a stack: those on one line of the plan become one, which speaks of the worst."""
    lines: dict[tuple[str, int], list[_Held]] = {}
    for standing in standings:
        held = _held(rule, standing)
        if held is not None:
            lines.setdefault((held.where.path, held.where.line), []).append(held)
    for alike in lines.values():
        worst = max(alike, key=lambda held: (held.condition.level.rank, held.excess))
        yield _finding(rule, worst, stack.name, alike)


def _held(rule: Rule, standing: Standing) -> _Held | None:
    """The gravest level that holds where the rule stands."""
    program = rule.program
    if program.filter is not None and not program.filter(standing):
        return None
    for condition in program.conditions:
        if condition.holds(standing):
            break
    else:
        return None
    place = program.place(standing) if program.place else None
    member = standing[2] if place is None else place
    where = member.where
    if where == NOWHERE and standing[1] is not None:
        where = standing[1].where
    figures = condition.figures
    found = limit = None
    excess = 0.0
    if figures is not None:
        value, bound = figures.found(standing), figures.limit(standing)
        found = None if value is None else Measure(value, figures.dimension)
        limit = None if bound is None else Measure(bound, figures.dimension)
        if value is not None and bound is not None:
            excess = figures.rising * (value - bound) / (abs(bound) or 1.0)
    return _Held(condition, standing, where, member.marks, found, limit, excess)


def _finding(rule: Rule, held: _Held, stack: str | None, alike: Sequence[_Held] = ()) -> Finding:
    marks = held.marks
    if len(alike) > 1:
        marks = tuple(dict.fromkeys((*marks, *(mark for one in alike for mark in one.marks))))[:MOST_MARKS]
    return Finding(
        rule=rule.name,
        level=held.condition.level,
        message=_sentence(rule.program.message().filled(held.standing)),
        instead=_sentence(rule.program.instead().filled(held.standing)),
        where=held.where,
        stack=stack,
        found=held.found,
        limit=held.limit,
        marks=marks,
        more=max(len(alike) - 1, 0),
        caution=rule.caution,
    )


def _sentence(text: str) -> str:
    """With a capital at its start, which a wood's or a kiln's name may not have."""
    return text[:1].upper() + text[1:]


def _waiver(waivers: Sequence[StackWaiver], finding: Finding, today: datetime.date, used: set[int]) -> Waiver | None:
    """The waiver that silences ``finding``. One that has expired is marked as used, but silences nothing."""
    silencing = None
    for number, (stack, waiver) in enumerate(waivers):
        if stack != finding.stack or waiver.rule.text != finding.rule:
            continue
        used.add(number)
        if silencing is None and not _expired(waiver, today):
            silencing = waiver
    return silencing


def _expired(waiver: Waiver, today: datetime.date) -> bool:
    return waiver.until is not None and waiver.until.date < today


def _waiver_facts(book: RuleBook, waiver: Waiver, today: datetime.date, *, used: bool) -> WaiverFacts:
    name = waiver.rule.text
    known = book.knows(name)
    return WaiverFacts(
        where=waiver.where,
        rule=name,
        known=known,
        has_reason=bool(waiver.reason and waiver.reason.strip()),
        used=used,
        expired=_expired(waiver, today),
        until=waiver.until.date if waiver.until is not None else None,
        nearest=None if known else book.nearest(name),
    )
