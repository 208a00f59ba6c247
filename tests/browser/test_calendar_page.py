"""The calendar's page in a real browser: it fits, prints, leads from bar to stack, and asks nothing of any network."""

from __future__ import annotations

import datetime

import pytest
import sheet_plans as plans
from made_calendars import DATE, charge, pile, ready, seen
from selenium.webdriver.common.by import By

from stacklint.calendar.gathered import gathered
from stacklint.files import Trouble
from stacklint.report.calendar_page import calendar_html
from stacklint.report.kept import kept

pytestmark = pytest.mark.browser

NAMES = (
    "drying/promised-wrong",
    "drying/promised-mended",
    "families/rain-mended",
    "first-plan",
    "sound-charge",
    "sound-pile",
)
LONG = "W" * 300


@pytest.fixture(scope="module")
def calendar() -> str:
    """A yard with late stacks and clashes, both systems of units, names that look like markup and very long ones."""
    found = [plans.example(name)._replace(path=f"yard/{name}.stackplan") for name in NAMES]
    found += [plans.plan(text) for text in (plans.METRIC, plans.BROKEN, plans.HOSTILE, plans.SEVERAL)]
    found += [plans.plan(plans.HOSTILE.replace("<script>alert(2)</script>", LONG))._replace(path=f"{LONG}.stackplan")]
    told = gathered([kept(each) for each in found], plans.TODAY, None, 18)
    return calendar_html(told, [Trouble(f"{LONG}.stackplan", "is not text")])


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [360, 600, 800, 1500])
def test_nothing_stands_out_of_the_window_nothing_is_asked_for_and_nobody_is_kept_out(page, calendar, width, dark):
    page.open(calendar, width=width, dark=dark)
    assert page.overflowing == []
    assert page.cut_off == []
    assert page.barriers() == []
    assert page.complaints == []
    assert page.requests == []


def test_a_link_below_the_picture_leads_to_the_stack(page, calendar):
    page.open(calendar)
    link = page.driver.find_element(By.XPATH, "//figure//li/a[normalize-space()='2027-06']")
    target = page.driver.find_element(By.ID, link.get_attribute("href").rpartition("#")[2])
    assert "Charge 2027-06" in target.text
    assert target.tag_name == "tr"


def test_bars_stand_under_the_months_that_are_asked_for(page):
    text = pile() + charge(of="Ash")
    made = ready("2026-04-01", "2026-09-21"), ready("2026-07-01", "2026-07-12", wanted=0.08)
    found = seen(text, *made, first=DATE(2026, 6, 1), months=3)
    page.open(calendar_html(found, ()), width=1200)
    frame = page.driver.find_element(By.CSS_SELECTOR, "figure svg").rect
    scale = frame["width"] / 92
    box = page.driver.execute_script(
        "const box = document.querySelector('figure .sure').getBBox(); return [box.x, box.x + box.width]"
    )
    assert box == pytest.approx([0, (DATE(2026, 7, 1) - DATE(2026, 6, 1)).days * scale], abs=1)
    today = page.driver.execute_script("return document.querySelector('figure .today').getBBox().x")
    assert today == pytest.approx((found.today - DATE(2026, 6, 1)) / datetime.timedelta(1) * scale, abs=1)


def test_the_tables_fit_a_sheet_of_paper_laid_across(page, calendar, paper):
    across = int((paper.height - 2 * 13 / 25.4) * 96)
    page.open(calendar, width=across, media="print")
    assert page.overflowing == []
    assert page.cut_off == []


def test_a_page_without_stacks_has_no_complaint(page):
    page.open(calendar_html(seen(""), [Trouble("gone.stackplan", "there is no such file")]), width=360)
    assert page.overflowing == []
    assert page.barriers() == []
    assert page.complaints == []
