"""The hooks that run before a commit do what they promise."""

from __future__ import annotations

import re
import shutil
import tomllib
from pathlib import Path

import pytest
import yaml
from git_projects import needs_git, project

from stacklint.command.main import MODULES, main

ROOT = Path(__file__).parent.parent
HOOKS = {hook["id"]: hook for hook in yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))}
UNTIDY = 'pile "B2"\n  boards a: 60 of white ash 4/4 x 6" x 8\', green\n'


@pytest.mark.parametrize("name", HOOKS)
def test_a_hook_has_what_a_hook_must_have(name: str) -> None:
    # The manifest's required keys: id, name, entry, language.
    hook = HOOKS[name]
    assert {"id", "name", "entry", "language", "files"} <= hook.keys()
    assert hook["language"] == "python"


@pytest.mark.parametrize("name", HOOKS)
def test_a_hook_runs_a_command_that_the_package_installs(name: str) -> None:
    program, command, *_ = HOOKS[name]["entry"].split()
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert program in project["scripts"]
    assert command in MODULES


@pytest.mark.parametrize("name", HOOKS)
def test_a_hook_goes_through_plans_and_nothing_else(name: str) -> None:
    files = re.compile(HOOKS[name]["files"])
    plans = list((ROOT / "examples").rglob("*.stackplan"))
    assert plans
    assert all(files.search(path.as_posix()) for path in plans)
    assert not files.search("README.md")
    assert not files.search("examples/north-lot.csv")
    # House rules concern the yard as a whole, and are no plan to be named.
    assert bool(files.search("yard/house.rules")) == (HOOKS[name].get("pass_filenames") is False)


def test_the_check_stops_a_commit_with_errors_and_lets_a_sound_one_pass(capsys: pytest.CaptureFixture[str]) -> None:
    words = HOOKS["stacklint-check"]["entry"].split()[1:]
    sound, wrong = (
        ROOT / "examples" / name for name in ("sound-pile.stackplan", "families/end-stickers-wrong.stackplan")
    )
    assert main([*words, str(sound)]) == 0
    assert main([*words, str(sound), str(wrong)]) == 1
    assert "end-stickers-wrong.stackplan:" in capsys.readouterr().out


@needs_git
def test_the_check_of_the_yard_sees_plans_together_that_the_commit_does_not_touch(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    words = [*HOOKS["stacklint-yard"]["entry"].split()[1:], "--today", "2026-05-01"]
    shared = ROOT / "examples" / "shared-yard"
    yard = project(tmp_path / "yard", {each.name: each.read_text("utf-8") for each in (shared / "mended").iterdir()})
    monkeypatch.chdir(yard)
    assert main(words) == 0
    shutil.copy(shared / "wrong" / "oak.stackplan", yard / "oak.stackplan")
    assert main(words) == 1
    assert [line.partition(":")[0] for line in capsys.readouterr().out.splitlines()] == ["oak.stackplan"]


def test_the_tidying_changes_an_untidy_plan_and_leaves_a_tidy_one(tmp_path: Path) -> None:
    words = HOOKS["stacklint-tidy"]["entry"].split()[1:]
    untidy, tidy = tmp_path / "untidy.stackplan", tmp_path / "tidy.stackplan"
    untidy.write_text(UNTIDY, encoding="utf-8")
    assert main([*words, str(untidy)]) == 0
    assert "4/4 x 6 in x 8 ft, green" in untidy.read_text(encoding="utf-8")
    shutil.copy(untidy, tidy)
    assert main([*words, str(tidy)]) == 0
    assert tidy.read_bytes() == untidy.read_bytes()
