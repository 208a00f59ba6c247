"""The calendar on a screen: bars over the months, what is free and full, and what is told of each stack."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_calendars import DATE, charge, pile, ready, seen

from stacklint.calendar.gathered import YardCalendar
from stacklint.drying.forecast import NoForecast
from stacklint.report.calendar_drawing import Drawing
from stacklint.report.calendar_text import Look, calendar_text
from stacklint.report.calendar_words import days_taken
from stacklint.report.stay_glyphs import ASCII, BLOCKS, stay_glyphs_for


def drawn(calendar: YardCalendar, width: int = 72) -> list[str]:
    """The lines of the only place, without its name."""
    (place,) = calendar.places
    return [line[12:] for line in Drawing(calendar, width, ASCII).place(place)]


def text(calendar: YardCalendar, width: int = 80) -> str:
    return "\n".join(calendar_text(calendar, Look(width, BLOCKS)))


# The drawing. Sixty columns stand for the 62 days of July and August.


def test_a_bar_goes_from_the_day_it_comes_over_the_earliest_and_the_likely_day_to_the_latest() -> None:
    made = ready("2026-07-11", "2026-08-05", "2026-07-22", "2026-08-16")
    found = seen(pile(stacked="2026-07-11"), made, months=2, first=DATE(2026, 7, 1))
    (line,) = drawn(found)
    scale = 60 / 62
    assert line.index("1") == int(10 * scale)
    assert line.index(".") == int(21 * scale)
    assert line.index("#") == int(35 * scale)
    assert len(line) == int(46 * scale)
    assert set(line[11:20]) == {"="}


def test_a_stack_that_no_day_is_known_of_goes_on_beyond_the_months() -> None:
    (line,) = drawn(seen(pile(want="8%"), ready("2026-04-01", None, wanted=0.08)))
    assert line == "1" + "=" * 58 + ">"


def test_a_stack_that_is_not_forecast_may_stand_from_its_day_on() -> None:
    (line,) = drawn(seen(pile(), NoForecast("It is not known.", "Say it.")))
    assert line == "1" + "." * 58 + ">"


def test_two_in_one_kiln_at_once_are_drawn_in_two_lines_with_the_days_marked_below() -> None:
    stacks = charge("One", "2026-07-01") + charge("Two", "2026-07-16")
    made = ready("2026-07-01", "2026-07-31"), ready("2026-07-16", "2026-08-16")
    one, two, clash = drawn(seen(stacks, *made, first=DATE(2026, 7, 1), months=2))
    assert (one[0], two.strip()[0]) == ("1", "2")
    assert (clash.index("X"), clash.rindex("X")) == (int(15 * 60 / 62), int(30 * 60 / 62) - 1)


def test_two_that_follow_each_other_are_drawn_in_one_line() -> None:
    stacks = charge("One", "2026-07-01") + charge("Two", "2026-08-10")
    made = ready("2026-07-01", "2026-07-31"), ready("2026-08-10", "2026-08-26")
    (line,) = drawn(seen(stacks, *made, first=DATE(2026, 7, 1), months=2))
    assert "1" in line
    assert "2" in line


def test_a_spot_in_which_nothing_stands_in_these_months_is_free() -> None:
    assert drawn(seen(pile(), ready("2026-04-01", "2026-09-01"), first=DATE(2026, 10, 1))) == ["free"]


def test_today_is_marked() -> None:
    found = seen(pile(stacked="2026-07-11"), ready("2026-07-11", "2026-08-05"), today=DATE(2026, 7, 5), months=2)
    (line,) = drawn(found)
    assert line.index("'") == int(4 * 60 / 62)


def test_a_name_that_is_too_long_stands_in_a_line_of_its_own() -> None:
    name = "behind the old sawmill, third row from the creek"
    found = seen(pile(spot=name), ready("2026-04-01", "2026-09-01"))
    (place,) = found.places
    first, second, *_ = Drawing(found, 60, BLOCKS).place(place)
    assert first == f"  {name}"
    assert second.strip().startswith("1█")


STAYS = st.lists(st.tuples(st.integers(-400, 900), st.integers(1, 400)), min_size=1, max_size=12)


@given(stays=STAYS, width=st.integers(40, 120), months=st.integers(1, 60))
def test_no_bar_is_over_another_and_no_line_is_too_long(stays, width, months) -> None:
    spans = [(DATE(2026, 6, 1) + datetime.timedelta(start), length) for start, length in stays]
    stacks = "".join(charge(str(number), start.isoformat()) for number, (start, _) in enumerate(spans))
    made = (
        ready(start.isoformat(), (start + datetime.timedelta(length)).isoformat()) for start, length in spans
    )
    found = seen(stacks, *made, months=months)
    (place,) = found.places
    lines = list(Drawing(found, width, ASCII).place(place))
    assert all(len(line) <= width for line in lines)
    keys = [word for line in lines for word in "".join(c if c.isdigit() else " " for c in line[12:]).split()]
    shown = [
        each.number
        for each in found.entries
        if each.presence.start < found.frame.end and each.presence.end > found.frame.first
    ]
    assert sorted(map(int, keys)) == shown


# The text


def yard() -> YardCalendar:
    stacks = pile(want="12% by 2026-05-15") + charge(of="Ash", want="8% by 2026-07-10")
    made = ready("2026-04-01", "2026-07-21", "2026-06-20", "2026-11-02"), ready("2026-07-01", "2026-07-12", wanted=0.08)
    return seen(stacks, *made, months=3)


def test_it_begins_with_how_many_stacks_there_are_and_how_many_are_late() -> None:
    first = text(yard()).splitlines()[0]
    assert first == "2 stacks in 1 plan, seen on 2026-06-01: 1 overdue, 1 late."


def test_the_late_ones_are_named_at_the_top() -> None:
    assert text(yard()).splitlines()[1:4] == ["Overdue: 2 pile Ash.", "Late: 1 charge One.", ""]


def test_of_very_many_late_ones_the_first_are_named_and_the_others_counted() -> None:
    stacks = "".join(pile(f"P{number}", spot=None, want="12% by 2026-07-01") for number in range(14))
    said = text(seen(stacks, *[ready("2026-04-01", "2026-09-01")] * 14), 120)
    assert "Late: 1 pile P0; " in said
    assert "12 pile P11 and 2 more." in said


def test_a_stack_is_told_with_its_place_its_days_how_late_it_is_and_what_it_waits_for() -> None:
    assert (
        """\
1  Charge One  (yard.stackplan, line 7)
   stands   kiln Box: 2026-07-01 to 2026-07-12, when it is likely ready
   ready    2026-07-12 (2026-07-12 to 2026-07-12)
   wanted   by 2026-07-10: late by 2 days
   waits    It starts on 2026-07-01.
            Pile Ash (line 1) is likely at 12% on 2026-07-21, 20 days after this
            charge starts.
            It runs until 2026-07-12, likely.
   governs  The thickest boards set the time.

2  Pile Ash  (yard.stackplan, line 1)
   stands   spot row 1, Alder Flat: 2026-04-01 to 2026-07-01, when its boards
            are taken by charges
   ready    2026-07-21 (2026-06-20 to 2026-11-02)
   wanted   by 2026-05-15, 17 days ago: overdue, late by 67 days, 171 at the
            slow end
   waits    Charge One (line 7) takes its boards on 2026-07-01.
"""
        in text(yard())
    )


def test_the_days_of_a_kiln_and_when_it_is_free_are_told() -> None:
    said = text(yard())
    assert "  Box   July 2026 11 of 31  from 2026-06-01 to 2026-07-01, from 2026-07-12 on\n" in said


def test_months_in_which_a_kiln_is_taken_on_all_days_are_told_together() -> None:
    made = ready("2026-07-11", "2026-11-05", "2026-10-22", "2026-11-16")
    (kiln,) = seen(charge("A", "2026-07-11"), made, months=6, first=DATE(2026, 7, 1)).places
    assert list(days_taken(kiln.months)) == [
        "July 2026 21 of 31",
        "August 2026 to October 2026 all days",
        "November 2026 4 of 30",
    ]


def test_spots_are_told_with_when_they_are_free() -> None:
    assert "  row 1, Alder Flat  from 2026-07-01 on\n" in text(yard())


@pytest.mark.parametrize("width", [40, 60, 80, 200])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    assert max(map(len, text(yard(), width).splitlines())) <= min(width, 120)


def test_in_ascii_nothing_else_is_drawn() -> None:
    said = "\n".join(calendar_text(yard(), Look(80, ASCII)))
    assert said.isascii()


def test_an_encoding_without_blocks_gets_ascii() -> None:
    assert stay_glyphs_for("utf-8") is BLOCKS
    assert stay_glyphs_for("latin-1") is ASCII
    assert stay_glyphs_for(None) is ASCII
    assert stay_glyphs_for("utf-8", plain_locale=True) is ASCII


def test_a_stack_of_which_no_day_is_known_is_named_below_the_picture() -> None:
    found = seen(pile(stacked=None), NoForecast("It is not known.", "Say it."))
    assert "Not in the picture, for want of a day: 1 pile Ash." in text(found)


def test_months_in_which_the_same_is_asked_of_a_site_are_told_in_one_line() -> None:
    site = 'site "Alder Flat"\n  near "Columbus, OH"\n  spots 1\n'
    said = text(seen(pile(), ready("2026-04-01", "2026-09-10"), yard=site))
    assert "  June 2026 to September 2026  1 stack\n" in said


def test_where_there_is_no_stack_that_is_said() -> None:
    assert text(seen("")) == "There is no pile and no charge here: there is nothing to show."
