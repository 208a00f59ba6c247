"""JSON written piece by piece, so that a report of ten thousand plans need not stand in memory as one text."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import NamedTuple


class Laid(NamedTuple):
    """A value that is JSON text already, laid out as :func:`pieces` would with nothing before it."""

    text: str


def pieces(value: object, depth: int = 0) -> Iterator[str]:
    """The value as ``json.dumps`` lays it out with an indent of 1; an iterator in it becomes a list, item by item.

    Raises:
        ValueError: for a number that is not finite.
    """
    if isinstance(value, dict) and value:
        yield "{"
        for number, (key, member) in enumerate(value.items()):
            yield f"{',' if number else ''}{_line(depth + 1)}{json.dumps(key)}: "
            yield from pieces(member, depth + 1)
        yield f"{_line(depth)}}}"
    elif isinstance(value, Iterator):
        yield from _items(value, depth)
    else:
        text = value.text if isinstance(value, Laid) else json.dumps(value, indent=1, allow_nan=False)
        yield text.replace("\n", _line(depth))


def _items(items: Iterator[object], depth: int) -> Iterator[str]:
    empty = True
    for item in items:
        yield f"{'[' if empty else ','}{_line(depth + 1)}"
        yield from pieces(item, depth + 1)
        empty = False
    yield "[]" if empty else f"{_line(depth)}]"


def _line(depth: int) -> str:
    return "\n" + " " * depth
