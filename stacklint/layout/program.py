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
NODE_CUTS = 2
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
    """``amounts`` of the unknowns and the value they come to. No amounts come to more than ``bound``."""

    amounts: tuple[int, ...]
    value: int
    bound: int

    @property
    def proven(self) -> bool:
        return self.value >= self.bound


def maximise(program: Program, start: Sequence[int], work: int) -> Best:
    """The best amounts, looking for better ones than ``start``, which must be allowed.

    ``work`` caps the search, counted in tableau entries that are worked over (some ten million a second).
    Within it the answer is proven; beyond it the best that was found comes back with the bound that is proven.
    """
    return _Search(program, start).run(work)


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
    def __init__(self, program: Program, start: Sequence[int]) -> None:
        self._program = program
        self._best = tuple(start)
        self._value = program.value(start)
        order = range(len(program.columns))
        self._order = sorted(order, key=lambda place: -program.weights[place])

    def run(self, work: int) -> Best:
        root = Tableau.of(self._program.columns, self._program.weights, self._program.limits)
        root.raise_up()
        spent = root.work
        self._consider(root)
        open_nodes: list[tuple[int, int, Tableau]] = []
        born = 0
        if self._cut(root, ROOT_CUTS):
            open_nodes.append((-root.bound, born, root))
        spent = root.work
        while open_nodes and -open_nodes[0][0] > self._value:
            if spent > work:
                return Best(self._best, self._value, -open_nodes[0][0])
            _, _, node = heapq.heappop(open_nodes)
            place = node.fractional()
            if place is None:
                continue
            for up in (False, True):
                child = node.branch(place, up)
                before = child.work
                if self._cut(child, NODE_CUTS):
                    born += 1
                    heapq.heappush(open_nodes, (-child.bound, -born, child))
                spent += child.work - before
        return Best(self._best, self._value, self._value)

    def _cut(self, node: Tableau, rounds: int) -> bool:
        """Bring the node to its optimum, with cuts. False where nothing better can come of it."""
        for left in range(rounds, -1, -1):
            if not node.restore() or node.bound <= self._value:
                return False
            self._consider(node)
            if node.bound <= self._value:
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
