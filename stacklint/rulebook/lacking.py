"""Rules that could not be judged for want of something: each lack that kept one from its verdict becomes a note.

A lack is blamed where the rule could be judged if everything lacking were known, but not if all but this were. To
find that out, what is not known is supposed to be very little and to be very much: all together must let the rule be
judged either way.
"""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from stacklint.engineering.facts import LackFacts, StackFacts
from stacklint.engineering.schema import FactKind, Many, One, Plain
from stacklint.faults import Lack
from stacklint.language.nearest import listed
from stacklint.rulebook.book import RuleBook
from stacklint.rulebook.rule import Rule
from stacklint.rulebook.scope import facts_of
from stacklint.rulebook.values import Standing

_Standings = Callable[[StackFacts, Rule], Iterable[Standing]]
_VERY_MUCH = 1e9
"""In any unit, more than any limit."""


class _Blame(NamedTuple):
    lack: Lack
    rule: str


def lacking(book: RuleBook, stack: StackFacts, standings: _Standings) -> tuple[LackFacts, ...]:
    """What a stack lacks that any rule could not be judged without; what is said of one place together.

    ``standings`` gives everything of a stack that a rule stands at.
    """
    blames = [_Blame(lack, rule.name) for rule in book.rules for lack in _blamed(rule, stack, standings)]
    together: dict[tuple[Any, ...], list[_Blame]] = {}
    for blame in blames:
        lack = blame.lack
        together.setdefault((lack.where, lack.of, lack.instead), []).append(blame)
    return tuple(_told(stack, alike) for alike in together.values())


def _blamed(rule: Rule, stack: StackFacts, standings: _Standings) -> Iterator[Lack]:
    if rule.each.of_plan or rule.each.of_yard:
        return
    wanting = [lack for lack in stack.lacks if lack.facts & rule.program.reads]
    if not wanting:
        return

    def undecided(facts: frozenset[str], *, much: bool) -> set[int]:
        supposed = _supposed(stack, facts, much=much) if facts else stack
        return {number for number, standing in enumerate(standings(supposed, rule)) if is_undecided(rule, standing)}

    unjudged = undecided(frozenset(), much=False)
    if not unjudged:
        return
    whole = frozenset[str]().union(*(lack.facts for lack in wanting)) & rule.program.reads
    unjudged -= undecided(whole, much=False) | undecided(whole, much=True)
    for lack in wanting:
        others = whole - lack.facts
        if unjudged & (undecided(others, much=False) | undecided(others, much=True)):
            yield lack


def is_undecided(rule: Rule, standing: Standing) -> bool:
    """Neither that a level holds nor that none does."""
    wanted = rule.program.filter(standing) if rule.program.filter is not None else True
    if wanted is not None and not wanted:
        return False
    answers = [condition.holds(standing) for condition in rule.program.conditions]
    if any(answers):
        return wanted is None
    return None in answers


def _supposed(facts: Any, names: frozenset[str], *, much: bool) -> Any:
    """The same facts, but those of ``names`` that are unknown supposed to be very little, or very much."""
    of = type(facts).__name__
    new: dict[str, Any] = {}
    for name, declared in facts_of(of).items():
        value = getattr(facts, name)
        if isinstance(declared.kind, Many | One):
            if value is not None and any(each.startswith(f"{declared.kind.of}.") for each in names):
                many = value if isinstance(value, tuple) else (value,)
                changed = tuple(_supposed(each, names, much=much) for each in many)
                new[name] = changed if isinstance(value, tuple) else changed[0]
        elif value is None and f"{of}.{name}" in names:
            new[name] = _extreme(declared.kind, much=much)
    return dataclasses.replace(facts, **new) if new else facts


def _extreme(kind: FactKind, *, much: bool) -> Any:
    if kind is Plain.FLAG:
        return much
    if kind is Plain.TEXT:
        return "something" if much else ""
    if kind is Plain.DATE:
        return datetime.date.max if much else datetime.date.min
    return _VERY_MUCH if much else -_VERY_MUCH


def _told(stack: StackFacts, alike: Sequence[_Blame]) -> LackFacts:
    first = alike[0].lack
    rules = dict.fromkeys(blame.rule for blame in alike)
    topics = ", ".join(dict.fromkeys(blame.lack.topic for blame in alike))
    what = listed(dict.fromkeys(blame.lack.what for blame in alike if blame.lack.what))
    clause = f"{first.of} {what}" if what else first.of
    return LackFacts(
        where=first.where,
        stack=stack.name,
        text=f"{clause}: {listed(rules, 'and')} {'is' if len(rules) == 1 else 'are'} not judged.",
        instead=first.instead or f"Say it in the plan ({topics}).",
        topic=topics,
    )
