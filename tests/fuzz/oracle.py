"""What must hold of every answer, whatever was asked: places inside their texts, and JSON that is JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import NoReturn

from stacklint.where import NOWHERE, Where


def inside(where: Where, text: str) -> None:
    """The stretch lies in the text: from a character of it to one past a character, not backwards.

    A place may be one past the last character of its line, where something is missing.
    """
    if where == NOWHERE:
        return
    lines = [line.removesuffix("\r") for line in text.removeprefix("\ufeff").split("\n")]
    assert 1 <= where.line <= where.end_line <= len(lines), f"{where} lies outside a text of {len(lines)} lines"
    assert (where.line, where.column) <= (where.end_line, where.end_column), f"{where} runs backwards"
    for line, column, most in (
        (where.line, where.column, 1),
        (where.end_line, where.end_column, 2),
    ):
        wide = len(lines[line - 1])
        assert 1 <= column <= wide + most, f"{where} lies outside its line of {wide} characters"


def told_plainly(said: Iterable[str]) -> None:
    """Nothing a text holds is printed that would steer a terminal."""
    for text in said:
        steering = [character for character in text if not character.isprintable() and character not in "\n\t"]
        assert not steering, f"{text!r} would steer a terminal"


def strict_json(text: str) -> object:
    """The value of a JSON text (RFC 8259), in which neither NaN nor an infinity is a number."""
    return json.loads(text, parse_constant=_refused)


def _refused(name: str) -> NoReturn:
    raise AssertionError(f"{name} is no JSON")
