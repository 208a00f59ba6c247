"""Published drying times by wood, thickness and moisture."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying import times
from stacklint.plan.node import Name
from stacklint.plan.yard import WoodStatement
from stacklint.tables import woods
from stacklint.tables.wood import Wood
from stacklint.units import ONE_DAY, ONE_INCH


def wood(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None
    return found


def days(name: str, inches: float = 1.0, moisture: float | None = None, *, kiln: bool = False) -> tuple[float, float]:
    known = wood(name)
    found = times.drying_time(known, inches * ONE_INCH, known.mc_green if moisture is None else moisture, kiln=kiln)
    return found.low / ONE_DAY, found.high / ONE_DAY


anywood = st.sampled_from(woods.names()).map(wood)


def test_inch_boards_take_the_published_range() -> None:
    # Wood Handbook FPL-GTR-190 Table 13-1, memory
    assert days("sugar maple") == pytest.approx((50, 200))
    assert days("white oak") == pytest.approx((80, 250))
    assert days("shortleaf pine") == pytest.approx((30, 150))
    # AH-188 ch. 7, memory
    assert days("white ash", kiln=True) == pytest.approx((10, 15))
    assert days("white ash", moisture=0.20, kiln=True) == pytest.approx((4, 7))


@given(anywood, st.floats(0.25, 4), st.floats(1.01, 3), st.booleans())
def test_thicker_boards_take_longer(wood: Wood, inches: float, times_thicker: float, kiln: bool) -> None:
    thin = times.drying_time(wood, inches * ONE_INCH, 0.5, kiln=kiln)
    thick = times.drying_time(wood, inches * times_thicker * ONE_INCH, 0.5, kiln=kiln)
    assert thick.low > thin.low and thick.high > thin.high


@given(anywood, st.floats(0.0, 2.0), st.floats(0.0, 2.0), st.booleans())
def test_wetter_boards_never_take_less_time(wood: Wood, one: float, other: float, kiln: bool) -> None:
    low, high = sorted((one, other))
    dry, wet = (times.drying_time(wood, ONE_INCH, moisture, kiln=kiln) for moisture in (low, high))
    assert dry.low <= wet.low + 1e-6 and dry.high <= wet.high + 1e-6


@given(anywood, st.floats(0.0, 2.0), st.booleans())
def test_every_wood_has_a_range_with_a_source_and_a_method(wood: Wood, moisture: float, kiln: bool) -> None:
    found = times.drying_time(wood, ONE_INCH, moisture, kiln=kiln)
    assert 0 <= found.low <= found.high
    assert found.source and "published range for" in found.method


def test_boards_at_the_end_of_the_range_take_no_time() -> None:
    assert days("cherry", moisture=0.20) == (0, 0)
    assert days("cherry", moisture=0.06, kiln=True) == (0, 0)


def test_half_dried_boards_take_more_than_half_the_time_left_by_a_straight_line() -> None:
    """The last points go slowest: red oak from 40% needs well over (40 - 20) / (74 - 20) of the whole time."""
    whole, part = days("red oak")[0], days("red oak", moisture=0.40)[0]
    assert 0.37 < part / whole < 0.8


def test_a_wood_that_the_table_lacks_takes_the_time_of_one_as_dense_and_says_so() -> None:
    thorn = woods.described(WoodStatement(name=Name(text="thorn"), specific_gravity=0.60))
    assert isinstance(thorn, Wood)
    found = times.drying_time(thorn, ONE_INCH, thorn.mc_green, kiln=False)
    assert ", as white oak" in found.method
