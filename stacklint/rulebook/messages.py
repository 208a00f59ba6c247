"""The texts of `say` and `instead`: words with expressions between braces."""

from __future__ import annotations

import re
from typing import NamedTuple

from stacklint.rulebook.expressions import check
from stacklint.rulebook.names import Names
from stacklint.rulebook.nearest import offer
from stacklint.rulebook.quantities import units
from stacklint.rulebook.scope import kind_in_words
from stacklint.rulebook.showing import InWords, in_unit, shown, spoken
from stacklint.rulebook.values import Run, Standing
from stacklint.rulebook.written import Written
from stacklint.units import Dimension

_PART = re.compile(r"\{\{|\}\}|\{[^{}]*\}|[{}]")
_AS = re.compile(r"(?s)(.*\S)\s+as\s+(\S+)\s*\Z")


class Filling(NamedTuple):
    run: Run
    way: InWords


class Message(NamedTuple):
    """A text ready to be filled."""

    parts: tuple[str | Filling, ...]

    def filled(self, standing: Standing) -> str:
        """The text with its values, in the system of units of the plan."""
        system = standing[0]
        return "".join(
            part if isinstance(part, str) else spoken(part.run(standing), part.way, system) for part in self.parts
        )


def read_message(texts: tuple[Written, ...], names: Names) -> Message:
    """The message that ``texts`` make, joined with blanks.

    Raises:
        Refused: at the first thing wrong with it.
    """
    parts: list[str | Filling] = []
    for number, text in enumerate(texts):
        if number:
            parts.append(" ")
        at = 0
        for match in _PART.finditer(text.text):
            parts.append(text.text[at : match.start()])
            parts.append(_part(text, match, names))
            at = match.end()
        parts.append(text.text[at:])
    return Message(tuple(part for part in parts if part != ""))


def _part(text: Written, match: re.Match[str], names: Names) -> str | Filling:
    found = match.group()
    if found in ("{{", "}}"):
        return found[0]
    if len(found) == 1:
        other = "}" if found == "{" else "{"
        message = f"A {found} stands without its {other}."
        raise text.refuse(message, f"Add the {other} in the same text, or write {found * 2} for a plain {found}.",
                          match.start(), match.end())  # fmt: skip
    return _filling(text.part(match.start() + 1, match.end() - 1), names)


def _filling(written: Written, names: Names) -> Filling:
    forced = _AS.match(written.text)
    body = written if forced is None else written.part(0, forced.end(1))
    checked, _ = check(body, names)
    if forced is None:
        way = shown(checked.kind)
        if way is None:
            message = f"{body.text} is {kind_in_words(checked.kind)}, which has no words."
            raise body.refuse(message, "Choose a text by it: 'green' if ... else 'dry'.")
        return Filling(checked.run, way)
    symbol = forced.group(2)
    unit = units().get(symbol)
    if unit is None:
        message = f"There is no unit {symbol}."
        raise written.refuse(message, offer(symbol, units(), "units"), *forced.span(2))
    if checked.kind != unit.dimension:
        message = f"{body.text} is {kind_in_words(checked.kind)}, and {symbol} measures {unit.dimension.word}."
        fitting = [name for name, other in units().items() if other.dimension == checked.kind]
        instead = f"Write it as {' or '.join(fitting)}." if fitting and isinstance(checked.kind, Dimension) else (
            "Leave out the unit.")  # fmt: skip
        raise written.refuse(message, instead, *forced.span(2))
    return Filling(checked.run, in_unit(unit))
