"""``stacklint tidy`` in an invented yard: what is written, what is told, and what is left alone."""

import io
import os
import shutil
import stat
import subprocess
import sys

import pytest

from stacklint.command.main import main
from stacklint.command.rewriting import rewrite

ROUGH = 'pile "B2"  # the long one\nwind along\n\nplace yard\n'
TIDY = 'pile "B2"  # the long one\n  place yard\n  wind along\n'
SLIPPED = 'pile "B2"\nwind along\nplase yard\n'


@pytest.fixture
def rough(yard):
    """A plan that is not tidy, beside the sound and the hanging one, which are."""
    path = yard / "b2.stackplan"
    path.write_bytes(ROUGH.encode())
    return path


def said(capsys):
    shown = capsys.readouterr()
    return shown.out, shown.err


def test_a_plan_is_tidied_where_it_stands(rough, capsys):
    assert main(["tidy", "b2.stackplan"]) == 0
    assert rough.read_text() == TIDY
    assert said(capsys) == ("b2.stackplan tidied\n", "")


@pytest.mark.usefixtures("rough")
def test_a_folder_is_tidied_and_what_is_tidy_is_not_written(yard, capsys):
    before = (yard / "sound.stackplan").stat()
    assert main(["tidy", "."]) == 0
    assert said(capsys) == ("b2.stackplan tidied\n", "")
    assert (yard / "sound.stackplan").stat() == before
    assert sorted(path.name for path in yard.iterdir()) == [
        ".git",
        "b2.stackplan",
        "hanging.stackplan",
        "sound.stackplan",
    ]


def test_a_check_names_what_is_not_tidy_and_writes_nothing(rough, capsys):
    assert main(["tidy", "--check", "."]) == 1
    assert said(capsys) == ("b2.stackplan is not tidy\n", "")
    assert rough.read_text() == ROUGH


@pytest.mark.usefixtures("yard")
def test_a_check_of_tidy_plans_passes_and_says_nothing(capsys):
    assert main(["tidy", "--check", "--diff", "."]) == 0
    assert said(capsys) == ("", "")


def test_a_difference_is_shown_and_nothing_is_written(rough, capsys):
    assert main(["tidy", "--diff", "b2.stackplan"]) == 0
    out, err = said(capsys)
    assert out.splitlines() == [
        "--- b2.stackplan",
        "+++ b2.stackplan",
        "@@ -1,4 +1,3 @@",
        ' pile "B2"  # the long one',
        "-wind along",
        "-",
        "-place yard",
        "+  place yard",
        "+  wind along",
    ]
    assert err == ""
    assert rough.read_text() == ROUGH


@pytest.mark.usefixtures("rough")
def test_a_difference_with_a_check_fails(capsys):
    assert main(["tidy", "--diff", "--check", "b2.stackplan"]) == 1
    assert said(capsys)[0].startswith("b2.stackplan is not tidy\n--- b2.stackplan\n")


@pytest.mark.skipif(shutil.which("patch") is None, reason="the standard tool patch is not installed")
def test_the_difference_is_what_patch_applies(rough, capsys):
    """``patch`` of POSIX.1-2024 (Shell & Utilities)."""
    main(["tidy", "--diff", "b2.stackplan"])
    subprocess.run(["patch", "-s", "-p0"], input=said(capsys)[0].encode(), cwd=rough.parent, check=True)
    assert rough.read_text() == TIDY


def test_a_line_that_cannot_be_read_is_told_and_the_rest_is_tidied(rough, capsys):
    rough.write_text(SLIPPED)
    assert main(["tidy", "b2.stackplan"]) == 0
    assert rough.read_text() == 'pile "B2"\n  wind along\nplase yard\n'
    assert said(capsys)[1] == (
        "stacklint: b2.stackplan:3: cannot be read and stays as it is; stacklint check says why\n"
    )


def stand_in(monkeypatch, raw):
    class Input:
        buffer = io.BytesIO(raw)

    monkeypatch.setattr(sys, "stdin", Input())


def test_standard_input_is_tidied_to_standard_output_with_its_line_ends(monkeypatch, capfdbinary):
    stand_in(monkeypatch, b"\xef\xbb\xbf" + ROUGH.replace("\n", "\r\n").encode())
    assert main(["tidy", "-"]) == 0
    assert capfdbinary.readouterr().out == b"\xef\xbb\xbf" + TIDY.replace("\n", "\r\n").encode()


def test_standard_input_can_be_checked(monkeypatch, capsys):
    stand_in(monkeypatch, ROUGH.encode())
    assert main(["tidy", "--check", "-"]) == 1
    assert said(capsys)[0] == "standard input is not tidy\n"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "name a plan, a folder or - for standard input"),
        (["-", "b2.stackplan"], "- goes alone: its tidied text is all that is written"),
        (["--chek", "x"], "there is no option --chek; did you mean --check?"),
    ],
)
@pytest.mark.usefixtures("yard")
def test_what_cannot_be_taken_is_told_in_one_line(capsys, words, told):
    assert main(["tidy", *words]) == 2
    (line,) = said(capsys)[1].splitlines()
    assert told in line


@pytest.mark.usefixtures("rough")
def test_what_cannot_be_read_as_text_is_told_and_the_others_are_tidied(yard, capsys):
    (yard / "a.stackplan").write_bytes(b"\xff\x00")
    assert main(["tidy", "missing.stackplan", "."]) == 2
    out, err = said(capsys)
    assert out == "b2.stackplan tidied\n"
    assert "missing.stackplan: there is no such file" in err
    assert "a.stackplan: is not UTF-8 text" in err


def test_line_ends_and_a_byte_order_mark_stay_in_the_file(rough):
    rough.write_bytes(b"\xef\xbb\xbf" + ROUGH.replace("\n", "\r\n").encode())
    assert main(["tidy", "b2.stackplan"]) == 0
    assert rough.read_bytes() == b"\xef\xbb\xbf" + TIDY.replace("\n", "\r\n").encode()


def test_the_mode_of_a_file_stays(rough):
    rough.chmod(0o640)
    assert main(["tidy", "b2.stackplan"]) == 0
    assert stat.S_IMODE(rough.stat().st_mode) == 0o640


def test_a_symbolic_link_stays_and_the_file_that_it_leads_to_is_tidied(rough, yard):
    (yard / "shared").mkdir()
    rough.rename(yard / "shared" / "b2.plan")
    rough.symlink_to("shared/b2.plan")
    assert main(["tidy", "b2.stackplan"]) == 0
    assert rough.is_symlink()
    assert (yard / "shared" / "b2.plan").read_text() == TIDY


def test_a_read_only_plan_is_left_and_told(rough, capsys):
    rough.chmod(0o444)
    assert main(["tidy", "b2.stackplan"]) == 2
    assert said(capsys)[1] == "stacklint: b2.stackplan: is read-only; it was left as it is\n"
    assert rough.read_text() == ROUGH


def test_a_plan_that_was_changed_since_it_was_read_is_left(rough):
    rough.write_text(ROUGH + "ends coated\n")
    trouble = rewrite("b2.stackplan", ROUGH, TIDY)
    assert trouble is not None
    assert "was changed by another program meanwhile" in trouble.message
    assert rough.read_text() == ROUGH + "ends coated\n"


LIMITED = """
import resource, signal, sys
from stacklint.command.main import main
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (20, 20))
sys.exit(main(["tidy", "b2.stackplan"]))
"""
STOPPED = """
import os, sys
from stacklint.command.main import main
os.fsync = lambda descriptor: os._exit(9)
sys.exit(main(["tidy", "b2.stackplan"]))
"""


def files(folder):
    return sorted(path.name for path in folder.iterdir() if path.is_file())


@pytest.mark.skipif(os.name != "posix", reason="the limit is one of POSIX")
def test_a_disk_without_room_leaves_the_old_plan_whole_and_no_draft(rough, yard):
    """The system refuses to write more than 20 bytes to a file, as a full disk does (POSIX.1-2024, setrlimit)."""
    before = files(yard)
    done = subprocess.run([sys.executable, "-c", LIMITED], capture_output=True, text=True, timeout=60)
    assert done.returncode == 2
    assert done.stderr == "stacklint: b2.stackplan: cannot be written: file too large; it is as it was\n"
    assert rough.read_text() == ROUGH
    assert files(yard) == before


def test_a_program_that_dies_while_it_writes_leaves_the_old_plan_whole(rough):
    done = subprocess.run([sys.executable, "-c", STOPPED], capture_output=True, timeout=60)
    assert done.returncode == 9
    assert rough.read_text() == ROUGH
    assert main(["tidy", "--check", "."]) == 1  # the draft that is left is not taken for a plan
    assert main(["tidy", "."]) == 0
    assert rough.read_text() == TIDY


def test_an_interrupt_before_the_new_text_stands_leaves_the_old_plan_whole(rough, yard, monkeypatch):
    def interrupted(*_):
        raise KeyboardInterrupt

    before = files(yard)
    monkeypatch.setattr("pathlib.Path.replace", interrupted)
    assert main(["tidy", "b2.stackplan"]) == 130
    assert rough.read_text() == ROUGH
    assert files(yard) == before
