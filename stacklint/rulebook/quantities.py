"""Figures as the rule language writes them, and the sums that their units allow."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from math import isfinite
from types import MappingProxyType

from stacklint.rulebook.values import Checked
from stacklint.units import ONE_INCH, TEMPERATURE, Dimension, Unit

_FIGURE = re.compile(
    r"(?:(?P<whole>\d+)[ \t]+)?(?P<over>\d+)/(?P<under>\d+)|(?P<plain>(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?)",
    re.ASCII,
)


@cache
def units() -> Mapping[str, Unit]:
    """The units by symbol. A single day may be written ``1 day``."""
    found = {unit.symbol: unit for unit in Unit if unit is not Unit.QUARTER}
    found["day"] = Unit.DAY
    return MappingProxyType(found)


def read_quantity(text: str, sign: int = 1) -> tuple[float, Dimension] | None:
    """The SI value and dimension of a figure with its unit; ``None`` if it is none, or divided by zero, or endless.

    The ``sign`` counts before the unit does: five below zero Fahrenheit is -20.6 C.
    """
    match = _FIGURE.match(text)
    if match is None:
        return None
    if match["plain"]:
        number = float(match["plain"].replace(",", ""))
    elif float(match["under"]):
        number = float(match["whole"] or 0) + float(match["over"]) / float(match["under"])
    else:
        return None
    unit = units().get(text[match.end() :].strip())
    if unit is None:
        return None
    value = unit.to_si(sign * number)
    return (value, unit.dimension) if isfinite(value) else None


def read_quarters(text: str) -> float:
    """The thickness that so many quarters name, in metres: the trade's 4/4 is 1 in."""
    return float(text.split("/")[0]) * ONE_INCH / 4


def combined(left: Dimension, sign: str, right: Dimension) -> Dimension | None:
    """The dimension of ``left sign right``; ``None`` where that means nothing.

    Temperatures are only compared: their scales have no common zero, so a sum of two says nothing.
    """
    if TEMPERATURE in (left, right):
        return None
    if sign == "*":
        return left * right
    if sign == "/":
        return left / right
    return left if left == right else None


def is_quantity(checked: Checked) -> bool:
    return isinstance(checked.kind, Dimension)
