"""The page of a co-op in a real browser: it sorts, filters, fits, prints, and asks nothing of any network."""

from __future__ import annotations

import base64
import datetime
import re
from typing import Any

import pytest
import sheet_plans as plans
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.select import Select

from stacklint.checked import CheckedPlan
from stacklint.files import Trouble
from stacklint.report.coop_page import coop_html
from stacklint.report.coop_plan import CoopPlan, coop_plan
from stacklint.report.kept import kept

pytestmark = pytest.mark.browser

NAMES = (
    "drying/promised-wrong",
    "drying/promised-mended",
    "families/sag-wrong",
    "families/rain-mended",
    "first-plan",
    "sound-charge",
    "sound-pile",
)
LONG = "W" * 300


def kept_plan(checked: CheckedPlan, sheet: str | None = None) -> CoopPlan:
    return coop_plan(kept(checked), sheet)


@pytest.fixture(scope="module")
def coop() -> str:
    """A yard with every state, both systems of units, a broken plan, names that look like markup and very long ones."""
    found = [plans.example(name)._replace(path=f"yard/{name}.stackplan") for name in NAMES]
    found += [plans.plan(text) for text in (plans.METRIC, plans.BROKEN, plans.HOSTILE, plans.SEVERAL)]
    found += [plans.plan(plans.HOSTILE.replace("<script>alert(2)</script>", LONG))._replace(path=f"{LONG}.stackplan")]
    told = [kept_plan(each, "sheets/a.html") for each in found]
    return coop_html(told, [Trouble(f"{LONG}.stackplan", "is not text")], plans.TODAY)


def column(page: Any, head: str, *, shown: bool = True) -> list[str]:
    heads = [cell.text.strip(" ▲▼") for cell in page.driver.find_elements(By.CSS_SELECTOR, "#stacks thead th")]
    rows = page.driver.find_elements(By.CSS_SELECTOR, "#stacks tbody tr")
    cells = [row.find_elements(By.XPATH, "./*")[heads.index(head)] for row in rows if row.is_displayed() or not shown]
    return [cell.text for cell in cells]


def press(page: Any, head: str) -> Any:
    button = page.driver.find_element(By.XPATH, f"//table[@id='stacks']//th/button[normalize-space()='{head}']")
    button.send_keys(Keys.ENTER)
    return button.find_element(By.XPATH, "..")


def numbers(texts: list[str]) -> list[float]:
    return [float(re.sub(r"[^\d.]", "", text)) for text in texts]


HEADS = (
    "Plan", "Stack", "Kind", "Place or kiln", "Spot", "Species", "Volume", "Errors", "Warnings", "Notes", "Worst",
    "Ready", "Wanted by",
)  # fmt: skip


def test_every_column_can_be_sorted_by_the_keyboard_up_and_down_and_says_so(page, coop):
    page.open(coop, width=1500)
    buttons = page.driver.find_elements(By.CSS_SELECTOR, "#stacks th button")
    assert tuple(button.text for button in buttons) == HEADS
    for head in HEADS:
        before = sorted(column(page, head))
        assert press(page, head).get_attribute("aria-sort") == "ascending"
        rising = column(page, head)
        assert press(page, head).get_attribute("aria-sort") == "descending"
        falling = column(page, head)
        assert sorted(rising) == sorted(falling) == before
        known = [text for text in rising if text]
        assert rising == known + [""] * (len(rising) - len(known))  # What has no value comes last both ways.
        assert falling[len(known) :] == [""] * (len(rising) - len(known))
        assert len(page.driver.find_elements(By.CSS_SELECTOR, "#stacks th[aria-sort]")) == 1
        assert f"sorted by {head}, falling" in page.driver.find_element(By.ID, "filter-count").text
    assert page.complaints == []


def test_volumes_are_all_in_one_unit_and_sorted_by_size(page, coop):
    page.open(coop, width=1500)
    press(page, "Volume")
    texts = [text for text in column(page, "Volume") if text]
    assert all(text.endswith(" bf") for text in texts)
    assert numbers(texts) == sorted(numbers(texts))
    assert len(set(texts)) > 4
    own = [each.get_attribute("title") for each in page.driver.find_elements(By.CSS_SELECTOR, "#stacks td span[title]")]
    assert len(own) == 1
    assert own[0].endswith(" m3 in its plan")


def test_the_worst_come_first_where_they_are_sorted_falling(page, coop):
    page.open(coop, width=1500)
    press(page, "Worst")
    press(page, "Worst")
    order = ["error", "warning", "note", "nothing to change"]
    ranks = [order.index(text) for text in column(page, "Worst")]
    assert ranks == sorted(ranks)
    assert len(set(ranks)) >= 3


def test_days_are_sorted_by_the_likely_one(page, coop):
    page.open(coop, width=1500)
    press(page, "Ready")
    days = [datetime.date.fromisoformat(text[:10]) for text in column(page, "Ready") if re.match(r"\d{4}-", text)]
    assert days == sorted(days)
    assert len(days) > 4


def test_words_filter_the_lines_and_the_findings_below_and_the_count_follows(page, coop):
    page.open(coop, width=1500)
    total = len(column(page, "Stack"))
    assert page.driver.find_element(By.ID, "filter-count").text == f"{total} of {total} shown"
    field = page.driver.find_element(By.ID, "filter-words")
    field.send_keys("MAPLE box")
    shown = column(page, "Stack")
    assert set(shown) == {"Maple in the box"}
    articles = [each for each in page.driver.find_elements(By.TAG_NAME, "article") if each.is_displayed()]
    assert len(articles) == len(shown) < total
    assert page.driver.find_element(By.ID, "filter-count").text == f"{len(shown)} of {total} shown"
    page.driver.find_element(By.CSS_SELECTOR, "#filter button").click()
    page.driver.execute_async_script("setTimeout(arguments[0], 20)")
    assert len(column(page, "Stack")) == total


def test_words_of_a_finding_find_its_stack(page, coop):
    page.open(coop, width=1500)
    page.driver.find_element(By.ID, "filter-words").send_keys("hangs past its last sticker")
    assert column(page, "Stack") == ["Ash 1 Ash for flooring"]


def yard_of_rows():
    """Piles in rows whose names begin alike, and one of which only a note speaks of a row 3."""
    piles = [
        f'pile "P {row}" "{title}"\n  place open yard\n  spot "row {row}"\n'
        f"  boards a: 40 of white oak 4/4 x 6 in x 8 ft, green\n  stack 8 ft x 4 ft\n"
        for row, title in ((3, "Oak"), (30, "Oak"), (13, "Ash row"), (4, "Maple 3 boxes"))
    ]
    return coop_html([kept_plan(plans.plan("\n".join(piles)))], (), plans.TODAY)


@pytest.mark.parametrize(
    ("typed", "spots"),
    [
        ("row 3", ["row 3"]),
        ("ROW  3", ["row 3"]),
        ('"row 3"', ["row 3"]),
        ('oak "row 30"', ["row 30"]),
        ("row 13", ["row 13"]),
        ("row boxes", ["row 4"]),
        ("row 3 boxes", ["row 4"]),
        ('"row 3" boxes', []),
        ("map", ["row 4"]),
        ("([*", []),
    ],
)
def test_words_are_found_as_a_phrase_first_then_each_whole_then_as_beginnings(page, typed, spots):
    page.open(yard_of_rows(), width=1500)
    page.driver.find_element(By.ID, "filter-words").send_keys(typed)
    assert column(page, "Spot") == spots
    assert page.complaints == []


def test_a_state_filters_the_lines(page, coop):
    page.open(coop, width=1500)
    choice = Select(page.driver.find_element(By.ID, "filter-state"))
    for option in [option.text for option in choice.options][1:]:
        state, _, count = option.rstrip(")").rpartition(" (")
        choice.select_by_visible_text(option)
        assert column(page, "Worst") == [state] * int(count)


def test_nothing_that_fits_leaves_an_empty_table_and_a_count_of_none(page, coop):
    page.open(coop)
    page.driver.find_element(By.ID, "filter-words").send_keys("no such words")
    assert column(page, "Stack") == []
    assert page.driver.find_element(By.ID, "filter-count").text.startswith("0 of ")


def test_a_link_to_what_the_filter_hides_shows_it_again(page, coop):
    page.open(coop, width=1500)
    page.driver.find_element(By.ID, "filter-words").send_keys("sag")
    link = page.driver.find_element(By.XPATH, "//figure//li/a[normalize-space()='2027-06']")
    target = page.driver.find_element(By.ID, link.get_attribute("href").rpartition("#")[2])
    assert not target.is_displayed()
    link.send_keys(Keys.ENTER)
    page.driver.execute_async_script("setTimeout(arguments[0], 50)")
    assert target.is_displayed()


def test_the_filter_fields_have_labels_and_the_count_is_told_to_a_screen_reader(page, coop):
    page.open(coop)
    for name in ("filter-words", "filter-state"):
        assert page.driver.find_element(By.CSS_SELECTOR, f"label[for={name}]").text
    assert page.driver.find_element(By.ID, "filter-count").get_attribute("role") == "status"


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [360, 800, 1500])
def test_nothing_stands_out_of_the_window_nothing_is_asked_for_and_nobody_is_kept_out(page, coop, width, dark):
    page.open(coop, width=width, dark=dark)
    assert page.overflowing == []
    assert page.cut_off == []
    assert page.barriers() == []
    assert page.complaints == []
    assert page.requests == []


@pytest.mark.parametrize(("width", "kind"), [(360, "block"), (590, "block"), (640, "table"), (800, "table")])
def test_the_table_is_one_at_the_width_of_a_tablet_and_cards_on_a_phone(page, coop, width, kind):
    page.open(coop, width=width)
    shown = page.driver.execute_script("return getComputedStyle(document.getElementById('stacks')).display")
    assert shown == kind
    scrolls = page.cut_off != []
    hint = page.driver.execute_script("return getComputedStyle(document.querySelector('.frame'), '::before').content")
    assert not scrolls or "scroll sideways" in hint
    assert not scrolls or width == 640


def test_the_page_is_whole_without_its_script(page, coop):
    without, changed = re.subn(r"script-src [^\";]+", "script-src &#39;none&#39;", coop, count=1)
    assert changed
    page.open(without, width=1500)
    assert len(column(page, "Stack")) == coop.count("<article")
    assert not page.driver.find_element(By.ID, "filter").is_displayed()
    assert not page.driver.find_elements(By.CSS_SELECTOR, "th button")
    assert all(each.is_displayed() for each in page.driver.find_elements(By.TAG_NAME, "article"))


def test_bars_stand_under_the_months_in_which_their_stacks_stand(page):
    found = plans.example("sound-pile")
    told = kept_plan(found)
    page.open(coop_html([told], (), plans.TODAY), width=1200)
    stay = told.stacks[0].stay
    assert stay is not None and stay.fast is not None and stay.slow is not None and stay.likely is not None
    first = stay.start.replace(day=1)
    last = (stay.slow.replace(day=1) + datetime.timedelta(days=32)).replace(day=1)
    frame = page.driver.find_element(By.CSS_SELECTOR, "figure svg").rect
    for selector, left, right in ((".sure", stay.start, stay.fast), (".range", stay.fast, stay.slow)):
        rect = page.driver.execute_script(
            "const box = document.querySelector(arguments[0]).getBBox(); return [box.x, box.x + box.width]",
            f"figure {selector}",
        )
        scale = frame["width"] / (last - first).days
        assert rect == pytest.approx([(left - first).days * scale, (right - first).days * scale], abs=1)
    line = page.driver.execute_script("return document.querySelector('figure .likely').getBBox().x")
    assert line == pytest.approx((stay.likely - first).days * frame["width"] / (last - first).days, abs=1)


def test_the_table_fits_a_sheet_of_paper_laid_across(page, coop, paper):
    across = int((paper.height - 2 * 13 / 25.4) * 96)
    page.open(coop, width=across, media="print")
    assert page.overflowing == []
    assert page.cut_off == []
    assert not page.driver.find_element(By.ID, "filter").is_displayed()


def test_paper_is_laid_across_by_the_page_itself(page, coop, paper):
    page.open(coop)
    wish = {"paperWidth": paper.width, "paperHeight": paper.height, "preferCSSPageSize": True}
    pdf = base64.b64decode(page.driver.execute_cdp_cmd("Page.printToPDF", wish)["data"])
    boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    assert boxes
    for width, height in boxes:
        assert float(width) > float(height)


def test_a_page_without_stacks_has_no_script_and_no_complaint(page):
    page.open(coop_html([], [Trouble("gone.stackplan", "there is no such file")], plans.TODAY), width=360)
    assert page.overflowing == []
    assert page.barriers() == []
    assert page.complaints == []
