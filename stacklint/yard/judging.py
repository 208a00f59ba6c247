"""The rules judge what the plans of a yard say of one another."""

from __future__ import annotations

import datetime
import os
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import fields
from typing import Any, NamedTuple

from stacklint.checked import Waived
from stacklint.engineering.facts import YardFacts
from stacklint.findings import Finding
from stacklint.rulebook import RuleBook
from stacklint.rulebook.judge import OfYard, judge_yard
from stacklint.yard.bookings import bookings
from stacklint.yard.loads import loads
from stacklint.yard.namesakes import namesakes
from stacklint.yard.presence import presences
from stacklint.yard.stands import YardPlan
from stacklint.yard.takings import strays, takings

_NOTHING = YardFacts(bookings=(), takings=(), loads=())
BookOf = Callable[[YardPlan], RuleBook]


class YardFinding(NamedTuple):
    """A finding, the plan that its place is in, and the plans that have a share in it."""

    path: str
    finding: Finding
    involves: frozenset[str]


class YardWaived(NamedTuple):
    path: str
    waived: Waived
    involves: frozenset[str]


class YardJudgement(NamedTuple):
    """What is found in the yard, plan by plan in the order of the plans, in each in the order of its text."""

    findings: tuple[YardFinding, ...]
    waived: tuple[YardWaived, ...]


def judged(plans: Sequence[YardPlan], book_of: BookOf, today: datetime.date) -> YardJudgement:
    """Every finding of the rules on a yard. What is said in a plan is judged by its own rule book and waivers.

    The order of the plans does not matter but for the order of the findings.
    """
    found: list[YardFinding] = []
    waived: list[YardWaived] = []
    facts = _by_plan(sorted((*plans, *lent_piles(plans)), key=lambda plan: plan.path))
    for plan in plans:
        mine = facts.get(plan.path, _NOTHING)
        if mine is _NOTHING and not plan.waivers:
            continue
        said = list(judge_yard(book_of(plan), mine, plan.waivers, today, plan.system))
        for each in sorted(said, key=_order):
            involves = _involves(plan.path, each.fact)
            if isinstance(each.said, Waived):
                waived.append(YardWaived(plan.path, each.said, involves))
            else:
                found.append(YardFinding(plan.path, each.said, involves))
    return YardJudgement(tuple(found), tuple(waived))


def lent_piles(plans: Sequence[YardPlan]) -> Iterator[YardPlan]:
    """The piles that charges take from and that stand in none of the plans, each once: by itself it is a plan."""
    known = {stand.block for plan in plans for stand in plan.stands}
    lent = {stand.block: (plan, stand) for plan in reversed(plans) for stand in plan.lent if stand.block not in known}
    for block, (plan, stand) in lent.items():
        folder = os.path.dirname(block.path)  # noqa: PTH120 - the text of a path, not a file
        yield YardPlan(block.path, folder, plan.system, (stand,), ())


def yard_facts(plans: Sequence[YardPlan]) -> YardFacts:
    """All that the stacks of these plans say of one another."""
    stands = presences(plans)
    return YardFacts(
        bookings=tuple(bookings(stands)),
        takings=tuple(takings(stands)),
        loads=tuple(loads(stands)),
        faults=(*namesakes(stands), *strays(stands)),
    )


def _by_plan(plans: Sequence[YardPlan]) -> Mapping[str, YardFacts]:
    """The facts of a yard, by the plan that their place is in."""
    facts = yard_facts(plans)
    parted: dict[str, dict[str, list[Any]]] = defaultdict(lambda: defaultdict(list))
    for field in fields(facts):
        for member in getattr(facts, field.name):
            parted[member.where.path][field.name].append(member)
    names = [field.name for field in fields(facts)]
    return {path: YardFacts(**{name: tuple(each[name]) for name in names}) for path, each in parted.items()}


def _order(each: OfYard) -> tuple[int, int, int]:
    finding = each.said.finding if isinstance(each.said, Waived) else each.said
    return finding.where.line, finding.where.column, -finding.level.rank


def _involves(path: str, fact: Any) -> frozenset[str]:
    related = (each.where.path for each in getattr(fact, "related", ()))
    return frozenset((path, *related, *getattr(fact, "involves", ())))
