"""Drawings as a browser sets them: words stay inside, and do not lie over one another."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from xml.etree.ElementTree import Element

import pytest
from measured_drawings import pile_with, plan_of

from stacklint.checked import CheckedStack
from stacklint.checking import check
from stacklint.files import PlanFile, lending, plans
from stacklint.report.drawings import course_plan, drying_curve, end_view, kiln_section, side_view
from stacklint.report.numbered import numbered
from stacklint.report.sheet_page import sheet_html
from stacklint.report.svg import as_text

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
TODAY = datetime.date(2026, 6, 10)
EXAMPLES = [path for path in sorted((ROOT / "examples").rglob("*.stackplan")) if path.stem != "yard"]
LONG = (
    'pile "Long"\n  place open yard\n  boards a: 240 of white ash 32 mm x 200 mm x 5 m, green\n  stack 30 m x 1.6 m\n'
    "  stickers 25 mm x 40 mm, every 500 mm, dry\n  bearers 100 mm x 150 mm, every 500 mm\n  clearance 350 mm\n"
    "  cover roof panels, overhang 0.4 m, slope 1 in 12\n"
)
_WORDS = """
const trouble = [];
for (const svg of document.querySelectorAll('svg')) {
  const frame = svg.getBoundingClientRect(), name = svg.querySelector('title').textContent;
  const texts = [...svg.querySelectorAll('text')].filter(each => !each.closest('.finding'));
  const boxes = texts.map(each => [each, each.getBoundingClientRect()]);
  for (const [each, box] of boxes) {
    const level = box.left >= frame.left - 1 && box.right <= frame.right + 1;
    if (!level || box.top < frame.top - 1 || box.bottom > frame.bottom + 1)
      trouble.push(name + ': stands out: ' + each.textContent);
  }
  for (const ring of svg.querySelectorAll('.finding circle')) {
    const at = ring.getBoundingClientRect();
    for (const [each, box] of boxes) {
      const wide = Math.min(at.right, box.right) - Math.max(at.left, box.left);
      const high = Math.min(at.bottom, box.bottom) - Math.max(at.top, box.top);
      if (wide > at.width * 0.25 && high > at.height * 0.25)
        trouble.push(name + ': a number lies over: ' + each.textContent);
    }
  }
  for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
    const [a, b] = [boxes[i][1], boxes[j][1]];
    const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
    const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    if (wide > 1 && high > Math.min(a.height, b.height) * 0.3 && high > 1)
      trouble.push(name + ': run together: ' + boxes[i][0].textContent + ' | ' + boxes[j][0].textContent);
  }
}
return trouble;
"""
_SMALLEST = """
return Math.min(...[...document.querySelectorAll('svg text')].map(
  each => parseFloat(each.getAttribute('font-size')) * each.ownerSVGElement.getScreenCTM().a));
"""


def drawn(stack: CheckedStack, findings: object) -> Iterator[Element]:
    made = [side_view(stack, findings), end_view(stack, findings), kiln_section(stack, findings)]
    made.append(drying_curve(stack, TODAY))
    if stack.arrangement is not None:
        made += [course_plan(stack, run.first, findings) for run in stack.arrangement.courses]
    return (each for each in made if each is not None)


def html(drawings: Iterator[Element]) -> str:
    templates = ROOT / "stacklint" / "report" / "templates"
    look = "".join((templates / name).read_text(encoding="utf-8") for name in ("look.css", "drawings.css"))
    figures = "".join(f"<figure>{as_text(each)}</figure>" for each in drawings)
    page = "<!DOCTYPE html><html lang='en'><meta charset='utf-8'><link rel='icon' href='data:,'><title>Drawings</title>"
    return f"{page}<style>{look}</style><body>{figures}</body></html>"


def of_file(path: Path) -> str:
    drawings: list[Element] = []
    for plan in plans([str(path)]):
        assert isinstance(plan, PlanFile)
        checked = check(plan.text, plan.path, use=lending(plan.root), today=TODAY)
        for stack in checked.stacks:
            mine = [finding for finding in checked.findings if finding.stack == stack.stack.name.text]
            drawings += drawn(stack, numbered(mine))
    return html(iter(drawings))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_words_of_an_example_stay_inside_and_apart(page, path):
    page.open(of_file(path), width=800)
    assert page.driver.execute_script(_WORDS) == []
    assert page.complaints == []


@pytest.mark.parametrize(
    "plan",
    [
        pytest.param(lambda: plan_of(LONG), id="thirty metres"),
        pytest.param(lambda: pile_with(boards="a: 640 of white ash 4/4 x 6 in x 8 ft, green"), id="forty courses"),
        pytest.param(lambda: pile_with(boards="a: 16 of white ash 4/4 x 6 in x 8 ft, green"), id="one course"),
        pytest.param(lambda: pile_with(stickers="3/4 in x 1 1/2 in, 60 a course"), id="sixty lines"),
        pytest.param(lambda: pile_with(stickers="none", bearers="none", clearance=None, place="garage"), id="floor"),
        pytest.param(lambda: pile_with(top_load="40 psf", cover="tarp, hanging down, untied"), id="weights"),
        pytest.param(lambda: pile_with(course="1: 3 rows of a + a, 1 row of b + c", clearance="6 in"), id="low"),
    ],
)
def test_words_of_extremes_stay_inside_and_apart(page, plan):
    made = plan()
    page.open(html(drawn(made.stack, made.findings)), width=800)
    assert page.driver.execute_script(_WORDS) == []


def test_letters_are_large_enough_at_the_width_of_a_page(page):
    page.open(of_file(ROOT / "examples" / "first-plan.stackplan"), width=700)
    assert page.driver.execute_script(_SMALLEST) >= 8


_HINTS = """
return [...document.querySelectorAll('figure .frame')].map(frame => [
  frame.scrollWidth > frame.clientWidth + 1, getComputedStyle(frame, '::before').content,
  getComputedStyle(frame).backgroundImage]);
"""


@pytest.mark.parametrize("width", [360, 800])
def test_a_drawing_that_is_wider_than_the_screen_says_so(page, width):
    found = check((ROOT / "examples" / "first-plan.stackplan").read_text(encoding="utf-8"), "a.stackplan", today=TODAY)
    page.open(sheet_html(found, TODAY), width=width)
    hints = page.driver.execute_script(_HINTS)
    assert len(hints) >= 3
    assert any(scrolls for scrolls, _, _ in hints) is (width == 360)
    for scrolls, words, shades in hints:
        assert ("scroll sideways" in words) is scrolls
        assert "gradient" in shades
    page.open(sheet_html(found, TODAY), width=width, media="print")
    assert not any("scroll" in words for _, words, _ in page.driver.execute_script(_HINTS))
