"""``stacklint check`` from words to exit code."""

import datetime
import io
import json
import sys
from pathlib import Path

import pytest

from stacklint.command.main import main

pytestmark = pytest.mark.usefixtures("yard")

RULES = """\
change end-sticker-missing
  limit  spoiled = 40 in
"""


def lines_of(capsys):
    return capsys.readouterr().out.splitlines()


def test_a_sound_plan_passes_and_a_hanging_end_fails(capsys):
    assert main(["check", "sound.stackplan"]) == 0
    assert main(["check", "hanging.stackplan"]) == 1
    assert any(
        "hanging.stackplan:3:3: error: " in line and "[end-sticker-missing]" in line for line in lines_of(capsys)
    )


def test_a_folder_s_plans_are_all_checked_in_order(capsys):
    assert main(["check", "."]) == 1
    paths = [line.partition(":")[0] for line in lines_of(capsys)]
    assert sorted(set(paths)) == ["hanging.stackplan", "sound.stackplan"]
    assert paths == sorted(paths)


@pytest.mark.parametrize("level, code", [("error", 0), ("warning", 0), ("note", 1), ("never", 0)])
def test_the_level_to_fail_at_is_chosen(level, code):
    # The only finding of the sound plan is the note of what was assumed.
    assert main(["check", "sound.stackplan", "--fail-at", level]) == code


def test_never_failing_still_reports(capsys):
    assert main(["check", "hanging.stackplan", "--fail-at", "never"]) == 0
    assert "error: " in capsys.readouterr().out


def test_a_missing_file_is_told_and_the_others_are_checked(capsys):
    assert main(["check", "gone.stackplan", "hanging.stackplan"]) == 2
    shown = capsys.readouterr()
    assert shown.err == "stacklint: gone.stackplan: there is no such file or folder\n"
    assert "[end-sticker-missing]" in shown.out


def test_a_plan_comes_from_standard_input(yard, capsys, monkeypatch):
    text = (yard / "hanging.stackplan").read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text)))
    assert main(["check", "-"]) == 1
    assert any(line.startswith("-:3:3: error: ") for line in lines_of(capsys))


def test_an_empty_file_passes_with_a_word(yard, capsys):
    (yard / "empty.stackplan").write_text("# nothing yet\n", encoding="utf-8")
    assert main(["check", "empty.stackplan"]) == 0
    assert capsys.readouterr().err == "stacklint: empty.stackplan: holds no pile and no charge\n"


def test_a_file_of_shared_blocks_passes_without_a_word(yard, capsys):
    (yard / "yard.stackplan").write_text('site "Cold Hollow"\n  near "Columbus, OH"\n', encoding="utf-8")
    assert main(["check", "yard.stackplan"]) == 0
    assert capsys.readouterr().err == ""


def test_a_shared_text_outside_the_project_is_a_finding_of_the_plan(yard, capsys):
    (yard.parent / "secret.stackplan").write_text('site "Elsewhere"\n', encoding="utf-8")
    (yard / "using.stackplan").write_text('use "../secret.stackplan"\n', encoding="utf-8")
    assert main(["check", "using.stackplan"]) == 1
    (line,) = lines_of(capsys)
    assert line.startswith("using.stackplan:1:")
    assert "outside the project" in line


def test_house_rules_beside_the_plan_change_what_is_found(yard, capsys):
    (yard / "house.rules").write_text(RULES, encoding="utf-8")
    assert main(["check", "hanging.stackplan"]) == 0
    assert any("warning: " in line and "[end-sticker-missing]" in line for line in lines_of(capsys))


def test_house_rules_named_are_used_in_place_of_those_beside_the_plan(yard):
    (yard / "house.rules").write_text(RULES, encoding="utf-8")
    (yard / "other.rules").write_text("# none\n", encoding="utf-8")
    assert main(["check", "hanging.stackplan", "--house", "other.rules"]) == 1


def test_faulty_house_rules_are_told_with_their_place_and_set_aside(yard, capsys):
    (yard / "house.rules").write_text(RULES + 'skip no-such-rule because "it rains"\n', encoding="utf-8")
    assert main(["check", "hanging.stackplan", "sound.stackplan"]) == 2
    shown = capsys.readouterr()
    assert "error: " in shown.out
    told = shown.err.splitlines()
    assert told[0].startswith("house.rules:3:")
    assert "no-such-rule" in told[0]
    assert told[1] == "stacklint: house.rules: these house rules were set aside; the other rules judged without them"
    assert len(told) == 2


def test_missing_house_rules_are_told(capsys):
    assert main(["check", "sound.stackplan", "--house", "gone.rules"]) == 2
    assert capsys.readouterr().err == "stacklint: gone.rules: there is no such file or folder\n"


def test_house_rules_that_link_out_of_the_project_are_not_read(yard, capsys):
    (yard.parent / "far.rules").write_text(RULES, encoding="utf-8")
    (yard / "house.rules").symlink_to(yard.parent / "far.rules")
    assert main(["check", "hanging.stackplan"]) == 2
    shown = capsys.readouterr()
    assert "leads out of the project" in shown.err
    assert "error: " in shown.out


def test_the_day_to_judge_by_decides_whether_a_waiver_still_holds(yard, capsys):
    plan = yard / "hanging.stackplan"
    waiver = '  waive end-sticker-missing because "a sticker is on its way" until 2026-05-01\n'
    plan.write_text(plan.read_text(encoding="utf-8") + waiver, encoding="utf-8")
    assert main(["check", str(plan), "--today", "2026-05-01"]) == 0
    assert main(["check", str(plan), "--today", "2026-05-02"]) == 1
    assert datetime.date(2026, 5, 1).isoformat() in capsys.readouterr().out


@pytest.mark.parametrize("form", ["lines", "screen", "json", "sarif"])
def test_a_report_is_written_to_a_file_in_utf_8(yard, capsys, form):
    assert main(["check", ".", "--as", form, "--out", "report.txt"]) == 1
    assert capsys.readouterr().out == ""
    text = (yard / "report.txt").read_bytes().decode("utf-8")
    assert "end-sticker-missing" in text
    assert "\x1b" not in text
    assert ("█" in text) is (form == "screen")
    assert sorted(each.name for each in yard.iterdir() if each.is_file()) == [
        "hanging.stackplan",
        "report.txt",
        "sound.stackplan",
    ]


def test_a_report_is_never_written_over_a_plan(yard, capsys):
    before = (yard / "sound.stackplan").read_bytes()
    assert main(["check", ".", "--out", "sound.stackplan"]) == 2
    assert (yard / "sound.stackplan").read_bytes() == before
    assert "name another file for --out" in capsys.readouterr().err


def test_a_report_that_cannot_be_written_is_told(capsys):
    assert main(["check", ".", "--out", "no/such/folder.json"]) == 2
    assert "no/such/folder.json cannot be written: no such file or directory" in capsys.readouterr().err


def test_the_json_of_several_plans_is_one_document(capsys):
    assert main(["check", ".", "gone.stackplan", "--as", "json"]) == 2
    document = json.loads(capsys.readouterr().out)
    assert [plan["path"] for plan in document["plans"]] == ["hanging.stackplan", "sound.stackplan"]
    assert [each["path"] for each in document["unread"]] == ["gone.stackplan"]
    assert document["plans"][0]["stacks"][0]["facts"]["pieces"] == 60


def test_the_sarif_of_several_plans_is_one_run(capsys):
    main(["check", ".", "--as", "sarif"])
    (run,) = json.loads(capsys.readouterr().out)["runs"]
    assert {result["ruleId"] for result in run["results"]} >= {"end-sticker-missing", "assumed"}


def test_the_screen_draws_the_pile_and_answers_it(capsys):
    assert main(["check", "sound.stackplan", "--as", "screen"]) == 0
    shown = capsys.readouterr().out
    assert "Pile Dry, Oak for shelves" in shown
    assert "█████" in shown
    assert "80 bf, 20 boards" in shown


@pytest.mark.parametrize(
    "content", [b"", b"\xff\xfe\x00", b"pile", b'pile "\n' * 40, bytes(range(1, 256)), b"\x00" * 50]
)
@pytest.mark.parametrize("form", ["lines", "screen", "json", "sarif"])
def test_no_file_makes_it_stumble(yard, capsys, content, form):
    (yard / "odd.stackplan").write_bytes(content)
    assert main(["check", "odd.stackplan", "--as", form]) in (0, 1, 2)
    assert "Traceback" not in capsys.readouterr().err


def test_a_fault_of_a_file_that_many_plans_use_is_told_once(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("mill.stackplan").write_text('site "Mill"\n  near "Columbus, OHH"\n', encoding="utf-8")
    for name in ("a", "b", "c"):
        text = f'use "mill.stackplan"\npile "{name}"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n'
        Path(f"{name}.stackplan").write_text(text, encoding="utf-8")
    main(["check", "a.stackplan", "b.stackplan", "c.stackplan", "--as", "lines"])
    assert capsys.readouterr().out.count('mill.stackplan:2:8: error: "Columbus, OHH"') == 1
    main(["check", ".", "--as", "json"])
    found = [one for plan in json.loads(capsys.readouterr().out)["plans"] for one in plan["findings"]]
    assert [one["path"] for one in found if one["rule"] == "unknown-place"] == ["mill.stackplan"]
