"""Any plan can be arranged, tried in a kiln and put up for charges."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import HealthCheck, given, settings
from random_plans import plans

from stacklint.arranging.arranged import arranged, cannot_be_laid
from stacklint.arranging.charges import Yard, kilns_of, lots, proposals
from stacklint.arranging.kilns import load_kiln
from stacklint.checking import woods_of
from stacklint.language import read
from stacklint.language.write import write
from stacklint.plan.yard import Plan
from stacklint.report.arranged_text import arranged_lines, kiln_lines, too_long_lines
from stacklint.report.charges_text import charges_lines
from stacklint.rulebook import builtin
from stacklint.units import System

pytestmark = pytest.mark.slow
DAY = datetime.date(2026, 9, 1)
some = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


@some
@given(plans())
def test_every_stack_that_can_be_laid_is_arranged(plan: Plan) -> None:
    for stack in read(write(plan)).plan.stacks:
        if not cannot_be_laid(stack):
            assert all(line.isprintable() for line in arranged_lines(arranged(stack), System.INCH))


@some
@given(plans())
def test_every_stack_can_be_tried_in_every_kiln(plan: Plan) -> None:
    plan = read(write(plan)).plan
    for stack in plan.stacks:
        woods = woods_of(stack, plan)
        if woods is None or cannot_be_laid(stack):
            continue
        for kiln in plan.kilns:
            load = load_kiln(stack, kiln, woods)
            if hasattr(load, "courses"):
                assert list(kiln_lines(stack, load, System.METRIC))
            else:
                assert list(too_long_lines(stack, load, kiln.name.text, System.METRIC))


@some
@given(plans())
def test_any_yard_can_be_asked_for_charges(plan: Plan) -> None:
    yards = [Yard("p.stackplan", read(write(plan)).plan)]
    found = proposals(lots(yards, DAY, DAY), kilns_of(yards), yards, DAY, builtin())
    assert all(line.isprintable() for line in charges_lines(found, System.INCH, several=True))
