"""Every drawing, of sound plans and of extreme ones: it holds together, and nothing stands out of its frame."""

import datetime
import itertools
import math
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measured_drawings import pile_with, plan_of

from stacklint.checking import check
from stacklint.files import PlanFile, lending, plans
from stacklint.report.drawings import course_plan, drying_curve, end_view, kiln_section, side_view
from stacklint.report.drawings.dimensions import thinned
from stacklint.report.numbered import numbered
from stacklint.report.svg import as_text

ROOT = Path(__file__).parents[3]
TODAY = datetime.date(2026, 6, 10)
EXAMPLES = sorted((ROOT / "examples").rglob("*.stackplan"))
FAILING = sorted((ROOT / "tests" / "rules").glob("*/fails.stackplan"))
LONG = (
    'pile "Long"\n  place open yard\n  boards a: 240 of white ash 32 mm x 200 mm x 5 m, green\n  stack 30 m x 1.6 m\n'
    "  stickers 25 mm x 40 mm, every 500 mm, dry\n  bearers 100 mm x 150 mm, every 500 mm\n  clearance 350 mm\n"
    "  cover roof panels, overhang 0.4 m, slope 1 in 12\n"
)
EXTREMES = {
    "one course": lambda: pile_with(boards="a: 16 of white ash 4/4 x 6 in x 8 ft, green"),
    "forty courses": lambda: pile_with(boards="a: 640 of white ash 4/4 x 6 in x 8 ft, green"),
    "thirty metres": lambda: plan_of(LONG),
    "sixty sticker lines": lambda: pile_with(stickers="3/4 in x 1 1/2 in, 60 a course"),
    "one sticker line": lambda: pile_with(stickers="3/4 in x 1 1/2 in, at 8 ft"),
    "piled solid on the floor": lambda: pile_with(stickers="none", bearers="none", clearance=None, place="garage"),
    "one board": lambda: plan_of('pile "One"\n  boards a: 1 of white ash 4/4 x 6 in x 8 ft, green\n'),
    "short boards in a long stack": lambda: pile_with(boards="a: 3 of white ash 4/4 x 6 in x 3 ft, green"),
    "bearers deeper than the clearance": lambda: pile_with(clearance="2 in"),
    "thick and thin": lambda: pile_with(course="1: 2 rows of a + a, 1 row of b + c", top_load="2000 lb"),
}


def drawings(stack, findings):
    made = [side_view(stack, findings), end_view(stack, findings), kiln_section(stack, findings)]
    made.append(drying_curve(stack, TODAY))
    if stack.arrangement is not None:
        made += [course_plan(stack, run.first, findings) for run in stack.arrangement.courses]
    return [each for each in made if each is not None]


def of_file(path):
    for plan in plans([str(path)]):
        assert isinstance(plan, PlanFile)
        checked = check(plan.text, plan.path, use=lending(plan.root), today=TODAY)
        for stack in checked.stacks:
            mine = [finding for finding in checked.findings if finding.stack == stack.stack.name.text]
            yield from drawings(stack, numbered(mine))


def holds_together(drawing):
    text = as_text(drawing)
    assert "nan" not in text
    assert "inf" not in re.sub(r"[a-z]*inf[a-z]+|[a-z]+inf", "", text)
    left, top, width, height = map(float, drawing.get("viewBox").split())
    assert (left, top) == (0, 0)
    assert width > 0
    assert height > 0
    assert drawing.get("role") == "img"
    title, desc = drawing.find("title"), drawing.find("desc")
    assert drawing.get("aria-labelledby").split() == [title.get("id"), desc.get("id")]
    assert title.text
    assert desc.text
    shift = [float(each) for each in re.findall(r"-?[\d.]+", _shift(drawing))] or [0.0, 0.0]
    for x, y in _places(drawing):
        assert -0.1 <= x + shift[0] <= width + 0.1
        assert -0.1 <= y + shift[1] <= height + 0.1


def _shift(drawing):
    return next((each.get("transform") for each in drawing if each.get("class") == "to-scale"), "")


def _places(drawing):
    """Corners of every rectangle, ring and line, but of the patterns."""
    group = next((each for each in drawing if each.get("class") == "to-scale"), drawing)
    for each in group.iter():
        if each.tag == "rect":
            x, y = float(each.get("x")), float(each.get("y"))
            yield x, y
            yield x + float(each.get("width")), y + float(each.get("height"))
        elif each.tag == "circle":
            x, y, radius = float(each.get("cx")), float(each.get("cy")), float(each.get("r"))
            yield x - radius, y - radius
            yield x + radius, y + radius
        elif each.tag == "path" and re.fullmatch(r"M[-\d. L]+Z?", each.get("d")):
            values = [float(value) for value in re.findall(r"-?[\d.]+", each.get("d"))]
            yield from zip(values[::2], values[1::2], strict=True)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_drawn(path):
    made = list(of_file(path))
    assert made or path.stem in ("yard", "sites")
    for drawing in made:
        holds_together(drawing)


@pytest.mark.parametrize("path", FAILING, ids=lambda path: path.parent.name)
def test_every_faulty_plan_is_drawn_as_far_as_it_can_be(path):
    for drawing in of_file(path):
        holds_together(drawing)


@pytest.mark.parametrize("name", EXTREMES)
def test_extremes_are_drawn_whole(name):
    plan = EXTREMES[name]()
    made = drawings(plan.stack, plan.findings)
    assert len(made) >= 3
    for drawing in made:
        holds_together(drawing)


def test_ids_of_a_page_are_all_different():
    plan = pile_with(course="1: 4 rows of a + a, 2 rows of b + c")
    ids = [
        each.get("id") for drawing in drawings(plan.stack, plan.findings) for each in drawing.iter() if each.get("id")
    ]
    assert len(ids) == len(set(ids))


def test_letters_are_as_large_on_a_long_stack_as_on_a_short_one():
    shares = []
    for name in ("thirty metres", "one course"):
        plan = EXTREMES[name]()
        drawing = side_view(plan.stack, plan.findings)
        shares.append(float(drawing.get("data-letters")) / float(drawing.get("viewBox").split()[2]))
    # At 700 px a fiftieth to a seventieth of the width is 10 to 15 px.
    assert all(1 / 70 < share < 1 / 40 for share in shares)


@given(st.lists(st.floats(0, 30_000), min_size=1, max_size=80, unique=True).map(sorted), st.floats(1, 5_000))
def test_figures_that_are_told_have_room(places, room):
    told = thinned(places, room)
    assert told[0] == 0
    assert told[-1] == len(places) - 1
    kept = [places[index] for index in told]
    if len(kept) > 2:
        assert all(b - a >= room - 1e-6 for a, b in itertools.pairwise(kept))
    assert all(math.isfinite(place) for place in kept)
