"""The whole-number programs under the matching, against HiGHS (``scipy.optimize.milp``)."""

from __future__ import annotations

import random

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, linprog, milp

from stacklint.layout.program import Program, maximise
from stacklint.layout.tableau import Restored, Tableau

COLUMN = st.dictionaries(st.integers(0, 3), st.integers(1, 5), min_size=1, max_size=3)


@st.composite
def programs(draw) -> Program:
    columns = draw(st.lists(COLUMN, min_size=1, max_size=8))
    weights = draw(st.lists(st.integers(1, 9), min_size=len(columns), max_size=len(columns)))
    limits = draw(st.lists(st.integers(0, 25), min_size=4, max_size=4))
    return Program([sorted(column.items()) for column in columns], weights, limits)


def uses(program: Program) -> numpy.ndarray:
    table = numpy.zeros((len(program.limits), len(program.columns)))
    for place, column in enumerate(program.columns):
        for resource, used in column:
            table[resource, place] = used
    return table


@settings(max_examples=400, deadline=None)
@given(programs())
def test_the_best_whole_amounts_are_found_and_proven(program):
    best = maximise(program, [0] * len(program.columns), 1_000_000)
    table = uses(program)
    reference = milp(
        [-weight for weight in program.weights],
        constraints=LinearConstraint(table, ub=program.limits),
        integrality=numpy.ones(len(program.columns)),
    )
    assert best.proven
    assert best.value == program.value(best.amounts) == round(-reference.fun)
    assert (table @ numpy.array(best.amounts) <= numpy.array(program.limits)).all()


@pytest.mark.parametrize("seed", [5, 10, 29, 40, 77, 103, 130])
def test_programs_that_cuts_alone_do_not_settle_are_settled_by_parting_them(monkeypatch, seed):
    """Of these each is parted in two again and again: at most so many of a row, or at least one more."""
    chance = random.Random(seed)
    resources, count = chance.randint(3, 6), chance.randint(4, 12)
    columns = [
        sorted({chance.randrange(resources): chance.randint(1, 9) for _ in range(chance.randint(1, resources))}.items())
        for _ in range(count)
    ]
    weights = [chance.randint(1, 20) for _ in range(count)]
    program = Program(columns, weights, [chance.randint(10, 60) for _ in range(resources)])
    parted = []
    branch = Tableau.branch
    monkeypatch.setattr(Tableau, "branch", lambda self, place, up: parted.append(up) or branch(self, place, up))
    best = maximise(program, [0] * count, 1_000_000)
    reference = milp(
        [-weight for weight in weights],
        constraints=LinearConstraint(uses(program), ub=program.limits),
        integrality=numpy.ones(count),
    )
    assert set(parted) == {False, True}
    assert best.proven
    assert best.value == program.value(best.amounts) == round(-reference.fun)


@settings(max_examples=200, deadline=None)
@given(programs())
def test_the_linear_program_is_solved_exactly(program):
    count = len(program.columns)
    tableau = Tableau.of(program.columns, program.weights, program.limits, range(count))
    tableau.raise_up(1_000_000)
    reference = linprog([-weight for weight in program.weights], A_ub=uses(program), b_ub=program.limits)
    assert tableau.rows[0][-1] / tableau.denominator == pytest.approx(-reference.fun, abs=1e-6)


@settings(max_examples=200, deadline=None)
@given(programs(), st.booleans())
def test_a_parted_program_is_the_linear_program_with_one_amount_bounded(program, up):
    count = len(program.columns)
    tableau = Tableau.of(program.columns, program.weights, program.limits, range(count))
    tableau.raise_up(1_000_000)
    row = tableau.fractional()
    if row is None:
        return
    unknown, whole = tableau.basis[row], tableau.rows[row][-1] // tableau.denominator
    child = tableau.branch(row, up)
    restored = child.restore(1_000_000)
    bounds = [(0.0, None) for _ in range(count)]
    bounds[unknown] = (whole + 1.0, None) if up else (0.0, float(whole))
    reference = linprog(
        [-weight for weight in program.weights], A_ub=uses(program), b_ub=program.limits, bounds=bounds
    )
    assert (restored is Restored.BEST) is bool(reference.success)
    if reference.success:
        assert child.rows[0][-1] / child.denominator == pytest.approx(-reference.fun, abs=1e-6)


@settings(max_examples=200, deadline=None)
@given(programs(), st.integers(1, 7))
def test_an_unknown_brought_in_late_counts_as_from_the_start(program, some):
    """The linear program is the same whether unknowns were there at first or added at its optimum."""
    count = len(program.columns)
    first = range(0, count, some)
    late = Tableau.of(program.columns, program.weights, program.limits, first)
    late.raise_up(1_000_000)
    for place in sorted(set(range(count)) - set(first)):
        late.add(place, program.columns[place], program.weights[place])
    late.raise_up(1_000_000)
    whole = Tableau.of(program.columns, program.weights, program.limits, range(count))
    whole.raise_up(1_000_000)
    assert late.rows[0][-1] * whole.denominator == whole.rows[0][-1] * late.denominator


def test_without_leave_to_work_the_start_comes_back_unproven():
    program = Program([[(0, 2)], [(0, 3)]], [2, 3], [7])
    best = maximise(program, [0, 0], -1)
    assert not best.proven
