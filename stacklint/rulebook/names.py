"""What an expression may name, and what is kept of it for the finding."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from stacklint.rulebook.values import Checked

STACK_SLOT, MEMBER_SLOT, FIRST_FREE_SLOT = 1, 2, 3
"""Places in the standing tuple, after the system of units."""


class Variable(NamedTuple):
    """A name that stands for a group of facts: its place in the standing tuple, and its class."""

    slot: int
    of: str


class Comparison(NamedTuple):
    """A comparison of two quantities, kept because a finding may show it. ``rising``: more is worse."""

    left: Checked
    right: Checked
    rising: bool


@dataclass(slots=True)
class Names:
    """What an expression may name, and which limits and lets have been used so far."""

    variables: Mapping[str, Variable]
    figures: dict[str, Checked] = field(default_factory=dict)
    """Limits and lets."""
    used: set[str] = field(default_factory=set)
    spoiled: set[str] = field(default_factory=set)
    """Limits and lets whose own clause is faulty."""
    facts: set[str] = field(default_factory=set)
    """What has been read so far, each fact with its class: ``KilnFacts.holds``."""


class Spoiled(Exception):  # noqa: N818 - it is no error of its own
    """An expression leans on a limit or a let whose own clause is faulty: that fault is reported, this is not."""
