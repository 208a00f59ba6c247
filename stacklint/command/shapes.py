"""The commands and their options as a shell needs them: told by the parsers, so that nothing is said twice."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Mapping
from enum import Enum
from importlib import import_module
from typing import NamedTuple

from stacklint.command.usage import NEVER, Parser, Report, Shell
from stacklint.findings import Level


class Kind(Enum):
    """What may stand in a place of the command line."""

    FILES = "files"
    FOLDERS = "folders"
    WORDS = "words"
    ANYTHING = "anything"


class Value(NamedTuple):
    """What stands behind an option, or by itself; ``words`` are all there are, where they are known."""

    kind: Kind
    words: tuple[str, ...] = ()


class Option(NamedTuple):
    """An option: its names, what it does in a line, and its value if it takes one."""

    names: tuple[str, ...]
    does: str
    value: Value | None


class Command(NamedTuple):
    """A command: what it does, its options, and what stands behind them, if anything does."""

    name: str
    does: str
    options: tuple[Option, ...]
    operand: Value | None


def commands(modules: Mapping[str, str], rules: Iterable[str]) -> tuple[Command, ...]:
    """The shape of every command. ``rules`` are the rules that may be asked for."""
    return tuple(_command(name, module, tuple(rules)) for name, module in modules.items())


def _command(name: str, module: str, rules: tuple[str, ...]) -> Command:
    loaded = import_module(module)
    parser: Parser = loaded.parser()
    options = tuple(_option(action, rules) for action in parser.actions if action.option_strings)
    operands = [_value(action, rules) for action in parser.actions if not action.option_strings]
    return Command(name, loaded.SUMMARY, options, operands[0] if operands else None)


def _option(action: argparse.Action, rules: tuple[str, ...]) -> Option:
    does = (action.help or "").replace("%%", "%").partition(";")[0]
    return Option(tuple(action.option_strings), does, None if action.nargs == 0 else _value(action, rules))


def _value(action: argparse.Action, rules: tuple[str, ...]) -> Value:
    """What the word for the value in a help text stands for. Of forms and levels those that the option takes."""
    named = str(action.metavar)
    if named in ("FILE", "PATH", "PLAN"):
        return Value(Kind.FILES)
    if named == "FOLDER":
        return Value(Kind.FOLDERS)
    if action.choices is not None:
        return Value(Kind.WORDS, tuple(map(str, action.choices)))
    if named == "RULE":
        return Value(Kind.WORDS, rules)
    known = {
        "FORM": [form.value for form in Report],
        "LEVEL": [*(level.value for level in Level), NEVER],
        "SHELL": [shell.value for shell in Shell],
    }
    if named in known:
        return Value(Kind.WORDS, tuple(word for word in known[named] if _takes(action, word)))
    return Value(Kind.ANYTHING)


def _takes(action: argparse.Action, word: str) -> bool:
    if not callable(action.type):
        return True
    try:
        action.type(word)
    except argparse.ArgumentTypeError:
        return False
    return True
