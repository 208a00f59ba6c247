"""A yard's calendar for a person at a screen: what stands where, how full it is, and what each stack waits for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from stacklint.calendar.gathered import Entry, YardCalendar
from stacklint.calendar.places import Place
from stacklint.calendar.rooms import Room
from stacklint.report import calendar_words as words
from stacklint.report.calendar_drawing import Drawing
from stacklint.report.columns import beside, folded, side_by_side, table
from stacklint.report.coop_calendar import heading_of
from stacklint.report.forecast_text import CAUTION, NARROWEST, WIDEST
from stacklint.report.stay_glyphs import StayGlyphs
from stacklint.show import rounded
from stacklint.yard.stay import SpotKind


class Look(NamedTuple):
    """What the text is fitted to: columns and characters."""

    width: int
    glyphs: StayGlyphs

    @property
    def columns(self) -> int:
        return max(NARROWEST, min(self.width, WIDEST))


def calendar_text(calendar: YardCalendar, look: Look) -> Iterator[str]:
    """The lines, without line ends."""
    width = look.columns
    yield from folded(head(calendar), width)
    if not calendar.entries:
        return
    for late in words.late_ones(calendar.entries):
        yield from folded(late, width)
    yield ""
    yield from _picture(calendar, look)
    yield from _kilns(calendar.places, width)
    yield from _spots(calendar.places, width)
    for site, rooms in groupby(calendar.rooms, key=lambda room: room.site):
        yield from _site(site, tuple(rooms), width)
    yield from folded("Stacks by the day on which they are likely ready", width)
    yield ""
    for entry in calendar.entries:
        yield from _stack(entry, len(str(len(calendar.entries))), width)
        yield ""
    yield from folded(CAUTION, width)


def head(calendar: YardCalendar) -> str:
    """How many stacks there are, and how many of them are late."""
    if not calendar.entries:
        return "There is no pile and no charge here: there is nothing to show."
    stacks, plans = len(calendar.entries), calendar.plans
    counts = f"{rounded(stacks)} stack{'' if stacks == 1 else 's'} in {rounded(plans)} plan{'' if plans == 1 else 's'}"
    return f"{counts}, seen on {calendar.today.isoformat()}: {words.counted(calendar.entries)}."


def _picture(calendar: YardCalendar, look: Look) -> Iterator[str]:
    yield from folded(f"What stands where, {calendar.frame.words}", look.columns)
    yield ""
    drawing = Drawing(calendar, look.columns, look.glyphs)
    yield drawing.axis()
    for heading, places in groupby(calendar.places, key=lambda place: heading_of(place.spot)):
        yield from folded(heading, look.columns)
        for place in places:
            yield from drawing.place(place)
    yield ""
    yield from _inset(side_by_side(_legend(calendar, look.glyphs), look.columns - 2))
    if calendar.undated:
        names = ", ".join(f"{each.number} {each.presence.stand.words}" for each in calendar.undated)
        yield from _inset(folded(f"Not in the picture, for want of a day: {names}.", look.columns - 2))
    yield ""


def _legend(calendar: YardCalendar, glyphs: StayGlyphs) -> list[str]:
    signs = [
        f"{glyphs.sure} stands until it is ready at the earliest",
        f"{glyphs.range} up to the latest",
        f"{glyphs.likely} likely ready",
        f"{glyphs.on} goes on",
        f"{glyphs.today} today",
    ]
    if any(place.clashes for place in calendar.places):
        signs.append(f"{glyphs.clash} two or more at once, likely")
    return [*signs, "numbers: the stacks below"]


def _kilns(places: Iterable[Place], width: int) -> Iterator[str]:
    kilns = [place for place in places if place.spot.kind is SpotKind.KILN]
    rows = [
        (words.name_of(place), ", ".join(words.days_taken(place.months)) or "none", _free(place)) for place in kilns
    ]
    yield from _headed("Kilns", ("kiln", "days taken", "free"), rows, width)


def _spots(places: Iterable[Place], width: int) -> Iterator[str]:
    rows = [(words.name_of(place), _free(place)) for place in places if place.spot.kind is SpotKind.SPOT]
    yield from _headed("Spots", ("spot", "free"), rows, width)


def _free(place: Place) -> str:
    twice = words.twice(place)
    return f"{words.free(place)}; two or more {twice}" if twice else words.free(place)


def _site(site: str, rooms: Sequence[Room], width: int) -> Iterator[str]:
    rows = [
        (line.months, *(f"{asked.words}{', too much' if asked.over else ''}" for asked in line.cells))
        for line in words.room_lines(rooms)
    ]
    heads = ("at most at once", *(f"of {room.there_is}" for room in rooms))
    yield from _headed(f"Room at {site}", heads, rows, width)


def _headed(heading: str, heads: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> Iterator[str]:
    if not rows:
        return
    yield from folded(heading, width)
    yield ""
    yield from _inset(table([heads, *rows], width - 2))
    yield ""


def _stack(entry: Entry, digits: int, width: int) -> Iterator[str]:
    first = f"{entry.number:>{digits}}  "
    indent = " " * len(first)
    for line in folded(f"{words.title(entry)}  ({words.where_written(entry)})", width - len(first)):
        yield f"{first}{line}"
        first = indent
    for label, paragraphs in told(entry):
        yield from (f"{indent}{line}".rstrip() for line in beside(label, paragraphs, width - len(indent)))


def told(entry: Entry) -> Iterator[tuple[str, Sequence[str]]]:
    """What is told of a stack, each under its label."""
    yield "stands", [f"{words.place(entry)}: {words.stands(entry)}"]
    yield "ready", [words.ready(entry)]
    yield "wanted", [words.wanted(entry)]
    waits = [wait.words for wait in entry.waits]
    if waits:
        yield "waits", waits
    if entry.lateness.state in words.LATE and entry.stack.ready.governs:
        yield "governs", list(entry.stack.ready.governs)


def _inset(lines: Iterable[str]) -> Iterator[str]:
    return (f"  {line}".rstrip() for line in lines)
