"""The command as a process: what it loads, how it ends, what a terminal gets."""

import os
import pty
import signal
import subprocess
import sys
from pathlib import Path

import pytest

COMMAND = [sys.executable, "-m", "stacklint"]
HEAVY = {"numpy", "scipy", "pint", "jsonschema", "jinja2"}
REPORTING = f"""
import sys
from stacklint.command.main import main
code = main(sys.argv[1:])
print(code, *sorted({HEAVY | {"rich"}!r} & set(sys.modules)), file=sys.stderr)
"""


def loaded(yard, form, out):
    words = ["check", "sound.stackplan", "--as", form, "--out", out]
    done = subprocess.run(
        [sys.executable, "-c", REPORTING, *words], cwd=yard, capture_output=True, text=True, check=True
    )
    code, *modules = done.stderr.split()
    assert code == "0"
    return set(modules)


@pytest.mark.parametrize("form", ["lines", "json", "sarif"])
def test_a_clean_check_loads_nothing_heavy(yard, form):
    assert loaded(yard, form, "report.txt") == set()


def test_the_screen_loads_what_draws_and_nothing_heavy(yard):
    assert loaded(yard, "screen", "report.txt") == {"rich"}


def test_a_reader_who_leaves_early_is_no_matter(yard):
    plan = (yard / "hanging.stackplan").read_text(encoding="utf-8")
    (yard / "many.stackplan").write_text("".join(plan.replace('"B2"', f'"B{i}"') for i in range(300)), encoding="utf-8")
    process = subprocess.Popen(
        [*COMMAND, "check", "many.stackplan"], cwd=yard, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    process.stdout.close()
    assert process.stderr.read() == b""
    assert process.wait(timeout=60) == 2


def test_an_interrupt_ends_it_quietly(yard):
    process = subprocess.Popen(
        [*COMMAND, "check", "-"], cwd=yard, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    # More than a pipe holds: when all of it is written, the reading has begun.
    process.stdin.write(b"#" * 1_000_000)
    process.stdin.flush()
    process.send_signal(signal.SIGINT)
    _, told = process.communicate(timeout=60)
    assert told == b""
    assert process.returncode == 130


@pytest.mark.parametrize("setting", [{"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "C"}])
def test_a_screen_without_block_elements_gets_ascii(yard, setting):
    done = subprocess.run(
        [*COMMAND, "check", "hanging.stackplan", "--as", "screen"],
        cwd=yard,
        capture_output=True,
        env=os.environ | setting,
        check=False,
    )
    assert done.returncode == 1
    assert done.stdout.isascii()
    assert b"====" in done.stdout


def on_a_terminal(yard, **setting):
    reader, terminal = pty.openpty()
    environ = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS")}
    process = subprocess.Popen(
        [*COMMAND, "check", "hanging.stackplan"], cwd=yard, stdout=terminal, env=environ | {"TERM": "xterm"} | setting
    )
    os.close(terminal)
    shown = b""
    while True:
        try:
            part = os.read(reader, 65536)
        except OSError:
            break
        if not part:
            break
        shown += part
    os.close(reader)
    assert process.wait(timeout=60) == 1
    return shown.decode("utf-8")


def test_a_terminal_gets_the_drawing_and_colour(yard):
    shown = on_a_terminal(yard)
    assert "█" in shown
    assert "\x1b[1;31m" in shown


def test_no_color_is_honoured(yard):
    shown = on_a_terminal(yard, NO_COLOR="1")
    assert "█" in shown
    assert "31m" not in shown


def test_a_dumb_terminal_gets_no_controls(yard):
    assert "\x1b" not in on_a_terminal(yard, TERM="dumb")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device here that is always full")
def test_a_full_disk_is_told_in_one_line(yard):
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run([*COMMAND, "check", "."], cwd=yard, stdout=full, stderr=subprocess.PIPE, check=False)
    assert done.returncode == 2
    assert done.stderr == b"stacklint: no space left on device; the report is not whole\n"
