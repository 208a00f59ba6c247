"""What a plan, a tally, house rules or the name of a file says reaches a terminal as text alone."""

from __future__ import annotations

import contextlib
import io

import pytest
from hostile_yard import ESCAPES, JOINERS, MARKS, TODAY, UNSEEN, Yard, harmful, hostile_yard, told

from stacklint.command.main import MODULES, main

COMMANDS = {
    "a check on the screen": lambda yard, _: ["check", yard.plan, yard.faulty, "--as", "screen", *TODAY],
    "a check in lines": lambda yard, _: ["check", yard.plan, yard.faulty, "--as", "lines", *TODAY],
    "faults of house rules": lambda yard, _: ["check", yard.plan, "--as", "lines", "--house", yard.rules, *TODAY],
    "findings that are accepted": lambda yard, _: ["check", yard.plan, "--accept-today", "record", *TODAY],
    "examples of house rules": lambda yard, _: ["rules-test", yard.rules, "house.rules", *TODAY],
    "the reasons of a rule": lambda _, __: ["why", "house-says"],
    "a forecast": lambda yard, _: ["forecast", yard.plan, *TODAY],
    "a forecast of one stack": lambda yard, mark: ["forecast", yard.plan, "--stack", f"no{mark}", *TODAY],
    "a forecast in cells": lambda yard, _: ["forecast", yard.plan, "--as", "csv", *TODAY],
    "a calendar": lambda yard, _: ["calendar", yard.plan, yard.faulty, *TODAY],
    "a tally": lambda yard, _: ["tally", yard.plan],
    "courses": lambda yard, _: ["arrange", yard.plan],
    "mends": lambda yard, _: ["mend", yard.faulty, *TODAY],
    "what is not tidy": lambda yard, _: ["tidy", "--check", yard.plan, yard.faulty],
    "what was tidied": lambda yard, _: ["tidy", yard.plan],
    "rows of a tally": lambda yard, _: ["convert", yard.tally, "--out", "converted.stackplan"],
    "a plan that is not there": lambda _, mark: ["check", f"{mark}gone"],
    "a command that is none": lambda _, mark: [mark],
    "an option that is none": lambda _, mark: ["check", f"--{mark}"],
    "an option's value that cannot be": lambda yard, mark: ["check", yard.plan, "--today", mark],
    "a file that cannot be written": lambda yard, mark: ["check", yard.plan, "--out", f"{mark}/out", *TODAY],
    "answers to the first questions": lambda _, mark: ["begin", "--wood", mark, "--count", "60", *TODAY],
    "a name for a first plan": lambda _, mark: ["begin", "--wood", "white ash", "--count", "60", "--name", mark],
}


@pytest.fixture(params=[UNSEEN, JOINERS, ESCAPES], ids=["unseen", "joiners", "escapes"])
def mark(request):
    return request.param


@pytest.fixture
def yard(tmp_path, monkeypatch, mark) -> Yard:
    made = hostile_yard(tmp_path / "yard", mark)
    monkeypatch.chdir(made.folder)
    return made


def test_every_command_that_prints_what_others_say_is_tried(yard, mark):
    """A sheet is a page, an editor asks in a protocol, and completion prints what stands in the package."""
    assert {command(yard, mark)[0] for command in COMMANDS.values()} >= set(MODULES) - {"sheet", "editor", "completion"}


@pytest.mark.parametrize("command", COMMANDS.values(), ids=COMMANDS)
def test_nothing_that_anyone_named_steers_hides_or_turns_text_round(yard, mark, command):
    said = "".join(told(command(yard, mark)))
    assert said
    assert harmful(said) == set()


def test_a_finding_that_is_gone_from_a_record_is_told_as_text(yard, mark):
    words = ["check", yard.faulty, "--accept-today", "record", "--as", "lines", *TODAY]
    told(words)
    record = yard.folder / "record"
    assert harmful(record.read_text(encoding="utf-8").replace("\t", "")) == set()
    line = f"0\terror\trule{mark}\tgone{mark}\tstack{mark}\tmessage{mark}\n".replace("\r", "")
    record.write_bytes(record.read_bytes() + line.encode())
    assert harmful("".join(told(words))) == set()


def test_the_marks_are_told_written_out(yard, mark):
    said, _ = told(COMMANDS["a check in lines"](yard, mark))
    assert mark[0].encode("unicode_escape").decode() in said


@pytest.mark.parametrize("command", ["tidy", "mend"])
def test_a_difference_shown_on_a_terminal_is_written_out(tmp_path, monkeypatch, command):
    """Elsewhere it goes to a file or a program that puts it into the plan, and stays as it is."""
    monkeypatch.chdir(tmp_path)
    text = f'PILE "P"\n  # {UNSEEN}{ESCAPES}\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n'
    (tmp_path / "plan.stackplan").write_bytes(text.encode())
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    shown = Terminal()
    words = ["tidy", "--diff", "plan.stackplan"] if command == "tidy" else ["mend", "plan.stackplan", *TODAY]
    with contextlib.redirect_stdout(shown):
        main(words)
    assert "boards a" in shown.getvalue()
    assert harmful(shown.getvalue()) == set()


def test_markup_of_the_screen_is_text(tmp_path, monkeypatch):
    yard = hostile_yard(tmp_path / "yard", MARKS["markup"])
    monkeypatch.chdir(yard.folder)
    said = "".join(told(["check", yard.plan, "--as", "screen", *TODAY])[0].split())
    assert "[red]x[/red]:bomb:" in said
