"""What the reports are made from: each checked plan with the rules it was judged by, and what went wrong."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from stacklint.checked import CheckedPlan
from stacklint.files import Trouble
from stacklint.findings import Level
from stacklint.rulebook import RuleBook

CAUTION = (
    "A check that passes is not a certificate. Stacks fall, bearers roll and covers fly: local codes, the makers of"
    " rated equipment and licensed practice come before anything said here."
)
"""What a report of findings ends with."""


class Answer(NamedTuple):
    """A checked plan and the rule book that judged it, house rules included."""

    checked: CheckedPlan
    book: RuleBook


class Answers(NamedTuple):
    """All that one run has to tell. ``troubles`` are the files that could not be read."""

    plans: tuple[Answer, ...]
    troubles: tuple[Trouble, ...] = ()


def counted(levels: Iterable[Level]) -> str:
    """*2 errors, 1 warning*; *no findings* where there are none."""
    tally = list(levels)
    parts = [(level, tally.count(level)) for level in Level]
    said = [f"{number} {level.value}{'' if number == 1 else 's'}" for level, number in parts if number]
    return ", ".join(said) or "no findings"
