"""From when to when one stack stands in its spot or kiln, by its plan and its forecast."""

from __future__ import annotations

import datetime
from enum import Enum
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.drying.forecast import Forecast, Pace
from stacklint.plan.stack import Stack, StackKind

UNSAID = "not said"
"""The place of a stack whose plan names none."""


class SpotKind(Enum):
    """What a stack stands in. Of these ``YARD`` and ``SOME_KILN`` hold any number of stacks: the spot is not said."""

    SPOT = "spot"
    KILN = "kiln"
    YARD = "no spot said"
    SOME_KILN = "no kiln said"


class Spot(NamedTuple):
    """Where a stack stands: the name of the spot or the kiln, and what it is part of."""

    kind: SpotKind
    name: str
    within: str = ""

    @property
    def key(self) -> tuple[SpotKind, str, str]:
        """The same for one spot however it is spelled."""
        return self.kind, self.name.casefold(), self.within.casefold()


class Stay(NamedTuple):
    """From when to when a stack stands in its spot.

    ``start_said`` is false where another day was taken for it. The days of ``fast``, ``likely`` and ``slow`` are
    ``None`` where the boards are not ready in all the time that was looked at, and where ``foretold`` is false.
    """

    spot: Spot
    start: datetime.date
    start_said: bool
    foretold: bool
    """How it dries is forecast. Without anything wanted there is no day on which it is ready, and it stands on."""
    fast: datetime.date | None = None
    likely: datetime.date | None = None
    slow: datetime.date | None = None


def stay_of(checked: CheckedStack, only_site: str | None) -> Stay | None:
    """``None`` where neither the plan nor a forecast gives a day on which the stack begins to stand.

    A stack that names no site is on the only one of its plan.
    """
    stack, forecast = checked.stack, checked.forecast
    said = (stack.starts or stack.stacked) if stack.kind is StackKind.CHARGE else stack.stacked
    spot = _spot(stack, only_site)
    if isinstance(forecast, Forecast):
        if forecast.wanted is None:
            return Stay(spot, forecast.start, said is not None, True)
        fast, likely, slow = (forecast.ready(pace) for pace in Pace)
        return Stay(spot, forecast.start, said is not None, True, fast, likely, slow)
    return Stay(spot, said.date, True, False) if said else None


def place_words(stack: Stack) -> str:
    """Where a stack stands, as its plan says it: *open yard, Cold Hollow*, or its kiln."""
    if stack.kind is StackKind.CHARGE:
        return stack.kiln.text if stack.kiln else UNSAID
    if stack.place is None:
        return UNSAID
    place = stack.place.said or stack.place.kind.value
    return f"{place}, {stack.place.site.text}" if stack.place.site else place


def _spot(stack: Stack, only_site: str | None) -> Spot:
    if stack.kind is StackKind.CHARGE:
        return Spot(SpotKind.KILN, stack.kiln.text) if stack.kiln else Spot(SpotKind.SOME_KILN, "")
    if stack.spot is None:
        return Spot(SpotKind.YARD, place_words(stack))
    site = stack.place.site.text if stack.place and stack.place.site else only_site or ""
    return Spot(SpotKind.SPOT, stack.spot.text, site)
