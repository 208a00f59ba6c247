"""What a plan, house rules or the name of a file says reaches other programs as text: JSON, SARIF and cells."""

from __future__ import annotations

import contextlib
import csv
import io
import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from hostile_yard import FORMULA, MARKS, TODAY, Yard, harmful, hostile_yard, told

from stacklint.report.forecast_csv import harmless

FORMULA_STARTS = tuple("=+-@\t\r\n＝＋－＠")


@pytest.fixture(scope="module", params=MARKS.values(), ids=MARKS)
def mark(request):
    return request.param


@pytest.fixture(scope="module")
def yard(tmp_path_factory, mark) -> Iterator[Yard]:
    made = hostile_yard(tmp_path_factory.mktemp("yard"), mark)
    with contextlib.chdir(made.folder):
        yield made


def texts(value: Any) -> Iterator[str]:
    """Every text in a JSON value, its keys included."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, member in value.items():
            yield key
            yield from texts(member)
    elif isinstance(value, list):
        for member in value:
            yield from texts(member)


# JSON


@pytest.mark.parametrize(
    "command",
    [
        lambda yard: ["check", yard.plan, yard.faulty, "gone", "--as", "json", *TODAY],
        lambda yard: ["tally", yard.plan, "--as", "json"],
        lambda yard: ["forecast", yard.plan, "--as", "json", *TODAY],
        lambda yard: ["calendar", yard.plan, "--as", "json", *TODAY],
    ],
    ids=["check", "tally", "forecast", "calendar"],
)
def test_json_is_ascii_and_says_names_as_the_plan_does(yard, mark, command):
    said, _ = told(command(yard))
    assert said.isascii()
    assert harmful(said) == set()
    found = list(texts(json.loads(said)))
    assert yard.plan in found
    if mark not in (MARKS["unseen"], MARKS["escapes"]):
        assert f"{mark}P" in found


# SARIF 2.1.0


@pytest.fixture(scope="module")
def sarif(yard: Yard) -> dict[str, Any]:
    return json.loads(told(["check", yard.plan, yard.faulty, f"{yard.plan}gone", "--as", "sarif", *TODAY])[0])


def messages(value: Any) -> Iterator[str]:
    """The text of every message and of every descriptor's message."""
    if isinstance(value, dict):
        if isinstance(value.get("text"), str):
            yield value["text"]
        for member in value.values():
            yield from messages(member)
    elif isinstance(value, list):
        for member in value:
            yield from messages(member)


def test_no_message_of_sarif_holds_a_link_or_a_placeholder(sarif):
    """3.11.5: braces are doubled, or ``{0}`` would stand for an argument. 3.11.6: ``[text](address)`` is a link."""
    found = list(messages(sarif))
    assert found
    for text in found:
        assert not re.search(r"\]\(", text)
        assert not re.search(r"[{}]", text.replace("{{", "").replace("}}", ""))


def test_sarif_has_no_markdown(sarif):
    assert "markdown" not in set(texts(sarif))


def test_nothing_in_sarif_hides_or_turns_text_round(sarif):
    assert not any(harmful(text) for text in texts(sarif))


def test_every_address_in_sarif_is_that_of_a_file_of_the_project(sarif):
    """RFC 3986: relative, and nothing in it but what an address may hold."""
    (run,) = sarif["runs"]
    addresses = {
        place["physicalLocation"]["artifactLocation"]["uri"]
        for result in run["results"]
        for place in result["locations"]
    }
    assert addresses
    for address in addresses:
        assert re.fullmatch(r"(?:[A-Za-z0-9._~/-]|%[0-9A-F]{2})+", address)


# events (RFC 5545)


def test_a_calendar_holds_the_events_that_were_made_here_and_nothing_else(yard):
    """No alarm, no attendee, no address and no line but those of its own; lines of 75 octets at the most (3.1)."""
    told(["calendar", yard.plan, "--as", "ics", *TODAY, "--out", "yard.ics"])
    written = (yard.folder / "yard.ics").read_bytes()
    assert all(len(line) <= 75 for line in written.split(b"\r\n"))
    unfolded = written.replace(b"\r\n ", b"").decode()
    assert harmful(unfolded.replace("\r\n", "\n")) == set()
    names = {re.split("[:;]", line, maxsplit=1)[0] for line in unfolded.strip().split("\r\n")}
    assert names <= {
        *("BEGIN", "END", "VERSION", "PRODID", "NAME", "UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY"),
        *("DESCRIPTION", "LOCATION", "CATEGORIES", "TRANSP"),
    }
    begun = re.findall(r"^BEGIN:(.*)\r$", unfolded, re.MULTILINE)
    assert set(begun) == {"VCALENDAR", "VEVENT"}


# cells (RFC 4180)


def test_no_cell_begins_a_formula(yard):
    """CWE-1236. Behind a semicolon too, at which some spreadsheets part cells."""
    said, _ = told(["forecast", yard.plan, "--as", "csv", *TODAY])
    cells = [cell for row in csv.reader(io.StringIO(said)) for cell in row]
    assert cells
    for cell in cells:
        assert re.fullmatch(r"-\d+\.\d+", cell) or not _would_be_a_formula(cell)
        assert harmful(cell) == set()


def _would_be_a_formula(cell: str) -> bool:
    return any(part.lstrip().startswith(FORMULA_STARTS) for part in cell.split(";"))


@pytest.mark.parametrize(
    "name", [FORMULA, "  =1+1", "\u00a0=1+1", "\t=1", "\n=1", "\r@SUM(A1)", "@SUM(A1)", "-2+3", "＋1", "a;=1", "a; =1"]
)
def test_a_name_that_would_be_a_formula_has_an_apostrophe_before_it(name):
    assert not _would_be_a_formula(harmless(name))
    assert harmless(name).replace("'", "").split() == name.replace("'", "").split()


@pytest.mark.parametrize("name", ["B2", "row 3; north", "O'Brien's", "5/4 ash", "a=b", "3 - 4"])
def test_other_names_stay_as_they_are(name):
    assert harmless(name) == name


def test_a_plan_made_of_a_tally_says_its_cells_in_comments_and_names_alone(yard):
    said, _ = told(["convert", yard.tally])
    statements = [line for line in said.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    assert [line.split()[0] for line in statements] == ["pile", "boards"]
    assert all(line.count('"') % 2 == 0 for line in statements)
