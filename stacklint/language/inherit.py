"""What a charge has from the piles that its ``from pile`` statements name."""

from __future__ import annotations

from stacklint.faults import Fault, FaultKind
from stacklint.language.line import Log
from stacklint.language.names import unknown
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name
from stacklint.plan.stack import Stack, StackKind

INHERITED = ("size", "stickers", "ends")
"""What a charge does not say itself it has from the first of its piles that says it.

The boards of all the piles are added to its own. Where the pile stands and what it stands on, its
cover, sides, wind, clearance, courses, readings, wish and waivers stay with the pile: in the kiln they
are others.
"""
_SAID_BY = {"size": "stack", "stickers": "stickers", "ends": "ends"}


def with_piles(stack: Stack, others: tuple[Stack, ...], log: Log) -> Stack:
    """The charge with what it has from its piles. A pile that there is not is a fault."""
    piles = [pile for name in stack.from_piles if (pile := _find(stack, name, others, log)) is not None]
    if len(piles) < len(stack.from_piles):
        stack = stack.model_copy(update={"faulty": stack.faulty | {"from pile"}})
    if not piles:
        return stack
    boards = list(stack.boards)
    taken = {group.label.text for group in boards}
    faulty = set(stack.faulty)
    for pile in piles:
        for group in pile.boards:
            boards.append(_relabelled(group, pile, taken))
            taken.add(boards[-1].label.text)
        faulty |= pile.faulty & {"boards"}
    update: dict[str, object] = {"boards": tuple(boards)}
    for field in INHERITED:
        keyword = _SAID_BY[field]
        if getattr(stack, field) is not None or keyword in stack.faulty:
            continue
        lender = next((pile for pile in piles if getattr(pile, field) is not None or keyword in pile.faulty), None)
        if lender is not None:
            update[field] = getattr(lender, field)
            faulty |= lender.faulty & {keyword}
    return stack.model_copy(update=update | {"faulty": frozenset(faulty)})


def _find(stack: Stack, name: Name, others: tuple[Stack, ...], log: Log) -> Stack | None:
    piles = [other for other in others if other.kind is StackKind.PILE]
    found = next((pile for pile in piles if pile.name.text == name.text), None)
    if found is None:
        message, instead = unknown("pile", name.text, [pile.name.text for pile in piles])
        log.add(Fault(FaultKind.PLAN_TEXT, name.where, message, instead, stack.name.text))
    return found


def _relabelled(group: Boards, pile: Stack, taken: set[str]) -> Boards:
    """The group under a label that no other group of the charge has: ``B2.a`` if ``a`` is taken."""
    if group.label.text not in taken:
        return group
    text = f"{pile.name.text}.{group.label.text}"
    while text in taken:
        text += "+"
    return group.model_copy(update={"label": Name(where=group.label.where, text=text)})
