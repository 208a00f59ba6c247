"""What charges take from piles: more than there is, before it is dry, or from a pile that their text does not know."""

from __future__ import annotations

import math
import os
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from stacklint.engineering.facts import FaultFacts
from stacklint.engineering.yard_facts import Taking
from stacklint.faults import FaultKind
from stacklint.findings import Related
from stacklint.plan.stack import StackKind
from stacklint.where import Where
from stacklint.yard import stands
from stacklint.yard.presence import Presence

_Amount = tuple[float, float]
"""A volume, m3, and a number of boards, not a number where they are not counted."""
_MOST_NAMED = 4
_MOST_INVOLVED = 50
"""Charges of one pile of which it is noted that they have a share in what is found."""
_ROUNDING = 1e-3
"""Share of a volume: two sums of the same boards differ in their last digits."""


def takings(presences: Sequence[Presence]) -> Iterator[Taking]:
    """Each charge with each pile that it takes from, in the order of the charges' days."""
    piles = {each.stand.block: each for each in presences if each.stand.kind is StackKind.PILE}
    charges: dict[Where, list[tuple[Presence, stands.Taking]]] = defaultdict(list)
    for each in presences:
        for taking in each.stand.takings:
            charges[taking.block].append((each, taking))
    for block, takers in charges.items():
        pile = piles.get(block)
        if pile is not None:
            yield from _of_pile(pile, sorted(takers, key=_order))


def _order(taker: tuple[Presence, stands.Taking]) -> tuple[bool, str, str, int]:
    charge, taking = taker
    return charge.start is None, str(charge.start), charge.plan.path, taking.at.line


class _Group(NamedTuple):
    """Like boards of a pile as one charge finds them. ``own`` is what it takes, ``taken`` what it and those before it
    take, each as a volume (m3) and as boards; ``nan`` boards where they are not counted."""

    label: str
    listed: _Amount
    taken: _Amount
    own: _Amount

    @property
    def over(self) -> _Amount:
        """What the charge takes beyond what is left."""
        return self._over(0), self._over(1)

    @property
    def too_much(self) -> bool:
        return self.over[0] > _ROUNDING * self.listed[0]

    def _over(self, which: int) -> float:
        before = self.taken[which] - self.own[which]
        return self.own[which] - max(self.listed[which] - before, 0.0)


def _of_pile(pile: Presence, takers: Sequence[tuple[Presence, stands.Taking]]) -> Iterator[Taking]:
    listed = {lot.listed: _amount(lot) for lot in pile.stand.lots}
    taken: dict[Where, _Amount] = defaultdict(lambda: (0.0, 0.0))
    before: list[Presence] = []
    parts_said = True
    for charge, taking in takers:
        groups = []
        for lot in charge.stand.lots:
            if lot.listed in listed:
                own = _amount(lot)
                taken[lot.listed] = _sum((taken[lot.listed], own))
                groups.append(_Group(lot.label, listed[lot.listed], taken[lot.listed], own))
        parts_said = parts_said and taking.parts
        yield _taking(pile, charge, taking, before, groups, parts_said=parts_said)
        before.append(charge)


def _amount(lot: stands.Lot) -> _Amount:
    return lot.volume, math.nan if lot.pieces is None else float(lot.pieces)


def _sum(amounts: Iterable[_Amount]) -> _Amount:
    each = list(amounts)
    return math.fsum(volume for volume, _ in each), math.fsum(boards for _, boards in each)


def _known(boards: float) -> float | None:
    return None if math.isnan(boards) else boards


def _taking(
    pile: Presence,
    charge: Presence,
    taking: stands.Taking,
    before: Sequence[Presence],
    groups: Sequence[_Group],
    *,
    parts_said: bool,
) -> Taking:
    home = charge.plan.path
    stay, wanted = pile.stand.stay, pile.stand.wanted
    forecast = stay if stay is not None and wanted is not None and stay.foretold and stay.start_said else None
    gone = [group for group in groups if group.too_much]
    told = gone or groups
    listed, boards_listed = _sum(each.listed for each in told)
    taken, boards_taken = _sum(each.taken for each in told)
    over, boards_over = _sum(each.over for each in gone)
    others = before[:_MOST_INVOLVED] if gone else ()
    related = [Related(pile.stand.at, pile.stand.words)]
    related += [Related(_names(each, pile), each.stand.words) for each in others[:_MOST_NAMED]]
    labels = [each.label for each in told]
    return Taking(
        where=taking.at,
        stack=charge.stand.name,
        related=tuple(related),
        involves=frozenset(each.plan.path for each in (pile, charge, *others)),
        charge=charge.stand.words,
        pile=pile.written(home),
        starts=charge.start,
        wanted=wanted,
        dry_early=forecast.fast if forecast else None,
        dry_likely=forecast.likely if forecast else None,
        never_dry=forecast.fast is None if forecast else None,
        groups=_listed(labels[:_MOST_NAMED], len(labels)),
        listed=listed,
        taken=taken,
        over=over,
        boards_listed=_known(boards_listed),
        boards_taken=_known(boards_taken),
        boards_over=_known(boards_over),
        parts_said=parts_said,
        takers=_listed([each.written(home) for each in before[:_MOST_NAMED]], len(before)),
    )


def _names(charge: Presence, pile: Presence) -> Where:
    """Where a charge names a pile."""
    return next(taking.at for taking in charge.stand.takings if taking.block == pile.stand.block)


def _listed(words: Sequence[str], count: int) -> str:
    """The first words of a list of so many."""
    named = [*words, *([f"{count - len(words)} more"] if count > len(words) else [])]
    return named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}" if named else "none"


def strays(presences: Sequence[Presence]) -> Iterator[FaultFacts]:
    """Piles that a charge names, that its text does not know, and that another plan has.

    Of several of one name those in the nearest folder come first.
    """
    by_name: dict[str, list[Presence]] = defaultdict(list)
    for each in presences:
        if each.stand.kind is StackKind.PILE:
            by_name[each.stand.name.casefold()].append(each)
    for charge in presences:
        for missing in charge.stand.missing:
            found = [pile for pile in by_name[missing.pile.casefold()] if pile.plan.path != charge.plan.path]
            if found:
                yield _stray(charge, missing, min(found, key=lambda pile: _far(charge, pile)))


def _far(charge: Presence, pile: Presence) -> tuple[int, str, int]:
    steps = Path(os.path.relpath(pile.plan.folder or ".", charge.plan.folder or ".")).parts
    return len(steps), pile.plan.path, pile.stand.block.line


def _stray(charge: Presence, missing: stands.Taking, pile: Presence) -> FaultFacts:
    used = os.path.relpath(pile.plan.path, charge.plan.folder or ".").replace(os.sep, "/")
    return FaultFacts(
        where=missing.at,
        stack=charge.stand.name,
        related=(Related(pile.stand.at, pile.stand.words),),
        kind=FaultKind.PLAN_TEXT.value,
        message=f"Pile {missing.pile} stands in {pile.plan.path}, which this plan does not use.",
        instead=f'Add the line use "{used}" at the top of this plan.',
    )
