"""From when to when each stack of a yard stands where it stands, charges that take a pile's boards seen."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from stacklint.plan.stack import StackKind
from stacklint.where import Where
from stacklint.yard.blocks import Key, one_by_one
from stacklint.yard.stands import Block, Stand, YardPlan

_ALL = 0.999
"""Share of a pile's boards from which on it is taken whole: sums of boards differ in the last digits."""


class Presence(NamedTuple):
    """A stack in its place. ``site`` and, of a charge, ``kiln`` tell them from all others.

    ``end`` is the day on which it is gone: when charges have taken all its boards, else when it is likely ready;
    ``None`` where neither is known. ``start`` is ``None`` where the plan does not say when it begins.
    """

    plan: YardPlan
    stand: Stand
    site: Key
    kiln: Key | None
    start: datetime.date | None
    end: datetime.date | None
    taken: bool = False

    @property
    def charge(self) -> bool:
        return self.stand.kind is StackKind.CHARGE

    def written(self, home: str) -> str:
        """*pile B2 (line 7)*, with the path where it is written in another text than ``home``."""
        line = f"line {self.stand.block.line}"
        return f"{self.stand.words} ({line if self.plan.path == home else f'{self.plan.path}, {line}'})"


def presences(plans: Sequence[YardPlan]) -> tuple[Presence, ...]:
    """Every stack of the plans, in their order."""
    stands = [(plan, stand) for plan in plans for stand in plan.stands]
    blocks = [block for _, stand in stands for block in (stand.site, stand.kiln) if block is not None]
    keys = one_by_one(blocks)
    takers = _takers(stand for _, stand in stands)
    return tuple(_presence(plan, stand, keys, takers) for plan, stand in stands)


def _takers(stands: Iterator[Stand]) -> Mapping[Where, Sequence[Stand]]:
    """The charges that take boards from each pile, by the place of its block."""
    found: dict[Where, list[Stand]] = defaultdict(list)
    for stand in stands:
        for taking in stand.takings:
            found[taking.block].append(stand)
    return found


def _presence(
    plan: YardPlan, stand: Stand, keys: Mapping[Where, Key], takers: Mapping[Where, Sequence[Stand]]
) -> Presence:
    site = _key(plan, stand.site, _spot_of(stand, StackKind.PILE), keys)
    kiln = _key(plan, stand.kiln, _spot_of(stand, StackKind.CHARGE), keys) if stand.kind is StackKind.CHARGE else None
    stay = stand.stay
    start = stay.start if stay is not None and stay.start_said else None
    if start is None or stay is None:
        return Presence(plan, stand, site, kiln, None, None)
    taken = _taken(stand, takers.get(stand.block, ()))
    if taken is not None:
        return Presence(plan, stand, site, kiln, start, taken, taken=True)
    return Presence(plan, stand, site, kiln, start, stay.likely)


def _key(plan: YardPlan, block: Block | None, name: str, keys: Mapping[Where, Key]) -> Key:
    """Of a site or kiln that no block describes: the name that is given, in the folder of the plan."""
    return keys[block.where] if block is not None else (plan.folder, 0, name.casefold())


def _spot_of(stand: Stand, kind: StackKind) -> str:
    if stand.stay is None or stand.kind is not kind:
        return ""
    spot = stand.stay.spot
    return spot.name if kind is StackKind.CHARGE else spot.within


def _taken(pile: Stand, charges: Sequence[Stand]) -> datetime.date | None:
    """The day on which charges have taken all of a pile's boards. A charge that was not reckoned takes them all."""
    days = [(charge, charge.stay.start) for charge in charges if charge.stay is not None and charge.stay.start_said]
    whole = [day for charge, day in days if not charge.lots]
    if whole:
        return min(whole)
    wanted = {lot.listed: lot.volume for lot in pile.lots}
    if not wanted:
        return min((day for _, day in days), default=None)
    for charge, day in sorted(days, key=lambda each: each[1]):
        for lot in charge.lots:
            if lot.listed in wanted:
                wanted[lot.listed] -= lot.volume
        if all(left <= (1 - _ALL) * _listed(pile, where) for where, left in wanted.items()):
            return day
    return None


def _listed(pile: Stand, where: Where) -> float:
    return next(lot.volume for lot in pile.lots if lot.listed == where)
