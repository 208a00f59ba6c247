"""What every part of a plan shares: it is frozen, and it knows where it was written."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from stacklint.units import Dimension, Unit
from stacklint.where import NOWHERE, Where


class Node(BaseModel):
    """A part of a plan. Two nodes are equal when they say the same, wherever they were written."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)

    where: Where = Field(default=NOWHERE, repr=False)

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self._said() == other._said()

    def __hash__(self) -> int:
        return hash((type(self), tuple(self._said().items())))

    def _said(self) -> dict[str, Any]:
        return {name: value for name, value in self.__dict__.items() if name != "where"}


class Name(Node):
    """A name as it was written."""

    text: str


class Quantity(Node):
    """A number with the unit it was written in."""

    number: float
    unit: Unit

    @property
    def si(self) -> float:
        """The value in the SI unit of its dimension (temperature in degrees Celsius, % as a fraction)."""
        return self.unit.to_si(self.number)

    @property
    def dimension(self) -> Dimension:
        return self.unit.dimension


class Range(Node):
    """From ``low`` to ``high``, both of one dimension."""

    low: Quantity
    high: Quantity

    @property
    def middle_si(self) -> float:
        return (self.low.si + self.high.si) / 2
