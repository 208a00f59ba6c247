"""Checks the names and units of expressions and turns them into closures. Nothing is evaluated as Python."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from math import isfinite
from types import MappingProxyType
from typing import TYPE_CHECKING

from stacklint.engineering.schema import FactKind, Many, One, Plain
from stacklint.rulebook import values
from stacklint.rulebook.grammar import QUANTIFIERS, parse
from stacklint.rulebook.names import FIRST_FREE_SLOT, Comparison, Names, Spoiled, Variable
from stacklint.rulebook.nearest import offer
from stacklint.rulebook.quantities import combined, is_quantity, read_quantity, read_quarters
from stacklint.rulebook.scope import calls_of, facts_of, kind_in_words, noun
from stacklint.rulebook.showing import joined, shown
from stacklint.rulebook.trees import branch, chain, extent, token, token_extent
from stacklint.rulebook.values import Checked
from stacklint.rulebook.written import Refused, Written
from stacklint.units import NUMBER, TEMPERATURE, Dimension

if TYPE_CHECKING:
    from lark import Token, Tree

_HEAD = re.compile(r"[A-Za-z_]\w*")

DEEPEST = 60
"""Expressions nested deeper than this are refused; no rule of the trade comes near it."""
MOST_STEPS = 500
"""Expressions that work out more than so many others are refused, those of their limits and lets counted in; the
longest of the built-in rules works out about a tenth of it."""
_TOO_MUCH = (
    f"The expression works out more than {MOST_STEPS} others, its limits and lets counted in.",
    "Part the rule into several.",
)


def check(written: Written, names: Names) -> tuple[Checked, tuple[Comparison, ...]]:
    """The expression, and the comparisons of quantities in it that stand outside quantifiers and conditions.

    Raises:
        Refused: at the first thing wrong with it.
    """
    figure = read_quantity(written.text)
    if figure is not None:
        # Most limits are one figure, which needs no parser.
        constant = Checked(figure[1], values.constantly(figure[0]), 0, len(written.text), constant=True)
        return constant, ()
    reader = _Reader(written, names)
    return reader.read(parse(written)), tuple(reader.comparisons)


class _Reader:
    """Reads one tree. Variables that quantifiers bind are kept while their bodies are read."""

    def __init__(self, written: Written, names: Names) -> None:
        self.written = written
        self.names = names
        self.variables = dict(names.variables)
        self.comparisons: list[Comparison] = []
        self._next_slot = FIRST_FREE_SLOT
        self._upright = True
        self._aside = 0
        self._depth = 0

    def read(self, tree: Tree[Token]) -> Checked:
        self._depth += 1
        if self._depth > DEEPEST:
            start, end = extent(tree)
            message = f"The expression is nested deeper than {DEEPEST} parts in one another."
            raise self.written.refuse(message, "Name a part of it with a let.", start, end)
        checked = _WAYS[tree.data](self, tree)
        self._depth -= 1
        return checked

    # figures, texts and names

    def quantity(self, tree: Tree[Token]) -> Checked:
        word = token(tree, 0)
        figure = read_quantity(word)
        if figure is None:
            message = f"{word} divides by zero." if "/" in word else "The figure is beyond all others."
            raise self._refuse(tree, message, "Write a figure." if "/" in word else "Write a smaller one.")
        return Checked(figure[1], values.constantly(figure[0]), *extent(tree), constant=True)

    def quarters(self, tree: Tree[Token]) -> Checked:
        thickness = read_quarters(token(tree, 0))
        return Checked(Dimension(length=1), values.constantly(thickness), *extent(tree), constant=True)

    def number(self, tree: Tree[Token]) -> Checked:
        number = float(token(tree, 0).replace(",", ""))
        if not isfinite(number):
            raise self._refuse(tree, "The figure is beyond all others.", "Write a smaller one.")
        return Checked(NUMBER, values.constantly(number), *extent(tree), constant=True)

    def text(self, tree: Tree[Token]) -> Checked:
        return Checked(Plain.TEXT, values.constantly(str(token(tree, 0)[1:-1])), *extent(tree), constant=True)

    def name(self, tree: Tree[Token]) -> Checked:
        word = token(tree, 0)
        start, end = extent(tree)
        figure = self.names.figures.get(word)
        if figure is not None:
            self.names.used.add(str(word))
            return figure._replace(start=start, end=end, named=True, reads=False)
        first, *facts = str(word).split(".")
        variable = self._variable(first, start)
        kind = self._kind(variable, tuple(facts), start + len(first))
        return Checked(kind, values.reading(variable.slot, tuple(facts)), start, end, reads=True)

    def call(self, tree: Tree[Token]) -> Checked:
        word = token(tree, 0)
        start = extent(tree)[0]
        *path, last = str(word).split(".")
        if not path and last in QUANTIFIERS:
            instead = f"Write {last}(x in COLLECTION: ...)."
            raise self._refuse(tree, f"{last} does not say what it goes through.", instead)
        if not path:
            raise self._refuse(tree, f"{last} is no fact that takes an argument.", "Write VARIABLE.FACT(ARGUMENT).")
        variable = self._variable(path[0], start)
        owner = self._kind(variable, tuple(path[1:]), start + len(path[0]))
        declared = calls_of(owner.of) if isinstance(owner, One) else {}
        if last not in declared:
            owned = noun(owner.of) if isinstance(owner, One) else kind_in_words(owner)
            message = f"A {owned} has no fact {last} that takes an argument."
            raise self._refuse(tree, message, offer(last, declared, "facts that take an argument"))
        argument = self.read(branch(tree, 1))
        call = declared[last]
        if argument.kind != call.argument:
            message = f"{last} takes {call.argument.word}; {self._said(argument)} is {kind_in_words(argument.kind)}."
            raise self._at(argument, message, f"Write {call.argument.word}.")
        reads = values.reading(variable.slot, tuple(path[1:]))
        end = self.written.text.find(")", argument.end) + 1
        run = values.calling(reads, last, argument.run)
        return Checked(call.result, run, start, end, reads=True, steps=1 + argument.steps)

    # yes or no

    def both(self, tree: Tree[Token]) -> Checked:
        parts = tuple(self._flag(child) for child in chain(tree))
        return self._from(tree, parts, Plain.FLAG, values.both(tuple(part.run for part in parts)))

    def either(self, tree: Tree[Token]) -> Checked:
        parts = tuple(self._flag(child) for child in chain(tree))
        return self._from(tree, parts, Plain.FLAG, values.either(tuple(part.run for part in parts)))

    def negation(self, tree: Tree[Token]) -> Checked:
        self._upright = not self._upright
        part = self._flag(branch(tree, 0))
        self._upright = not self._upright
        return self._from(tree, (part,), Plain.FLAG, values.negation(part.run))

    def compare(self, tree: Tree[Token]) -> Checked:
        left, right = self.read(branch(tree, 0)), self.read(branch(tree, 2))
        sign = str(token(tree, 1))
        self._comparable(tree, left, right)
        if sign not in ("=", "!="):
            if not is_quantity(left) and left.kind is not Plain.DATE:
                message = f"{self._said(left)} is {kind_in_words(left.kind)}, which is neither more nor less."
                raise self._refuse(tree, message, "Compare it with = or !=.")
            if is_quantity(left) and not self._aside:
                self.comparisons.append(Comparison(left, right, (sign in (">", ">=")) is self._upright))
        return self._from(tree, (left, right), Plain.FLAG, values.comparison(left, sign, right))

    def among(self, tree: Tree[Token]) -> Checked:
        part = self.read(branch(tree, 0))
        members = tuple(self.read(child) for child in chain(branch(tree, 2)))
        for member in members:
            self._comparable(tree, part, member)
        wanted = not token(tree, 1).startswith("not")
        run = values.membership(part.run, tuple(member.run for member in members), wanted)
        return self._from(tree, (part, *members), Plain.FLAG, run)

    def known(self, tree: Tree[Token]) -> Checked:
        part = self.read(branch(tree, 0))
        wanted = not token(tree, 1).endswith("unknown")
        return self._from(tree, (part,), Plain.FLAG, values.known(part.run, wanted))

    # sums, choices, joined texts and quantifiers

    def reckon(self, tree: Tree[Token]) -> Checked:
        left, right = self.read(branch(tree, 0)), self.read(branch(tree, 2))
        sign = str(token(tree, 1))
        for part in (left, right):
            self._needs_quantity(part)
        assert isinstance(left.kind, Dimension) and isinstance(right.kind, Dimension)
        kind = combined(left.kind, sign, right.kind)
        if kind is None and TEMPERATURE in (left.kind, right.kind):
            message = f"{self._said(left)} {sign} {self._said(right)} reckons with a temperature."
            raise self._refuse(tree, message, "Compare temperatures with each other; they are not added or multiplied.")
        if kind is None:
            raise self._refuse(tree, self._mismatch(left, right), "Add or subtract quantities of one kind.")
        return self._from(tree, (left, right), kind, values.arithmetic(left.run, sign, right.run))

    def sign(self, tree: Tree[Token]) -> Checked:
        part = self.read(branch(tree, 1))
        self._needs_quantity(part)
        if token(tree, 0) == "+":
            return part
        if part.kind == TEMPERATURE:
            figure = read_quantity(token(branch(tree, 1), 0), -1) if branch(tree, 1).data == "quantity" else None
            if figure is None:
                raise self._refuse(tree, "Only a figure of temperature can be negative.", "Write a figure: -5 C.")
            return self._from(tree, (part,), TEMPERATURE, values.constantly(figure[0]))
        return self._from(tree, (part,), part.kind, values.negative(part.run))

    def choice(self, tree: Tree[Token]) -> Checked:
        first = self.read(branch(tree, 0))
        self._aside += 1
        condition = self._flag(branch(tree, 1))
        self._aside -= 1
        second = self.read(branch(tree, 2))
        if first.kind != second.kind:
            raise self._refuse(tree, self._mismatch(first, second), "Give both sides of the choice one kind of value.")
        run = values.choice(first.run, condition.run, second.run)
        # What the condition reads does not make the choice a figure of the stack: it still picks among limits.
        checked = self._from(tree, (first, second), first.kind, run)
        steps = checked.steps + condition.steps
        return checked._replace(constant=checked.constant and condition.constant, steps=steps)

    def joined(self, tree: Tree[Token]) -> Checked:
        parts = tuple(self.read(child) for child in chain(tree))
        for part in parts:
            if shown(part.kind) is None:
                message = f"{self._said(part)} is {kind_in_words(part.kind)}, which has no words."
                raise self._at(part, message, "Join texts, quantities and dates.")
        run = joined(tuple((part.run, part.kind) for part in parts))
        return self._from(tree, parts, Plain.TEXT, run)._replace(constant=False)

    def over(self, tree: Tree[Token]) -> Checked:
        head, path = token(tree, 0), token(tree, 1)
        way, variable = _HEAD.findall(head)[:2]
        first, *facts = path.split(".")
        owner = self._variable(first, path.start_pos or 0)
        kind = self._kind(owner, tuple(facts), (path.start_pos or 0) + len(first))
        if not isinstance(kind, Many):
            message = f"{path} is {kind_in_words(kind)}, not a collection."
            many = [f"{first}.{name}" for name, fact in facts_of(owner.of).items() if isinstance(fact.kind, Many)]
            raise self.written.refuse(message, offer(path, many, "collections"), *token_extent(path))
        if variable in self.variables or variable in self.names.figures:
            message = f"{variable} stands for something already."
            raise self.written.refuse(message, f"Choose a new name for a member of {path}.", *token_extent(head))
        body = self._bound(variable, kind.of, branch(tree, 2), yes_no=way in ("any", "all", "count"))
        if way in ("largest", "smallest"):
            self._needs_quantity(body)
        result: FactKind = body.kind
        if way == "count":
            result = NUMBER
        run = values.over(way, values.reading(owner.slot, tuple(facts)), body.run, body.steps)
        return Checked(result, run, *extent(tree), reads=True, steps=1 + body.steps)

    # checks

    def _bound(self, variable: str, of: str, tree: Tree[Token], *, yes_no: bool) -> Checked:
        self.variables[variable] = Variable(self._next_slot, of)
        self._next_slot += 1
        self._aside += 1
        body = self._flag(tree) if yes_no else self.read(tree)
        self._aside -= 1
        self._next_slot -= 1
        del self.variables[variable]
        return body

    def _flag(self, tree: Tree[Token]) -> Checked:
        checked = self.read(tree)
        self.needs_flag(checked)
        return checked

    def needs_flag(self, checked: Checked) -> None:
        if checked.kind is Plain.FLAG:
            return
        message = f"{self._said(checked)} is {kind_in_words(checked.kind)} where yes or no belongs."
        instead = "Ask whether it is known: is known."
        if is_quantity(checked):
            instead = "Compare it with a limit."
        elif isinstance(checked.kind, Many):
            instead = "Ask about its members: any(x in ...: ...)."
        raise self._at(checked, message, instead)

    def _needs_quantity(self, checked: Checked) -> None:
        if is_quantity(checked):
            return
        message = f"{self._said(checked)} is {kind_in_words(checked.kind)} where a quantity belongs."
        instead = "Write a fact or a figure that is a quantity."
        if isinstance(checked.kind, Many):
            instead = "Count its members, or take the largest or smallest: count(x in ...: ...)."
        raise self._at(checked, message, instead)

    def _comparable(self, tree: Tree[Token], left: Checked, right: Checked) -> None:
        for part in (left, right):
            if isinstance(part.kind, Many | One):
                message = f"{self._said(part)} is {kind_in_words(part.kind)}, which cannot be compared."
                raise self._at(part, message, "Compare one of its facts, or ask whether it is known.")
        if left.kind == right.kind:
            return
        instead = "Compare quantities of one kind."
        if isinstance(left.kind, Dimension) and isinstance(right.kind, Dimension):
            constant = left if left.constant else right
            other = right if left.constant else left
            instead = f"Write {kind_in_words(other.kind)} in place of {self._said(constant)}."
        raise self._refuse(tree, self._mismatch(left, right), instead)

    def _mismatch(self, left: Checked, right: Checked) -> str:
        ours, theirs = kind_in_words(left.kind), kind_in_words(right.kind)
        return f"{self._said(left)} is {ours}, but {self._said(right)} is {theirs}."

    def _variable(self, name: str, start: int) -> Variable:
        variable = self.variables.get(name)
        if variable is not None:
            return variable
        if name in self.names.spoiled:
            raise Spoiled
        names = (*self.variables, *self.names.figures)
        message = f"Nothing here is named {name}."
        raise self.written.refuse(message, offer(name, names, "names"), start, start + len(name))

    def _kind(self, variable: Variable, facts: tuple[str, ...], start: int) -> FactKind:
        kind: FactKind = One(variable.of)
        for fact in facts:
            start += 1
            if not isinstance(kind, One):
                message = f"{fact} is asked of {kind_in_words(kind)}, which has no facts."
                instead = "End the name before it."
                if isinstance(kind, Many):
                    instead = "Ask its members: any(x in ...: ...)."
                raise self.written.refuse(message, instead, start, start + len(fact))
            declared = facts_of(kind.of)
            if fact not in declared:
                message = f"A {noun(kind.of)} has no fact {fact}."
                instead = offer(fact, (*declared, *calls_of(kind.of)), f"facts of a {noun(kind.of)}")
                raise self.written.refuse(message, instead, start, start + len(fact))
            self.names.facts.add(f"{kind.of}.{fact}")
            kind = declared[fact].kind
            start += len(fact)
        return kind

    def _from(self, tree: Tree[Token], parts: tuple[Checked, ...], kind: FactKind, run: values.Run) -> Checked:
        start, end = parts[0].start, parts[-1].end
        if tree.data in ("negation", "sign"):
            start = extent(tree)[0]
        constant = all(part.constant for part in parts)
        named = any(part.named for part in parts)
        reads = any(part.reads for part in parts)
        steps = 1 + sum(part.steps for part in parts)
        if steps > MOST_STEPS:
            raise self._refuse(tree, *_TOO_MUCH)
        return Checked(kind, run, start, end, constant, named, reads, steps)

    def _said(self, checked: Checked) -> str:
        return " ".join(self.written.text[checked.start : checked.end].split())

    def _at(self, checked: Checked, message: str, instead: str) -> Refused:
        return self.written.refuse(message, instead, checked.start, checked.end)

    def _refuse(self, tree: Tree[Token], message: str, instead: str) -> Refused:
        return self.written.refuse(message, instead, *extent(tree))


def check_flag(written: Written, names: Names) -> tuple[Checked, tuple[Comparison, ...]]:
    """As :func:`check`, for an expression that must be yes or no."""
    checked, comparisons = check(written, names)
    _Reader(written, names).needs_flag(checked)
    return checked, comparisons


_WAYS: Mapping[str, Callable[[_Reader, Tree[Token]], Checked]] = MappingProxyType(
    {
        "quantity": _Reader.quantity,
        "quarters": _Reader.quarters,
        "number": _Reader.number,
        "text": _Reader.text,
        "name": _Reader.name,
        "call": _Reader.call,
        "both": _Reader.both,
        "either": _Reader.either,
        "negation": _Reader.negation,
        "compare": _Reader.compare,
        "among": _Reader.among,
        "known": _Reader.known,
        "reckon": _Reader.reckon,
        "sign": _Reader.sign,
        "choice": _Reader.choice,
        "joined": _Reader.joined,
        "over": _Reader.over,
    }
)
