"""What one cell of a tally says, made a part of a ``boards`` statement.

Figures and units are cut out by the scanner of the plan language, so that a tally may be written in all the everyday
ways that a plan may; nothing of a cell gets into the statement but the figures, units and words that were found in it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from types import MappingProxyType

from stacklint.convert.headings import HeadingUnit
from stacklint.language import choices
from stacklint.language.scan import Token, scan
from stacklint.language.written import figure
from stacklint.report.plain import plain
from stacklint.units import System, Unit

LONGEST = 1000
"""Characters of a cell."""


class CellError(ValueError):
    """A cell does not say what it must; the text tells what was expected and what was found."""


_TO = "TO"
_TIMES = "TIMES"
_WORDS = MappingProxyType(
    {"to": (_TO,), "by": (_TIMES,), "x": (_TIMES,)}
    | dict.fromkeys(("thick", "wide", "long"), ("SIDE",))
    | dict.fromkeys(("pieces", "piece", "pcs", "pc", "boards", "board", "planks", "ea"), ("PIECES",))
)
_SIDES = frozenset({"LENGTH", "QUARTERS", "FIGURE"})
_RANDOM = frozenset({"random", "random width", "random widths", "rw", "various", "mixed"})
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])(\d+),(\d{1,2})(?![\d,])")
_EITHER = re.compile(r"(?<![\d.,])\d{1,3},\d{3}(?![\d,])")


def with_points(cell: str) -> str:
    """A cell of a tally in which commas part no cells: its decimal commas made points.

    Raises:
        CellError: for a comma that may part thousands as well.
    """
    either = _EITHER.search(cell)
    if either:
        said = either.group()
        raise CellError(
            f"{said} may be {said.replace(',', '.')} or {said.replace(',', '')}: write it with a point or without comma"
        )
    return _DECIMAL_COMMA.sub(r"\1.\2", cell)


def side(cell: str, unit: HeadingUnit | None, what: str) -> str:
    """A thickness, width or length: one figure or a range. A bare figure takes the heading's unit.

    Raises:
        CellError: if it is none.
    """
    tokens = _scanned(cell)
    if tokens and _kind(tokens[-1]) == "SIDE":
        tokens.pop()
    if not _is_side(tokens):
        raise _unexpected(f"a {what} such as {_EXAMPLES[what]}", cell)
    return _side(tokens, unit)


def width(cell: str, unit: HeadingUnit | None) -> str:
    """As :func:`side`; random widths are said in words."""
    return "random width" if cell.casefold() in _RANDOM else side(cell, unit, "width")


def size(cell: str, unit: HeadingUnit | None, *, length_apart: bool) -> tuple[str, ...]:
    """The sides of a size: ``5/4x6x10'``, ``27 x 150 mm``, ``2x8-16`` (16 ft long).

    ``length_apart``: the length stands in a cell of its own.

    Raises:
        CellError: if it is no size.
    """
    sides: list[list[Token]] = [[]]
    for token in _scanned(cell):
        if _kind(token) == _TIMES:
            sides.append([])
        elif _kind(token) != "SIDE":
            sides[-1].append(token)
    if len(sides) == 2 and not length_apart and len(sides[1]) == 3 and _kind(sides[1][1]) == _TO:
        last = sides[1].pop()
        sides[1].pop()
        sides.append([last])
        if last.type == "FIGURE" and unit is None:
            return (*_sides(sides[:2], None, cell), f"{last.text} {Unit.FOOT.symbol}")
    return _sides(sides, unit, cell)


def _sides(sides: Sequence[list[Token]], unit: HeadingUnit | None, cell: str) -> tuple[str, ...]:
    if not 2 <= len(sides) <= 3 or not all(map(_is_side, sides)):
        raise _unexpected("a size such as 4/4 x 6 in x 8 ft", cell)
    return tuple(_side(each, unit) for each in sides)


def in_inches(sides: Sequence[str]) -> tuple[str, ...]:
    """The sides of a board, a bare range of widths given inches where a bare width would be in inches.

    That is beside quarters and inches, and beside a bare thickness where the length is in feet or inches.
    """
    thickness, wide, long = (scan(each, _WORDS) for each in sides)
    if len(wide) != 3 or any(token.type != "FIGURE" for token in (wide[0], wide[2])):
        return tuple(sides)
    inches = thickness[0].type == "QUARTERS" or _system(thickness) is System.INCH
    if inches or (thickness[0].type == "FIGURE" and _system(long) is System.INCH):
        return (sides[0], f"{sides[1]} {Unit.INCH.symbol}", sides[2])
    raise CellError(f"expected a width with its unit, such as 6 to 9 in, found {found(sides[1])}")


def _system(tokens: Sequence[Token]) -> System | None:
    return tokens[-1].unit.unit.system if tokens[-1].unit is not None else None


def count(cell: str) -> str:
    """How many boards, or how much lumber where a unit of volume says so.

    Raises:
        CellError: if it is neither.
    """
    tokens = _scanned(cell)
    if len(tokens) == 2 and _kind(tokens[1]) == "PIECES":
        tokens.pop()
    if len(tokens) != 1 or tokens[0].type not in ("FIGURE", "VOLUME"):
        raise _unexpected("a number of boards such as 60", cell)
    return tokens[0].text


def volume(cell: str, unit: HeadingUnit | None) -> str:
    """How much lumber.

    Raises:
        CellError: if it is no volume.
    """
    tokens = _scanned(cell)
    if len(tokens) != 1 or tokens[0].type not in (("FIGURE", "VOLUME") if unit else ("VOLUME",)):
        raise _unexpected("a volume such as 800 bf or 0.4 m3", cell)
    token = tokens[0]
    if token.type == "VOLUME" or unit is None:
        return token.text
    if not math.isfinite(token.number * unit.times):
        raise _unexpected("a volume such as 800 bf or 0.4 m3", cell)
    return f"{figure(token.number * unit.times)} {unit.unit.symbol}"


def moisture(cell: str) -> str:
    """A moisture content: a word, or a figure, which may be bare.

    Raises:
        CellError: if it is none.
    """
    word = " ".join(cell.casefold().replace("-", " ").replace(" the ", " ").split())
    if any(field == "moisture" for field, _ in choices.BOARDS.get(word, ())):
        return word
    tokens = _scanned(cell)
    if len(tokens) != 1 or tokens[0].type not in ("PERCENT", "FIGURE"):
        raise _unexpected("a moisture content such as 12%, green, AD or KD", cell)
    if tokens[0].type == "PERCENT":
        return tokens[0].text
    if tokens[0].number < 1:
        raise _unexpected("a moisture content in percent, such as 12 or 12%", cell)
    return f"{tokens[0].text}%"


def found(cell: str) -> str:
    """A cell as a message quotes it: on one line, cut where it is long."""
    said = plain(cell)
    return f"'{said}'" if len(said) <= 40 else f"'{said[:37]}...'"


_EXAMPLES = MappingProxyType({"thickness": "4/4 or 27 mm", "width": "6 in or 150 mm", "length": "8 ft or 2.4 m"})


def _scanned(cell: str) -> list[Token]:
    # In a plan a # begins a comment; in a tally it is a mark like others, and no figure.
    return [] if "#" in cell else scan(cell, _WORDS)


def _kind(token: Token) -> str:
    return token.could_be[0] if token.could_be else token.type


def _is_side(tokens: Sequence[Token]) -> bool:
    if len(tokens) == 3:
        return tokens[0].type in _SIDES and _kind(tokens[1]) == _TO and tokens[2].type in _SIDES
    return len(tokens) == 1 and tokens[0].type in _SIDES


def _side(tokens: Sequence[Token], unit: HeadingUnit | None) -> str:
    if any(token.type == "LENGTH" for token in tokens):
        unit = None
    return " to ".join(_measure(token, unit) for token in tokens if token.type in _SIDES)


def _measure(token: Token, unit: HeadingUnit | None) -> str:
    if token.type != "FIGURE" or unit is None:
        return token.text
    if unit.unit is Unit.QUARTER:
        return f"{token.text}/4"
    return f"{token.text} {unit.unit.symbol}"


def _unexpected(expected: str, cell: str) -> CellError:
    return CellError(f"expected {expected}, found {found(cell)}")
