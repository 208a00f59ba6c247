"""``stacklint completion``: a script by which a shell completes the words of the command line."""

from __future__ import annotations

import argparse
import sys

from stacklint.command.usage import Parser, shell

SUMMARY = "a script by which bash, zsh or fish completes the words of stacklint"


def parser() -> Parser:
    parser = Parser(
        "completion",
        "Prints a script by which a shell completes commands, options, their values and the\n"
        "names of rules. It is made once, of this version's commands; the shell then asks\n"
        "nothing of stacklint.\n\n"
        "  bash   echo 'eval \"$(stacklint completion bash)\"' >> ~/.bashrc\n"
        "  zsh    stacklint completion zsh > _stacklint, in a folder of $fpath\n"
        "  fish   stacklint completion fish > ~/.config/fish/completions/stacklint.fish",
        '  eval "$(stacklint completion bash)"',
    )
    parser.add_argument("shell", nargs="?", type=shell, metavar="SHELL", help="bash, zsh or fish")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if options.shell is None:
        usage.error("name a shell: bash, zsh or fish")
    from stacklint.command.completion_scripts import script
    from stacklint.command.main import MODULES
    from stacklint.command.shapes import commands
    from stacklint.rulebook import builtin

    sys.stdout.write(script(options.shell, commands(MODULES, builtin().names)))
    return 0
