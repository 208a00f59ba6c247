"""Fuzz target ``plan``: a text is read, laid out and written."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from fuzz.oracle import inside

from stacklint.changes import changed, line_changes, with_line_ends
from stacklint.editor.names import laid
from stacklint.editor.symbols import folds, plan_symbols
from stacklint.language import ReadPlan, read
from stacklint.language.line import MOST_FAULTS
from stacklint.language.parse import keywords
from stacklint.language.write import write
from stacklint.tidying import tidied
from stacklint.units import Unit

TODAY = datetime.date(2026, 6, 1)
MARKS = (
    *('"', "“", "”", "#", ",", ":", "+", "/", "x", "×", "to", "-", "–", "1/0", "1/4", "¾", "9e9", "°F", ".5", "M"),
    *("0", "-1", "\n", "\n  ", ",\n", "\t", "\r\n", "\x00", "é", "²", "٣", "1,2", "1,400", "8'6\"", "99999-99-99"),
    *("2026-06-01", "(", "'", "″", "′", "~", "about", "the", "木", "\ufeff", "\u2028", "\x85"),
)
_ROOT = Path(__file__).parents[2]


def seeds() -> Iterator[bytes]:
    """The plans of the examples and of the rules."""
    for folder in ("examples", "tests/rules"):
        for file in sorted((_ROOT / folder).rglob("*.stackplan")):
            yield file.read_bytes()


def words() -> tuple[str, ...]:
    """The words of the grammar, the units, and marks that plans are parted by or that are taken for others."""
    return (*keywords(), *(unit.symbol for unit in Unit if unit.symbol), *MARKS)


def examine(data: bytes) -> None:
    raw = data.decode("utf-8", "replace")
    once = tidied(raw)
    assert tidied(once) == once, "laid out twice it differs"
    text = with_line_ends(raw, "\n")
    found = read(text, today=TODAY)
    assert len(found.faults) <= MOST_FAULTS + 1
    for fault in found.faults:
        inside(fault.where, text)
        assert fault.message and fault.instead
    _says_the_same_laid_out(text, found)
    if not found.faults:
        again = read(write(found.plan), today=TODAY)
        assert again.faults == (), f"what is written of it is faulty: {again.faults[:1]}"
    own = laid(text, "-")
    for fold in folds(plan_symbols(own.outline), text, own.outline):
        assert 1 <= fold.first < fold.last <= text.count("\n") + 1


def _says_the_same_laid_out(text: str, before: ReadPlan) -> None:
    once = tidied(text)
    assert changed(text, line_changes(text, once)) == once
    after = read(once, today=TODAY)
    assert after.plan == before.plan, "laid out it says something else"
    assert after.system is before.system
    if len(before.faults) < MOST_FAULTS:
        assert _told(after) == _told(before), "laid out it has other faults"


def _told(plan: ReadPlan) -> Counter[tuple[object, ...]]:
    """The faults apart from their places, which move with their lines."""
    return Counter(fault._replace(where=None) for fault in plan.faults)  # type: ignore[arg-type]
