"""Findings are numbered for paper, the gravest first."""

from __future__ import annotations

import sheet_plans as plans

from stacklint.findings import Level
from stacklint.report.by_stack import by_stack, only, waived_by_stack
from stacklint.report.numbered import numbered


def test_errors_come_before_warnings_and_these_before_notes_else_as_in_the_plan() -> None:
    found = plans.plan(plans.TALL).findings
    given = numbered(found)
    assert [each.number for each in given] == list(range(1, len(found) + 1))
    ranks = [each.finding.level.rank for each in given]
    assert ranks == sorted(ranks, reverse=True)
    for level in Level:
        alike = [each.finding for each in given if each.finding.level is level]
        assert alike == [finding for finding in found if finding.level is level]


def test_one_stack_of_a_plan_keeps_what_is_found_and_waived_in_it() -> None:
    plan = plans.plan(plans.SEVERAL)
    index = 0
    alone = only(plan, "a")
    assert alone is not None
    assert [stack.stack.name.text for stack in alone.stacks] == ["A"]
    assert list(alone.findings) == [*by_stack(plan)[None], *by_stack(plan)[index]]
    assert alone.waived == waived_by_stack(plan)[index]
    assert alone.waived
    assert only(plan, "no such pile") is None
