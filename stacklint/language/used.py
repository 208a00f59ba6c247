"""The blocks that a plan has from other texts by ``use``."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from stacklint.faults import Fault, FaultKind
from stacklint.language.line import Log
from stacklint.plan.node import Name
from stacklint.plan.yard import Plan

DEEPEST = 20
"""Files that use one another in a row."""
MOST_USES = 200
"""``use`` statements of a plan and of the files that it uses, all told."""
LARGEST_TOGETHER = 10_000_000
"""Characters of all of them together: as many as one plan may have bytes."""


@dataclass(frozen=True, slots=True)
class UsedText:
    """The text that a ``use`` names, and its path as faults show it."""

    path: str
    text: str


@dataclass(frozen=True, slots=True)
class UseRefused:
    """Why a ``use`` brings nothing in, and what to do instead."""

    message: str
    instead: str


UseText = Callable[[str, str], UsedText | UseRefused]
"""Finds the text of a ``use``, given the name as it was written and the path of the text that uses it."""
ReadText = Callable[[UsedText], Plan]


class Uses:
    """Follows ``use`` statements, each text once, and never in a circle."""

    def __init__(self, find: UseText | None, log: Log) -> None:
        self._find = find
        self._log = log
        self._open: list[str] = []
        self._done: dict[str, Plan] = {}
        self._asked = self._characters = 0
        self._full = False

    def follow(self, plan: Plan, path: str, read: ReadText) -> list[Plan]:
        """The plans that ``plan``, the text at ``path``, uses, each with those that it uses itself before it."""
        self._open.append(path)
        used: list[Plan] = []
        for name in plan.uses:
            if self._log.full:
                break
            brought = self._one(name, path, read)
            if brought is not None and all(brought is not other for other in used):
                used.append(brought)
        self._open.pop()
        return used

    def _one(self, name: Name, path: str, read: ReadText) -> Plan | None:
        if self._find is None:
            self._refuse(name, f'"{name.text}" cannot be looked up here.', "Give the plan as a file in a folder.")
            return None
        if self._full:
            return None
        self._asked += 1
        if self._asked > MOST_USES:
            most = f"the plan and the files that it uses have more than {MOST_USES} use statements"
            self._stop(name, most, "Put what is shared into fewer files.")
            return None
        found = self._find(name.text, path)
        if isinstance(found, UseRefused):
            self._refuse(name, found.message, found.instead)
            return None
        if found.path in self._open:
            self._refuse(name, f'"{name.text}" uses itself, by way of this line.', "Take one of the use lines out.")
            return None
        if len(self._open) >= DEEPEST:
            self._refuse(name, f"More than {DEEPEST} files use one another in a row.", "Use the last ones directly.")
            return None
        if found.path not in self._done:
            self._characters += len(found.text)
            if self._characters > LARGEST_TOGETHER:
                most = f"the files that the plan uses have more than {LARGEST_TOGETHER:,} characters together"
                self._stop(name, most, "Use only files that the plan needs.")
                return None
            self._done[found.path] = read(found)
        return self._done[found.path]

    def _stop(self, name: Name, too_much: str, instead: str) -> None:
        self._full = True
        self._refuse(name, f'"{name.text}" and what comes after it is not read: {too_much}.', instead)

    def _refuse(self, name: Name, message: str, instead: str) -> None:
        self._log.add(Fault(FaultKind.PLAN_TEXT, name.where, message, instead))
