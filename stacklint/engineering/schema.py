"""How a fact is declared: its dimension or kind, and what it means, beside the field that holds it.

The rule language reads these declarations to check units and names when a rule file is loaded, and
the reference page of facts is printed from them.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from enum import Enum
from typing import Any

from stacklint.units import Dimension


class Plain(Enum):
    """Kinds of fact that are no quantity."""

    TEXT = "a text"
    FLAG = "yes or no"
    DATE = "a date"


@dataclass(frozen=True, slots=True)
class Many:
    """A collection of facts of the class named."""

    of: str


@dataclass(frozen=True, slots=True)
class One:
    """A single group of facts of the class named; ``None`` where the plan has none such."""

    of: str


FactKind = Dimension | Plain | Many | One


@dataclass(frozen=True, slots=True)
class Declaration:
    kind: FactKind
    means: str


@dataclass(frozen=True, slots=True)
class Call:
    """A fact that is worked out from one argument, e.g. the spacing that a limit on sag allows."""

    argument: Dimension
    result: Dimension
    means: str


def _declare(kind: FactKind, means: str) -> Any:
    """A field for a fact; what is not given is unknown, and no collection may be left out."""
    metadata = {"declaration": Declaration(kind, means)}
    if isinstance(kind, Many):
        return dataclasses.field(metadata=metadata)
    return dataclasses.field(default=None, metadata=metadata)


def amount(dimension: Dimension, means: str) -> Any:
    """A number in the SI unit of ``dimension``; ``None`` where it is unknown."""
    return _declare(dimension, means)


def words(means: str) -> Any:
    return _declare(Plain.TEXT, means)


def yes_no(means: str) -> Any:
    """True, false, or ``None`` where it is unknown."""
    return _declare(Plain.FLAG, means)


def day(means: str) -> Any:
    return _declare(Plain.DATE, means)


def many(of: str, means: str) -> Any:
    return _declare(Many(of), means)


def one(of: str, means: str) -> Any:
    return _declare(One(of), means)


def declarations(facts: type) -> dict[str, Declaration]:
    """The declared facts of a class, by name."""
    return {
        field.name: field.metadata["declaration"]
        for field in dataclasses.fields(facts)
        if "declaration" in field.metadata
    }


def calls(facts: type) -> dict[str, Call]:
    """The facts of a class that take an argument, by name."""
    return dict(getattr(facts, "CALLS", {}))
