"""Whether rules do what the examples beside them say."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from stacklint.checked import CheckedPlan
from stacklint.findings import Finding
from stacklint.rulebook.examples import Example, Expected, examples_of
from stacklint.rulebook.reader import Block, BlockKind
from stacklint.where import Where


class Tried(NamedTuple):
    """An example and what a check of its plan found, by the rule itself and by others.

    ``waived`` are findings of the rule that the plan waives: they count for nothing.
    """

    example: Example
    path: str
    own: tuple[Finding, ...]
    others: tuple[Finding, ...]
    waived: tuple[Finding, ...]

    @property
    def holds(self) -> bool:
        """The rule does what the example says."""
        if self.example.expected is Expected.PASSES:
            return not self.own
        return any(self.example.level in (None, finding.level) for finding in self.own)


class Untried(NamedTuple):
    """An example whose plan cannot be read, and why, in whole sentences."""

    example: Example
    why: str


class RuleTested(NamedTuple):
    """A rule that a file adds or changes, where it first does so, and its examples there."""

    name: str
    where: Where
    examples: tuple[Tried | Untried, ...] = ()

    @property
    def tried(self) -> tuple[Tried, ...]:
        return tuple(each for each in self.examples if isinstance(each, Tried))

    @property
    def untried(self) -> tuple[Untried, ...]:
        return tuple(each for each in self.examples if isinstance(each, Untried))

    @property
    def holds(self) -> bool:
        """It does what all its examples say; so does a rule without one."""
        return all(isinstance(each, Tried) and each.holds for each in self.examples)


def try_rules(blocks: Iterable[Block], check: Callable[[str], CheckedPlan | str]) -> tuple[RuleTested, ...]:
    """Each rule that ``blocks`` add or change, in the order of the text.

    ``check`` checks the plan of a path as an example writes it, or says why that plan cannot be read.
    """
    found: dict[str, RuleTested] = {}
    for block in blocks:
        if block.kind not in (BlockKind.RULE, BlockKind.CHANGE):
            continue
        rule = found.get(block.name) or RuleTested(block.name, block.where)
        examples = tuple(_tried(block.name, example, check(example.plan)) for example in examples_of(block))
        found[block.name] = rule._replace(examples=(*rule.examples, *examples))
    return tuple(found.values())


def _tried(rule: str, example: Example, checked: CheckedPlan | str) -> Tried | Untried:
    if isinstance(checked, str):
        return Untried(example, checked)
    return Tried(
        example,
        checked.path,
        own=tuple(finding for finding in checked.findings if finding.rule == rule),
        others=tuple(finding for finding in checked.findings if finding.rule != rule),
        waived=tuple(each.finding for each in checked.waived if each.finding.rule == rule),
    )
