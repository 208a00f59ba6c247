"""The calendar's page says what the screen says, and draws the picture of a co-op's page."""

from __future__ import annotations

import re

from made_calendars import DATE, charge, pile, ready, seen
from read_page import ReadPage, rows

from stacklint.calendar.gathered import YardCalendar
from stacklint.files import Trouble
from stacklint.report.calendar_page import calendar_html

CAPTION = "When each stack is ready, and what it waits for"


def yard() -> YardCalendar:
    text = pile(want="12% by 2026-05-15") + charge(of="Ash", want="8% by 2026-07-15") + charge("Two", "2026-07-06")
    return seen(
        text,
        ready("2026-04-01", "2026-07-21", "2026-06-20", "2026-11-02"),
        ready("2026-07-01", "2026-07-12", wanted=0.08),
        ready("2026-07-06", "2026-07-20", wanted=0.08),
        yard='site "Alder Flat"\n  near "Columbus, OH"\n  spots 2\nkiln "Box"\n  type vented\n',
        months=3,
    )


def page(calendar: YardCalendar, *troubles: Trouble) -> ReadPage:
    return ReadPage(calendar_html(calendar, troubles))


def test_each_stack_has_a_line_with_its_days_and_what_it_waits_for() -> None:
    one, two, ash = rows(page(yard()), CAPTION)
    assert one["Stack"] == "Charge One yard.stackplan, line 7"
    assert one["Stands"] == "kiln Box: 2026-07-01 to 2026-07-12, when it is likely ready"
    assert one["Wanted"].startswith("by 2026-07-15: perhaps late")
    assert "Pile Ash (line 1) is likely at 12% on 2026-07-21, 20 days after this charge starts." in one["Waits for"]
    assert "Charge One (line 7) is in kiln Box until 2026-07-12, 6 days after this one comes." in two["Waits for"]
    assert ash["Ready"] == "2026-07-21 (2026-06-20 to 2026-11-02)"
    assert ash["Wanted"] == "by 2026-05-15, 17 days ago: overdue, late by 67 days, 171 at the slow end"


def test_late_stacks_are_named_at_the_top_and_lead_to_why() -> None:
    found = page(yard())
    judged = "overdue, late by 67 days, 171 at the slow end"
    assert f"Pile Ash is wanted by 2026-05-15, 17 days ago: {judged} why" in found.text
    links = [each["href"] for tag, each in found.elements if tag == "a"]
    assert links[:2] == ["#stack-1", "#stack-3"]


def test_kilns_and_spots_are_told_with_their_days() -> None:
    found = page(yard())
    assert rows(found, "Kilns") == [
        {
            "Kiln": "Box",
            "Days taken": "July 2026 19 of 31 (25 are asked for)",
            "Two or more at once": "from 2026-07-06 to 2026-07-12",
            "Free": "from 2026-06-01 to 2026-07-01, from 2026-07-20 on",
        }
    ]
    assert rows(found, "Spots") == [
        {"Spot": "row 1, Alder Flat", "Two or more at once": "", "Free": "from 2026-07-01 on"}
    ]
    assert rows(found, "Alder Flat: the most that is asked for at once")[0]["of 2 spots"] == "1 stack"


def test_the_picture_shows_each_bar_in_the_months_asked_for() -> None:
    found = page(yard())
    bars = [each["data-stack"] for each in found.texts_of("g", "bar")]
    assert bars == ["stack-3", "stack-1", "stack-2"]
    anchors = {each["id"] for _, each in found.elements if "id" in each}
    assert set(bars) <= anchors
    # June has 30 of the 92 days of the three months: the pile is there until its boards are taken.
    widths = [float(each["width"].rstrip("%")) for each in found.texts_of("rect", "sure") if "%" in each["width"]]
    assert widths[0] == round(30 / 92 * 100, 2)


def test_a_stack_is_in_the_picture_until_a_charge_takes_its_boards() -> None:
    assert "2026-04-01 to 2026-07-01, when charge One takes its boards" in page(yard()).text


def test_days_outside_the_months_are_said_to_be_cut() -> None:
    assert "Shown are the months from 2026-06-01 to 2026-09-01" in page(yard()).text
    whole = seen(charge(), ready("2026-07-01", "2026-07-12"), first=DATE(2026, 7, 1), months=1)
    assert "Shown are the months" not in page(whole).text


def test_nothing_that_a_plan_says_is_markup_and_nothing_is_fetched() -> None:
    text = pile("<script>alert(1)</script>", spot="<b>row</b>")
    html = calendar_html(seen(text, ready("2026-04-01", "2026-09-01")), ())
    assert "<script" not in html
    assert "<b>" not in html
    assert "&lt;script&gt;" in html
    assert "default-src 'none'" in html
    assert not re.search(r"""(?:src|href)=["'](?!#|data:)""", html)


def test_what_could_not_be_read_is_told() -> None:
    assert "a.stackplan : is not text" in page(seen(""), Trouble("a.stackplan", "is not text")).text


def test_where_there_is_no_stack_that_is_said() -> None:
    assert "There is no pile and no charge here: there is nothing to show." in page(seen("")).text
