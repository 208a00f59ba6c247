"""Checked expressions as closures, and the logic of what may be unknown.

Every closure takes the tuple of what the rule stands at and gives a value, or ``None`` where it is
unknown. Yes-or-no values follow Kleene's strong logic of three values (S. C. Kleene, Introduction to
Metamathematics, 1952, section 64): `unknown and no` is no, `unknown or yes` is yes.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from operator import attrgetter
from types import MappingProxyType
from typing import Any, NamedTuple

from stacklint.engineering.schema import FactKind

Standing = tuple[Any, ...]
"""The system of units, the stack, the member that the rule has come to, and the variables bound inside."""

Run = Callable[[Standing], Any]

_LEFT: ContextVar[list[int] | None] = ContextVar("_LEFT", default=None)
"""The steps that the judging under way may still take."""


class TooLong(Exception):  # noqa: N818 - it never leaves the package
    """An expression has taken all the steps that a judging may take."""


@contextmanager
def at_most(steps: int) -> Iterator[None]:
    """While this is open, quantifiers raise :class:`TooLong` once their bodies have taken so many steps."""
    token = _LEFT.set([steps])
    try:
        yield
    finally:
        _LEFT.reset(token)


def _take(steps: int) -> None:
    left = _LEFT.get()
    if left is None:
        return
    left[0] -= steps
    if left[0] < 0:
        raise TooLong


COMPARISONS: Mapping[str, Callable[[Any, Any], bool]] = MappingProxyType(
    {
        "=": operator.eq,
        "!=": operator.ne,
        "<": lambda left, right: left < right and not _alike(left, right),
        "<=": lambda left, right: left <= right or _alike(left, right),
        ">": lambda left, right: left > right and not _alike(left, right),
        ">=": lambda left, right: left >= right or _alike(left, right),
    }
)
"""Figures that differ by rounding alone are alike: what lies exactly at its limit does not exceed it."""


def _alike(left: Any, right: Any) -> bool:
    return isinstance(left, float) and math.isclose(left, right, rel_tol=1e-9, abs_tol=1e-12)


class Checked(NamedTuple):
    """An expression whose names and units are right.

    ``start`` and ``end`` are its place in its clause. ``constant``: it reads no fact. ``named``: it
    leans on a limit or a let. ``reads``: it reads a fact by itself. ``steps``: how many expressions are worked out for
    it, those of limits and lets counted in, and the body of a quantifier once.
    """

    kind: FactKind
    run: Run
    start: int
    end: int
    constant: bool = False
    named: bool = False
    reads: bool = False
    steps: int = 1

    @property
    def is_limit(self) -> bool:
        """It can stand as the limit in a finding."""
        return self.constant or (self.named and not self.reads)


def constantly(value: Any) -> Run:
    return lambda _: value


def reading(slot: int, facts: tuple[str, ...]) -> Run:
    """Reads a fact of what stands in ``slot``, through further groups of facts that may be absent."""
    if not facts:
        return lambda standing: standing[slot]
    if len(facts) == 1:
        only = attrgetter(facts[0])
        return lambda standing: only(standing[slot])
    getters = tuple(attrgetter(fact) for fact in facts)

    def run(standing: Standing) -> Any:
        value = standing[slot]
        for getter in getters:
            if value is None:
                return None
            value = getter(value)
        return value

    return run


def calling(owner: Run, name: str, argument: Run) -> Run:
    """Works out a fact that takes an argument."""

    def run(standing: Standing) -> Any:
        facts, given = owner(standing), argument(standing)
        if facts is None or given is None:
            return None
        return getattr(facts, name)(given)

    return run


def both(parts: tuple[Run, ...]) -> Run:
    def run(standing: Standing) -> bool | None:
        answer: bool | None = True
        for part in parts:
            value = part(standing)
            if value is None:
                answer = None
            elif not value:
                return False
        return answer

    return run


def either(parts: tuple[Run, ...]) -> Run:
    def run(standing: Standing) -> bool | None:
        answer: bool | None = False
        for part in parts:
            value = part(standing)
            if value is None:
                answer = None
            elif value:
                return True
        return answer

    return run


def negation(part: Run) -> Run:
    def run(standing: Standing) -> bool | None:
        value = part(standing)
        return None if value is None else not value

    return run


def choice(first: Run, condition: Run, second: Run) -> Run:
    def run(standing: Standing) -> Any:
        answer = condition(standing)
        if answer is None:
            return None
        return first(standing) if answer else second(standing)

    return run


def known(part: Run, wanted: bool) -> Run:
    return lambda standing: (part(standing) is not None) is wanted


def comparison(left: Checked, sign: str, right: Checked) -> Run:
    compare = COMPARISONS[sign]
    run_left, run_right = left.run, right.run
    if right.constant:
        fixed = run_right(())

        def run_fixed(standing: Standing) -> bool | None:
            value = run_left(standing)
            return None if value is None or fixed is None else compare(value, fixed)

        return run_fixed

    def run(standing: Standing) -> bool | None:
        value, other = run_left(standing), run_right(standing)
        return None if value is None or other is None else compare(value, other)

    return run


def membership(part: Run, members: tuple[Run, ...], wanted: bool) -> Run:
    def run(standing: Standing) -> bool | None:
        value = part(standing)
        if value is None:
            return None
        values = [member(standing) for member in members]
        if value in values:
            return wanted
        return None if None in values else not wanted

    return run


def arithmetic(left: Run, sign: str, right: Run) -> Run:
    """A sum, difference, product or quotient; dividing by zero, or what no number can hold, leaves it unknown."""
    work = {"+": operator.add, "-": operator.sub, "*": operator.mul, "/": _divide}[sign]

    def run(standing: Standing) -> float | None:
        value, other = left(standing), right(standing)
        return None if value is None or other is None else _finite(work(value, other))

    return run


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None


def _divide(value: float, by: float) -> float | None:
    return value / by if by else None


def negative(part: Run) -> Run:
    def run(standing: Standing) -> float | None:
        value = part(standing)
        return None if value is None else -value

    return run


def over(way: str, collection: Run, body: Run, steps: int) -> Run:
    """A quantifier over a collection. ``count``, ``largest`` and ``smallest`` pass over what is unknown.

    ``steps`` are those of its body.
    """

    def values(standing: Standing) -> list[Any] | None:
        members = collection(standing)
        if members is None:
            return None
        _take(len(members) * steps)
        return [body((*standing, member)) for member in members]

    def run(standing: Standing) -> Any:
        found = values(standing)
        if found is None:
            return None
        if way == "any":
            return True if True in found else None if None in found else False
        if way == "all":
            return False if False in found else None if None in found else True
        if way == "count":
            return sum(1 for value in found if value)
        present = [value for value in found if value is not None]
        if not present:
            return None
        return max(present) if way == "largest" else min(present)

    return run
