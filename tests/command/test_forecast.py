"""``stacklint forecast`` from words to exit code."""

import csv
import datetime
import io
import json
import os
import subprocess
import sys
from importlib.resources import files

import jsonschema
import pytest

from stacklint.command.main import main

SITE = 'site "Cold Hollow"\n  near "Burlington, VT"\n'
PILE = """\
pile "{name}" "Ash for flooring"
  place open yard, site "Cold Hollow", in the shade
  stacked {stacked}
  boards a: 60 of white ash {thickness} x 6 in x 8 ft, green
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 18 in, gap 4 in, slope 1 in 12, tied
  ends coated
  want 15% by 2027-06-01
"""


def pile(name="B2", stacked="2026-04-02", thickness="4/4"):
    return PILE.format(name=name, stacked=stacked, thickness=thickness)


@pytest.fixture(autouse=True)
def sited(yard):
    """Piles at a site with a known climate, one, another that starts later, two in one text, one without a site."""
    (yard / "ash.stackplan").write_text(SITE + pile(), encoding="utf-8")
    (yard / "late.stackplan").write_text(SITE + pile(stacked="2026-09-01"), encoding="utf-8")
    (yard / "two.stackplan").write_text(SITE + pile("Thin") + pile("Thick", thickness="8/4"), encoding="utf-8")
    (yard / "nowhere.stackplan").write_text(pile().replace(', site "Cold Hollow"', ""), encoding="utf-8")
    return yard


def said(capsys):
    return " ".join(capsys.readouterr().out.split())


def document(capsys):
    found = json.loads(capsys.readouterr().out)
    schema = json.loads(files("stacklint.report").joinpath("forecast.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schema).validate(found)
    return found


def test_a_pile_at_a_known_site_is_foretold_and_drawn(capsys):
    assert main(["forecast", "ash.stackplan", "--today", "2026-06-01"]) == 0
    text = said(capsys)
    assert text.startswith("Pile B2, Ash for flooring (ash.stackplan, line 3)")
    assert "from 2026-04-02 on" in text
    assert "earliest likely latest" in text
    assert "today, 2026-06-01" in text
    assert "wanted by 2027-06-01" in text


def test_a_pile_without_a_site_has_no_forecast_and_fails(capsys):
    assert main(["forecast", "nowhere.stackplan"]) == 1
    assert "How it dries is not forecast" in said(capsys)


def test_a_plan_with_faults_has_no_forecast_and_fails(yard, capsys):
    (yard / "odd.stackplan").write_text('pile "X"\n  boards a: 3 of unobtainium 4/4 x 6 in x 8 ft\n', encoding="utf-8")
    assert main(["forecast", "odd.stackplan"]) == 1
    assert "what is wrong in its text comes first." in said(capsys)


def test_a_missing_plan_is_told_and_the_other_is_foretold(capsys):
    assert main(["forecast", "gone.stackplan", "ash.stackplan"]) == 2
    shown = capsys.readouterr()
    assert shown.err == "stacklint: gone.stackplan: there is no such file or folder\n"
    assert "Pile B2" in shown.out


def test_an_empty_text_is_nothing_to_fail_for(yard, capsys):
    (yard / "empty.stackplan").write_text("# nothing yet\n", encoding="utf-8")
    assert main(["forecast", "empty.stackplan"]) == 0
    assert "nothing to forecast" in said(capsys)


def test_a_pile_stacked_in_autumn_is_ready_later_than_one_stacked_in_spring(capsys):
    assert main(["forecast", "ash.stackplan", "late.stackplan", "--as", "json"]) == 0
    spring, autumn = document(capsys)["forecasts"]
    took = [
        datetime.date.fromisoformat(one["ready"]["likely"]) - datetime.date.fromisoformat(one["start"])
        for one in (spring, autumn)
    ]
    # "60 days stacked 1 June, 150 early January" for 4/4 oak: the months without sun count little (extension answer).
    assert took[1] > 1.3 * took[0]


def test_two_plans_are_drawn_together(capsys):
    assert main(["forecast", "ash.stackplan", "late.stackplan"]) == 0
    shown = capsys.readouterr().out
    assert shown.count("└") == 1
    assert "█ Pile B2 (ash.stackplan)" in shown
    assert "● Pile B2 (late.stackplan)" in shown


def test_one_stack_of_several_is_chosen_by_its_name_in_any_letter_case(capsys):
    assert main(["forecast", "two.stackplan", "--stack", "thick"]) == 0
    text = said(capsys)
    assert "Pile Thick" in text
    assert "Pile Thin" not in text


def test_a_stack_that_is_not_there_is_told_with_the_nearest_that_is(capsys):
    assert main(["forecast", "two.stackplan", "--stack", "Thik"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err == "stacklint: two.stackplan: holds no pile and no charge Thik; did you mean Thick?\n"


def test_a_stack_named_in_one_plan_only_is_foretold_there(capsys):
    assert main(["forecast", "two.stackplan", "ash.stackplan", "--stack", "B2", "--as", "json"]) == 2
    assert [one["path"] for one in document(capsys)["forecasts"]] == ["ash.stackplan"]


def test_without_a_day_of_stacking_it_starts_today(yard, capsys):
    text = (yard / "ash.stackplan").read_text(encoding="utf-8").replace("  stacked 2026-04-02\n", "")
    (yard / "ash.stackplan").write_text(text, encoding="utf-8")
    assert main(["forecast", "ash.stackplan", "--today", "2026-05-20", "--as", "json"]) == 0
    (one,) = document(capsys)["forecasts"]
    assert one["start"] == "2026-05-20"
    assert any("2026-05-20" in sentence for sentence in one["assumed"])


def test_the_json_of_two_plans_is_one_document_with_what_could_not_be_read(capsys):
    assert main(["forecast", "nowhere.stackplan", "gone.stackplan", "--as", "json"]) == 2
    found = document(capsys)
    assert found["forecasts"] == []
    assert [one["stack"] for one in found["without"]] == ["B2"]
    assert [one["path"] for one in found["unread"]] == ["gone.stackplan"]


def test_the_csv_has_every_day_of_every_stack(capsys):
    assert main(["forecast", "two.stackplan", "--as", "csv"]) == 0
    found = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert {row["stack"] for row in found} == {"Thin", "Thick"}
    thin = [row for row in found if row["stack"] == "Thin"]
    assert thin[0]["date"] == "2026-04-02"
    likely = [float(row["likely"]) for row in thin if row["likely"]]
    assert likely[0] > 0.3 > 0.151 > likely[-1]


def test_thick_boards_lag_behind_thin_ones(capsys):
    main(["forecast", "two.stackplan", "--as", "json"])
    thin, thick = document(capsys)["forecasts"]
    # 4/4 about 60 days, 8/4 about 180 to air dried in good weather (extension answer of 2011): three times as long.
    first = [thin["key_dates"][1], thick["key_dates"][1]]
    days = [(datetime.date.fromisoformat(key["likely"]) - datetime.date(2026, 4, 2)).days for key in first]
    assert 2 <= days[1] / days[0] <= 4


def test_a_forecast_is_written_to_a_file_and_never_over_a_plan(yard, capsys):
    assert main(["forecast", "ash.stackplan", "--out", "ash.txt"]) == 0
    assert capsys.readouterr().out == ""
    assert "█ likely" in (yard / "ash.txt").read_text(encoding="utf-8")
    before = (yard / "ash.stackplan").read_bytes()
    assert main(["forecast", "ash.stackplan", "--out", "ash.stackplan"]) == 2
    assert (yard / "ash.stackplan").read_bytes() == before


@pytest.mark.parametrize("columns", ["40", "80", "120", "500"])
def test_it_keeps_to_the_columns_there_are(monkeypatch, capsys, columns):
    monkeypatch.setenv("COLUMNS", columns)
    main(["forecast", "two.stackplan"])
    widest = max(map(len, capsys.readouterr().out.splitlines()))
    assert min(int(columns), 120) * 0.9 <= widest <= min(int(columns), 120)


@pytest.mark.parametrize("setting", [{"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "C"}])
def test_a_screen_without_block_elements_gets_ascii(yard, setting):
    done = subprocess.run(
        [sys.executable, "-m", "stacklint", "forecast", "two.stackplan"],
        cwd=yard,
        capture_output=True,
        env=os.environ | setting,
        check=False,
    )
    assert done.returncode == 0
    assert done.stdout.isascii()
    assert b"* Pile Thin" in done.stdout


@pytest.mark.parametrize("content", [b"", b"\xff\xfe\x00", b'pile "\n' * 40, bytes(range(1, 256)), b"\x00" * 50])
@pytest.mark.parametrize("form", ["screen", "json", "csv"])
def test_no_file_makes_it_stumble(yard, capsys, content, form):
    (yard / "odd.stackplan").write_bytes(content)
    assert main(["forecast", "odd.stackplan", "--as", form]) in (0, 1, 2)
    assert "Traceback" not in capsys.readouterr().err


def test_the_check_tells_the_same_day(capsys):
    main(["forecast", "ash.stackplan", "--as", "json"])
    (one,) = document(capsys)["forecasts"]
    main(["check", "ash.stackplan", "--as", "json"])
    facts = json.loads(capsys.readouterr().out)["plans"][0]["stacks"][0]["facts"]
    assert [facts[f"ready_{pace}"] for pace in ("fast", "likely", "slow")] == list(one["ready"].values())
    assert facts["floor_moisture"] == one["floor_moisture"]
    main(["check", "ash.stackplan", "--as", "screen"])
    assert f"ready {one['ready']['likely']}, between {one['ready']['fast']} and {one['ready']['slow']};" in said(capsys)
