"""Which sizes and numbers of a group of boards are made up, for the plan gives a range, a volume or random widths."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.plan.boards import Boards
from stacklint.plan.node import Range
from stacklint.plan.stack import Stack

ABOUT = "about "


class Invented(NamedTuple):
    width: bool
    length: bool
    volume: bool

    @property
    def pieces(self) -> bool:
        """How many boards there are of a length."""
        return self.length or self.volume

    @property
    def laying(self) -> bool:
        """How many rows fill a course, and how much wood is in a board."""
        return self.width or self.length or self.volume


def invented(boards: Boards) -> Invented:
    """What of a group is taken for what the plan leaves open."""
    return Invented(
        width=boards.width is None or isinstance(boards.width, Range),
        length=isinstance(boards.length, Range) and boards.length.low.si < boards.length.high.si,
        volume=boards.count is None,
    )


def invented_groups(stack: Stack) -> dict[str, Invented]:
    """The same of all the groups of a stack, by their letters."""
    return {boards.label.text: invented(boards) for boards in stack.boards}
