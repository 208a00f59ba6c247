"""Whose the findings of a plan are."""

from __future__ import annotations

from stacklint.checked import CheckedPlan
from stacklint.findings import Finding


def by_stack(checked: CheckedPlan) -> dict[int | None, list[Finding]]:
    """The findings of each stack, by its index; under ``None`` those of the plan as a whole.

    Where two stacks bear one name, a finding belongs to the nearer one above its place.
    """
    sorted_out: dict[int | None, list[Finding]] = {index: [] for index in range(len(checked.stacks))}
    sorted_out[None] = []
    by_name: dict[str | None, list[int]] = {}
    for index, each in enumerate(checked.stacks):
        by_name.setdefault(each.stack.name.text, []).append(index)
    for finding in checked.findings:
        named = by_name.get(finding.stack, [])
        above = [i for i in named if checked.stacks[i].stack.where.line <= finding.where.line]
        sorted_out[above[-1] if above else named[0] if named else None].append(finding)
    return sorted_out
