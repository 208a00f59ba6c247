"""``stacklint mend`` shows or makes the smallest changes that clear what a check finds."""

import shutil
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest

from stacklint.command.main import main

pytestmark = pytest.mark.usefixtures("yard")

AT = ("--today", "2026-06-01")


def test_a_mend_is_shown_as_a_diff_with_its_finding_and_its_reason(capsys, yard):
    before = (yard / "hanging.stackplan").read_text(encoding="utf-8")
    assert main(["mend", "hanging.stackplan", *AT]) == 1
    shown = capsys.readouterr().out
    assert shown.startswith("hanging.stackplan, line 3: The end of white ash 4/4 x 6 in x 8 ft hangs 24 in past")
    assert "(end-sticker-missing, error)\nSet the outer stickers 3 in from the ends." in shown
    assert "--- hanging.stackplan\n+++ hanging.stackplan\n@@ " in shown
    assert "\n-  stickers 3/4 in x 1 1/4 in, every 24 in, 24 in from ends, dry, 4 ft long\n" in shown
    assert "\n+  stickers 3/4 in x 1 1/4 in, every 24 in, 3 in from ends, dry, 4 ft long\n" in shown
    assert (yard / "hanging.stackplan").read_text(encoding="utf-8") == before


def test_a_plan_without_findings_is_passed_over_in_silence(capsys, yard):
    path = yard / "sound.stackplan"
    path.write_text(path.read_text(encoding="utf-8").replace("every 16 in\n", "every 16 in, on 8 in x 16 in pads\n"))
    assert main(["mend", "sound.stackplan", *AT]) == 0
    assert capsys.readouterr() == ("", "")


def test_what_is_written_is_told_and_then_there_is_nothing_to_mend(capsys):
    assert main(["mend", "hanging.stackplan", "--write", *AT]) == 0
    assert (
        "hanging.stackplan: Set the outer stickers 3 in from the ends. (end-sticker-missing)" in capsys.readouterr().out
    )
    assert main(["check", "hanging.stackplan", "--fail-at", "warning", *AT]) == 0
    capsys.readouterr()
    assert main(["mend", "hanging.stackplan", *AT]) == 0


def test_a_folder_is_mended_plan_by_plan(yard):
    assert main(["mend", str(yard), "--write", *AT]) == 0
    assert "24 in from ends" not in (yard / "hanging.stackplan").read_text(encoding="utf-8")


def test_only_the_rules_asked_for_are_mended(yard):
    path = yard / "hanging.stackplan"
    text = path.read_text(encoding="utf-8").replace("clearance 14 in", "clearance 5 in")
    path.write_text(text, encoding="utf-8")
    assert main(["mend", str(path), "--write", "--only", "clearance-too-low", *AT]) == 0
    after = path.read_text(encoding="utf-8")
    assert "clearance 12 in" in after
    assert "24 in from ends" in after


def test_a_rule_that_there_is_not_is_answered_with_the_nearest(capsys):
    assert main(["mend", "hanging.stackplan", "--only", "clearence-too-low"]) == 2
    assert "there is no rule clearence-too-low; did you mean clearance-too-low?" in capsys.readouterr().err


def test_what_only_a_person_can_decide_is_said_with_exit_code_1(capsys, yard):
    path = yard / "uneven.stackplan"
    text = (yard / "hanging.stackplan").read_text(encoding="utf-8")
    text = text.replace("24 in from ends", "3 in from ends").replace("gravel, flat", "gravel, twisted")
    path.write_text(text, encoding="utf-8")
    assert main(["mend", str(path), "--write", *AT]) == 1
    shown = capsys.readouterr().out
    assert "(ground-not-flat, error) Left to you: The plan tells what was measured" in shown
    assert path.read_text(encoding="utf-8") == text


def test_a_note_that_is_left_fails_nothing(capsys, yard):
    path = yard / "assumed.stackplan"
    text = (yard / "sound.stackplan").read_text(encoding="utf-8").replace("  ground concrete, flat\n", "")
    path.write_text(text, encoding="utf-8")
    assert main(["mend", str(path), *AT]) == 0
    assert "Left to you: Only you know what is so" in capsys.readouterr().out


def test_standard_input_comes_out_mended(yard):
    text = (yard / "hanging.stackplan").read_bytes()
    told = subprocess.run(
        [sys.executable, "-m", "stacklint", "mend", "-", "--write", *AT], input=text, capture_output=True, check=False
    )
    assert told.returncode == 0
    assert told.stdout == text.replace(b"24 in from ends", b"3 in from ends")
    assert b"Left to you: Only you know what is so" in told.stderr


def test_standard_input_that_is_to_be_written_goes_alone(capsys):
    assert main(["mend", "-", "sound.stackplan", "--write"]) == 2
    assert "goes alone" in capsys.readouterr().err


def test_no_path_is_told(capsys):
    assert main(["mend"]) == 2
    assert "name a plan, a folder or - for standard input" in capsys.readouterr().err


def test_a_file_that_is_not_there_is_exit_code_2_and_the_others_are_mended(capsys, yard):
    assert main(["mend", "gone.stackplan", "hanging.stackplan", "--write", *AT]) == 2
    assert "gone.stackplan: there is no such file" in capsys.readouterr().err
    assert "3 in from ends" in (yard / "hanging.stackplan").read_text(encoding="utf-8")


def test_line_ends_and_byte_order_mark_of_a_file_are_kept(yard):
    path = yard / "hanging.stackplan"
    raw = b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n")
    path.write_bytes(raw)
    assert main(["mend", str(path), "--write", *AT]) == 0
    assert path.read_bytes() == raw.replace(b"24 in from ends", b"3 in from ends")


def test_a_read_only_plan_is_left_whole(capsys, yard):
    path = yard / "hanging.stackplan"
    before = path.read_bytes()
    path.chmod(0o444)
    assert main(["mend", str(path), "--write", *AT]) == 2
    assert "is read-only; it was left as it is" in capsys.readouterr().err
    assert path.read_bytes() == before
    assert sorted(each.name for each in yard.glob("*")) == [".git", "hanging.stackplan", "sound.stackplan"]


def test_a_plan_that_another_program_changes_meanwhile_is_left_to_it(capsys, monkeypatch, yard):
    path = yard / "hanging.stackplan"
    from stacklint import mending

    real = mending.mended

    def slow(*arguments, **named):
        found = real(*arguments, **named)
        path.write_text("# somebody else's\n", encoding="utf-8")
        return found

    monkeypatch.setattr(mending, "mended", slow)
    assert main(["mend", str(path), "--write", *AT]) == 2
    assert "was changed by another program meanwhile" in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "# somebody else's\n"


def test_house_rules_are_what_is_mended_for(capsys, yard):
    (yard / "house.rules").write_text(
        'change clearance-too-low\n  limit    least = 18 in  source "our wet yard"\n', encoding="utf-8"
    )
    main(["mend", "hanging.stackplan", "--only", "clearance-too-low", *AT])
    assert "\n+  clearance 18 in\n" in capsys.readouterr().out


def test_a_control_in_a_plan_cannot_steer_the_terminal(capsys, yard):
    path = yard / "hanging.stackplan"
    path.write_text(path.read_text(encoding="utf-8").replace("open yard", "open yard # \x1b[31m"), encoding="utf-8")
    main(["mend", str(path), *AT])
    assert "\x1b" not in capsys.readouterr().out


@pytest.mark.skipif(shutil.which("patch") is None, reason="patch is not installed")
def test_what_is_shown_can_be_applied_as_a_patch(capsys, yard):
    path = yard / "hanging.stackplan"
    text = path.read_text(encoding="utf-8").replace("clearance 14 in", "clearance 5 in")
    path.write_text(text, encoding="utf-8")
    main(["mend", "hanging.stackplan", *AT])
    shown = capsys.readouterr().out
    subprocess.run(["patch", "-p0"], input=shown, text=True, check=True, capture_output=True, cwd=yard)
    patched = path.read_text(encoding="utf-8")
    path.write_text(text, encoding="utf-8")
    main(["mend", "hanging.stackplan", "--write", *AT])
    assert path.read_text(encoding="utf-8") == patched


def test_at_a_terminal_sentences_are_folded_between_words() -> None:
    plan = Path(__file__).parents[2] / "examples" / "drying" / "promised-wrong.stackplan"
    words = ["-m", "stacklint", "mend", str(plan), "--today", "2026-06-01"]
    console = pexpect.spawn(sys.executable, words, timeout=60, dimensions=(40, 80), encoding="utf-8")
    console.expect(pexpect.EOF)
    shown = console.before or ""
    told = [line for line in shown.splitlines() if "published for" in line or "by forecast" in line]
    assert told
    assert all(len(line) <= 80 or " " not in line for line in shown.splitlines())
