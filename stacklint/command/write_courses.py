"""Puts the courses of ``stacklint arrange --write`` into the plan."""

from __future__ import annotations

import datetime
import sys
from collections.abc import Iterable, Sequence

from stacklint import language
from stacklint.arranging.arranged import arranged, cannot_be_laid
from stacklint.arranging.placing import course_changes
from stacklint.changes import Change, changed, diff
from stacklint.command.arrange import stands_in_the_way
from stacklint.command.output import complain
from stacklint.command.rewriting import rewrite
from stacklint.files import STANDARD_INPUT, PlanFile, Trouble, as_it_stands, lending
from stacklint.language import ReadPlan
from stacklint.plan.boards import Courses
from stacklint.plan.stack import Stack
from stacklint.report.plain import plain


def write_courses(plan: PlanFile, read: ReadPlan, stacks: Iterable[Stack], today: datetime.date) -> int:
    """The plan with the courses of these stacks laid anew; shown as a unified diff. 1 where some could not be laid.

    From standard input the changed plan goes to standard output.
    """
    text = plan.text if plan.path == STANDARD_INPUT else as_it_stands(plan.path)
    if isinstance(text, Trouble):
        complain(text)
        return 2
    code = 0
    changes: list[Change] = []
    wanted: list[tuple[Stack, tuple[Courses, ...]]] = []
    for stack in stacks:
        if cannot_be_laid(stack) or "course" in stack.faulty:
            complain(Trouble(plan.path, stands_in_the_way(stack)))
            code = 1
            continue
        courses = arranged(stack).laid.courses
        if not courses:
            complain(Trouble(plan.path, _unsayable(stack)))
            code = 1
            continue
        wanted.append((stack, courses))
        changes += course_changes(text, read.plan, stack, courses)
    after = changed(text, changes)
    if not _says(after, plan, wanted, today):
        complain(
            Trouble(plan.path, "the courses name boards by labels that no course statement can; nothing is written")
        )
        return 2
    if plan.path == STANDARD_INPUT:
        sys.stdout.write(after)
        return code
    if after != text:
        trouble = rewrite(plan.path, text, after)
        if trouble is not None:
            complain(trouble)
            return 2
        _show(diff(text, after, plan.path))
    return code


def _show(difference: str) -> None:
    if sys.stdout.isatty():
        difference = "".join(f"{plain(line)}\n" for line in difference.split("\n")[:-1])
    sys.stdout.write(difference)


def _unsayable(stack: Stack) -> str:
    return (
        f"the {stack.kind.value} {stack.name.text} keeps its courses: boards of one group come in several lengths,"
        " which no course statement tells apart"
    )


def _says(text: str, plan: PlanFile, wanted: Sequence[tuple[Stack, tuple[Courses, ...]]], today: datetime.date) -> bool:
    """Does the text read back with these courses?"""
    plain_text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    again = language.read(plain_text, plan.path, lending(plan.root), today)
    stacks = list(again.plan.stacks)
    for stack, courses in wanted:
        found = next((each for each in stacks if each.name == stack.name and each.kind is stack.kind), None)
        if found is None or found.courses != courses:
            return False
        stacks.remove(found)
    return True
