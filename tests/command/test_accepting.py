"""``stacklint check --accept-today``: findings of today are recorded, and only new ones count from then on."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from git_projects import git, needs_git

from stacklint.command.main import main

TODAY = ("--today", "2026-06-01")
RECORD = "accepted.txt"
SITES = 'site "Bottom"\n  near "Columbus, OH"\n'


def pile(name: str, *, spot: str = "", stacked: str = "2026-03-01", from_ends: str = "24 in") -> str:
    """A pile whose ends hang over its last stickers."""
    return f"""\
use "sites.stackplan"

pile "{name}"
  place open yard
  {f'spot "{spot}"' if spot else "# anywhere"}
  stacked {stacked}
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, {from_ends} from ends, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 24 in, gap 4 in, slope 1 in 12, tied
"""


@pytest.fixture
def yard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two piles, each with an error of its own, and both in one spot."""
    folder = tmp_path / "yard"
    (folder / ".git").mkdir(parents=True)
    put(folder, "sites", SITES)
    put(folder, "one", pile("One", spot="row 1"))
    put(folder, "two", pile("Two", spot="row 1", stacked="2026-03-08"))
    monkeypatch.chdir(folder)
    return folder


def put(folder: Path, name: str, text: str) -> None:
    (folder / f"{name}.stackplan").write_text(text, encoding="utf-8")


class Run:
    """One check with a record: its exit code and what it says."""

    def __init__(self, capsys: pytest.CaptureFixture[str], *words: str, record: str = RECORD) -> None:
        capsys.readouterr()
        self.code = main(["check", *(words or (".",)), "--accept-today", record, *TODAY])
        shown = capsys.readouterr()
        self.out, self.errors = shown.out, shown.err

    @property
    def rules(self) -> list[tuple[str, str]]:
        """The plans and the rules of the lines that are told."""
        lines = self.out.splitlines()
        return [(line.partition(":")[0], line.rpartition("[")[2].removesuffix("]")) for line in lines]


@pytest.fixture
def check(capsys: pytest.CaptureFixture[str]):
    return lambda *words, **named: Run(capsys, *words, **named)


def lines(record: str = RECORD) -> list[list[str]]:
    """The columns of a record, line by line."""
    text = Path(record).read_text(encoding="utf-8")
    return [line.split("\t") for line in text.splitlines() if not line.startswith("#")]


def line_of(rule: str, path: str) -> int:
    text = Path(RECORD).read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(text, 1) if f"\t{rule}\t{path}\t" in line)


@pytest.mark.usefixtures("yard")
def test_the_findings_of_today_are_recorded_and_the_next_check_passes(check) -> None:
    made = check()
    assert (
        made.errors
        == f"{len(lines())} findings are recorded in accepted.txt: from now on only new ones count.\n"
    )
    again = check()
    assert (again.code, again.out, again.errors) == (0, "", "")
    assert main(["check", ".", *TODAY]) == 1


@pytest.mark.usefixtures("yard")
def test_the_run_that_records_tells_all_and_accepts_it(check) -> None:
    made = check()
    assert made.code == 0
    assert ("one.stackplan", "end-sticker-missing") in made.rules
    assert len(made.rules) == len(lines())


@pytest.mark.usefixtures("yard")
def test_a_record_is_a_line_for_each_finding_that_a_person_can_read(check) -> None:
    check()
    text = Path(RECORD).read_text(encoding="utf-8")
    assert text.startswith(
        "# Findings accepted with stacklint check --accept-today. Take a line out, and its finding counts again.\n"
    )
    columns = next(each for each in lines() if each[2] == "end-sticker-missing")
    assert len(columns[0]) == 32
    assert columns[1:5] == ["error", "end-sticker-missing", "one.stackplan", "One"]
    assert columns[5].startswith("The end of white ash 4/4 x 6 in x 8 ft hangs")
    clash = next(each for each in lines() if each[2] == "spot-double-booked")
    assert clash[3] == "two.stackplan"
    assert clash[6:] == ["one.stackplan"]


def test_a_new_finding_counts_and_is_told_alone(yard, check) -> None:
    check()
    put(yard, "three", pile("Three"))
    new = check()
    assert new.code == 1
    assert {path for path, _ in new.rules} == {"three.stackplan"}


def test_an_accepted_finding_that_becomes_graver_counts_again(yard, check) -> None:
    put(yard, "one", pile("One", from_ends="6 in"))
    check()
    assert next(each for each in lines() if each[2:4] == ["end-sticker-missing", "one.stackplan"])[1] == "warning"
    put(yard, "one", pile("One", from_ends="24 in"))
    graver = check()
    assert graver.code == 1
    assert graver.rules == [("one.stackplan", "end-sticker-missing")]
    assert graver.errors == ""


def test_an_accepted_finding_that_becomes_less_grave_stays_accepted(yard, check) -> None:
    check()
    put(yard, "one", pile("One", spot="row 1", from_ends="6 in"))
    milder = check(".", "--fail-at", "note")
    assert (milder.code, milder.out, milder.errors) == (0, "", "")


def test_a_finding_that_is_gone_is_told_with_the_line_to_take_out(yard, check) -> None:
    check()
    line = line_of("end-sticker-missing", "one.stackplan")
    put(yard, "one", pile("One", spot="row 1", from_ends="1 in"))
    mended = check()
    assert mended.code == 0
    assert (
        f"accepted.txt:{line}: gone: end-sticker-missing in one.stackplan, One. Take this line out of the record.\n"
        in mended.errors
    )
    text = Path(RECORD).read_text(encoding="utf-8").splitlines(keepends=True)
    gone = {int(each.split(":")[1]) for each in mended.errors.splitlines()}
    Path(RECORD).write_text(
        "".join(each for number, each in enumerate(text, 1) if number not in gone), encoding="utf-8"
    )
    assert check().errors == ""


@pytest.mark.usefixtures("yard")
def test_a_line_taken_out_of_the_record_makes_its_finding_count_again(check) -> None:
    check()
    text = Path(RECORD).read_text(encoding="utf-8").splitlines(keepends=True)
    del text[line_of("end-sticker-missing", "two.stackplan") - 1]
    Path(RECORD).write_text("".join(text), encoding="utf-8")
    assert check().rules == [("two.stackplan", "end-sticker-missing")]


@pytest.mark.parametrize("edit", ["sorted", "reversed", "crlf", "spaced", "commented", "byte order mark"])
@pytest.mark.usefixtures("yard")
def test_a_record_that_was_sorted_or_edited_by_hand_still_holds(check, edit) -> None:
    check()
    text = Path(RECORD).read_text(encoding="utf-8")
    all_lines = text.splitlines(keepends=True)
    edited = {
        "sorted": "".join(sorted(all_lines)),
        "reversed": "".join(reversed(all_lines)),
        "crlf": text.replace("\n", "\r\n"),
        "spaced": text.replace("\n", "  \n\n").replace("\t", " \t"),
        "commented": "# talked over on Friday\n" + text,
        "byte order mark": "\ufeff" + text,
    }[edit]
    Path(RECORD).write_bytes(edited.encode())
    again = check()
    assert (again.code, again.out, again.errors) == (0, "", "")


def test_the_same_findings_make_the_same_record_to_the_byte_from_wherever_it_is_made(yard, check, monkeypatch) -> None:
    check()
    (yard / "sub").mkdir()
    for words, name in ((("two.stackplan", "sites.stackplan", "one.stackplan"), "a"), ((str(yard),), "b")):
        check(*words, record=name)
    monkeypatch.chdir(yard / "sub")
    check("..", record="c")
    monkeypatch.chdir(yard.parent)
    shutil.move(yard, "elsewhere")
    check("elsewhere", record="d")
    record = (yard.parent / "elsewhere" / RECORD).read_bytes()
    for name in ("elsewhere/a", "elsewhere/b", "elsewhere/sub/c", "d"):
        assert Path(name).read_bytes() == record
    assert str(yard.parent).encode() not in record


def test_a_record_holds_wherever_the_check_is_run_and_however_its_plans_are_named(yard, check, monkeypatch) -> None:
    check()
    record = str(yard / RECORD)
    assert check(str(yard), record=record).out == ""
    (yard / "sub").mkdir()
    monkeypatch.chdir(yard / "sub")
    assert check("..", record=record).out == ""
    monkeypatch.chdir("/")
    assert check(str(yard), record=record).out == ""
    shutil.move(yard, yard.with_name("renamed"))
    assert check(str(yard.with_name("renamed")), record=str(yard.with_name("renamed") / RECORD)).out == ""


@pytest.mark.usefixtures("yard")
def test_plans_in_the_standard_layout_bring_no_new_finding(check) -> None:
    check()
    assert main(["tidy", "."]) in (0, 1)
    assert (check().out, check().errors) == ("", "")


def test_line_ends_of_another_system_bring_no_new_finding(yard, check) -> None:
    check()
    for path in yard.glob("*.stackplan"):
        path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    assert (check().out, check().errors) == ("", "")


@pytest.mark.usefixtures("yard")
def test_of_a_part_of_the_plans_nothing_is_told_as_gone_that_the_others_have(check) -> None:
    """The clash of two plans is not gone because one of them was not looked at."""
    check()
    part = check("two.stackplan")
    assert (part.code, part.out, part.errors) == (0, "", "")


def test_what_a_plan_had_that_was_taken_away_is_gone(yard, check) -> None:
    check()
    (yard / "one.stackplan").unlink()
    without = check()
    assert without.code == 0
    told = [each.split(" gone: ")[1].partition(".stackplan")[0] for each in without.errors.splitlines()]
    assert "end-sticker-missing in one" in told
    assert "spot-double-booked in two" in told
    assert "end-sticker-missing in two" not in told


def test_what_a_renamed_plan_has_is_new_and_what_it_had_is_gone(yard, check) -> None:
    check()
    (yard / "one.stackplan").rename(yard / "first.stackplan")
    renamed = check()
    assert ("first.stackplan", "end-sticker-missing") in renamed.rules
    assert "gone: end-sticker-missing in one.stackplan" in renamed.errors


def test_a_finding_that_is_waived_since_is_gone_from_the_record(yard, check) -> None:
    check()
    put(yard, "one", pile("One", spot="row 1") + '  waive end-sticker-missing because "short boards"\n')
    assert check().errors.count("gone: ") == 1


@pytest.mark.usefixtures("yard")
def test_the_level_to_fail_at_counts_for_what_is_new(check) -> None:
    check()
    assert check(".", "--fail-at", "note").code == 0
    text = Path(RECORD).read_text(encoding="utf-8").splitlines(keepends=True)
    notes = [each for each in text if "\tnote\t" in each]
    assert notes
    Path(RECORD).write_text("".join(each for each in text if each not in notes), encoding="utf-8")
    assert check(".", "--fail-at", "warning").code == 0
    assert check(".", "--fail-at", "note").code == 1


@pytest.mark.usefixtures("yard")
def test_a_yard_without_findings_has_a_record_without_lines(check, yard) -> None:
    for name in ("one", "two"):
        (yard / f"{name}.stackplan").unlink()
    made = check()
    assert (made.code, lines()) == (0, [])
    assert made.errors.startswith("0 findings are recorded in accepted.txt")
    put(yard, "one", pile("One"))
    assert check().code == 1


@pytest.mark.usefixtures("yard")
def test_an_empty_record_accepts_nothing(check) -> None:
    Path(RECORD).write_text("", encoding="utf-8")
    assert check().code == 1


# Records that cannot be taken.


@pytest.mark.parametrize(
    "content, line, words",
    [
        ("Dear all,\nplease check.\n", 1, "none of a record of accepted findings, which has 6 columns parted by tabs"),
        ("# ok\n\na b\tgrave\tc\td\te\tf\n", 3, "none of a record"),
        ("a b error c d e f\n", 1, "none of a record"),
        ("# ok\n<<<<<<< HEAD\n", 2, "left by a merge; keep the findings of both sides"),
        ("=======\n", 1, "left by a merge"),
        (">>>>>>> work\n", 1, "left by a merge"),
    ],
)
@pytest.mark.usefixtures("yard")
def test_a_record_that_is_none_or_was_left_by_a_merge_is_told_with_its_line(check, content, line, words) -> None:
    Path(RECORD).write_text(content, encoding="utf-8")
    run = check()
    assert run.code == 2
    assert run.out == ""
    (told,) = run.errors.splitlines()
    assert told.startswith(f"stacklint: accepted.txt: line {line} ")
    assert words in told
    assert Path(RECORD).read_text(encoding="utf-8") == content


@pytest.mark.parametrize(
    "name, words",
    [
        ("sub", "is a folder"),
        ("one.stackplan", "no plan, such as accepted.txt"),
        ("new.stackplan", "no plan, such as accepted.txt"),
        ("none/accepted.txt", "cannot be written"),
        ("utf16.txt", "is written in UTF-16"),
        ("dangling.txt", "there is no such file"),
        ("", "needs the name of a text"),
    ],
)
def test_a_record_at_a_place_where_none_can_be_is_told_in_a_line(yard, check, name, words) -> None:
    (yard / "sub").mkdir()
    (yard / "utf16.txt").write_bytes("a".encode("utf-16"))
    (yard / "dangling.txt").symlink_to("nowhere.txt")
    before = (yard / "one.stackplan").read_bytes()
    run = check(record=name)
    assert run.code == 2
    (told,) = run.errors.splitlines()
    assert words in told
    assert (yard / "one.stackplan").read_bytes() == before
    assert not (yard / "nowhere.txt").exists()
    assert not (yard / "new.stackplan").exists()


@pytest.mark.usefixtures("yard")
def test_a_record_and_a_report_of_one_name_are_refused(check) -> None:
    assert "name two" in check(".", "--out", RECORD).errors
    assert not Path(RECORD).exists()


# In each form.


@pytest.mark.usefixtures("yard")
def test_the_screen_says_which_findings_were_accepted_and_counts_them(check) -> None:
    check()
    shown = check(".", "--as", "screen")
    assert shown.code == 0
    assert "Accepted before: " in shown.out
    assert "end-sticker-missing in line 7" in " ".join(shown.out.split())
    assert f"{len(lines())} of them accepted before." in shown.out


@pytest.mark.usefixtures("yard")
def test_json_says_of_each_finding_whether_it_was_accepted_and_what_is_gone(check, yard) -> None:
    made = json.loads(check(".", "--as", "json").out)
    assert {found["accepted"] for plan in made["plans"] for found in plan["findings"]} == {False}
    put(yard, "two", pile("Two", from_ends="1 in"))
    put(yard, "three", pile("Three"))
    told = json.loads(check(".", "--as", "json").out)
    said = {plan["path"]: {found["accepted"] for found in plan["findings"]} for plan in told["plans"]}
    assert said["one.stackplan"] == {True}
    assert False in said["three.stackplan"]
    gone = {(each["rule"], each["path"], each["stack"], each["level"]) for each in told["gone"]}
    assert ("end-sticker-missing", "two.stackplan", "Two", "error") in gone


def test_sarif_says_the_state_of_each_result_against_the_record(yard, check) -> None:
    put(yard, "one", pile("One", from_ends="6 in"))
    first = json.loads(check(".", "--as", "sarif").out)["runs"][0]["results"]
    assert {result["baselineState"] for result in first} == {"new"}
    put(yard, "one", pile("One", from_ends="24 in"))
    put(yard, "two", pile("Two", from_ends="1 in"))
    put(yard, "three", pile("Three"))
    (run,) = json.loads(check(".", "--as", "sarif").out)["runs"]
    states = {
        (result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"], result["ruleId"]): result[
            "baselineState"
        ]
        for result in run["results"]
    }
    assert states["one.stackplan", "end-sticker-missing"] == "updated"
    assert states["two.stackplan", "end-sticker-missing"] == "absent"
    assert states["three.stackplan", "end-sticker-missing"] == "new"
    assert "unchanged" in states.values()
    assert all("shortDescription" in rule for rule in run["tool"]["driver"]["rules"])


@needs_git
def test_a_record_and_a_revision_go_together(tmp_path, check, monkeypatch) -> None:
    """What a change cannot affect is neither told nor counts, but stands in the record and is not gone."""
    folder = tmp_path / "project"
    folder.mkdir()
    put(folder, "sites", SITES)
    put(folder, "one", pile("One"))
    put(folder, "two", pile("Two"))
    git(folder, "init", "--quiet")
    git(folder, "add", "--all")
    git(folder, "commit", "--quiet", "-m", "a yard")
    monkeypatch.chdir(folder)
    missing = check(".", "--since", "HEAD")
    assert (missing.code, Path(RECORD).exists()) == (2, False)
    assert "there is no record accepted.txt; make it once without --since" in missing.errors
    assert check().code == 0
    assert {each[3] for each in lines()} == {"one.stackplan", "two.stackplan"}
    put(folder, "one", pile("One") + "# more\n")
    again = check(".", "--since", "HEAD")
    assert (again.code, again.out, again.errors) == (0, "", "")
    put(folder, "one", pile("Other"))
    new = check(".", "--since", "HEAD")
    assert new.code == 1
    assert {path for path, _ in new.rules} == {"one.stackplan"}
    assert {each.partition(".stackplan")[0].rpartition(" ")[2] for each in new.errors.splitlines()} == {"one"}


@pytest.mark.usefixtures("yard")
def test_a_read_only_folder_gets_no_record_and_that_is_told(check, monkeypatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("stacklint.command.output.drafted", refuse)
    run = check()
    assert run.code == 2
    assert run.errors == "stacklint: accepted.txt cannot be written: permission denied\n"
    assert not Path(RECORD).exists()
