"""A yard's calendar as JSON, described by a JSON Schema that is generated from the models here."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from pydantic import Field

from stacklint import __version__
from stacklint.calendar.gathered import Entry, YardCalendar
from stacklint.calendar.lateness import State
from stacklint.calendar.places import Days, Place, Stretch
from stacklint.calendar.rooms import Asked, Room
from stacklint.calendar.waiting import For, Wait
from stacklint.engineering.yard_facts import Booking
from stacklint.files import Trouble
from stacklint.plan.stack import StackKind
from stacklint.report.json_output import Unread, written
from stacklint.report.stack_figures import Model, finite
from stacklint.rulebook import StackWaiver
from stacklint.yard.months import Month
from stacklint.yard.stay import SpotKind


def _month(month: Month) -> str:
    return f"{month.year:04}-{month.number:02}"


_MONTH = "year and month, as 2026-04"


class WaitOutput(Model):
    what: For = Field(description="what is waited for")
    words: str
    until: datetime.date | None = Field(description="null where no day is known")

    @classmethod
    def of(cls, wait: Wait) -> WaitOutput:
        return cls(what=wait.what, words=wait.words, until=wait.until)


class ClashOutput(Model):
    """Another stack is in its place when it comes."""

    other: str = Field(description="the stack that is there, and where it is written")
    since: datetime.date | None
    until: datetime.date | None = Field(description="when the first of the two is likely gone; null where unknown")

    @classmethod
    def of(cls, clash: Booking) -> ClashOutput:
        return cls(other=clash.first or "", since=clash.since, until=clash.until)


class WaiverOutput(Model):
    rule: str
    until: datetime.date | None = Field(description="the last day on which it is waived; null for no last day")

    @classmethod
    def of(cls, waiver: StackWaiver) -> WaiverOutput:
        said = waiver.waiver
        return cls(rule=said.rule.text, until=said.until.date if said.until else None)


class StackCalendarOutput(Model):
    """One stack. ``number`` is that of the pictures, and of the lists of ``places``."""

    number: int
    path: str
    line: int
    kind: StackKind
    name: str
    title: str | None
    site: str | None = Field(description="null where none is described")
    spot: str | None
    kiln: str | None
    place: str = Field(description="in the words of its plan")
    start: datetime.date | None = Field(description="the day on which it is stacked or starts; null where not said")
    end: datetime.date | None = Field(description="the day on which it is likely gone; null where none is known")
    taken: bool = Field(description="charges take its boards on that day")
    forecast: bool = Field(description="how it dries is forecast")
    ready_fast: datetime.date | None
    ready_likely: datetime.date | None
    ready_slow: datetime.date | None
    ready_words: str = Field(description="what is said where there is no day: not in 3 years")
    wanted: float | None = Field(description="moisture content, a share of the oven-dry mass")
    wanted_by: datetime.date | None
    state: State = Field(description="whether it is ready by the day it is wanted, judged on the day given")
    late_days: int | None = Field(description="from the day wanted to the likely day; null where it is not later")
    late_days_at_most: int | None = Field(description="to the slow end of the range likewise")
    passed_days: int | None = Field(description="since the day wanted; null where it is not past")
    waits: tuple[WaitOutput, ...] = Field(description="what it waits for, the first first")
    governs: tuple[str, ...] = Field(description="what sets the time, in sentences")
    clash: ClashOutput | None
    waivers: tuple[WaiverOutput, ...]

    @classmethod
    def of(cls, entry: Entry) -> StackCalendarOutput:
        stack, each, late = entry.stack, entry.presence, entry.lateness
        stay, site = stack.stay, each.stand.site
        named = each.stand.placed_at is not None
        return cls(
            number=entry.number,
            path=entry.plan.path,
            line=stack.line,
            kind=each.stand.kind,
            name=stack.name,
            title=stack.title,
            site=site.name if site is not None else None,
            spot=stack.spot or None,
            kiln=stack.place if each.charge and named else None,
            place=stack.place,
            start=each.start,
            end=each.end,
            taken=each.taken,
            forecast=stay is not None and stay.foretold,
            ready_fast=stay.fast if stay is not None else None,
            ready_likely=stay.likely if stay is not None else None,
            ready_slow=stay.slow if stay is not None else None,
            ready_words=stack.ready.said,
            wanted=finite(each.stand.wanted),
            wanted_by=stack.due,
            state=late.state,
            late_days=late.days,
            late_days_at_most=late.at_most,
            passed_days=late.passed,
            waits=tuple(map(WaitOutput.of, entry.waits)),
            governs=stack.ready.governs,
            clash=ClashOutput.of(entry.clash) if entry.clash is not None else None,
            waivers=tuple(map(WaiverOutput.of, entry.waivers)),
        )


class StretchOutput(Model):
    start: datetime.date
    end: datetime.date | None = Field(description="the day after the last; null where it goes on")

    @classmethod
    def of(cls, stretch: Stretch) -> StretchOutput:
        return cls(start=stretch.start, end=stretch.end)


class DaysOutput(Model):
    month: str = Field(description=_MONTH)
    taken: int = Field(description="days on which a stack is likely there")
    asked: int = Field(description="days that all its stacks ask for together")
    of: int = Field(description="days of the month")

    @classmethod
    def of_days(cls, days: Days) -> DaysOutput:
        return cls(month=_month(days.month), taken=days.taken, asked=days.asked, of=days.length)


class PlaceOutput(Model):
    """A spot or a kiln; or where stacks stand whose spot or kiln is not said, of which no days are told."""

    kind: SpotKind
    name: str
    within: str = Field(description="the site of a spot")
    stacks: tuple[int, ...] = Field(description="the numbers of those that stand there, the first to come first")
    months: tuple[DaysOutput, ...]
    free: tuple[StretchOutput, ...] = Field(description="within the months, from today on")
    clashes: tuple[StretchOutput, ...] = Field(description="days on which two or more are likely there")

    @classmethod
    def of(cls, place: Place, calendar: YardCalendar) -> PlaceOutput:
        return cls(
            kind=place.spot.kind,
            name=place.spot.name,
            within=place.spot.within,
            stacks=tuple(calendar.entries[index].number for index in place.stacks),
            months=tuple(map(DaysOutput.of_days, place.months)),
            free=tuple(map(StretchOutput.of, place.free)),
            clashes=tuple(map(StretchOutput.of, place.clashes)),
        )


class AskedOutput(Model):
    month: str = Field(description=_MONTH)
    words: str = Field(description="the most that is asked for at once: 14 stacks")
    over: bool = Field(description="more than there is")

    @classmethod
    def of(cls, asked: Asked) -> AskedOutput:
        return cls(month=_month(asked.month), words=asked.words, over=asked.over)


class RoomOutput(Model):
    """Something that a site has so much of."""

    site: str
    there_is: str = Field(description="12 spots")
    months: tuple[AskedOutput, ...]

    @classmethod
    def of(cls, room: Room) -> RoomOutput:
        return cls(site=room.site, there_is=room.there_is, months=tuple(map(AskedOutput.of, room.months)))


class CalendarOutput(Model):
    """What ``stacklint calendar --as json`` prints."""

    stacklint: str = Field(description="the version that wrote this")
    today: datetime.date = Field(description="the day by which it is judged")
    months: tuple[str, ...] = Field(description=f"those that are looked at, {_MONTH}")
    stacks: tuple[StackCalendarOutput, ...] = Field(description="by the day on which they are likely ready")
    places: tuple[PlaceOutput, ...]
    rooms: tuple[RoomOutput, ...]
    unread: tuple[Unread, ...]


def calendar_json(calendar: YardCalendar, troubles: Iterable[Trouble]) -> str:
    """The whole calendar, and what could not be read."""
    return written(
        CalendarOutput(
            stacklint=__version__,
            today=calendar.today,
            months=tuple(map(_month, calendar.frame.months)),
            stacks=tuple(map(StackCalendarOutput.of, calendar.entries)),
            places=tuple(PlaceOutput.of(place, calendar) for place in calendar.places),
            rooms=tuple(map(RoomOutput.of, calendar.rooms)),
            unread=tuple(Unread.of(trouble) for trouble in troubles),
        )
    )
