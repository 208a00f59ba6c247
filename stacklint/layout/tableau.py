"""A simplex tableau in whole numbers over one common denominator."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

MOST_CUTS_A_ROUND = 6


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
    def of(cls, columns: Sequence[Sequence[tuple[int, int]]], weights: Sequence[int], limits: Sequence[int]) -> Tableau:
        count = len(columns)
        rows = [[-weight for weight in weights] + [0]]
        rows.extend([0] * count + [limit] for limit in limits)
        for place, column in enumerate(columns):
            for resource, used in column:
                rows[resource + 1][place] = used
        return cls(rows, [-1, *range(count, count + len(limits))], list(range(count)), count, set())

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
        rows = list(self.rows)
        row = rows[place]
        floor = row[-1] // self.denominator
        if up:
            added = list(row)
            added[-1] -= (floor + 1) * self.denominator
        else:
            added = [-entry for entry in row]
            added[-1] += floor * self.denominator
        child = Tableau(rows, list(self.basis), list(self.outside), self._count, set(self._cuts))
        child.denominator = self.denominator
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

    def raise_up(self) -> None:
        """Primal simplex from a tableau that is allowed. After a run of standstills the first column that
        helps is taken instead of the steepest, which cannot go round in circles (R. Bland, 1977)."""
        standstill = 0
        while True:
            objective = self.rows[0]
            column = self._entering(objective, careful=standstill > 2 * len(self.rows))
            if column is None:
                return
            place = self._leaving(column)
            standstill = standstill + 1 if not self.rows[place][-1] else 0
            self._pivot(place, column)

    def restore(self) -> bool:
        """Dual simplex, after rows were added. False where no amounts are left that are allowed."""
        turns = 0
        while True:
            place = self._lowest(careful=turns > 20 * len(self.rows))
            if place is None:
                break
            column = self._dual_entering(place)
            if column is None:
                return False
            self._pivot(place, column)
            turns += 1
        self._drop_loose_cuts()
        return True

    def _entering(self, objective: list[int], careful: bool) -> int | None:
        outside = self.outside
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

    def _lowest(self, careful: bool) -> int | None:
        best, least = None, 0
        for place in range(1, len(self.rows)):
            value = self.rows[place][-1]
            if value >= 0:
                continue
            if best is None or (self.basis[place] < self.basis[best] if careful else value < least):
                best, least = place, value
        return best

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
