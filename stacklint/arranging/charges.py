"""Which boards of a yard's piles make a good charge: alike in thickness, species and moisture, and within the kiln.

Whether boards may go together is not judged here: a charge of them is written as a plan and checked, so that the
rules of the rule book decide, house rules with them.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations
from typing import NamedTuple

from stacklint.arranging.kilns import KilnLoad, TooLong, load_kiln
from stacklint.checked import CheckedStack
from stacklint.checking import check, woods_of
from stacklint.drying import moisture
from stacklint.drying.forecast import Forecast, Pace
from stacklint.drying.lending import rest_of, with_dried_boards
from stacklint.findings import Finding, Level
from stacklint.language.write import write
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Day, Stack, StackKind, Taking
from stacklint.plan.yard import Kiln, Plan
from stacklint.rulebook import RuleBook
from stacklint.tables.wood import Wood

TOGETHER = frozenset({"mixed-thickness-in-stack", "mixed-species", "mixed-moisture"})
"""The rules that say which boards may share a charge."""

LABELS = "abcdefghjkmnpqrstuvwyz"
MOST_LOTS = 60
"""So many groups of boards are looked at, the largest first: pairs are checked, and 60 groups have 1,770."""


class Yard(NamedTuple):
    """One plan of a yard, with its text's path."""

    path: str
    plan: Plan


class Lot(NamedTuple):
    """One group of boards of a pile, as dry as it is on the day, or what charges of the plan leave of it. ``wood`` is
    the group's."""

    path: str
    pile: Stack
    boards: Boards
    wood: Wood

    @property
    def moisture(self) -> float:
        return moisture.of(self.boards, self.wood).value


class TurnedAway(NamedTuple):
    """A lot that does not go with a charge, and the finding that it would bring."""

    lot: Lot
    finding: Finding


class Taken(NamedTuple):
    """So many boards of a lot, by length (m)."""

    lot: Lot
    lengths: Mapping[float, int]
    whole: bool

    @property
    def boards(self) -> int:
        return sum(self.lengths.values())


class Charge(NamedTuple):
    """A proposal: what goes into a kiln on a day, how it lies there, and what does not go with it."""

    kiln: Kiln
    day: datetime.date
    load: KilnLoad
    taken: tuple[Taken, ...]
    turned_away: tuple[TurnedAway, ...]


class Proposals(NamedTuple):
    """A charge for each kiln that some boards suit; the lots, or parts of lots, that then remain."""

    charges: tuple[Charge, ...]
    remaining: tuple[Lot, ...]


def lots(yards: Sequence[Yard], day: datetime.date, today: datetime.date) -> tuple[Lot, ...]:
    """The boards of all piles that stand on ``day``, but for those that charges of the plans take, as dry as forecast.

    Piles of woods that nobody knows and piles with faults in their boards are passed over.
    """
    found = [lot for yard in yards for pile in _free(yard, day) for lot in _of_pile(pile, yard, day, today)]
    return tuple(sorted(found, key=lambda lot: -_volume(lot.boards))[:MOST_LOTS])


def kilns_of(yards: Sequence[Yard]) -> tuple[Kiln, ...]:
    """The kilns of all the plans, each once, that say what they hold, carry or are inside; the largest first."""
    found: dict[str, Kiln] = {}
    for yard in yards:
        for kiln in yard.plan.kilns:
            if kiln.holds is not None or kiln.carries is not None or kiln.inside is not None:
                found.setdefault(kiln.name.text.casefold(), kiln)
    return tuple(sorted(found.values(), key=lambda kiln: -_room(kiln)))


def proposals(
    every: Sequence[Lot], kilns: Sequence[Kiln], yards: Sequence[Yard], day: datetime.date, book: RuleBook
) -> Proposals:
    """For each kiln in turn the boards that go together and fill it best."""
    judge = _Judge(yards, day, book)
    left = list(every)
    charges = []
    for kiln in kilns:
        charge = _best(left, kiln, judge, day)
        if charge is not None:
            charges.append(charge)
            left = list(_without(left, charge.taken))
    return Proposals(tuple(charges), tuple(left))


class _Judge:
    """Says by the rule book which lots may share a charge. Lots that are alike to the rules are judged once."""

    def __init__(self, yards: Sequence[Yard], day: datetime.date, book: RuleBook) -> None:
        woods = {wood.name.text.casefold(): wood for yard in yards for wood in yard.plan.woods}
        self._woods = tuple(woods.values())
        self._day = day
        self._book = book
        self._known: dict[tuple[object, object], Finding | None] = {}

    def against(self, one: Lot, other: Lot) -> Finding | None:
        """What speaks against the two in one charge."""
        first, second = sorted((_kind(one), _kind(other)), key=str)
        if first == second:
            return None
        key = (first, second)
        if key not in self._known:
            self._known[key] = self.finding((one, other))
        return self._known[key]

    def finding(self, together: Sequence[Lot]) -> Finding | None:
        """The gravest finding of the rules on what may go together, notes apart."""
        boards = tuple(_labelled(lot.boards, label) for lot, label in zip(together, _labels(), strict=False))
        charge = Stack(kind=StackKind.CHARGE, name=Name(text="here"), boards=boards, starts=Day(date=self._day))
        text = write(Plan(woods=self._woods, stacks=(charge,)))
        found = check(text, book=self._book, today=self._day).findings
        against = [each for each in found if each.rule in TOGETHER and each.level is not Level.NOTE]
        return max(against, key=lambda each: each.level.rank, default=None)


def _best(left: Sequence[Lot], kiln: Kiln, judge: _Judge, day: datetime.date) -> Charge | None:
    """Of the charges grown from each kind of lot, the one that brings the most wood into the kiln."""
    best: Charge | None = None
    seen: set[object] = set()
    for seed in left:
        if _kind(seed) in seen:
            continue
        seen.add(_kind(seed))
        charge = _grown(seed, left, kiln, judge, day)
        if charge is not None and (best is None or _loaded(charge) > _loaded(best) + 1e-9):
            best = charge
    return best


def _grown(seed: Lot, left: Sequence[Lot], kiln: Kiln, judge: _Judge, day: datetime.date) -> Charge | None:
    """The seed with what goes with it, those most like it first, until the kiln is full; then as many courses as it
    takes."""
    members = [seed]
    away = []
    full = False
    for lot in sorted((lot for lot in left if lot is not seed), key=lambda lot: _unlike(seed, lot)):
        finding = next((found for member in members if (found := judge.against(member, lot)) is not None), None)
        if finding is not None:
            away.append(TurnedAway(lot, finding))
        elif not (full := full or _full(members, kiln)):
            members.append(lot)
    while len(members) > 1 and (against := judge.finding(members)) is not None:
        away.append(TurnedAway(members.pop(), against))
    load = _load(members, kiln)
    if load is None or not load.courses:
        return None
    return Charge(kiln, day, load, _taken(members, load), tuple(away))


def _full(members: Sequence[Lot], kiln: Kiln) -> bool:
    """Do the members already fill the kiln? They are laid in it only once their volume may come to what it takes."""
    if sum(_volume(lot.boards) for lot in members) < _room(kiln):
        return False
    load = _load(members, kiln)
    return load is not None and load.stopped is not None and bool(load.out)


def _load(members: Sequence[Lot], kiln: Kiln) -> KilnLoad | None:
    """The members that are not too long for the kiln, laid in it on the stickers of the first pile that says any."""
    inside = kiln.inside.length.si if kiln.inside is not None else None
    going = [lot for lot in members if inside is None or _longest(lot.boards) <= inside + 1e-6]
    if not going:
        return None
    stickers = next((lot.pile.stickers for lot in members if lot.pile.stickers is not None), None)
    size = next((lot.pile.size for lot in members if lot.pile.size is not None), None)
    boards = tuple(_labelled(lot.boards, label) for lot, label in zip(members, _labels(), strict=False) if lot in going)
    charge = Stack(kind=StackKind.CHARGE, name=Name(text="here"), boards=boards, stickers=stickers, size=size)
    load = load_kiln(charge, kiln, {lot.boards.wood.text: lot.wood for lot in going})
    return None if isinstance(load, TooLong) else load


def _taken(members: Sequence[Lot], load: KilnLoad) -> tuple[Taken, ...]:
    out = {label for label, _ in load.out}
    found = []
    for lot, label in zip(members, _labels(), strict=False):
        lengths = {length: count for (of, length), count in load.boards.items() if of == label}
        if lengths:
            found.append(Taken(lot, lengths, label not in out))
    return tuple(found)


def _without(left: Sequence[Lot], taken: Sequence[Taken]) -> Iterator[Lot]:
    """What is left of the lots: a lot that went in part keeps the boards that stayed, a line for each length."""
    from stacklint.layout.stock import lots_of

    by_lot = {id(each.lot): each for each in taken}
    for lot in left:
        gone = by_lot.get(id(lot))
        if gone is None:
            yield lot
            continue
        for stock in lots_of(lot.boards)[0]:
            rest = stock.count - gone.lengths.get(round(stock.length, 5), 0)
            if rest:
                yield lot._replace(boards=of_length(lot.boards, stock.length, rest))


def of_length(boards: Boards, length: float, count: int) -> Boards:
    """So many boards of a group, of one of its lengths."""
    written = boards.length
    if not isinstance(written, Quantity):
        unit = written.low.unit
        written = Quantity(number=round(unit.from_si(length), 6), unit=unit)
    return boards.model_copy(update={"count": count, "volume": None, "length": written})


def taken_kilns(stacks: Iterable[CheckedStack], day: datetime.date) -> dict[str, tuple[str, datetime.date]]:
    """The kilns, in small letters, that still hold a charge on that day: its name, and the likely day it comes out.

    A charge of which it is not known when it will be dry keeps no kiln.
    """
    found: dict[str, tuple[str, datetime.date]] = {}
    for each in stacks:
        stack = each.stack
        if stack.kiln is None or stack.starts is None or stack.starts.date > day:
            continue
        ready = each.forecast.ready(Pace.LIKELY) if isinstance(each.forecast, Forecast) else None
        if ready is not None and ready > day:
            found[stack.kiln.text.casefold()] = (stack.name.text, ready)
    return found


def _free(yard: Yard, day: datetime.date) -> Iterator[Stack]:
    """The piles that stand on that day."""
    for stack in yard.plan.stacks:
        built = stack.stacked.date if stack.stacked is not None else None
        if stack.kind is StackKind.CHARGE or (built and built > day):
            continue
        if stack.boards and "boards" not in stack.faulty:
            yield stack


def _of_pile(pile: Stack, yard: Yard, day: datetime.date, today: datetime.date) -> Iterator[Lot]:
    woods = woods_of(pile, yard.plan)
    if woods is None:
        return
    charge = Stack(
        kind=StackKind.CHARGE,
        name=pile.name,
        boards=rest_of(pile, yard.plan.stacks),
        starts=Day(date=day),
        from_piles=(Taking(pile=pile.name),),
    )
    dried, _ = with_dried_boards(charge, yard.plan, woods, today)
    for boards in dried.boards:
        yield Lot(yard.path, pile, boards, woods[boards.wood.text])


def _labelled(boards: Boards, label: str) -> Boards:
    return boards.model_copy(update={"label": Name(text=label)})


def _labels() -> Iterator[str]:
    yield from LABELS
    yield from (one + other for one, other in combinations(LABELS, 2))


def _kind(lot: Lot) -> tuple[str, int, int, str]:
    """What the rules on mixing look at: wood, thickness (0.1 mm), moisture (1%), and how it lay in the log. What goes
    into a charge in the end is checked as it is."""
    face = lot.boards.face.value if lot.boards.face is not None else ""
    return lot.wood.name, round(lot.boards.thickness.si * 1e4), round(lot.moisture * 1e2), face


def _unlike(seed: Lot, lot: Lot) -> tuple[bool, float, float]:
    """Another wood, then another thickness, then another moisture."""
    thick, other = seed.boards.thickness.si, lot.boards.thickness.si
    return seed.wood.name != lot.wood.name, abs(thick - other), abs(seed.moisture - lot.moisture)


def _loaded(charge: Charge) -> float:
    return charge.load.amounts.volume


def _volume(boards: Boards) -> float:
    from stacklint.layout.stock import volume_of

    return volume_of(boards)


def _longest(boards: Boards) -> float:
    return boards.length.si if isinstance(boards.length, Quantity) else boards.length.high.si


def _room(kiln: Kiln) -> float:
    """About the volume of wood that a kiln takes: its rating, else what half of its inside would hold."""
    if kiln.holds is not None:
        return kiln.holds.si
    inside = kiln.inside
    return inside.length.si * inside.width.si * inside.height.si / 2 if inside is not None else 0.0
