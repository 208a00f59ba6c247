"""The calendar as JSON keeps to its schema and says what the screen says."""

from __future__ import annotations

import datetime
import json
from importlib.resources import files
from typing import Any

import jsonschema
from made_calendars import TODAY, charge, pile, ready, seen

from stacklint.calendar.gathered import YardCalendar
from stacklint.drying.forecast import NoForecast
from stacklint.files import Trouble
from stacklint.report.calendar_data import calendar_json
from stacklint.where import Where

SCHEMA = json.loads(files("stacklint.report").joinpath("calendar.schema.json").read_text(encoding="utf-8"))


def said(calendar: YardCalendar, *troubles: Trouble) -> Any:
    """The output, of which the schema is kept, days being days."""
    read = json.loads(calendar_json(calendar, troubles))
    checker = jsonschema.FormatChecker()
    jsonschema.Draft202012Validator(SCHEMA, format_checker=checker).validate(read)
    return read


def test_a_yard_is_told_by_stacks_and_places() -> None:
    text = pile(want="12% by 2026-05-15") + charge("One", "2026-07-01", of="Ash") + charge("Two", "2026-07-06")
    text += '  waive sag-between-stickers because "old boards" until 2026-08-01\n'
    found = said(
        seen(
            text,
            ready("2026-04-01", "2026-07-21", "2026-06-20", None),
            ready("2026-07-01", "2026-07-12", wanted=0.08),
            ready("2026-07-06", "2026-07-20", wanted=0.08),
            months=2,
        )
    )
    assert (found["today"], found["months"]) == ("2026-06-01", ["2026-06", "2026-07"])
    one, two, ash = found["stacks"]
    assert (one["name"], one["kiln"], one["spot"], one["state"]) == ("One", "Box", None, "no day wanted")
    assert [(wait["what"], wait["until"]) for wait in one["waits"]] == [
        ("its day", "2026-07-01"),
        ("a pile", "2026-07-21"),
        ("the kiln's run", "2026-07-12"),
    ]
    assert two["clash"] == {"other": "charge One (line 7)", "since": "2026-07-06", "until": "2026-07-12"}
    assert two["waivers"] == [{"rule": "sag-between-stickers", "until": "2026-08-01"}]
    assert (ash["number"], ash["site"], ash["spot"], ash["end"], ash["taken"]) == (
        3, "Alder Flat", "row 1", "2026-07-01", True,
    )  # fmt: skip
    assert (ash["state"], ash["late_days"], ash["late_days_at_most"], ash["passed_days"]) == ("overdue", 67, None, 17)
    row, box = found["places"]
    assert (row["kind"], row["name"], row["within"], row["stacks"]) == ("spot", "row 1", "Alder Flat", [3])
    assert box["months"][1] == {"month": "2026-07", "taken": 19, "asked": 25, "of": 31}
    assert box["clashes"] == [{"start": "2026-07-06", "end": "2026-07-12"}]
    assert box["free"][-1] == {"start": "2026-07-20", "end": None}


def test_the_room_of_a_site_is_told_month_by_month() -> None:
    site = 'site "Alder Flat"\n  near "Columbus, OH"\n  spots 1\n'
    (room,) = said(seen(pile(), ready("2026-04-01", "2026-06-10"), yard=site, months=2))["rooms"]
    assert room == {
        "site": "Alder Flat",
        "there_is": "1 spot",
        "months": [
            {"month": "2026-06", "words": "1 stack", "over": False},
            {"month": "2026-07", "words": "0 stacks", "over": False},
        ],
    }


def test_what_is_not_known_is_null() -> None:
    (stack,) = said(seen(pile(stacked=None), NoForecast("It is not known.", "Say it.")))["stacks"]
    assert (stack["start"], stack["end"], stack["ready_likely"], stack["wanted"]) == (None, None, None, None)
    assert (stack["forecast"], stack["state"]) == (False, "no day wanted")


def test_what_could_not_be_read_is_told_with_its_place() -> None:
    found = said(seen(""), Trouble("a.stackplan", "is not text"), Trouble("house.rules", "No.", Where("", 3, 1, 3, 2)))
    assert [(each["path"], each["line"]) for each in found["unread"]] == [("a.stackplan", None), ("house.rules", 3)]


def test_days_are_written_as_iso_8601_has_them() -> None:
    (stack,) = said(seen(pile(), ready("2026-04-01", "2026-09-01")))["stacks"]
    assert datetime.date.fromisoformat(stack["ready_likely"]) == datetime.date(2026, 9, 1)
    assert stack["waits"][0]["until"] == "2026-09-01"
    assert said(seen(""))["today"] == TODAY.isoformat()
