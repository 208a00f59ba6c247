"""The plans by which the owner of house rules shows what a rule is to do: ``fails "hemlock-long.stackplan"``."""

from __future__ import annotations

import re
from enum import Enum
from typing import NamedTuple

from stacklint.findings import Level
from stacklint.rulebook.reader import EXAMPLE_CLAUSES, LEVELS, Block, Clause, read, read_texts
from stacklint.rulebook.written import Refused, RuleFault, Written
from stacklint.where import Where

_LEVEL = re.compile(r"([A-Za-z][\w-]*)\s*")


class Expected(Enum):
    """What a plan is to do: a rule finds something in one that fails it, and nothing in one that passes it."""

    FAILS = "fails"
    PASSES = "passes"


class Example(NamedTuple):
    """A plan named by a rule. ``plan`` is its path from the folder of the rule file; ``level`` what it is to find."""

    expected: Expected
    level: Level | None
    plan: str
    where: Where


def read_example(clause: Clause) -> Example:
    """The example of a clause.

    Raises:
        Refused: if it does not name one plan.
    """
    expected = Expected(clause.keyword)
    body = clause.body
    level = _level(body)
    texts = read_texts(body.part(level.end() if level else 0))
    if len(texts) > 1:
        raise texts[1].refuse(f"This {expected.value} names two plans.", f"Write {expected.value} again for the other.")
    (plan,) = texts
    if not plan.text.strip():
        raise body.refuse(f"This {expected.value} names no plan.", "Write the path of a plan from this file.")
    if level is not None and expected is Expected.PASSES:
        instead = 'Leave the level out: passes "..." means no finding at all.'
        raise body.refuse("A plan that passes has no level.", instead, 0, level.end(1))
    return Example(expected, Level(level.group(1)) if level else None, plan.text, clause.where)


def examples_of(block: Block) -> tuple[Example, ...]:
    """The examples of a rule or a change; those that could not be read are left out."""
    return tuple(example for example in map(_read, _clauses(block)) if isinstance(example, Example))


def faults_of_examples(block: Block) -> tuple[RuleFault, ...]:
    return tuple(fault for fault in map(_read, _clauses(block)) if isinstance(fault, RuleFault))


def without_examples(block: Block) -> Block:
    """What a rule judges by: examples are for those who test it."""
    return block._replace(clauses=tuple(clause for clause in block.clauses if clause.keyword not in EXAMPLE_CLAUSES))


def plans_named(text: str) -> frozenset[str]:
    """The paths of all example plans of a rule text, whatever else is wrong in it."""
    blocks, _ = read("", text, house=True)
    return frozenset(example.plan for block in blocks for example in examples_of(block))


def _clauses(block: Block) -> tuple[Clause, ...]:
    return tuple(clause for clause in block.clauses if clause.keyword in EXAMPLE_CLAUSES)


def _read(clause: Clause) -> Example | RuleFault:
    try:
        return read_example(clause)
    except Refused as refused:
        return refused.fault


def _level(body: Written) -> re.Match[str] | None:
    match = _LEVEL.match(body.text)
    if match is not None and match.group(1) not in LEVELS:
        instead = f"Write {', '.join(LEVELS)} or none, and the plan in quotes."
        raise body.refuse(f"{match.group(1)} is no level.", instead, 0, match.end(1))
    return match
