"""Moisture contents that uses ask for, by region, as published."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import NamedTuple

from stacklint.tables.rows import Row, number, read

_REMARK = re.compile(r" \([^)]{20,}\)")
UNITED_STATES, EUROPE, AUSTRALIA = "US", "UK/Europe", "Australia"
"""Regions of the table; the United States have two more: its dry southwest and its damp warm coasts."""
_OUTSIDE_STATES = {"United Kingdom": EUROPE, "Spain": EUROPE, "Australia": AUSTRALIA}


class Target(NamedTuple):
    """A published range for a use, as shares; ``None`` at an end that the source leaves open.

    ``words`` say what the range is of; ``region`` whose it is.
    """

    low: float | None
    high: float | None
    words: str
    region: str
    source: str
    memory: bool

    @property
    def title(self) -> str:
        """The source without its address and long remarks, as a message names it."""
        named = self.source.partition("http")[0].rstrip(", ").removesuffix(" as quoted at")
        return _REMARK.sub("", named)


class Use(NamedTuple):
    """What a plan's words for a use come to: the row of the table, and whether it is indoors."""

    row: str
    indoors: bool


def find(use: str) -> Use | None:
    """The use that everyday words name: ``oak flooring``, ``kitchen cabinets``; ``None`` where no row speaks of it."""
    words = tuple(_singular(word) for word in use.lower().replace("-", " ").split())
    fitting = [
        phrase
        for start, word in enumerate(words)
        for phrase in _uses().get(word, ())
        if words[start : start + len(phrase.words)] == phrase.words
    ]
    return min(fitting, key=lambda phrase: phrase.order).use if fitting else None


def range_for(use: str, near: str | None = None) -> Target | None:
    """The published range for a use, in everyday words, at a place of the climate table.

    Without a place, and in the regions that have no row of their own, that of most of the United States. ``None`` where
    the words are not known and where the use has no published figure, as heavy timbers.
    """
    known = find(use)
    if known is None:
        return None
    rows = _targets()
    row = rows.get((known.row, region_of(near))) or rows.get((known.row, UNITED_STATES))
    if row is None:
        return None
    return Target(
        number(row["mc_low_pct"], 0.01),
        number(row["mc_high_pct"], 0.01),
        row["words"],
        row["region"],
        row["source"],
        row["how"] == "memory",
    )


@lru_cache(maxsize=256)
def region_of(near: str | None) -> str:
    """The region of the table that a place of the climate table lies in; the United States if there is none."""
    if near is None:
        return UNITED_STATES
    from stacklint.tables import places

    place = places.find(near)
    if place is None:
        return UNITED_STATES
    town, _, state = place.name.rpartition(", ")
    regions = _regions()
    return _OUTSIDE_STATES.get(place.country) or regions.get((state, town)) or regions.get((state, "")) or UNITED_STATES


def _singular(word: str) -> str:
    word = word.strip(".,;:()")
    if word.endswith(("xes", "shes", "ches", "sses")):
        return word[:-2]
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


class _Phrase(NamedTuple):
    """``order`` is the row of the table: what stands above holds where several phrases fit."""

    order: int
    words: tuple[str, ...]
    use: Use


@cache
def _uses() -> dict[str, tuple[_Phrase, ...]]:
    """The phrases of the table by their first word."""
    found: dict[str, tuple[_Phrase, ...]] = {}
    for order, row in enumerate(read("target_uses")):
        words = tuple(_singular(word) for word in row["words"].split())
        phrase = _Phrase(order, words, Use(row["row"], row["indoors"] == "yes"))
        found[words[0]] = (*found.get(words[0], ()), phrase)
    return found


@cache
def _targets() -> dict[tuple[str, str], Row]:
    return {(row["row"], row["region"]): row for row in read("target_mc")}


@cache
def _regions() -> dict[tuple[str, str], str]:
    """Region by state and town; the town is empty where it is the whole state."""
    return {(row["state"], row["town"]): row["region"] for row in read("target_regions")}
