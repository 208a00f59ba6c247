"""A yard's calendar, gathered from what is kept of its checked plans."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import NamedTuple

from stacklint.calendar.frame import USUAL, Frame, frame, usual_first
from stacklint.calendar.lateness import Lateness, lateness
from stacklint.calendar.places import Place, places
from stacklint.calendar.rooms import Room, rooms
from stacklint.calendar.waiting import Links, Wait, booking_of, held_up, links, waits
from stacklint.engineering.yard_facts import Booking
from stacklint.report.coop_plan import CoopStack
from stacklint.report.kept import Kept
from stacklint.rulebook import StackWaiver
from stacklint.yard.judging import lent_piles
from stacklint.yard.months import month_of
from stacklint.yard.presence import Presence, presences
from stacklint.yard.stands import YardPlan


class Entry(NamedTuple):
    """One stack. ``clash`` is told where another stands in its place when it comes."""

    number: int
    plan: YardPlan
    stack: CoopStack
    presence: Presence
    lateness: Lateness
    waits: tuple[Wait, ...]
    clash: Booking | None
    waivers: tuple[StackWaiver, ...]

    @property
    def anchor(self) -> str:
        return f"stack-{self.number}"

    @property
    def words(self) -> str:
        """*Pile B2*"""
        words = self.presence.stand.words
        return words[:1].upper() + words[1:]


class YardCalendar(NamedTuple):
    """All the stacks, by the day on which they are likely ready; those without such a day come last.

    The indexes of ``places`` are those of ``entries``.
    """

    today: datetime.date
    frame: Frame
    plans: int
    entries: tuple[Entry, ...]
    places: tuple[Place, ...]
    rooms: tuple[Room, ...]

    @property
    def undated(self) -> tuple[Entry, ...]:
        """The stacks of which no day is known."""
        return tuple(each for each in self.entries if each.stack.stay is None)


def gathered(
    plans: Sequence[Kept], today: datetime.date, first: datetime.date | None = None, count: int = USUAL
) -> YardCalendar:
    """The calendar of a yard; the order of the plans does not matter.

    Args:
        first: a day in the first month that is looked at; see ``usual_first`` if there is none.
        count: how many months are looked at.
    """
    yard = [plan.yard for plan in plans]
    stacks = [stack for plan in plans for stack in plan.stacks]
    # Piles that charges take from count where they hold a charge up, though nobody asked for their plans.
    stands = presences([*yard, *lent_piles(yard)])
    both = sorted(zip(stands[: len(stacks)], stacks, strict=True), key=_order)
    in_order = [each for each, _ in both]
    found = links([*in_order, *stands[len(stacks) :]])
    shown = frame(month_of(first) if first is not None else usual_first(in_order, today), count)
    return YardCalendar(
        today=today,
        frame=shown,
        plans=len(plans),
        entries=tuple(_entry(number, each, stack, found, today) for number, (each, stack) in enumerate(both, 1)),
        places=places(in_order, shown, today),
        rooms=rooms(in_order, shown),
    )


def _order(both: tuple[Presence, CoopStack]) -> tuple[bool, datetime.date, datetime.date, str, int]:
    each, stack = both
    likely = stack.ready.likely
    late = datetime.date.max
    return likely is None, likely or late, stack.due or late, each.plan.path, each.stand.block.line


def _entry(number: int, each: Presence, stack: CoopStack, found: Links, today: datetime.date) -> Entry:
    waiting = tuple(waits(each, stack, found, today))
    return Entry(
        number=number,
        plan=each.plan,
        stack=stack,
        presence=each,
        lateness=lateness(stack.stay, stack.due, today, held_up(waiting, each.start)),
        waits=waiting,
        clash=booking_of(each, found),
        waivers=tuple(waiver for waiver in each.plan.waivers if waiver.stack == each.stand.name),
    )
