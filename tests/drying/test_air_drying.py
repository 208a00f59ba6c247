"""Boards drying in moving air that nobody heats."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_piles import DATE, DAYS_OF_2025, INCHES, NEVER, START, WOODS, batch, near, steady, times, years

from stacklint.drying import air_drying
from stacklint.drying.air import saturation_pressure
from stacklint.drying.air_drying import AIR_RANGE, FAST, LIKELY, MOST_DAYS, SLOW, dry
from stacklint.drying.batch import Batch, Curve, Spread
from stacklint.drying.climate import Air, Climate
from stacklint.drying.equilibrium import equilibrium
from stacklint.drying.weather import year
from stacklint.plan.boards import Face
from stacklint.units import ONE_INCH

GREEN = 0.75
"""Wetter than any air can hold wood at."""


def spread(of: Batch, air: Climate, wanted: float, start: DATE = START) -> Spread:
    return dry([of], air, start, wanted).spreads[0]


def dampest(*airs: Climate) -> float:
    """A moisture content that boards pass on the way down, never on the way up: that of no air that they meet."""
    return max(day.equilibrium for air in airs for day in year(air.months)) + AIR_RANGE + 0.002


# What dries faster


@given(WOODS, INCHES, st.floats(-20, 35), st.floats(0.3, 0.9), st.floats(0.5, 15))
def test_air_warmed_with_no_water_added_dries_faster(
    name: str, inches: float, warmth: float, humidity: float, by: float
) -> None:
    cold = steady(warmth, humidity)
    warm = steady(warmth + by, humidity * saturation_pressure(warmth) / saturation_pressure(warmth + by))
    of = batch(name, inches, GREEN)
    for sooner, later in zip(
        times(spread(of, warm, dampest(cold))), times(spread(of, cold, dampest(cold))), strict=True
    ):
        assert sooner < later or later == NEVER


@given(WOODS, INCHES, years(), st.floats(0.5, 10), DAYS_OF_2025)
def test_in_a_warmer_year_of_as_much_water_nothing_dries_slower(
    name: str, inches: float, cold: Climate, by: float, start: DATE
) -> None:
    months = tuple(
        Air(air.temperature + by, air.humidity * saturation_pressure(air.temperature)
            / saturation_pressure(air.temperature + by))
        for air in cold.months
    )  # fmt: skip
    warm = cold._replace(months=months)
    of = batch(name, inches, GREEN)
    wanted = dampest(cold)
    for sooner, later in zip(
        times(spread(of, warm, wanted, start)), times(spread(of, cold, wanted, start)), strict=True
    ):
        assert sooner <= later


@given(WOODS, INCHES, years(), st.floats(0.01, 0.3), DAYS_OF_2025)
def test_in_a_drier_year_nothing_dries_slower(name: str, inches: float, damp: Climate, by: float, start: DATE) -> None:
    drier = damp._replace(months=tuple(Air(air.temperature, air.humidity * (1 - by)) for air in damp.months))
    of = batch(name, inches, GREEN)
    wanted = dampest(damp)
    for sooner, later in zip(
        times(spread(of, drier, wanted, start)), times(spread(of, damp, wanted, start)), strict=True
    ):
        assert sooner <= later


@given(WOODS, st.floats(-20, 35), st.floats(0.2, 0.9), st.floats(0.5, 10))
def test_warmer_air_of_one_humidity_leaves_boards_no_wetter(
    name: str, warmth: float, humidity: float, by: float
) -> None:
    """But for a hair: towards 5 C the equilibrium of one humidity rises by up to 0.0012."""
    of = batch(name, 1, GREEN)
    cold = spread(of, steady(warmth, humidity), 0.0).likely.moisture
    warm = spread(of, steady(warmth + by, humidity), 0.0).likely.moisture
    assert all(one <= other + 0.0013 for one, other in zip(warm, cold, strict=True))


@given(WOODS, INCHES, st.floats(1.01, 3), years(), DAYS_OF_2025)
def test_a_thicker_board_never_dries_sooner(name: str, inches: float, by: float, air: Climate, start: DATE) -> None:
    wanted = dampest(air)
    thin = times(spread(batch(name, inches, GREEN), air, wanted, start))
    thick = times(spread(batch(name, inches * by, GREEN), air, wanted, start))
    for sooner, later in zip(thin, thick, strict=True):
        assert sooner < later or later == NEVER


def test_a_board_of_twice_the_thickness_takes_2_to_the_power_of_1_5_the_time() -> None:
    """AH-188 ch. 1 (memory); 1.52, 1.585 and 1.466 are the other powers that are told (air_drying_regression.csv)."""
    air = steady(20, 0.65)
    one, two = (spread(batch("white ash", inches, 0.8), air, 0.20).likely.reached for inches in (1.0, 2.0))
    assert one is not None and two is not None
    assert two / one == pytest.approx(2**1.5, rel=0.01)


def test_quartersawn_boards_take_15_percent_longer() -> None:
    """Wengert, Drying oak lumber step 1 (stacklint/tables/practice_limits.csv)."""
    flat, quarter, rift = (
        air_drying.rate(batch("white oak", face=face)) for face in (Face.FLAT, Face.QUARTER, Face.RIFT)
    )
    assert flat / quarter == pytest.approx(1.15)
    assert rift == flat


def test_full_air_of_30_c_dries_1_6_times_as_fast_as_that_of_20_c() -> None:
    """The 0.8th power of 4246 over 2339 Pa (steam tables, memory), in air that holds wood as dry."""
    held = equilibrium(20, 0.5)
    warm_humidity = next(step / 1e4 for step in range(10_000) if equilibrium(30, step / 1e4) >= held)
    cold = spread(batch(moisture=0.8), steady(20, 0.5), 0.20).likely.reached
    warm = spread(batch(moisture=0.8), steady(30, warm_humidity), 0.20).likely.reached
    assert cold is not None and warm is not None
    assert cold / warm == pytest.approx((4246 / 2339) ** 0.8, rel=0.01)


def test_boards_stacked_in_autumn_in_the_north_wait_for_spring() -> None:
    """FPL Technical Note 233: those stacked too late are not dry before the next season."""
    spring = spread(batch("white oak"), near("Madison, WI"), 0.20, DATE(2025, 5, 1)).likely.reached
    autumn = spread(batch("white oak"), near("Madison, WI"), 0.20, DATE(2025, 10, 1)).likely.reached
    assert spring is not None and autumn is not None
    assert spring < 100
    assert autumn > 181  # later than the first of April


@given(WOODS, INCHES, years(), st.integers(0, 363), st.integers(1, 60))
def test_who_stacks_later_is_never_done_earlier(name: str, inches: float, air: Climate, first: int, by: int) -> None:
    second = min(first + by, 364)
    of = batch(name, inches, GREEN)
    early, late = (times(spread(of, air, 0.20, DATE.fromordinal(DATE(2025, 1, 1).toordinal() + day)))
                   for day in (first, second))  # fmt: skip
    for one, other in zip(early, late, strict=True):
        if one != NEVER:  # The second look goes further ahead by the days between.
            assert first + one <= second + other + 1e-6


# The curve


@given(WOODS, INCHES, years(), st.floats(0.0, 0.25), DAYS_OF_2025)
def test_the_three_paces_end_in_their_order(name: str, inches: float, air: Climate, wanted: float, start: DATE) -> None:
    fast, likely, slow = times(spread(batch(name, inches, GREEN), air, max(wanted, dampest(air)), start))
    assert fast < likely < slow or slow == NEVER


def test_the_three_paces_end_in_their_order_even_where_a_season_is_waited_for() -> None:
    for place in ("Madison, WI", "Jackson, MS", "Missoula, MT", "Mobile, AL", "London"):
        for month in (1, 4, 7, 10):
            for wanted in (0.20, 0.15, 0.13):
                fast, likely, slow = times(spread(batch("red oak", 2), near(place), wanted, DATE(2025, month, 1)))
                assert fast <= likely <= slow


@given(WOODS, INCHES, years(), st.floats(0.0, 2.8), st.floats(0.0, 0.3), DAYS_OF_2025)
def test_no_forecast_passes_below_what_the_air_holds(
    name: str, inches: float, air: Climate, moisture: float, wanted: float, start: DATE
) -> None:
    driest = min(day.equilibrium for day in year(air.months))
    fast, likely, slow = spread(batch(name, inches, moisture), air, wanted, start)
    for curve, shift in ((fast, -AIR_RANGE), (likely, 0.0), (slow, AIR_RANGE)):
        assert min(curve.moisture) >= min(moisture, max(driest + shift, 0.0)) - 1e-12


@given(WOODS, years(), st.floats(0.0, 2.8), st.floats(0.0, 0.6), DAYS_OF_2025)
def test_the_time_is_that_at_which_the_curve_passes_what_is_wanted(
    name: str, air: Climate, moisture: float, wanted: float, start: DATE
) -> None:
    for curve in spread(batch(name, 1, moisture), air, wanted, start):
        assert curve.moisture[0] == moisture
        assert curve.reached == curve.below(wanted)
        assert all(now > wanted for now in curve.moisture[:-1])
        assert (curve.moisture[-1] <= wanted) is (curve.reached is not None)


def test_in_one_air_the_curve_is_an_exponential_decay() -> None:
    """(M - Me) / (M0 - Me) = exp(-t / tau), the form of the published equation for red oak."""
    air = steady(25, 0.60)
    held = equilibrium(25, 0.60)
    of = batch("red oak", 1.5, 0.9)
    factor = (saturation_pressure(25) / saturation_pressure(20)) ** 0.8
    curve = spread(of, air, 0.15).likely
    for day, now in enumerate(curve.moisture):
        assert now == pytest.approx(held + (0.9 - held) * math.exp(-day * air_drying.rate(of) * factor))
    assert len(curve.moisture) > 40


def test_the_range_is_a_factor_of_1_4_and_a_point_of_air() -> None:
    held = equilibrium(20, 0.6)
    for pace, rate, shift in ((FAST, 1.4, -0.01), (LIKELY, 1.0, 0.0), (SLOW, 1 / 1.4, 0.01)):
        assert pace == (pytest.approx(rate), pytest.approx(shift))
    fast, _, slow = spread(batch(moisture=0.8), steady(20, 0.6), 0.20)
    base = air_drying.wood_rate(batch().wood)
    assert fast.moisture[10] == pytest.approx(held - 0.01 + (0.81 - held) * math.exp(-14 * base))
    assert slow.moisture[10] == pytest.approx(held + 0.01 + (0.79 - held) * math.exp(-10 / 1.4 * base))


@given(years(), st.floats(0, 2.8), INCHES, DAYS_OF_2025, st.integers(0, 800))
def test_the_moisture_after_some_days_is_that_of_the_curve(
    air: Climate, moisture: float, inches: float, start: DATE, days: int
) -> None:
    of = batch("yellow-poplar", inches, moisture)
    curve = spread(of, air, -1.0, start).likely
    assert air_drying.after_days(moisture, air_drying.rate(of), air, start, days) == pytest.approx(curve.moisture[days])


@given(st.lists(st.tuples(WOODS, INCHES, st.floats(0, 2.8), st.floats(1, 5000)), min_size=1, max_size=4), years())
def test_the_water_that_leaves_is_the_weight_that_the_boards_lose(
    lots: list[tuple[str, float, float, float]], air: Climate
) -> None:
    batches = [batch(name, inches, moisture, mass=mass) for name, inches, moisture, mass in lots]
    dried = dry(batches, air, START, 0.15)
    lost = sum(
        of.dry_mass * (curve.likely.moisture[0] - curve.likely.moisture[-1])
        for of, curve in zip(batches, dried.spreads, strict=True)
    )
    assert sum(dried.water) == pytest.approx(lost, abs=1e-6)


def test_dry_boards_take_up_water_in_damp_air() -> None:
    air = steady(15, 0.85)
    moisture = spread(batch(moisture=0.08), air, 0.05).likely.moisture
    assert moisture[0] < moisture[30] < moisture[300] <= equilibrium(15, 0.85)
    assert all(water <= 0 for water in dry([batch(moisture=0.08)], air, START, 0.05).water)


def test_a_target_above_the_boards_is_reached_at_once() -> None:
    assert spread(batch(moisture=0.12), steady(20, 0.6), 0.15) == (Curve((0.12,), 0.0),) * 3


def test_what_the_air_cannot_do_is_given_up_after_three_years() -> None:
    curve = spread(batch("red maple"), steady(20, 0.65), 0.08).likely
    assert curve.reached is None
    assert len(curve.moisture) == MOST_DAYS + 1 == 3 * 365 + 1


# Rooms


@given(
    st.lists(st.tuples(WOODS, INCHES, st.floats(0.0, 2.8), st.floats(1, 5000)), min_size=1, max_size=3),
    years(),
    st.floats(0.0, 60),
    st.floats(0.05, 0.2),
)
def test_a_rooms_machine_never_takes_out_more_than_it_can(
    lots: list[tuple[str, float, float, float]], air: Climate, removes: float, wanted: float
) -> None:
    batches = [batch(name, inches, moisture, mass=mass) for name, inches, moisture, mass in lots]
    dried = dry(batches, air, START, wanted, removes=removes)
    for pace in range(3):
        curves = [each[pace] for each in dried.spreads]
        for day in range(min(len(curves[0].moisture) - 1, 200)):
            given_off = sum(
                of.dry_mass * max(curve.moisture[day] - curve.moisture[day + 1], 0.0)
                for of, curve in zip(batches, curves, strict=True)
            )
            assert given_off <= removes * (1 + 1e-9) + 1e-9


def test_a_strong_machine_hinders_nothing_and_a_weak_one_sets_the_pace() -> None:
    """500 kg of ash from 45% to 20% give off 125 kg: at 1 kg a day no sooner than in 125 days."""
    air = steady(20, 0.5)
    of = batch(moisture=0.45)
    free = dry([of], air, START, 0.20).spreads[0].likely.reached
    strong = dry([of], air, START, 0.20, removes=1000.0).spreads[0].likely.reached
    weak = dry([of], air, START, 0.20, removes=1.0).spreads[0].likely.reached
    assert free is not None and strong == pytest.approx(free)
    assert free < 60
    assert weak == pytest.approx(125, abs=1)


def test_wet_boards_keep_the_others_waiting_for_the_machine() -> None:
    air = steady(20, 0.5)
    alone = dry([batch(moisture=0.45)], air, START, 0.20, removes=5.0).spreads[0].likely.reached
    beside = dry([batch(moisture=0.45), batch("yellow-poplar", moisture=1.0)], air, START, 0.20, removes=5.0)
    waited = beside.spreads[0].likely.reached
    assert alone is not None and waited is not None
    assert waited > 1.5 * alone


@given(WOODS, INCHES, years(), st.floats(0.201, 2.8))
def test_a_still_place_keeps_green_boards_wet(name: str, inches: float, air: Climate, moisture: float) -> None:
    dried = dry([batch(name, inches, moisture)], air, START, 0.12, still=True)
    for curve in dried.spreads[0]:
        assert curve.reached is None
        assert set(curve.moisture) == {moisture}
    assert not any(dried.water)


def test_in_a_still_place_boards_below_20_percent_go_on_drying() -> None:
    air = steady(20, 0.4)
    still = dry([batch(moisture=0.19), batch(moisture=0.6)], air, START, 0.10, still=True)
    moving = dry([batch(moisture=0.19)], air, START, 0.10)
    assert still.spreads[0].likely.reached == pytest.approx(moving.spreads[0].likely.reached)
    assert still.spreads[1].likely.reached is None


def test_boards_in_one_room_are_followed_for_the_days_asked_for() -> None:
    batches = [batch(moisture=0.45), batch("white oak", 2)]
    curves = air_drying.in_one_room(batches, steady(20, 0.5), START, 40, 5.0, still=False)
    whole = dry(batches, steady(20, 0.5), START, 0.10, removes=5.0)
    for curve, other in zip(curves, whole.spreads, strict=True):
        assert curve.moisture == pytest.approx(other.likely.moisture[:41])


# The ends of the earth


@pytest.mark.parametrize("air", [Air(-50, 0.0), Air(-50, 1.0), Air(60, 0.0), Air(60, 1.0)])
@pytest.mark.parametrize("inches", [1 / 25.4, 600 / 25.4])
@pytest.mark.parametrize("moisture", [0.0, 2.8])
@pytest.mark.parametrize("start", [DATE(2024, 2, 29), DATE(9999, 12, 31), DATE(1, 1, 1)])
def test_the_most_that_a_plan_may_write_is_reckoned(air: Air, inches: float, moisture: float, start: DATE) -> None:
    of = batch("white oak", inches, moisture)
    climate = steady(*air)
    for dried in (
        dry([of], climate, start, 0.0),
        dry([of], climate, start, 0.0, removes=0.0),
        dry([of, of], climate, start, 0.0, still=True),
    ):
        for curve in (curve for each in dried.spreads for curve in each):
            assert all(0.0 <= now <= 2.8 for now in curve.moisture)
        assert all(math.isfinite(water) for water in dried.water)


def test_nothing_dries_where_there_are_no_boards() -> None:
    assert dry([], steady(20, 0.5), START, 0.12) == ((), ())
    assert dry([], steady(20, 0.5), START, 0.12, removes=3.0).water == ()


def test_the_air_of_each_day_runs_on_over_new_year() -> None:
    air = near("Columbus, OH")
    days = air_drying.air_by_day(air, DATE(2025, 12, 31), 3)
    assert days == (year(air.months)[364].air, year(air.months)[0].air, year(air.months)[1].air)


def test_an_inch_is_the_thickness_that_rates_are_told_for() -> None:
    assert air_drying.rate(batch("white oak", 1)) == air_drying.wood_rate(batch("white oak").wood)
    assert batch("white oak", 1).thickness == ONE_INCH
