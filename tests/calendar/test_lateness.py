"""Whether a stack is ready by the day it is wanted, judged by its forecast and by today."""

from __future__ import annotations

import pytest
from made_calendars import DATE, charge, entry, pile, ready, seen

from stacklint.calendar.lateness import Lateness, State
from stacklint.drying.forecast import Forecast, NoForecast

NOT_KNOWN = NoForecast("How it dries is not forecast: its air is not known.", "Name a site.")


def judged(want: str, made: Forecast | NoForecast, today: str = "2026-06-01") -> Lateness:
    return entry(seen(pile(want=want), made, today=DATE.fromisoformat(today)), "Ash").lateness


def test_a_pile_that_is_ready_before_its_day_even_if_it_dries_slowly_is_in_time() -> None:
    made = ready("2026-04-01", "2026-08-01", "2026-07-01", "2026-09-30")
    assert judged("12% by 2026-09-30", made) == Lateness(State.IN_TIME)


def test_a_pile_that_is_late_only_if_it_dries_slowly_is_perhaps_late_by_its_slow_end() -> None:
    made = ready("2026-04-01", "2026-08-01", "2026-07-01", "2026-10-10")
    assert judged("12% by 2026-09-30", made) == Lateness(State.PERHAPS_LATE, at_most=10)


def test_a_pile_whose_slow_end_is_beyond_all_that_is_looked_at_is_perhaps_late() -> None:
    made = ready("2026-04-01", "2026-08-01", "2026-07-01", None)
    assert judged("12% by 2026-09-30", made) == Lateness(State.PERHAPS_LATE)


def test_a_pile_that_is_likely_ready_after_its_day_is_late_by_the_days_between() -> None:
    made = ready("2026-04-01", "2026-10-05", "2026-07-01", "2026-11-09")
    assert judged("12% by 2026-09-30", made) == Lateness(State.LATE, days=5, at_most=40)


def test_a_pile_that_is_never_that_dry_is_late() -> None:
    assert judged("12% by 2026-09-30", ready("2026-04-01", None)) == Lateness(State.LATE)


def test_a_pile_whose_day_has_passed_and_that_is_not_likely_ready_today_is_overdue() -> None:
    made = ready("2026-04-01", "2026-10-05", "2026-07-01", "2026-11-09")
    late = judged("12% by 2026-09-30", made, today="2026-10-04")
    assert late == Lateness(State.OVERDUE, days=5, at_most=40, passed=4)
    assert judged("12% by 2026-09-30", made, today="2026-10-05").state is State.LATE


def test_on_its_very_day_a_pile_is_not_overdue() -> None:
    made = ready("2026-04-01", "2026-10-05")
    assert judged("12% by 2026-09-30", made, today="2026-09-30") == Lateness(State.LATE, days=5, at_most=5)


def test_a_pile_that_was_ready_in_time_is_in_time_though_its_day_has_passed() -> None:
    made = ready("2026-04-01", "2026-08-01")
    assert judged("12% by 2026-09-30", made, today="2027-01-01") == Lateness(State.IN_TIME, passed=93)


def test_of_a_pile_that_is_not_forecast_it_is_not_known() -> None:
    assert judged("12% by 2026-05-31", NOT_KNOWN) == Lateness(State.UNKNOWN, passed=1)


def test_a_pile_that_no_day_is_wanted_of_is_never_late() -> None:
    assert judged("12%", ready("2026-04-01", None)) == Lateness(State.NO_DAY)


@pytest.mark.parametrize(("due", "state"), [("2026-07-25", State.PERHAPS_LATE), ("2026-07-26", State.IN_TIME)])
def test_a_charge_whose_kiln_is_taken_for_six_days_is_perhaps_late_where_it_has_fewer_to_spare(due, state) -> None:
    text = charge("One", "2026-06-20") + charge("Two", "2026-07-01", want=f"8% by {due}")
    found = seen(text, ready("2026-06-20", "2026-07-07"), ready("2026-07-01", "2026-07-20"))
    assert entry(found, "Two").lateness.state is state
