"""The calendar as events: RFC 5545 kept to (its sections are cited from memory), and read by another library."""

from __future__ import annotations

import datetime
import re
import unicodedata
from typing import Any

import pytest
import vobject
from hypothesis import given
from hypothesis import strategies as st
from made_calendars import DATE, charge, pile, ready, seen
from made_forecasts import checked, plan

from stacklint.calendar.gathered import YardCalendar, gathered
from stacklint.drying.forecast import NoForecast
from stacklint.plan.node import Name
from stacklint.plan.stack import Day, Stack, StackKind, Waiver, Want
from stacklint.report.calendar_events import calendar_ics
from stacklint.report.kept import kept
from stacklint.where import Where

PROPERTY = re.compile(r"([A-Z-]+)((?:;[A-Z-]+=[^:;,\"]+)*):(.*)", re.DOTALL)


def written(calendar: YardCalendar, *, within_frame: bool = False) -> bytes:
    return calendar_ics(calendar, lambda path: path, within_frame=within_frame)


def content_lines(content: bytes) -> list[str]:
    """The content lines, folds undone (RFC 5545, 3.1)."""
    return content.replace(b"\r\n ", b"").decode("utf-8").split("\r\n")


def events(content: bytes) -> list[list[tuple[str, str, str]]]:
    """The properties of each event: name, parameters and value as they are written."""
    found: list[list[tuple[str, str, str]]] = []
    for line in content_lines(content):
        if line == "BEGIN:VEVENT":
            found.append([])
        elif found and line and not line.startswith(("END:", "BEGIN:")):
            match = PROPERTY.fullmatch(line)
            assert match, line
            found[-1].append((match[1], match[2], match[3]))
    return found


def read(calendar: YardCalendar, *, within_frame: bool = False) -> dict[tuple[str, str], Any]:
    """The events as another library reads them, by their category and the stack that they begin with."""
    parsed = vobject.readOne(written(calendar, within_frame=within_frame).decode("utf-8"))
    found = {}
    for event in parsed.vevent_list:
        (category,) = event.categories.value
        found[category, " ".join(event.summary.value.split(":")[0].split()[:2])] = event
    assert len(found) == len(parsed.vevent_list)
    return found


def yard() -> YardCalendar:
    text = pile(want="12% by 2026-09-15") + '  waive no-cover because "a roof; new, dry" until 2026-08-01\n'
    text += charge(of="Ash")
    made = ready("2026-04-01", "2026-10-21", "2026-06-20", None), ready("2026-07-01", "2026-07-12", wanted=0.08)
    return seen(text, *made)


# What the events say


def test_a_pile_stands_in_its_spot_until_the_day_before_a_charge_takes_its_boards() -> None:
    event = read(yard())["stands", "Pile Ash"]
    assert event.summary.value == "Pile Ash stands in spot row 1, Alder Flat"
    assert event.location.value == "spot row 1, Alder Flat"
    # DTEND is not part of the event (RFC 5545, 3.6.1 and 3.8.2.2): the pile is gone on that day.
    assert (event.dtstart.value, event.dtend.value) == (DATE(2026, 4, 1), DATE(2026, 7, 1))
    assert event.transp.value == "TRANSPARENT"


def test_a_kiln_is_booked_from_the_start_of_its_charge_until_it_is_likely_ready() -> None:
    event = read(yard())["kiln booking", "Charge One"]
    assert event.summary.value == "Charge One runs in kiln Box"
    assert (event.dtstart.value, event.dtend.value) == (DATE(2026, 7, 1), DATE(2026, 7, 12))
    assert event.transp.value == "OPAQUE"


def test_the_likely_day_is_an_event_of_one_day_with_the_range_in_its_description() -> None:
    event = read(yard())["ready", "Pile Ash"]
    assert (event.dtstart.value, event.dtend.value) == (DATE(2026, 10, 21), DATE(2026, 10, 22))
    assert "Ready: 2026-10-21 (2026-06-20 at the earliest).\n" in event.description.value


def test_the_day_by_which_it_is_wanted_says_how_late_it_is_and_what_it_waits_for() -> None:
    event = read(yard())["wanted", "Pile Ash"]
    assert event.summary.value == "Pile Ash is wanted by this day: late"
    assert event.dtstart.value == DATE(2026, 9, 15)
    assert "Wanted: by 2026-09-15: late by 36 days.\n" in event.description.value
    assert "Waits: Charge One (line 8) takes its boards on 2026-07-01.\n" in event.description.value


def test_the_last_day_of_a_waiver_is_an_event() -> None:
    event = read(yard())["waiver ends", "Pile Ash"]
    assert event.summary.value == "Pile Ash: last day on which no-cover is waived"
    assert event.dtstart.value == DATE(2026, 8, 1)
    assert event.description.value.startswith("Waived because: a roof; new, dry\n")


def test_a_place_that_is_taken_is_told() -> None:
    text = charge("One", "2026-06-20") + charge("Two", "2026-07-01")
    found = read(seen(text, ready("2026-06-20", "2026-07-07"), ready("2026-07-01", "2026-07-20")))
    assert found["kiln booking", "Charge Two"].summary.value == "Charge Two runs in kiln Box, which is taken"
    assert "In its place when it comes: charge One (line 1)." in found["kiln booking", "Charge Two"].description.value
    assert found["kiln booking", "Charge One"].summary.value == "Charge One runs in kiln Box"


def test_a_stack_of_which_no_end_is_known_stands_to_the_end_of_the_months() -> None:
    found = read(seen(pile(), NoForecast("It is not known.", "Say it.")))
    assert set(found) == {("stands", "Pile Ash")}
    assert found["stands", "Pile Ash"].dtend.value == DATE(2027, 6, 1)


def test_a_stack_whose_day_is_not_said_stands_nowhere_but_is_ready_on_a_day() -> None:
    found = read(seen(pile(stacked=None), ready("2026-06-01", "2026-09-01")))
    assert set(found) == {("ready", "Pile Ash")}


def test_of_the_months_asked_for_only_events_that_touch_them_are_written() -> None:
    made = ready("2026-04-01", "2026-10-21")
    asked = seen(pile(want="12% by 2026-09-15"), made, first=DATE(2026, 9, 1), months=1)
    assert set(read(asked, within_frame=True)) == {("stands", "Pile Ash"), ("wanted", "Pile Ash")}
    assert ("ready", "Pile Ash") in read(asked)


# Identifiers and determinism


def test_identifiers_stay_when_days_words_and_lines_change() -> None:
    """RFC 5545, 3.8.4.7: a UID stays with its event, so that a program changes the event it has."""

    def identifiers(text: str, likely: str) -> set[str]:
        return {value for event in events(written(seen(text, ready("2026-04-01", likely))))
                for name, _, value in event if name == "UID"}  # fmt: skip

    before = identifiers(pile(want="12% by 2026-09-15"), "2026-10-01")
    assert len(before) == 3
    assert identifiers("\n# A word\n" + pile(want="12% by 2026-09-16", spot="row 9"), "2026-11-05") == before
    assert identifiers(pile(name="Oak", want="12% by 2026-09-15"), "2026-10-01").isdisjoint(before)


def test_identifiers_are_made_of_the_path_in_the_project_and_name_no_machine() -> None:
    found = yard()
    one = calendar_ics(found, lambda path: f"hill/{path}", within_frame=False)
    other = calendar_ics(found, lambda path: f"river/{path}", within_frame=False)
    of_one, of_other = (
        [value for event in events(content) for name, _, value in event if name == "UID"] for content in (one, other)
    )
    assert set(of_one).isdisjoint(of_other)
    assert all(re.fullmatch(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", each) for each in of_one)


def test_the_same_yard_on_the_same_day_gives_the_same_bytes() -> None:
    assert written(yard()) == written(yard())


def test_the_stamp_is_the_day_by_which_it_is_judged_in_utc() -> None:
    """RFC 5545, 3.8.7.2: DTSTAMP is in UTC."""
    for event in events(written(yard())):
        assert [(parameters, value) for name, parameters, value in event if name == "DTSTAMP"] == [
            ("", "20260601T000000Z")
        ]


# RFC 5545


def keeps_to_the_standard(content: bytes) -> None:
    # 3.1: lines end with CR LF, and have 75 octets at most, the line break apart; folds part no character.
    assert content.endswith(b"\r\n")
    assert b"\r" not in content.replace(b"\r\n", b"")
    assert b"\n" not in content.replace(b"\r\n", b"")
    for line in content.split(b"\r\n"):
        assert len(line) <= 75
        line.decode("utf-8")
    lines = content_lines(content)
    # 3.4: one object; 3.6: PRODID (3.7.3) and VERSION (3.7.4) once, and one component at least.
    assert (lines[0], lines[-2:]) == ("BEGIN:VCALENDAR", ["END:VCALENDAR", ""])
    assert sum(line.startswith("PRODID:-//stacklint//") for line in lines) == 1
    assert lines.count("VERSION:2.0") == 1
    found = events(content)
    assert found
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == len(found)
    for event in found:
        names = [name for name, *_ in event]
        # 3.6.1: UID, DTSTAMP and DTSTART once; SUMMARY, DESCRIPTION, LOCATION, TRANSP and DTEND once at the most.
        assert len(names) == len(set(names))
        assert {"UID", "DTSTAMP", "DTSTART", "SUMMARY"} <= set(names)
        values = {name: (parameters, value) for name, parameters, value in event}
        # 3.3.4 and 3.8.2.4: days as DATE values; 3.8.2.2: DTEND of the same kind, and later than DTSTART.
        assert values["DTSTART"][0] == ";VALUE=DATE"
        start = datetime.datetime.strptime(values["DTSTART"][1], "%Y%m%d").date()
        if "DTEND" in values:
            assert values["DTEND"][0] == ";VALUE=DATE"
            assert datetime.datetime.strptime(values["DTEND"][1], "%Y%m%d").date() > start
        # 3.3.11: in a text, commas and semicolons stand behind a backslash, and no control stands at all.
        for name in ("SUMMARY", "DESCRIPTION", "LOCATION"):
            if name in values:
                bare = re.sub(r"\\[\\;,nN]", "", values[name][1])
                assert not set(bare) & set("\\;,")
                assert not [each for each in bare if unicodedata.category(each) in ("Cc", "Cf", "Cs", "Co", "Cn")]
    # 3.8.4.7: no two events have one UID.
    identifiers = [value for event in found for name, _, value in event if name == "UID"]
    assert len(identifiers) == len(set(identifiers))


def test_a_yard_keeps_to_the_standard() -> None:
    keeps_to_the_standard(written(yard()))


def test_where_nothing_has_a_day_there_is_one_event_that_says_so() -> None:
    """RFC 5545, 3.6: an object has one component at least."""
    content = written(seen(""))
    keeps_to_the_standard(content)
    (event,) = vobject.readOne(content.decode()).vevent_list
    assert event.summary.value == "No stack of these plans has a day"


def test_two_stacks_of_one_name_in_one_plan_have_identifiers_of_their_own() -> None:
    made = ready("2026-04-01", "2026-09-01")
    stacks = [checked(made, "B2", where=Where("b2.stackplan", line, 1, line, 9)) for line in (1, 9)]
    keeps_to_the_standard(written(gathered([kept(plan(*stacks))], DATE(2026, 6, 1))))


DAYS = st.dates(DATE(1, 1, 1), DATE.max)
NAMES = st.text(st.characters(), min_size=1, max_size=60) | st.sampled_from(
    ["a,b;c\\d", "line\r\nBEGIN:VEVENT\r\nUID:x", "\u202etxt.exe", "é" * 90, "\x1b[31m", "\ud800", "\\n", '"'],
)


@st.composite
def stacks(draw: st.DrawFn) -> Stack:
    day = draw(DAYS)
    waiver = Waiver(rule=Name(text=draw(NAMES)), reason=draw(NAMES), until=Day(date=draw(DAYS)))
    kind = draw(st.sampled_from(StackKind))
    line = draw(st.integers(1, 50))
    return Stack(
        kind=kind,
        name=Name(text=draw(NAMES)),
        title=draw(st.none() | NAMES),
        where=Where("b2.stackplan", line, 1, line, 9),
        stacked=Day(date=day),
        spot=Name(text=draw(NAMES), where=Where("b2.stackplan", line + 1, 1, line + 1, 9)),
        kiln=Name(text=draw(NAMES), where=Where("b2.stackplan", line + 1, 1, line + 1, 9)),
        want=Want(by=Day(date=draw(DAYS))),
        waivers=(waiver,),
    )


@given(found=st.lists(stacks(), max_size=4), path=NAMES, today=DAYS, data=st.data())
def test_whatever_plans_say_the_calendar_keeps_to_the_standard_and_another_library_reads_it(
    found: list[Stack], path: str, today: DATE, data: st.DataObject
) -> None:
    made = []
    for stack in found:
        assert stack.stacked is not None
        start = stack.stacked.date.isoformat()
        likely = data.draw(st.dates(stack.stacked.date, DATE.max)).isoformat()
        made.append(checked(ready(start, likely))._replace(stack=stack))
    calendar = gathered([kept(plan(*made, path=path))], today)
    content = written(calendar)
    keeps_to_the_standard(content)
    read_back = vobject.readOne(content.decode("utf-8"))
    assert len(read_back.vevent_list) == len(events(content))


@pytest.mark.parametrize("name", ["a,b;c\\d", "two\nlines", "\u202egpj"])
def test_a_name_comes_back_as_it_is_told_on_a_screen(name: str) -> None:
    from stacklint.report.plain import plain

    made = checked(ready("2026-04-01", "2026-09-01"), name, stacked=Day(date=DATE(2026, 4, 1)))
    (event, *_) = vobject.readOne(written(gathered([kept(plan(made))], DATE(2026, 6, 1))).decode()).vevent_list
    assert event.summary.value.startswith(f"Pile {plain(name)} stands in")
