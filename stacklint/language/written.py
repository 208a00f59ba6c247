"""The smallest parts of a plan's text: figures with their units, names, strings."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from stacklint.language.scan import unseen
from stacklint.plan.node import Quantity, Range
from stacklint.units import Unit

_FINEST = 64
"""The finest part of an inch that is written as a fraction: the smallest division of a shop rule."""
_LEAST_QUARTERS = 3
"""``2/4`` is not written: it reads as a two-by-four as easily as half an inch."""
_FIRST_WITH_COMMAS = 10_000
_LETTERS = r"[^\W\d_¼½¾⅛⅜⅝⅞]+"
_WORDS = re.compile(rf"{_LETTERS}(?:[-' ]{_LETTERS})*")
_CODE = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*")
_MARKS = frozenset('"“”')
_NEVER_ALONE = frozenset({"plywood", "steel", "pallets", "none", "timber"})
"""Words that mean something else where a wood could stand."""
_NEVER_BARE = frozenset(
    {"the", "random", "about", "roughly", "approximately", "approx", "around", "nearly", "exactly", "full"}
)
"""Words that are passed over, or that end a wood's name, where they stand outside of quotation marks."""


def amount(value: Quantity | Range) -> str:
    """A quantity or a range of them: ``1 1/4 in``, ``5/4``, ``60%``, ``5 to 9 in``, ``6 in to 1 ft``."""
    if isinstance(value, Quantity):
        return _quantity(value)
    if value.low.unit is value.high.unit and value.low.unit is not Unit.QUARTER:
        return f"{_number(value.low)} to {_quantity(value.high)}"
    return f"{_quantity(value.low)} to {_quantity(value.high)}"


def factor(*sides: Quantity | Range) -> str:
    """Sides of a section, a board or a room: ``17 ft x 5 ft x 6 ft``."""
    return " x ".join(amount(side) for side in sides)


def figure(number: float) -> str:
    """A number without exponent that reads back as exactly ``number``; from 10,000 on with commas."""
    if number == int(number):
        return f"{int(number):,}" if abs(number) >= _FIRST_WITH_COMMAS else str(int(number))
    return format(Decimal(repr(number)), "f")


def quoted(text: str) -> str:
    """A name or a text in the quotation marks of the plan language.

    Raises:
        ValueError: if the text holds a quotation mark or what cannot be seen, or runs over more than one line: no plan
            can say it.
    """
    if not _MARKS.isdisjoint(text) or len(text.splitlines()) > 1 or unseen(text):
        raise ValueError(f"a plan's names and texts stand on one line without quotation marks: {text!r}")
    return f'"{text}"'


def wood_name(text: str) -> str:
    """A wood's name, in quotation marks only where bare words would not be read as one name."""
    return quoted(text) if text.casefold() in _NEVER_ALONE else plain_words(text)


def plain_words(text: str) -> str:
    """A name that may stand as bare words, in quotation marks where those would not be read as one name."""
    bare = _WORDS.fullmatch(text) and _NEVER_BARE.isdisjoint(text.casefold().split())
    return text if bare else quoted(text)


def code(text: str) -> str:
    """A published code such as ``T8-D4``, in quotation marks where it holds anything else."""
    return text if _CODE.fullmatch(text) else quoted(text)


def words(*parts: str | None) -> str:
    """The parts that there are, a space between them."""
    return " ".join(part for part in parts if part)


def details(*parts: str | None) -> str:
    """The parts that there are, a comma between them."""
    return ", ".join(part for part in parts if part)


def _quantity(value: Quantity) -> str:
    unit = value.unit
    if unit is Unit.QUARTER:
        return _quarters(value.number)
    space = "" if unit is Unit.PERCENT else " "
    return f"{_number(value)}{space}{unit.symbol}"


def _number(value: Quantity) -> str:
    return _inches(value.number) if value.unit is Unit.INCH else figure(value.number)


def _quarters(number: float) -> str:
    if number >= _LEAST_QUARTERS and number == int(number):
        return f"{int(number)}/4"
    return f"{_inches(number / 4)} in"


def _inches(number: float) -> str:
    """Inches in fractions where a shop rule shows them exactly, in decimals otherwise."""
    parts = number * _FINEST
    if parts != int(parts):
        return figure(number)
    whole, part = divmod(Fraction(int(parts), _FINEST), 1)
    if not part:
        return figure(number)
    return f"{figure(whole)} {part}" if whole else str(part)
