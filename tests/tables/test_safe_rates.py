"""How much a board may lose in a day."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kiln_charges import wood

from stacklint.tables import safe_rates
from stacklint.tables.safe_rates import SafeRate
from stacklint.units import ONE_INCH


def of(name: str, inches: float) -> SafeRate:
    found = safe_rates.of(wood(name), inches * ONE_INCH)
    assert found is not None
    return found


# Wengert, seven tips for kiln drying oak, item 3, read at
# https://www.woodworkingnetwork.com/knowledge-center/wood-dr/seven-tips-kiln-drying-oak-plus-more-faqs
@pytest.mark.parametrize(("name", "percent"), [("northern red oak", 3.8), ("white oak", 2.5)])
def test_the_oaks_lose_no_more_than_their_published_rate(name: str, percent: float) -> None:
    found = of(name, 1)
    assert found.per_day == pytest.approx(percent / 100)
    assert not found.memory


# Maximum safe drying rates, Wengert, reprinted by extension services (memory).
@pytest.mark.parametrize(
    ("name", "percent"),
    [("sugar maple", 6.5), ("black cherry", 5.8), ("black walnut", 8.2), ("yellow-poplar", 13.8), ("white ash", 10.4)],
)
def test_other_woods_lose_what_the_table_recalls(name: str, percent: float) -> None:
    found = of(name, 1)
    assert found.per_day == pytest.approx(percent / 100)
    assert found.memory


# Wengert, read at https://woodweb.com/knowledge_base/Trouble_drying_84_oak.html: 2.5 times more slowly.
@pytest.mark.parametrize("name", ["northern red oak", "white oak", "black cherry", "sugar maple"])
def test_8_4_dries_two_and_a_half_times_more_slowly_than_4_4(name: str) -> None:
    assert of(name, 1).per_day / of(name, 2).per_day == pytest.approx(2.5, rel=0.03)


def test_8_4_walnut_is_held_to_the_lower_of_its_two_rows() -> None:
    """2.5% by a forum contributor, read, against 3.3% from the 4/4 row."""
    found = of("black walnut", 2)
    assert found.per_day == pytest.approx(0.025)
    assert not found.memory


@pytest.mark.parametrize(("inches", "share"), [(1.25, 0.8), (1.5, 0.6)])
def test_5_4_and_6_4_take_a_share_of_the_4_4_rate(inches: float, share: float) -> None:
    """University extension practice (memory)."""
    found = of("northern red oak", inches)
    assert found.per_day == pytest.approx(0.038 * share)
    assert found.memory


@pytest.mark.parametrize("name", ["shagbark hickory", "southern red oak", "American basswood", "eastern white pine"])
def test_a_wood_without_a_published_figure_has_none(name: str) -> None:
    assert safe_rates.of(wood(name), ONE_INCH) is None


@given(st.floats(0.25, 6), st.floats(0.25, 6))
def test_a_thicker_board_may_never_lose_more(one: float, other: float) -> None:
    thin, thick = sorted((one, other))
    assert of("black walnut", thick).per_day <= of("black walnut", thin).per_day + 1e-12


def test_the_rate_has_no_jump_where_the_rows_end() -> None:
    for inches in (1, 1.25, 1.5, 2):
        below, above = of("white oak", inches - 0.001).per_day, of("white oak", inches + 0.001).per_day
        assert below == pytest.approx(above, rel=0.01)
