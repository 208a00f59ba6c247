"""Whole-number programs, solved exactly: which rows, and how many of each, make the most of the boards.

Branch and bound over linear programs with cutting planes. The simplex tableau holds whole numbers over one
common denominator (integer pivoting: J. Edmonds, 1967; E. Bareiss, Math. Comp. 22, 1968), so nothing
is ever rounded and a proof of the best is a proof. The cuts are R. Gomory's fractional cuts (1958).
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass

from stacklint.layout.tableau import Tableau

Column = Sequence[tuple[int, int]]
"""What one unit of an unknown uses: pairs of a resource and an amount."""

ROOT_CUTS = 12
NODE_CUTS = 1
"""Rounds of cutting planes at the first linear program and at each later one."""


@dataclass(frozen=True, slots=True)
class Program:
    """Maximise the sum of ``weights`` times unknowns, whole and not negative, that use no more than ``limits``."""

    columns: Sequence[Column]
    weights: Sequence[int]
    limits: Sequence[int]

    def value(self, amounts: Sequence[int]) -> int:
        return sum(weight * amount for weight, amount in zip(self.weights, amounts, strict=True) if amount)


@dataclass(frozen=True, slots=True)
class Best:
    """``amounts`` of the unknowns and the value they come to. ``proven`` says that none are worth a step more."""

    amounts: tuple[int, ...]
    value: int
    proven: bool


def maximise(program: Program, start: Sequence[int], work: int, step: int = 1) -> Best:
    """The best amounts, looking for better ones than ``start``, which must be allowed.

    Values are compared in whole steps: among amounts whose value divided by ``step`` rounds down to the same, any
    may come back. ``work`` caps the search, counted in tableau entries that are worked over (some ten
    million a second). Within it the answer is proven; beyond it the best that was found comes back.
    """
    return _Search(program, start, step).run(work)


def fill_up(program: Program, amounts: list[int], order: Sequence[int]) -> None:
    """Raise ``amounts``, taking the unknowns in ``order``, each as far as the limits allow."""
    left = list(program.limits)
    for place, amount in enumerate(amounts):
        if amount:
            for resource, used in program.columns[place]:
                left[resource] -= used * amount
    for place in order:
        column = program.columns[place]
        more = min(left[resource] // used for resource, used in column)
        if more > 0:
            amounts[place] += more
            for resource, used in column:
                left[resource] -= used * more


class _Search:
    def __init__(self, program: Program, start: Sequence[int], step: int) -> None:
        self._program = program
        self._step = step
        self._best = tuple(start)
        self._value = program.value(start)
        order = range(len(program.columns))
        self._order = sorted(order, key=lambda place: -program.weights[place])

    def run(self, work: int) -> Best:
        """Best bound first; among equals the node with the fewest unknowns that are not whole, then the youngest."""
        root = Tableau.of(self._program.columns, self._program.weights, self._program.limits)
        root.raise_up()
        nodes: list[tuple[int, int, int, Tableau]] = []
        if self._cut(root, ROOT_CUTS):
            nodes.append((-self._steps(root.bound), 0, 0, root))
        spent, born = root.work, 0
        while nodes and -nodes[0][0] > self._steps(self._value):
            if spent > work:
                return Best(self._best, self._value, proven=False)
            node = heapq.heappop(nodes)[-1]
            place = node.fractional()
            if place is None:
                continue
            for up in (False, True):
                child = node.branch(place, up)
                if self._cut(child, NODE_CUTS):
                    born += 1
                    heapq.heappush(nodes, (-self._steps(child.bound), child.fractions, -born, child))
                spent += child.work
        return Best(self._best, self._value, proven=True)

    def _steps(self, value: int) -> int:
        return value // self._step

    def _cut(self, node: Tableau, rounds: int) -> bool:
        """Bring the node to its optimum, with cuts. False where nothing better can come of it."""
        for left in range(rounds, -1, -1):
            if not node.restore() or self._steps(node.bound) <= self._steps(self._value):
                return False
            self._consider(node)
            if self._steps(node.bound) <= self._steps(self._value):
                return False
            if not left or not node.cut():
                break
        return True

    def _consider(self, node: Tableau) -> None:
        """Round the node's amounts down, fill up what that leaves, and keep the outcome if it is better."""
        amounts = [0] * len(self._program.columns)
        parts: list[tuple[float, int]] = []
        for place, whole, part in node.amounts():
            amounts[place] = whole
            if part:
                parts.append((-part, place))
        parts.sort()
        fill_up(self._program, amounts, [*(place for _, place in parts), *self._order])
        value = self._program.value(amounts)
        if value > self._value:
            self._best, self._value = tuple(amounts), value
