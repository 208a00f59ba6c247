"""What a stack waits for: its day, a pile that is not dry, a place that is taken, the air, a kiln, or words in its
plan."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import Enum
from typing import NamedTuple

from stacklint.engineering.yard_facts import Booking
from stacklint.plan.stack import StackKind
from stacklint.report.coop_plan import CoopStack
from stacklint.show import percent
from stacklint.where import Where
from stacklint.yard.bookings import bookings
from stacklint.yard.presence import Presence


class For(Enum):
    """What is waited for."""

    PLAN = "its plan"
    DAY = "its day"
    PILE = "a pile"
    PLACE = "its place"
    AIR = "the air"
    RUN = "the kiln's run"
    KILN = "a kiln"
    CHARGE = "a charge"


class Wait(NamedTuple):
    """One thing that a stack waits for, in a sentence; until which day, where one is known."""

    what: For
    words: str
    until: datetime.date | None = None


class Links(NamedTuple):
    """How the stacks of a yard hang together: piles by the place of their block, the charges that take from each, and
    taken places by the place of the name that asks for them."""

    piles: Mapping[Where, Presence]
    takers: Mapping[Where, Sequence[Presence]]
    taken: Mapping[Where, Booking]


def links(presences: Sequence[Presence]) -> Links:
    takers: dict[Where, list[Presence]] = defaultdict(list)
    for each in presences:
        for taking in each.stand.takings:
            takers[taking.block].append(each)
    return Links(
        piles={each.stand.block: each for each in presences if each.stand.kind is StackKind.PILE},
        takers={block: sorted(found, key=_start) for block, found in takers.items()},
        taken={each.where: each for each in bookings(presences)},
    )


def booking_of(each: Presence, found: Links) -> Booking | None:
    """The clash in which a stack comes to a place that is taken."""
    return found.taken.get(each.stand.placed_at) if each.stand.placed_at is not None else None


def held_up(found: Iterable[Wait], start: datetime.date | None) -> datetime.timedelta:
    """For how long after its day a stack would wait for its piles and its place, as far as that is known."""
    days = [wait.until for wait in found if wait.what in (For.PILE, For.PLACE) and wait.until is not None]
    return max(max(days) - start, datetime.timedelta()) if days and start is not None else datetime.timedelta()


def waits(each: Presence, stack: CoopStack, found: Links, today: datetime.date) -> Iterator[Wait]:
    """What a stack waits for, what comes first in time first."""
    yield from _for_its_plan(each, stack)
    yield from _for_its_day(each, today)
    yield from _for_its_piles(each, found, today)
    yield from _for_its_place(each, found, today)
    yield from _for_its_boards(each, stack, found, today)
    yield from _for_its_charges(each, found, today)


def _for_its_plan(each: Presence, stack: CoopStack) -> Iterator[Wait]:
    if stack.ready.why_not:
        yield Wait(For.PLAN, stack.ready.why_not)
    stay = each.stand.stay
    if stay is None or not stay.start_said:
        word = "starts" if each.charge else "stacked"
        yield Wait(For.PLAN, f"Its day is not said: add a line {word} with the day.")


def _for_its_day(each: Presence, today: datetime.date) -> Iterator[Wait]:
    if each.start is not None and each.start > today:
        begins = "starts" if each.charge else "is stacked"
        yield Wait(For.DAY, f"It {begins} on {each.start.isoformat()}.", each.start)


def _for_its_piles(each: Presence, found: Links, today: datetime.date) -> Iterator[Wait]:
    """Piles that are not likely dry when the charge takes their boards. A charge that has begun waits for none."""
    if each.start is not None and each.start < today:
        return
    for taking in each.stand.takings:
        pile = found.piles.get(taking.block)
        stay = pile.stand.stay if pile is not None else None
        if pile is None or stay is None or each.start is None or pile.stand.wanted is None:
            continue
        if not stay.foretold or not stay.start_said:
            continue
        name, wanted = _capital(pile.written(each.plan.path)), percent(pile.stand.wanted)
        if stay.likely is None:
            yield Wait(For.PILE, f"{name} does not come to {wanted} where it stands, by forecast.")
        elif stay.likely > each.start:
            later = _days((stay.likely - each.start).days)
            words = f"{name} is likely at {wanted} on {stay.likely.isoformat()}, {later} after this charge starts."
            yield Wait(For.PILE, words, stay.likely)


def _for_its_place(each: Presence, found: Links, today: datetime.date) -> Iterator[Wait]:
    clash = booking_of(each, found)
    if clash is None or (clash.free is not None and clash.free <= today):
        return
    first = _capital(clash.first or "another stack")
    if clash.free is None:
        yield Wait(For.PLACE, f"{first} is in {clash.place}, and no day is known on which it goes.")
        return
    later = f", {_days((clash.free - each.start).days)} after this one comes" if each.start is not None else ""
    yield Wait(For.PLACE, f"{first} is in {clash.place} until {clash.free.isoformat()}{later}.", clash.free)


def _for_its_boards(each: Presence, stack: CoopStack, found: Links, today: datetime.date) -> Iterator[Wait]:
    """What dries the boards: the air or the kiln's run; or a kiln, where the air cannot."""
    stay, wanted, floor = each.stand.stay, each.stand.wanted, stack.ready.floor
    if stay is None or not stay.foretold or wanted is None:
        return
    taken = each.stand.block in found.takers
    what, dries = (For.RUN, "runs") if each.charge else (For.AIR, "dries")
    if stay.likely is not None:
        if stay.likely > today and not (each.taken and each.end is not None and each.end < stay.likely):
            yield Wait(what, f"It {dries} until {stay.likely.isoformat()}, likely.", stay.likely)
        return
    if not each.charge and stay.fast is None and floor is not None and wanted < floor:
        if not taken:
            yield Wait(
                For.KILN,
                f"The air holds its boards at {percent(floor)} at the driest and {percent(wanted)} is wanted: it waits"
                " for a kiln, and no charge takes its boards.",
            )
        return
    yield Wait(what, f"It does not come to {percent(wanted)} by forecast: {stack.ready.said}.")


def _for_its_charges(each: Presence, found: Links, today: datetime.date) -> Iterator[Wait]:
    for charge in found.takers.get(each.stand.block, ()):
        if charge.start is None:
            yield Wait(For.CHARGE, f"{_capital(charge.written(each.plan.path))} takes its boards; its day is not said.")
        elif charge.start > today:
            name = _capital(charge.written(each.plan.path))
            yield Wait(For.CHARGE, f"{name} takes its boards on {charge.start.isoformat()}.", charge.start)


def _start(each: Presence) -> tuple[datetime.date, str, int]:
    return each.start or datetime.date.max, each.plan.path, each.stand.block.line


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"
