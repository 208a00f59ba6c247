"""Build sheets in a real browser: whole on a phone and on paper, silent, open to everybody."""

from __future__ import annotations

import re

import pytest
import sheet_plans as plans

from stacklint.report.sheet_page import sheet_html

pytestmark = pytest.mark.browser

PLANS = {
    "sound-pile": plans.example("sound-pile"),
    "first-plan": plans.example("first-plan"),
    "sound-charge": plans.example("sound-charge"),
    "promised-wrong": plans.example("drying/promised-wrong"),
    "tall": plans.plan(plans.TALL),
    "metric": plans.plan(plans.METRIC),
    "several": plans.plan(plans.SEVERAL),
    "broken": plans.plan(plans.BROKEN),
    "hostile": plans.plan(plans.HOSTILE),
}
PHONE = 360


@pytest.fixture(params=PLANS)
def sheet(request):
    return sheet_html(PLANS[request.param], plans.TODAY)


def test_a_sheet_complains_of_nothing_and_asks_for_nothing(page, sheet):
    page.open(sheet)
    assert page.complaints == []
    assert page.requests == []
    assert page.driver.execute_script("return window.scriptsRun") is None


@pytest.mark.parametrize("width", [PHONE, 768, 1400])
def test_nothing_stands_out_of_the_window(page, sheet, width):
    page.open(sheet, width=width)
    assert page.overflowing == []
    assert page.driver.execute_script("return document.documentElement.scrollWidth") <= width


def test_nothing_is_cut_off_on_paper(page, sheet, paper):
    page.open(sheet, width=paper.room, media="print")
    assert page.overflowing == []
    assert page.cut_off == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_the_accessibility_checker_finds_nothing_serious(page, sheet, dark):
    page.open(sheet, dark=dark)
    assert page.barriers() == []


def test_the_accessibility_checker_finds_nothing_serious_on_a_phone(page, sheet):
    page.open(sheet, width=PHONE)
    assert page.barriers() == []


def test_a_sheet_prints_on_whole_pages(page, sheet, paper):
    page.open(sheet)
    pdf = page.pdf(paper)
    assert pdf.startswith(b"%PDF")
    sizes = {
        tuple(round(float(edge) / 72, 1) for edge in found)
        for found in re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    }
    assert sizes == {(round(paper.width, 1), round(paper.height, 1))}


def test_letters_can_be_read_on_a_phone_and_on_paper(page, paper):
    """Nothing that is read is smaller than 8 points on paper; on a phone drawings scroll instead of shrinking."""
    page.open(sheet_html(PLANS["sound-pile"], plans.TODAY), width=paper.room, media="print")
    sizes = page.driver.execute_script(
        "return [...document.querySelectorAll('p, td, th, dd, dt, li, figcaption')]"
        ".map(node => parseFloat(getComputedStyle(node).fontSize))"
    )
    assert min(sizes) >= 8 / 72 * 96 - 0.1


def test_names_that_look_like_markup_run_nothing(page):
    page.open(sheet_html(PLANS["hostile"], plans.TODAY))
    heading = page.driver.execute_script("return document.querySelector('h1').textContent")
    assert heading == "Pile <script>alert(2)</script>"
    assert page.driver.execute_script("return document.querySelectorAll('script, img').length") == 0
    assert page.complaints == []


def test_a_stack_in_the_list_of_a_sheet_leads_to_its_article(page):
    page.open(sheet_html(PLANS["several"], plans.TODAY))
    page.driver.find_elements("css selector", "main > section a")[2].click()
    top = page.driver.execute_script("return document.querySelectorAll('article')[2].getBoundingClientRect().top")
    assert abs(top) < 5


def test_dark_and_light_letters_differ_from_their_paper(page):
    for dark in (False, True):
        page.open(sheet_html(PLANS["sound-pile"], plans.TODAY), dark=dark)
        ink, paper = page.driver.execute_script(
            "const style = getComputedStyle(document.body); return [style.color, style.backgroundColor]"
        )
        light = [sum(map(int, re.findall(r"\d+", colour)[:3])) for colour in (ink, paper)]
        assert (light[0] > light[1]) is dark
