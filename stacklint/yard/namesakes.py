"""Piles and charges of several plans that bear one name."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from stacklint.engineering.facts import FaultFacts
from stacklint.faults import FaultKind
from stacklint.findings import Related
from stacklint.yard.presence import Presence


def namesakes(presences: Sequence[Presence]) -> Iterator[FaultFacts]:
    """Each stack that bears the name of one in another plan: two piles or two charges in one folder, two piles of one
    site, two charges of one kiln. Two in one text are told when it is read."""
    by_name: dict[tuple[object, str], list[Presence]] = defaultdict(list)
    for each in presences:
        by_name[each.stand.kind, each.stand.name.casefold()].append(each)
    for alike in by_name.values():
        first: dict[object, Presence] = {}
        for each in alike:
            places = ("folder", each.plan.folder), ("place", each.kiln if each.charge else each.site)
            found = [first.setdefault(place, each) for place in places if place[1]]
            other = next((one for one in found if one.plan.path != each.plan.path), None)
            if other is not None:
                yield _namesake(each, other)


def _namesake(second: Presence, first: Presence) -> FaultFacts:
    kind = second.stand.kind.value
    return FaultFacts(
        where=second.stand.at,
        stack=second.stand.name,
        related=(Related(first.stand.at, first.stand.words),),
        kind=FaultKind.NAME_USED_TWICE.value,
        message=f"There is a {kind} {first.stand.name} already: {first.plan.path}, line {first.stand.block.line}.",
        instead="Give one of the two another name.",
    )
