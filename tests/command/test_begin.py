"""``stacklint begin``: a first plan by options, or question by question on a terminal."""

from __future__ import annotations

import os
import pty
import re
import select
import subprocess
import sys
import time
from pathlib import Path

import pytest

from stacklint.checking import check
from stacklint.command.main import main
from stacklint.findings import Level
from stacklint.language import read

pytestmark = pytest.mark.usefixtures("yard")
ASH = ("begin", "--wood", "white ash", "--count", "60", "--today", "2026-06-01")


def test_options_make_a_plan_on_standard_output_alone(capsys):
    assert main(ASH) == 0
    shown = capsys.readouterr()
    assert read(shown.out).faults == ()
    assert "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green" in shown.out
    assert shown.err == "stacklint: a check finds nothing to mend in the plan\n"


def test_a_plan_with_an_error_left_is_written_and_told(yard, capsys):
    assert main([*ASH, "--place", "attic", "--out", "b.stackplan"]) == 1
    assert "place attic" in (yard / "b.stackplan").read_text(encoding="utf-8")
    assert "[place-too-hot]" in capsys.readouterr().err


def test_a_file_that_is_there_is_not_overwritten_without_being_told(yard, capsys):
    before = (yard / "sound.stackplan").read_bytes()
    assert main([*ASH, "--out", "sound.stackplan"]) == 2
    assert "--overwrite replaces it" in capsys.readouterr().err
    assert (yard / "sound.stackplan").read_bytes() == before
    assert main([*ASH, "--out", "sound.stackplan", "--overwrite"]) == 0
    assert "60 of white ash" in (yard / "sound.stackplan").read_text(encoding="utf-8")


def test_house_rules_of_the_folder_count(yard, capsys):
    (yard / "house.rules").write_text("change sticker-spacing-too-wide\n  limit hardwood = 12 in\n", encoding="utf-8")
    assert main(ASH) == 0
    assert "every 12 in" in capsys.readouterr().out


def test_the_first_plan_in_the_readme_is_what_is_written(capsys):
    readme = (Path(__file__).parent.parent.parent / "README.md").read_text(encoding="utf-8")
    words = ["--wood", "sweetgum", "--thickness", "8/4", "--count", "60", "--near", "Columbus, OH"]
    assert main(["begin", *words, "--stacked", "2026-03-20", "--today", "2026-06-01"]) == 0
    plan = capsys.readouterr().out.split("\n\n", 1)[1]
    assert "\n".join(f"    {line}" if line else "" for line in plan.rstrip().splitlines()) in readme


@pytest.mark.parametrize(
    "words, told",
    [
        (["--count", "60"], "give --wood, or answer the questions on a terminal"),
        ([], "give --wood and --count or --volume"),
        (["--wood", "oak", "--count", "60"], "--wood: oak is not a wood that the table knows"),
        (["--wood", "white ash", "--count", "60", "--volume", "400 bf"], "--count and --volume say the same"),
        (["--wood", "white ash", "--count", "60", "--stacked", "4/2/2026"], "2026-04-02"),
    ],
)
def test_options_that_make_no_plan_are_told_in_a_line(capsys, monkeypatch, words, told):
    monkeypatch.setattr("sys.stdin", open(os.devnull, encoding="utf-8"))  # noqa: SIM115, PTH123
    assert main(["begin", *words]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert told in shown.err


class Terminal:
    """A terminal of 80 columns with ``stacklint begin`` on it. Its standard output goes to a file."""

    def __init__(self, folder: Path, *words: str) -> None:
        self._own, other = pty.openpty()
        self.plan = folder / "plan.out"
        environment = os.environ | {"TERM": "xterm", "COLUMNS": "80", "NO_COLOR": "1"}
        with self.plan.open("wb") as out:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "stacklint", "begin", "--today", "2026-06-01", *words],
                stdin=other,
                stdout=out,
                stderr=other,
                cwd=folder,
                env=environment,
                start_new_session=True,
            )
        os.close(other)
        self._read = ""

    def until(self, words: str) -> str:
        """What is shown up to ``words``; fails if they do not come."""
        deadline = time.monotonic() + 30
        while words not in self._read:
            if not select.select([self._own], [], [], max(0.0, deadline - time.monotonic()))[0]:
                pytest.fail(f"{words!r} was not shown, but {self._read!r}")
            try:
                self._read += _words(os.read(self._own, 4096))
            except OSError:
                pytest.fail(f"{words!r} was not shown, but {self._read!r}")
        shown, _, self._read = self._read.partition(words)
        return shown

    def answer(self, question: str, answer: str) -> str:
        shown = self.until(question)
        self.until("? ")
        os.write(self._own, f"{answer}\n".encode())
        return shown

    def press(self, key: bytes) -> None:
        os.write(self._own, key)

    def end(self) -> int:
        code = self._process.wait(timeout=30)
        os.close(self._own)
        return code


def _words(raw: bytes) -> str:
    text = re.sub(r"\x1b\[[0-9;?]*[a-zA-Z]", "", raw.decode())
    return text.replace("\r\n", "\n")


def test_a_plan_is_asked_for_question_by_question(yard):
    terminal = Terminal(yard)
    terminal.answer("Which wood", "oak")
    told = terminal.answer("Which wood", "white oak")
    assert "white oak, northern red oak or southern red oak" in " ".join(told.split())
    terminal.answer("How thick are the boards [4/4]", "8/4")
    terminal.answer("How wide [6 in]", "")
    terminal.answer("How long [8 ft]", "10 ft")
    terminal.answer("How many boards", "")
    terminal.answer("How many boards", "400 bf")
    terminal.answer("How wet are they", "")
    terminal.answer("Where will the pile stand", "")
    terminal.answer("Near which town, for its weather [left out]", "Columbus, OH")
    terminal.answer("How large is the stack, length x width [to suit the boards]", "")
    terminal.answer("On which day is it stacked", "2026-03-01")
    terminal.answer("Which moisture content is wanted", "")
    terminal.answer("By which day", "")
    terminal.answer("For which use", "flooring")
    terminal.answer("What is the pile called [First pile]", "B 2")
    terminal.answer("Write it to which file [show it here]", "sound.stackplan")
    terminal.answer("sound.stackplan is there already. Overwrite it [no]", "")
    terminal.answer("Write it to which file", "oak.stackplan")
    terminal.until("a check finds nothing to mend in oak.stackplan")
    assert terminal.end() == 0
    assert terminal.plan.read_bytes() == b""
    text = (yard / "oak.stackplan").read_text(encoding="utf-8")
    assert "boards a: 400 bf of white oak 8/4 x 6 in x 10 ft, green" in text
    assert "stack 10 ft x 4 ft" in text
    assert 'pile "B 2"' in text
    assert [each for each in check(text).findings if each.level is not Level.NOTE] == []
    assert (yard / "sound.stackplan").read_text(encoding="utf-8").startswith("pile")


def test_usual_sizes_are_offered_in_the_units_of_the_answers(yard):
    terminal = Terminal(yard, "--wood", "European oak", "--thickness", "54 mm")
    terminal.answer("How wide [150 mm]", "")
    terminal.answer("How long [2.4 m]", "")
    terminal.answer("How many boards", "30")
    for question in ("How wet", "Where will", "Near which", "How large", "On which", "Which moist", "By which"):
        terminal.answer(question, "")
    terminal.answer("For which use", "")
    terminal.answer("What is the pile called", "")
    terminal.answer("Write it to which file", "")
    terminal.until("a check finds nothing to mend in the plan")
    assert terminal.end() == 0
    assert "boards a: 30 of European oak 54 mm x 150 mm x 2.4 m, green" in terminal.plan.read_text(encoding="utf-8")


def test_answers_that_end_too_early_write_nothing(yard):
    terminal = Terminal(yard, "--out", "new.stackplan")
    terminal.answer("Which wood", "white ash")
    terminal.until("How thick")
    terminal.press(b"\x04")
    terminal.until("the answers ended too early; nothing was written")
    assert terminal.end() == 2
    assert not (yard / "new.stackplan").exists()


def test_an_interrupt_ends_the_questions(yard):
    terminal = Terminal(yard, "--out", "new.stackplan")
    terminal.until("Which wood")
    terminal._process.send_signal(2)
    assert terminal.end() == 130
    assert not (yard / "new.stackplan").exists()
