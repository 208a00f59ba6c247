"""Judges the facts of a plan by the rule book."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from typing import Any, NamedTuple

from stacklint.checked import Waived, in_order, place_order
from stacklint.engineering.facts import FaultFacts, PlanFacts, StackFacts, WaiverFacts, YardFacts
from stacklint.faults import Measure
from stacklint.findings import Finding, Level, Mark
from stacklint.plan.stack import Waiver
from stacklint.rulebook.book import RuleBook
from stacklint.rulebook.lacking import lacking
from stacklint.rulebook.rule import Condition, Rule
from stacklint.rulebook.scope import JUDGED_LAST, NOT_WAIVABLE, STACK_KINDS, Collection
from stacklint.rulebook.values import Standing, TooLong, at_most
from stacklint.units import System
from stacklint.where import NOWHERE, Where

MOST_STEPS = 20_000_000
"""Steps that the quantifiers of all rules may take on one text, some seconds' worth. The built-in rules take a few
hundred on a stack."""
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
    with at_most(MOST_STEPS):
        for rule, finding in chain(_found(book, facts, system), _unjudged(book, facts, system)):
            waiver = None if rule.each.name in NOT_WAIVABLE else _waiver(waivers, finding, today, used)
            if waiver is None:
                findings.append(finding)
            else:
                waived.append(Waived(finding, waiver))
    for number, one in enumerate(waivers):
        if not _of_yard(book, one.waiver):
            findings.extend(_on_waiver(book, one, today, system, used=number in used))
    home = facts.where.path
    waived.sort(key=lambda one: place_order(home, one.finding))
    return Judgement(in_order(home, findings), tuple(waived))


class OfYard(NamedTuple):
    """Something found in a yard, and the fact that it was found in (``None`` for a finding on a waiver)."""

    said: Finding | Waived
    fact: Any = None


def judge_yard(
    book: RuleBook, facts: YardFacts, waivers: Sequence[StackWaiver], today: datetime.date, system: System
) -> Iterator[OfYard]:
    """What the rules of ``book`` on a yard say of the ``facts`` whose place is in one plan, as far as its ``waivers``
    do not silence it; and what is to be said of those waivers that name a rule on the yard."""
    used: set[int] = set()
    for rules in book.by_collection.values():
        each = rules[0].each
        members = _members(facts, each) if each.of_yard or each.name == "fault" else ()
        for rule in rules:
            for member in members:
                finding = _of_member(rule, member, system)
                if finding is None:
                    continue
                waiver = None if each.name in NOT_WAIVABLE else _waiver(waivers, finding, today, used)
                yield OfYard(finding if waiver is None else Waived(finding, waiver), member)
    for number, one in enumerate(waivers):
        if _of_yard(book, one.waiver):
            for finding in _on_waiver(book, one, today, system, used=number in used):
                yield OfYard(finding)


def _of_yard(book: RuleBook, waiver: Waiver) -> bool:
    """A waiver of a rule on the yard does its work, or none, when the yard is judged."""
    rule = book.rule(waiver.rule.text)
    return rule is not None and rule.each.of_yard


def _on_waiver(
    book: RuleBook, one: StackWaiver, today: datetime.date, system: System, *, used: bool
) -> Iterator[Finding]:
    seen = _waiver_facts(book, one.waiver, today, used=used)
    for rule in book.by_collection.get("waiver", ()):
        finding = _of_member(rule, seen, system, one.stack)
        if finding is not None:
            yield finding


def _found(book: RuleBook, facts: PlanFacts, system: System) -> Iterator[tuple[Rule, Finding]]:
    for rules in book.by_collection.values():
        each = rules[0].each
        if each.name in JUDGED_LAST or each.of_yard:
            continue
        if each.of_plan:
            members = _members(facts, each)
            for rule in rules:
                found = (_of_member(rule, member, system) for member in members)
                yield from ((rule, finding) for finding in found if finding is not None)
            continue
        for stack in facts.stacks:
            standings = [(stack.system, stack, member) for member in _members(stack, each)]
            if not standings:
                continue
            for rule in rules:
                try:
                    yield from [(rule, finding) for finding in _of_stack(rule, stack, standings)]
                except TooLong:
                    yield rule, _given_up(rule, stack)


def _given_up(rule: Rule, stack: StackFacts) -> Finding:
    return Finding(
        rule=rule.name,
        level=Level.ERROR,
        message=f"Whether {rule.title} was not worked out: the rules take more than {MOST_STEPS:,} steps on this plan.",
        instead="Have the house rules go through fewer things within one another, or part the plan.",
        where=stack.where,
        stack=stack.name,
    )


def _unjudged(book: RuleBook, facts: PlanFacts, system: System) -> Iterator[tuple[Rule, Finding]]:
    """What the rules of lacks say of every rule that could not be judged."""
    rules = book.by_collection.get("lack", ())
    for stack in facts.stacks if rules else ():
        try:
            lacks = lacking(book, stack, standings)
        except TooLong:
            return
        for lack in lacks:
            found = ((rule, _of_member(rule, lack, system)) for rule in rules)
            yield from ((rule, finding) for rule, finding in found if finding is not None)


def standings(stack: StackFacts, rule: Rule) -> Iterator[Standing]:
    """Everything of a stack that a rule stands at."""
    return ((stack.system, stack, member) for member in _members(stack, rule.each))


def _members(owner: Any, each: Collection) -> tuple[Any, ...]:
    if each.name in STACK_KINDS:
        return (owner,) if each.name in ("stack", owner.kind) else ()
    value = getattr(owner, each.field)
    if each.single:
        return () if value is None else (value,)
    return tuple(value)


def _of_member(rule: Rule, member: Any, system: System, stack: str | None = None) -> Finding | None:
    """A finding on the text or the yard: each stands alone, since no two say the same."""
    held = _held(rule, (system, None, member))
    if held is None:
        return None
    if isinstance(member, FaultFacts):
        # A fault brings its own figures: the rule only judges that it is one.
        held = held._replace(found=member.found, limit=member.limit)
    finding = _finding(rule, held, stack or getattr(member, "stack", None))
    return finding._replace(related=getattr(member, "related", ()))


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
