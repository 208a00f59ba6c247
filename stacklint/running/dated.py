"""Whether what is found in a plan depends on the day on which it is checked."""

from __future__ import annotations

from collections.abc import Iterable

from stacklint.checked import CheckedPlan
from stacklint.plan.stack import Stack, StackKind

_WORDS = ("reading", "waive")
"""Statements that are judged by the day: a reading must not lie in the future, a waiver has a last day. These words in
a comment do no harm: the plan is then checked anew on another day."""


def depends_on_the_day(checked: CheckedPlan, texts: Iterable[str]) -> bool:
    """True where it may; false only where every day would bring the same.

    ``texts`` are the plan's own and those that it uses. A stack that does not say when it begins is taken to begin
    today.
    """
    if any(word in text.casefold() for text in texts for word in _WORDS):
        return True
    stacks = (*(each.stack for each in checked.stacks), *checked.plan.lent)
    return any(not _says_its_day(stack) for stack in stacks)


def _says_its_day(stack: Stack) -> bool:
    return stack.stacked is not None or (stack.kind is StackKind.CHARGE and stack.starts is not None)
