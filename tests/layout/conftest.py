"""Short ways to write plans for the tests of the layout."""

from __future__ import annotations

from typing import Any

import pytest

from stacklint.plan.boards import Boards, CourseRows, Courses
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.shelter import PlaceKind, PlaceStatement
from stacklint.plan.stack import Stack, StackKind, StackSize
from stacklint.units import Unit
from stacklint.where import Where


class Yard:
    """Builds stacks: lengths in feet, widths and thicknesses in inches, unless said otherwise."""

    @staticmethod
    def feet(number: float) -> Quantity:
        return Quantity(number=number, unit=Unit.FOOT)

    @staticmethod
    def inches(number: float) -> Quantity:
        return Quantity(number=number, unit=Unit.INCH)

    @staticmethod
    def mm(number: float) -> Quantity:
        return Quantity(number=number, unit=Unit.MILLIMETRE)

    @staticmethod
    def metres(number: float) -> Quantity:
        return Quantity(number=number, unit=Unit.METRE)

    def boards(
        self,
        label: str,
        count: int | None,
        length: float | tuple[float, float],
        width: float | tuple[float, float] | None = 6,
        thickness: float = 1,
        volume: Quantity | None = None,
        line: int = 0,
    ) -> Boards:
        return Boards(
            where=Where("p", line, 1, line, 9),
            label=Name(text=label),
            count=count,
            volume=volume,
            wood=Name(text="ash"),
            thickness=self.inches(thickness),
            width=None if width is None else self._range(width, Unit.INCH),
            length=self._range(length, Unit.FOOT),
        )

    def stack(self, *boards: Boards, length: float | None = 16, width: float = 4, **said: Any) -> Stack:
        size = None if length is None else StackSize(length=self.feet(length), width=self.feet(width))
        said.setdefault("kind", StackKind.PILE)
        said.setdefault("size", size)
        return Stack(name=Name(text="B2"), boards=boards, **said)

    @staticmethod
    def course(first: int, last: int, *rows: tuple[int, str], line: int = 0) -> Courses:
        """Rows as pairs of a count and labels: ``(8, "a + a")``."""
        return Courses(
            where=Where("p", line, 1, line, 9),
            first=first,
            last=last,
            rows=tuple(
                CourseRows(count=count, labels=tuple(Name(text=label) for label in labels.split(" + ")))
                for count, labels in rows
            ),
        )

    @staticmethod
    def place(kind: PlaceKind) -> PlaceStatement:
        return PlaceStatement(kind=kind)

    @staticmethod
    def _range(said: float | tuple[float, float], unit: Unit) -> Quantity | Range:
        if isinstance(said, tuple):
            return Range(low=Quantity(number=said[0], unit=unit), high=Quantity(number=said[1], unit=unit))
        return Quantity(number=said, unit=unit)


@pytest.fixture(scope="session")
def yard() -> Yard:
    return Yard()
