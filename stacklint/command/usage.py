"""Reading a command's words: options with plain answers to what cannot be taken."""

from __future__ import annotations

import argparse
import datetime
from collections.abc import Iterable, Sequence
from enum import Enum
from typing import NoReturn

from stacklint.findings import Level


class UsageError(Exception):
    """The command was not written as it must be; the text is one line that says why and what to write."""


class Shell(Enum):
    """A shell that completes words."""

    BASH = "bash"
    ZSH = "zsh"
    FISH = "fish"


class Report(Enum):
    """The forms of a report."""

    SCREEN = "screen"
    LINES = "lines"
    JSON = "json"
    SARIF = "sarif"
    CSV = "csv"
    HTML = "html"
    ICS = "ics"


NEVER = "never"
_MOST_PROCESSES = 256
MOST_MONTHS = 60
"""Months of a calendar: more are not told apart on a screen or a page."""


class Parser(argparse.ArgumentParser):
    """An argument parser that raises :class:`UsageError` and takes options only in full."""

    def __init__(self, name: str, description: str, example: str) -> None:
        super().__init__(
            prog=f"stacklint {name}",
            description=description,
            epilog=f"example:\n{example}",
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )

    def error(self, message: str) -> NoReturn:
        raise UsageError(f"{self.prog}: {message.removeprefix('argument ')} (more: {self.prog} --help)")

    @property
    def actions(self) -> tuple[argparse.Action, ...]:
        """Its options and operands, in the order that they are told in."""
        return tuple(self._actions)

    def read(self, words: Sequence[str]) -> argparse.Namespace:
        """The options in ``words``.

        Raises:
            UsageError: for an unknown option or one without its value.
        """
        options, unknown = self.parse_known_args(words)
        if unknown:
            self._refuse(unknown[0])
        return options

    def _refuse(self, word: str) -> NoReturn:
        if not word.startswith("-"):
            self.error(f"{word} is one word too many")
        known = [option for action in self._actions for option in action.option_strings if option.startswith("--")]
        name = word.partition("=")[0]
        self.error(f"there is no option {name}{did_you_mean(name, known)}")


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """*; did you mean check?*, or the list of what there is."""
    from difflib import get_close_matches

    known = list(known)
    close = get_close_matches(name.lower(), known, n=1, cutoff=0.5)
    return f"; did you mean {close[0]}?" if close else f"; there are {', '.join(known)}"


_OF_FINDINGS = (Report.SCREEN, Report.LINES, Report.JSON, Report.SARIF, Report.HTML)


def report(text: str, offered: Sequence[Report] = _OF_FINDINGS) -> Report:
    for each in offered:
        if each.value == text:
            return each
    raise argparse.ArgumentTypeError(f"'{text}' is no form of report; choose {_choice(each.value for each in offered)}")


def shell(text: str) -> Shell:
    for each in Shell:
        if each.value == text:
            return each
    raise argparse.ArgumentTypeError(f"'{text}' is no known shell; choose {_choice(each.value for each in Shell)}")


def screen_or_json(text: str) -> Report:
    return report(text, (Report.SCREEN, Report.JSON))


def lines_or_json(text: str) -> Report:
    return report(text, (Report.LINES, Report.JSON))


def screen_or_html(text: str) -> Report:
    return report(text, (Report.SCREEN, Report.HTML))


def screen_json_or_csv(text: str) -> Report:
    return report(text, (Report.SCREEN, Report.JSON, Report.CSV))


def screen_json_html_or_ics(text: str) -> Report:
    return report(text, (Report.SCREEN, Report.JSON, Report.HTML, Report.ICS))


def fail_level(text: str) -> Level | None:
    """The level from which on findings make a check fail; ``None`` for never."""
    if text == NEVER:
        return None
    for level in Level:
        if level.value == text:
            return level
    words = [*(level.value for level in Level), NEVER]
    raise argparse.ArgumentTypeError(f"'{text}' is no level; choose {_choice(words)}")


def day(text: str) -> datetime.date:
    try:
        return datetime.datetime.strptime(text, "%Y-%m-%d").date()
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is no date; write year, month and day, as 2026-04-02") from None


def month(text: str) -> datetime.date:
    """The first day of a month."""
    try:
        return datetime.datetime.strptime(text, "%Y-%m").date()
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is no month; write year and month, as 2026-04") from None


def months(text: str) -> int:
    return _number(text, "months", MOST_MONTHS)


def processes(text: str) -> int:
    return _number(text, "processes", _MOST_PROCESSES)


def _number(text: str, of: str, most: int) -> int:
    try:
        number = int(text)
    except ValueError:
        number = 0
    if not 0 < number <= most:
        raise argparse.ArgumentTypeError(f"'{text}' is no number of {of}; write one from 1 to {most}")
    return number


def _choice(words: Iterable[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} or {last}"
