"""``stacklint convert`` makes a plan of a tally."""

import io

import pytest

from stacklint.checking import check
from stacklint.command.main import main

pytestmark = pytest.mark.usefixtures("yard")

TALLY = "species,size,qty,grade\nwhite ash,4/4x6x8',60,FAS\nwhite ash,4/4x6x8',40,1C\n"


@pytest.fixture
def tally(yard):
    path = yard / "north lot.csv"
    path.write_bytes(("\ufeff" + TALLY.replace("\n", "\r\n")).encode())  # as spreadsheets write it
    return path


def test_a_tally_comes_out_as_a_pile_named_for_its_file(tally, capsys):
    assert main(["convert", tally.name]) == 0
    shown = capsys.readouterr()
    assert shown.out.startswith('pile "north lot"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft\n')
    assert shown.err == "stacklint: north lot.csv: the column grade was left out: a plan of a stack asks for no grade\n"


def test_a_row_that_cannot_be_read_is_told_with_file_and_line_and_fails(yard, capsys):
    (yard / "odd.csv").write_text(TALLY + "white ash,two by fours,9,\n", encoding="utf-8")
    assert main(["convert", "odd.csv", "--name", "B2", "--together"]) == 1
    shown = capsys.readouterr()
    assert 'pile "B2"\n  boards a: 100 of white ash' in shown.out
    assert "odd.csv:4:1: error: expected a size such as 4/4 x 6 in x 8 ft, found 'two by fours'" in shown.err


def test_the_plan_is_written_to_a_new_file_that_a_check_takes(tally, yard):
    assert main(["convert", tally.name, "--out", "b2.stackplan"]) == 0
    findings = check((yard / "b2.stackplan").read_text(encoding="utf-8")).findings
    assert "plan-text" not in {finding.rule for finding in findings}


def test_a_plan_that_is_there_is_never_overwritten(tally, yard, capsys):
    before = (yard / "sound.stackplan").read_bytes()
    assert main(["convert", tally.name, "--out", "sound.stackplan"]) == 2
    assert (yard / "sound.stackplan").read_bytes() == before
    assert "sound.stackplan is there already" in capsys.readouterr().err


def test_a_tally_may_come_on_standard_input_and_be_of_one_wood(monkeypatch, capsys):
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"size,qty\n2x8-16,30\n")))
    assert main(["convert", "-", "--wood", "white oak"]) == 0
    assert 'pile "boards"\n  boards a: 30 of white oak 2 in x 8 in x 16 ft\n' in capsys.readouterr().out


@pytest.mark.parametrize(
    "content, told",
    [
        (b"a,b\n1,2\n", "has no line of headings"),
        ("species,size,qty\nwhite ash,4/4x6x8',½\n".encode("utf-16"), "is written in UTF-16"),
        (b"species\xff,size,qty\n", "is not UTF-8 text"),
    ],
)
def test_a_file_that_is_no_tally_is_told(yard, capsys, content, told):
    (yard / "odd.csv").write_bytes(content)
    assert main(["convert", "odd.csv"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert told in shown.err
