"""The forecast of a pile in its air."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_piles import DATE, DAYS_OF_2025, INCHES, START, WOODS, after, batch, near, reading, room, steady, yard, years

from stacklint.drying.air_drying import AIR_RANGE
from stacklint.drying.batch import Curve, Spread
from stacklint.drying.climate import Air, Climate, lowest_equilibrium
from stacklint.drying.equilibrium import equilibrium
from stacklint.drying.forecast import Forecast, Pace, Way, curve, day_of
from stacklint.drying.pile_forecast import pile_forecast
from stacklint.drying.weather import year

COLUMBUS = near("Columbus, OH")


def both(wanted: float | None = 0.15, oak: float | None = None) -> Forecast:
    batches = [batch("white ash", 1, label="a"), batch("white oak", 2, oak, label="b")]
    return pile_forecast(batches, yard(COLUMBUS), START, wanted)


# When it is ready


def test_a_pile_is_ready_when_its_last_batch_is() -> None:
    found = both()
    a, b = (each.spread.likely.reached for each in found.batches)
    assert a is not None and b is not None
    assert a < b
    assert found.ready(Pace.LIKELY) == after(math.ceil(b))
    assert found.slowest.batch.label == "b"
    assert found.governs[0] == "The white oak 2 in are ready last."


def test_boards_that_are_dry_already_are_not_the_last() -> None:
    found = both(oak=0.10)
    assert found.slowest.batch.label == "a"
    assert found.governs[0] == "The white ash 1 in are ready last."


def test_a_pile_is_ready_between_its_fast_and_its_slow_day() -> None:
    fast, likely, slow = (both().ready(pace) for pace in Pace)
    assert fast is not None and likely is not None and slow is not None
    assert START < fast < likely < slow


def test_what_one_batch_cannot_reach_the_pile_cannot() -> None:
    found = both(wanted=0.08)
    assert all(found.ready(pace) is None for pace in Pace)


@given(WOODS, INCHES, years(), st.floats(0, 2.8), st.floats(0, 0.4), DAYS_OF_2025)
def test_no_forecast_passes_its_floor(
    name: str, inches: float, air: Climate, moisture: float, wanted: float, start: DATE
) -> None:
    """But for what days between two months are drier than both, and the fast pace by the doubt of the air."""
    found = pile_forecast([batch(name, inches, moisture)], yard(air), start, wanted)
    dip = found.floor - min(day.equilibrium for day in year(air.months))
    assert dip < 0.004
    fast, likely, slow = found.batches[0].spread
    assert min(fast.moisture) >= min(moisture, found.floor - AIR_RANGE - dip) - 1e-9
    assert min(likely.moisture) >= min(moisture, found.floor - dip) - 1e-9
    assert min(slow.moisture) >= min(moisture, found.floor) - 1e-9


def test_the_floor_is_that_of_the_driest_month() -> None:
    assert both().floor == lowest_equilibrium(COLUMBUS)[0]


# What is followed


def test_a_pile_that_wants_nothing_is_followed_to_15_percent() -> None:
    found = both(wanted=None)
    assert found.wanted is None
    for each in found.batches:
        assert each.spread.likely.moisture[-1] <= 0.15 < each.spread.likely.moisture[-2]
    assert "No moisture content is wanted: it is followed to 15%, about air dried." in found.assumed


def test_in_damp_air_a_pile_that_wants_nothing_is_followed_to_near_what_the_air_holds() -> None:
    air = steady(10, 0.80)
    found = pile_forecast([batch()], yard(air), START, None)
    end = equilibrium(10, 0.80) + 0.015
    assert 0.15 < end < 0.185
    assert found.batches[0].spread.likely.moisture[-1] == pytest.approx(end, abs=0.002)


def test_boards_wanted_at_30_percent_are_followed_until_no_stain_can_come() -> None:
    """Below 20% (Missouri G5550, MO-312)."""
    likely = pile_forecast([batch("white oak")], yard(COLUMBUS), START, 0.30).batches[0].spread.likely
    assert likely.moisture[-1] <= 0.20 < likely.moisture[-2]
    assert likely.reached == likely.below(0.30)
    assert likely.reached is not None and likely.reached < len(likely.moisture) - 10


def test_the_water_of_a_pile_is_the_weight_that_it_loses() -> None:
    found = both()
    lost = sum(
        each.batch.dry_mass * (each.spread.likely.moisture[0] - each.spread.likely.moisture[-1])
        for each in found.batches
    )
    assert sum(found.water) == pytest.approx(lost)
    assert lost > 300


def test_the_water_of_a_pile_with_readings_is_the_weight_that_it_loses() -> None:
    batches = [batch("white ash", 1, label="a"), batch("white oak", 2, label="b")]
    read = [reading(after(20), 0.30, "a"), reading(after(40), 0.50, "b")]
    for air in (yard(COLUMBUS), room(steady(20, 0.5), 8.0)):
        found = pile_forecast(batches, air, START, 0.15, read)
        lost = sum(
            each.batch.dry_mass * (each.batch.moisture - each.spread.likely.moisture[-1]) for each in found.batches
        )
        assert sum(found.water) == pytest.approx(lost)
        assert found.restarted == after(40)


def test_each_day_of_the_longest_curve_has_its_air() -> None:
    found = both()
    assert len(found.air) == max(len(curve.moisture) for each in found.batches for curve in each.spread)
    assert found.air[0] == year(COLUMBUS.months)[90].air


# What governs


def test_the_driest_and_the_dampest_month_are_named() -> None:
    said = " ".join(both().governs)
    assert "The air holds wood at 12.0% in April, its driest, and at 14.6% in December." in said


def test_days_too_cold_to_dry_are_counted() -> None:
    """A pile in Madison from October to spring waits about five months; one in Mobile does not wait at all."""
    autumn = DATE(2025, 10, 1)
    north = pile_forecast([batch("white oak")], yard(near("Madison, WI")), autumn, 0.20).governs[-1]
    count = int(north.split()[1])
    assert north.endswith("the air is too cold to dry much.")
    assert 110 <= count <= 190
    gulf = pile_forecast([batch("loblolly pine")], yard(near("Mobile, AL")), START, 0.20).governs
    assert not any("too cold" in said for said in gulf)


def test_a_machine_that_sets_the_pace_is_told_with_its_days() -> None:
    found = pile_forecast([batch(moisture=0.45)], room(steady(20, 0.5), 1.0), START, 0.20)
    assert found.way is Way.ROOM
    assert "What the machine takes out of the room's air sets the pace on 125 days." in found.governs
    strong = pile_forecast([batch(moisture=0.45)], room(steady(20, 0.5), 500.0), START, 0.20)
    assert not any("machine" in said for said in strong.governs)


def test_a_still_place_keeps_green_boards_for_good() -> None:
    found = pile_forecast([batch()], room(COLUMBUS, still=True), START, 0.12)
    assert all(found.ready(pace) is None for pace in Pace)
    assert not any(found.water)


def test_recalled_air_says_so() -> None:
    origins = both().origins
    assert any("recalled" in origin.source for origin in origins)
    assert any("Technical Note 233" in origin.source and origin.memory for origin in origins)


# Dates


def test_a_pile_stacked_on_the_last_day_that_there_is_has_no_day_when_it_is_ready() -> None:
    found = pile_forecast([batch()], yard(COLUMBUS), DATE.max, 0.15)
    assert found.batches[0].spread.likely.reached is not None
    assert all(found.ready(pace) is None for pace in Pace)
    assert found.below(0.30, Pace.LIKELY) is None
    assert found.below(2.0, Pace.LIKELY) == DATE.max
    assert day_of(DATE.max, 5) == DATE.max


def test_a_pile_stacked_on_the_29_february_is_ready_as_one_of_the_first_of_march() -> None:
    of = [batch()]
    leap = pile_forecast(of, yard(COLUMBUS), DATE(2024, 2, 29), 0.15)
    plain = pile_forecast(of, yard(COLUMBUS), DATE(2025, 3, 1), 0.15)
    assert leap.batches == plain.batches


def test_a_board_is_ready_on_the_day_that_ends_with_it() -> None:
    spread = Spread(*(Curve((0.3, 0.2), days) for days in (0.0, 1.2, 2.0)))
    found = both()._replace(batches=(both().batches[0]._replace(spread=spread),))
    assert [found.ready(pace) for pace in Pace] == [START, after(2), after(2)]
    assert curve(spread, Pace.SLOW) is spread.slow


@pytest.mark.parametrize("air", [Air(-50, 0.0), Air(-50, 1.0), Air(60, 0.0), Air(60, 1.0)])
@pytest.mark.parametrize(
    ("inches", "moisture"), [(1 / 25.4, 0.0), (1 / 25.4, 2.8), (600 / 25.4, 0.0), (600 / 25.4, 2.8)]
)
@pytest.mark.parametrize("wanted", [0.0, 2.8, None])
def test_the_most_that_a_plan_may_write_is_forecast(
    air: Air, inches: float, moisture: float, wanted: float | None
) -> None:
    climate = steady(*air)
    of = batch("white oak", inches, moisture)
    read = [reading(DATE(2024, 2, 29), 2.8), reading(DATE(2024, 3, 1), 0.0), reading(DATE(2027, 12, 31), 0.5)]
    for around in (yard(climate), room(climate, 0.0), room(climate, still=True)):
        for readings in ((), read):
            found = pile_forecast([of], around, DATE(2024, 2, 29), wanted, readings)
            for each in found.batches[0].spread:
                assert all(0.0 <= now <= 2.8 + 1e-9 for now in each.moisture)
                assert each.reached is None or 0 <= each.reached <= len(each.moisture)
            assert all(math.isfinite(water) for water in found.water)
