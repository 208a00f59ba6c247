"""Piles, climates and readings made for the tests of drying, and strategies that draw them."""

from __future__ import annotations

import datetime

from hypothesis import strategies as st

from stacklint.drying import climate as climates
from stacklint.drying.batch import Batch, Spread
from stacklint.drying.climate import Air, Climate
from stacklint.drying.forecast import Way
from stacklint.drying.surroundings import Surroundings
from stacklint.plan.boards import Face
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Day, Reading
from stacklint.plan.yard import Site
from stacklint.tables import woods
from stacklint.tables.wood import Wood
from stacklint.units import ONE_INCH, Unit

DATE = datetime.date
START = DATE(2025, 4, 1)
NEVER = float("inf")


def wood(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None, name
    return found


def batch(
    name: str = "white ash",
    inches: float = 1.0,
    moisture: float | None = None,
    *,
    label: str = "a",
    mass: float = 500.0,
    face: Face | None = None,
) -> Batch:
    """Boards of a wood; green where no moisture content is said. ``mass`` is their oven-dry mass, kg."""
    of = wood(name)
    green = of.mc_green if moisture is None else moisture
    return Batch(label, f"{name} {inches:g} in", of, inches * ONE_INCH, green, mass, face)


def near(place: str) -> Climate:
    """The outdoor air of a place of the table of climates."""
    found = climates.outdoor(Site(name=Name(text="Larch Bottom"), near=Name(text=place)))
    assert found is not None, place
    return found


def steady(temperature: float, humidity: float) -> Climate:
    """One air all the year round."""
    return Climate((Air(temperature, humidity),) * 12, "steady air", "made for a test", memory=False)


def yard(air: Climate) -> Surroundings:
    return Surroundings(Way.OPEN_AIR, air, f"the open air at {air.words}")


def room(air: Climate, removes: float | None = None, *, still: bool = False) -> Surroundings:
    return Surroundings(Way.ROOM, air, f"the air of {air.words}", removes, still)


def reading(date: datetime.date, moisture: float, label: str | None = None) -> Reading:
    return Reading(
        day=Day(date=date),
        moisture=Quantity(number=100 * moisture, unit=Unit.PERCENT),
        label=None if label is None else Name(text=label),
    )


def after(days: int, start: datetime.date = START) -> datetime.date:
    return start + datetime.timedelta(days=days)


def times(spread: Spread) -> tuple[float, float, float]:
    """Days at the fast, the likely and the slow pace; :data:`NEVER` where they do not get there."""
    fast, likely, slow = (NEVER if curve.reached is None else curve.reached for curve in spread)
    return fast, likely, slow


# Strategies

WOODS = st.sampled_from(woods.names())
INCHES = st.floats(0.25, 6.0)
DAYS_OF_2025 = st.integers(0, 364).map(lambda day: DATE(2025, 1, 1) + datetime.timedelta(days=day))


@st.composite
def years(draw: st.DrawFn) -> Climate:
    """Climates that some place might have: a warm and a cold half, damp or dry."""
    mean = draw(st.floats(-5, 25))
    swing = draw(st.floats(0, 18))
    months = []
    for number in range(12):
        warmth = mean - swing * (1, 0.87, 0.5, 0, -0.5, -0.87, -1, -0.87, -0.5, 0, 0.5, 0.87)[number]
        months.append(Air(warmth, draw(st.floats(0.25, 0.92))))
    return Climate(tuple(months), "a place that is not", "made for a test", memory=False)
