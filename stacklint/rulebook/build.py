"""Makes a rule's clauses into its program, and finds whatever is wrong with them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache, partial
from typing import NamedTuple, TypeVar

from stacklint.engineering.schema import One
from stacklint.faults import Measure
from stacklint.findings import Level
from stacklint.rulebook import values
from stacklint.rulebook.expressions import check, check_flag
from stacklint.rulebook.grammar import RESERVED
from stacklint.rulebook.messages import Message, read_message
from stacklint.rulebook.names import MEMBER_SLOT, STACK_SLOT, Comparison, Names, Spoiled, Variable
from stacklint.rulebook.nearest import offer
from stacklint.rulebook.reader import Clause, read_texts
from stacklint.rulebook.rule import Condition, FaultyRules, Figures, Limit, Program, Rule
from stacklint.rulebook.scope import Collection, kind_in_words
from stacklint.rulebook.values import Checked, Run
from stacklint.rulebook.written import Refused, RuleFault, Written
from stacklint.units import Dimension

_Result = TypeVar("_Result")

_NAMED = re.compile(r"([A-Za-z_]\w*)\s*=(?!=)\s*")
_SOURCE = re.compile(r"\bsource\b")
_MEMORY = re.compile(r"\bmemory\s*\Z")
_WHEN = re.compile(r"when\b")
_AGAINST = re.compile(r"\bagainst\b")


class NamedPart(NamedTuple):
    """``NAME = rest``."""

    name: str
    rest: Written


def built(rule: Rule) -> Program:
    """The program of a rule; its messages are read when they are first filled.

    Raises:
        FaultyRules: if any clause but a message is faulty.
    """
    builder = Builder(rule)
    program = builder.program()
    if builder.faults:
        raise FaultyRules(tuple(builder.faults))
    return program


def faults_of(rule: Rule) -> tuple[RuleFault, ...]:
    """Everything wrong with a rule, its messages and its unused names included."""
    builder = Builder(rule)
    program = builder.program()
    builder.tried(program.message)
    builder.tried(program.instead)
    if not builder.faults:
        builder.faults.extend(builder.unused())
    return tuple(sorted(builder.faults, key=lambda fault: fault.where))


def read_named(body: Written) -> NamedPart:
    """``NAME = rest`` of a limit or a let.

    Raises:
        Refused: if it is not written so.
    """
    match = _NAMED.match(body.text)
    if match is None:
        raise body.refuse(f"{body.text.split()[0]} is given no value.", "Write NAME = VALUE.")
    name = match.group(1)
    if name in RESERVED:
        raise body.refuse(f"{name} is a word of the rule language.", "Choose another name.", 0, len(name))
    return NamedPart(name, body.part(match.end()))


class Builder:
    """Builds one rule and gathers its faults on the way, so that one fault does not hide the next."""

    def __init__(self, rule: Rule) -> None:
        self.rule = rule
        self.faults: list[RuleFault] = []
        self.names = Names(variables_of(rule.each))
        self._declaring: dict[str, Clause] = {}

    def program(self) -> Program:
        limits = [self.tried(partial(self._limit, clause)) for clause in self._clauses("limit")]
        for clause in self._clauses("let"):
            self.tried(partial(self._let, clause))
        filters = [self.tried(partial(check_flag, clause.body, self.names)) for clause in self._clauses("where")]
        measures = [self.tried(partial(self._measure, clause)) for clause in self._clauses("measure")]
        levels = [
            self.tried(partial(self._level, clause, measures[0] if measures else None))
            for level in Level
            for clause in self._clauses(level.value)
        ]
        reads = frozenset(self.names.facts)
        places = [self.tried(partial(self._place, clause)) for clause in self._clauses("at")]
        return Program(
            filter=filters[0][0].run if filters and filters[0] else None,
            conditions=tuple(level for level in levels if level),
            reads=reads,
            place=places[0] if places else None,
            limits=tuple(limit for limit in limits if limit),
            message=self._message("say"),
            instead=self._message("instead"),
        )

    def tried(self, work: Callable[[], _Result]) -> _Result | None:
        """What ``work`` gives; its refusal is kept as a fault."""
        try:
            return work()
        except Refused as refused:
            self.faults.append(refused.fault)
        except Spoiled:
            pass
        return None

    def unused(self) -> Iterator[RuleFault]:
        """Limits and lets that nothing leans on; those that a change has left idle are no fault."""
        for name, clause in self._declaring.items():
            if name in self.names.used or (self.rule.changes and not clause.house):
                continue
            others = [other for other in self._declaring if other != name]
            instead = offer(name, others, "limits and lets") if others else "Use it or leave it out."
            place = clause.body.where(0, len(name))
            yield RuleFault(place, f"{name} is not used in the rule {self.rule.name}.", instead)

    def _clauses(self, keyword: str) -> Iterator[Clause]:
        return (clause for clause in self.rule.clauses if clause.keyword == keyword)

    def _message(self, keyword: str) -> Callable[[], Message]:
        texts = next((clause.texts for clause in self._clauses(keyword)), ())
        return cache(partial(read_message, texts, self.names))

    def _limit(self, clause: Clause) -> Limit:
        name, rest = self._declared(clause)
        source, memory, value = self._spoiling(name, partial(_parted, rest))
        checked, _ = self._spoiling(name, partial(check, value, self.names))
        if not isinstance(checked.kind, Dimension):
            message = f"{name} is {kind_in_words(checked.kind)}; a limit is a quantity."
            raise self._spoil(name, value.refuse(message, "Write a figure with its unit, or use let."))
        number = checked.run(()) if checked.constant else None
        if number is None:
            message = f"{value.text} is not one fixed figure."
            raise self._spoil(name, value.refuse(message, "Write a figure with its unit, or use let."))
        self.names.figures[name] = checked._replace(run=values.constantly(number))
        if not source:
            if not clause.house:
                raise value.refuse(f"{name} gives no source.", 'Add source "...", or say there is none.')
            source = f"house rules, {clause.where.path}:{clause.where.line}"
        measure = Measure(float(number), checked.kind)
        return Limit(name, value.text, measure, source, memory, clause.house and not self.rule.house, clause.where)

    def _let(self, clause: Clause) -> None:
        name, rest = self._declared(clause)
        self.names.figures[name] = self._spoiling(name, partial(check, rest, self.names))[0]

    def _declared(self, clause: Clause) -> NamedPart:
        """The name of a limit or let, which must be new, and what it is."""
        part = read_named(clause.body)
        if part.name in self._declaring:
            message = f"{part.name} is named twice."
            raise clause.body.refuse(message, "Leave one of the two out.", 0, len(part.name))
        if part.name in self.names.variables:
            message = f"{part.name} already stands for a {part.name}."
            raise clause.body.refuse(message, "Choose another name.", 0, len(part.name))
        self._declaring[part.name] = clause
        return part

    def _spoiling(self, name: str, work: Callable[[], _Result]) -> _Result:
        try:
            return work()
        except (Refused, Spoiled):
            self.names.spoiled.add(name)
            raise

    def _spoil(self, name: str, refused: Refused) -> Refused:
        self.names.spoiled.add(name)
        return refused

    def _level(self, clause: Clause, measure: tuple[Checked, Checked] | None) -> Condition:
        body = clause.body
        match = _WHEN.match(body.text)
        if match is None:
            raise body.refuse(f"{clause.keyword} does not say when.", f"Write {clause.keyword} when CONDITION.")
        checked, comparisons = check_flag(body.part(match.end()), self.names)
        figures = _figures(comparisons) if measure is None else _measured(measure, comparisons)
        return Condition(Level(clause.keyword), checked.run, figures)

    def _measure(self, clause: Clause) -> tuple[Checked, Checked]:
        match = _AGAINST.search(clause.body.text)
        if match is None:
            raise clause.body.refuse("measure does not say against what.", "Write measure FOUND against LIMIT.")
        found, _ = check(clause.body.part(0, match.start()), self.names)
        limit, _ = check(clause.body.part(match.end()), self.names)
        if not isinstance(found.kind, Dimension) or found.kind != limit.kind:
            message = f"{kind_in_words(found.kind)} is measured against {kind_in_words(limit.kind)}."
            raise clause.body.refuse(message, "Measure a quantity against a limit of its kind.")
        return found, limit

    def _place(self, clause: Clause) -> Run:
        checked, _ = check(clause.body, self.names)
        if not isinstance(checked.kind, One):
            message = f"{clause.body.text} is {kind_in_words(checked.kind)}, which has no place of its own."
            raise clause.body.refuse(message, "Name the stack, its cover, or what the rule goes through.")
        return checked.run


def variables_of(each: Collection) -> dict[str, Variable]:
    """What the rules of a collection can name from the start."""
    member = Variable(MEMBER_SLOT, each.of)
    if each.of_plan:
        return {each.name: member}
    return {"stack": Variable(STACK_SLOT, "StackFacts"), each.name: member}


def _parted(rest: Written) -> tuple[str, bool, Written]:
    """Source, memory mark and value of a limit."""
    memory = _MEMORY.search(rest.text)
    body = rest.part(0, memory.start()) if memory else rest
    match = _SOURCE.search(body.text)
    if match is None:
        return "", memory is not None, body
    source = " ".join(text.text for text in read_texts(body.part(match.end())))
    return source, memory is not None, body.part(0, match.start())


def _figures(comparisons: tuple[Comparison, ...]) -> Figures | None:
    """Found and limit of the first comparison with a limit, a let or a figure on one side; else of the first."""
    judged = next((one for one in comparisons if one.left.is_limit or one.right.is_limit), None)
    if judged is None:
        judged = comparisons[0] if comparisons else None
    if judged is None or (judged.left.constant and judged.right.constant):
        return None
    left, right, rising = judged
    turned = left.constant or (left.is_limit and not right.is_limit)
    found, limit = (right, left) if turned else (left, right)
    assert isinstance(found.kind, Dimension)
    return Figures(found.run, limit.run, found.kind, 1 if rising is not turned else -1)


def _measured(measure: tuple[Checked, Checked], comparisons: tuple[Comparison, ...]) -> Figures:
    """The figures that `measure` names. Which way is worse is read from the level's own comparison."""
    found, limit = measure
    assert isinstance(found.kind, Dimension)
    judged = _figures(comparisons)
    rising = judged.rising if judged is not None and judged.dimension == found.kind else 1
    return Figures(found.run, limit.run, found.kind, rising)
