"""``stacklint arrange`` from words to courses, changed plans and proposed charges."""

from __future__ import annotations

from pathlib import Path

import pytest

from stacklint.command.main import main

pytestmark = pytest.mark.usefixtures("yard")

PLAN = """\
kiln "North box"
  inside 17 ft x 5 ft x 6 ft
  holds 300 bf
  plenum 18 in

pile "B2"
  boards a: 96 of white ash 4/4 x 6 in x 8 ft, 20%
  boards b: 16 of white ash 4/4 x 6 in x 12 ft, 20%   # the long ones
  stack 16 ft x 4 ft
  course 1 to 6: 8 rows of a + a
  course 7: 4 rows of b
  stickers 3/4 in x 1 1/4 in, every 24 in
"""


@pytest.fixture
def plan(yard):
    path = yard / "b2.stackplan"
    path.write_text(PLAN, encoding="utf-8")
    return path


def said(capsys):
    return " ".join(capsys.readouterr().out.split())


def test_courses_are_shown_with_what_is_left_over_and_what_would_fill_it(plan, capsys):
    assert main(["arrange", "b2.stackplan"]) == 0
    text = said(capsys)
    assert "course 1 to 6: 8 rows of a + a" in text
    assert "course 7 to 8: 8 rows of b" in text
    assert "Without a partner to fill 16 ft: 16 of b (12 ft)." in text
    assert "To fill the short rows, add 16 boards of 4 ft" in text
    assert plan.read_text(encoding="utf-8") == PLAN


def test_another_size_is_tried_without_a_change_of_the_plan(plan, capsys):
    assert main(["arrange", "b2.stackplan", "--size", "12 ft x 4 ft"]) == 0
    text = said(capsys)
    assert "12 ft x 48 in" in text
    assert "To fill the short rows, add 96 boards of 4 ft" in text
    assert plan.read_text(encoding="utf-8") == PLAN


@pytest.mark.usefixtures("plan")
def test_a_kiln_is_tried_and_told_what_it_keeps_out(capsys):
    """A course of 14 boards of 4 bf is 56 bf: five of them go into 300 bf."""
    assert main(["arrange", "b2.stackplan", "--kiln", "north box"]) == 0
    text = said(capsys)
    assert "16 ft x 42 in: 5 of 10 courses go in." in text
    assert "280 bf of wood of 300 bf" in text
    assert "Left out, for want of rated volume: 16 of b (12 ft) and 26 of a (8 ft)." in text
    assert "course 1 to 5: 7 rows of a + a" in text
    assert "course 6" not in text


def test_boards_too_long_for_the_kiln_are_told(plan, capsys):
    plan.write_text(PLAN.replace("12 ft", "20 ft"), encoding="utf-8")
    assert main(["arrange", "b2.stackplan", "--kiln", "North box"]) == 0
    assert "Boards b are up to 20 ft long; the kiln has 17 ft inside." in said(capsys)


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_courses_are_written_into_the_plan_and_nothing_else_is_touched(plan, capsys, ending):
    plan.write_bytes(("\ufeff" + PLAN.replace("\n", ending)).encode())
    assert main(["arrange", "b2.stackplan", "--write"]) == 0
    after = PLAN.replace("course 7: 4 rows of b", "course 7 to 8: 8 rows of b").replace("\n", ending)
    assert plan.read_bytes() == ("\ufeff" + after).encode()
    shown = capsys.readouterr().out
    assert "\n-  course 7: 4 rows of b\n+  course 7 to 8: 8 rows of b\n" in shown
    assert main(["arrange", "b2.stackplan", "--write"]) == 0
    assert capsys.readouterr().out == ""
    assert plan.read_bytes() == ("\ufeff" + after).encode()


def test_one_stack_of_several_is_written(plan):
    plan.write_text(PLAN + PLAN.split("\n\n", 1)[1].replace("B2", "B3"), encoding="utf-8")
    assert main(["arrange", "b2.stackplan", "--stack", "b3", "--write"]) == 0
    second = plan.read_text(encoding="utf-8").split('pile "B3"')
    assert "course 7: 4 rows of b" in second[0]
    assert "course 7 to 8: 8 rows of b" in second[1]


def test_a_stack_with_faults_is_told_and_not_changed(plan, capsys):
    text = PLAN.replace("96 of white ash", "96 of white ahs x").replace("course 7: 4 rows of b\n", "course 7: 4 rews\n")
    plan.write_text(text, encoding="utf-8")
    assert main(["arrange", "b2.stackplan", "--write"]) == 1
    assert "stand in the way" in capsys.readouterr().err
    assert plan.read_text(encoding="utf-8") == text


def test_labels_that_no_course_can_name_are_told_and_nothing_is_written(plan, capsys):
    """Two piles both have boards a; in the charge those of the second go by its name, which has a blank in it."""
    other = PLAN.split("\n\n", 1)[1].replace("B2", "B 3")
    text = PLAN + other + 'charge "C" in kiln "North box"\n  from pile "B2"\n  from pile "B 3"\n'
    plan.write_text(text, encoding="utf-8")
    assert main(["arrange", "b2.stackplan", "--stack", "C", "--write"]) == 2
    assert plan.read_text(encoding="utf-8") == text
    assert "nothing is written" in capsys.readouterr().err


def test_from_standard_input_the_changed_plan_goes_to_standard_output(capsys, monkeypatch):
    import io

    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(PLAN.encode())))
    assert main(["arrange", "-", "--write"]) == 0
    assert capsys.readouterr().out == PLAN.replace("course 7: 4 rows of b", "course 7 to 8: 8 rows of b")


def test_the_courses_in_the_readme_are_what_is_said(monkeypatch, capsys):
    root = Path(__file__).parent.parent.parent
    monkeypatch.chdir(root)
    assert main(["arrange", "examples/families/unpaired-lengths-wrong.stackplan"]) == 0
    shown = "\n".join(f"    {line}" if line else "" for line in capsys.readouterr().out.rstrip().splitlines())
    assert shown in (root / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "words, told",
    [
        ([], "name a plan, a folder or - for standard input"),
        (["b2.stackplan", "--size", "16 ft x 4 ft", "--kiln", "North box"], "give one of them"),
        (["b2.stackplan", "--size", "16 ft x 4 ft", "--write"], "change the plan's stack line first"),
        (["b2.stackplan", "--kiln", "North box", "--write"], "--kiln only tries another"),
        (["b2.stackplan", "--charges", "--write"], "not with --charges"),
        (["b2.stackplan", "--on", "2026-09-01"], "--on goes with --charges"),
        (["b2.stackplan", "--size", "16 fathoms"], "--size: "),
        (["b2.stackplan", "--kiln", "South box"], "describes no kiln South box; did you mean North box?"),
        (["b2.stackplan", "--stack", "B7"], "holds no pile and no charge B7"),
        (["gone.stackplan"], "there is no such file"),
    ],
)
def test_what_cannot_be_done_is_told(plan, capsys, words, told):
    assert main(["arrange", *words]) == 2
    shown = capsys.readouterr()
    assert told in shown.err
    assert shown.out == ""
    assert plan.read_text(encoding="utf-8") == PLAN


@pytest.mark.usefixtures("plan")
def test_charges_are_proposed_from_the_piles_of_a_folder(yard, capsys):
    (yard / "b3.stackplan").write_text(
        'pile "B3"\n  boards a: 40 of white ash 4/4 x 6 in x 8 ft, 60%\n  stack 8 ft x 4 ft\n', encoding="utf-8"
    )
    assert main(["arrange", ".", "--charges", "--on", "2026-09-01", "--today", "2026-06-01"]) == 0
    text = said(capsys)
    assert 'charge "2026-09-01 North box" in kiln "North box"' in text
    assert "of pile B3 (b3.stackplan)" in text
    assert "[mixed-moisture]" in text


def test_without_kilns_there_is_no_charge_to_propose(capsys):
    assert main(["arrange", "sound.stackplan", "--charges"]) == 1
    assert "no kiln says what it holds" in capsys.readouterr().err
