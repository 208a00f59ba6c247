"""``check --since`` in real projects under version control by git."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest
from git_projects import committed, git, needs_git, project, write

from stacklint.command.main import main

pytestmark = needs_git

SHARED = 'site "Bottom"\n  near "Columbus, OH"\n'


def pile(name: str, spot: str = "", stacked: str = "2026-03-01", before: str = "") -> str:
    """A pile with an end that hangs: every plan has an error of its own."""
    return f"""{before}pile "{name}"
  place open yard
  {f'spot "{spot}"' if spot else "# anywhere"}
  stacked {stacked}
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, 24 in from ends, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 24 in, gap 4 in, slope 1 in 12, tied
"""


FILES = {
    "alone.stackplan": pile("Alone"),
    "sub/user.stackplan": pile("User", before='use "../between.stackplan"\n'),
    "between.stackplan": 'use "shared/sites.stackplan"\n',
    "shared/sites.stackplan": SHARED,
    "sub/deep/house.rules": "change end-sticker-missing\n  limit  spoiled = 20 in\n",
    "sub/deep/deep.stackplan": pile("Deep"),
}


@pytest.fixture
def yard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    made = project(tmp_path / "yard", FILES)
    monkeypatch.chdir(made)
    return made


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]):
    """The plans that a run tells of; its exit code is 1 if there are any, for each has an error."""

    def run(*words: str, revision: str = "main") -> set[str]:
        code = main(["check", *(words or (".",)), "--since", revision, "--as", "json", "--today", "2026-06-01"])
        shown = capsys.readouterr()
        assert code in (0, 1), shown.err
        plans = json.loads(shown.out)["plans"]
        assert code == int(any(plan["findings"] for plan in plans))
        return {Path(plan["path"]).as_posix() for plan in plans}

    return run


def refused(capsys: pytest.CaptureFixture[str], revision: str, *words: str) -> str:
    """What is said where it cannot be told what changed: one line, and the exit code is 2."""
    assert main(["check", *(words or (".",)), f"--since={revision}"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    (line,) = shown.err.splitlines()
    return line


@pytest.mark.usefixtures("yard")
def test_where_nothing_changed_nothing_is_told(told) -> None:
    assert told() == set()


def test_a_plan_that_was_changed_is_told_committed_or_not(yard, told) -> None:
    write(yard, {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    assert told() == {"alone.stackplan"}
    committed(yard)
    assert told() == {"alone.stackplan"}


def test_a_plan_that_was_changed_back_is_not_told(yard, told) -> None:
    write(yard, {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    committed(yard)
    write(yard, {"alone.stackplan": pile("Alone")})
    assert told() == set()


def test_plans_that_are_new_are_told_be_they_in_the_index_or_not_or_ignored(yard, told) -> None:
    write(yard, {"new.stackplan": pile("New"), "added.stackplan": pile("Added"), "mine.stackplan": pile("Mine")})
    write(yard, {".gitignore": "mine.stackplan\n"})
    git(yard, "add", "added.stackplan")
    assert told() == {"new.stackplan", "added.stackplan", "mine.stackplan"}


def test_a_plan_that_was_renamed_is_told_by_its_new_name(yard, told) -> None:
    git(yard, "mv", "alone.stackplan", "sub/moved.stackplan")
    assert told() == {"sub/moved.stackplan"}


def test_of_a_plan_that_was_taken_away_nothing_is_told(yard, told) -> None:
    git(yard, "rm", "--quiet", "alone.stackplan")
    assert told() == set()


def test_a_change_of_a_used_file_is_told_in_the_plans_that_use_it_through_another_too(yard, told) -> None:
    write(yard, {"shared/sites.stackplan": SHARED + "  spots 4\n"})
    assert told() == {"shared/sites.stackplan", "between.stackplan", "sub/user.stackplan"}


def test_a_used_file_that_was_taken_away_is_told_in_the_plans_that_used_it(yard, told) -> None:
    git(yard, "rm", "--quiet", "shared/sites.stackplan")
    assert told() == {"between.stackplan", "sub/user.stackplan"}


def test_house_rules_at_the_top_concern_every_plan(yard, told) -> None:
    rules = "skip lift-too-heavy because 'a forklift'\n".replace("'", '"')
    write(yard, {"house.rules": rules})
    everyone = {name for name in FILES if name.endswith(".stackplan")}
    assert told() == everyone
    committed(yard)
    assert told(revision="HEAD") == set()
    git(yard, "rm", "--quiet", "house.rules")
    assert told(revision="HEAD") == everyone


def test_house_rules_of_a_folder_concern_the_plans_below_it(yard, told) -> None:
    write(yard, {"sub/deep/house.rules": "change end-sticker-missing\n  limit  spoiled = 21 in\n"})
    assert told() == {"sub/deep/deep.stackplan"}
    write(yard, {"sub/house.rules": "# none\n"})
    assert told() == {"sub/deep/deep.stackplan", "sub/user.stackplan"}


def test_house_rules_that_were_taken_away_concern_the_plans_below_them(yard, told) -> None:
    git(yard, "rm", "--quiet", "sub/deep/house.rules")
    assert told() == {"sub/deep/deep.stackplan"}


def test_house_rules_named_on_the_command_line_count_if_they_are_of_the_project(yard, told, tmp_path) -> None:
    write(yard, {"mill.rules": ""})
    committed(yard)
    outside = tmp_path / "outside.rules"
    outside.write_text("", encoding="utf-8")
    assert told(".", "--house", str(outside)) == set()
    assert "alone.stackplan" in told(".", "--house", "mill.rules")


def test_what_main_has_gained_since_does_not_count(yard, told) -> None:
    write(yard, {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    committed(yard)
    git(yard, "switch", "--quiet", "main")
    write(yard, {"sub/user.stackplan": pile("User", stacked="2026-03-03")})
    committed(yard)
    git(yard, "switch", "--quiet", "work")
    assert told() == {"alone.stackplan"}


@pytest.mark.parametrize("revision", ["main", "HEAD", "main^{commit}", "HEAD@{0}", "start", "HEAD^{/was changed}"])
def test_a_revision_is_named_in_any_way_that_git_knows(yard, told, revision) -> None:
    git(yard, "tag", "start")
    write(yard, {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    assert told(revision=revision) == {"alone.stackplan"}


def test_a_commit_is_named_by_its_number(yard, told) -> None:
    assert told(revision=git(yard, "rev-parse", "--short", "main").strip()) == set()


def test_an_annotated_tag_is_its_commit(yard, told) -> None:
    git(yard, "tag", "-a", "-m", "a release", "v1")
    assert told(revision="v1") == set()


# What is found between plans.


@pytest.fixture
def shared(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two piles in one spot, and two more in another: each pair is a finding between two plans."""
    files = {
        "one.stackplan": pile("One", "row 1", "2026-03-01", SHARED),
        "two.stackplan": pile("Two", "row 1", "2026-03-08", SHARED),
        "three.stackplan": pile("Three", "row 2", "2026-03-01", SHARED),
        "four.stackplan": pile("Four", "row 2", "2026-03-08", SHARED),
    }
    made = project(tmp_path / "yard", files)
    monkeypatch.chdir(made)
    return made


def clashes(capsys: pytest.CaptureFixture[str]) -> list[str]:
    """The plans in which a clash over a spot is told."""
    main(["check", ".", "--since", "main", "--as", "lines", "--today", "2026-06-01"])
    lines = capsys.readouterr().out.splitlines()
    return [line.partition(":")[0] for line in lines if "[spot-double-booked]" in line]


def test_a_clash_is_told_where_one_of_the_two_plans_was_changed_and_not_between_two_others(shared, capsys) -> None:
    assert clashes(capsys) == []
    write(shared, {"one.stackplan": pile("One", "row 1", "2026-03-02", SHARED)})
    assert clashes(capsys) == ["two.stackplan"]


def test_a_clash_is_in_json_and_in_sarif_though_the_plan_that_it_is_told_in_was_not_changed(shared, capsys) -> None:
    write(shared, {"one.stackplan": pile("One", "row 1", "2026-03-02", SHARED)})
    words = ["check", ".", "--since", "main", "--today", "2026-06-01", "--as"]
    main([*words, "json"])
    plans = {plan["path"]: plan for plan in json.loads(capsys.readouterr().out)["plans"]}
    assert set(plans) == {"one.stackplan", "two.stackplan"}
    assert plans["two.stackplan"]["stacks"] == []
    assert [each["rule"] for each in plans["two.stackplan"]["findings"]] == ["spot-double-booked"]
    main([*words, "sarif"])
    results = json.loads(capsys.readouterr().out)["runs"][0]["results"]
    assert "spot-double-booked" in {each["ruleId"] for each in results}


CHARGE = """\
use "{pile}.stackplan"

kiln "Box"
  type dehumidification
  inside 17 ft x 5 ft x 6 ft
  holds 1400 bf

charge "Last" in kiln "Box"
  from pile "{name}"
  starts {day}
  want 8%
"""


def test_a_clash_of_two_piles_is_told_where_a_charge_that_takes_one_of_them_was_changed(shared, capsys) -> None:
    """The pile stands longer in its spot when its charge comes later."""
    write(shared, {"charge.stackplan": CHARGE.format(pile="one", name="One", day="2026-03-05")})
    committed(shared)
    git(shared, "branch", "--force", "main", "work")
    assert main(["check", ".", "--as", "lines", "--today", "2026-06-01"]) == 1
    assert "Pile One (one" not in capsys.readouterr().out
    write(shared, {"./charge.stackplan": CHARGE.format(pile="one", name="One", day="2026-05-05")})
    assert clashes(capsys) == ["two.stackplan"]


def test_the_screen_says_how_many_plans_can_be_affected(shared, capsys) -> None:
    write(shared, {"one.stackplan": pile("One", "row 1", "2026-03-02", SHARED)})
    main(["check", ".", "--since", "main", "--today", "2026-06-01", "--as", "screen"])
    assert "1 of 4 plans can be affected since main." in capsys.readouterr().out


def test_a_page_shows_the_whole_yard_and_not_a_part(shared, capsys) -> None:
    assert main(["check", str(shared), "--since", "main", "--as", "html"]) == 2
    assert "--since does not go with --as html" in capsys.readouterr().err


# What cannot be told.


@pytest.mark.usefixtures("yard")
def test_a_revision_that_is_not_there_is_told_with_the_way_to_get_it(capsys) -> None:
    said = refused(capsys, "origin/release")
    assert said.startswith("stacklint check: --since finds no revision origin/release in ")
    assert said.endswith("fetch it (git fetch origin release), or name another")


@pytest.mark.parametrize("revision", ["-n", "--output=x", "", "  ", "main..work", "a\nb", "HEAD:sub", "no\0thing"])
def test_what_is_no_revision_is_refused_in_a_line(yard, capsys, revision) -> None:
    assert "revision" in refused(capsys, revision)
    assert not (yard / "x").exists()


def test_a_folder_without_version_control_is_told(tmp_path, monkeypatch, capsys) -> None:
    (tmp_path / "a.stackplan").write_text(pile("A"), encoding="utf-8")
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    monkeypatch.chdir(tmp_path)
    assert "not a git repository" in refused(capsys, "main")


@pytest.mark.usefixtures("yard")
def test_where_git_is_not_installed_that_is_told(capsys, monkeypatch) -> None:
    monkeypatch.setenv("PATH", "")
    assert refused(capsys, "main") == "stacklint check: --since needs git, which is not installed"


def program(folder: Path, does: str) -> str:
    """A folder in which git is a script that does something else."""
    folder.mkdir()
    (folder / "git").write_text(f"#!/bin/sh\n{does}\n", encoding="utf-8")
    (folder / "git").chmod(0o755)
    return f"{folder}{os.pathsep}{os.environ['PATH']}"


@pytest.mark.usefixtures("yard")
def test_a_git_that_does_not_answer_is_not_waited_for(tmp_path, capsys, monkeypatch) -> None:
    monkeypatch.setenv("PATH", program(tmp_path / "bin", "exec sleep 30"))
    monkeypatch.setattr("stacklint.running.since._PATIENCE", 0.2)
    assert "got no answer" in refused(capsys, "main")


@pytest.mark.usefixtures("yard")
def test_what_git_refuses_is_told_in_its_words_and_in_a_line(tmp_path, capsys, monkeypatch) -> None:
    monkeypatch.setenv(
        "PATH", program(tmp_path / "bin", "printf 'fatal: \\033[31mout of luck\\nhint: more\\n' >&2; exit 128")
    )
    assert refused(capsys, "main").endswith("yard: \\x1b[31mout of luck")


def test_a_repository_of_somebody_else_is_not_read_and_the_way_to_trust_it_is_told(yard, capsys, monkeypatch) -> None:
    monkeypatch.setenv("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1")
    said = refused(capsys, "main")
    if "ownership" not in said:
        pytest.skip("this git asks for no owner")
    assert f"git config --global --add safe.directory {yard}" in said


def test_in_a_copy_without_a_common_commit_the_revision_itself_is_compared(yard, tmp_path, told, monkeypatch) -> None:
    for name in ("2026-03-02", "2026-03-03"):
        write(yard, {"alone.stackplan": pile("Alone", stacked=name)})
        committed(yard)
    git(yard, "switch", "--quiet", "main")
    write(yard, {"sub/user.stackplan": pile("User", stacked="2026-03-05")})
    committed(yard)
    git(tmp_path, "clone", "--quiet", "--depth=1", "--no-single-branch", "--branch=work", yard.as_uri(), "copy")
    monkeypatch.chdir(tmp_path / "copy")
    assert told(revision="origin/main") == {"alone.stackplan", "sub/user.stackplan"}


def test_a_history_without_a_common_commit_is_compared_likewise(yard, told) -> None:
    git(yard, "switch", "--quiet", "--orphan", "anew")
    write(yard, FILES | {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    committed(yard)
    assert told() == {"alone.stackplan"}


# Where plans lie.


@pytest.mark.parametrize("name", ["a b", "a'b\"c", "a\nb", "Föhre 木", "a\\b", "-a", "a\tb", "\udcff"])
def test_names_of_any_kind_are_known_again(tmp_path, monkeypatch, told, name) -> None:
    files = {f"x/{name}.stackplan": pile("A"), f"x/{name} 2.stackplan": pile("B")}
    try:
        yard = project(tmp_path / "yard", files)
    except (OSError, ValueError):
        pytest.skip("this disk takes no such name")
    monkeypatch.chdir(yard)
    assert told() == set()
    write(yard, {f"x/{name}.stackplan": pile("A", stacked="2026-03-02")})
    assert len(told()) == 1


def test_a_folder_below_the_repository_s_top_and_a_whole_path_are_known_again(yard, told, monkeypatch) -> None:
    write(yard, {"sub/user.stackplan": pile("User")})
    assert told("sub") == {"sub/user.stackplan"}
    monkeypatch.chdir(yard / "sub")
    assert told() == {"user.stackplan"}
    assert told("../alone.stackplan") == set()
    whole = (yard / "sub").as_posix()
    assert told(whole) == {f"{whole}/user.stackplan"}


def test_a_repository_that_is_reached_by_a_link_is_known(yard, told, tmp_path, monkeypatch) -> None:
    (tmp_path / "link").symlink_to(yard)
    monkeypatch.chdir(tmp_path)
    assert told("link") == set()
    write(yard, {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    assert told("link") == {"link/alone.stackplan"}


def test_a_link_is_changed_where_it_leads_elsewhere_or_what_it_leads_to_is(yard, told) -> None:
    (yard / "link.stackplan").symlink_to("between.stackplan")
    committed(yard)
    assert told("link.stackplan", revision="HEAD") == set()
    write(yard, {"between.stackplan": FILES["between.stackplan"] + "# more\n"})
    assert told("link.stackplan", revision="HEAD") == {"link.stackplan"}
    write(yard, {"between.stackplan": FILES["between.stackplan"]})
    (yard / "link.stackplan").unlink()
    (yard / "link.stackplan").symlink_to("alone.stackplan")
    assert told("link.stackplan", revision="HEAD") == {"link.stackplan"}


def test_a_checkout_with_line_ends_of_its_own_is_not_changed(yard, told) -> None:
    content = (yard / "alone.stackplan").read_bytes()
    (yard / "alone.stackplan").write_bytes(content.replace(b"\n", b"\r\n"))
    assert told() == set()


def test_a_second_worktree_has_its_own_state(yard, told, tmp_path, monkeypatch) -> None:
    git(yard, "worktree", "add", "--quiet", str(tmp_path / "other"), "-b", "other", "main")
    write(tmp_path / "other", {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    assert told() == set()
    monkeypatch.chdir(tmp_path / "other")
    assert told() == {"alone.stackplan"}


def test_a_submodule_has_a_history_of_its_own(yard, told, tmp_path) -> None:
    project(tmp_path / "mill", {"mill.stackplan": pile("Mill")})
    git(yard, "submodule", "--quiet", "add", (tmp_path / "mill").as_uri(), "mill")
    git(yard / "mill", "branch", "--quiet", "--force", "main", "HEAD")
    committed(yard)
    assert told() == set()
    write(yard / "mill", {"mill.stackplan": pile("Mill", stacked="2026-03-02")})
    assert told() == {"mill/mill.stackplan"}


@pytest.mark.usefixtures("yard")
def test_in_a_hook_of_another_repository_the_plan_s_own_is_asked(told, tmp_path, monkeypatch) -> None:
    other = project(tmp_path / "other", {"a.txt": "a"})
    monkeypatch.setenv("GIT_DIR", str(other / ".git"))
    monkeypatch.setenv("GIT_WORK_TREE", str(other))
    assert told() == set()


def test_a_repository_of_long_names_of_contents_is_read(tmp_path, told, monkeypatch) -> None:
    folder = tmp_path / "yard"
    folder.mkdir()
    try:
        git(folder, "init", "--quiet", "--object-format=sha256")
    except subprocess.CalledProcessError:
        pytest.skip("this git has but one kind of names")
    monkeypatch.chdir(project(folder, FILES))
    assert told() == set()
    write(folder, {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    assert told() == {"alone.stackplan"}


def test_plans_of_two_repositories_are_each_compared_with_their_own(tmp_path, told, monkeypatch) -> None:
    for name in ("hill", "river"):
        project(tmp_path / name, {f"{name}.stackplan": pile(name)})
    write(tmp_path / "river", {"river.stackplan": pile("river", stacked="2026-03-02")})
    monkeypatch.chdir(tmp_path)
    assert told("hill", "river") == {"river/river.stackplan"}


# Nothing of the repository is run.


def test_no_program_that_the_repository_names_is_run(yard, told, tmp_path) -> None:
    marker = tmp_path / "ran"
    script = tmp_path / "harm"
    script.write_text(f"#!/bin/sh\necho \"$0 $@\" >> '{marker}'\ncat\n", encoding="utf-8")
    script.chmod(0o755)
    hooks = tmp_path / "hooks"
    hooks.mkdir()
    for name in ("post-index-change", "reference-transaction", "post-checkout", "fsmonitor-watchman"):
        (hooks / name).symlink_to(script)
    write(yard, {".gitattributes": "* filter=harm diff=harm merge=harm\n", "alone.stackplan": pile("Alone", "x")})
    committed(yard)
    settings = {
        **{name: str(script) for name in ("core.fsmonitor", "core.pager", "core.editor", "core.sshCommand")},
        **{name: str(script) for name in ("diff.external", "diff.harm.command", "diff.harm.textconv")},
        **{f"filter.harm.{name}": str(script) for name in ("clean", "smudge", "process")},
        **{f"alias.{name}": f"!{script}" for name in ("rev-parse", "ls-tree", "merge-base")},
        **{f"pager.{name}": str(script) for name in ("rev-parse", "ls-tree", "merge-base")},
        "core.hooksPath": str(hooks),
        "gpg.program": str(script),
        "log.showSignature": "true",
        "credential.helper": f"!{script}",
        "core.alternateRefsCommand": str(script),
        "remote.origin.url": f"ext::{script}",
        "protocol.ext.allow": "always",
        "remote.origin.promisor": "true",
    }
    for name, value in settings.items():
        git(yard, "config", name, value)
    # The index is older than the file, so that a question about files would have to open it.
    os.utime(yard / "alone.stackplan", (1, 1))
    assert told() == {"alone.stackplan"}
    assert not marker.exists(), marker.read_text(encoding="utf-8")
    # A question about files runs some of them.
    git(yard, "status")
    assert marker.exists()


def test_nothing_is_fetched_where_a_copy_lacks_what_is_asked_for(yard, tmp_path, capsys) -> None:
    marker = tmp_path / "ran"
    script = tmp_path / "harm"
    script.write_text(f"#!/bin/sh\ntouch '{marker}'\n", encoding="utf-8")
    script.chmod(0o755)
    tree = git(yard, "rev-parse", "main^{tree}").strip()
    write(yard, {"alone.stackplan": pile("Alone", stacked="2026-03-02")})
    committed(yard)
    for name, value in {
        "core.repositoryFormatVersion": "1",
        "extensions.partialClone": "origin",
        "remote.origin.promisor": "true",
        "remote.origin.url": f"ext::{script}",
        "protocol.ext.allow": "always",
    }.items():
        git(yard, "config", name, value)
    (yard / ".git" / "objects" / tree[:2] / tree[2:]).unlink()
    assert "--since cannot tell what changed" in refused(capsys, "main")
    assert not marker.exists()


def test_nothing_of_the_repository_is_written(yard, told) -> None:
    os.utime(yard / "alone.stackplan", (1, 1))

    def state() -> dict[str, tuple[int, int]]:
        found = {str(each): each.stat() for each in (yard / ".git").rglob("*")}
        return {name: (status.st_mtime_ns, status.st_size) for name, status in found.items()}

    before = state()
    told()
    assert state() == before
