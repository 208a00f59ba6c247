"""The whole road in one pure function: a text in, findings out."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping

from stacklint import language
from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.drying.contradictions import contradictions
from stacklint.drying.lending import piles_of, with_dried_boards
from stacklint.drying.outlook import batches_of, outlook
from stacklint.engineering.facts import AssumptionFacts, FaultFacts, PlanFacts
from stacklint.engineering.stack_facts import gather
from stacklint.faults import Assumption, Fault, FaultKind
from stacklint.language import UseText
from stacklint.language.names import folded
from stacklint.layout import arrange
from stacklint.layout.matching import WORK
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, Plan
from stacklint.rulebook import RuleBook, StackWaiver, builtin, judge
from stacklint.tables import woods
from stacklint.tables.wood import MissingFigures, Wood
from stacklint.units import System
from stacklint.where import Where

_LAID_BY = frozenset({"boards", "from pile", "stack", "course", "stickers"})
"""Statements without which a stack cannot be laid out: what is faulty in them is not guessed."""


_STACKS = 30
"""Stacks of a text for which rows are searched at any cost. Ten are many, and few of them need a search at all."""
_LISTS = frozenset({"boards", "from pile", "pile", "charge"})
"""Statements that list boards; where one of them is faulty it is not said that there are none."""


def check(
    text: str,
    path: str = "-",
    *,
    book: RuleBook | None = None,
    today: datetime.date | None = None,
    use: UseText | None = None,
    look_for_shorter: bool = False,
    alone: bool = True,
) -> CheckedPlan:
    """Checks a plan.

    Args:
        text: the plan.
        path: its name in findings.
        book: the rules; the built-in ones if not given.
        today: the day that readings and waivers are judged by; the system's date if not given.
        look_for_shorter: forecasts also say what would bring their day forward, which costs several forecasts more.
        use: opens the texts that the plan uses; without it a ``use`` statement is a fault.
        alone: the rules on the yard judge this text's stacks among themselves. False where the plans of a yard are
            checked one by one: :func:`stacklint.yard.judging.judged` then sees them all together.

    Never raises for anything that the text says.
    """
    book = book if book is not None else builtin()
    today = today if today is not None else datetime.date.today()
    read = language.read(text, path, use, today)
    faults = list(read.faults)
    assumptions: list[tuple[str, Assumption]] = []
    stacks = []
    for stack in read.plan.stacks:
        stacks.append(_stack(stack, read.plan, read.system, today, faults, assumptions, look_for_shorter))
    facts = PlanFacts(
        where=Where(path, 1, 1, 1, 1),
        stacks=tuple(one.facts for one in stacks if one.facts is not None),
        faults=tuple(_fault(fault) for fault in faults),
        assumptions=tuple(_assumption(stack, assumption) for stack, assumption in assumptions),
        lacks=(),
        waivers=(),
    )
    judged = judge(book, facts, _waivers(read.plan.stacks), today)
    checked = CheckedPlan(
        path,
        read.system,
        tuple(stacks),
        judged.findings,
        judged.waived,
        tuple(said for _, said in assumptions),
        read.plan,
        tuple(_lent(read.plan, today)),
    )
    return _with_yard(checked, book, today) if alone else checked


def _with_yard(checked: CheckedPlan, book: RuleBook, today: datetime.date) -> CheckedPlan:
    """The plan with what its own stacks say of one another."""
    from stacklint.yard.judging import judged
    from stacklint.yard.stands import yard_plan

    found = judged((yard_plan(checked),), lambda _: book, today)
    return checked.with_more(
        tuple(each.finding for each in found.findings), tuple(each.waived for each in found.waived)
    )


def _lent(plan: Plan, today: datetime.date) -> Iterator[CheckedStack]:
    """The piles of other texts that the plan's charges take from, and when they are dry."""
    own = {stack.where for stack in plan.stacks}
    taken = {pile.where: pile for stack in plan.stacks for pile in piles_of(stack, plan)}
    for where, pile in taken.items():
        woods_known = woods_of(pile, plan)
        if where not in own and woods_known is not None:
            forecast = outlook(pile, batches_of(pile, woods_known), plan.sites, None, today)
            yield CheckedStack(pile, None, None, forecast)


def _stack(
    stack: Stack,
    plan: Plan,
    system: System,
    today: datetime.date,
    faults: list[Fault],
    assumptions: list[tuple[str, Assumption]],
    look_for_shorter: bool,
) -> CheckedStack:
    """Arranges a stack and gathers its facts, unless what it is built of could not be read."""
    if not stack.boards and _LISTS.isdisjoint(stack.faulty):
        faults.append(_no_boards(stack))
    known = woods_of(stack, plan)
    if known is None or not stack.boards or not _LAID_BY.isdisjoint(stack.faulty):
        return CheckedStack(stack, None, None)
    stack, lent = with_dried_boards(stack, plan, _with_piles(stack, plan, known), today)
    assumptions.extend((stack.name.text, new) for new in lent)
    kiln = _kiln(stack, plan)
    faults.extend(contradictions(stack, batches_of(stack, known), piles_of(stack, plan), kiln))
    arrangement = arrange(stack, kiln, _work(len(plan.stacks)))
    faults.extend(arrangement.faults)
    if not arrangement.courses:
        return CheckedStack(stack, None, None)
    gathered = gather(
        stack,
        arrangement,
        known,
        kiln,
        system,
        sites=plan.sites,
        today=today,
        goes_to_kiln=_goes_to_kiln(stack, plan),
        look_for_shorter=look_for_shorter,
    )
    known_already = {assumption for _, assumption in assumptions}
    assumptions.extend((stack.name.text, new) for new in gathered.assumptions if new not in known_already)
    return CheckedStack(stack, arrangement, gathered.facts, gathered.forecast)


def _work(stacks: int) -> int:
    """What the search for the best rows of each stack may cost: all of a text's together so much as a few dozen."""
    return max(WORK * _STACKS // max(stacks, _STACKS), WORK // 50)


def _with_piles(charge: Stack, plan: Plan, known: Mapping[str, Wood]) -> Mapping[str, Wood]:
    """The woods of a charge and those of the piles it takes from, of which it may take some boards only."""
    found = dict(known)
    for pile in piles_of(charge, plan):
        found |= woods_of(pile, plan) or {}
    return found


def _goes_to_kiln(stack: Stack, plan: Plan) -> bool:
    """A charge of the plan takes its boards from the stack."""
    name = stack.name.text.casefold()
    return any(taking.pile.text.casefold() == name for other in plan.stacks for taking in other.from_piles)


def _no_boards(stack: Stack) -> Fault:
    message = f"The {stack.kind.value} {stack.name.text} lists no boards."
    instead = "Add a line such as: boards a: 60 of white ash 4/4 x 6 in x 8 ft, green."
    return Fault(FaultKind.PLAN_TEXT, stack.name.where, message, instead, stack.name.text)


def woods_of(stack: Stack, plan: Plan) -> Mapping[str, Wood] | None:
    """Every wood that the stack names, by that name; ``None`` if its boards are of a wood that nobody knows."""
    found: dict[str, Wood] = {}
    supports = [
        part.wood.text for part in (stack.stickers, stack.bearers) if part is not None and part.wood is not None
    ]
    for name in {boards.wood.text for boards in stack.boards}:
        wood = _wood(name, plan)
        if wood is None:
            return None
        found[name] = wood
    for name in supports:
        wood = _wood(name, plan)
        if wood is not None:
            found[name] = wood
    return found


def _wood(name: str, plan: Plan) -> Wood | None:
    """A wood by a name as written: the plan's own blocks come before the table."""
    for statement in plan.woods:
        if folded(statement.name.text) == folded(name):
            described = woods.described(statement)
            return None if isinstance(described, MissingFigures) else described
    return woods.find(name)


def _kiln(stack: Stack, plan: Plan) -> Kiln | None:
    if stack.kiln is None:
        return None
    name = stack.kiln.text.casefold()
    return next((kiln for kiln in plan.kilns if kiln.name.text.casefold() == name), None)


def _fault(fault: Fault) -> FaultFacts:
    return FaultFacts(
        where=fault.where,
        kind=fault.kind.value,
        message=fault.message,
        instead=fault.instead,
        stack=fault.stack,
        found=fault.found,
        limit=fault.limit,
    )


def _assumption(stack: str, assumption: Assumption) -> AssumptionFacts:
    return AssumptionFacts(where=assumption.where, stack=stack, text=assumption.text, topic=assumption.topic)


def _waivers(stacks: Iterable[Stack]) -> tuple[StackWaiver, ...]:
    return tuple(StackWaiver(stack.name.text, waiver) for stack in stacks for waiver in stack.waivers)
