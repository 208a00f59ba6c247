"""A simplex tableau in whole numbers over one common denominator."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum

Column = Sequence[tuple[int, int]]
"""What one unit of an unknown uses: pairs of a resource and an amount."""

MOST_CUTS_A_ROUND = 6


class Restored(Enum):
    """How a dual simplex ended: at the best point, at a proof that no point is allowed, or out of turns."""

    BEST = "best"
    NOTHING_ALLOWED = "nothing allowed"
    UNFINISHED = "unfinished"


class Tableau:
    """The linear program of a whole-number program, in the form that keeps only the columns out of the basis.

    Row ``i`` says: unknown ``basis[i]`` plus the sum of entries times the unknowns ``outside`` is the last
    entry, all over ``denominator``. Row 0 is the objective. Unknowns below ``count`` are the program's;
    the others are slacks, whole numbers too.
    """

    __slots__ = ("_count", "_cuts", "basis", "denominator", "outside", "rows", "work")

    def __init__(self, rows: list[list[int]], basis: list[int], outside: list[int], count: int, cuts: set[int]) -> None:
        self.rows = rows
        self.basis = basis
        self.outside = outside
        self.denominator = 1
        self.work = 0
        self._count = count
        self._cuts = cuts

    @classmethod
    def of(
        cls,
        columns: Sequence[Column],
        weights: Sequence[int],
        limits: Sequence[int],
        chosen: Sequence[int],
    ) -> Tableau:
        """The tableau at nought, with the ``chosen`` of the program's unknowns."""
        count = len(columns)
        rows = [[-weights[place] for place in chosen] + [0]]
        rows.extend([0] * len(chosen) + [limit] for limit in limits)
        for entry, place in enumerate(chosen):
            for resource, used in columns[place]:
                rows[resource + 1][entry] = used
        return cls(rows, [-1, *range(count, count + len(limits))], list(chosen), count, set())

    def prices(self, resources: int) -> list[int]:
        """What one more of each resource would bring, times the denominator."""
        prices = [0] * resources
        for place, unknown in enumerate(self.outside):
            if self._count <= unknown < self._count + resources:
                prices[unknown - self._count] = self.rows[0][place]
        return prices

    def add(self, unknown: int, column: Column, weight: int) -> None:
        """Bring in an unknown of the program, at nought. No cuts or branches may have been added before."""
        inside = {slack: place for place, slack in enumerate(self.basis)}
        added = [0] * len(self.rows)
        added[0] = -weight * self.denominator
        for resource, used in column:
            slack = self._count + resource
            if slack in inside:
                added[inside[slack]] += used * self.denominator
                continue
            entry = self.outside.index(slack)
            for place, row in enumerate(self.rows):
                added[place] += used * row[entry]
        self.rows = [[*row[:-1], new, row[-1]] for row, new in zip(self.rows, added, strict=True)]
        self.outside.append(unknown)

    @property
    def bound(self) -> int:
        """The objective, rounded down: no whole amounts do better."""
        return self.rows[0][-1] // self.denominator

    def amounts(self) -> Iterator[tuple[int, int, float]]:
        """The program's unknowns that are not 0: place, whole part, fractional part."""
        for unknown, row in zip(self.basis, self.rows, strict=True):
            if 0 <= unknown < self._count and row[-1]:
                whole, part = divmod(row[-1], self.denominator)
                yield unknown, whole, part / self.denominator

    @property
    def fractions(self) -> int:
        """How many of the program's unknowns are not whole."""
        return sum(
            1
            for unknown, row in zip(self.basis, self.rows, strict=True)
            if 0 <= unknown < self._count and row[-1] % self.denominator
        )

    def fractional(self) -> int | None:
        """The row of the program's unknown that is the least above a whole number; ``None`` if all are whole."""
        best, least = None, self.denominator
        for place, unknown in enumerate(self.basis):
            if 0 <= unknown < self._count:
                part = self.rows[place][-1] % self.denominator
                if 0 < part < least:
                    best, least = place, part
        return best

    def branch(self, place: int, up: bool) -> Tableau:
        """A copy in which the unknown of a row is at most its value rounded down, or at least rounded up."""
        row = self.rows[place]
        floor = row[-1] // self.denominator
        if up:
            added = list(row)
            added[-1] -= (floor + 1) * self.denominator
        else:
            added = [-entry for entry in row]
            added[-1] += floor * self.denominator
        child = self.copy()
        child.rows.append(added)
        child.basis.append(self._new_slack())
        return child

    def cut(self) -> bool:
        """Add Gomory cuts for the rows furthest from whole numbers. False where all are whole."""
        denominator = self.denominator
        parts = [
            (min(part, denominator - part), place)
            for place, row in enumerate(self.rows)
            if (part := row[-1] % denominator)
        ]
        parts.sort(reverse=True)
        for _, place in parts[:MOST_CUTS_A_ROUND]:
            slack = self._new_slack()
            self.rows.append([-(entry % denominator) for entry in self.rows[place]])
            self.basis.append(slack)
            self._cuts.add(slack)
        return bool(parts)

    def raise_up(self, most: int) -> bool:
        """Primal simplex from a tableau that is allowed. False if it is not done after working over ``most`` entries.

        After a run of standstills the first column that helps is taken instead of the steepest, which cannot go
        round in circles (R. Bland, 1977).
        """
        standstill = 0
        while True:
            column = self._entering(careful=standstill > 2 * len(self.rows))
            if column is None:
                return True
            if self.work > most:
                return False
            place = self._leaving(column)
            standstill = standstill + 1 if not self.rows[place][-1] else 0
            self._pivot(place, column)

    def restore(self, most: int) -> Restored:
        """Dual simplex, after rows were added, for up to ``most`` turns."""
        for _ in range(most):
            place = self._lowest()
            if place is None:
                self._drop_loose_cuts()
                return Restored.BEST
            column = self._dual_entering(place)
            if column is None:
                return Restored.NOTHING_ALLOWED
            self._pivot(place, column)
        return Restored.UNFINISHED

    def copy(self) -> Tableau:
        """The same program at the same point. Rows are never changed in place, so both may hold them."""
        copied = Tableau(list(self.rows), list(self.basis), list(self.outside), self._count, set(self._cuts))
        copied.denominator = self.denominator
        return copied

    def _entering(self, careful: bool) -> int | None:
        objective, outside = self.rows[0], self.outside
        if careful:
            helping = [place for place in range(len(outside)) if objective[place] < 0]
            return min(helping, key=outside.__getitem__, default=None)
        least = min(objective[:-1], default=0)
        return objective.index(least) if least < 0 else None

    def _leaving(self, column: int) -> int:
        best, best_over, best_under = -1, 0, 1
        for place in range(1, len(self.rows)):
            row = self.rows[place]
            entry = row[column]
            if entry <= 0:
                continue
            compared = row[-1] * best_under - best_over * entry
            if best < 0 or compared < 0 or (compared == 0 and self.basis[place] < self.basis[best]):
                best, best_over, best_under = place, row[-1], entry
        if best < 0:
            raise ValueError("the program has no limit on one of its unknowns")
        return best

    def _lowest(self) -> int | None:
        place = min(range(1, len(self.rows)), key=lambda place: self.rows[place][-1], default=0)
        return place if place and self.rows[place][-1] < 0 else None

    def _dual_entering(self, place: int) -> int | None:
        row, objective, outside = self.rows[place], self.rows[0], self.outside
        best, best_over, best_under = None, 0, 1
        for column in range(len(outside)):
            entry = row[column]
            if entry >= 0:
                continue
            compared = objective[column] * best_under + best_over * entry
            if best is None or compared < 0 or (compared == 0 and outside[column] < outside[best]):
                best, best_over, best_under = column, objective[column], -entry
        return best

    def _pivot(self, place: int, column: int) -> None:
        """Exchange the unknown of a row with that of a column; every division comes out even."""
        rows, old = self.rows, self.denominator
        chosen = rows[place]
        pivot = chosen[column]
        sign = 1 if pivot > 0 else -1
        if sign < 0:
            chosen = [-entry for entry in chosen]
            pivot = -pivot
        for other, row in enumerate(rows):
            if other == place:
                continue
            factor = row[column]
            if factor:
                # Exact: every entry of a tableau is a minor of the first one (Bareiss 1968).
                changed = [
                    (entry * pivot - factor * against) // old for entry, against in zip(row, chosen, strict=True)
                ]
                changed[column] = -factor * sign
                rows[other] = changed
            elif pivot != old:
                rows[other] = [entry * pivot // old for entry in row]
        chosen = list(chosen)
        chosen[column] = old * sign
        rows[place] = chosen
        self.denominator = pivot
        self.basis[place], self.outside[column] = self.outside[column], self.basis[place]
        self.work += len(rows) * len(chosen)

    def _drop_loose_cuts(self) -> None:
        """Forget cuts that do not bind."""
        keep = [place for place, unknown in enumerate(self.basis) if unknown not in self._cuts]
        if len(keep) < len(self.basis):
            self.rows = [self.rows[place] for place in keep]
            self.basis = [self.basis[place] for place in keep]

    def _new_slack(self) -> int:
        return max(max(self.basis), max(self.outside)) + 1
