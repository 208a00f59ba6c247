"""What charges take from piles: more than there is, before it is dry, or from a pile that their text does not know."""

from __future__ import annotations

import os
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from stacklint.engineering.facts import FaultFacts
from stacklint.engineering.yard_facts import Taking
from stacklint.faults import FaultKind
from stacklint.findings import Related
from stacklint.plan.stack import StackKind
from stacklint.where import Where
from stacklint.yard import stands
from stacklint.yard.presence import Presence

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


def _of_pile(pile: Presence, takers: Sequence[tuple[Presence, stands.Taking]]) -> Iterator[Taking]:
    listed = {lot.listed: lot.volume for lot in pile.stand.lots}
    taken: dict[Where, float] = defaultdict(float)
    before: list[Presence] = []
    for charge, taking in takers:
        own = {lot.listed: lot.volume for lot in charge.stand.lots if lot.listed in listed}
        over = 0.0
        for where, volume in own.items():
            left = max(listed[where] - taken[where], 0.0)
            if volume > left + _ROUNDING * listed[where]:
                over += volume - left
            taken[where] += volume
        yield _taking(pile, charge, taking, before, own, listed, taken, over)
        before.append(charge)


def _taking(
    pile: Presence,
    charge: Presence,
    taking: stands.Taking,
    before: Sequence[Presence],
    own: Mapping[Where, float],
    listed: Mapping[Where, float],
    taken: Mapping[Where, float],
    over: float,
) -> Taking:
    home = charge.plan.path
    stay, wanted = pile.stand.stay, pile.stand.wanted
    forecast = stay if stay is not None and wanted is not None and stay.foretold and stay.start_said else None
    others = before[:_MOST_INVOLVED] if over else ()
    related = [Related(pile.stand.at, pile.stand.words)]
    related += [Related(_names(each, pile), each.stand.words) for each in others[:_MOST_NAMED]]
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
        listed=sum(listed[where] for where in own),
        taken=sum(taken[where] for where in own),
        over=over,
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
