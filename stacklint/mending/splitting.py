"""Proposals that make two stacks of one: by thickness, by wood, by moisture, or by as many boards as are too many.

The second block repeats what the first says, but for what belongs to one stack alone: its spot, its courses, its
waivers and the day on which a charge starts. Stacks that have readings, or that a charge takes its boards from, are
built: how to part those is for people.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from stacklint.changes import Change
from stacklint.language.nearest import listed
from stacklint.language.written import quoted
from stacklint.mending.case import Case, Ladder, Option, Proposal
from stacklint.mending.edits import added_block, dropped_statement, replaced
from stacklint.mending.sorting import count_of
from stacklint.mending.written import Block, Statement
from stacklint.plan.boards import Boards
from stacklint.plan.stack import Stack
from stacklint.where import Where

_NUMBERED = re.compile(r"(.*\S) (\d{1,4})")
_OWN = frozenset({"boards", "spot", "course", "waive", "starts", "wanted", "reading"})


class _Part(NamedTuple):
    """Boards that go into the second stack: whole groups, and so many of one more group."""

    groups: tuple[str, ...]
    of: str | None = None
    moved: int = 0


def by_thickness(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The thin boards in a stack of their own."""
    yield from _by(case, stack, {group.label.text: group.thickness.si for group in stack.boards})


def by_moisture(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The dry boards in a stack of their own."""
    facts = case.facts
    if facts is not None:
        known = {group.label: group.moisture for group in facts.groups if group.label is not None}
        if all(value is not None for value in known.values()):
            yield from _by(case, stack, {key: value for key, value in known.items() if value is not None})


def by_wood(case: Case, stack: Stack) -> Iterator[Proposal]:
    """One wood in a stack of its own."""
    woods = {group.label.text: group.wood.text.casefold() for group in stack.boards}
    for wood in dict.fromkeys(reversed(woods.values())):
        moved = tuple(label for label, name in woods.items() if name == wood)
        if len(moved) < len(woods):
            yield from _split(case, stack, _Part(moved))


def by_amount(case: Case, stack: Stack) -> Iterator[Proposal]:
    """As many boards moved as it takes: row by row, course by course, from the last group listed."""
    counts = {group.label.text: group.count for group in stack.boards}
    total = sum(count for count in counts.values() if count is not None)
    if None in counts.values() or total < 2:
        return
    for step in _steps(case):
        rungs = (total - 1) // step
        parts = [_last(stack.boards, rung * step) for rung in range(1, rungs + 1)]
        options = _Made(case, stack, parts)
        if rungs and options.at((1,)) is not None:
            yield Ladder((rungs,), options.option, climb=2)


class _Made:
    """The options of a ladder, each made when it is asked for."""

    def __init__(self, case: Case, stack: Stack, parts: Sequence[_Part]) -> None:
        self._make: Callable[[_Part], Option | None] = lambda part: next(_split(case, stack, part), None)
        self._parts = parts

    def at(self, up: tuple[int, ...]) -> Option | None:
        return self._make(self._parts[up[0] - 1])

    def option(self, up: tuple[int, ...]) -> Option:
        return self.at(up) or Option((), "")


def _steps(case: Case) -> tuple[int, ...]:
    """The boards of a row, and those of a course."""
    checked = case.checked_stack
    if checked is None or checked.arrangement is None:
        return (1,)
    course = checked.arrangement.courses[0]
    rows = [len(run.row.pieces) for run in course.rows]
    return tuple(dict.fromkeys((rows[0], sum(run.count * len(run.row.pieces) for run in course.rows))))


def _last(groups: Sequence[Boards], count: int) -> _Part:
    """The last ``count`` boards in the order of the groups."""
    whole: list[str] = []
    for group in reversed(groups):
        assert group.count is not None
        if count < group.count:
            return _Part(tuple(whole), group.label.text if count else None, count)
        whole.append(group.label.text)
        count -= group.count
    return _Part(tuple(whole))


def _by(case: Case, stack: Stack, values: Mapping[str, float]) -> Iterator[Proposal]:
    """The groups up to each of the values, but the largest, moved."""
    for value in sorted(set(values.values()))[:-1]:
        moved = tuple(label for label, own in values.items() if own <= value)
        yield from _split(case, stack, _Part(moved))


def _split(case: Case, stack: Stack, part: _Part) -> Iterator[Option]:
    block = case.block
    if block is None or stack.readings or stack.from_piles or _is_lent(case, stack):
        return
    own = {group.label.text: group for group in stack.boards}
    placed = {label: case.statement(group) for label, group in own.items()}
    if None in placed.values() or len(part.groups) == len(own):
        return
    changes: list[Change] = []
    moved: list[str] = []
    for label, group in own.items():
        statement = placed[label]
        assert statement is not None
        text = _text(case, statement.where)
        if label in part.groups:
            changes.append(dropped_statement(case.source, statement))
            moved.append(text)
        elif label == part.of:
            where = count_of(case, group)
            if where is None or group.count is None:
                return
            changes.append(replaced(where, str(group.count - part.moved)))
            start = where.column - statement.where.column
            moved.append(f"{text[:start]}{part.moved}{text[start + where.end_column - where.column :]}")
    first, second = _wishes(stack, part)
    changes += [dropped_statement(case.source, statement) for statement in _of(case, first)]
    if part.groups:
        changes += [dropped_statement(case.source, statement) for statement in block.all("course")]
    text = _block_text(case, stack, block, moved, [_text(case, each.where) for each in _of(case, second)])
    changes.append(added_block(case.source, block, text))
    said = [f"all of {label}" for label in own if label in part.groups]
    said += [f"{part.moved} of {part.of}"] if part.of is not None else []
    name = quoted(_free_name(case, stack))
    yield Option(tuple(changes), f"Make two {stack.kind.value}s of it: {listed(said, 'and')} into {name}")


def _wishes(stack: Stack, part: _Part) -> tuple[list[Where], list[Where]]:
    """The ``wanted`` statements that leave the first stack, and those that the second has."""
    leaving = [wish.where for wish in stack.wanted if wish.label is not None and wish.label.text in part.groups]
    kept = set(part.groups) | {part.of}
    second = [wish.where for wish in stack.wanted if wish.label is None or wish.label.text in kept]
    return leaving, second


def _of(case: Case, places: Sequence[Where]) -> list[Statement]:
    return [found for where in places if (found := case.source.statement(where)) is not None]


def _is_lent(case: Case, stack: Stack) -> bool:
    name = stack.name.text.casefold()
    stacks = [checked.stack for checked in case.checked.stacks]
    return any(taking.pile.text.casefold() == name for other in stacks for taking in other.from_piles)


def _block_text(case: Case, stack: Stack, block: Block, boards: Sequence[str], wishes: Sequence[str]) -> str:
    header = _text(case, block.header)
    at = stack.name.where.column - block.header.column
    end = stack.name.where.end_column - block.header.column
    lines = [f"{header[:at]}{quoted(_free_name(case, stack))}{header[end:]}"]
    pending = [*boards]
    for statement in block.statements:
        if statement.keyword == "boards":
            lines += pending
            pending = []
        elif statement.keyword not in _OWN:
            lines.append(_text(case, statement.where))
    return "\n  ".join([*lines, *wishes])


def _text(case: Case, where: Where) -> str:
    lines = case.source.lines[where.line - 1 : where.end_line]
    lines[-1] = lines[-1][: where.end_column - 1]
    lines[0] = lines[0][where.column - 1 :]
    return "\n".join(lines)


def _free_name(case: Case, stack: Stack) -> str:
    return free_name(stack.name.text, {checked.stack.name.text.casefold() for checked in case.checked.stacks})


def free_name(name: str, taken: set[str]) -> str:
    """``B2 2`` for a second ``B2``, ``Ash 2`` for a second ``Ash 1``; the first number that is free."""
    numbered = _NUMBERED.fullmatch(name)
    bare, number = (numbered[1], int(numbered[2]) + 1) if numbered else (name, 2)
    while f"{bare} {number}".casefold() in taken:
        number += 1
    return f"{bare} {number}"
