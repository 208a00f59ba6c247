"""The details that can be offered in each statement, as the language names them in its own messages."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from stacklint.language.parse import keywords
from stacklint.language.running import PARTS
from stacklint.language.scan import scan
from stacklint.language.statements import STATEMENTS
from stacklint.plan.boards import Face, MoistureWord
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.stack import ReadingFrom
from stacklint.plan.yard import KilnType

_MOISTURES = tuple(word.value for word in MoistureWord)
_FACES = tuple(face.value for face in Face)
_MARKS = ("live edge", "boxed heart", "squares")
_OTHERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "boards": (*_MOISTURES, "35%", *_FACES, *_MARKS, "for 13/16 in finished"),
        "want": ("12%", "by 2027-02-01", "for flooring"),
        "reading": tuple(word.value for word in ReadingFrom),
        "from pile": PARTS,
        "stiffness": ("1,330,000 psi green", "1,660,000 psi dry"),
        "shrinks": ("4% radial", "6% tangential", "9% volumetric"),
    }
)
"""Details of statements that have a head of their own."""
FIRST: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "place": tuple(kind.value for kind in PlaceKind),
        "type": tuple(kind.value for kind in KilnType),
    }
)
"""What a statement takes first, where that is a word of few."""


@cache
def details(keyword: str) -> tuple[str, ...]:
    """The details of a statement, one by one, each as it could be written; figures in them are examples."""
    if keyword in _OTHERS:
        return _OTHERS[keyword]
    takes = next((one.takes for one in STATEMENTS.values() if one.keyword == keyword), ())
    return tuple(detail for way in takes for detail in _ways(way))


@cache
def measured(keyword: str) -> frozenset[str]:
    """The terminals of the figures that the details of a statement begin with."""
    found = (scan(detail, keywords()) for detail in details(keyword))
    return frozenset(tokens[0].type for tokens in found if tokens and tokens[0].unit is not None)


def _ways(way: str) -> list[str]:
    """``dry, green or wet`` is three details, ``a size such as 3/4 in x 1 1/4 in`` one."""
    if '"' in way:
        return []
    way = way.rpartition(" such as ")[2]
    if " or " not in way:
        return [way]
    *some, last = way.split(" or ")
    return [*(", ".join(some)).split(", "), last]
