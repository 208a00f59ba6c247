"""What a charge has from the piles that its ``from pile`` statements name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from stacklint.faults import Fault, FaultKind
from stacklint.language.line import Log
from stacklint.language.names import repr_name, unknown
from stacklint.language.taking import check_parts, taken_from
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name
from stacklint.plan.stack import Stack, StackKind, Taking

INHERITED = MappingProxyType({"size": "stack", "stickers": "stickers", "ends": "ends"})
"""The fields that a charge has from the first of its piles that says them, if it does not say them itself;
each with the keyword of its statement.

The boards of all the piles, or the parts of them that are named, are added to its own. Where the
pile stands and what it stands on, its cover, sides, wind, clearance, top load, courses, readings,
wish and waivers stay with the pile: in the kiln they are others.
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
        """The charge with what it has from its piles.

        Faults are a pile, or a part of one, that there is not, and a pile that is named twice: the first holds.
        """
        lent = tuple(first_takings(stack, self._by_name))
        sound = [self._is_known(stack, taking.pile) for taking in stack.from_piles]
        sound += [check_parts(stack, pile, taking, self._log) for taking, pile in lent]
        sound.append(self._are_named_once(stack))
        if not all(sound):
            stack = stack.model_copy(update={"faulty": stack.faulty | {"from pile"}})
        if not lent:
            return stack
        piles = [pile for _, pile in lent]
        faulty = set(stack.faulty)
        for pile in piles:
            faulty |= pile.faulty & {"boards"}
        update: dict[str, object] = {"boards": _all_boards(stack, lent)}
        for field, keyword in INHERITED.items():
            if getattr(stack, field) is not None or keyword in stack.faulty:
                continue
            lender = next((pile for pile in piles if getattr(pile, field) is not None or keyword in pile.faulty), None)
            if lender is not None:
                update[field] = getattr(lender, field)
                faulty |= lender.faulty & {keyword}
        return stack.model_copy(update=update | {"faulty": frozenset(faulty)})

    def _is_known(self, stack: Stack, name: Name) -> bool:
        known = name.text.casefold() in self._by_name
        if not known and not self._log.full:
            message, instead = unknown("pile", name.text, [pile.name.text for pile in self._by_name.values()])
            self._log.add(Fault(FaultKind.PLAN_TEXT, name.where, message, instead, stack.name.text))
        return known

    def _are_named_once(self, stack: Stack) -> bool:
        names: set[str] = set()
        for taking in stack.from_piles:
            name = taking.pile.text
            if name.casefold() in names and not self._log.full:
                message = f"The charge takes boards from pile {repr_name(name)} twice."
                instead = f'Name the pile once, with all that is taken: from pile {repr_name(name)}, 40 of a, all of b.'
                self._log.add(Fault(FaultKind.PLAN_TEXT, taking.pile.where, message, instead, stack.name.text))
            names.add(name.casefold())
        return len(names) == len(stack.from_piles)


def first_takings(stack: Stack, piles: Mapping[str, Stack]) -> Iterator[tuple[Taking, Stack]]:
    """What a charge takes of each pile that there is, the first time that it names it.

    ``piles`` are by their names in small letters.
    """
    taken: set[str] = set()
    for taking in stack.from_piles:
        name = taking.pile.text.casefold()
        if name in piles and name not in taken:
            taken.add(name)
            yield taking, piles[name]


def _all_boards(stack: Stack, lent: Iterable[tuple[Taking, Stack]]) -> tuple[Boards, ...]:
    boards = list(stack.boards)
    taken = {group.label.text for group in boards}
    for taking, pile in lent:
        for group in taken_from(pile, taking):
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
