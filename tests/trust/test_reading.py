"""On a plan's behalf nothing is read but plans and house rules of its own project."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest
from hostile_yard import TODAY, told

from stacklint.files import lending, plans, read
from stacklint.language import UsedText, UseRefused

SECRET = "token-of-the-yard"
KILN = 'kiln "K"\n  type solar\n'
PLAN = 'pile "B2"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n'


@pytest.fixture
def yard(tmp_path, monkeypatch):
    """A project with what nobody is to see beside it and in it."""
    folder = tmp_path / "yard"
    (folder / ".git").mkdir(parents=True)
    (folder / ".git" / "config").write_text(f"[http]\n  extraheader = {SECRET}\n")
    (folder / ".env").write_text(f"KEY={SECRET}\n")
    (folder / "sub").mkdir()
    (folder / "b2.stackplan").write_text(PLAN)
    (tmp_path / "outside.stackplan").write_text(f"{SECRET}\n")
    (tmp_path / "yard-2").mkdir()
    (tmp_path / "yard-2" / "near.stackplan").write_text(f"{SECRET}\n")
    monkeypatch.chdir(folder)
    return folder


def checked(*words: str) -> str:
    return "".join(told(["check", *words, "--as", "lines", *TODAY]))


OUTSIDE = (
    "../outside.stackplan",
    "sub/../../outside.stackplan",
    "./././../outside.stackplan",
    "{parent}/outside.stackplan",
    "//{parent}/outside.stackplan",
    "../yard-2/near.stackplan",
    "../YARD/../outside.stackplan",
    "~/outside.stackplan",
    "$HOME/outside.stackplan",
    "file://{parent}/outside.stackplan",
    "/proc/self/environ",
    "/proc/self/cwd/../outside.stackplan",
    "/dev/stdin",
    "/dev/fd/0",
    "/etc/passwd",
)
NO_PLAN = (".git/config", ".GIT/config", ".env", "sub/../.env", "house.rules", "/proc/self/cwd/.env")


@pytest.mark.parametrize("name", [*OUTSIDE, *NO_PLAN])
def test_a_use_of_what_is_no_plan_of_the_project_is_refused_and_quotes_nothing(yard, name):
    (yard / "house.rules").write_text(f"# {SECRET}\n")
    (yard / "b2.stackplan").write_text(f'use "{name.format(parent=yard.parent)}"\n{PLAN}')
    said = checked("b2.stackplan")
    assert "b2.stackplan:1:5: error: The file" in said
    assert SECRET not in said


@pytest.mark.parametrize("target", ["../outside.stackplan", "../yard-2", ".git/config", ".env", "/proc/self/environ"])
def test_a_link_in_the_project_opens_nothing_that_its_target_s_own_name_would_not(yard, target):
    (yard / "sub" / "link.stackplan").symlink_to(os.path.relpath(yard / target, yard / "sub"))
    (yard / "b2.stackplan").write_text(f'use "sub/link.stackplan"\nuse "sub/link.stackplan/near.stackplan"\n{PLAN}')
    said = checked("b2.stackplan")
    assert said.count("error: The file sub/link.stackplan") == 2
    assert SECRET not in said


@pytest.mark.parametrize("target", ["../outside.stackplan", ".git/config", ".env"])
def test_a_link_met_in_a_folder_is_told_and_not_followed(yard, target):
    (yard / "link.stackplan").symlink_to(target)
    said = checked(".")
    assert "stacklint: link.stackplan: is a link to a file that" in said
    assert SECRET not in said


def test_a_link_to_a_plan_of_the_project_is_followed(yard):
    (yard / "sub" / "link.stackplan").symlink_to("../b2.stackplan")
    (found,) = plans(["sub"])
    assert found.text == PLAN


@pytest.mark.parametrize("target", ["../outside.rules", ".git/config", ".env"])
def test_house_rules_that_are_a_link_to_something_else_are_told_and_not_read(yard, target):
    (yard.parent / "outside.rules").write_text(f"{SECRET}\n")
    (yard / "house.rules").symlink_to(target)
    said = checked("b2.stackplan")
    assert "stacklint: house.rules: leads out of the project or to no file of rules" in said
    assert SECRET not in said


def test_devices_pipes_and_sockets_in_a_project_are_refused_and_not_waited_for(yard):
    os.mkfifo(yard / "pipe.stackplan")
    os.mkfifo(yard / "house.rules")
    (yard / "null.stackplan").symlink_to("/dev/null")
    with socket.socket(socket.AF_UNIX) as made:
        made.bind("socket.stackplan")
        (yard / "b2.stackplan").write_text('use "pipe.stackplan"\nuse "null.stackplan"\nuse "socket.stackplan"\n')
        said = checked("b2.stackplan", "pipe.stackplan", "socket.stackplan")
    assert said.count("is a device or a pipe") == 4
    assert "null.stackplan lies outside the project" in said


def test_a_pipe_that_takes_a_plan_s_name_while_it_is_opened_is_not_waited_for(yard, monkeypatch):
    """Its state was asked for when it still was a file."""
    before = (yard / "b2.stackplan").stat()
    (yard / "b2.stackplan").unlink()
    os.mkfifo(yard / "b2.stackplan")
    monkeypatch.setattr(Path, "stat", lambda *_, **__: before)
    assert "a device or a pipe" in read("b2.stackplan").message


def test_a_link_that_takes_a_plan_s_name_after_it_was_judged_is_not_followed(yard, monkeypatch):
    (yard / "used.stackplan").write_text(KILN)
    resolve = Path.resolve

    def resolved_and_swapped(path, strict=False):
        found = resolve(path, strict)
        if path.name == "used.stackplan":
            path.unlink()
            path.symlink_to(yard.parent / "outside.stackplan")
        return found

    monkeypatch.setattr(Path, "resolve", resolved_and_swapped)
    assert isinstance(lending(yard)("used.stackplan", "b2.stackplan"), UseRefused)


def test_a_file_that_grows_beyond_measure_while_it_is_read_is_refused(yard, monkeypatch):
    monkeypatch.setattr("stacklint.files.LARGEST", 100)
    small = (yard / "b2.stackplan").stat()
    (yard / "b2.stackplan").write_text("#" * 1000)
    monkeypatch.setattr("stacklint.files.os.fstat", lambda _: small)
    monkeypatch.setattr(Path, "stat", lambda *_, **__: small)
    assert "larger than" in read("b2.stackplan").message


def test_plans_that_use_each_other_by_many_names_are_read_once(yard):
    """Folders that are links to themselves give a file as many names as there are ways round."""
    for name in ("d", "e"):
        (yard / name).symlink_to(".")
    (yard / "b2.stackplan").write_text('use "d/b2.stackplan"\nuse "e/b2.stackplan"\n' + PLAN)
    lend = lending(yard.resolve())
    one, other = lend("d/b2.stackplan", "b2.stackplan"), lend("e/b2.stackplan", "d/b2.stackplan")
    assert isinstance(one, UsedText)
    assert one == other
    assert "uses itself" in checked("b2.stackplan")


def test_no_path_is_told_that_nobody_gave_and_nothing_of_the_environment(yard, monkeypatch):
    """Where the project lies on a disk is nobody's business."""
    monkeypatch.setenv("YARD_TOKEN", SECRET)
    for form in ("lines", "screen", "json", "sarif", "html"):
        said = "".join(told(["check", "b2.stackplan", "gone", "--as", form, *TODAY]))
        assert said
        assert str(yard.parent) not in said
        assert SECRET not in said
