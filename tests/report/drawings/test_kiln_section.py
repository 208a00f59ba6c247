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


TIGHT = KILN.replace("stack 16 ft x 4 ft", "stack 16 ft x 66 in")


def ways(made):
    return {each.get("data-way"): points_of(each) for each in made.parts("air")}


def described(text):
    plan = plan_of(text)
    return kiln_section(plan.stack, plan.findings).findtext("desc")


def test_what_is_left_over_beside_the_charge_is_told_apart_from_the_plenum():
    made = drawn(KILN)
    # 7 ft inside less a plenum of 18 in and a charge of 48 in.
    assert {"plenum 18 in", "charge 48 in", "beside it 18 in", "inside 7 ft"} <= set(made.words)
    beside = next(each for each in made.parts("dimension") if each.get("data-kind") == "beside")
    (left, _), (right, _) = points_of(beside)
    assert (left, right) == (pytest.approx(66 * 25.4, abs=HALF), pytest.approx(84 * 25.4, abs=HALF))
    assert "Beside the charge 18 in are left on the far side." in described(KILN)


def test_no_air_goes_through_a_wall_that_the_charge_touches_and_that_is_said():
    made = drawn(TIGHT)
    told = ways(made)
    assert not {"up the far side", "back to the fans"} & set(told)
    wall = view(made, "wall", "section")
    for way, points in told.items():
        assert max(x for x, _ in points) < wall.right or way in ("through", "round the ends")
    above = view(made, "wall", "plan")
    for each in made.parts("air"):
        points = points_of(each)
        if points[0][0] == points[-1][0] and points[0][1] > wall.high * 1.2:
            assert all(above.low <= y < above.high for _, y in points)
    said = "The charge touches the far wall: the air has no way out"
    assert said in made.words
    assert said in described(TIGHT)
    assert not any("no way out" in word for word in drawn(KILN).words)


@pytest.mark.parametrize("width", ["4 ft", "5 ft", "66 in", "7 ft"])
def test_arrows_stay_between_the_walls_of_the_kiln_from_above_and_in_section(width):
    made = drawn(KILN.replace("stack 16 ft x 4 ft", f"stack 16 ft x {width}"))
    above, section = view(made, "wall", "plan"), view(made, "wall", "section")
    for each in made.parts("air"):
        for x, y in points_of(each):
            if y >= above.low - HALF:
                assert above.low - HALF <= y <= above.high + HALF
            else:
                assert section.left - HALF <= x <= section.right + HALF


def test_weights_on_a_charge_lie_on_its_top_course_in_section_and_are_named():
    made = drawn(KILN + "  top load 40 psf\n")
    (weight,) = made.boxes("weight")
    top = max(box.high for box in made.boxes("board"))
    highest = [box for box in made.boxes("board") if box.high == pytest.approx(top, abs=HALF)]
    assert weight.low == pytest.approx(top, abs=HALF)
    assert min(box.left for box in highest) <= weight.left
    assert weight.right <= max(box.right for box in highest)
    assert "On top: weights, 40 psf" in made.words
    assert "On top: weights, 40 psf." in described(KILN + "  top load 40 psf\n")
    assert drawn(KILN + "  top load straps\n").parts("strap")
    assert not drawn(KILN).parts("weight")
