"""``stacklint sheet`` writes the page to print from."""

import pytest
from read_page import ReadPage

from stacklint.command.main import main

pytestmark = pytest.mark.usefixtures("yard")


def test_a_sheet_goes_to_standard_output(capsys):
    assert main(["sheet", "sound.stackplan", "--today", "2026-06-01"]) == 0
    page = ReadPage(capsys.readouterr().out)
    assert page.headings[0] == (1, "Pile Dry")
    assert "checked 2026-06-01" in page.text


def test_a_sheet_is_written_to_a_file(yard, capsys):
    assert main(["sheet", "hanging.stackplan", "--out", "b2.html"]) == 0
    assert capsys.readouterr() == ("", "")
    page = ReadPage((yard / "b2.html").read_text(encoding="utf-8"))
    assert page.headings[0] == (1, "Pile B2")
    assert "end-sticker-missing" in page.text


def test_a_sheet_never_overwrites_a_plan(yard, capsys):
    assert main(["sheet", "sound.stackplan", "--out", "sound.stackplan"]) == 2
    assert "a report would overwrite it" in capsys.readouterr().err
    assert (yard / "sound.stackplan").read_text(encoding="utf-8").startswith('pile "Dry"')


def test_one_stack_can_be_asked_for_by_name(yard, capsys):
    both = (yard / "sound.stackplan").read_text() + (yard / "hanging.stackplan").read_text()
    (yard / "both.stackplan").write_text(both, encoding="utf-8")
    assert main(["sheet", "both.stackplan", "--stack", "b2"]) == 0
    page = ReadPage(capsys.readouterr().out)
    assert [text for level, text in page.headings if level == 1] == ["Pile B2"]
    assert main(["sheet", "both.stackplan"]) == 0
    page = ReadPage(capsys.readouterr().out)
    assert [text for level, text in page.headings if level == 1][1:] == ["Pile Dry", "Pile B2"]


def test_a_name_that_no_stack_bears_is_told_and_nothing_is_written(yard, capsys):
    assert main(["sheet", "sound.stackplan", "--stack", "Dray", "--out", "x.html"]) == 2
    assert "holds no pile and no charge Dray; did you mean Dry?" in capsys.readouterr().err
    assert not (yard / "x.html").exists()


def test_a_stack_with_faults_that_stand_in_the_way_is_told_and_fails(yard, capsys):
    (yard / "odd.stackplan").write_text('pile "X"\n  boards a: 3 of unobtainium 4/4 x 6 in x 8 ft\n', encoding="utf-8")
    assert main(["sheet", "odd.stackplan"]) == 1
    assert "could not be laid out" in ReadPage(capsys.readouterr().out).text


def test_a_missing_plan_is_told_and_what_stood_in_the_file_stays(yard, capsys):
    (yard / "old.html").write_text("yesterday's", encoding="utf-8")
    assert main(["sheet", "gone.stackplan", "--out", "old.html"]) == 2
    assert "there is no such file" in capsys.readouterr().err
    assert (yard / "old.html").read_text(encoding="utf-8") == "yesterday's"


def test_a_folder_of_plans_is_not_one_sheet(capsys):
    assert main(["sheet", "."]) == 2
    assert "holds several plans" in capsys.readouterr().err


def test_no_plan_at_all_is_told(capsys):
    assert main(["sheet"]) == 2
    assert "name a plan" in capsys.readouterr().err


def test_house_rules_count_as_in_a_check(yard, capsys):
    main(["sheet", "hanging.stackplan"])
    assert "end-sticker-missing" in ReadPage(capsys.readouterr().out).text
    (yard / "house.rules").write_text('skip end-sticker-missing because "we trim them"\n', encoding="utf-8")
    assert main(["sheet", "hanging.stackplan"]) == 0
    assert "end-sticker-missing" not in ReadPage(capsys.readouterr().out).text


def test_house_rules_with_a_fault_are_told_and_the_sheet_is_written_all_the_same(yard, capsys):
    (yard / "house.rules").write_text("skipp x\n", encoding="utf-8")
    assert main(["sheet", "hanging.stackplan"]) == 2
    printed = capsys.readouterr()
    assert "set aside" in printed.err
    assert ReadPage(printed.out).headings[0] == (1, "Pile B2")
