"""Facts of how a stack dries: readiness, reach, the air at stacking, readings."""

from __future__ import annotations

import datetime

import pytest
from made_piles import batch, near

from stacklint.checking import check
from stacklint.drying.air_drying import after_days, rate
from stacklint.drying.forecast import Forecast, Pace
from stacklint.drying.weather import on
from stacklint.engineering.drying_facts import readiness
from stacklint.engineering.facts import Reading, StackFacts
from stacklint.language import read

DATE = datetime.date
TODAY = DATE(2026, 9, 1)
DAY = 86_400.0
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"
MEASURED = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, 45%"
PLAN = "stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/4 in, every 24 in, dry"


def facts(*said: str, boards: str = ASH, site: str = SITE) -> StackFacts:
    lines = "\n  ".join((boards, *PLAN, *said))
    found = check(f'{site}pile "Row 3"\n  {lines}\n', today=TODAY).stacks[0].facts
    assert found is not None
    return found


def vented(*said: str) -> StackFacts:
    lines = "\n  ".join((ASH, *PLAN, *said))
    found = check(f'kiln "Box"\n  type vented\ncharge "1" in kiln "Box"\n  {lines}\n', today=TODAY).stacks[0].facts
    assert found is not None
    return found


def forecast(*said: str) -> Forecast:
    lines = "\n  ".join((ASH, *PLAN, *said))
    found = check(f'{SITE}pile "Row 3"\n  {lines}\n', today=TODAY).stacks[0].forecast
    assert isinstance(found, Forecast)
    return found


def readings(*said: str, boards: str = MEASURED, place: str = "place open yard") -> tuple[Reading, ...]:
    return facts(place, "stacked 2026-04-02", *said, boards=boards).readings


# When it is ready


def test_the_days_of_readiness_are_those_of_the_forecast() -> None:
    said = ("stacked 2026-04-02", "want 15% by 2026-08-01")
    found, made = facts(*said), forecast(*said)
    assert (found.ready_fast, found.ready_likely, found.ready_slow) == tuple(made.ready(pace) for pace in Pace)
    assert found.wanted_by == DATE(2026, 8, 1)
    between = f"between {found.ready_fast} and {found.ready_slow}"
    assert found.ready_words == f"by forecast it is there {found.ready_likely}, {between}"


def test_lateness_is_counted_from_the_day_wanted_and_is_below_0_where_in_time() -> None:
    found = facts("stacked 2026-04-02", "want 15% by 2026-07-10")
    assert found.ready_fast is not None and found.ready_likely is not None
    assert found.late_fast == (found.ready_fast - DATE(2026, 7, 10)).days * DAY
    assert found.late_likely == (found.ready_likely - DATE(2026, 7, 10)).days * DAY
    assert found.late_fast < 0 < found.late_likely


def test_what_is_never_ready_is_as_late_as_the_forecast_looks_ahead() -> None:
    found = facts("stacked 2026-04-02", "want 5% by 2026-07-10")
    assert found.ready_fast is None
    assert found.look_ahead == 1095 * DAY
    assert found.late_fast == found.late_likely == (1095 - 99) * DAY
    assert found.ready_words == "by forecast it does not get there within 36 months"


def test_what_is_never_ready_is_late_by_any_day_however_far_off() -> None:
    found = facts("stacked 2026-04-02", "want 5% by 2040-07-10")
    assert found.late_fast == found.late_likely == DAY


def test_a_charge_whose_fans_never_run_is_late_by_any_day() -> None:
    found = vented("starts 2026-04-02", "fans 0 h/day", "want 8% by 2028-07-10")
    assert found.ready_words == "by forecast it does not get there within 12 months"
    assert found.late_fast is not None and found.late_fast > 0


def test_a_day_wanted_that_is_not_after_the_start_makes_nothing_late() -> None:
    found = facts("stacked 2026-04-02", "want 15% by 2026-04-02")
    assert (found.late_fast, found.late_likely) == (None, None)
    assert found.wanted_by == DATE(2026, 4, 2)


def test_what_is_likely_never_ready_says_so() -> None:
    found = facts("stacked 2026-04-02", "want 12%")
    assert found.ready_fast is not None and found.ready_likely is None
    earliest = f"by forecast it may be there {found.ready_fast} at the earliest"
    assert found.ready_words == f"{earliest}, but likely not within 36 months"
    perhaps = facts("stacked 2026-04-02", "want 13%")
    assert perhaps.ready_likely is not None and perhaps.ready_slow is None
    assert perhaps.ready_words is not None and perhaps.ready_words.endswith("perhaps not within 36 months")


def test_without_a_day_nothing_is_late_and_without_a_target_nothing_is_ready() -> None:
    assert facts("stacked 2026-04-02", "want 15%").late_likely is None
    found = facts("stacked 2026-04-02", "want by 2026-08-01 for flooring")
    assert found.wanted_by == DATE(2026, 8, 1)
    assert (found.ready_likely, found.late_likely, found.ready_words) == (None, None, None)


def test_without_a_forecast_the_day_wanted_is_known_all_the_same() -> None:
    found = facts("stacked 2026-04-02", "want 15% by 2026-08-01", site="")
    assert found.wanted_by == DATE(2026, 8, 1)
    assert found.ready_likely is None
    assert found.reach is None


def test_a_pile_of_the_last_year_that_plans_are_of_has_its_facts() -> None:
    found = facts("stacked 2200-12-30", "want 12% by 2200-12-31")
    assert found.ready_fast is not None and found.ready_fast.year == 2202
    assert found.late_likely is not None and found.late_likely > 1000 * DAY


def test_readiness_needs_nothing_but_the_stack_and_its_forecast() -> None:
    lines = "\n  ".join((ASH, "want 15% by 2026-08-01"))
    stack = read(f'pile "Row 3"\n  {lines}\n', today=TODAY).plan.stacks[0]
    assert readiness(stack, forecast("stacked 2026-04-02", "want 15%"))["wanted_by"] == DATE(2026, 8, 1)


# How dry the air can make it


def test_the_reach_of_a_yard_is_its_driest_month() -> None:
    found = facts("place open yard", "stacked 2026-04-02")
    assert found.reach == pytest.approx(0.120, abs=0.0005)
    assert found.reach_words == "12.0% (the open air at Columbus, Ohio in April)"
    assert found.reach_memory is True


def test_the_reach_of_a_room_of_stated_air_has_no_month() -> None:
    found = facts("place garage, 60 F 45%", "stacked 2026-04-02", site="")
    assert found.reach == pytest.approx(0.085, abs=0.003)
    assert found.reach_words == f"{found.reach:.1%} (the air of the garage)"
    assert found.reach_memory is False


def test_the_figures_of_a_kilns_air_are_not_those_of_a_climate_recalled() -> None:
    assert vented("starts 2026-04-02", "want 8%").reach_memory is False


@pytest.mark.parametrize(
    ("said", "still"),
    [
        (("place closed barn",), True),
        (("place closed barn", "fan 1 of 1500 cfm"), False),
        (("place open yard",), False),
    ],
)
def test_the_air_of_a_closed_place_without_a_fan_stands_still_about_wet_boards(
    said: tuple[str, ...], still: bool
) -> None:
    assert facts("stacked 2026-04-02", "want 15%", *said).still is still


def test_air_that_stands_is_not_held_against_boards_of_20_percent() -> None:
    boards = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, 19%"
    assert facts("stacked 2026-04-02", "want 15%", "place closed barn", boards=boards).still is False


# The first day


def test_the_loss_of_the_first_day_is_that_of_the_likely_curve() -> None:
    said = ("place open yard", "stacked 2026-07-02", "want 15%")
    likely = forecast(*said).batches[0].spread.likely.moisture
    (group,) = facts(*said).groups
    assert group.first_loss == likely[0] - likely[1]


def test_the_loss_of_the_first_day_is_left_to_readings_where_there_are_any_and_unknown_without_a_forecast() -> None:
    (group,) = facts("stacked 2026-04-02", "reading 2026-04-12 35%", boards=MEASURED).groups
    assert group.first_loss is None
    (group,) = facts("stacked 2026-04-02", site="").groups
    assert group.first_loss is None


# The air on the day of stacking


def test_the_air_at_stacking_is_that_of_the_day() -> None:
    found = facts("stacked 2026-07-16")
    air = on(near("Columbus, OH"), DATE(2026, 7, 16)).air
    assert found.air_temperature == air.temperature
    assert found.air_humidity == air.humidity
    assert air.temperature > 20
    january = facts("stacked 2026-01-16").air_temperature
    assert january is not None and january < 0


def test_without_a_day_of_stacking_or_a_site_its_air_is_not_known() -> None:
    assert facts().air_temperature is None
    assert facts("stacked 2026-07-16", site="").air_temperature is None


@pytest.mark.parametrize(
    ("said", "shaded"),
    [
        ("place open yard, in the shade", True),
        ("sides shade cloth", True),
        ("sides boards", False),
        ("place open yard, in the sun", False),
        ("place open yard", False),
    ],
)
def test_shade_is_shade_cloth_or_a_place_in_the_shade(said: str, shaded: bool) -> None:
    assert facts(said).shaded is shaded


# Readings


def test_a_reading_is_set_against_the_measured_start() -> None:
    (one,) = readings("reading 2026-04-12 35%")
    assert (one.date, one.moisture, one.before) == (DATE(2026, 4, 12), pytest.approx(0.35), pytest.approx(0.45))
    assert one.since == 10 * DAY
    assert one.loss == pytest.approx(0.01)
    assert one.rise == pytest.approx(-0.10)
    assert one.boards == "white ash 4/4 x 6 in x 8 ft"
    assert one.back is False


def test_a_second_reading_is_set_against_the_first() -> None:
    _, two = readings("reading 2026-04-12 35%", "reading 2026-04-16 37%")
    assert (two.before, two.since) == (pytest.approx(0.35), 4 * DAY)
    assert two.rise == pytest.approx(0.02)
    assert two.loss == pytest.approx(-0.005)


def test_the_first_reading_of_green_boards_is_set_against_the_table_and_the_dry_end_of_green() -> None:
    """White ash, 45% green in the mean (Wood Handbook), less 15% of it (common practice, no source). It cannot rise
    against what was not measured."""
    (one,) = readings("reading 2026-04-12 35%", boards=ASH)
    assert (one.before, one.since) == (pytest.approx(0.45), 10 * DAY)
    assert one.loss == pytest.approx((0.45 - 0.35) / 10)
    assert one.loss_least == pytest.approx((0.85 * 0.45 - 0.35) / 10)
    assert (one.before_assumed, one.rise) == (True, None)
    (measured,) = readings("reading 2026-04-12 35%")
    assert measured.before_assumed is False


def test_green_oak_that_lost_a_third_in_four_days_is_told_that_this_is_too_fast() -> None:
    """Red oak may lose 3.8% a day (Wengert); from 74.5% green, 63% at the dry end, to 40% it is 5.8."""
    text = f'{SITE}pile "Row 3"\n  boards a: 60 of northern red oak 4/4 x 6 in x 8 ft, green\n  '
    text += "\n  ".join((*PLAN, "place open yard", "stacked 2026-04-02", "reading 2026-04-06 40%"))
    said = [each.message for each in check(text + "\n", today=TODAY).findings if each.rule == "dried-too-fast"]
    assert len(said) == 1
    assert "from about 74.5" in said[0]


def test_green_boards_that_are_read_wetter_than_the_table_have_not_risen() -> None:
    found = check(f'{SITE}pile "Row 3"\n  {ASH}\n  stacked 2026-04-02\n  reading 2026-04-06 60%\n', today=TODAY)
    assert "reading-implausible" not in {each.rule for each in found.findings}


def test_a_reading_that_cannot_be_is_not_what_the_next_is_set_against() -> None:
    wrong, right = readings("reading 2026-05-10 4%", "reading 2026-05-20 30%")
    assert wrong.held is not None and wrong.moisture is not None and wrong.moisture < wrong.held - 0.02
    assert (right.before, right.rise) == (pytest.approx(0.45), pytest.approx(-0.15))


# Readings of a charge


def charge(*said: str, wood: str = "yellow-poplar", moisture: str = "green") -> StackFacts:
    lines = "\n  ".join((f"boards a: 60 of {wood} 4/4 x 6 in x 8 ft, {moisture}", *PLAN, "starts 2026-04-15", *said))
    kiln = 'kiln "North box"\n  type dehumidification\n  inside 17 ft x 8 ft x 6 ft\n  heats to 120 F\n'
    found = check(f'{kiln}charge "c" in kiln "North box"\n  {lines}\n', today=TODAY).stacks[0].facts
    assert found is not None
    return found


def test_poplar_that_is_at_70_percent_after_a_month_in_a_kiln_has_dried_too_slowly() -> None:
    first, second = charge("want 8%", "reading 2026-05-15 70%", "reading 2026-05-30 60%").readings
    for one in (first, second):
        assert one.slow is not None and one.slow < 0.20
        assert one.held is not None and one.held < 0.08


def test_poplar_that_dries_as_its_kiln_lets_it_is_not_called_slow() -> None:
    (one,) = charge("want 8%", "reading 2026-04-18 60%").readings
    assert one.slow is not None and one.slow > 0.60


def test_of_boards_that_are_only_said_to_be_green_a_slow_charge_begins_wetter() -> None:
    (word,) = charge("want 8%", "reading 2026-04-18 75%").readings
    (figure,) = charge("want 8%", "reading 2026-04-18 75%", moisture="94.5%").readings
    assert word.slow is not None and figure.slow is not None
    assert word.slow > figure.slow + 0.05


def test_readings_of_a_group_are_set_against_those_of_that_group() -> None:
    boards = f"{MEASURED}\n  boards b: 20 of white oak 8/4 x 6 in x 8 ft, 70%"
    a, b, c = readings(
        "reading 2026-04-12 35%, of a", "reading 2026-04-14 66%, of b", "reading 2026-04-22 30%, of a", boards=boards
    )
    assert (a.before, b.before, c.before) == (pytest.approx(0.45), pytest.approx(0.70), pytest.approx(0.35))
    assert c.since == 10 * DAY
    assert b.boards == "white oak 8/4 x 6 in x 8 ft"


def test_a_reading_of_the_day_of_stacking_has_nothing_before_it() -> None:
    (one,) = readings("reading 2026-04-02 44%")
    assert one.since is None and one.loss is None and one.held is None and one.slow is None
    assert one.back is False


def test_a_reading_of_the_day_after_stacking_tells_of_one_day() -> None:
    (one,) = readings("reading 2026-04-03 43%")
    assert one.since == DAY
    assert one.loss == pytest.approx(0.02)


def test_a_reading_before_the_stack_was_built_is_early_and_one_before_the_one_above_it_lies_back() -> None:
    (early,) = readings("reading 2026-04-01 44%")
    assert (early.early, early.back, early.follows) == (True, False, False)
    later = readings("reading 2026-05-02 34%", "reading 2026-05-01 33%")
    assert [(one.early, one.back, one.follows) for one in later] == [(False, False, False), (False, True, True)]


def test_the_safe_daily_loss_is_that_of_the_wood_that_bears_least() -> None:
    """Upland red oak 3.8% and white oak 2.5% a day for 4/4 (Wengert; safe_drying_rates.csv)."""
    both = "boards a: 60 of northern red oak 4/4 x 6 in x 8 ft, 70%\n  boards b: 60 of white oak 4/4 x 6 in x 8 ft, 70%"
    assert readings("reading 2026-04-12 60%, of a", boards=both)[0].safe == pytest.approx(0.038)
    assert readings("reading 2026-04-12 60%", boards=both)[0].safe == pytest.approx(0.025)


def test_the_air_could_not_have_held_the_boards_drier_than_its_driest_day_so_far() -> None:
    (one,) = readings("reading 2026-08-01 9%")
    climate = near("Columbus, OH")
    driest = min(on(climate, DATE(2026, 4, 2) + datetime.timedelta(days=day)).equilibrium for day in range(122))
    assert one.held == driest
    assert one.moisture is not None and one.moisture < driest


def test_a_slow_stack_is_one_that_dries_1_4_times_as_slow_as_likely() -> None:
    (one,) = readings("reading 2026-06-01 40%")
    expected = after_days(0.45, rate(batch()) / 1.4, near("Columbus, OH"), DATE(2026, 4, 2), 60)
    assert one.slow == pytest.approx(expected)
    (green,) = readings("reading 2026-06-01 40%", boards=ASH)
    assert green.slow is not None and one.slow is not None and green.slow > one.slow


def test_in_still_air_or_beside_a_machine_no_reading_is_called_slow() -> None:
    for place in ("place basement", "place basement\n  fan removes 30 pt/day"):
        (one,) = readings("reading 2026-06-01 40%", place=place)
        assert (one.held, one.slow) == (None, None)
        assert one.loss is not None


@pytest.mark.parametrize(
    ("said", "rained_on"),
    [
        ("place open yard", True),
        ("cover none", True),
        ("cover sheet metal, tied", False),
        ("place open shed", False),
        ("cover of straw", None),
    ],
)
def test_rain_reaches_boards_in_the_open_without_a_cover(said: str, rained_on: bool | None) -> None:
    (one,) = readings("reading 2026-06-01 40%", said, place='spot "row 3"')
    assert one.rained_on is rained_on


def test_a_reading_of_the_core_says_so() -> None:
    a, b = readings("reading 2026-06-01 40%, core", "reading 2026-06-01 30%, outer boards")
    assert (a.core, b.core) == (True, False)


def test_a_reading_of_outer_boards_is_not_set_against_one_of_the_core() -> None:
    """Cores are wetter than outer boards: two days between them are no loss of 7% a day."""
    core, outer, later = readings(
        "reading 2026-05-10 60%, core", "reading 2026-05-12 45%, outer boards", "reading 2026-05-14 43%, outer boards"
    )
    assert outer.since == (datetime.date(2026, 5, 12) - datetime.date(2026, 4, 2)).days * DAY
    assert later.loss == pytest.approx(0.01)
    assert core.core is True
