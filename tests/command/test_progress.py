"""The bar of a long run, on a terminal."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

pexpect = pytest.importorskip("pexpect")

PILE = """\
pile "{name}"
  place open yard
  stacked 2026-04-02
  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 48 in, dry
"""
STYLING = re.compile(r"\x1b\[[0-9;?]*[a-zA-Z]")


def shown(folder: Path, *words: str) -> str:
    command = ["-m", "stacklint", "check", str(folder), "--today", "2026-06-01", "--cache", "none", *words]
    env = {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8", "PATH": "/usr/bin:/bin"}
    child = pexpect.spawn(sys.executable, command, env=env, dimensions=(30, 80), encoding="utf-8", timeout=120)
    child.expect(pexpect.EOF)
    return str(child.before)


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    for number in range(104):
        (tmp_path / f"p{number}.stackplan").write_text(PILE.format(name=f"B{number}"), encoding="utf-8")
    return tmp_path


def test_a_long_run_on_a_terminal_shows_how_far_it_has_come_and_cuts_no_line(yard: Path) -> None:
    said = shown(yard)
    assert "104 plans" in said.replace("\r\n", " ") or "/104 plans" in said
    plain = STYLING.sub("", said)
    assert "checking" in plain
    assert plain.count("Stickers under white ash 4/4 x 6 in x 8 ft stand") == 104
    # Whole sentences, though the text has colours in it that a terminal does not count.
    assert plain.replace("\r\n", " ").split().count("sticker-spacing-too-wide") == 104


def test_a_report_that_goes_to_a_file_leaves_the_terminal_to_the_bar(yard: Path, tmp_path: Path) -> None:
    out = tmp_path / "report.json"
    plain = STYLING.sub("", shown(yard, "--as", "json", "--out", str(out)))
    assert "/104 plans" in plain
    assert "sticker-spacing-too-wide" not in plain
    assert out.read_text(encoding="utf-8").count('"sticker-spacing-too-wide"') == 104


def test_a_short_run_shows_no_bar(tmp_path: Path) -> None:
    for number in range(3):
        (tmp_path / f"p{number}.stackplan").write_text(PILE.format(name=f"B{number}"), encoding="utf-8")
    assert "checking" not in shown(tmp_path)
