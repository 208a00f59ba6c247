"""What of a long plan concerns one stack: the rest is blanked, so that trying changes out costs little.

Lines keep their numbers.
"""

from __future__ import annotations

from stacklint.checked import CheckedPlan
from stacklint.findings import Finding
from stacklint.mending.written import Source
from stacklint.plan.stack import Stack

_FEW = 3
"""Plans of so few stacks are looked at whole."""


def excerpt(text: str, path: str, checked: CheckedPlan, finding: Finding) -> str:
    """``text`` without the stacks that have nothing to do with the one that ``finding`` is of."""
    stacks = [one.stack for one in checked.stacks]
    if finding.stack is None or len(stacks) <= _FEW:
        return text
    near = _near(stacks, finding.stack.casefold())
    source = Source(text, path)
    lines = list(source.lines)
    for stack in stacks:
        block = source.block(stack.where)
        if block is not None and stack.name.text.casefold() not in near:
            for number in range(block.header.line, block.last_line + 1):
                lines[number - 1] = ""
    return "\n".join(lines)


def _near(stacks: list[Stack], name: str) -> frozenset[str]:
    """The stack, and those that share boards, a kiln or a spot with it."""
    own = [stack for stack in stacks if stack.name.text.casefold() == name]
    near = {name}
    for stack in stacks:
        for other in own:
            if _shares(stack, other):
                near.add(stack.name.text.casefold())
    return frozenset(near)


def _shares(one: Stack, other: Stack) -> bool:
    lent = {taking.pile.text.casefold() for taking in (*one.from_piles, *other.from_piles)}
    if one.name.text.casefold() in lent or other.name.text.casefold() in lent:
        return True
    kiln = one.kiln is not None and other.kiln is not None and one.kiln.text.casefold() == other.kiln.text.casefold()
    spot = one.spot is not None and other.spot is not None and one.spot.text.casefold() == other.spot.text.casefold()
    return kiln or spot
