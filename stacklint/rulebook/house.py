"""Houses of rules, one on top of the other: the whole project's house rules below, those of a yard on top."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from stacklint.rulebook.book import Loaded, RuleBook, builtin, load
from stacklint.rulebook.reader import read
from stacklint.rulebook.written import RuleFault

_KEPT = 256
"""Houses kept loaded. A co-op has a few dozen; an editor makes a new one with every pause in typing."""


class HouseRules(NamedTuple):
    """A text of house rules, and its name in what is told of it."""

    name: str
    text: str


class Chain(NamedTuple):
    """The book that a chain of house rules comes to.

    ``accepted`` are the texts that it is made of, the farthest first. ``faults`` are those of the texts that were set
    aside, each as a whole, so that a slip in one never hides what it would have let through. ``aside`` are the rules
    that those speak of: what a nearer text makes of them may have lost its ground, and is then passed over.
    """

    book: RuleBook
    accepted: tuple[HouseRules, ...] = ()
    faults: tuple[RuleFault, ...] = ()
    aside: frozenset[str] = frozenset()


def chained(houses: Iterable[HouseRules]) -> Chain:
    """Each of ``houses`` on top of those before it, on top of the built-in rules."""
    chain = Chain(builtin())
    for house in houses:
        book, faults = _on_top_of(chain.book, house, chain.aside)
        if faults:
            blocks, _ = read(house.name, house.text, house=True)
            aside = chain.aside.union(block.name for block in blocks)
            chain = chain._replace(faults=(*chain.faults, *faults), aside=aside)
        else:
            chain = chain._replace(book=book, accepted=(*chain.accepted, house))
    return chain


def book_of(houses: tuple[HouseRules, ...]) -> RuleBook:
    """The book of the texts that a chain accepted, for who has no other way to come by it, such as another process."""
    book = builtin()
    for house in houses:
        book = _on_top_of(book, house, frozenset()).book
    return book


@lru_cache(maxsize=_KEPT)
def _on_top_of(base: RuleBook, house: HouseRules, aside: frozenset[str]) -> Loaded:
    return load([house], base=base, house=True, aside=aside)
