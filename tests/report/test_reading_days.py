"""When readings are due: often while the boards are wet, seldom when they are nearly dry, daily in a kiln."""

from __future__ import annotations

import dataclasses
import datetime
import math
from itertools import pairwise

import made_forecasts as made
import pytest
import sheet_plans as plans

from stacklint.checked import CheckedStack
from stacklint.drying.forecast import Forecast, NoForecast, Pace, Way
from stacklint.plan.stack import StackKind
from stacklint.report.reading_days import MOST, ReadingPlan, reading_plan

START = made.START


def plan(forecast: Forecast | NoForecast, today: datetime.date = START, readings: str = "") -> ReadingPlan:
    stack = plans.stack(f'pile "P"\n  boards a: 9 of white ash 4/4 x 6 in x 8 ft, green\n{readings}')
    return reading_plan(stack._replace(forecast=forecast), today)


def days(found: ReadingPlan) -> list[int]:
    return [(each.day - START).days for each in found.due]


def test_a_green_pile_is_read_weekly_to_30_then_fortnightly_to_20_then_every_four_weeks() -> None:
    """Common practice, no source. The boards fall from 80% to 10% by a factor e in 40 days: they are at 30% after
    40 ln(0.7 / 0.2) = 50 days, at 20% after 40 ln(0.7 / 0.1) = 78."""
    found = plan(made.forecast())
    assert days(found)[:11] == [7, 14, 21, 28, 35, 42, 49, 56, 70, 84, 112]
    for reading, after in pairwise(found.due):
        gap = (after.day - reading.day).days
        assert gap == (7 if reading.likely > 0.30 else 14 if reading.likely > 0.20 else 28)


def test_the_last_reading_is_on_or_after_the_day_when_the_boards_are_ready_at_the_latest() -> None:
    forecast = made.forecast()
    found = plan(forecast)
    ready = forecast.ready(Pace.SLOW)
    assert ready is not None
    assert found.due[-2].day < ready <= found.due[-1].day
    assert found.blank > 0
    assert not found.more


def test_boards_are_dry_from_the_day_when_they_are_likely_at_what_is_wanted() -> None:
    forecast = made.forecast()
    ready = forecast.ready(Pace.LIKELY)
    assert ready is not None
    assert [each.day for each in plan(forecast).due if each.dry] == [
        each.day for each in plan(forecast).due if each.day >= ready
    ]


def test_each_reading_tells_what_to_expect_between_the_fastest_and_the_slowest() -> None:
    for each in plan(made.forecast()).due:
        assert each.low <= each.likely <= each.high


def test_a_reading_that_was_not_taken_is_overdue_and_the_next_ones_count_from_today() -> None:
    today = START + datetime.timedelta(days=30)
    found = plan(made.forecast(), today)
    assert days(found)[:3] == [7, 37, 44]
    assert [each.overdue for each in found.due][:3] == [True, False, False]
    # What is expected is for the day on which it is read, of boards that fall from 80% to 10% by a factor e in 40 days.
    assert found.due[0].likely == pytest.approx(0.1 + 0.7 * math.exp(-30 / 40), abs=0.005)


def test_nothing_is_overdue_on_the_day_it_is_due() -> None:
    assert not any(each.overdue for each in plan(made.forecast(), START + datetime.timedelta(days=7)).due)


def test_long_after_the_boards_should_have_been_ready_readings_still_have_their_days() -> None:
    today = START + datetime.timedelta(days=2000)
    overdue, *due = plan(made.forecast(), today).due
    assert overdue.overdue
    assert [(each.day - today).days for each in due] == [28, 56, 84]


def test_readings_are_due_from_the_last_one_that_was_taken() -> None:
    taken = (START + datetime.timedelta(days=10)).isoformat()
    found = plan(made.forecast(), START + datetime.timedelta(days=11), f"  reading {taken} 60%\n")
    assert days(found)[:3] == [17, 24, 31]


def test_a_kiln_is_read_every_day_until_its_last_step_is_done() -> None:
    (charge,) = plans.example("sound-charge").stacks
    assert isinstance(charge.forecast, Forecast) and charge.forecast.way is Way.KILN
    found = reading_plan(charge, plans.TODAY)
    assert all((after.day - before.day).days == 1 for before, after in pairwise(found.due))
    assert found.due[0].day == charge.forecast.start + datetime.timedelta(days=1)
    assert found.due[-1].day == charge.forecast.ready(Pace.SLOW)
    assert found.rule.startswith("Every day")


def test_boards_that_never_get_there_fill_a_page_and_no_more() -> None:
    found = plan(made.forecast(wanted=0.08))
    assert len(found.due) == MOST
    assert found.more
    assert found.blank == 3


def test_without_a_forecast_the_rows_are_blank_and_the_rule_is_told() -> None:
    found = plan(NoForecast("Nothing is known.", "Say more."))
    assert found.due == ()
    assert found.blank > 5
    assert "Weekly" in found.rule


def test_a_charge_without_a_forecast_is_read_daily_all_the_same() -> None:
    (charge,) = plans.example("sound-charge").stacks
    assert charge.stack.kind is StackKind.CHARGE
    bare = CheckedStack(charge.stack, charge.arrangement, charge.facts and dataclasses.replace(charge.facts), None)
    assert reading_plan(bare, plans.TODAY).rule.startswith("Every day")


def test_no_reading_is_due_past_the_last_day_that_has_a_date() -> None:
    last = datetime.date.max - datetime.timedelta(days=10)
    found = plan(made.forecast(start=last), last)
    assert [each.day for each in found.due] == [last + datetime.timedelta(days=7)]
