"""Puts ``course`` statements into the text of a plan, in place of those that stand there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stacklint.changes import Change
from stacklint.language.lines import without_comment
from stacklint.language.write_stack import course_words
from stacklint.plan.boards import Courses
from stacklint.plan.node import Node
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Plan
from stacklint.where import Where

_INDENT = "  "


def course_changes(text: str, plan: Plan, stack: Stack, courses: Sequence[Courses]) -> tuple[Change, ...]:
    """The changes of ``text``, which reads as ``plan``, that give a stack these courses and no others.

    They stand where its first course stood, else below its ``stack`` or its last ``boards`` line. Comments stay; of a
    statement that goes, its line goes too, unless a comment or another line of the text stands on it.
    """
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    said = [course_words(course) for course in courses]
    old = sorted((course.where for course in stack.courses), key=lambda where: where.line)
    if old:
        return _in_place(lines, old, said)
    if not said:
        return ()
    below = _below(plan, stack)
    raw = lines[below.end_line - 1]
    indent = _indent(lines[below.line - 1]) if below.line != stack.where.line else _INDENT
    end = Where(below.path, below.end_line, len(raw) + 1, below.end_line, len(raw) + 1)
    return (Change(end, "".join(f"\n{indent}{words}" for words in said)),)


def _in_place(lines: Sequence[str], old: Sequence[Where], said: Sequence[str]) -> tuple[Change, ...]:
    """The new statements one by one in the place of the old; what is left of either comes after or goes."""
    changes = []
    for place, where in enumerate(old):
        if place >= len(said):
            comments = _with_comments(lines, where, "").rstrip()
            changes.append(Change(where, comments) if comments else Change(_whole_line(lines, where), ""))
            continue
        text = said[place]
        if place == len(old) - 1 and len(said) > len(old):
            raw = lines[where.end_line - 1]
            text_after = "".join(f"\n{_indent(lines[where.line - 1])}{words}" for words in said[len(old) :])
            end = Where(where.path, where.end_line, len(raw) + 1, where.end_line, len(raw) + 1)
            changes.append(Change(end, text_after))
        changes.append(Change(where, _with_comments(lines, where, text)))
    return tuple(changes)


def _with_comments(lines: Sequence[str], where: Where, words: str) -> str:
    """The words, below the comments that stand within a statement of several lines."""
    within = [lines[number - 1] for number in range(where.line, where.end_line)]
    comments = [raw[len(without_comment(raw)) :] for raw in within if without_comment(raw) != raw]
    return f"\n{_indent(lines[where.line - 1])}".join([*comments, words])


def _whole_line(lines: Sequence[str], where: Where) -> Where:
    """The lines of a statement with their ends, where nothing else stands on them; else the statement alone."""
    before = lines[where.line - 1][: where.column - 1]
    after = lines[where.end_line - 1][where.end_column - 1 :]
    if before.strip() or after.strip():
        return where
    if where.end_line < len(lines):
        return Where(where.path, where.line, 1, where.end_line + 1, 1)
    if where.line == 1:
        return where
    return Where(
        where.path, where.line - 1, len(lines[where.line - 2]) + 1, where.end_line, where.end_column + len(after)
    )


def _below(plan: Plan, stack: Stack) -> Where:
    """The statement of the stack's own block that courses are written below."""
    own = _own_lines(plan, stack)
    size = [stack.size.where] if stack.size is not None else []
    for nodes in (size, [boards.where for boards in stack.boards]):
        inside = [where for where in nodes if where.path == stack.where.path and where.line in own]
        if inside:
            return max(inside, key=lambda where: where.end_line)
    return stack.where


def _own_lines(plan: Plan, stack: Stack) -> range:
    """The lines from the stack's first to the next block of its text."""
    blocks: Iterable[Node] = (*plan.sites, *plan.kilns, *plan.woods, *plan.stacks)
    later = [
        block.where.line
        for block in blocks
        if block.where.path == stack.where.path and block.where.line > stack.where.line
    ]
    return range(stack.where.line, min(later, default=1_000_000_000))


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip())]
