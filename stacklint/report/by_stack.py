"""Whose the findings of a plan are."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stacklint.checked import CheckedPlan, Waived
from stacklint.findings import Finding


def by_stack(checked: CheckedPlan) -> dict[int | None, list[Finding]]:
    """The findings of each stack, by its index; under ``None`` those of the plan as a whole."""
    return sorted_out([(each.stack.name.text, each.stack.where.line) for each in checked.stacks], checked.findings)


def sorted_out(stacks: Sequence[tuple[str, int]], findings: Iterable[Finding]) -> dict[int | None, list[Finding]]:
    """The findings of each of ``stacks``, which are given by name and line.

    Where two stacks bear one name, a finding belongs to the nearer one above its place.
    """
    found: dict[int | None, list[Finding]] = {index: [] for index in range(len(stacks))}
    found[None] = []
    by_name: dict[str | None, list[int]] = {}
    for index, (name, _) in enumerate(stacks):
        by_name.setdefault(name, []).append(index)
    for finding in findings:
        named = by_name.get(finding.stack, [])
        above = [index for index in named if stacks[index][1] <= finding.where.line]
        found[above[-1] if above else named[0] if named else None].append(finding)
    return found


def waived_by_stack(checked: CheckedPlan) -> dict[int | None, tuple[Waived, ...]]:
    """As :func:`by_stack`, for what is waived."""
    sorted_out = by_stack(checked._replace(findings=tuple(each.finding for each in checked.waived)))
    waived = {id(each.finding): each for each in checked.waived}
    return {index: tuple(waived[id(each)] for each in findings) for index, findings in sorted_out.items()}


def only(checked: CheckedPlan, name: str) -> CheckedPlan | None:
    """The plan with the stacks of that name alone and what is found in them; ``None`` where none bears it."""
    findings, waived = by_stack(checked), waived_by_stack(checked)
    chosen = [i for i, each in enumerate(checked.stacks) if each.stack.name.text.casefold() == name.casefold()]
    if not chosen:
        return None
    return checked._replace(
        stacks=tuple(checked.stacks[i] for i in chosen),
        findings=tuple(finding for i in (None, *chosen) for finding in findings[i]),
        waived=tuple(each for i in chosen for each in waived[i]),
    )
