"""What a site has room and stock for, and what each stack takes of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from stacklint.findings import Related
from stacklint.plan.yard import StockKind
from stacklint.show import rounded, show
from stacklint.units import LENGTH, ONE_INCH, VOLUME, System
from stacklint.yard.presence import Presence
from stacklint.yard.stands import Block, Room, Supply

_SHORT = ONE_INCH
"""What is so little too short still serves, as for a single stack (stickers-short)."""
_ROUNDING = 1e-6
_ROUNDED = 1e-4
"""m. Lengths that are asked for are told apart to so much."""


class Limit(NamedTuple):
    """What there is of one thing at a site, what a stack takes of it, and the words for both.

    ``alone``: a single stack that takes more than there is, is told by a rule of its own.
    """

    limit: float
    takes: Callable[[Presence], float]
    words: Callable[[float], str]
    room: str
    advice: str
    where: Related
    alone: bool = False

    def exceeded(self, taken: float, stacks: int) -> bool:
        """Whether so many stacks that take so much together ask for more than there is."""
        return taken > self.limit * (1 + _ROUNDING) and (stacks > 1 or not self.alone)


def limits_of(blocks: Sequence[Block], group: Sequence[Presence]) -> tuple[Limit, ...]:
    """Every limit of one site, of which ``blocks`` are the descriptions, for the stacks that stand there."""
    return (*_rooms(blocks), *_stocks(blocks, group))


def _rooms(blocks: Iterable[Block]) -> Iterator[Limit]:
    """What is said of the room of a site; of several copies of its block that say it, the first counts."""
    seen: dict[bool, Room] = {}
    for block in blocks:
        for room in block.rooms:
            seen.setdefault(room.wood, room)
    for room in seen.values():
        yield _wood(room) if room.wood else _spots(room)


def _spots(room: Room) -> Limit:
    count = round(room.limit)
    return Limit(
        room.limit,
        lambda each: 0.0 if each.charge else 1.0,
        lambda need: f"{rounded(need)} stack{'' if need == 1 else 's'}",
        f"{count} spot{'' if count == 1 else 's'}",
        "Stack some of it later, or make room for it first",
        Related(room.where, "the spots of the site"),
    )


def _wood(room: Room) -> Limit:
    system = System.INCH if room.trade else System.METRIC
    return Limit(
        room.limit,
        lambda each: 0.0 if each.charge else (each.stand.board_measure if room.trade else each.stand.volume) or 0.0,
        lambda need: f"{show(need, VOLUME, system)} of wood",
        show(room.limit, VOLUME, system),
        "Stack some of it later, or make room for it first",
        Related(room.where, "what the site holds"),
    )


def _stocks(blocks: Iterable[Block], group: Sequence[Presence]) -> Iterator[Limit]:
    """Stickers and bearers in stock, of each length that is needed: longer ones serve as well as that length.

    Of lengths that the same pieces serve the shortest stands for all: it is asked for by whoever asks for the others.
    """
    supplies = next((block.supplies for block in blocks if block.supplies), ())
    system = group[0].plan.system
    for kind in StockKind:
        lots = [each for each in supplies if each.kind is kind]
        lengths = {round(need.length, 4) for each in group for need in each.stand.needs if need.kind is kind}
        served: dict[tuple[Supply, ...], list[float]] = defaultdict(list)
        for length in sorted(lengths) if lots else ():
            served[tuple(each for each in lots if each.length is None or each.length >= length - _SHORT)].append(length)
        for enough, alike in served.items():
            size = f"{show(alike[0], LENGTH, system)}{' or longer' if len(alike) > 1 or len(lots) > 1 else ''}"
            yield _stock(kind, alike[0], size, enough, Related((enough or lots)[0].where, f"the {kind.value} in stock"))


def _stock(kind: StockKind, length: float, size: str, enough: Sequence[Supply], where: Related) -> Limit:
    def takes(each: Presence) -> float:
        needs = (need for need in each.stand.needs if need.kind is kind)
        return float(sum(need.pieces for need in needs if need.length >= length - _ROUNDED))

    return Limit(
        float(sum(each.pieces for each in enough)),
        takes,
        lambda need: f"{rounded(need)} {kind.value} of {size}",
        f"{rounded(sum(each.pieces for each in enough))} in stock",
        f"Cut more {kind.value}, or stack some of it later",
        where,
        alone=kind is StockKind.STICKERS,
    )
