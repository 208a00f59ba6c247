"""Words in columns: tables whose cells are folded, and paragraphs beside a label."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from textwrap import wrap

from stacklint.report.plain import plain

_BETWEEN = "  "
_UNBROKEN = 20
"""A longer word, such as a path, may be parted."""
LABEL = 9
"""Columns of a label, the blank after it included."""


def table(rows: Sequence[Sequence[str]], width: int) -> Iterator[str]:
    """Columns set flush left, the first row their heads. Cells are folded where ``width`` asks for it.

    Where not even the longest words have room beside each other, each row becomes a paragraph that names the heads.
    """
    if not rows:
        return
    rows = [[plain(cell) for cell in row] for row in rows]
    widths = _widths(rows, width)
    if any(_longest_word(column) > size for column, size in zip(zip(*rows, strict=True), widths, strict=True)):
        yield from _paragraphs(rows, width)
        return
    for row in rows:
        cells = [_wrapped(cell, size) for cell, size in zip(row, widths, strict=True)]
        for parts in zip_longest(*cells, fillvalue=""):
            padded = (part.ljust(size) for part, size in zip(parts, widths, strict=True))
            yield _BETWEEN.join(padded).rstrip()


def beside(label: str, paragraphs: Sequence[str], width: int) -> Iterator[str]:
    """The paragraphs, folded, with the label before the first line and blanks before the others."""
    before = label
    for paragraph in paragraphs:
        for line in _wrapped(plain(paragraph), max(width - LABEL, 10)):
            yield f"{before:<{LABEL}}{line}"
            before = ""


def folded(text: str, width: int) -> Iterator[str]:
    """One paragraph, folded."""
    yield from _wrapped(plain(text), width)


def side_by_side(items: Sequence[str], width: int) -> Iterator[str]:
    """Short items, several on a line where there is room; none is parted unless it is wider than a line."""
    line = ""
    for item in items:
        if line and len(line) + 3 + len(item) > width:
            yield from folded(line, width)
            line = ""
        line = f"{line}   {item}" if line else item
    yield line


def _wrapped(text: str, width: int) -> list[str]:
    """Dates and nominal sizes are not parted at their hyphens."""
    return wrap(text, width, break_on_hyphens=False)


def _paragraphs(rows: Sequence[Sequence[str]], width: int) -> Iterator[str]:
    heads, *others = rows
    for label, *cells in others:
        said = "; ".join(f"{head} {cell}" for head, cell in zip(heads[1:], cells, strict=True))
        yield from _wrapped(f"{label}: {said}", width)


def _longest_word(column: Sequence[str]) -> int:
    return max((min(len(word), _UNBROKEN) for cell in column for word in cell.split()), default=0)


def _widths(rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """Narrow columns keep what they need; wide ones share what is left."""
    columns = list(zip(*rows, strict=True))
    needs = [max(len(cell) for cell in column) for column in columns]
    room = width - len(_BETWEEN) * (len(needs) - 1)
    if sum(needs) <= room:
        return needs
    widths = [0] * len(needs)
    order = sorted(range(len(needs)), key=needs.__getitem__)
    for place, index in enumerate(order):
        share = max(room // (len(needs) - place), _longest_word(columns[index]))
        widths[index] = max(min(needs[index], share, room), 1)
        room -= widths[index]
    return widths
