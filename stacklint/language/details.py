"""Statements that are lists of details: what each detail may be, as tables, and how the lists are read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import NamedTuple

from stacklint.language.complaints import bare_number, quote
from stacklint.language.line import Line, first, plain, words_of
from stacklint.language.nearest import listed, nearest
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.plan.node import Node, Quantity, Range
from stacklint.units import Unit
from stacklint.where import Where

NO_WORDS: Mapping[str, tuple[tuple[str, object], ...]] = MappingProxyType({})
NO_FIGURES: Mapping[str, str] = MappingProxyType({})


class Fields:
    """The fields of one statement, gathered detail by detail."""

    __slots__ = ("line", "listing", "places", "values")

    def __init__(self, line: Line) -> None:
        self.line = line
        self.values: dict[str, object] = {}
        self.places: dict[str, Where] = {}
        self.listing = ""
        """The detail that a further bare figure would go on with: ``at`` or ``overhang``."""

    def put(self, name: str, value: object, at: Branch | Token) -> None:
        """Sets a field, unless it was said before: then the first holds and the second is a fault."""
        if name in self.values:
            self.again(at)
            return
        self.values[name] = value
        self.places[name] = self.line.over(at)

    def again(self, at: Branch | Token) -> None:
        said = quote(text_of(self.line, at))
        self.line.fault(
            self.line.over(at),
            f"{said} says something that this statement has said already.",
            "Keep one of the two.",
        )


Reader = Callable[[Fields, Branch], None]
NO_READERS: Mapping[str, Reader] = MappingProxyType({})


class Details(NamedTuple):
    """What a statement takes.

    ``words`` gives the fields that a phrase sets; ``figures`` the field that a detail with one figure
    sets, by the detail's name in the grammar; ``readers`` the details that need more than that.
    ``takes`` lists the details as people write them, for the message about one that is not known.
    """

    takes: tuple[str, ...]
    words: Mapping[str, tuple[tuple[str, object], ...]] = NO_WORDS
    figures: Mapping[str, str] = NO_FIGURES
    readers: Mapping[str, Reader] = NO_READERS
    bare: str = "LENGTH"
    """What a number without a unit would have been, as a terminal of the grammar."""


def read_details(fields: Fields, keyword: str, details: list[Branch], table: Details) -> None:
    """Reads the details of a statement into ``fields``; those that it does not take are faults."""
    for detail in details:
        kind = str(detail.data)
        reader = table.readers.get(kind)
        if reader is not None:
            reader(fields, detail)
        elif kind in table.figures:
            token = figure_in(detail)
            if token is not None:
                fields.put(table.figures[kind], fields.line.quantity(token), detail)
        elif kind in ("words", "on") and plain(detail) in table.words:
            for name, value in table.words[plain(detail)]:
                fields.put(name, value, detail)
        else:
            _refuse(fields.line, keyword, detail, table)
        if kind != "section" or fields.listing != "at":
            fields.listing = kind


def figure_in(detail: Branch) -> Token | None:
    """The figure with a unit that stands directly in a detail."""
    return next((child for child in detail.children if isinstance(child, Token) and child.unit is not None), None)


def _refuse(line: Line, keyword: str, detail: Branch, table: Details) -> None:
    if detail.data == "every_range":
        line.fault(
            line.over(detail),
            f"{quote(text_of(line, detail))} leaves open which spacing is meant.",
            "Write the widest one.",
        )
        return
    said = text_of(line, detail)
    lead = first(detail)
    if detail.data == "section" and lead.type == "FIGURE" and len(detail.children) == 1:
        line.fault(line.over(detail), *bare_number(lead.text, table.bare))
        return
    close = nearest(plain(detail), table.words) or nearest(lead.text, _leads(table))
    instead = f"Write {_complete(close[0], table)}." if close else f"It takes {listed(table.takes)}."
    line.fault(line.over(detail), f"{quote(said)} is not a detail of the statement {keyword}.", instead)


def _leads(table: Details) -> list[str]:
    """The words that the details begin with, for the nearest one to a slip of the pen."""
    return [way.split(" ")[0] for way in table.takes if way[0].isalpha()]


def _complete(word: str, table: Details) -> str:
    """A detail as ``takes`` shows it if ``word`` is only its beginning."""
    if word in table.words:
        return word
    return next((way for way in table.takes if way.split(" ")[0] == word), word)


def text_of(line: Line, branch: Branch | Token) -> str:
    """The text of a branch as it stands in the plan, on one line."""
    from stacklint.language.line import last

    return " ".join(line.text[first(branch).start_pos : last(branch).end_pos].split())


def sides(line: Line, section: Branch, *, timber: bool = True) -> list[Quantity | Range] | None:
    """The figures of a section such as ``3/4 in x 1 1/4 in``, or ``None`` if one has no unit.

    A figure without a unit has that of the next figure, or of the last one that has any. Two whole
    numbers without any unit are the nominal size of a ``timber`` in inches: a ``4x6``. Of anything else they are a
    fault.
    """
    parts = [child for child in section.children if not isinstance(child, Token) or child.type != "TIMES"]
    shared = [unit_of(part) for part in parts]
    if timber and len(parts) > 1 and not any(shared) and all(nominal(part) for part in parts):
        shared = [Unit.INCH] * len(parts)
    read: list[Quantity | Range] = []
    for index, part in enumerate(parts):
        unit = next((unit for unit in shared[index:] if unit), None)
        unit = unit or next((unit for unit in reversed(shared) if unit), None)
        side = side_of(line, part, unit)
        if side is None:
            return None
        read.append(side)
    return read


def nominal(part: Branch | Token) -> bool:
    return isinstance(part, Token) and part.type == "FIGURE" and part.number == int(min(part.number, 1e6))


def unit_of(part: Branch | Token) -> Unit | None:
    """The unit that a side is written with; of a range, that of its end."""
    if not isinstance(part, Token):
        return next((unit for unit in (unit_of(child) for child in reversed(part.children)) if unit), None)
    return part.unit.unit if part.unit else None


def side_of(line: Line, part: Branch | Token, unit: Unit | None) -> Quantity | Range | None:
    """A side as a quantity or a range; ``unit`` is lent to a figure that has none of its own."""
    if isinstance(part, Token):
        return _one(line, part, unit if part.type == "FIGURE" else None)
    own = unit_of(part) or (None if any(token_type(end) == "QUARTERS" for end in part.children) else unit)
    low, high = (_end(line, end, own) for end in (part.children[0], part.children[2]))
    if low is None or high is None:
        return None
    return Range(where=line.over(part), low=low, high=high)


def token_type(part: Branch | Token) -> str:
    return part.type if isinstance(part, Token) else ""


def _end(line: Line, part: Branch | Token, unit: Unit | None) -> Quantity | None:
    assert isinstance(part, Token)
    return _one(line, part, None if part.unit else unit)


def _one(line: Line, token: Token, unit: Unit | None) -> Quantity | None:
    if token.type == "FIGURE" and unit is None:
        line.fault(line.at(token), *bare_number(token.text))
        return None
    return line.quantity(token, unit)


def build(fields: Fields, kind: type[Node], where: Where) -> Node | None:
    return fields.line.build(kind, where, fields.values)


def name_after(detail: Branch) -> str:
    """The words after ``of`` or ``for``."""
    return words_of(detail.children[-1])
