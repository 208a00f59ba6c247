"""A charge in its kiln is to scale, with its baffles and the way of the air."""

import pytest
from measured_drawings import Drawn, box_of, pile_with, plan_of, points_of

from stacklint.findings import Finding, Level, Mark, Part
from stacklint.report.drawings import kiln_section, side_view
from stacklint.report.numbered import Numbered
from stacklint.where import NOWHERE

HALF = 0.5
KILN = """
kiln "Lower box"
  type dehumidification
  inside 18 ft x 7 ft x 6 ft
  plenum 18 in
  fans 3 of 1800 cfm

charge "C1" in kiln "Lower box"
  boards a: 128 of white ash 4/4 x 6 in x 8 ft, 16%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
"""


def drawn(text):
    plan = plan_of(text)
    made = kiln_section(plan.stack, plan.findings)
    assert made is not None
    return Drawn(made)


def view(made, class_, name):
    return next(box_of(each) for each in made.parts(class_) if each.get("data-view") == name)


def baffles(made):
    return {(each.get("data-kind"), "missing" in each.get("class")) for each in made.parts("baffle")}


def test_the_inside_of_the_kiln_is_to_scale_from_above_and_in_section():
    made = drawn(KILN)
    plan, section = view(made, "wall", "plan"), view(made, "wall", "section")
    assert (plan.width, plan.height) == (pytest.approx(18 * 304.8, abs=HALF), pytest.approx(7 * 304.8, abs=HALF))
    assert (section.width, section.height) == (pytest.approx(7 * 304.8, abs=HALF), pytest.approx(6 * 304.8, abs=HALF))
    assert plan.low > section.high


def test_the_charge_stands_beside_the_plenum():
    made = drawn(KILN)
    plenum = view(made, "plenum", "section")
    assert plenum.width == pytest.approx(18 * 25.4, abs=HALF)
    assert min(box.left for box in made.boxes("board")) == pytest.approx(plenum.right, abs=HALF)
    charge = view(made, "charge", "plan")
    assert (charge.width, charge.height) == (pytest.approx(16 * 304.8, abs=HALF), pytest.approx(1219.2, abs=HALF))
    assert "plenum 18 in" in made.words


def test_the_courses_of_the_charge_are_to_scale_in_section():
    made = drawn(KILN)
    assert len({round(box.low, 1) for box in made.boxes("board")}) == 8
    assert max(box.high for box in made.boxes("board")) == pytest.approx(8 * 44.45, abs=HALF)


def test_baffles_that_hang_are_drawn_through_and_those_that_lack_are_dashed():
    assert baffles(drawn(KILN + "  baffles top, ends\n")) == {("top", False), ("ends", False)}
    assert baffles(drawn(KILN + "  baffles top\n")) == {("top", False), ("ends", True)}
    assert baffles(drawn(KILN)) == {("top", True), ("ends", True)}


def test_air_goes_round_where_there_is_no_baffle():
    assert drawn(KILN).parts("round")
    assert not drawn(KILN + "  baffles top, ends, floor\n").parts("round")


def test_a_floor_baffle_is_asked_for_where_the_charge_stands_on_bearers():
    raised = KILN + "  bearers 4 in x 4 in, every 24 in\n  clearance 6 in\n"
    assert ("floor", True) in baffles(drawn(raised))
    assert ("floor", False) in baffles(drawn(raised + "  baffles floor\n"))


def test_a_baffle_fills_the_gap_over_the_charge():
    made = drawn(KILN + "  baffles top, ends\n")
    top = next(each for each in made.parts("baffle") if each.get("data-kind") == "top")
    (_, low), (_, high) = points_of(top)
    assert low == pytest.approx(max(box.high for box in made.boxes("board")), abs=HALF)
    assert high == pytest.approx(6 * 304.8, abs=HALF)


def test_the_air_goes_down_the_plenum_through_the_courses_and_back():
    ways = {each.get("data-way") for each in drawn(KILN).parts("air")}
    assert {"down the plenum", "through", "up the far side", "back to the fans"} <= ways


def test_fans_are_drawn_where_the_kiln_says_some():
    assert drawn(KILN).parts("fan")
    assert not drawn(KILN.replace("  fans 3 of 1800 cfm\n", "")).parts("fan")


def test_a_charge_that_is_too_wide_stands_out_of_its_kiln():
    narrow = KILN.replace("inside 18 ft x 7 ft", "inside 18 ft x 5 ft")
    made = drawn(narrow)
    assert made.parts("too-big")
    assert not drawn(KILN).parts("too-big")
    number = next(n for n, f in plan_of(narrow).findings if f.rule == "stack-too-big-for-kiln")
    assert number in made.numbers()


def test_a_pile_has_no_kiln_and_a_kiln_without_its_size_no_section():
    pile = pile_with()
    assert kiln_section(pile.stack, ()) is None
    plan = plan_of(KILN.replace("  inside 18 ft x 7 ft x 6 ft\n", ""))
    assert kiln_section(plan.stack, ()) is None


def test_a_finding_of_the_kiln_is_numbered_at_the_charge_where_no_section_is_drawn():
    found = (
        Numbered(1, Finding("baffle-missing", Level.WARNING, "No baffle.", "", NOWHERE, marks=(Mark(Part.COURSE),))),
    )
    plan = plan_of(KILN)
    assert 1 not in Drawn(side_view(plan.stack, found)).numbers()
    assert 1 in Drawn(kiln_section(plan.stack, found)).numbers()
    plan = plan_of(KILN.replace("  inside 18 ft x 7 ft x 6 ft\n", ""))
    assert 1 in Drawn(side_view(plan.stack, found)).numbers()
