"""The forecast of a charge: what its readings teach, its treatments, and what becomes of one that stands still."""

from __future__ import annotations

import datetime
import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying.charge_readings import Course, learn, until
from stacklint.drying.forecast import BatchForecast, Forecast, Pace
from stacklint.drying.outlook import batches_of, outlook
from stacklint.drying.readings import meter
from stacklint.language import read
from stacklint.tables import woods

DATE = datetime.date
TODAY = DATE(2026, 9, 1)
START = DATE(2026, 4, 1)
OAK = "boards a: 60 of northern red oak 4/4 x 6 in x 8 ft, 70%"
THICK = "boards b: 60 of northern red oak 8/4 x 6 in x 8 ft, 70%"
KILN = "type vented", "heats to 160 F"


def forecast(
    *said: str, boards: tuple[str, ...] = (OAK,), kiln: tuple[str, ...] = KILN, start: DATE = START, want: str = "8%"
) -> Forecast:
    head = "\n  ".join(('kiln "North box"', "inside 17 ft x 8 ft x 6 ft", *kiln))
    body = "\n  ".join(('charge "c" in kiln "North box"', *boards, f"starts {start}", f"want {want}", *said))
    got = read(f"{head}\n\n{body}\n", today=TODAY)
    assert not got.faults, got.faults
    (stack,) = got.plan.stacks
    known = {}
    for each in stack.boards:
        wood = woods.find(each.wood.text)
        assert wood is not None
        known[each.wood.text] = wood
    found = outlook(stack, batches_of(stack, known), got.plan.sites, got.plan.kilns[0], TODAY)
    assert isinstance(found, Forecast)
    return found


def reading(day: int, moisture: float, of: str = "") -> str:
    date = START + datetime.timedelta(days=day)
    return f"reading {date} {100 * moisture:.6g}%{f', of {of}' if of else ''}"


def as_forecast(day: int, pace: float = 1.0) -> str:
    """A reading of the oak as it would be at a pace on a day."""
    return reading(day, Course(forecast().batches[0].spread.likely.moisture).at(day * pace))


def times(found: Forecast, batch: int = 0) -> tuple[float, float, float]:
    fast, likely, slow = (curve.reached for curve in found.batches[batch].spread)
    assert fast is not None and likely is not None and slow is not None
    return fast, likely, slow


# What readings teach


def test_poplar_that_lost_34_points_in_45_days_is_not_dry_in_the_next_fortnight() -> None:
    """At the pace that it has had it takes weeks and weeks more."""
    found = forecast(
        "reading 2026-05-15 70%",
        "reading 2026-05-30 60%",
        boards=("boards a: 60 of yellow-poplar 4/4 x 6 in x 8 ft, green",),
        kiln=("type dehumidification", "heats to 120 F"),
        start=DATE(2026, 4, 15),
    )
    ready = found.ready(Pace.FAST)
    assert ready is not None and ready > DATE(2026, 7, 15)
    assert found.restarted == DATE(2026, 5, 30)
    moisture = found.batches[0].spread.likely.moisture
    assert 0.06 < moisture[45] - moisture[55] < 0.12
    assert found.governs[0].startswith("By its readings it dries at 7%")


def test_readings_as_forecast_move_the_day_little_and_narrow_the_range() -> None:
    plain = times(forecast())
    widths = [plain[2] - plain[0]]
    for days in ((6,), (6, 10), (6, 10, 15)):
        found = times(forecast(*(as_forecast(day) for day in days)))
        assert found[1] == pytest.approx(plain[1], rel=0.02)
        widths.append(found[2] - found[0])
    assert widths == sorted(widths, reverse=True)
    assert widths[3] < 0.5 * widths[0]


@pytest.mark.parametrize("day", [2, 6, 10, 15, 18])
def test_the_range_is_never_narrower_than_what_the_meter_may_err_takes_to_dry(day: int) -> None:
    """The last reading and the start are both by meter: together they are worth no more than 0.7 of one's error."""
    plain = forecast().batches[0].spread.likely
    found = times(forecast(as_forecast(day)))
    loss = plain.moisture[day] - plain.moisture[day + 1]
    assert found[2] - found[0] > meter(plain.moisture[day]) / loss


@pytest.mark.parametrize("pace", [0.6, 0.75, 1.25])
def test_a_charge_that_goes_at_another_pace_is_taken_to_keep_it(pace: float) -> None:
    plain = times(forecast())[1]
    found = times(forecast(*(as_forecast(round(day / pace), pace) for day in (6, 9, 12, 15))))
    assert found[1] == pytest.approx(plain / pace, rel=0.07)
    assert found[0] - 0.5 < plain / pace < found[2] + 0.5


def test_a_charge_that_is_a_little_behind_is_taken_to_be_partly_unlucky() -> None:
    """One reading, which may be wrong, moves the day less than it says by itself."""
    plain, found = times(forecast())[1], times(forecast(as_forecast(5, 0.8)))[1]
    assert plain < found < 5 + (plain - 4) / 0.8


def test_many_readings_find_the_pace_of_a_batch() -> None:
    (one,) = forecast().batches
    course = Course(one.spread.likely.moisture)
    days = {day: course.at(0.5 * day) for day in range(4, 40, 4)}
    learnt = learn(one.batch, one.spread, days, measured=True)
    assert learnt is not None
    assert learnt.factor == pytest.approx(0.5, rel=0.06)
    assert math.exp(learnt.width) < 1.12


def test_boards_said_to_be_green_teach_less_than_measured_ones() -> None:
    (one,) = forecast().batches
    days = {8: Course(one.spread.likely.moisture).at(5)}
    word, figure = (learn(one.batch, one.spread, days, measured=measured) for measured in (False, True))
    assert word is not None and figure is not None
    assert 1 > word.factor > figure.factor
    assert word.width > figure.width


def test_a_batch_without_readings_keeps_its_own_pace() -> None:
    (one,) = forecast().batches
    assert learn(one.batch, one.spread, {}, measured=True) is None
    assert learn(one.batch, one.spread, {0: 0.66}, measured=True) is None
    assert until(None, one.spread, 5) == list(one.spread.likely.moisture[:6])


@given(st.lists(st.floats(0.05, 0.9), min_size=2, max_size=40), st.floats(-3, 45))
def test_a_curve_and_the_age_of_a_moisture_on_it_are_each_others_inverse(drawn: list[float], age: float) -> None:
    course = Course(tuple(sorted(set(drawn), reverse=True)))
    if age > len(course.moisture) - 1 or (len(course.moisture) < 2 and age < 0):
        return
    assert course.at(course.age(course.at(age))) == pytest.approx(course.at(age))


# The curve through the readings


READINGS = st.lists(
    st.tuples(st.integers(1, 60), st.floats(0.22, 0.95)), min_size=1, max_size=4, unique_by=lambda read: read[0]
)


@given(READINGS, READINGS)
def test_the_curves_pass_through_every_reading_of_each_batch(
    of_a: list[tuple[int, float]], of_b: list[tuple[int, float]]
) -> None:
    said = [reading(*each, "a") for each in of_a] + [reading(*each, "b") for each in of_b]
    found = forecast(*said, boards=(OAK, THICK))
    for batch, own in zip(found.batches, (of_a, of_b), strict=True):
        for curve, (day, moisture) in itertools.product(batch.spread, own):
            assert curve.moisture[day] == pytest.approx(moisture, abs=1e-6)
            assert curve.moisture[0] == pytest.approx(0.70)
    longest = max(day for day, _ in (*of_a, *of_b))
    assert found.restarted == START + datetime.timedelta(days=longest)
    assert len(found.water) == len(found.air) == len(found.batches[0].spread.likely.moisture) - 1
    assert {len(batch.spread.slow.moisture) for batch in found.batches} == {len(found.batches[0].spread.slow.moisture)}


def test_between_two_readings_the_curve_runs_straight_from_the_one_to_the_other() -> None:
    (one,) = forecast(reading(4, 0.60), reading(10, 0.30)).batches
    for curve in one.spread:
        assert [curve.moisture[day] for day in (0, 2, 4, 7, 10)] == pytest.approx([0.70, 0.65, 0.60, 0.45, 0.30])


def test_the_days_of_30_and_20_percent_are_those_on_which_the_curve_through_the_readings_passes_them() -> None:
    """Between 33% on day 8 and 9% on day 20 the boards passed 30% on the tenth day and 20% on the fifteenth."""
    found = forecast(reading(8, 0.33), reading(20, 0.09))
    for pace in Pace:
        assert found.below(0.30, pace) == START + datetime.timedelta(days=10)
        assert found.below(0.20, pace) == START + datetime.timedelta(days=15)


def test_a_charge_that_was_read_dry_was_so_from_the_day_on_which_the_straight_line_says() -> None:
    """From 12% on day 20 to 6% on day 26 it passed 8% on day 24."""
    found = forecast(reading(20, 0.12), reading(26, 0.06))
    assert times(found) == pytest.approx((24, 24, 24), abs=1)
    assert found.governs == ("The boards have the moisture content wanted already.",)


def test_a_batch_read_some_days_before_another_goes_on_at_its_own_pace_meanwhile() -> None:
    found = forecast(reading(5, 0.50, "a"), reading(15, 0.60, "b"), boards=(OAK, THICK))
    moisture = found.batches[0].spread.likely.moisture
    assert moisture[5] == pytest.approx(0.50)
    assert all(before > now for before, now in itertools.pairwise(moisture[5:16]))


def test_a_batch_that_was_never_read_dries_meanwhile_as_the_kiln_lets_it() -> None:
    plain = forecast(boards=(OAK, THICK)).batches[0].spread.likely.moisture
    found = forecast(reading(15, 0.60, "b"), boards=(OAK, THICK)).batches[0].spread.likely.moisture
    assert found[:16] == pytest.approx(plain[:16])


def test_a_reading_of_the_day_it_starts_is_the_moisture_at_the_start() -> None:
    plain = forecast(boards=(OAK.replace("70%", "55%"),))
    found = forecast(reading(0, 0.55))
    assert found.batches[0].spread == plain.batches[0].spread
    assert found.restarted is None


def test_settings_that_follow_each_other_do_not_begin_anew_at_a_reading() -> None:
    runs = ("runs at 110 F / 106 F", "runs at 120 F / 105 F", "runs at 140 F / 100 F")
    found = forecast(*runs, reading(40, 0.20))
    assert found.air[0].temperature == pytest.approx((110 - 32) / 1.8)
    assert found.air[45].temperature == pytest.approx((140 - 32) / 1.8)


def test_the_air_of_a_kiln_is_told_for_each_day_from_the_start_with_readings_too() -> None:
    plain, found = forecast(), forecast(as_forecast(10))
    assert found.air[0] == plain.air[0]
    assert found.air[10] == plain.air[10]
    assert len(found.air) == len(found.water)


# Readings that cannot be


def test_a_reading_drier_than_the_kilns_air_is_left_out_and_that_is_said() -> None:
    runs = "runs at 110 F 60%"
    plain, found = forecast(runs, want="12%"), forecast(runs, reading(10, 0.05), want="12%")
    assert [each.spread for each in found.batches] == [each.spread for each in plain.batches]
    said = "The reading of 2026-04-11, 5%, is left out: the air could not have dried the boards so far."
    assert said in found.assumed
    assert said not in plain.assumed


def test_a_reading_drier_than_the_first_steps_of_a_schedule_is_left_out() -> None:
    """Red oak is begun at 110 F and 4 F of depression, air of about 16% (AH-188, memory): none is at 4% after six days,
    though the last steps hold it drier than that."""
    found = forecast("schedule T4-D2", reading(6, 0.04))
    assert found.restarted is None
    assert any("2026-04-07, 4%, is left out" in said for said in found.assumed)
    assert found.held[6] > 0.12 > found.held[-1]
    assert forecast("schedule T4-D2", reading(60, 0.04)).restarted is not None


def test_a_reading_before_the_charge_starts_is_left_out_and_that_is_said() -> None:
    found = forecast(reading(-3, 0.40))
    assert found.batches == forecast().batches
    assert "The reading of 2026-03-29, 40%, is left out: it lies before the start." in found.assumed


# Standing still


@pytest.mark.parametrize("said", [("runs at 110 F 60%",), ("fans 0 h/day",)])
def test_a_charge_that_never_gets_there_has_one_horizon_and_no_steps_afterwards(said: tuple[str, ...]) -> None:
    found = forecast(*said, boards=(OAK, THICK), want="7%")
    assert {len(curve.moisture) for batch in found.batches for curve in batch.spread} == {366}
    assert [found.ready(pace) for pace in Pace] == [None, None, None]
    assert found.after == ()


def test_a_charge_that_stands_still_after_readings_has_one_horizon_too() -> None:
    found = forecast("runs at 110 F 60%", reading(10, 0.50), want="7%")
    assert {len(curve.moisture) for curve in found.batches[0].spread} == {366 + 10}
    assert found.after == ()


def test_a_charge_that_gets_there_is_equalised_and_conditioned() -> None:
    assert [step.name for step in forecast(want="7%").after] == ["equalising", "conditioning"]


# Mixing


def test_what_mixing_costs_is_told_of_the_whole_run_whatever_was_read() -> None:
    plain, found = (forecast(*said, boards=(OAK, THICK)) for said in ((), (reading(5, 0.55, "b"),)))
    cost = [said for said in plain.governs if said.startswith("Alone the ")]
    assert len(cost) == 1 and cost[0] in found.governs
    assert [each.alone for each in found.batches] == [each.alone for each in plain.batches]


def test_what_the_thin_boards_lose_by_waiting_for_the_thick_ones_is_said_in_days() -> None:
    """ "Do not mix from green" (Wengert, https://www.woodweb.com/knowledge_base/Drying_Mixed_Thicknesses_of_Lumber.html)."""
    found = forecast(boards=(OAK, THICK))
    alone, together = times(forecast())[1], max(times(found, batch)[1] for batch in (0, 1))
    assert found.governs[-1] == (
        f"Alone the northern red oak 4/4 x 6 in x 8 ft would take {alone:.0f} days; "
        f"in this charge {together:.0f}: mixing costs them {together - alone:.0f}."
    )
    assert together - alone > 14
    assert [each.alone for each in found.batches] == [
        pytest.approx(alone),
        pytest.approx(times(forecast(boards=(THICK,)))[1]),
    ]


def test_boards_that_dry_alike_cost_one_another_nothing() -> None:
    found = forecast(boards=(OAK, OAK.replace("boards a", "boards b")))
    assert not any(said.startswith("Alone the ") for said in (*found.governs, *forecast().governs))


def unread(found: Forecast) -> list[BatchForecast]:
    return [each for each in found.batches if each.unread is not None]


def test_how_it_would_have_dried_is_kept_where_something_was_read() -> None:
    assert unread(forecast()) == []
    plain, (read_one,) = forecast().batches[0].spread, unread(forecast(as_forecast(8, 0.5)))
    assert read_one.unread is not None
    assert [curve.reached for curve in read_one.unread] == pytest.approx([curve.reached for curve in plain])


# Heat treatment


def test_a_heat_treatment_says_that_wet_wood_takes_longer_in_dry_air() -> None:
    """Wood Handbook (FPL-GTR-190) ch. 20 p. 20-2: where the wet bulb is below 133 F (56 C)."""
    for said in ("sterilize", "hold 150 F for 24 h"):
        (step,) = forecast(said).before
        assert "in dry air (wet bulb below 133 F (56 C)) wet wood takes much longer" in step.words


def test_the_heat_treatment_comes_before_the_drying_and_its_hours_are_added_to_the_day() -> None:
    plain, held = forecast(), forecast("hold 150 F for 48 h")
    assert plain.before == ()
    assert [(step.name, step.low, step.high) for step in held.before] == [("heat treatment", 48 * 3600, 48 * 3600)]
    for pace in Pace:
        sooner, later = plain.ready(pace), held.ready(pace)
        assert sooner is not None and later is not None
        assert (later - sooner).days == 2


def test_boards_to_be_sterilized_are_kept_hot_for_half_an_hour_after_their_cores_are() -> None:
    """ISPM 15: 56 C at the core for 30 minutes. 1 in boards of five hardwoods took 15 minutes at the least in air of
    160 F (FPL, sterilization.csv); thick boards take longer."""
    (thin,), (thick,) = (forecast("sterilize", boards=(boards,)).before for boards in (OAK, THICK))
    assert 0 < thin.low - 1800 < 15 * 60 < thin.high - 1800
    assert thick.low - 1800 > 2 * (thin.low - 1800)
    assert "in moist air of 160 F (71 C)" in thin.words
    assert forecast("sterilize", boards=(OAK, THICK)).before == (thick,)


def test_a_kiln_that_gets_no_hotter_than_the_core_must_be_has_no_heat_treatment() -> None:
    """133 F (56 C) is what the core must have."""
    assert forecast("sterilize", kiln=("type vented", "heats to 130 F")).before == ()
    (cool,) = forecast("sterilize", kiln=("type vented", "heats to 140 F")).before
    assert "in moist air of 140 F (60 C)" in cool.words


def test_boards_that_are_dry_already_are_sterilized_all_the_same() -> None:
    found = forecast("sterilize", boards=(OAK.replace("70%", "7%"),))
    assert [step.name for step in found.before] == ["heat treatment"]
    assert found.ready(Pace.LIKELY) == START + datetime.timedelta(days=1)
