"""What air a pile stands in, and whether anything moves or dries it."""

from __future__ import annotations

import datetime

import pytest

from stacklint import language
from stacklint.drying.forecast import NoForecast, Way
from stacklint.drying.surroundings import NOT_RECKONED, Surroundings, outdoors, site_of, surroundings
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.yard import Plan
from stacklint.units import ONE_PINT_OF_WATER

COLUMBUS = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
MADISON = 'site "Fen End"\n  near "Madison, WI"\n'
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
TEN_C = "  month {} 10 C 70%\n"
TODAY = datetime.date(2026, 9, 1)
DERIVED = sorted(
    kind.value
    for kind in PlaceKind
    if kind not in (PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED, PlaceKind.KILN, PlaceKind.HEATED_SHOP)
)


def plan(*said: str, sites: str = COLUMBUS) -> Plan:
    lines = "\n  ".join(said)
    text = f'{sites}pile "Row 3"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n  {lines}\n'
    return language.read(text, "plan", today=TODAY).plan


def around(*said: str, sites: str = COLUMBUS) -> Surroundings | NoForecast:
    read = plan(*said, sites=sites)
    return surroundings(read.stacks[0], read.sites, 0.45)


def known(*said: str, sites: str = COLUMBUS) -> Surroundings:
    found = around(*said, sites=sites)
    assert isinstance(found, Surroundings)
    return found


def unknown(*said: str, sites: str = COLUMBUS) -> NoForecast:
    found = around(*said, sites=sites)
    assert isinstance(found, NoForecast)
    return found


# Which site


def test_a_pile_stands_at_the_site_that_it_names() -> None:
    found = known('place open yard, site "fen end"', sites=COLUMBUS + MADISON)
    assert found.words == "the open air at Madison, Wisconsin"
    assert found.assumed == (NOT_RECKONED,)


def test_the_only_site_of_a_plan_is_taken_and_that_is_said() -> None:
    found = known("place open yard")
    assert found.words == "the open air at Columbus, Ohio"
    assert found.assumed == ("No site is named with its place: Larch Bottom, the only one, is taken.", NOT_RECKONED)


def test_of_two_sites_none_is_guessed() -> None:
    read = plan("place open yard", sites=COLUMBUS + MADISON)
    assert site_of(read.stacks[0], read.sites) == (None, ())
    assert "no site is named" in unknown("place open yard", sites=COLUMBUS + MADISON).missing


def test_a_plan_without_a_site_says_how_to_write_one() -> None:
    said = unknown("place open yard", sites="")
    assert "no site is named" in said.missing
    assert 'near "Columbus, OH"' in said.instead


def test_a_pile_that_says_no_place_stands_in_the_open_yard() -> None:
    assert known() == known("place open yard")


def test_a_site_that_the_plan_does_not_have_is_not_replaced_by_another() -> None:
    assert isinstance(around('place open yard, site "Nowhere"'), NoForecast)


# What is known of it


def test_a_place_that_nobody_knows_is_asked_for() -> None:
    said = unknown("place open yard", sites='site "Larch Bottom"\n  near "Atlantis"\n')
    assert said.missing == "How it dries is not forecast: the air at site Larch Bottom is not known."
    assert "near" in said.instead


def test_a_site_that_says_nothing_is_asked_what_it_is_near() -> None:
    said = unknown("place open yard", sites='site "Larch Bottom"\n')
    assert "the air at site Larch Bottom is not known" in said.missing


def test_months_that_are_missing_are_named() -> None:
    months = "".join(TEN_C.format(name) for name in MONTHS if name not in ("oct", "dec"))
    said = unknown("place open yard", sites=f'site "Larch Bottom"\n{months}')
    assert said.missing == (
        "How it dries is not forecast: at site Larch Bottom the air is not known for October, December."
    )
    assert "month jan" in said.instead


def test_twelve_months_of_ones_own_are_enough() -> None:
    months = "".join(map(TEN_C.format, MONTHS))
    found = known("place open yard", sites=f'site "Larch Bottom"\n{months}')
    assert found.climate.months == ((pytest.approx(10), pytest.approx(0.7)),) * 12


# Rooms


@pytest.mark.parametrize("place", DERIVED)
def test_in_a_closed_place_without_a_fan_the_air_stands_still_and_this_is_said(place: str) -> None:
    found = known(f"place {place}")
    assert (found.way, found.still, found.removes) == (Way.ROOM, True, None)
    assert f"Nothing moves the air of the {place}: boards above 20% stay as wet as they are." in found.assumed
    assert any("is taken to" in said for said in found.assumed)


@pytest.mark.parametrize("place", DERIVED)
def test_a_fan_moves_the_air_of_a_closed_place(place: str) -> None:
    found = known(f"place {place}", "fan 2 of 1500 cfm")
    assert not found.still
    assert found.removes is None
    assert not any("Nothing moves" in said for said in found.assumed)


def test_a_heated_shop_has_air_that_moves() -> None:
    found = known("place heated shop")
    assert (found.way, found.still) == (Way.ROOM, False)


def test_a_basement_with_a_dehumidifier_gives_up_30_pints_a_day() -> None:
    found = known("place basement", "fan removes 30 pt/day")
    assert not found.still
    assert found.removes == pytest.approx(30 * ONE_PINT_OF_WATER)


def test_a_garage_of_stated_air_needs_no_site_and_no_fan() -> None:
    found = known("place garage, 60 F 45%", sites="")
    assert found.climate.months[0] == (pytest.approx(15.56, abs=0.01), pytest.approx(0.45))
    assert not found.still
    assert found.assumed == ()


def test_a_garage_of_unknown_air_asks_for_a_site_or_for_its_air() -> None:
    said = unknown("place garage", sites="")
    assert "no site is named" in said.missing
    assert "place garage, 60 F 45%" in said.instead


def test_open_sheds_have_the_open_air_however_still() -> None:
    found = known("place open shed")
    assert (found.way, found.still) == (Way.OPEN_AIR, False)


def test_a_pile_in_a_kiln_is_told_to_be_a_charge() -> None:
    assert "charge" in unknown("place kiln").instead


# What could not be read is not guessed


def test_a_place_that_could_not_be_read_is_not_taken_for_the_open_yard() -> None:
    assert "its place could not be read" in unknown("place treehouse").missing


@pytest.mark.parametrize("fan", ["fan 2 of 1500 cfs", "fan removes 30 pints"])
def test_a_fan_that_could_not_be_read_is_not_taken_for_still_air(fan: str) -> None:
    assert "fan" in plan("place basement", fan).stacks[0].faulty
    assert "its fan could not be read" in unknown("place basement", fan).missing


def test_what_is_outside_is_known_for_any_place() -> None:
    read = plan("place basement")
    climate, assumed = outdoors(read.stacks[0], read.sites)
    assert not isinstance(climate, NoForecast)
    assert climate.words == "Columbus, Ohio"
    assert len(assumed) == 1
