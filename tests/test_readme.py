"""What README.md shows is what stacklint says."""

from __future__ import annotations

import doctest
import io
from pathlib import Path

import pytest

from stacklint.command.main import main

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
FIRST = ROOT / "examples" / "first-plan.stackplan"


def _indented(text: str) -> str:
    return "\n".join(f"    {line}" if line else "" for line in text.splitlines())


def test_the_plan_in_the_readme_is_the_example() -> None:
    plan = FIRST.read_text(encoding="utf-8").split("\n\n", 1)[1].rstrip()
    assert _indented(plan) in README


def test_the_picture_in_the_readme_is_what_the_example_gives(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setattr("sys.stdin", io.StringIO())
    main(["check", "examples/first-plan.stackplan", "--as", "screen", "--today", "2026-06-01"])
    shown = "\n".join(line.rstrip() for line in capsys.readouterr().out.splitlines())
    picture = shown[: shown.index("\nIn the drawings")].rstrip()
    assert _indented(picture) in README


def test_the_calendar_in_the_readme_is_that_of_the_example(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("LC_ALL", raising=False)
    words = "calendar examples/month-by-month --months 6"
    assert main([*words.split(), "--today", "2026-06-01"]) == 0
    shown = capsys.readouterr().out
    assert f"    stacklint {words}\n" in README
    assert _indented(shown[: shown.index("4  Pile Ash")].rstrip()) in README


def test_the_tally_in_the_readme_is_the_example_and_becomes_the_plan_beside_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    assert _indented((ROOT / "examples" / "north-lot.csv").read_text(encoding="utf-8")) in README
    assert main(["convert", "examples/north-lot.csv"]) == 0
    assert _indented(capsys.readouterr().out.rstrip()) in README


def test_what_the_readme_does_in_python_gives_what_it_shows() -> None:
    ran = doctest.testfile(str(ROOT / "README.md"), module_relative=False, encoding="utf-8")
    assert ran.attempted >= 5
    assert ran.failed == 0


def test_the_house_rules_in_the_readme_are_those_of_the_two_yards_and_do_what_it_shows(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    for file, first, end in (("house.rules", "change", "\n\nrule"), ("hill/house.rules", "keep", "\n\nend")):
        text = (ROOT / "examples" / "two-yards" / file).read_text(encoding="utf-8").rstrip() + "\n\nend"
        assert _indented(text[text.index(f"\n{first}") + 1 : text.index(end)]) in README
    assert main(["rules-test", "examples/two-yards", "--today", "2026-06-01"]) == 0
    assert _indented(capsys.readouterr().out.rstrip()) in README
