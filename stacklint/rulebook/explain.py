"""What a rule is made of, for a reader who asks why it says what it says."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from stacklint.findings import Level
from stacklint.rulebook.reader import BlockKind
from stacklint.rulebook.rule import Amendment, Limit, Rule
from stacklint.show import show
from stacklint.units import NUMBER, System
from stacklint.where import Where


class LevelExplained(NamedTuple):
    """A level and what must hold for it, as the rule file puts it."""

    level: Level
    when: str


class LimitExplained(NamedTuple):
    """A limit: its name, its value in the reader's units, its source.

    ``memory`` if the figure is recalled, not read in its source; ``changed`` if house rules set it.
    """

    name: str
    value: str
    source: str
    memory: bool
    changed: bool


class Explanation(NamedTuple):
    """A rule in parts. ``each`` and ``where`` say what it goes through and which of it counts."""

    name: str
    title: str
    card: str | None
    each: str
    where: str | None
    lets: tuple[tuple[str, str], ...]
    levels: tuple[LevelExplained, ...]
    limits: tuple[LimitExplained, ...]
    say: str
    instead: str
    why: str
    caution: str | None
    place: Where
    history: tuple[Amendment, ...]
    house: bool

    @property
    def changed(self) -> bool:
        """House rules have changed what it judges by."""
        return any(said.kind is BlockKind.CHANGE for said in self.history)


_DONE: Mapping[BlockKind, str] = MappingProxyType(
    {BlockKind.CHANGE: "Changed", BlockKind.SKIP: "Skipped", BlockKind.KEEP: "Kept"}
)


def amended(said: Amendment) -> str:
    """What house rules have said of a rule, in a sentence."""
    place = f"{_DONE[said.kind]} in {said.where.path}, line {said.where.line}"
    return f"{place}: {said.reason}" if said.reason else f"{place}."


def explain(rule: Rule, system: System = System.INCH) -> Explanation:
    """The parts of ``rule``, its limits shown in the units of ``system``."""
    lets = (clause.body.text.partition("=") for clause in rule.clauses if clause.keyword == "let")
    return Explanation(
        name=rule.name,
        title=rule.title,
        card=rule.card,
        each=rule.each.name,
        where=_body(rule, "where"),
        lets=tuple((name.strip(), _one_line(value)) for name, _, value in lets),
        levels=tuple(
            LevelExplained(level, when.removeprefix("when").strip())
            for level in rule.levels
            if (when := _body(rule, level.value)) is not None
        ),
        limits=tuple(_limit(limit, system) for limit in rule.limits),
        say=_text(rule, "say"),
        instead=_text(rule, "instead"),
        why=rule.why,
        caution=rule.caution,
        place=rule.where,
        history=rule.history,
        house=rule.house,
    )


def _limit(limit: Limit, system: System) -> LimitExplained:
    measure = limit.value
    # Plain numbers and shares read best as they were written: 20%, not 0.2.
    value = limit.written if measure.dimension == NUMBER else show(measure.value, measure.dimension, system)
    return LimitExplained(limit.name, value, limit.source, limit.memory, limit.changed)


def _body(rule: Rule, keyword: str) -> str | None:
    return next((_one_line(clause.body.text) for clause in rule.clauses if clause.keyword == keyword), None)


def _text(rule: Rule, keyword: str) -> str:
    texts = next((clause.texts for clause in rule.clauses if clause.keyword == keyword), ())
    return " ".join(text.text for text in texts)


def _one_line(text: str) -> str:
    return " ".join(text.split())
