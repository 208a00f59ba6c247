"""What an editor tells of the thing under the cursor is what the check computes of it."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest
from editor_marks import laid_out

from stacklint import language
from stacklint.checking import check
from stacklint.editor.hover import hover, system_of
from stacklint.editor.names import laid
from stacklint.editor.positions import Spot
from stacklint.report.figures import figures
from stacklint.rulebook import builtin, load

EXAMPLES = Path(__file__).parents[2] / "examples"
TODAY = datetime.date(2026, 6, 1)
PILE = """\
site "Cold Hollow"
  near "Columbus, OH"

pile "B2" "Ash for flooring"
  place open yard, site "Cold Hollow"
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  boards b: 20 of white oak 8/4 x 6 in x 8 ft
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, dry
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  waive stickers-wet because "new sticks on Friday"

pile "B3"
  boards a: 30 of white ash 4/4 x 6 in x 8 ft
  stack 16 ft x 4 ft
"""


def told(text: str, book=None) -> str | None:
    own, spot = laid_out(text)
    page = hover(own, spot, book or builtin(), None, TODAY)
    return None if page is None else page.text.replace("\\", "")


def at(before: str) -> str:
    """The plan with the cursor before some words of it."""
    assert PILE.count(before) == 1
    return PILE.replace(before, f"|{before}")


def test_the_line_of_a_pile_tells_its_figures():
    page = told(at('pile "B2"'))
    stack = check(PILE, today=TODAY).stacks[0]
    for figure in figures(stack):
        assert f"- {figure.label}: {figure.text}" in page


@pytest.mark.parametrize("path", sorted(EXAMPLES.rglob("*.stackplan")), ids=lambda path: path.stem)
def test_a_stack_by_itself_has_the_figures_that_it_has_in_its_plan(path):
    text = path.read_text(encoding="utf-8")
    own = laid(text, "-")
    for stack in check(text, today=TODAY).stacks:
        page = hover(own, Spot(stack.stack.name.where.line, 2), builtin(), None, TODAY)
        shown = page.text.replace("\\", "")
        assert all(f"- {figure.label}: {figure.text}" in shown for figure in figures(stack))


def test_a_charge_has_its_figures_with_the_boards_of_its_pile():
    text = f'{PILE}\ncharge "|C"\n  from pile "B2"\n  baffles top\n'
    assert "80 boards" in told(text)


def test_a_pile_counts_its_findings():
    text = PILE.replace("every 24 in, dry", "every 32 in, dry")
    levels = [finding.level.value for finding in check(text, today=TODAY).findings if finding.stack == "B2"]
    assert f"{levels.count('error')} errors, {levels.count('warning')} warnings" in told(text.replace('"B2"', '"|B2"'))


def test_a_pile_that_cannot_be_read_says_that():
    assert "Faults of the text" in told('pile "|X"\n  boards a: 6 of what 4/4 x 6 in x 12 ft\n')


def test_boards_tell_their_weight_and_moisture():
    page = told(at("boards a: 60 of"))
    assert "60 boards" in page
    assert "lb a board" in page
    assert "moisture content" in page
    assert "assumed" not in page


def test_boards_without_a_moisture_tell_that_it_is_assumed():
    assert "assumed: the plan does not say" in told(at("boards b: 20 of"))


def test_a_waived_rule_tells_its_reasons_and_limits():
    page = told(PILE.replace("waive stickers-wet", "waive |stickers-wet"))
    rule = builtin().rule("stickers-wet")
    assert rule.title in page and rule.why in page
    assert all(limit.source in page for limit in rule.limits)


def test_a_rule_that_house_rules_skip_tells_that():
    book = load([("house.rules", 'skip stickers-wet because "all are dry"')], base=builtin(), house=True).book
    page = told(PILE.replace("waive stickers-wet", "waive |stickers-wet"), book)
    assert "House rules skip this rule: all are dry" in page


def test_near_tells_the_climate_in_the_units_of_the_plan():
    page = told(at('near "Columbus, OH"'))
    assert "Columbus, Ohio" in page
    assert "| July | 7" in page.replace(".", ""), "Columbus has July means in the seventies Fahrenheit"
    assert "Source:" in page


def test_a_plan_in_metres_has_its_climate_in_degrees_celsius():
    text = 'site "S"\n  |near "Columbus, OH"\npile "P"\n  boards a: 6 of white ash 25 mm x 150 mm x 2 m\n'
    assert " C |" in told(text)


@pytest.mark.parametrize("path", sorted(EXAMPLES.rglob("*.stackplan")), ids=lambda path: path.stem)
def test_a_plan_is_in_the_system_that_its_reading_finds(path):
    text = path.read_text(encoding="utf-8")
    assert system_of(laid(text, "-").outline) is language.read(text).system


@pytest.mark.parametrize("before", ["clearance", "# a comment"])
def test_nothing_is_told_of_what_has_no_figures(before):
    assert told(f'{PILE}\npile "B4"\n  |{before} 14 in\n') is None


def test_what_a_plan_says_cannot_become_markup():
    own, spot = laid_out(PILE.replace('"B2"', '"|<b>x</b> *y* [z](http://a.b)"'))
    page = hover(own, spot, builtin(), None, TODAY)
    left = re.sub(r"\\.", "", page.text)
    assert "<" not in left and "[" not in left and "://" not in left
    assert left.count("*") == 4, "only the title's own"
