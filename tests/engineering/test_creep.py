"""How much more than its first sag loaded wood sags in the end."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import creep
from stacklint.engineering.creep import Condition

MOISTURE = st.floats(0.0, 2.0)
AIR = st.one_of(st.none(), st.floats(-20.0, 110.0))


def test_green_boards_that_dry_in_the_stack_sag_five_to_seven_times_as_much_as_at_first() -> None:
    """Wood Handbook (FPL-GTR-190): creep of green wood drying under load is 4 to 6 times the first deformation."""
    found = creep.boards(0.80)
    assert (found.low, found.likely, found.high) == (5.0, 6.0, 7.0)


def test_seasoned_boards_sag_about_twice_as_much_as_at_first() -> None:
    """NDS 3.5.2: 1.5; Wood Handbook: creep about equal to the initial deflection; the widest spread 3."""
    found = creep.boards(0.12)
    assert (found.low, found.likely, found.high) == (1.5, 2.0, 3.0)


def test_half_dry_boards_lie_halfway_between() -> None:
    assert creep.boards(0.25).likely == pytest.approx(4.0)


@given(MOISTURE, MOISTURE, AIR)
def test_wetter_boards_never_creep_less(one: float, other: float, air: float | None) -> None:
    drier, wetter = sorted((one, other))
    assert creep.boards(drier, air).likely <= creep.boards(wetter, air).likely


@given(MOISTURE, st.floats(-20, 110), st.floats(-20, 110))
def test_hotter_boards_never_creep_less(moisture: float, one: float, other: float) -> None:
    cooler, hotter = sorted((one, other))
    assert creep.boards(moisture, cooler).high <= creep.boards(moisture, hotter).high


@given(MOISTURE, AIR)
def test_the_likely_figure_lies_between_the_low_and_the_high(moisture: float, air: float | None) -> None:
    found = creep.boards(moisture, air)
    assert 1 <= found.low <= found.likely <= found.high


def test_twenty_eight_degrees_more_make_the_creep_two_to_three_times_as_large() -> None:
    """Wood Handbook: about 28 C (50 F) warmer, creep 2 to 3 times as large. The elastic part does not grow."""
    cool, warm = creep.boards(0.80, 20.0), creep.boards(0.80, 48.0)
    assert (warm.low - 1) / (cool.low - 1) == pytest.approx(2.0)
    assert (warm.likely - 1) / (cool.likely - 1) == pytest.approx(2.5)
    assert (warm.high - 1) / (cool.high - 1) == pytest.approx(3.0)


def test_an_unknown_or_a_cold_place_counts_as_twenty_degrees() -> None:
    assert creep.boards(0.80) == creep.boards(0.80, 20.0) == creep.boards(0.80, -10.0)


def test_a_kiln_hotter_than_the_data_says_so_and_creeps_no_less_than_at_fifty_degrees() -> None:
    edge, kiln = creep.boards(0.80, 50.0), creep.boards(0.80, 71.0)
    assert not edge.beyond_data
    assert kiln.beyond_data
    assert kiln.likely == edge.likely


@pytest.mark.parametrize(
    ("condition", "likely"), [(Condition.BEARER_DRY, 1.5), (Condition.BEARER_WET, 2.0), (Condition.BEARER_DRYING, 3.5)]
)
def test_a_bearer_creeps_by_how_wet_it_is_and_whether_it_dries(condition: Condition, likely: float) -> None:
    """NDS 3.5.2: 1.5 dry, 2.0 wet or unseasoned; drying under load between Australian practice and Eurocode 5."""
    assert creep.of(condition).likely == likely


def test_every_state_names_its_source() -> None:
    assert all("http" in condition.value.source for condition in Condition)
