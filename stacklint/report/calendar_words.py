"""What a calendar tells of a stack, in words: from when to when it stands, when it is ready, and how late that is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from types import MappingProxyType
from typing import NamedTuple

from stacklint.calendar.gathered import Entry
from stacklint.calendar.lateness import State
from stacklint.calendar.places import Days, Place
from stacklint.calendar.rooms import Asked, Room
from stacklint.report.coop_calendar import heading_of
from stacklint.report.coop_plan import NOTHING_WANTED
from stacklint.yard.months import said
from stacklint.yard.stay import SpotKind

_MOST_NAMED = 12
LATE = frozenset({State.OVERDUE, State.LATE, State.PERHAPS_LATE})
"""Of stacks in these states it is told what sets their time."""


def title(entry: Entry) -> str:
    """*Pile B2, Ash for flooring*"""
    return f"{entry.words}, {entry.stack.title}" if entry.stack.title else entry.words


def where_written(entry: Entry) -> str:
    return f"{entry.plan.path}, line {entry.stack.line}"


def place(entry: Entry) -> str:
    """*spot row 3, Larch Bottom*, *kiln Box*, *open yard*; nothing where nothing is said."""
    stack = entry.stack
    if entry.presence.charge:
        return f"kiln {stack.place}" if entry.presence.stand.placed_at is not None else "no kiln said"
    if stack.spot:
        within = entry.presence.stand.site.name if entry.presence.stand.site is not None else ""
        return f"spot {stack.spot}{f', {within}' if within else ''}"
    return stack.place


def name_of(place: Place) -> str:
    """*row 3, Larch Bottom*"""
    spot = place.spot
    if spot.kind is SpotKind.SPOT and spot.within:
        return f"{spot.name}, {spot.within}"
    return spot.name or heading_of(spot)


def stands(entry: Entry) -> str:
    """From when to when it stands in its place."""
    stay, each = entry.stack.stay, entry.presence
    if stay is None:
        return "no day is known"
    since = stay.start.isoformat()
    if each.start is None:
        return f"from {since}, which is taken for its day: its own is not said"
    if each.end is None:
        return f"from {since} on; no day is known on which it goes"
    if each.taken:
        return f"{since} to {each.end.isoformat()}, when its boards are taken by charges"
    return f"{since} to {each.end.isoformat()}, when it is likely ready"


def ready(entry: Entry) -> str:
    """The likely day and its range, or why there is none."""
    day = entry.stack.ready
    if day.said == NOTHING_WANTED:
        return "nothing is wanted of it"
    return f"{day.said} ({day.span})" if day.span else day.said


def wanted(entry: Entry) -> str:
    """By when it is wanted, and whether it is ready then."""
    return f"{due(entry)}: {judged(entry)}" if entry.stack.due is not None else due(entry)


def due(entry: Entry) -> str:
    """*by 2026-05-15, 17 days ago*"""
    if entry.stack.due is None:
        return "no day is wanted"
    passed = entry.lateness.passed
    return f"by {entry.stack.due.isoformat()}{f', {_days(passed)} ago' if passed else ''}"


def judged(entry: Entry) -> str:
    """*overdue, late by 20 days, 333 at the slow end*"""
    late = entry.lateness
    at_most = f", {late.at_most} at the slow end" if late.at_most and late.at_most != late.days else ""
    match late.state:
        case State.OVERDUE if late.days:
            return f"overdue, late by {_days(late.days)}{at_most}"
        case State.LATE if late.days:
            return f"late by {_days(late.days)}{at_most}"
        case State.OVERDUE | State.LATE:
            return f"{_SAID[late.state]}, and not ready in all the time that was looked at"
        case State.PERHAPS_LATE if late.at_most:
            return f"perhaps late, by {_days(late.at_most)} at the slow end"
        case State.PERHAPS_LATE if entry.stack.stay is not None and entry.stack.stay.slow is not None:
            return "perhaps late: it is, if it waits for what is not there when it comes"
        case State.PERHAPS_LATE:
            return "perhaps late: at the slow end it is not ready in all the time that was looked at"
        case State.UNKNOWN:
            return "whether it is ready then is not known"
    return _SAID[late.state]


def days_taken(months: Iterable[Days]) -> Iterator[str]:
    """*June 2026 12 of 30*, for the months in which a place is taken, and *July 2026 to May 2027 all days*."""
    for whole, group in groupby(months, key=lambda each: each.asked == each.taken == each.length):
        alike = list(group)
        if whole and len(alike) > 1:
            yield f"{said([each.month for each in alike])} all days"
            continue
        for each in alike:
            if each.asked:
                over = f" ({each.asked} are asked for)" if each.asked > each.taken else ""
                yield f"{each.month.name} {each.taken} of {each.length}{over}"


def free(place: Place) -> str:
    """*from 2026-06-01 to 2026-07-08, from 2026-08-01 on*"""
    return ", ".join(stretch.words for stretch in place.free) or "not in these months"


def twice(place: Place) -> str:
    """The days on which two or more are likely in it; nothing where there are none."""
    return ", ".join(stretch.words for stretch in place.clashes)


class RoomLine(NamedTuple):
    """Months one after the other in which the same is asked of a site, and what that is, in the order of its rooms."""

    months: str
    cells: tuple[Asked, ...]


def room_lines(rooms: Sequence[Room]) -> Iterator[RoomLine]:
    """Month by month what is asked of one site; those in which nothing is are left out."""
    lines = zip(*(room.months for room in rooms), strict=True)
    for _, group in groupby(lines, key=lambda line: [(cell.words, cell.over) for cell in line]):
        alike = list(group)
        if any(cell.most for cell in alike[0]):
            yield RoomLine(said([line[0].month for line in alike]), alike[0])


def late_ones(entries: Sequence[Entry]) -> Iterator[str]:
    """*Overdue: 1 pile Oak; 4 charge Two.* for each state in which a stack is late."""
    for state in (State.OVERDUE, State.LATE, State.PERHAPS_LATE):
        found = [f"{each.number} {each.presence.stand.words}" for each in entries if each.lateness.state is state]
        if found:
            more = f" and {len(found) - _MOST_NAMED} more" if len(found) > _MOST_NAMED else ""
            yield f"{state.value.capitalize()}: {'; '.join(found[:_MOST_NAMED])}{more}."


def counted(entries: Iterable[Entry]) -> str:
    """*1 overdue, 2 late, 3 in time*"""
    states = [entry.lateness.state for entry in entries]
    return ", ".join(f"{states.count(state)} {_SAID[state]}" for state in State if state in states)


_SAID: Mapping[State, str] = MappingProxyType({state: state.value for state in State} | {
    State.UNKNOWN: "not known",
    State.NO_DAY: "with no day wanted",
})  # fmt: skip


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"
