"""What README.md shows of CI and hooks is what CI and hooks take, and its commands do what it says."""

from __future__ import annotations

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
import textwrap
from pathlib import Path
from typing import Any

import pytest
import yaml
from git_projects import committed, git, needs_git, project

from stacklint.command.main import main

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
SHARED = ROOT / "examples" / "shared-yard"
TODAY = ["--today", "2026-05-01"]


def block_after(words: str) -> str:
    """The indented text that follows these words."""
    after = README[README.index(words) + len(words) :]
    found = re.search(r"(?:^(?: {4}.*)?\n)+", after[after.index("\n\n") + 1 :], re.MULTILINE)
    assert found is not None
    return textwrap.dedent(found[0]).strip() + "\n"


WORKFLOW: dict[Any, Any] = yaml.safe_load(block_after("In `.github/workflows/plans.yml`:"))
PIPELINE: dict[Any, Any] = yaml.safe_load(block_after("In `.gitlab-ci.yml`, for merge requests:"))
HOOK = block_after("As `.git/hooks/pre-commit`, with leave to be run:")


@pytest.fixture
def yard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project with the plans of the shared yard in the folder ``yard``, on a branch that is to be merged."""
    plans = {f"yard/{each.name}": each.read_text(encoding="utf-8") for each in (SHARED / "mended").iterdir()}
    made = project(tmp_path / "project", plans)
    monkeypatch.chdir(made)
    return made


def spoil(yard: Path) -> None:
    shutil.copy(SHARED / "wrong" / "oak.stackplan", yard / "yard" / "oak.stackplan")


def command(steps: list[str]) -> list[str]:
    """The words of the one step that runs stacklint."""
    (found,) = [words for words in map(shlex.split, steps) if words[0] == "stacklint"]
    return found[1:]


def test_the_workflow_has_the_steps_that_it_needs() -> None:
    job = WORKFLOW["jobs"]["check"]
    assert job["runs-on"]
    # YAML 1.1 reads the key "on" as true.
    assert set(WORKFLOW[True]) == {"push", "pull_request"}
    assert WORKFLOW["permissions"]["security-events"] == "write"
    words = command([step["run"] for step in job["steps"] if "run" in step])
    by_use = {step["uses"].partition("@")[0]: step for step in job["steps"] if "uses" in step}
    assert by_use["actions/cache"]["with"]["path"] == words[words.index("--cache") + 1]
    (upload,) = [step for step in job["steps"] if "sarif_file" in step.get("with", {})]
    assert upload["with"]["sarif_file"] == words[words.index("--out") + 1]
    # The report is wanted most where the check has failed.
    assert "failure()" in upload["if"]


@needs_git
def test_the_workflow_s_command_writes_sarif_keeps_results_and_fails_on_errors(yard: Path) -> None:
    words = command([step["run"] for step in WORKFLOW["jobs"]["check"]["steps"] if "run" in step])
    assert main([*words, *TODAY]) == 0
    for number in range(20):
        shutil.copy(yard / "yard" / "ash.stackplan", yard / "yard" / f"ash-{number}.stackplan")
    spoil(yard)
    assert main([*words, *TODAY]) == 1
    log = json.loads((yard / "plans.sarif").read_text(encoding="utf-8"))
    places = [place["physicalLocation"] for each in log["runs"][0]["results"] for place in each["locations"]]
    assert {"yard/oak.stackplan"} <= {place["artifactLocation"]["uri"] for place in places}
    assert list((yard / ".stacklint-cache").iterdir())


@needs_git
def test_the_pipeline_s_commands_tell_what_a_merge_request_brings(
    yard: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    job = PIPELINE["plans"]
    assert job["variables"]["GIT_DEPTH"] == "0"
    words = command(job["script"])
    assert job["cache"]["paths"] == [f"{words[words.index('--cache') + 1]}/"]
    git(tmp_path, "clone", "--quiet", "--branch=work", yard.as_uri(), "copy")
    monkeypatch.chdir(tmp_path / "copy")
    (fetch,) = [step for step in job["script"] if step.startswith("git ")]
    git(Path(), *shlex.split(fetch.replace("$CI_MERGE_REQUEST_TARGET_BRANCH_NAME", "main"))[1:])
    assert main([*words, *TODAY]) == 2
    since = words.index("--since")
    assert main([*words[:since], *words[since + 2 :], *TODAY]) == 0
    assert main([*words, *TODAY]) == 0
    record = Path("yard/accepted.txt")
    assert "\tassumed\t" in record.read_text(encoding="utf-8")
    spoil(Path())
    capsys.readouterr()
    assert main([*words, *TODAY]) == 1
    told = capsys.readouterr().out.splitlines()
    assert [line.rpartition("[")[2] for line in told] == ["spot-double-booked]"]


@needs_git
def test_the_hook_stops_a_commit_with_errors_and_lets_a_sound_one_pass(yard: Path, tmp_path: Path) -> None:
    programs = tmp_path / "bin"
    programs.mkdir()
    shim = programs / "stacklint"
    shim.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m stacklint "$@" --today 2026-05-01\n', encoding="utf-8")
    shim.chmod(0o755)
    hook = yard / ".git" / "hooks" / "pre-commit"
    hook.parent.mkdir(exist_ok=True)
    hook.write_text(HOOK, encoding="utf-8")
    hook.chmod(0o755)
    assert HOOK.startswith("#!/bin/sh\n")
    settings = {"PATH": f"{programs}{os.pathsep}{os.environ['PATH']}"}
    settings |= {f"GIT_{who}_{what}": "a@mill.example" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}

    def commit() -> subprocess.CompletedProcess[str]:
        words = ["git", "commit", "--all", "--allow-empty", "--message", "more"]
        return subprocess.run(words, cwd=yard, env=os.environ | settings, capture_output=True, text=True, check=False)

    assert commit().returncode == 0
    spoil(yard)
    stopped = commit()
    assert stopped.returncode == 1
    assert "[spot-double-booked]" in stopped.stdout + stopped.stderr
    committed(yard)
    assert commit().returncode == 0


def test_what_the_readme_tells_of_the_shared_yard_is_found_there(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    words = shlex.split(block_after("What is checked in one run is seen together:"))
    main([*words[1:], "--as", "lines"])
    found = {line.rpartition("[")[2].rstrip("]") for line in capsys.readouterr().out.splitlines()} - {"assumed"}
    section = README[README.index("## Plans that share a yard") :].partition("A site says")[0]
    assert found == set(re.findall(r"\(`([a-z-]+)`\)", section))


def test_the_site_in_the_readme_can_be_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "site.stackplan"
    path.write_text(block_after("A site says what it has room for, and what lies ready:"), encoding="utf-8")
    assert main(["check", str(path), "--as", "lines", "--fail-at", "note"]) == 0
    assert capsys.readouterr().out == ""
