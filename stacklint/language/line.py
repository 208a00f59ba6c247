"""A logical line while it is read, and the log that faults and units are written to."""

from __future__ import annotations

import functools
from bisect import bisect_right
from typing import TYPE_CHECKING, NamedTuple, TypeVar
from unicodedata import normalize

from pydantic import ValidationError

from stacklint.faults import Fault, FaultKind, Measure
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.plan.node import Name, Node, Quantity, Range
from stacklint.units import LENGTH, Dimension, System, Unit
from stacklint.where import Where

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

MOST_FAULTS = 200
"""So many faults of one text are listed; a text with more is no plan, or breaks one thing all over."""

Made = TypeVar("Made", bound=Node)


class Logged(NamedTuple):
    """What a log holds: the faults, and the lengths in inches and feet and those in metric units."""

    faults: tuple[Fault, ...]
    inch: int
    metric: int


class Log:
    """Collects the faults of a text, and counts the lengths that are written in each system of units."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self._places: set[tuple[str, int, int]] = set()
        self.inch = 0
        self.metric = 0

    @property
    def full(self) -> bool:
        return len(self.faults) >= MOST_FAULTS

    @property
    def system(self) -> System:
        return System.METRIC if self.metric > self.inch else System.INCH

    def add(self, fault: Fault) -> None:
        """Keeps a fault, unless one that starts at the same place stands already: one slip is told once."""
        if len(self.faults) >= MOST_FAULTS:
            return
        place = fault.where[:3]
        if place not in self._places:
            self._places.add(place)
            self.faults.append(fault)

    @property
    def logged(self) -> Logged:
        return Logged(tuple(self.faults), self.inch, self.metric)

    def take(self, logged: Logged) -> None:
        """What another log collected, as if it had been collected here."""
        for fault in logged.faults:
            self.add(fault)
        self.inch += logged.inch
        self.metric += logged.metric


class Line:
    """A statement with the lines that it goes on over.

    ``number`` is the first line's, ``text`` holds line breaks between the lines. ``spoiled`` is set
    once anything in it has been refused.
    """

    __slots__ = ("breaks", "end", "log", "number", "path", "spoiled", "stack", "start", "text")

    def __init__(self, path: str, number: int, text: str, log: Log) -> None:
        self.path = path
        self.number = number
        self.text = text
        self.log = log
        self.spoiled = False
        self.stack: str | None = None
        self.start, self.end = 0, 1
        self.breaks: list[int] = []
        if "\n" in text:
            self.breaks = [place for place, character in enumerate(text) if character == "\n"]

    def where(self, start: int, end: int) -> Where:
        """The place of ``text[start:end]``."""
        if not self.breaks:
            return Where(self.path, self.number, start + 1, self.number, end + 1)
        return Where(self.path, *self._place(start), *self._place(end))

    def _place(self, offset: int) -> tuple[int, int]:
        lines_before = bisect_right(self.breaks, offset - 1)
        start = self.breaks[lines_before - 1] + 1 if lines_before else 0
        return self.number + lines_before, offset - start + 1

    def at(self, token: Token) -> Where:
        return self.where(token.start_pos, token.end_pos)

    def over(self, branch: Branch | Token) -> Where:
        """The place of a branch, from its first token to its last."""
        return self.where(first(branch).start_pos, last(branch).end_pos)

    def whole(self) -> Where:
        """The place of the statement, without the space and the comment around it."""
        return self.where(self.start, self.end)

    def fault(
        self,
        where: Where,
        message: str,
        instead: str,
        kind: FaultKind = FaultKind.PLAN_TEXT,
        found: Measure | None = None,
        limit: Measure | None = None,
    ) -> None:
        self.spoiled = True
        self.log.add(Fault(kind, where, message, instead, self.stack, found, limit))

    def quantity(self, token: Token, unit: Unit | None = None) -> Quantity:
        """The quantity that a token writes, in ``unit`` if it leaves that to its neighbour."""
        number = token.number
        if unit is None:
            unit = token.unit.unit if token.unit is not None else Unit.QUARTER
        elif token.type == "QUARTERS":
            number /= 4
        if unit.value.dimension is LENGTH:
            if unit.value.system is System.METRIC:
                self.log.metric += 1
            else:
                self.log.inch += 1
        return Quantity(where=self.where(token.start_pos, token.end_pos), number=number, unit=unit)

    def name(self, token: Token) -> Name:
        """A name in quotation marks or one that is a single word."""
        return Name(where=self.at(token), text=words_of(token))

    def build(self, kind: type[Made], where: Where, values: dict[str, object]) -> Made | None:
        """A node of ``kind``; figures that cannot be are reported and left out.

        Returns ``None`` if the node cannot do without what is missing or left out.
        """
        if not required(kind) <= values.keys():
            return None
        try:
            return kind(where=where, **values)
        except ValidationError as error:
            refused = {str(detail["loc"][0]): detail for detail in reversed(error.errors(include_url=False))}
        for detail in refused.values():
            self._refuse(detail, values, where)
        return self.build(kind, where, {name: value for name, value in values.items() if name not in refused})

    def _refuse(self, detail: ErrorDetails, values: dict[str, object], where: Where) -> None:
        """Reports what a model refused; of a value that could be of several types, what the first says."""
        place = detail["loc"]
        value = values.get(str(place[0]))
        if isinstance(value, tuple) and len(place) > 1:
            value = value[int(place[1])]
        at = value.where if isinstance(value, Node) else where
        kind = FaultKind.PLAN_TEXT if detail["type"] == "wrong_dimension" else FaultKind.VALUE_OUT_OF_RANGE
        message = f"{detail['msg'][:1].upper()}{detail['msg'][1:]}."
        found, limit = _measures(value, detail.get("ctx", {}))
        instead = "Correct the figure or its unit." if found else "Correct the order of the figures."
        self.fault(at, message, instead, kind, found, limit)


@functools.cache
def required(kind: type[Node]) -> frozenset[str]:
    """The fields that a node cannot do without."""
    return frozenset(name for name, field in kind.model_fields.items() if field.is_required())


def _measures(value: object, context: dict[str, object]) -> tuple[Measure | None, Measure | None]:
    """What was found and the bound that it lies beyond, where a bound was the trouble."""
    found, low, high = context.get("value_si"), context.get("low_si"), context.get("high_si")
    dimension: Dimension | None = None
    if isinstance(value, Quantity):
        dimension = value.dimension
    elif isinstance(value, Range):
        dimension = value.low.dimension
    if dimension is None or not (isinstance(found, float) and isinstance(low, float) and isinstance(high, float)):
        return None, None
    return Measure(found, dimension), Measure(low if found < low else high, dimension)


def first(branch: Branch | Token) -> Token:
    while not isinstance(branch, Token):
        branch = branch.children[0]
    return branch


def last(branch: Branch | Token) -> Token:
    while not isinstance(branch, Token):
        branch = branch.children[-1]
    return branch


def name_in(token: Token) -> str:
    """A name without its quotation marks, single spaces between its words; letters that may be written as one or with
    their accents apart are one (Unicode's form NFC), so that names that read alike are alike."""
    text = token.text[1:-1] if token.type == "STRING" else token.text
    return " ".join(text.split() if text.isascii() else normalize("NFC", text).split())


def words_of(branch: Branch | Token) -> str:
    """The words of a name as they were written, without quotation marks, single spaces between them."""
    if isinstance(branch, Token):
        return name_in(branch)
    return " ".join(words_of(child) for child in branch.children)


def plain(branch: Branch | Token) -> str:
    """The words of a detail as the tables of words spell them: lower case, no hyphens, no full stop."""
    return words_of(branch).lower().replace("-", " ").rstrip(".")


def tokens_of(branch: Branch, *types: str) -> list[Token]:
    """The tokens of these types that stand directly in a branch."""
    return [child for child in branch.children if isinstance(child, Token) and child.type in types]
