"""The months that are shown, the order of the stacks, and that the order of the plans does not matter."""

from __future__ import annotations

from made_calendars import DATE, TODAY, charge, kept_plan, pile, ready, seen

from stacklint.calendar.gathered import gathered
from stacklint.report.calendar_data import calendar_json


def test_the_months_begin_with_that_of_today() -> None:
    assert seen(pile(), ready("2026-04-01", "2026-09-01")).frame.words == "June 2026 to May 2027"


def test_where_all_is_to_come_they_begin_with_the_month_in_which_the_first_stack_comes() -> None:
    found = seen(pile(stacked="2027-03-09"), ready("2027-03-09", "2027-09-01"))
    assert found.frame.words == "March 2027 to February 2028"


def test_where_all_is_gone_they_begin_with_the_month_in_which_the_first_stack_came() -> None:
    assert seen(pile(), ready("2026-04-01", "2026-05-09"), months=2).frame.words == "April 2026 to May 2026"


def test_a_month_and_a_number_of_months_can_be_asked_for() -> None:
    found = seen(pile(), ready("2026-04-01", "2026-09-01"), first=DATE(2025, 12, 24), months=1)
    assert found.frame.words == "December 2025"
    assert (found.frame.first, found.frame.end) == (DATE(2025, 12, 1), DATE(2026, 1, 1))


def test_months_end_with_the_last_that_has_dates() -> None:
    found = seen(pile(), ready("2026-04-01", "2026-09-01"), first=DATE(9999, 11, 1))
    assert found.frame.words == "November 9999 to December 9999"


def test_stacks_come_by_their_likely_day_and_those_without_one_last() -> None:
    text = pile("Never", spot="a") + pile("Late", spot="b") + pile("Early", spot="c")
    found = seen(text, ready("2026-04-01", None), ready("2026-04-01", "2026-09-01"), ready("2026-04-01", "2026-07-01"))
    assert [(each.number, each.stack.name) for each in found.entries] == [(1, "Early"), (2, "Late"), (3, "Never")]


def test_the_order_in_which_plans_are_given_does_not_matter() -> None:
    one = kept_plan(pile("A") + charge("One"), ready("2026-04-01", "2026-09-01"), ready("2026-07-01", "2026-07-09"))
    other = kept_plan(pile("B"), ready("2026-05-01", "2026-09-01"), path="b.stackplan")
    assert calendar_json(gathered([one, other], TODAY), ()) == calendar_json(gathered([other, one], TODAY), ())


def test_a_stack_in_a_place_that_is_taken_in_another_plan_is_told_of_the_clash() -> None:
    one = kept_plan(pile("A"), ready("2026-04-01", "2026-09-01"))
    other = kept_plan(pile("B", "2026-05-01"), ready("2026-05-01", "2026-09-01"), path="b.stackplan")
    second, first = gathered([one, other], TODAY).entries
    assert first.clash is None
    assert second.clash is not None
    assert (second.clash.first, second.clash.since) == ("pile A (yard.stackplan, line 1)", DATE(2026, 5, 1))
