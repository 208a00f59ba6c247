"""A table without a row says so: no finding of a plan goes without a word, whichever row that it reads is taken out.

The rows that a plan reads are found by halves: those of a table are taken out together, then half of them, as long as
the result is another one. A table that lacks a row which others point at cannot be read, which is loud enough; a row
that only sharpens a verdict may change the words of a finding. What may not be is that a finding is gone and nothing is
said: no wood or place that is not known, no stand-in, no rule that could not be judged.
"""

from __future__ import annotations

import datetime
import random
import sys
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest

from stacklint.checking import check
from stacklint.findings import Finding
from stacklint.tables import rows, woods

TODAY = datetime.date(2026, 6, 1)
FAILING = sorted((Path(__file__).parent.parent / "rules").glob("*/fails.stackplan"))
SAMPLE = random.Random(20260601).sample(FAILING, 2)
SAID = ("assumed", "not-judged", "unknown-species", "unknown-place", "plan-text", "value-out-of-range")
"""Rules that say what is not known, or what was taken in its stead."""
OF_TABLES = ("stacklint.tables", "stacklint.drying", "stacklint.engineering")

Found = tuple[Finding, ...]


class _Tables:
    """The tables in place of their folder, but for some lines of one of them; which of them were read."""

    def __init__(self) -> None:
        folder = files("stacklint.tables")
        self.lines = {
            file.name: file.read_text(encoding="utf-8").splitlines()
            for file in folder.iterdir()
            if file.name.endswith(".csv")
        }
        self.read: set[str] = set()
        self.name = ""
        self.without: frozenset[int] = frozenset()

    def __truediv__(self, name: str) -> _Text:
        self.read.add(name)
        without = self.without if name == self.name else frozenset()
        return _Text([line for number, line in enumerate(self.lines[name]) if number not in without])


class _Text:
    def __init__(self, lines: list[str]) -> None:
        self.lines = lines

    def read_text(self, encoding: str) -> str:
        assert encoding == "utf-8"
        return "\n".join(self.lines)


@pytest.fixture
def tables(monkeypatch: pytest.MonkeyPatch) -> Iterator[_Tables]:
    made = _Tables()
    monkeypatch.setattr(rows, "files", lambda _: made)
    yield made
    monkeypatch.undo()
    _forget()


def _forget() -> None:
    """Whatever was read of the tables and kept."""
    for name, module in list(sys.modules.items()):
        if name.startswith(OF_TABLES):
            for value in vars(module).values():
                if hasattr(value, "cache_clear"):
                    value.cache_clear()


def _found(tables: _Tables, text: str, name: str = "", without: frozenset[int] = frozenset()) -> Found | None:
    """``None`` where the table cannot be read without those lines."""
    tables.name, tables.without = name, without
    _forget()
    try:
        return check(text, "plan.stackplan", today=TODAY).findings
    except (LookupError, ValueError):
        return None


def _that_matter(
    tables: _Tables, text: str, whole: Found, name: str, lines: range
) -> Iterator[tuple[int, Found | None]]:
    """Each line of a table without which a plan's findings are others."""
    found = _found(tables, text, name, frozenset(lines))
    if found == whole:
        return
    if len(lines) == 1:
        yield lines[0], found
        return
    half = len(lines) // 2
    yield from _that_matter(tables, text, whole, name, lines[:half])
    yield from _that_matter(tables, text, whole, name, lines[half:])


def _silent(whole: Found, found: Found) -> set[str]:
    """The rules whose findings are gone, unless something is said that was not."""
    before = {each.message for each in whole}
    if any(each.rule in SAID and each.message not in before for each in found):
        return set()
    left = {(each.rule, each.stack) for each in found}
    return {each.rule for each in whole if each.rule not in SAID and (each.rule, each.stack) not in left}


def _gone(tables: _Tables, text: str) -> dict[str, set[str]]:
    whole = _found(tables, text)
    assert whole is not None
    read = sorted(tables.read)
    assert "species.csv" in read
    gone = {}
    for name in read:
        for number, found in _that_matter(tables, text, whole, name, range(1, len(tables.lines[name]))):
            if found is not None and (silent := _silent(whole, found)):
                gone[f"{name}: {tables.lines[name][number][:60]}"] = silent
    return gone


@pytest.mark.parametrize("path", SAMPLE, ids=lambda path: path.parent.name)
def test_no_finding_goes_without_a_word_when_a_row_is_taken_out(tables: _Tables, path: Path) -> None:
    assert _gone(tables, path.read_text(encoding="utf-8")) == {}


@pytest.mark.slow
@pytest.mark.parametrize("path", FAILING, ids=lambda path: path.parent.name)
def test_no_finding_of_any_rule_goes_without_a_word_when_a_row_is_taken_out(tables: _Tables, path: Path) -> None:
    assert _gone(tables, path.read_text(encoding="utf-8")) == {}


@pytest.mark.slow
@pytest.mark.parametrize("wood", woods.names())
def test_of_no_wood_does_a_finding_go_without_a_word_when_a_row_is_taken_out(tables: _Tables, wood: str) -> None:
    assert _gone(tables, _faulty(wood)) == {}


def _faulty(wood: str) -> str:
    """A pile that is stacked late in a warm damp place, under wide stickers far apart, wanted too dry too soon, and a
    charge of it whose schedule is too harsh."""
    boards = f"boards a: 64 of {wood} 6/4 x 6 in x 8 ft"
    return f"""
site "S"
  near "Atlanta, GA"
kiln "K"
  type dehumidification
  inside 20 ft x 8 ft x 8 ft
  holds 300 bf
  carries 1000 lb
  heats to 120 F
  removes 300 pt/day
  fans 2 of 4000 cfm
  plenum 2 in
pile "A"
  place open yard, site "S"
  sawn 2026-05-01
  stacked 2026-05-20
  {boards}, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 3 in, every 48 in, dry
  bearers 2 in x 4 in of {wood}, every 48 in, on 8 in x 16 in pads
  ground sand, bears 100 psf
  cover none
  ends bare
  want 7% by 2026-06-20 for flooring
  reading 2026-05-22 20%
charge "B" in kiln "K"
  starts 2026-06-01
  {boards}, 60%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
  baffles top, ends, floor
  schedule T14-F5
  hold 130 F for 1 h
  want 20% for furniture
"""
