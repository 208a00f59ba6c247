"""A report says the same wherever it is made: no hash seed, time zone, locale, encoding, folder or line end counts."""

from __future__ import annotations

import contextlib
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hostile_yard import told

EXAMPLES = Path(__file__).parents[2] / "examples"
TODAY = ("--today", "2026-06-01")
PLAN = """\
use "yard.stackplan"

pile "Südlager 1" "Ahorn für Böden – 木"
  place open yard, site "Larch Bottom"
  spot "row 3"
  stacked 2026-04-02
  boards a: 60 of sugar maple 5/4 x 6 in x 8 ft, green
  boards b: 40 of white ash 4/4 x 5 to 9 in x 12 ft, 60%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 36 in, 8 in from ends
  bearers 4 in x 6 in of white oak, every 24 in
  ground gravel
  want 12% by 2026-09-01
  waive no-cover because "ein Dach – später" until 2026-12-01
"""
EVERYTHING = """
import sys
from stacklint.command.main import main
for number, words in enumerate((
    ["check", ".", "--as", "lines"], ["check", ".", "--as", "screen"], ["check", ".", "--as", "json"],
    ["check", ".", "--as", "sarif"], ["check", ".", "--as", "html"], ["sheet", "b2.stackplan"],
    ["forecast", "b2.stackplan", "--as", "json"], ["forecast", "b2.stackplan", "--as", "csv"],
)):
    main([*words, "--today", "2026-06-01", "--out", f"{sys.argv[1]}/{number}-{words[-1].removesuffix('.stackplan')}"])
"""
SETTINGS = {
    "another hash seed, far east": {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati"},
    "far west, ASCII": {"PYTHONHASHSEED": "2", "TZ": "Etc/GMT+12", "LC_ALL": "C", "PYTHONUTF8": "0"},
    "German, Latin 1": {"PYTHONHASHSEED": "3", "LANG": "de_DE", "LC_NUMERIC": "de_DE", "PYTHONIOENCODING": "latin-1"},
}


@pytest.fixture(scope="module")
def yard(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("yard")
    (folder / ".git").mkdir()
    (folder / "b2.stackplan").write_text(PLAN, encoding="utf-8")
    (folder / "yard.stackplan").write_bytes((EXAMPLES / "yard.stackplan").read_bytes())
    return folder


def reports(yard: Path, out: Path, setting: dict[str, str]) -> dict[str, bytes]:
    """Every report as a file, made by a process of its own."""
    out.mkdir()
    chosen = {"LC_ALL", "LANG", "TZ", "PYTHONHASHSEED", "PYTHONIOENCODING", "PYTHONUTF8", "COLUMNS"}
    environ = {name: value for name, value in os.environ.items() if name not in chosen}
    subprocess.run([sys.executable, "-c", EVERYTHING, str(out)], cwd=yard, env=environ | setting, check=True)
    return {path.name: path.read_bytes() for path in out.iterdir()}


@pytest.fixture(scope="module")
def usual(yard, tmp_path_factory) -> dict[str, bytes]:
    made = reports(yard, tmp_path_factory.mktemp("reports") / "usual", {"PYTHONHASHSEED": "0", "TZ": "UTC"})
    assert len(made) == 8
    assert made["7-csv"].count(b"\n") > 100
    return made


@pytest.mark.parametrize("setting", SETTINGS.values(), ids=SETTINGS)
def test_every_report_is_the_same_byte_for_byte(yard, usual, tmp_path, setting):
    made = reports(yard, tmp_path / "out", setting)
    if "LC_ALL" in setting:
        # Drawings are in ASCII where the locale says so; all else is the same.
        assert "█" in usual["1-screen"].decode()
        assert "█" not in made.pop("1-screen").decode()
    for name, report in made.items():
        assert report == usual[name]


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-16"])
def test_no_encoding_of_the_output_keeps_a_report_from_being_whole(yard, encoding):
    done = subprocess.run(
        [sys.executable, "-m", "stacklint", "tally", "b2.stackplan"],
        cwd=yard,
        env=os.environ | {"PYTHONIOENCODING": encoding},
        capture_output=True,
        check=False,
    )
    assert done.returncode in (0, 1)
    assert done.stderr == b""
    said = done.stdout.decode(encoding)
    assert "dlager" in said
    assert "flat on the ground" in said.splitlines()[-2]


def test_the_current_folder_changes_paths_alone(yard):
    with contextlib.chdir(yard):
        here, _ = told(["check", ".", "--as", "json", *TODAY])
    with contextlib.chdir(yard.parent):
        above, _ = told(["check", yard.name, "--as", "json", *TODAY])
    assert above.replace(f"{yard.name}/", "") == here


@pytest.mark.parametrize("end", ["\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_a_byte_order_mark_change_nothing(yard, tmp_path, end, mark):
    (tmp_path / ".git").mkdir()
    for name in ("b2.stackplan", "yard.stackplan"):
        text = (yard / name).read_text(encoding="utf-8")
        (tmp_path / name).write_bytes((mark + text.replace("\n", end)).encode())
    said = []
    for folder in (yard, tmp_path):
        with contextlib.chdir(folder):
            said.append([told(["check", ".", "--as", form, *TODAY])[0] for form in ("json", "sarif", "screen", "html")])
    assert said[0] == said[1]
    assert json.loads(said[0][0])["plans"]
