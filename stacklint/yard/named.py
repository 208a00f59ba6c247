"""The names of spots and kilns, told apart where two sites or two kilns have one name."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from stacklint.yard.blocks import Key
from stacklint.yard.presence import Presence
from stacklint.yard.stay import Spot, SpotKind


def told_apart(presences: Sequence[Presence]) -> tuple[Spot | None, ...]:
    """For each stack its spot or kiln. Of sites and kilns of one name each has the path of its text behind the name.

    ``None`` where a stack has no day to stand anywhere.
    """
    keys: dict[tuple[SpotKind, str], set[Key]] = defaultdict(set)
    spots = [each.stand.stay.spot if each.stand.stay is not None else None for each in presences]
    for each, spot in zip(presences, spots, strict=True):
        if spot is not None:
            keys[_shared(spot)].add(_key(each, spot))
    return tuple(
        _with_path(spot, _key(each, spot)) if spot is not None and len(keys[_shared(spot)]) > 1 else spot
        for each, spot in zip(presences, spots, strict=True)
    )


def with_path(name: str, path: str) -> str:
    """*Alder yard (hill/sites.stackplan)*"""
    return f"{name} ({path or '.'})".lstrip()


def _shared(spot: Spot) -> tuple[SpotKind, str]:
    """The kind and the name that two sites or two kilns may share."""
    return spot.kind, (spot.within if spot.kind is SpotKind.SPOT else spot.name).casefold()


def _key(each: Presence, spot: Spot) -> Key:
    if spot.kind is SpotKind.SOME_KILN:
        return "", 0, ""
    return each.kiln if spot.kind is SpotKind.KILN and each.kiln is not None else each.site


def _with_path(spot: Spot, key: Key) -> Spot:
    if spot.kind is SpotKind.SPOT:
        return spot._replace(within=with_path(spot.within, key[0]))
    return spot._replace(name=with_path(spot.name, key[0]))
