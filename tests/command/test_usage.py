"""A command that is not written as it must be is answered in one line, with exit code 2."""

import pytest

from stacklint import __version__
from stacklint.command.main import main


def refused(capsys, *words):
    assert main(words) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    (line,) = shown.err.splitlines()
    return line


@pytest.mark.parametrize(
    "wrong, meant", [("chek", "check"), ("taly", "tally"), ("Why", "why"), ("forcast", "forecast")]
)
def test_a_misspelt_command_is_answered_with_the_nearest(capsys, wrong, meant):
    assert f"did you mean {meant}?" in refused(capsys, wrong, "b2.stackplan")


def test_a_command_like_no_other_is_answered_with_the_list(capsys):
    told = refused(capsys, "zzz")
    assert "there is no command zzz; there are " in told
    assert all(f" {name}" in told for name in ("check", "convert", "tally", "why"))


def test_an_option_before_the_command_is_told_to_follow_it(capsys):
    assert "the command comes first, before --as" in refused(capsys, "--as", "json", "check", "b2.stackplan")


@pytest.mark.parametrize(
    "words, told",
    [
        (["check"], "name a plan, a folder or - for standard input"),
        (["tally"], "name a plan, or - for standard input"),
        (["arrange"], "name a plan, a folder or - for standard input"),
        (["begin", "--woods", "x"], "there is no option --woods; did you mean --wood?"),
        (["mend"], "name a plan, a folder or - for standard input"),
        (["mend", "x", "--writ"], "there is no option --writ; did you mean --write?"),
        (["convert"], "name a tally in comma-separated values, or - for standard input"),
        (["forecast"], "name a plan or two, or - for standard input"),
        (["forecast", "a", "b", "c"], "c is one plan too many; two can be compared"),
        (["forecast", "x", "--as", "sarif"], "'sarif' is no form of report; choose screen, json or csv"),
        (["forecast", "x", "--today", "June"], "'June' is no date; write year, month and day, as 2026-04-02"),
        (["forecast", "x", "--stak", "B2"], "there is no option --stak; did you mean --stack?"),
        (["check", "x", "--as", "csv"], "'csv' is no form of report; choose screen, lines, json, sarif or html"),
        (["check", "--hose", "x"], "there is no option --hose; did you mean --house?"),
        (["check", "--fail=note", "x"], "there is no option --fail; did you mean --fail-at?"),
        (["check", "x", "--as"], "--as: expected one argument"),
        (["check", "--as", "pdf", "x"], "'pdf' is no form of report; choose screen, lines, json, sarif or html"),
        (["tally", "--as", "sarif", "x"], "'sarif' is no form of report; choose screen or json"),
        (["check", "--fail-at", "fatal", "x"], "'fatal' is no level; choose error, warning, note or never"),
        (["check", "--today", "04/02/2026", "x"], "'04/02/2026' is no date; write year, month and day, as 2026-04-02"),
        (["check", "--today", "2026-02-30", "x"], "'2026-02-30' is no date"),
        (["tally", "a", "b"], "b is one word too many"),
        (["why", "sag-betwen-stickers"], "did you mean sag-between-stickers?"),
    ],
)
def test_what_cannot_be_taken_is_told_in_one_line(capsys, words, told):
    assert told in refused(capsys, *words)


def test_a_control_in_what_was_typed_is_written_out(capsys):
    assert "\\x1b" in refused(capsys, "\x1b[31m")


def test_without_a_word_the_commands_are_listed(capsys):
    assert main([]) == 2
    assert "check " in capsys.readouterr().err


@pytest.mark.parametrize(
    "words",
    [
        ["--help"],
        ["-h"],
        ["check", "--help"],
        ["tally", "-h"],
        ["why", "--help"],
        ["forecast", "-h"],
        ["tidy", "--help"],
        ["begin", "-h"],
        ["arrange", "-h"],
    ],
)
def test_help_tells_what_a_command_does_and_shows_an_example(capsys, words):
    assert main(words) == 0
    shown = capsys.readouterr().out
    assert "example:\n  stacklint " in shown
    assert max(len(line) for line in shown.splitlines()) <= 88


def test_the_version_is_told(capsys):
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"stacklint {__version__}\n"
