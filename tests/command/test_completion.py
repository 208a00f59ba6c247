"""The scripts of ``stacklint completion`` complete what the parsers take, in the shells themselves."""

import shutil
import subprocess

import pexpect
import pytest

from stacklint.command.main import MODULES, main
from stacklint.rulebook import builtin

pytestmark = pytest.mark.usefixtures("yard")

COMPLETED = [
    ("chec", {"check"}),
    ("check --as ", {"screen", "lines", "json", "sarif", "html"}),
    ("check --as js", {"json"}),
    ("tally --as ", {"screen", "json"}),
    ("check --fail-at ", {"error", "warning", "note", "never"}),
    ("check --fail", {"--fail-at"}),
    ("check --ho", {"--house"}),
    ("why end-st", {"end-sticker-missing"}),
    ("why ", set(builtin().names)),
    ("rules-test --as ", {"lines", "json"}),
    ("completion ", {"bash", "zsh", "fish"}),
]
EVERY = pytest.mark.parametrize("typed, offered", COMPLETED)


def needs(shell):
    return pytest.mark.skipif(shutil.which(shell) is None, reason=f"{shell} is not installed")


@pytest.fixture
def script(yard, capsys):
    """Writes the script of a shell and gives its path."""

    def write(shell):
        assert main(["completion", shell]) == 0
        path = yard / f"completion.{shell}"
        path.write_text(capsys.readouterr().out, encoding="utf-8")
        return path

    return write


def printed(*words):
    return subprocess.run(words, capture_output=True, text=True, check=True, timeout=60).stdout.splitlines()


def bash_offers(path, typed):
    words = f"stacklint {typed}".split(" ")
    quoted = " ".join(f"'{word}'" for word in words)
    return printed(
        "bash",
        "--norc",
        "-c",
        f"source {path}; COMP_WORDS=({quoted}); COMP_CWORD={len(words) - 1}; _stacklint; "
        'printf "%s\\n" "${COMPREPLY[@]}"',
    )


@EVERY
def test_bash_completes_what_may_be_said(script, typed, offered):
    assert set(bash_offers(script("bash"), typed)) == offered


def test_bash_offers_every_command_first(script):
    assert set(bash_offers(script("bash"), "")) == {*MODULES, "--help", "--version"}


def test_bash_completes_behind_an_equals_sign(script):
    # bash parts the words at the sign.
    assert bash_offers(script("bash"), "check --as = js") == ["json"]
    assert set(bash_offers(script("bash"), "tally --as =")) == {"screen", "json"}


@needs("fish")
@EVERY
def test_fish_completes_what_may_be_said(script, typed, offered):
    lines = printed("fish", "--no-config", "-c", f"source {script('fish')}; complete -C 'stacklint {typed}'")
    assert {line.split("\t")[0] for line in lines} == offered


class Terminal:
    """A shell at a terminal, in which a key completes words."""

    def __init__(self, shell, script):
        words = {"bash": ["--norc", "--noprofile", "-i"], "zsh": ["-f", "-i"]}[shell]
        self._shell = pexpect.spawn(shell, words, encoding="utf-8", dimensions=(50, 200), timeout=20)
        settle = {"bash": "bind 'set enable-bracketed-paste off'", "zsh": "autoload -Uz compinit; compinit -D -u"}[
            shell
        ]
        self._shell.sendline(settle)
        self._shell.sendline(f"source {script}; stacklint() {{ printf '<%s>' \"$@\"; echo; }}; echo rea''dy")
        self._shell.expect("ready\r\n")

    def words(self, typed):
        """What the words typed come to when the tabulator key is pressed behind them."""
        self._shell.send(f"stacklint {typed}\t")
        self._shell.send("\r")
        self._shell.expect(r"\r\n(<[^\r]*>)\r\n")
        return self._shell.match.group(1)


@pytest.mark.parametrize("shell", ["bash", pytest.param("zsh", marks=needs("zsh"))])
def test_at_a_terminal_the_tabulator_completes_words_and_files(script, yard, shell):
    (yard / "north lot.stackplan").write_text("", encoding="utf-8")
    terminal = Terminal(shell, script(shell))
    assert terminal.words("chec") == "<check>"
    assert terminal.words("check --as js") == "<check><--as><json>"
    assert terminal.words("check --as=js") == "<check><--as=json>"
    assert terminal.words("why end-st") == "<why><end-sticker-missing>"
    assert terminal.words("check nor") == "<check><north lot.stackplan>"
    assert terminal.words("check --house nor") == "<check><--house><north lot.stackplan>"


@pytest.mark.parametrize(
    "words, told", [([], "name a shell: bash, zsh or fish"), (["csh"], "choose bash, zsh or fish")]
)
def test_a_shell_that_is_not_known_is_told(capsys, words, told):
    assert main(["completion", *words]) == 2
    assert told in capsys.readouterr().err
