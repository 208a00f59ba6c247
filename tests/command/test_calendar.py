"""``stacklint calendar`` as it is called: its forms, its months, and what it ends with."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
import vobject
from hostile_yard import MARKS, harmful, hostile_yard, told
from read_page import ReadPage, rows

from stacklint.command.main import main

EXAMPLE = str(Path(__file__).parent.parent.parent / "examples" / "month-by-month")
TODAY = ("--today", "2026-06-01")


def test_on_a_screen_it_shows_what_stands_where(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["calendar", EXAMPLE, *TODAY]) == 0
    said = capsys.readouterr().out
    assert said.startswith("5 stacks in 3 plans, seen on 2026-06-01: 1 overdue")
    assert "What stands where, June 2026 to May 2027" in said
    assert "  east 2 " in said


def test_the_example_shows_each_thing_that_a_stack_can_wait_for(capsys):
    main(["calendar", EXAMPLE, *TODAY, "--as", "json"])
    stacks = {each["name"]: each for each in json.loads(capsys.readouterr().out)["stacks"]}
    assert {name: each["state"] for name, each in stacks.items()} == {
        "Oak": "overdue",
        "Stairs": "perhaps late",
        "Shelves": "in time",
        "Ash": "no day wanted",
        "Maple": "late",
    }
    assert {name: [wait["what"] for wait in each["waits"]] for name, each in stacks.items()} == {
        "Oak": ["the air"],
        "Stairs": ["its day", "a pile", "the kiln's run"],
        "Shelves": ["its day", "its place", "the kiln's run"],
        "Ash": ["a charge"],
        "Maple": ["its place", "a kiln"],
    }


def test_a_charge_waits_for_its_pile_though_only_the_plan_of_the_charge_is_named(capsys):
    main(["calendar", f"{EXAMPLE}/charges.stackplan", *TODAY, "--as", "json"])
    stacks = {each["name"]: each for each in json.loads(capsys.readouterr().out)["stacks"]}
    assert set(stacks) == {"Stairs", "Shelves"}
    assert [(wait["what"], wait["until"]) for wait in stacks["Stairs"]["waits"]][1] == ("a pile", "2026-07-21")


def test_months_can_be_chosen(capsys):
    assert main(["calendar", EXAMPLE, *TODAY, "--as", "json", "--from", "2026-11", "--months", "3"]) == 0
    assert json.loads(capsys.readouterr().out)["months"] == ["2026-11", "2026-12", "2027-01"]


def test_events_are_those_of_all_months_or_of_those_asked_for(capsys):
    def summaries(*words):
        main(["calendar", EXAMPLE, *TODAY, "--as", "ics", *words])
        return {each.summary.value for each in vobject.readOne(capsys.readouterr().out).vevent_list}

    everything = summaries()
    assert "Charge Shelves runs in kiln Shed box, which is taken" in everything
    assert "Pile Oak is wanted by this day: overdue" in everything
    july = summaries("--from", "2026-07", "--months", "1")
    assert "Pile Oak is wanted by this day: overdue" not in july
    assert "Charge Shelves likely ready" in july
    assert july < everything


def test_the_page_is_written_to_a_file(tmp_path, capsys):
    out = tmp_path / "calendar.html"
    assert main(["calendar", EXAMPLE, *TODAY, "--as", "html", "--out", str(out)]) == 0
    assert capsys.readouterr().out == ""
    page = ReadPage(out.read_text(encoding="utf-8"))
    assert len(rows(page, "When each stack is ready, and what it waits for")) == 5


@pytest.mark.parametrize("form", ["screen", "json", "html", "ics"])
def test_the_same_yard_gives_the_same_bytes_whatever_the_processes(tmp_path, form):
    found = []
    for number, processes in enumerate(("1", "1", "2")):
        out = tmp_path / str(number)
        words = ["--as", form, "--out", str(out), "--processes", processes, "--cache", "none"]
        assert main(["calendar", EXAMPLE, *TODAY, *words]) == 0
        found.append(out.read_bytes())
    assert found[0] == found[1] == found[2]


def test_events_in_a_file_keep_their_line_ends(tmp_path):
    out = tmp_path / "yard.ics"
    main(["calendar", EXAMPLE, *TODAY, "--as", "ics", "--out", str(out)])
    content = out.read_bytes()
    assert content.startswith(b"BEGIN:VCALENDAR\r\n")
    assert content.endswith(b"END:VCALENDAR\r\n")
    assert b"\r\r" not in content


def test_events_on_standard_output_are_utf_8_whatever_the_terminal_takes(tmp_path):
    plan = tmp_path / "a.stackplan"
    lines = ('pile "Érable"', "  stacked 2026-04-01", "  boards a: 8 of white ash 4/4 x 6 in x 8 ft", "")
    plan.write_text("\n".join(lines), encoding="utf-8")
    words = [sys.executable, "-m", "stacklint", "calendar", str(plan), *TODAY, "--as", "ics"]
    environ = {"PATH": "", "PYTHONIOENCODING": "ascii", "HOME": str(tmp_path)}
    done = subprocess.run(words, capture_output=True, env=environ, timeout=120)
    assert done.returncode == 0, done.stderr
    assert "SUMMARY:Pile Érable stands in".encode() in done.stdout


def test_what_cannot_be_read_is_told_and_the_rest_is_shown(capsys):
    assert main(["calendar", EXAMPLE, "gone.stackplan", *TODAY, "--as", "json"]) == 2
    told_of = capsys.readouterr()
    assert "gone.stackplan" in told_of.err
    found = json.loads(told_of.out)
    assert len(found["stacks"]) == 5
    assert [each["path"] for each in found["unread"]] == ["gone.stackplan"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([], "name a plan, a folder or - for standard input"),
        ([EXAMPLE, "--from", "June"], "'June' is no month; write year and month, as 2026-04"),
        ([EXAMPLE, "--months", "61"], "'61' is no number of months; write one from 1 to 60"),
        ([EXAMPLE, "--months", "0"], "'0' is no number of months; write one from 1 to 60"),
        ([EXAMPLE, "--as", "csv"], "'csv' is no form of report; choose screen, json, html or ics"),
    ],
)
def test_what_cannot_be_asked_for_is_said(words, said, capsys):
    assert main(["calendar", *words]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("form", ["screen", "json", "html", "ics"])
@pytest.mark.parametrize("mark", MARKS.values(), ids=MARKS)
def test_nothing_that_anyone_named_steers_hides_or_turns_text_round(tmp_path, monkeypatch, mark, form):
    yard = hostile_yard(tmp_path / "yard", mark)
    monkeypatch.chdir(yard.folder)
    said, errors = told(["calendar", yard.plan, yard.faulty, "--as", form, *TODAY])
    assert said
    assert harmful(errors) == set()
    if form == "json":
        assert said.isascii()
    else:
        assert harmful(said.replace("\r\n", "\n")) == set()


def test_a_check_does_not_load_what_writes_events():
    code = (
        "import contextlib, io, sys\n"
        "from stacklint.command.main import main\n"
        f"with contextlib.redirect_stdout(io.StringIO()): main(['check', {EXAMPLE!r}, '--processes', '1'])\n"
        "print(*sorted({'icalendar', 'stacklint.calendar', 'dateutil', 'jinja2'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120)
    assert done.stdout.strip() == ""
