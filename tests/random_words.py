"""Hypothesis strategies for the smallest parts of a plan: figures with their units, names, days."""

from __future__ import annotations

import datetime
import functools
from enum import Enum
from functools import partial
from typing import Any, TypeVar, get_args
from unicodedata import normalize

from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy
from pydantic_core import PydanticCustomError

from stacklint.language.scan import unseen
from stacklint.plan import bounds
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.stack import Day
from stacklint.units import Unit

T = TypeVar("T")
E = TypeVar("E", bound=Enum)

TODAY = datetime.date(2026, 6, 1)
"""The day on which random plans are read: their readings were taken before it."""

_SMALLEST_FIGURE = 1e-6


def _units_of(limits: bounds.Bounds) -> list[Unit]:
    return [u for u in Unit if u.dimension == limits.dimension and u not in (Unit.QUARTER, Unit.SECOND)]


def _bounds(annotation: Any) -> bounds.Bounds:
    limits = get_args(annotation)[1].func
    assert isinstance(limits, bounds.Bounds)
    return limits


def _within(limits: bounds.Bounds, value: Quantity | Range) -> bool:
    try:
        limits(value)
    except PydanticCustomError:
        return False
    return True


def _parted(number: int, parts: int) -> float:
    return number / parts


@functools.cache
def figures(low: float, high: float) -> SearchStrategy[float]:
    """Whole figures, shop-rule fractions, decimals of two places and any float between the two."""
    kinds: list[SearchStrategy[float]] = [
        st.floats(low, high, allow_subnormal=False).filter(lambda x: x == 0 or abs(x) >= _SMALLEST_FIGURE)
    ]
    for parts in (1, 4, 16, 64, 100):
        first, last = -int(-low * parts // 1), int(high * parts // 1)
        if first <= last:
            kinds.append(st.integers(first, last).map(partial(_parted, parts=parts)))
    return st.one_of(*reversed(kinds))


@functools.cache
def quantities(annotation: Any, units: tuple[Unit, ...] = ()) -> SearchStrategy[Quantity]:
    """A quantity within the bounds of one of the types of ``stacklint.plan.bounds``."""
    limits = _bounds(annotation)
    return st.one_of([_in_unit(limits, unit) for unit in units or _units_of(limits)])


def _in_unit(limits: bounds.Bounds, unit: Unit) -> SearchStrategy[Quantity]:
    low, high = unit.from_si(limits.low), unit.from_si(limits.high)
    middle = Quantity(number=(low + high) / 2, unit=unit)

    def quantity(number: float) -> Quantity:
        value = Quantity(number=number, unit=unit)
        return value if _within(limits, value) else middle

    return figures(low, high).map(quantity)


@functools.cache
def ranges(annotation: Any) -> SearchStrategy[Range]:
    return st.tuples(quantities(annotation), quantities(annotation)).map(_from_the_smaller)


def _from_the_smaller(ends: tuple[Quantity, Quantity]) -> Range:
    low, high = sorted(ends, key=lambda end: end.si)
    return Range(low=low, high=high)


@functools.cache
def spans(annotation: Any) -> SearchStrategy[Quantity | Range]:
    return quantities(annotation) | ranges(annotation)


@functools.cache
def thicknesses() -> SearchStrategy[Quantity]:
    """A board's thickness, in quarters as often as not. ``2/4`` is refused: it is a two-by-four to many."""
    quarters = st.integers(3, 32).map(lambda n: Quantity(number=n, unit=Unit.QUARTER))
    return quarters | quantities(bounds.BoardThickness)


@functools.cache
def positions() -> SearchStrategy[tuple[Quantity, ...]]:
    places = st.lists(quantities(bounds.Position), min_size=1, max_size=6, unique_by=lambda at: at.si)
    return places.map(lambda found: tuple(sorted(found, key=lambda at: at.si)))


@functools.cache
def texts() -> SearchStrategy[str]:
    """What may stand between quotation marks: anything on one line that can be seen, but the marks themselves."""
    letters = st.characters(exclude_categories=("C", "Z"), exclude_characters='"“”')
    seen = st.text(letters, min_size=1, max_size=12).filter(lambda text: not unseen(text))
    words = seen.map(partial(normalize, "NFC"))
    odd = st.sampled_from(
        ["B2", "row 3", "#7", "a, b", "O'Brien's", "5/4 ash", "пиломатериал 1", "木 2", "x", "pile", "100%"]
    )
    return odd | st.lists(words, min_size=1, max_size=4).map(" ".join)


@functools.cache
def names() -> SearchStrategy[Name]:
    return texts().map(lambda text: Name(text=text))


def different_names(count: int) -> SearchStrategy[list[Name]]:
    """Names that no reader takes for each other: letter case apart they still differ."""
    return st.lists(names(), max_size=count, unique_by=lambda name: name.text.casefold())


@functools.cache
def one_of(names: tuple[str, ...]) -> SearchStrategy[Name]:
    return st.sampled_from(names).map(lambda text: Name(text=text))


def maybe(strategy: SearchStrategy[T]) -> SearchStrategy[T | None]:
    return st.none() | strategy


@functools.cache
def words_of(kind: type[E]) -> SearchStrategy[E]:
    return st.sampled_from(list(kind))


@functools.cache
def days(last: datetime.date = datetime.date(2100, 12, 31)) -> SearchStrategy[Day]:
    return st.dates(datetime.date(1970, 1, 1), last).map(lambda date: Day(date=date))
