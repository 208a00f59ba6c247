"""Proposals for which boards lie where: courses laid anew, boards left out, a stack as long as its rows."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from stacklint.changes import Change
from stacklint.language.nearest import listed
from stacklint.mending import usual
from stacklint.mending.case import Case, Option, Proposal
from stacklint.mending.edits import dropped_statement, replaced
from stacklint.mending.written import Statement
from stacklint.plan.boards import Boards
from stacklint.plan.stack import Stack
from stacklint.where import Where

_COUNT = re.compile(r"(?<=:)\s*(\d+)(?=\s)")
_MOST_COURSES = 5
"""Course statements of which every choice is tried; of more, each one alone and all of them."""


def laid_anew(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Written courses taken out, so that stacklint lays those boards: the fewest that will do."""
    block = case.block
    if block is None or not stack.courses:
        return
    courses = block.all("course")
    line = case.finding.where.line
    ranked = sorted(courses, key=lambda each: abs(each.where.line - line))
    sizes = range(1, len(courses) + 1) if len(courses) <= _MOST_COURSES else (1, len(courses))
    for size in sizes:
        for chosen in combinations(ranked, size):
            changes = tuple(dropped_statement(case.source, each) for each in chosen)
            yield Option(changes, f"Leave the courses to stacklint instead of {_said(case, chosen)}")


def _said(case: Case, courses: tuple[Statement, ...]) -> str:
    heads = sorted(case.source.said(each.where).split(":")[0] for each in courses)
    return listed(heads, "and") if all(heads) else "writing them"


def left_out(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The boards that find no partner left out of the stack, where the plan counts them."""
    checked = case.checked_stack
    if checked is None or checked.arrangement is None:
        return
    arrangement = checked.arrangement
    yield from laid_anew(case, stack)
    odd = Counter[str]()
    for each in arrangement.unpaired:
        odd[each.label] += each.count
    groups = {group.label.text: group for group in stack.boards}
    changes: list[Change] = []
    said: list[str] = []
    for label, count in odd.items():
        group = groups.get(label)
        where = count_of(case, group) if group is not None else None
        if group is None or group.count is None or where is None or group.count <= count:
            return
        changes.append(replaced(where, str(group.count - count)))
        said.append(f"{count} of {label}")
    if changes:
        yield Option(tuple(changes), f"Leave {listed(said, 'and')} out, for another stack")


def count_of(case: Case, group: Boards) -> Where | None:
    """The place of the count of boards in a ``boards`` statement of this text."""
    statement = case.statement(group)
    if statement is None:
        return None
    line = statement.where.line
    text = case.source.lines[line - 1]
    match = _COUNT.search(text, statement.where.column - 1)
    if match is None or int(match[1]) != group.count:
        return None
    return Where(case.source.path, line, match.start(1) + 1, line, match.end(1) + 1)


def as_long_as_rows(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The stack as long as one of its rows, the nearest length first."""
    checked = case.checked_stack
    size = stack.size
    if checked is None or checked.arrangement is None or size is None or case.statement(size) is None:
        return
    lengths = {round(run.row.length, 4) for course in checked.arrangement.courses for run in course.rows}
    for metres in sorted(lengths, key=lambda each: abs(each - size.length.si)):
        if abs(metres - size.length.si) > 1e-3:
            text = usual.size(metres, size.length, case.system)
            yield Option((replaced(size.length.where, text),), f"Make the stack {text} long, as its rows are")
    yield from laid_anew(case, stack)
