"""Nothing is written but where it was asked for, and never half of it."""

from __future__ import annotations

import os
import stat
import threading
from pathlib import Path

import pytest

from stacklint.command.drafting import drafted
from stacklint.command.main import main

PLAN = 'pile "B2"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n'
TODAY = ["--today", "2026-06-01"]
REPORTS = (
    ["check", "b2.stackplan", "--as", "lines", *TODAY, "--out", "out"],
    ["check", "b2.stackplan", "--as", "json", *TODAY, "--out", "out"],
    ["check", "b2.stackplan", "--as", "html", *TODAY, "--out", "out"],
    ["sheet", "b2.stackplan", *TODAY, "--out", "out"],
    ["tally", "b2.stackplan", "--as", "json", "--out", "out"],
    ["forecast", "b2.stackplan", "--as", "csv", *TODAY, "--out", "out"],
    ["calendar", "b2.stackplan", "--as", "ics", *TODAY, "--out", "out"],
    ["why", "no-cover", "--out", "out"],
    ["begin", "--wood", "white ash", "--count", "60", *TODAY, "--overwrite", "--out", "out"],
)
"""Every command that writes a file beside the plan."""


@pytest.fixture
def yard(tmp_path, monkeypatch):
    folder = tmp_path / "yard"
    (folder / ".git").mkdir(parents=True)
    (folder / "b2.stackplan").write_text(PLAN, encoding="utf-8")
    monkeypatch.chdir(folder)
    return folder


def words(command):
    return " ".join(command[:4])


@pytest.mark.parametrize("command", [*REPORTS, ["check", ".", *TODAY, "--accept-today", "out"]], ids=words)
def test_a_command_writes_the_file_that_it_was_told_and_no_other(yard, command):
    before = {path: path.read_bytes() for path in yard.iterdir() if path.is_file()}
    main(command)
    after = {path: path.read_bytes() for path in yard.iterdir() if path.is_file()}
    assert after.pop(yard / "out")
    assert after == before


@pytest.mark.parametrize("command", REPORTS, ids=words)
def test_no_report_is_written_through_a_symbolic_link(yard, tmp_path, command, capsys):
    """As a hostile branch could plant one where CI writes its report."""
    secret = tmp_path / "authorized_keys"
    secret.write_text("mine\n")
    (yard / "out").symlink_to(secret)
    assert main(command) == 2
    assert "symbolic link" in capsys.readouterr().err
    assert secret.read_text() == "mine\n"
    assert (yard / "out").is_symlink()


def test_no_report_is_written_through_a_link_that_leads_nowhere_yet(yard, tmp_path):
    (yard / "out").symlink_to(tmp_path / "new")
    assert main(REPORTS[0]) == 2
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize("command", REPORTS, ids=words)
def test_a_writing_that_fails_leaves_the_old_file_and_nothing_beside_it(yard, command, monkeypatch, capsys):
    (yard / "out").write_text("old\n")
    names = sorted(path.name for path in yard.iterdir())

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert main(command) == 2
    assert "out cannot be written: no space left on device" in capsys.readouterr().err
    assert (yard / "out").read_text() == "old\n"
    assert sorted(path.name for path in yard.iterdir()) == names


def test_a_report_keeps_the_mode_of_the_one_before(yard):
    (yard / "out").write_text("old\n")
    (yard / "out").chmod(0o604)
    main(REPORTS[0])
    assert stat.S_IMODE((yard / "out").stat().st_mode) == 0o604
    assert (yard / "out").read_text() != "old\n"


def test_a_new_report_has_the_mode_that_new_files_have(yard):
    (yard / "other").touch()
    main(REPORTS[0])
    assert (yard / "out").stat().st_mode == (yard / "other").stat().st_mode


def test_a_read_only_report_is_left_and_told(yard, capsys):
    (yard / "out").write_text("old\n")
    (yard / "out").chmod(0o444)
    assert main(REPORTS[0]) == 2
    assert capsys.readouterr().err == "stacklint: out cannot be written: it is read-only\n"
    assert (yard / "out").read_text() == "old\n"


def test_a_reader_sees_the_old_content_or_the_new_and_never_part_of_it(tmp_path):
    path = tmp_path / "report"
    contents = (b"a" * 300_000, b"b" * 200_000)
    path.write_bytes(contents[0])
    seen: set[bytes] = set()
    done = threading.Event()

    def read():
        while not done.is_set():
            seen.add(path.read_bytes())

    reader = threading.Thread(target=read)
    reader.start()
    for number in range(40):
        with drafted(path) as out:
            for start in range(0, len(contents[number % 2]), 50_000):
                out.write(contents[number % 2][start : start + 50_000])
    done.set()
    reader.join()
    assert seen <= set(contents)


def test_a_draft_is_never_written_over_a_file_that_is_there(tmp_path, monkeypatch):
    monkeypatch.setattr("secrets.token_hex", lambda _: "0")
    (tmp_path / "secret").write_text("mine\n")
    (tmp_path / ".stacklint-0").symlink_to(tmp_path / "secret")
    with pytest.raises(FileExistsError), drafted(tmp_path / "report") as out:
        out.write(b"theirs\n")
    assert (tmp_path / "secret").read_text() == "mine\n"
    assert (tmp_path / ".stacklint-0").is_symlink()


@pytest.mark.skipif(not Path("/dev/stdout").exists(), reason="no such device here")
def test_a_device_is_written_to_and_stays_a_device():
    reader, writer = os.pipe()
    main(["why", "no-cover", "--out", f"/dev/fd/{writer}"])
    os.close(writer)
    with os.fdopen(reader, "rb") as told:
        assert told.read().startswith(b"no-cover")
    assert Path("/dev/stdout").is_symlink()


@pytest.mark.parametrize(
    "command",
    [
        ["check", ".", *TODAY],
        ["tally", "b2.stackplan"],
        ["forecast", "b2.stackplan", *TODAY],
        ["arrange", "b2.stackplan"],
        ["mend", "b2.stackplan", *TODAY],
        ["tidy", "--check", "--diff", "."],
        ["why", "no-cover"],
        ["rules-test"],
        ["begin", "--wood", "white ash", "--count", "60", *TODAY],
    ],
    ids=words,
)
def test_a_command_that_is_not_told_to_write_writes_nothing(yard, command):
    before = {path: path.read_bytes() for path in yard.rglob("*") if path.is_file()}
    main(command)
    assert {path: path.read_bytes() for path in yard.rglob("*") if path.is_file()} == before


@pytest.mark.parametrize("command", [["tidy", "."], ["mend", "--write", ".", *TODAY], ["arrange", "--write", "."]])
def test_no_plan_is_changed_through_a_link_that_leads_out_of_the_project(yard, tmp_path, command):
    far = tmp_path / "far.stackplan"
    far.write_text(PLAN.replace("pile", "PILE"), encoding="utf-8")
    (yard / "link.stackplan").symlink_to(far)
    main(command)
    assert far.read_text() == PLAN.replace("pile", "PILE")
