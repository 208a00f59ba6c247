"""What a charge has from the piles that its ``from pile`` statements name."""

from __future__ import annotations

from types import MappingProxyType

from stacklint.faults import Fault, FaultKind
from stacklint.language.line import Log
from stacklint.language.names import unknown
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name
from stacklint.plan.stack import Stack, StackKind

INHERITED = MappingProxyType({"size": "stack", "stickers": "stickers", "ends": "ends"})
"""The fields that a charge has from the first of its piles that says them, if it does not say them itself;
each with the keyword of its statement.

The boards of all the piles are added to its own. Where the pile stands and what it stands on, its
cover, sides, wind, clearance, top load, courses, readings, wish and waivers stay with the pile: in the
kiln they are others.
"""


class Piles:
    """The piles that charges may take boards from: those of the text, then those of the texts it uses."""

    def __init__(self, stacks: tuple[Stack, ...], log: Log) -> None:
        self._log = log
        self._by_name: dict[str, Stack] = {}
        for stack in stacks:
            if stack.kind is StackKind.PILE:
                self._by_name.setdefault(stack.name.text.casefold(), stack)

    def lend(self, stack: Stack) -> Stack:
        """The charge with what it has from its piles. A pile that there is not is a fault."""
        piles = [pile for name in stack.from_piles if (pile := self._find(stack, name)) is not None]
        if len(piles) < len(stack.from_piles):
            stack = stack.model_copy(update={"faulty": stack.faulty | {"from pile"}})
        if not piles:
            return stack
        faulty = set(stack.faulty)
        for pile in piles:
            faulty |= pile.faulty & {"boards"}
        update: dict[str, object] = {"boards": _all_boards(stack, piles)}
        for field, keyword in INHERITED.items():
            if getattr(stack, field) is not None or keyword in stack.faulty:
                continue
            lender = next((pile for pile in piles if getattr(pile, field) is not None or keyword in pile.faulty), None)
            if lender is not None:
                update[field] = getattr(lender, field)
                faulty |= lender.faulty & {keyword}
        return stack.model_copy(update=update | {"faulty": frozenset(faulty)})

    def _find(self, stack: Stack, name: Name) -> Stack | None:
        found = self._by_name.get(name.text.casefold())
        if found is None and not self._log.full:
            message, instead = unknown("pile", name.text, [pile.name.text for pile in self._by_name.values()])
            self._log.add(Fault(FaultKind.PLAN_TEXT, name.where, message, instead, stack.name.text))
        return found


def _all_boards(stack: Stack, piles: list[Stack]) -> tuple[Boards, ...]:
    boards = list(stack.boards)
    taken = {group.label.text for group in boards}
    for pile in piles:
        for group in pile.boards:
            boards.append(_relabelled(group, pile, taken))
            taken.add(boards[-1].label.text)
    return tuple(boards)


def _relabelled(group: Boards, pile: Stack, taken: set[str]) -> Boards:
    """The group under a label that no other group of the charge has: ``B2.a`` if ``a`` is taken."""
    if group.label.text not in taken:
        return group
    text = f"{pile.name.text}.{group.label.text}"
    while text in taken:
        text += "+"
    return group.model_copy(update={"label": Name(where=group.label.where, text=text)})
