"""A yard's calendar as events that calendar programs show: RFC 5545, written by the library icalendar.

Every event is of whole days (DATE values), so no time zone is needed; DTEND is the day after the last. What a plan says
is written out as on a screen: no control and no character that reorders text comes through.
"""

from __future__ import annotations

import datetime
import uuid
from collections import Counter
from collections.abc import Callable, Iterator
from enum import Enum
from typing import TYPE_CHECKING, NamedTuple

from stacklint import __version__
from stacklint.calendar.frame import Frame
from stacklint.calendar.gathered import Entry, YardCalendar
from stacklint.report import calendar_words as words
from stacklint.report.coop_plan import NOTHING_WANTED
from stacklint.report.forecast_text import CAUTION
from stacklint.report.plain import plain

if TYPE_CHECKING:
    from icalendar import Event

_OURS = uuid.UUID("dfc19321-1f9b-4e70-bff6-526252fab208")
"""The name space of our events: a random UUID, drawn once (RFC 9562, 5.5, takes any)."""
_DAY = datetime.timedelta(days=1)


class Kind(Enum):
    """What an event tells of; ``CATEGORIES`` in the calendar."""

    STANDS = "stands"
    BOOKING = "kiln booking"
    READY = "ready"
    WANTED = "wanted"
    WAIVER = "waiver ends"
    NOTHING = "nothing"


class Told(NamedTuple):
    """One event, from ``start`` up to, not with, ``end``. ``of`` tells it from all others of its kind."""

    kind: Kind
    of: tuple[str, ...]
    start: datetime.date
    end: datetime.date
    summary: str
    description: str
    place: str = ""


def calendar_ics(calendar: YardCalendar, home: Callable[[str], str], *, within_frame: bool) -> bytes:
    """The calendar in UTF-8, with the line ends of RFC 5545.

    Args:
        home: the path of a plan in its project, the same in every checkout: what the identifiers are made of.
        within_frame: only events that touch the months of the calendar; else all.
    """
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", f"-//stacklint//stacklint {__version__}//EN")
    made.add("version", "2.0")
    made.add("name", "Lumber stacks")
    stamp = datetime.datetime.combine(calendar.today, datetime.time(), datetime.UTC)
    told = [each for each in _told(calendar, home) if not within_frame or _touches(each, calendar.frame)]
    for each in told or [_nothing(calendar)]:
        made.add_component(_event(each, stamp))
    written: bytes = made.to_ical(sorted=False)
    return written


def _event(told: Told, stamp: datetime.datetime) -> Event:
    from icalendar import Event

    event = Event()
    event.add("uid", _identifier(told))
    event.add("dtstamp", stamp)
    event.add("dtstart", told.start)
    if told.end > told.start:
        event.add("dtend", told.end)
    event.add("summary", plain(told.summary))
    event.add("description", "\n".join(map(plain, told.description.split("\n"))))
    if told.place:
        event.add("location", plain(told.place))
    event.add("categories", [told.kind.value])
    # A kiln that is booked is busy; all else takes up nobody's time (RFC 5545, 3.8.2.7).
    event.add("transp", "OPAQUE" if told.kind is Kind.BOOKING else "TRANSPARENT")
    return event


def _identifier(told: Told) -> str:
    """A UUID, as RFC 7986, 5.3, asks of a UID, so that it names neither a machine nor a person.

    The name is made of bytes, for one that is no Unicode text has no other form.
    """
    name = "\0".join((told.kind.value, *told.of)).encode("utf-8", "backslashreplace")
    return str(uuid.uuid5(_OURS, name.hex()))


def _touches(told: Told, frame: Frame) -> bool:
    return told.start < frame.end and told.end > frame.first


def _told(calendar: YardCalendar, home: Callable[[str], str]) -> Iterator[Told]:
    """The events of each stack, in the order of the stacks. Of two of one kind and name each is told from the other."""
    seen: Counter[tuple[Kind, tuple[str, ...]]] = Counter()
    for entry in calendar.entries:
        of = home(entry.plan.path), entry.presence.stand.kind.value, entry.stack.name
        for told in (
            *_stays(entry, of, calendar.frame.end),
            *_ready(entry, of),
            *_wanted(entry, of),
            *_waivers(entry, of),
        ):
            count = seen[told.kind, told.of] = seen[told.kind, told.of] + 1
            yield told if count == 1 else told._replace(of=(*told.of, str(count)))


def _stays(entry: Entry, of: tuple[str, ...], shown_to: datetime.date) -> Iterator[Told]:
    """From when to when it stands. One of which no end is known goes to the end of the months that are looked at."""
    each = entry.presence
    if each.start is None or (each.end is not None and each.end <= each.start):
        return
    end = each.end or max(shown_to, _next(each.start))
    kind, what = (Kind.BOOKING, "runs in") if each.charge else (Kind.STANDS, "stands in")
    clash = f"In its place when it comes: {entry.clash.first}." if entry.clash is not None else ""
    where = words.place(entry)
    yield Told(
        kind=kind,
        of=of,
        start=each.start,
        end=end,
        summary=f"{entry.words} {what} {where}{', which is taken' if clash else ''}",
        description=_described(entry, clash),
        place=where,
    )


def _ready(entry: Entry, of: tuple[str, ...]) -> Iterator[Told]:
    likely = entry.stack.ready.likely
    if likely is not None:
        summary = f"{entry.words} likely ready"
        yield Told(Kind.READY, of, likely, _next(likely), summary, _described(entry), words.place(entry))


def _wanted(entry: Entry, of: tuple[str, ...]) -> Iterator[Told]:
    due = entry.stack.due
    if due is not None:
        late = f": {entry.lateness.state.value}" if entry.lateness.state in words.LATE else ""
        summary = f"{entry.words} is wanted by this day{late}"
        yield Told(Kind.WANTED, of, due, _next(due), summary, _described(entry), words.place(entry))


def _waivers(entry: Entry, of: tuple[str, ...]) -> Iterator[Told]:
    for waiver in (each.waiver for each in entry.waivers):
        if waiver.until is not None:
            last = waiver.until.date
            summary = f"{entry.words}: last day on which {waiver.rule.text} is waived"
            why = f"Waived because: {waiver.reason}" if waiver.reason else "Waived without a reason."
            yield Told(
                Kind.WAIVER, (*of, waiver.rule.text), last, _next(last), summary, f"{why}\n{words.where_written(entry)}"
            )


def _described(entry: Entry, *more: str) -> str:
    """What the screen tells of a stack, a line for each thing."""
    lines = [words.title(entry), f"Stands: {words.stands(entry)}."]
    if entry.stack.ready.said != NOTHING_WANTED:
        lines.append(f"Ready: {words.ready(entry)}.")
    lines.append(f"Wanted: {words.wanted(entry)}.")
    lines += [f"Waits: {wait.words}" for wait in entry.waits]
    return "\n".join([*lines, *(line for line in more if line), words.where_written(entry), CAUTION])


def _nothing(calendar: YardCalendar) -> Told:
    """A calendar holds one component at least (RFC 5545, 3.6)."""
    words = "No stack of these plans has a day"
    return Told(Kind.NOTHING, (), calendar.today, _next(calendar.today), words, f"{words} in the months asked for.")


def _next(day: datetime.date) -> datetime.date:
    return day + _DAY if day < datetime.date.max else day
