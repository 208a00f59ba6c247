"""What readings of the moisture content teach a forecast."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_piles import NEVER, START, WOODS, after, batch, near, reading, room, steady, times, yard, years

from stacklint.drying import air_drying
from stacklint.drying.air_drying import AIR_RANGE, RANGE
from stacklint.drying.batch import Batch, Spread
from stacklint.drying.climate import Climate
from stacklint.drying.pile_forecast import pile_forecast
from stacklint.drying.readings import held_so_far, is_of, is_too_dry, learn, meter
from stacklint.drying.weather import year
from stacklint.plan.stack import Reading

STEADY = steady(20, 0.6)
SPRING = near("Columbus, OH")


def forecast(of: Batch, air: Climate, *readings: Reading, wanted: float = 0.20) -> Spread:
    return pile_forecast([of], yard(air), START, wanted, readings).batches[0].spread


def likely_on(of: Batch, air: Climate, day: int) -> float:
    return air_drying.after_days(of.moisture, air_drying.rate(of), air, START, day)


# A forecast with readings


@given(WOODS, st.floats(0.5, 3), years(), st.integers(1, 400), st.floats(0.0, 1.5))
def test_the_curve_passes_through_the_last_reading(
    name: str, inches: float, air: Climate, day: int, moisture: float
) -> None:
    of = batch(name, inches, 0.8)
    if is_too_dry(moisture, held_so_far(air, START, day)):
        return
    for curve in forecast(of, air, reading(after(day), moisture)):
        assert curve.moisture[0] == pytest.approx(max(0.8, moisture))
        assert curve.moisture[day] == pytest.approx(moisture)


def test_the_curve_passes_through_every_reading_and_runs_straight_between_them() -> None:
    spread = forecast(batch(moisture=0.45), SPRING, reading(after(10), 0.40), reading(after(30), 0.30), wanted=0.15)
    for curve in spread:
        assert [curve.moisture[day] for day in (0, 5, 10, 20, 30)] == pytest.approx([0.45, 0.425, 0.40, 0.35, 0.30])
        assert curve.moisture[31] < 0.30


def test_readings_count_by_their_days_whatever_their_order_in_the_plan() -> None:
    first, second = reading(after(10), 0.40), reading(after(30), 0.30)
    of = batch(moisture=0.45)
    assert forecast(of, SPRING, second, first) == forecast(of, SPRING, first, second)


@given(WOODS, st.floats(0.5, 2), st.integers(2, 80), st.floats(0.02, 0.3))
def test_a_reading_ahead_of_the_forecast_brings_the_day_forward(
    name: str, inches: float, day: int, ahead: float
) -> None:
    of = batch(name, inches, 0.8)
    expected = likely_on(of, STEADY, day)
    if expected * (1 - ahead) < 0.205:
        return
    before = times(forecast(of, STEADY))[1]
    read = times(forecast(of, STEADY, reading(after(day), expected * (1 - ahead))))[1]
    behind = times(forecast(of, STEADY, reading(after(day), expected * (1 + ahead))))[1]
    assert read < before < behind


@given(WOODS, st.floats(0.5, 3), st.integers(1, 100))
def test_a_reading_as_forecast_moves_the_day_little_and_narrows_the_range(name: str, inches: float, day: int) -> None:
    of = batch(name, inches, 0.8)
    expected = likely_on(of, STEADY, day)
    if expected < 0.22:
        return
    fast, likely, slow = times(forecast(of, STEADY))
    quick, same, late = times(forecast(of, STEADY, reading(after(day), expected)))
    assert same == pytest.approx(likely, rel=0.02)
    assert fast < quick < same < late
    assert late < slow or slow == NEVER


def test_the_second_reading_narrows_the_range_again() -> None:
    of = batch("white oak", 2, 0.7)
    widths = []
    for days in ((), (60,), (60, 90), (60, 90, 120)):
        fast, _, slow = times(forecast(of, STEADY, *(reading(after(day), likely_on(of, STEADY, day)) for day in days)))
        widths.append(slow - fast)
    assert widths == sorted(widths, reverse=True)
    assert widths[3] < 0.75 * widths[0]


def test_a_reading_late_in_the_drying_teaches_more_than_one_in_the_first_days() -> None:
    """On the third day the meter's doubt is larger than what the boards have lost."""
    of = batch("white oak", 1, 0.7)
    early = learn(of, STEADY, START, [(after(3), likely_on(of, STEADY, 3))], measured=True)
    late = learn(of, STEADY, START, [(after(40), likely_on(of, STEADY, 40))], measured=True)
    none = learn(of, STEADY, START, [], measured=True)
    spread = [math.log(paces[0].rate / paces[2].rate) for paces in (late.paces, early.paces, none.paces)]
    assert spread[0] < 0.6 * spread[2]
    assert spread[0] < spread[1] < spread[2]
    assert spread[1] > 0.9 * spread[2]


def test_without_readings_the_range_is_the_one_that_the_published_times_give() -> None:
    learnt = learn(batch(), STEADY, START, [], measured=False)
    fast, likely, slow = learnt.paces
    assert (fast.rate, likely.rate, slow.rate) == (pytest.approx(RANGE), 1.0, pytest.approx(1 / RANGE))
    assert (fast.air, likely.air, slow.air) == (-AIR_RANGE, 0.0, AIR_RANGE)
    assert RANGE == 1.4


@pytest.mark.parametrize("factor", [0.6, 0.8, 1.25, 1.6])
def test_the_rate_that_many_good_readings_show_is_learnt(factor: float) -> None:
    """Boards that dry 0.6 to 1.6 times as fast as is likely: after readings on thirty days the forecast knows."""
    of = batch("white oak", 2, 0.7)
    seen = [
        (after(day), air_drying.after_days(0.7, air_drying.rate(of) * factor, STEADY, START, day))
        for day in range(20, 320, 10)
    ]
    learnt = learn(of, STEADY, START, seen, measured=True)
    assert learnt.paces[1].rate == pytest.approx(factor, rel=0.12)
    assert learnt.paces[2].rate < factor < learnt.paces[0].rate


def test_boards_said_to_be_green_teach_less_than_measured_ones() -> None:
    """Green boards differ from the table's mean: what they lost by the first reading is not well known."""
    of = batch("white oak", 1)
    seen = [(after(30), 0.8 * likely_on(of, STEADY, 30))]
    word, figure = (learn(of, STEADY, START, seen, measured=measured).paces[1].rate for measured in (False, True))
    assert 1 < word < figure


def test_a_reading_on_the_day_of_stacking_is_the_moisture_at_the_start() -> None:
    spread = forecast(batch(moisture=0.8), SPRING, reading(START, 0.50))
    plain = forecast(batch(moisture=0.50), SPRING)
    assert spread == plain


def test_of_two_readings_of_one_day_the_wetter_counts() -> None:
    of = batch(moisture=0.8)
    both = forecast(of, SPRING, reading(after(20), 0.35), reading(after(20), 0.42))
    assert both == forecast(of, SPRING, reading(after(20), 0.42), reading(after(20), 0.35))
    assert both.likely.moisture[20] == pytest.approx(0.42)


def test_a_reading_before_the_stack_was_built_counts_for_nothing_and_that_is_said() -> None:
    found = pile_forecast([batch()], yard(SPRING), START, 0.20, [reading(after(-5), 0.3)])
    assert "The reading of 2025-03-27, 30%, is left out: it lies before the start." in found.assumed
    assert forecast(batch(), SPRING, reading(after(-5), 0.3)) == forecast(batch(), SPRING)


def test_a_reading_that_the_air_could_not_have_brought_about_is_left_out_and_that_is_said() -> None:
    """An Ohio yard holds wood at 12% at the driest: 4% in May is the meter's error, and no reason to call it ready."""
    of = batch(moisture=0.45)
    plain = pile_forecast([of], yard(SPRING), START, 0.15)
    read = pile_forecast([of], yard(SPRING), START, 0.15, [reading(after(54), 0.04)])
    assert read.batches == plain.batches
    assert read.restarted is None
    assert "The reading of 2025-05-25, 4%, is left out: the air could not have dried the boards so far." in read.assumed


def test_a_reading_as_near_to_what_the_air_holds_as_meters_err_is_taken() -> None:
    held = held_so_far(SPRING, START, 40)
    of = batch(moisture=0.45)
    for off, taken in ((-0.019, True), (-0.021, False)):
        found = pile_forecast([of], yard(SPRING), START, 0.15, [reading(after(40), held + off)])
        assert (found.restarted is not None) is taken


def test_boards_that_came_drier_than_the_air_may_be_read_as_dry_as_they_came() -> None:
    found = pile_forecast([batch(moisture=0.07)], yard(SPRING), START, 0.06, [reading(after(9), 0.07)])
    assert found.restarted == after(9)


def test_a_reading_after_the_target_says_when_it_was_reached() -> None:
    """Between 40% on day 20 and 11% on day 50 the boards passed 15% on day 46."""
    spread = forecast(batch(moisture=0.45), SPRING, reading(after(20), 0.40), reading(after(50), 0.11), wanted=0.15)
    assert times(spread) == pytest.approx((46, 46, 46), abs=1)


def test_boards_that_are_read_wet_again_are_not_ready() -> None:
    """Dry on day 40, rained on by day 50: the day on which they are ready is still to come."""
    spread = forecast(batch(moisture=0.45), SPRING, reading(after(40), 0.14), reading(after(50), 0.25), wanted=0.15)
    assert all(day > 50 for day in times(spread))
    again = forecast(
        batch(moisture=0.45), SPRING, *(reading(after(d), m) for d, m in ((40, 0.14), (50, 0.25), (70, 0.13))),
        wanted=0.15,
    )  # fmt: skip
    assert times(again) == pytest.approx((67, 67, 67), abs=1)


def test_boards_that_rose_are_not_taken_to_dry_any_faster() -> None:
    """Rain says nothing of how fast they dry: the forecast starts anew from the wet reading, at the likely rate."""
    rose = learn(batch(moisture=0.45), STEADY, START, [(after(20), 0.60)], measured=True)
    assert rose.paces[1].rate == pytest.approx(1.0)
    assert rose.last.moisture == 0.60
    dried = likely_on(batch(moisture=0.60), STEADY, 15)
    then = learn(batch(moisture=0.45), STEADY, START, [(after(20), 0.60), (after(35), dried)], measured=True)
    assert then.paces[1].rate == pytest.approx(1.0, rel=0.05)


def test_a_reading_of_boards_as_dry_as_their_air_teaches_no_rate() -> None:
    held = year(STEADY.months)[0].equilibrium
    learnt = learn(batch(moisture=held), STEADY, START, [(after(100), held)], measured=True)
    for pace, before in zip(learnt.paces, learn(batch(), STEADY, START, [], measured=True).paces, strict=True):
        assert pace == (pytest.approx(before.rate, rel=0.01), before.air)


@given(years(), st.floats(0, 2.8), st.lists(st.tuples(st.integers(0, 900), st.floats(0, 2.8)), max_size=5))
def test_whatever_is_read_the_paces_are_in_their_order_and_none_is_beyond_the_factors_tried(
    air: Climate, moisture: float, seen: list[tuple[int, float]]
) -> None:
    read = sorted((after(day), figure) for day, figure in seen)
    learnt = learn(batch("red maple", 1, moisture), air, START, read, measured=True)
    fast, likely, slow = learnt.paces
    assert slow.rate < likely.rate < fast.rate
    assert 1.4**-3 <= likely.rate <= 1.4**3
    assert fast.rate / slow.rate >= 1.1**2 * (1 - 1e-9)
    assert [point.day for point in learnt.points] == sorted({0, *(day for day, _ in seen)})


# Whose reading it is


def test_a_reading_of_one_group_does_not_touch_another() -> None:
    ash, oak = batch("white ash", label="a"), batch("white oak", label="b")
    plain = pile_forecast([ash, oak], yard(SPRING), START, 0.20)
    read = pile_forecast([ash, oak], yard(SPRING), START, 0.20, [reading(after(20), 0.30, "a")])
    assert read.batches[1].spread == plain.batches[1].spread
    assert read.batches[0].spread != plain.batches[0].spread


def test_a_reading_that_names_no_group_is_of_all_that_were_as_wet() -> None:
    green, dried = batch(moisture=0.60, label="a"), batch(moisture=0.18, label="b")
    both = [green, dried]
    assert is_of(reading(after(9), 0.45), green, both)
    assert not is_of(reading(after(9), 0.45), dried, both)
    assert all(is_of(reading(after(9), 0.15), each, both) for each in both)


def test_a_reading_wetter_than_all_were_is_of_all() -> None:
    both = [batch(moisture=0.30, label="a"), batch(moisture=0.18, label="b")]
    assert all(is_of(reading(after(9), 0.80), each, both) for each in both)


def test_a_reading_of_a_named_group_is_of_no_other() -> None:
    both = [batch(moisture=0.30, label="a"), batch(moisture=0.30, label="b")]
    assert [is_of(reading(after(9), 0.25, "b"), each, both) for each in both] == [False, True]


def test_a_meter_errs_by_a_point_and_a_half_in_dry_wood_and_by_a_tenth_in_green() -> None:
    """Common practice, no source."""
    assert meter(0.10) == 0.015
    assert meter(0.80) == pytest.approx(0.08)


# In a room


def test_in_a_room_the_curves_pass_through_the_readings_of_each_group() -> None:
    ash, oak = batch("white ash", moisture=0.45, label="a"), batch("white oak", moisture=0.70, label="b")
    air = room(steady(20, 0.45), removes=6.0)
    read = [reading(after(20), 0.30, "a"), reading(after(35), 0.50, "b")]
    a, b = (each.spread for each in pile_forecast([ash, oak], air, START, 0.10, read).batches)
    for curve in a:
        assert curve.moisture[20] == pytest.approx(0.30)
        assert curve.moisture[10] == pytest.approx(0.375)
        assert 0.15 < curve.moisture[35] < 0.30
        assert all(before > now for before, now in zip(curve.moisture[20:60], curve.moisture[21:60], strict=False))
    for curve in b:
        assert curve.moisture[35] == pytest.approx(0.50)


def test_in_a_room_a_reading_on_the_day_of_stacking_is_the_moisture_at_the_start() -> None:
    air = room(steady(20, 0.45), removes=6.0)
    read = pile_forecast([batch(moisture=0.8)], air, START, 0.10, [reading(START, 0.40)])
    plain = pile_forecast([batch(moisture=0.40)], air, START, 0.10)
    assert read.batches[0].spread == plain.batches[0].spread


def test_in_a_room_a_reading_years_after_is_followed_too() -> None:
    air = room(steady(20, 0.45), removes=6.0)
    both = [batch(moisture=0.4, label="a"), batch(moisture=0.0, label="b")]
    found = pile_forecast(both, air, START, 0.10, [reading(after(1500), 0.12, "a")])
    assert found.batches[0].spread.likely.moisture[1500] == pytest.approx(0.12)
    assert 0.05 < found.batches[1].spread.likely.moisture[1500] < 0.10
    assert found.restarted == after(1500)
