"""Whole-number programs, solved exactly: which rows, and how many of each, make the most of the boards.

Branch and bound over linear programs with cutting planes. The simplex tableau holds whole numbers over one
common denominator (integer pivoting: J. Edmonds, 1967; E. Bareiss, Math. Comp. 22, 1968), so nothing
is ever rounded and a proof of the best is a proof. The cuts are R. Gomory's fractional cuts (1958).
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass, replace

from stacklint.layout.tableau import Column, Restored, Tableau

ROOT_CUTS = 12
NODE_CUTS = 1
"""Rounds of cutting planes at the first linear program and at each later one."""

TURNS_AFTER_CUTS = 40
"""Cuts that take more pivots than this to work in are left out again: they cost more than they bring."""

TURNS_AFTER_BRANCH = 400

FEW = 60
"""Programs of more unknowns than this are solved on a part of them, which grows by those that are missed."""

GROWTH = 40
"""So many at a time."""

MOST_BROUGHT_IN = 1_500


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
    """``amounts`` of the unknowns and the value they come to. ``proven`` says that none are worth a step more,
    ``utmost`` that none are worth more at all."""

    amounts: tuple[int, ...]
    value: int
    proven: bool
    utmost: bool = False


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
        root = self._root(work)
        self._consider(root)
        if root.work > work:
            return self._ended(proven=False)
        utmost = root.bound
        proven = self._search(root, work)
        if len(root.outside) < len(self._program.columns) and self._steps(utmost) > self._steps(self._value):
            proven = self._complete(root) and self._search(root, work)
        best = self._ended(proven or self._steps(self._value) >= self._steps(utmost))
        return replace(best, utmost=self._value >= utmost)

    def _root(self, work: int) -> Tableau:
        """The linear program at its optimum. Of many unknowns it holds those that the optimum needs."""
        program = self._program
        count = len(program.columns)
        chosen = range(0, count, -(-count // FEW))
        root = Tableau.of(program.columns, program.weights, program.limits, chosen)
        while root.raise_up(work) and len(root.outside) < count:
            losses = self._losses(root)
            missed = sorted((loss, place) for place, loss in losses.items() if loss < 0)
            if not missed:
                break
            for _, place in missed[:GROWTH]:
                root.add(place, program.columns[place], program.weights[place])
            root.work += count
        return root

    def _losses(self, root: Tableau) -> dict[int, int]:
        """What one of each unknown that the tableau lacks would cost, times the denominator."""
        program = self._program
        prices = root.prices(len(program.limits))
        held = {*root.outside, *root.basis}
        return {
            place: sum(prices[resource] * used for resource, used in column) - program.weights[place] * root.denominator
            for place, column in enumerate(program.columns)
            if place not in held
        }

    def _complete(self, root: Tableau) -> bool:
        """Bring in all unknowns that may stand in something better. False where they are too many.

        An unknown whose loss alone takes the optimum of the linear program down to what is already in hand
        stands in nothing better.
        """
        top = root.rows[0][-1]
        wanted = [
            place
            for place, loss in self._losses(root).items()
            if self._steps((top - loss) // root.denominator) > self._steps(self._value)
        ]
        if len(wanted) > MOST_BROUGHT_IN:
            return False
        for place in wanted:
            root.add(place, self._program.columns[place], self._program.weights[place])
        return True

    def _search(self, root: Tableau, work: int) -> bool:
        """Branch and bound: the best bound first; among equals the node with the fewest unknowns that are not
        whole, then the youngest. True if the whole tree was searched."""
        if not self._hopeful(root):
            return True
        node = self._cut(root, ROOT_CUTS) or root
        nodes: list[tuple[int, int, int, Tableau]] = [(-self._steps(node.bound), 0, 0, node)]
        spent, born, whole_tree = node.work, 0, True
        while nodes and -nodes[0][0] > self._steps(self._value):
            if spent > work:
                return False
            node = heapq.heappop(nodes)[-1]
            place = node.fractional()
            if place is None:
                continue
            for up in (False, True):
                child = node.branch(place, up)
                restored = child.restore(TURNS_AFTER_BRANCH)
                whole_tree = whole_tree and restored is not Restored.UNFINISHED
                if restored is Restored.BEST and self._hopeful(child):
                    grown = self._cut(child, NODE_CUTS)
                    if grown is not None:
                        born += 1
                        heapq.heappush(nodes, (-self._steps(grown.bound), grown.fractions, -born, grown))
                        child = grown
                spent += child.work
        return whole_tree

    def _ended(self, proven: bool) -> Best:
        return Best(self._best, self._value, proven)

    def _hopeful(self, node: Tableau) -> bool:
        """Can anything better come of a node that is at its optimum?"""
        if self._steps(node.bound) > self._steps(self._value):
            self._consider(node)
        return self._steps(node.bound) > self._steps(self._value)

    def _cut(self, node: Tableau, rounds: int) -> Tableau | None:
        """The node with cuts worked in, as long as that goes quickly and something better may still come of it.
        ``None`` where the cuts show that it holds no whole amounts."""
        for _ in range(rounds):
            tried = node.copy()
            tried.work = node.work
            if not tried.cut():
                break
            restored = tried.restore(TURNS_AFTER_CUTS)
            if restored is Restored.UNFINISHED:
                node.work = tried.work
                break
            if restored is Restored.NOTHING_ALLOWED:
                return None
            node = tried
            if not self._hopeful(node):
                break
        return node

    def _steps(self, value: int) -> int:
        return value // self._step

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
