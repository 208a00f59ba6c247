"""One path for each text of a yard, whichever names lead to it: *b2.stackplan*, *../hill/b2.stackplan*, a link."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence

from stacklint.where import Where
from stacklint.yard.stands import Block, Stand, YardPlan

Real = Callable[[str], str]
"""The path of the file itself, the same for all names of it."""


def respelled(plans: Sequence[YardPlan], real: Real) -> Sequence[YardPlan]:
    """The plans with what tells blocks, boards and folders from one another spelled in one way in all of them.

    Findings name each plan as it was named all the same.
    """
    spelling = _Spelling(real)
    for plan in sorted(plans, key=lambda plan: plan.path):
        spelling.learn(plan.path)
    if all(spelling.path(path) == path for path in {path for plan in plans for path in _paths(plan)}):
        return plans
    return [spelling.plan(plan) for plan in plans]


def _paths(plan: YardPlan) -> Iterator[str]:
    yield os.path.normpath(plan.path)
    for stand in (*plan.stands, *plan.lent):
        yield stand.block.path
        yield from (block.where.path for block in (stand.site, stand.kiln) if block is not None)
        yield from (taking.block.path for taking in stand.takings)


class _Spelling:
    def __init__(self, real: Real) -> None:
        self._real = real
        self._folders: dict[str, str] = {}
        self._known: dict[str, str] = {}

    def learn(self, path: str) -> None:
        """Has the folder of a text go by the name that is in this path, unless it has one."""
        self.path(os.path.normpath(path))

    def path(self, path: str) -> str:
        if path not in self._known:
            folder, name = os.path.split(self._real(path))
            named = self._folders.setdefault(folder, os.path.dirname(path))  # noqa: PTH120 - a path's text
            self._known[path] = os.path.join(named, name)  # noqa: PTH118 - likewise
        return self._known[path]

    def plan(self, plan: YardPlan) -> YardPlan:
        return plan._replace(
            folder=os.path.dirname(self.path(os.path.normpath(plan.path))),  # noqa: PTH120 - likewise
            stands=tuple(map(self._stand, plan.stands)),
            lent=tuple(map(self._stand, plan.lent)),
        )

    def _stand(self, stand: Stand) -> Stand:
        return stand._replace(
            block=self._where(stand.block),
            site=self._block(stand.site),
            kiln=self._block(stand.kiln),
            lots=tuple(lot._replace(listed=self._where(lot.listed)) for lot in stand.lots),
            takings=tuple(taking._replace(block=self._where(taking.block)) for taking in stand.takings),
        )

    def _block(self, block: Block | None) -> Block | None:
        if block is None:
            return None
        return block._replace(
            where=self._where(block.where),
            supplies=tuple(each._replace(where=self._where(each.where)) for each in block.supplies),
            rooms=tuple(each._replace(where=self._where(each.where)) for each in block.rooms),
        )

    def _where(self, where: Where) -> Where:
        return where._replace(path=self.path(where.path))
