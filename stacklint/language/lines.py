"""Cuts a text into logical lines: a line that ends in a comma goes on in the next."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stacklint.language.line import Line, Log

MOST_LINES = 100_000
LONGEST = 20_000
"""Characters in a logical line. A statement of a thousand positions has fewer."""

_BEFORE_COMMENT = re.compile(r'(?:[^"“#]|(?<=[\d¼½¾⅛⅜⅝⅞])""?|["“][^"“”\n]*["”])*+')
"""A mark right behind a figure means inches; elsewhere it opens a name, in which # is a character like others."""


def logical_lines(text: str, path: str, log: Log) -> Iterator[Line]:
    """The lines of a text that say something. Lines beyond all measure are faults."""
    if text.startswith("\ufeff"):
        text = text[1:]
    held: list[str] = []
    length = 0
    start = 1
    for number, raw in enumerate(text.split("\n"), 1):
        if number > MOST_LINES:
            Line(path, number, raw[:1], log).fault(
                Line(path, number, " ", log).where(0, 1),
                f"The text has more than {MOST_LINES:,} lines; the rest is not read.",
                "Part it into several plans.",
            )
            break
        if not held:
            start, length = number, 0
        raw = raw.removesuffix("\r")
        length += len(raw) + 1
        if length > LONGEST:
            _too_long(path, number, log)
            held = []
            continue
        held.append(raw)
        if goes_on(raw, bool(held[:-1])):
            continue
        yield Line(path, start, held[0] if len(held) == 1 else "\n".join(held), log)
        held = []
    if held:
        yield Line(path, start, "\n".join(held), log)


def goes_on(raw: str, going_on: bool) -> bool:
    """Whether a line ends in a comma, a comment apart. A line without words leaves that as it was."""
    if "#" in raw:
        raw = without_comment(raw)
    raw = raw.rstrip()
    return raw.endswith(",") or (going_on and not raw)


def without_comment(raw: str) -> str:
    match = _BEFORE_COMMENT.match(raw)
    end = match.end() if match else 0
    return raw[:end] if raw[end : end + 1] == "#" else raw


def _too_long(path: str, number: int, log: Log) -> None:
    line = Line(path, number, " ", log)
    line.fault(
        line.where(0, 1),
        f"This line, with those that it goes on over, has more than {LONGEST:,} characters.",
        "A plan has one statement a line; part it, or take out what is no plan.",
    )
