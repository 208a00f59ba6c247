"""Reads the reference tables: CSV files beside this module, each row with its source."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from importlib.resources import files

Row = dict[str, str]


def read(table: str) -> Iterator[Row]:
    """The rows of a table, by column name, in the order they are written. ``table`` is its name without ``.csv``."""
    text = (files("stacklint.tables") / f"{table}.csv").read_text(encoding="utf-8")
    lines = csv.reader(text.splitlines())
    head = next(lines)
    return (dict(zip(head, line, strict=True)) for line in lines)


def number(cell: str, scale: float = 1.0) -> float | None:
    """A cell's figure times ``scale``; ``None`` where the source prints none."""
    return float(cell) * scale if cell else None
