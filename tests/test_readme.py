"""What README.md shows is what stacklint says."""

from __future__ import annotations

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
