"""What is kept of each stack of a checked plan, so that all the stacks of a yard can be seen together."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.drying.forecast import Forecast
from stacklint.drying.lending import piles_of
from stacklint.drying.surroundings import site_of
from stacklint.engineering.facts import StackFacts
from stacklint.layout.stock import volume_of
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln, Plan, Site, StockKind
from stacklint.rulebook import StackWaiver
from stacklint.units import ONE_INCH, System, Unit
from stacklint.where import Where
from stacklint.yard.stay import Stay, stay_of


class Lot(NamedTuple):
    """Like boards: the place where they are listed, which tells them from all others, and their volume (m3).

    In a plan in inches the volume is in the trade's measure: under 1 in thick counts as 1 in. ``pieces`` is ``None``
    where the boards are listed by their volume.
    """

    listed: Where
    wood: str
    volume: float
    label: str = ""
    pieces: int | None = None


class Taking(NamedTuple):
    """A charge's ``from pile``: the pile's name, the place of its block, and the place of the name in the charge.

    ``parts``: it is said how much of which boards is taken.
    """

    pile: str
    block: Where
    at: Where
    parts: bool = False


class Need(NamedTuple):
    """So many stickers or bearers of a length (m)."""

    kind: StockKind
    pieces: int
    length: float


class Supply(NamedTuple):
    """A site's ``stock``: so many stickers or bearers, of a length (m) or of any."""

    kind: StockKind
    pieces: int
    length: float | None
    where: Where


class Room(NamedTuple):
    """What a site has room for, and where it says so. ``limit`` is a number of stacks, or m3 where ``wood``.

    ``trade``: the wood is counted in the trade's measure, board feet.
    """

    limit: float
    wood: bool
    trade: bool
    where: Where


class Block(NamedTuple):
    """A site or kiln that a stack names: its place, its name, and what is said in it, as a digest."""

    where: Where
    name: str
    words: str
    supplies: tuple[Supply, ...] = ()
    rooms: tuple[Room, ...] = ()


class Stand(NamedTuple):
    """One stack. ``block`` is the place of its block, ``at`` that of its name, ``placed_at`` that of its spot or kiln's
    name, ``started_at`` that of the day it begins.

    ``volume`` is m3 by the sizes, ``board_measure`` m3 in the trade's measure; both are ``None``, and there are no
    lots, where faults of the text stood in the way. ``missing`` are the piles that the text does not know.
    """

    kind: StackKind
    name: str
    block: Where
    at: Where
    placed_at: Where | None
    started_at: Where | None
    site: Block | None
    kiln: Block | None
    stay: Stay | None
    lots: tuple[Lot, ...]
    takings: tuple[Taking, ...]
    missing: tuple[Taking, ...]
    needs: tuple[Need, ...]
    volume: float | None
    board_measure: float | None
    wanted: float | None

    @property
    def words(self) -> str:
        """*pile B2*"""
        return f"{self.kind.value} {self.name}"


class YardPlan(NamedTuple):
    """One plan of a yard. ``path`` is its name in findings, ``folder`` the folder that it lies in.

    ``lent`` are the piles of other texts that its charges take boards from; they count where no plan has them.
    """

    path: str
    folder: str
    system: System
    stands: tuple[Stand, ...]
    waivers: tuple[StackWaiver, ...]
    lent: tuple[Stand, ...] = ()


def yard_plan(checked: CheckedPlan) -> YardPlan:
    """What is kept of a plan."""
    only_site = checked.only_site
    return YardPlan(
        path=checked.path,
        folder=os.path.dirname(os.path.normpath(checked.path)),  # noqa: PTH120 - the text of a path, not a file
        system=checked.system,
        stands=tuple(_stand(stack, checked, only_site) for stack in checked.stacks),
        waivers=tuple(
            StackWaiver(each.stack.name.text, waiver) for each in checked.stacks for waiver in each.stack.waivers
        ),
        lent=tuple(_lent(stack, checked, only_site) for stack in checked.lent),
    )


def _lent(pile: CheckedStack, plan: CheckedPlan, only_site: str | None) -> Stand:
    """A pile of another text, which was not laid out."""
    return _stand(pile, plan, only_site)._replace(lots=tuple(_listed(pile.stack, plan.system)))


def _listed(stack: Stack, system: System) -> Iterator[Lot]:
    """The boards of a stack as they are listed.

    A volume that is said counts as it is, not as that of the whole boards it comes to: so the parts of a pile add up.
    """
    for boards in stack.boards:
        volume = boards.wood_volume if boards.wood_volume is not None else volume_of(boards)
        counts_as = max(1.0, ONE_INCH / boards.thickness.si) if system is System.INCH else 1.0
        yield Lot(named(boards.where), boards.wood.text, volume * counts_as, boards.label.text, boards.count)


def named(where: Where) -> Where:
    """The place with its path in the one form that two ways of naming a file have in common."""
    return where._replace(path=os.path.normpath(where.path)) if where.path else where


def lots_of(facts: StackFacts | None, system: System) -> Iterator[Lot]:
    """The boards of a stack, group by group."""
    for group in facts.groups if facts else ():
        if group.volume is not None and group.wood:
            counts_as = max(1.0, ONE_INCH / group.thickness) if system is System.INCH and group.thickness else 1.0
            pieces = None if group.pieces is None else round(group.pieces)
            yield Lot(named(group.where), group.wood, group.volume * counts_as, group.label or "", pieces)


def _stand(checked: CheckedStack, plan: CheckedPlan, only_site: str | None) -> Stand:
    stack, facts = checked.stack, checked.facts
    charge = stack.kind is StackKind.CHARGE
    placed = stack.kiln if charge else stack.spot
    started = (stack.starts or stack.stacked) if charge else stack.stacked
    takings = tuple(_takings(stack, plan.plan)) if charge else ()
    wanted = checked.forecast.wanted if isinstance(checked.forecast, Forecast) else None
    return Stand(
        kind=stack.kind,
        name=stack.name.text,
        block=named(stack.where),
        at=stack.name.where,
        placed_at=placed.where if placed is not None else None,
        started_at=started.where if started is not None else None,
        site=_site(stack, plan.plan.sites),
        kiln=_kiln(stack, plan.plan.kilns) if charge else None,
        stay=stay_of(checked, only_site),
        lots=tuple(_listed(stack, plan.system)) if facts else (),
        takings=takings,
        missing=tuple(_missing(stack, takings)),
        needs=tuple(_needs(checked)),
        volume=facts.volume if facts else None,
        board_measure=facts.board_feet if facts else None,
        wanted=wanted,
    )


def _takings(charge: Stack, plan: Plan) -> Iterator[Taking]:
    for pile in piles_of(charge, plan):
        taken = next(each for each in charge.from_piles if each.pile.text.casefold() == pile.name.text.casefold())
        yield Taking(pile.name.text, named(pile.where), taken.pile.where, bool(taken.parts))


def _missing(charge: Stack, takings: Sequence[Taking]) -> Iterator[Taking]:
    known = {taking.pile.casefold() for taking in takings}
    for name in (each.pile for each in charge.from_piles):
        if name.text.casefold() not in known:
            yield Taking(name.text, name.where, name.where)


def _needs(checked: CheckedStack) -> Iterator[Need]:
    arrangement = checked.arrangement
    if arrangement is None or checked.facts is None:
        return
    if arrangement.sticker_lines and arrangement.sticker_count:
        yield Need(StockKind.STICKERS, arrangement.sticker_count, arrangement.sticker_length)
    if arrangement.bearers and not arrangement.whole_floor:
        yield Need(StockKind.BEARERS, len(arrangement.bearers), arrangement.width)


def _site(stack: Stack, sites: Sequence[Site]) -> Block | None:
    site, _ = site_of(stack, sites)
    if site is None:
        return None
    stock = (
        Supply(each.kind, each.count, each.length.si if each.length is not None else None, named(each.where))
        for each in site.stock
    )
    return Block(named(site.where), site.name.text, _digest(site), tuple(stock), tuple(_rooms(site)))


def _rooms(site: Site) -> Iterator[Room]:
    if site.spots is not None:
        yield Room(float(site.spots.count), wood=False, trade=False, where=named(site.spots.where))
    if site.holds is not None:
        trade = site.holds.unit is Unit.BOARD_FOOT
        yield Room(site.holds.si, wood=True, trade=trade, where=named(site.holds.where))


def _kiln(charge: Stack, kilns: Iterable[Kiln]) -> Block | None:
    if charge.kiln is None:
        return None
    name = charge.kiln.text.casefold()
    kiln = next((kiln for kiln in kilns if kiln.name.text.casefold() == name), None)
    return None if kiln is None else Block(named(kiln.where), kiln.name.text, _digest(kiln))


def _digest(block: Site | Kiln) -> str:
    """The same for two blocks that say the same. A short one is enough: names are compared as well."""
    said = repr(block.model_copy(update={"faulty": frozenset()}))
    return hashlib.sha256(said.encode("utf-8", "backslashreplace")).hexdigest()[:16]
