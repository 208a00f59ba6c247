"""Finding places of the climate table."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.tables import places


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("Columbus, OH", "Columbus, Ohio"),
        ("Columbus, Ohio", "Columbus, Ohio"),
        ("columbus oh", "Columbus, Ohio"),
        ("Columbus", "Columbus, Ohio"),
        ("Columbus, Ohio, USA", "Columbus, Ohio"),
        ("Portland, OR", "Portland, Oregon"),
        ("portland maine", "Portland, Maine"),
        ("St Louis MO", "St. Louis, Missouri"),
        ("Washington, D.C.", "Washington, District of Columbia"),
        ("London", "London (Gatwick), England"),
        ("London (Gatwick)", "London (Gatwick), England"),
        ("Aberdeen, UK", "Aberdeen (Dyce), Scotland"),
        ("Seattle, WA", "Seattle-Tacoma, Washington"),
        ("Calgary, AB", "Calgary, Alberta"),
    ],
)
def test_a_place_is_found_with_and_without_its_state(written: str, meant: str) -> None:
    found = places.find(written)
    assert found is not None
    assert found.name == meant


@pytest.mark.parametrize("name", ["Portland", "Charleston"])
def test_a_town_of_two_states_is_asked_about(name: str) -> None:
    assert places.find(name) is None
    assert sum(offer.startswith(name) for offer in places.nearest(name)) == 2


def test_a_town_in_the_wrong_state_is_not_taken() -> None:
    assert places.find("Columbus, GA") is None
    assert places.nearest("Columbus, GA")[0] == "Columbus, Ohio"


def test_a_slip_of_the_pen_is_answered_with_the_place_meant() -> None:
    assert places.nearest("Milwakee, WI")[0] == "Milwaukee, Wisconsin"
    assert places.nearest("Atlantis under the sea") == ()


def test_of_two_stations_of_a_town_the_one_with_all_its_months_is_taken() -> None:
    dallas = places.find("Dallas, TX")
    assert dallas is not None
    assert dallas.complete


def test_january_is_colder_than_july_in_columbus_and_the_other_way_about_in_sydney() -> None:
    for name, north in (("Columbus, OH", True), ("Sydney", False)):
        place = places.find(name)
        assert place is not None and place.complete
        january, july = place.months[0], place.months[6]
        assert january is not None and july is not None
        assert january.temperature is not None and july.temperature is not None
        assert (january.temperature < july.temperature) is north


def test_a_place_with_gaps_says_that_it_is_incomplete() -> None:
    austin = places.find("Austin, TX")
    assert austin is not None
    assert not austin.complete
    assert len(austin.months) == 12


def test_figures_that_were_read_come_before_those_recalled() -> None:
    boston, albuquerque = places.find("Boston, MA"), places.find("Albuquerque, NM")
    assert boston is not None and boston.memory and boston.complete
    assert albuquerque is not None and not albuquerque.memory and albuquerque.complete


@given(st.text(max_size=30))
def test_any_text_can_be_looked_up(text: str) -> None:
    assert places.find(text) is None or places.find(text) is not None
    assert len(places.nearest(text)) <= 3
