"""What a plan's stack comes to: a forecast, or what is missing for one."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.drying.forecast import Forecast, NoForecast, Pace, Way, curve
from stacklint.drying.outlook import batches_of, moisture_on, outlook, start_of
from stacklint.language import read
from stacklint.plan.stack import Stack
from stacklint.tables import woods

TODAY = datetime.date(2026, 9, 1)
COLUMBUS = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
KILN = """\
kiln "North box"
  type dehumidification
  inside 17 ft x 5 ft x 6 ft
  heats to 150 F
  removes 60 pt/day
  fans 4 of 2400 cfm
"""
ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"


def checked(*said: str, sites: str = COLUMBUS, boards: str = ASH) -> CheckedPlan:
    lines = "\n  ".join((boards, "stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/4 in, every 24 in, dry", *said))
    return check(f'{sites}pile "Row 3"\n  {lines}\n', today=TODAY)


def forecast(*said: str, sites: str = COLUMBUS, boards: str = ASH) -> Forecast:
    found = checked(*said, sites=sites, boards=boards).stacks[0].forecast
    assert isinstance(found, Forecast), found
    return found


def missing(*said: str, sites: str = COLUMBUS) -> str:
    plan = checked(*said, sites=sites)
    found = plan.stacks[0].forecast
    assert isinstance(found, NoForecast)
    assert found.instead
    assert plan.findings, "the rest is checked all the same"
    return found.missing


def stack(text: str) -> Stack:
    return read(text, "plan", today=TODAY).plan.stacks[0]


# From text to forecast


def test_a_pile_of_ash_stacked_in_april_in_ohio_is_air_dried_by_late_summer() -> None:
    found = forecast("place open yard", "stacked 2026-04-02", "want 15%")
    assert found.way is Way.OPEN_AIR
    assert found.start == datetime.date(2026, 4, 2)
    ready = found.ready(Pace.LIKELY)
    assert ready is not None
    assert datetime.date(2026, 6, 15) < ready < datetime.date(2026, 9, 15)
    assert found.wanted == 0.15


def test_green_boards_are_as_wet_as_the_table_says_and_measured_ones_as_measured() -> None:
    found = forecast("stacked 2026-04-02", boards=f"{ASH}\n  boards b: 20 of white ash 4/4 x 6 in x 8 ft, 31%")
    ash = woods.find("white ash")
    assert ash is not None
    assert [each.batch.moisture for each in found.batches] == [ash.mc_green, 0.31]
    assert [each.batch.label for each in found.batches] == ["a", "b"]


def test_the_dry_weight_of_the_boards_is_their_volume_by_their_density() -> None:
    """60 boards of 1 x 6 in x 8 ft, white ash: specific gravity 0.55 green (Wood Handbook)."""
    batch = forecast("stacked 2026-04-02").batches[0].batch
    volume = 60 * 0.0254 * 0.1524 * 2.4384
    assert batch.dry_mass == pytest.approx(volume * 550, rel=0.01)
    text = f'{COLUMBUS}pile "Row 3"\n  {ASH}\n'
    ash = woods.find("white ash")
    assert ash is not None
    assert batches_of(stack(text), {"white ash": ash})[0].dry_mass == pytest.approx(batch.dry_mass)


@pytest.mark.parametrize(
    ("boards", "volume"),
    [
        ("boards a: 350 bf of white ash 4/4 x 6 in x 8 ft, green", 350 * 144 * 0.0254**3),
        ("boards a: 10 of white ash 1 in x 4 to 8 in x 8 to 12 ft, green", 10 * 0.0254 * 0.1524 * 3.048),
        ("boards a: 10 of white ash 1 in x random width x 10 ft, green", 10 * 0.0254 * 0.1524 * 3.048),
    ],
)
def test_boards_by_volume_and_of_a_range_of_sizes_weigh_what_their_middle_does(boards: str, volume: float) -> None:
    ash = woods.find("white ash")
    assert ash is not None
    batch = batches_of(stack(f'pile "Row 3"\n  {boards}\n'), {"white ash": ash})[0]
    assert batch.dry_mass == pytest.approx(volume * 1000 * ash.sg_green, rel=1e-6)


# What is missing


def test_a_pile_without_a_site_is_checked_but_not_forecast() -> None:
    assert "no site is named" in missing("place open yard", "stacked 2026-04-02", sites="")


def test_a_place_nobody_knows_is_a_finding_and_no_forecast() -> None:
    sites = 'site "Larch Bottom"\n  near "Atlantis"\n'
    assert "the air at site Larch Bottom is not known" in missing("stacked 2026-04-02", sites=sites)
    assert "unknown-place" in {finding.rule for finding in checked("stacked 2026-04-02", sites=sites).findings}


def test_a_site_with_some_months_names_those_it_lacks() -> None:
    sites = 'site "Larch Bottom"\n  month jan -1 C 74%\n  month feb 0 C 70%\n'
    assert "not known for March, April, May" in missing("stacked 2026-04-02", sites=sites)


def test_a_day_of_stacking_that_could_not_be_read_is_not_guessed() -> None:
    assert "the day it begins to dry could not be read" in missing("stacked 2026-02-30")


def test_a_stack_without_boards_is_no_forecast_and_no_crash() -> None:
    empty = stack('pile "Row 3"\n  stacked 2026-04-02\n')
    found = outlook(empty, (), (), None, TODAY)
    assert isinstance(found, NoForecast)
    assert "no boards" in found.missing


# What is assumed


def test_the_only_site_is_taken_and_that_is_said() -> None:
    assert "No site is named with its place: Larch Bottom, the only one, is taken." in forecast().assumed


def test_without_a_day_of_stacking_it_is_today_and_that_is_said() -> None:
    found = forecast("want 15%")
    assert found.start == TODAY
    assert "It is not said when the pile is stacked: 2026-09-01 is taken." in found.assumed


def test_without_a_day_of_stacking_the_first_reading_tells_that_it_was_stacked_by_then() -> None:
    found = forecast("want 15%", "reading 2026-06-20 38%", "reading 2026-06-01 41%")
    assert found.start == datetime.date(2026, 6, 1)
    assert (
        "It is not said when the pile is stacked: 2026-06-01, the day of its first reading, is taken." in found.assumed
    )
    assert found.batches[0].spread.likely.moisture[19] == pytest.approx(0.38)


def test_a_charge_begins_to_dry_when_it_starts_not_when_it_was_stacked() -> None:
    charge = stack(f'{KILN}charge "c" in kiln "North box"\n  starts 2026-07-01\n  stacked 2026-06-28\n  {ASH}\n')
    assert start_of(charge, TODAY) == (datetime.date(2026, 7, 1), ())
    charge = stack(f'{KILN}charge "c" in kiln "North box"\n  stacked 2026-06-28\n  {ASH}\n')
    assert start_of(charge, TODAY) == (datetime.date(2026, 6, 28), ())
    charge = stack(f'{KILN}charge "c" in kiln "North box"\n  {ASH}\n')
    assert start_of(charge, TODAY)[1] == ("It is not said when the charge starts: 2026-09-01 is taken.",)


def test_a_start_that_could_not_be_read_is_not_replaced_by_the_day_of_stacking() -> None:
    charge = stack(f'{KILN}charge "c" in kiln "North box"\n  starts 2026-02-30\n  stacked 2026-02-20\n  {ASH}\n')
    found = outlook(charge, batches_of(charge, {"white ash": woods.find("white ash")}), (), None, TODAY)  # type: ignore[dict-item]
    assert isinstance(found, NoForecast)
    assert "could not be read" in found.missing


# Rooms


def test_a_heated_shop_dries_boards_below_what_the_yard_can() -> None:
    assert forecast("place open yard", "stacked 2026-04-02", "want 9%").ready(Pace.SLOW) is None
    shop = forecast("place heated shop", "stacked 2026-04-02", "want 9%")
    assert shop.way is Way.ROOM
    assert shop.floor < 0.07
    assert shop.ready(Pace.SLOW) is not None


def test_a_basement_with_a_machine_gives_up_no_more_than_it_takes() -> None:
    """Sixty boards of green ash give off some 150 kg; 3 pints a day, 1.4 kg, take over three months for that."""
    found = forecast("place basement", "stacked 2026-04-02", "want 20%", "fan removes 3 pt/day")
    assert max(found.water) <= 3 * 0.473177 + 1e-6
    assert any("sets the pace" in said for said in found.governs)
    strong = forecast("place basement", "stacked 2026-04-02", "want 20%", "fan removes 30 pt/day")
    slow, quick = found.ready(Pace.LIKELY), strong.ready(Pace.LIKELY)
    assert slow is not None and quick is not None
    assert slow > quick


def test_a_basement_in_which_nothing_moves_keeps_green_boards_wet() -> None:
    found = forecast("place basement", "stacked 2026-04-02", "want 20%")
    assert found.ready(Pace.FAST) is None
    assert not any(found.water)


def test_a_garage_of_stated_air_is_forecast_without_a_site() -> None:
    found = forecast("place garage, 60 F 45%", "stacked 2026-04-02", "want 12%", sites="")
    assert set(found.air) == {found.air[0]}
    assert found.air[0].temperature == pytest.approx(15.56, abs=0.01)
    assert found.ready(Pace.LIKELY) is not None


# Moisture on a day


def test_the_moisture_on_a_day_is_that_of_the_likely_curve_and_stays_as_it_was_at_the_end() -> None:
    found = forecast("stacked 2026-04-02", "want 15%")
    likely = curve(found.batches[0].spread, Pace.LIKELY).moisture
    assert moisture_on(found, "a", datetime.date(2026, 4, 2)) == likely[0]
    assert moisture_on(found, "a", datetime.date(2026, 5, 2)) == likely[30]
    assert moisture_on(found, "a", datetime.date(2036, 5, 2)) == likely[-1]
    assert moisture_on(found, "a", datetime.date(2026, 4, 1)) is None
    assert moisture_on(found, "b", datetime.date(2026, 5, 2)) is None


# The ends of what may be written

EXTREME = [
    "stacked 2200-12-31",
    "stacked 2024-02-29",
    "stacked 1950-01-01\n  reading 2026-08-01 30%",
    "want 0% by 2200-12-31",
    "stacked 2200-12-30\n  want 3% by 2200-12-31",
    "place garage, -50 C 0%",
    "place garage, 60 C 100%\n  want 0%",
    "place basement\n  fan removes 0 pt/day\n  want 12%",
    "stacked 2026-04-02\n  reading 2026-04-02 280%\n  reading 2026-08-01 0%\n  want 12%",
]


@pytest.mark.parametrize("said", EXTREME)
@pytest.mark.parametrize(
    "boards",
    [
        "boards a: 60 of white ash 2 mm x 6 in x 8 ft, 280%",
        "boards a: 2 of white oak 600 mm x 600 mm x 8 ft, 0%\n  boards b: 2 of white oak 600 mm x 600 mm x 8 ft, 280%",
    ],
)
def test_the_most_that_a_plan_may_write_is_checked_and_forecast(said: str, boards: str) -> None:
    plan = checked(said, boards=boards)
    found = plan.stacks[0].forecast
    assert isinstance(found, Forecast)
    facts = plan.stacks[0].facts
    assert facts is not None
    assert facts.reach == pytest.approx(found.floor)
    for pace in Pace:
        ready = found.ready(pace)
        assert ready is None or ready >= found.start
