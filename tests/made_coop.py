"""An invented co-op: several yards with piles and kiln charges over some years, and faults planted in a known number.

The same seed and number of plans make the same texts. Without planted faults no plan clashes with another; with them it
is known for each what is to be found, where, and which other places have a share in it. That is worked out here from
the days and pieces of the plans alone, not by the program.
"""

from __future__ import annotations

import datetime
import itertools
import random
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path
from typing import NamedTuple

DATE = datetime.date
TODAY = DATE(2026, 1, 1)

_KILNS = 4
_ROUNDS = (9, 11, 13)
"""Months in which charges start, counted from the January in which their piles are stacked."""
_SPOTS = _KILNS * len(_ROUNDS)
_YEARS = 2
_FIRST_YEAR = 2026
PLANS_A_YARD = 2 * _SPOTS * _YEARS + 1
_TREES = ("Alder", "Birch", "Cedar", "Dogwood", "Elm", "Fir", "Gum", "Hazel")
_TOWNS = ("Burlington, VT", "Columbus, OH", "Buffalo, NY", "Burlington, Vermont")
_WOODS = ("white ash", "soft maple", "black cherry", "yellow birch")
_ACROSS, _ALONG = 8, 2
"""Boards of 6 in and 8 ft side by side and end to end in a course of a pile, 4 ft wide and 16 ft long."""
_LINES = 11
"""Sticker lines, and bearers, of such a pile: 16 ft every 19.2 in."""


class Fault(Enum):
    """What is planted. Of the last nothing is known to the yard, only in the plan."""

    KILN_TWICE = "a charge is in the kiln of another"
    SPOT_TWICE = "a pile is in the spot of another"
    NAME_TWICE = "a pile bears the name of another"
    TAKEN_TWICE = "a charge takes boards that another took"
    NOT_DRY = "a pile is stacked two weeks before its charge"
    NOT_USED = "a charge names a pile of a plan that it does not use"
    KILN_MONTH = "four charges are in one kiln in one month"
    SPOTS = "a yard has one spot too few"
    WOOD = "a yard has room for one board foot too few"
    STICKERS = "a yard has one sticker too few"
    BEARERS = "a yard has one bearer too few"
    WIDE = "stickers are 32 in apart"
    UNPAIRED = "stickers begin 16 in from the ends"
    NOT_THERE = "a charge names a pile that is nowhere"


OF_A_YARD = (Fault.SPOTS, Fault.WOOD, Fault.STICKERS, Fault.BEARERS)
WITHIN = (Fault.WIDE, Fault.UNPAIRED, Fault.NOT_THERE)
"""Faults within one plan."""
_AT_THE_END = (Fault.NOT_USED, Fault.NOT_THERE)
"""Faults that leave a charge without boards: nobody knows when it comes out of its kiln, so they are the last in it."""


class Place(NamedTuple):
    """A line of a text, by how it begins."""

    path: str
    begins: str


class Expected(NamedTuple):
    """A finding that is to come."""

    rule: str
    level: str
    place: Place
    stack: str
    related: tuple[Place, ...] = ()


@dataclass
class Pile:
    path: str
    name: str
    spot: str
    stacked: DATE
    wood: str
    boards: int
    every: str = "19.2 in"
    from_ends: str = ""

    @property
    def named(self) -> Place:
        return Place(self.path, f'pile "{self.name}"')

    @property
    def courses(self) -> int:
        return self.boards // (_ACROSS * _ALONG)

    @property
    def board_feet(self) -> int:
        """A board of 1 in x 6 in x 8 ft has four."""
        return 4 * self.boards

    @property
    def stickers(self) -> int:
        """A course of them between two courses of boards, and one on the bearers."""
        return _LINES * self.courses


@dataclass
class Charge:
    path: str
    name: str
    kiln: str
    starts: DATE
    takes: list[tuple[Pile, int | None]]
    used: list[Pile]

    @property
    def named(self) -> Place:
        return Place(self.path, f'charge "{self.name}"')

    @property
    def started(self) -> Place:
        return Place(self.path, "starts ")

    def takes_from(self, pile: Pile) -> Place:
        return Place(self.path, f'from pile "{pile.name}"')


@dataclass
class Round:
    """Four piles, and the charges that take them in one month."""

    piles: list[Pile]
    charges: list[Charge]
    last: bool
    """No charge follows in these kilns."""

    @property
    def whole(self) -> bool:
        """Each charge takes one pile; else two charges halve two piles between them."""
        return all(pieces is None for charge in self.charges for _, pieces in charge.takes)


@dataclass
class Yard:
    name: str
    folder: str
    town: str
    number: int
    rounds: list[Round]
    spots: int = 100
    holds: int = 900_000
    stickers: int = 900_000
    bearers: int = 10_000
    faults: set[Fault] = field(default_factory=set)

    @property
    def path(self) -> str:
        return f"{self.folder}/yard.stackplan"

    @property
    def piles(self) -> list[Pile]:
        return [pile for each in self.rounds for pile in each.piles]

    @property
    def charges(self) -> list[Charge]:
        return [charge for each in self.rounds for charge in each.charges]

    def stays(self) -> list[tuple[DATE, DATE, Pile]]:
        """From when to when each pile stands: until charges have taken all its boards."""
        return [(pile.stacked, self._gone(pile), pile) for pile in self.piles]

    def _gone(self, pile: Pile) -> DATE:
        takers = [(c.starts, pieces) for c in self.charges for taken, pieces in c.takes if taken is pile]
        left = pile.boards
        for day, pieces in sorted(takers, key=lambda taker: taker[0]):
            left -= pile.boards if pieces is None else pieces
            if left <= 0:
                return day
        return DATE.max


@dataclass
class Coop:
    """The plans as they are written, by their paths, and what is to be found in them."""

    texts: dict[str, str]
    between: list[Expected]
    """What the plans say of one another."""
    within: list[tuple[str, str]]
    """Of the faults within one plan: the rule that tells it and the path."""

    def line(self, place: Place) -> int:
        lines = self.texts[place.path].split("\n")
        return next(number for number, line in enumerate(lines, 1) if line.strip().startswith(place.begins))

    def write(self, folder: Path) -> None:
        """Writes it as a project under version control, so that it is one whatever of it is named."""
        (folder / ".git").mkdir(parents=True, exist_ok=True)
        for path, text in self.texts.items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_text(text, encoding="utf-8")


def sound(seed: int, plans: int) -> Coop:
    """A co-op of at least so many plans in which no plan clashes with another."""
    return seeded(seed, plans, {})


def seeded(seed: int, plans: int, faults: Mapping[Fault, int]) -> Coop:
    """A co-op of at least so many plans with so many of each fault.

    Raises:
        ValueError: if it is too small for so many.
    """
    rng = random.Random(seed)
    yards = [_yard(number, rng) for number in range(-(-plans // PLANS_A_YARD))]
    between: list[Expected] = []
    within: list[tuple[str, str]] = []
    _plant(yards, faults, between, within, rng)
    texts = {"house.rules": _HOUSE}
    for yard in yards:
        texts.update(_texts(yard))
    return Coop(texts, between, within)


def _yard(number: int, rng: random.Random) -> Yard:
    tree = _TREES[number % len(_TREES)]
    folder = f"{tree.lower()}-{number:03}"
    yard = Yard(f"{tree} yard", folder, _TOWNS[number % len(_TOWNS)], number, [])
    for year, (place, month) in itertools.product(range(_YEARS), enumerate(_ROUNDS)):
        last = year == _YEARS - 1 and place == len(_ROUNDS) - 1
        yard.rounds.append(_round(folder, year, place, month, rng, last=last))
    return yard


def _round(folder: str, year: int, place: int, month: int, rng: random.Random, *, last: bool) -> Round:
    piles: list[Pile] = []
    charges: list[Charge] = []
    short = (_FIRST_YEAR + year) % 100
    for each in range(_KILNS):
        spot = place * _KILNS + each + 1
        pile = Pile(
            path=f"{folder}/pile-{short}-{spot:02}.stackplan",
            name=f"P{short}-{spot:02}",
            spot=f"row {spot}",
            stacked=DATE(_FIRST_YEAR + year, 3, 20) + datetime.timedelta(days=2 * spot),
            # A charge that halves two piles takes boards of one wood.
            wood=rng.choice(_WOODS) if each % 2 == 0 else piles[-1].wood,
            boards=rng.choice((96, 144)),
        )
        piles.append(pile)
    halved = (year + place) % 2 == 0
    for each in range(_KILNS):
        mine, other = piles[each], piles[each ^ 1]
        start = DATE(_FIRST_YEAR + year + (month - 1) // 12, (month - 1) % 12 + 1, 2 + each)
        charge = Charge(
            path=f"{folder}/kiln/charge-{short}-{place + 1}{each + 1}.stackplan",
            name=f"C{short}-{place + 1}{each + 1}",
            kiln=f"Box {each + 1}",
            starts=start,
            takes=[(mine, mine.boards // 2), (other, other.boards // 2)] if halved else [(mine, None)],
            used=[mine, other] if halved else [mine],
        )
        charges.append(charge)
    return Round(piles, charges, last)


# Planting


def _plant(
    yards: Sequence[Yard],
    faults: Mapping[Fault, int],
    between: list[Expected],
    within: list[tuple[str, str]],
    rng: random.Random,
) -> None:
    free = [(yard, each) for yard in yards for each in yard.rounds]
    rng.shuffle(free)
    # Those that fit in few places first.
    for fault in sorted((each for each in faults if each not in OF_A_YARD), key=lambda each: each not in _AT_THE_END):
        for _ in range(faults[fault]):
            found = next((one for one in free if _fits(fault, *one)), None)
            if found is None:
                raise ValueError(f"no room for so many: {fault.value}")
            free.remove(found)
            found[0].faults.add(fault)
            for said in _PLANTERS[fault](*found):
                if isinstance(said, Expected):
                    between.append(said)
                else:
                    within.append(said)
    for fault in OF_A_YARD:
        # Piles that nobody takes stand on, and stickers that lie otherwise are fewer.
        unfit = {*_AT_THE_END, *(WITHIN if fault is Fault.STICKERS else ())}
        whole = [yard for yard in yards if unfit.isdisjoint(yard.faults)]
        if len(whole) < faults.get(fault, 0):
            raise ValueError(f"no room for so many: {fault.value}")
        between.extend(_narrowed(yard, fault) for yard in rng.sample(whole, faults.get(fault, 0)))


def _fits(fault: Fault, yard: Yard, each: Round) -> bool:
    if fault in _AT_THE_END:
        return each.last and each.whole
    if fault is Fault.KILN_MONTH and fault in yard.faults:
        # Of a kiln it is told once in which months it is asked for too much.
        return False
    return not each.last and (each.whole or fault not in (Fault.NAME_TWICE, Fault.NOT_DRY))


Said = Iterator[Expected | tuple[str, str]]


def _kiln_twice(_: Yard, each: Round) -> Said:
    first, second = each.charges[:2]
    second.kiln = first.kiln
    yield Expected("kiln-double-booked", "error", second.named, second.name, (first.named,))


def _kiln_month(_: Yard, each: Round) -> Said:
    for number, charge in enumerate(each.charges[1:], 1):
        charge.kiln = each.charges[0].kiln
        there = tuple(other.named for other in each.charges[:number])
        yield Expected("kiln-double-booked", "error", charge.named, charge.name, there)
    last = each.charges[-1]
    yield Expected(
        "yard-overfull", "warning", last.started, last.name, tuple(other.named for other in each.charges[:-1])
    )


def _spot_twice(_: Yard, each: Round) -> Said:
    first, second = each.piles[:2]
    second.spot = first.spot.upper()
    place = Place(second.path, "spot ")
    yield Expected("spot-double-booked", "error", place, second.name, (Place(first.path, "spot "),))


def _name_twice(_: Yard, each: Round) -> Said:
    first, second = each.piles[:2]
    second.name = first.name.lower()
    yield Expected("name-used-twice", "error", second.named, second.name, (first.named,))


def _taken_twice(_: Yard, each: Round) -> Said:
    first, second = each.charges[:2]
    pile = each.piles[0]
    if each.whole:
        second.takes.append((pile, 24))
        second.used.append(pile)
    else:
        second.takes = [(taken, None if taken is pile else pieces) for taken, pieces in second.takes]
    yield Expected(
        "pile-taken-twice", "error", second.takes_from(pile), second.name, (pile.named, first.takes_from(pile))
    )


def _not_dry(_: Yard, each: Round) -> Said:
    pile, charge = each.piles[0], each.charges[0]
    pile.stacked = charge.starts - datetime.timedelta(days=14)
    yield Expected("pile-not-dry-yet", "warning", charge.takes_from(pile), charge.name, (pile.named,))


def _not_used(_: Yard, each: Round) -> Said:
    pile, charge = each.piles[0], each.charges[0]
    charge.used.clear()
    yield Expected("plan-text", "error", charge.takes_from(pile), charge.name, (pile.named,))


def _not_there(_: Yard, each: Round) -> Said:
    charge = each.charges[0]
    nowhere = Pile("", "Nobody's", "", TODAY, "", 0)
    charge.takes = [(nowhere, None)]
    yield "plan-text", charge.path


def _wide(_: Yard, each: Round) -> Said:
    each.piles[0].every = "32 in"
    yield "sticker-spacing-too-wide", each.piles[0].path


def _unpaired(_: Yard, each: Round) -> Said:
    each.piles[0].from_ends = ", 16 in from ends"
    yield "joint-off-sticker", each.piles[0].path


_PLANTERS: Mapping[Fault, Callable[[Yard, Round], Said]] = {
    Fault.KILN_TWICE: _kiln_twice,
    Fault.SPOT_TWICE: _spot_twice,
    Fault.NAME_TWICE: _name_twice,
    Fault.TAKEN_TWICE: _taken_twice,
    Fault.NOT_DRY: _not_dry,
    Fault.NOT_USED: _not_used,
    Fault.KILN_MONTH: _kiln_month,
    Fault.WIDE: _wide,
    Fault.UNPAIRED: _unpaired,
    Fault.NOT_THERE: _not_there,
}
_MOST_RELATED = 6


def _narrowed(yard: Yard, fault: Fault) -> Expected:
    """Gives a yard a little less than it needs at its fullest. Told is the pile with which it is too much for the
    first time, with the limit and those that came last before it."""
    needs: dict[Fault, Callable[[Pile], int]] = {
        Fault.SPOTS: lambda _: 1,
        Fault.WOOD: lambda pile: pile.board_feet,
        Fault.STICKERS: lambda pile: pile.stickers,
        Fault.BEARERS: lambda _: _LINES,
    }
    need = needs[fault]
    stays = sorted(yard.stays(), key=lambda stay: (stay[0], stay[2].path))

    def there(number: int) -> list[Pile]:
        """Those that stand when a pile has come, it and the latest last."""
        return [pile for _, gone, pile in stays[: number + 1] if gone > stays[number][0]]

    most = max(sum(map(need, there(number))) for number in range(len(stays)))
    limit = most - 1
    match fault:
        case Fault.SPOTS:
            yard.spots, begins = limit, "spots "
        case Fault.WOOD:
            yard.holds, begins = limit, "holds "
        case Fault.STICKERS:
            yard.stickers, begins = limit, f"stock {limit} stickers"
        case _:
            yard.bearers, begins = limit, f"stock {limit} bearers"
    number = next(number for number in range(len(stays)) if sum(map(need, there(number))) > limit)
    *others, came = there(number)
    related = (Place(yard.path, begins), *(pile.named for pile in others[::-1][:_MOST_RELATED]))
    return Expected("yard-overfull", "warning", Place(came.path, "stacked "), came.name, related)


# Writing


_HOUSE = """\
# What holds in all yards of an invented co-op.

change sticker-spacing-too-wide
  limit   hardwood = 22 in

skip lift-too-heavy because "boards are moved by forklift"
"""
_NEARER = """\
# Here it is warmer and dries faster.

change sticker-spacing-too-wide
  limit   hardwood = 20 in
"""
_KILN = """
kiln "Box {box}"
  type dehumidification
  inside 18 ft x 6 ft x 7 ft
  holds 1200 bf
  carries {carries} lb
  heats to 150 F
  removes 160 pt/day
  fans 3 of 1800 cfm
  plenum 18 in
"""


def _texts(yard: Yard) -> Iterator[tuple[str, str]]:
    if yard.number % 3 == 1:
        yield f"{yard.folder}/house.rules", _NEARER
    # Sites and kilns of one name in two yards are two: what is said of them differs.
    kilns = "".join(_KILN.format(box=box + 1, carries=9000 + yard.number) for box in range(_KILNS))
    yield (
        yard.path,
        f"""\
# What the plans of {yard.folder} share. All of it is invented.

site "{yard.name}"
  near "{yard.town}"
  spots {yard.spots}
  holds {yard.holds} bf
  stock {yard.stickers} stickers of 4 ft
  stock {900_000 + yard.number} stickers of 3 ft
  stock {yard.bearers} bearers of 4 ft
{kilns}""",
    )
    for pile in yard.piles:
        yield pile.path, _pile(pile, yard)
    for charge in yard.charges:
        yield charge.path, _charge(charge)


def _pile(pile: Pile, yard: Yard) -> str:
    return f"""\
# {pile.wood.capitalize()} of {pile.stacked:%Y}, {pile.boards} boards.

use "yard.stackplan"

pile "{pile.name}" "{pile.wood.capitalize()} for flooring"
  place open yard, site "{yard.name}", in the shade
  spot "{pile.spot}"
  sawn {pile.stacked - datetime.timedelta(days=2)}
  stacked {pile.stacked}
  boards a: {pile.boards} of {pile.wood} 4/4 x 6 in x 8 ft, green, flatsawn
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every {pile.every}{pile.from_ends}, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 19.2 in, on 8 in x 16 in pads
  clearance 14 in
  ground gravel, flat, drained
  cover sheet metal, overhang 18 in, gap 4 in, slope 1 in 12, tied
  sides shade cloth
  wind across
  ends coated at the saw
  top load 50 psf
  want 20% by {pile.stacked.year}-12-20
"""


def _charge(charge: Charge) -> str:
    uses = "".join(f'use "../{Path(pile.path).name}"\n' for pile in charge.used)
    takes = "".join(
        f'  from pile "{pile.name}"{"" if pieces is None else f", {pieces} of a"}\n' for pile, pieces in charge.takes
    )
    due = charge.starts + datetime.timedelta(days=100)
    return f"""\
# A charge of {charge.starts:%Y-%m}.

use "../yard.stackplan"
{uses}
charge "{charge.name}" "Flooring" in kiln "{charge.kiln}"
  starts {charge.starts}
{takes}  runs at 120 F 25%
  baffles top, ends, floor
  hold 150 F for 2 h
  sterilize
  stack 16 ft x 3 ft
  stickers 3/4 in x 1 1/2 in, every 19.2 in, dry, 3 ft long
  top load 50 psf
  want 8% by {due} for flooring
"""
