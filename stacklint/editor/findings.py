"""What a check says of a text, as an editor shows it: each finding at a place of that very text."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from stacklint.checked import CheckedPlan
from stacklint.editor.outline import outline, uses
from stacklint.findings import Finding, Level
from stacklint.report.lines import also
from stacklint.rulebook import RuleBook, RuleFault, builtin, builtin_texts, load
from stacklint.where import Where

RULE_TEXT = "rule-text"
"""What the faults of a rule file are called, as those of a plan are called by their rule."""


class Told(NamedTuple):
    """A finding for an editor. ``elsewhere`` is its place if that lies in a file that the text uses."""

    where: Where
    level: Level
    message: str
    rule: str
    elsewhere: Where | None = None


def told_of_plan(checked: CheckedPlan, text: str, faults: Iterable[RuleFault] = ()) -> tuple[Told, ...]:
    """The findings of a plan; those of the files that it uses stand at their ``use``.

    ``faults`` are those of house rules that were set aside.
    """
    told = [_told(finding, checked.path, text) for finding in checked.findings]
    for fault in list(faults)[:1]:
        message = f"These house rules are set aside, and the other rules judge: {_sentences(fault)}"
        told.append(Told(_first_line(checked.path, text), Level.ERROR, message, RULE_TEXT, fault.where))
    return tuple(told)


def told_of_rules(text: str, path: str, base: RuleBook | None = None) -> tuple[Told, ...]:
    """The faults of a rule file. A file of the built-in rules is read as such, every other as house rules.

    ``base`` are the rules that house rules change: the built-in ones, if not given.
    """
    if _is_builtin(path):
        loaded = load([(path, text)])
    else:
        loaded = load([(path, text)], base=base if base is not None else builtin(), house=True)
    return tuple(Told(fault.where, Level.ERROR, _sentences(fault), RULE_TEXT) for fault in loaded.faults)


def told_of_size(path: str, found: int, most: int) -> Told:
    """A text is too large to be looked at."""
    message = f"The text has {found:,} characters; in an editor at most {most:,} are looked at. Part it into several."
    return Told(_first_line(path, ""), Level.ERROR, message, "plan-text")


def _told(finding: Finding, path: str, text: str) -> Told:
    parts = (finding.message, finding.instead, also(finding), finding.caution or "")
    message = " ".join(part for part in parts if part)
    where = finding.where
    if where.path in ("", path):
        return Told(where if where.line else _first_line(path, text), finding.level, message, finding.rule)
    name = os.path.relpath(where.path, Path(path).parent) if Path(path).is_absolute() else where.path
    at = _use_of(where.path, path, text)
    return Told(at, finding.level, f"{name}, line {where.line}: {message}", finding.rule, where)


def _use_of(used: str, path: str, text: str) -> Where:
    """The ``use`` that brings in a file; the first one for a file that comes by way of another."""
    found = uses(outline(text, path))
    for name, where in found:
        if os.path.normpath(Path(path).parent / name) == used:
            return where
    return found[0][1] if found else _first_line(path, text)


def _first_line(path: str, text: str) -> Where:
    return Where(path, 1, 1, 1, len(text.split("\n", 1)[0]) + 1)


def _sentences(fault: RuleFault) -> str:
    return f"{fault.message} {fault.instead}".strip()


def _is_builtin(path: str) -> bool:
    place = Path(path)
    return place.parent.name == "rules" and any(f"rules/{place.name}" == name for name, _ in builtin_texts())
