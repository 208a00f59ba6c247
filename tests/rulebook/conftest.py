"""Facts for rules to look at: every fact unknown but those that a test gives."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

import pytest

from stacklint.engineering import facts
from stacklint.engineering.schema import Many
from stacklint.findings import Mark, Part
from stacklint.rulebook import RuleBook, load
from stacklint.units import System
from stacklint.where import Where

Make = Callable[..., Any]


def at(line: int, path: str = "b2.stackplan") -> Where:
    return Where(path, line, 3, line, 20)


def make_facts(name: str, line: int = 1, /, **given: Any) -> Any:
    """An object of the facts class ``name`` written on ``line``; what is not given is unknown."""
    cls = getattr(facts, name)
    values: dict[str, Any] = {"where": at(line)}
    for field in dataclasses.fields(cls):
        declared = field.metadata.get("declaration")
        if declared is not None:
            values[field.name] = () if isinstance(declared.kind, Many) else None
    if name == "StackFacts":
        values |= {"system": System.INCH, "name": "B2", "kind": "pile"}
    if name == "Span":
        values["spacing_for"] = lambda _: None
    return cls(**(values | given))


@pytest.fixture
def make() -> Make:
    return make_facts


@pytest.fixture
def plan() -> Make:
    """The facts of a plan with one pile, which has what is given."""

    def build(**given: Any) -> Any:
        return make_facts("PlanFacts", stacks=(make_facts("StackFacts", **given),))

    return build


@pytest.fixture
def marked() -> Callable[[int], Mark]:
    return lambda course: Mark(Part.COURSE, course, course, 0.0, 1.0)


@pytest.fixture
def book() -> Callable[[str], RuleBook]:
    """The book of a rule text that must be right."""

    def build(text: str) -> RuleBook:
        loaded = load([("yard.rules", text)])
        assert loaded.faults == ()
        return loaded.book

    return build
