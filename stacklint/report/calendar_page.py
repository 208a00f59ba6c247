"""A yard's calendar as one page for a browser and for paper: the picture of the months, and a table of the stacks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from stacklint.calendar.gathered import YardCalendar
from stacklint.calendar.places import Place
from stacklint.calendar.rooms import Room
from stacklint.files import Trouble
from stacklint.report import calendar_words as words
from stacklint.report.calendar_text import head
from stacklint.report.coop_calendar import Calendar, pictured
from stacklint.report.coop_months import Scale
from stacklint.report.coop_standing import EVER, standings
from stacklint.report.forecast_text import CAUTION
from stacklint.report.page import rendered
from stacklint.yard.stay import SpotKind


class SiteShown(NamedTuple):
    name: str
    heads: tuple[str, ...]
    lines: tuple[words.RoomLine, ...]


def calendar_html(calendar: YardCalendar, troubles: Iterable[Trouble]) -> str:
    """One page; nothing is fetched, and no script runs."""
    return rendered(
        "calendar.html.jinja",
        head=head(calendar),
        lines=calendar.entries,
        calendar=_picture(calendar),
        kilns=_of(calendar.places, SpotKind.KILN),
        spots=_of(calendar.places, SpotKind.SPOT),
        sites=tuple(_sites(calendar.rooms)),
        words=words,
        caution=CAUTION,
        troubles=tuple(troubles),
        frame=calendar.frame.words,
        today=calendar.today.isoformat(),
    )


def _picture(calendar: YardCalendar) -> Calendar | None:
    standing = list(standings([(entry.anchor, entry.stack, entry.presence) for entry in calendar.entries]))
    if not standing:
        return None
    scale = Scale(calendar.frame.first, calendar.frame.end)
    days = [day for each in standing for day in each.perhaps if day < EVER]
    cut = min(days) < scale.first.toordinal() or max(days) > scale.last.toordinal()
    undated = frozenset(entry.anchor for entry in calendar.undated)
    return pictured(standing, calendar.today, scale, cut=cut, undated=undated)


def _of(places: Iterable[Place], kind: SpotKind) -> tuple[Place, ...]:
    return tuple(place for place in places if place.spot.kind is kind)


def _sites(rooms: Iterable[Room]) -> Iterator[SiteShown]:
    for name, group in groupby(rooms, key=lambda room: room.site):
        there = tuple(group)
        lines = tuple(words.room_lines(there))
        if lines:
            yield SiteShown(name, tuple(room.there_is for room in there), lines)
