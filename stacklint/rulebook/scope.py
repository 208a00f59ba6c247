"""What the rules can name: the facts, class by class, and the collections that `for each` goes through.

All of it is read from the declarations beside the facts, so a fact is known to the rule language as
soon as it is declared.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from stacklint.engineering import facts
from stacklint.engineering.schema import Call, Declaration, Many, One, calls, declarations
from stacklint.units import Dimension

STACK_KINDS = ("stack", "pile", "charge")
NOT_WAIVABLE = frozenset({"fault", "waiver"})
JUDGED_LAST = frozenset({"lack", "waiver"})
"""Collections that what the other rules said makes."""


class Collection(NamedTuple):
    """What a rule goes through: the variable's name, the class of its members, and the field that holds them.

    ``owner`` is the class that has the field; ``single`` is true for one that may be absent.
    """

    name: str
    of: str
    field: str
    owner: str = "StackFacts"
    single: bool = False

    @property
    def of_plan(self) -> bool:
        """It belongs to the whole text or the yard: there is no ``stack``."""
        return self.owner != "StackFacts"

    @property
    def of_yard(self) -> bool:
        """It belongs to all the plans that are checked together."""
        return self.owner == "YardFacts"


@cache
def facts_of(name: str) -> Mapping[str, Declaration]:
    """The facts of a class, by name."""
    return MappingProxyType(declarations(getattr(facts, name)))


@cache
def calls_of(name: str) -> Mapping[str, Call]:
    """The facts of a class that take an argument, by name."""
    return MappingProxyType(calls(getattr(facts, name)))


@cache
def collections() -> Mapping[str, Collection]:
    """Every collection, by the name that `for each` gives it."""
    found = {name: Collection(name, "StackFacts", "") for name in STACK_KINDS}
    for owner in ("StackFacts", "PlanFacts", "YardFacts"):
        for field, declared in facts_of(owner).items():
            kind = declared.kind
            if isinstance(kind, Many) and kind.of != "StackFacts":
                name = singular(field)
                found.setdefault(name, Collection(name, kind.of, field, owner))
            elif isinstance(kind, One):
                found.setdefault(field, Collection(field, kind.of, field, owner, single=True))
    return MappingProxyType(found)


def singular(field: str) -> str:
    """One member of a collection: ``spans`` holds each ``span``."""
    if field.endswith("ies"):
        return field[:-3] + "y"
    return field.removesuffix("s")


def noun(of: str) -> str:
    """What a person calls a member of a class of facts: ``StackFacts`` are a ``stack``."""
    return of.removesuffix("Facts").lower()


def kind_in_words(kind: object) -> str:
    """What a person calls a kind of value."""
    if isinstance(kind, Dimension):
        return kind.word
    if isinstance(kind, Many):
        return "a collection"
    if isinstance(kind, One):
        return f"a {noun(kind.of)}"
    return str(getattr(kind, "value", kind))
