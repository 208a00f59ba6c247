"""The side view is to scale: what is measured in it is what the arrangement says."""

import itertools
import math

import pytest
from measured_drawings import Drawn, box_of, pile_with, plan_of, points_of

from stacklint.report.drawings import end_view, side_view
from stacklint.report.svg import as_text
from stacklint.report.tape import tape
from stacklint.units import GRAVITY, System

HALF = 0.5
"""Millimetres that a drawing may be off."""


def drawn(plan):
    made = side_view(plan.stack, plan.findings)
    assert made is not None
    return Drawn(made)


def near(values):
    return pytest.approx(list(values), abs=HALF)


def test_sticker_lines_stand_at_their_distances_from_the_left_end():
    plan = pile_with()
    laid = plan.stack.arrangement
    lines = [next(x for x, _ in points_of(each)) for each in drawn(plan).parts("sticker")]
    assert [x + laid.sticker_width * 500 for x in lines] == near(line.x * 1000 for line in laid.sticker_lines)


def test_every_sticker_that_is_to_be_cut_is_drawn():
    plan = pile_with()
    stickers = sum(each.get("d").count("M") for each in drawn(plan).parts("sticker"))
    assert stickers == plan.stack.facts.sticker_count


def test_bearers_stand_at_their_places_in_their_section():
    plan = pile_with(bearers="4 in x 6 in of white oak, at 6 in, 5 ft, 10 ft, 15 ft 6 in")
    boxes = drawn(plan).boxes("bearer")
    assert [box.middle for box in boxes] == near([152.4, 1524, 3048, 4724.4])
    assert [box.width for box in boxes] == near([101.6] * 4)
    assert [box.height for box in boxes] == near([152.4] * 4)


def test_the_lowest_boards_lie_as_high_as_the_clearance_says():
    lowest = min(drawn(pile_with(clearance="14 in")).boxes("board"), key=lambda box: box.low)
    assert lowest.low == pytest.approx(355.6, abs=HALF)


def test_bearers_lie_under_the_lowest_stickers_and_pads_reach_from_the_ground_to_them():
    made = drawn(pile_with())
    bearer, pad = made.boxes("bearer")[0], made.boxes("pad")[0]
    assert bearer.high == pytest.approx(355.6 - 19.05, abs=HALF)
    assert (pad.low, pad.high) == (pytest.approx(0, abs=HALF), pytest.approx(bearer.low, abs=HALF))
    assert pad.middle == pytest.approx(bearer.middle, abs=HALF)
    assert pad.width == pytest.approx(16 * 25.4, abs=HALF)


@pytest.mark.parametrize("sides", ["8 in x 8 in x 16 in", "8 in x 16 in x 8 in", "16 in x 8 in x 8 in"])
def test_a_block_lies_on_its_largest_face_in_the_drawings_as_in_the_check_of_the_ground(sides):
    # A block is named by its width, height and length, and stands 8 in high with its cores upright (common practice,
    # no source).
    plan = pile_with(bearers=f"4 in x 6 in of white oak, every 24 in, on {sides} blocks", clearance=None)
    pad, bearer = drawn(plan).boxes("pad")[0], drawn(plan).boxes("bearer")[0]
    end = Drawn(end_view(plan.stack, ())).boxes("pad")[0]
    assert (pad.width, pad.height) == (pytest.approx(16 * 25.4, abs=HALF), pytest.approx(8 * 25.4, abs=HALF))
    assert (end.width, end.height) == (pytest.approx(8 * 25.4, abs=HALF), pytest.approx(8 * 25.4, abs=HALF))
    assert bearer.low == pytest.approx(pad.high, abs=HALF)
    facts = plan.stack.facts
    assert facts.clearance * 1000 == pytest.approx((8 + 6 + 0.75) * 25.4, abs=HALF)
    for each in facts.pads:
        # Actual sides of a block are 3/8 in shorter than its nominal ones.
        assert each.pressure == pytest.approx(each.load * GRAVITY / (7.625 * 15.625 * 0.0254**2))


def test_courses_rise_by_a_board_and_a_sticker():
    plan = pile_with()
    made = drawn(plan)
    lows = sorted({round(box.low, 1) for box in made.boxes("board")})
    assert len(lows) == plan.stack.facts.courses_high
    assert [b - a for a, b in itertools.pairwise(lows)] == near([25.4 + 19.05] * (len(lows) - 1))
    top = max(box.high for box in made.boxes("board"))
    assert top - made.boxes("bearer")[0].high == pytest.approx(plan.stack.facts.height * 1000, abs=HALF)


def test_boards_lie_end_to_end_as_they_are_laid():
    plan = pile_with()
    made = drawn(plan)
    run = plan.stack.arrangement.courses[0]
    front = [box_of(each) for each in made.parts("board") if each.get("data-course") == "1"][
        -len(run.rows[0].row.pieces) :
    ]
    pieces = run.rows[0].row.pieces
    assert [box.left for box in front] == near(piece.start * 1000 for piece in pieces)
    assert [box.right for box in front] == near(piece.end * 1000 for piece in pieces)


def test_every_joint_of_a_course_is_drawn_where_the_boards_meet():
    plan = pile_with()
    made = drawn(plan)
    for run in plan.stack.arrangement.courses:
        laid = sorted({round(joint * 1000, 1) for rows in run.rows for joint in rows.row.joints})
        joints = [points_of(each) for each in made.parts("joint") if each.get("data-course") == str(run.first)]
        assert sorted(points[0][0] for points in joints) == near(laid)


def test_joints_of_rows_behind_are_told_by_dashes():
    plan = pile_with(course="1: 4 rows of a + a, 2 rows of b + c")
    made = drawn(plan)
    joints = [each for each in made.parts("joint") if each.get("data-course") == "1"]
    assert ["behind" in each.get("class") for each in joints] == [False, True]


def test_the_cover_stands_out_as_far_as_its_overhang_over_its_gap():
    plan = pile_with(cover="sheet metal, overhang 18 in ends, 12 in sides, gap 4 in, tied")
    made = drawn(plan)
    points = made.points("cover")[0]
    assert min(x for x, _ in points) == pytest.approx(-18 * 25.4, abs=HALF)
    assert max(x for x, _ in points) == pytest.approx((192 + 18) * 25.4, abs=HALF)
    top = max(box.high for box in made.boxes("board"))
    assert min(y for _, y in points) - top == pytest.approx(4 * 25.4, abs=HALF)


def test_a_slope_of_one_in_twelve_rises_one_in_twelve():
    points = drawn(pile_with()).points("cover")[0]
    (x0, y0), (x1, y1) = points[0], points[1]
    assert (y1 - y0) / (x1 - x0) == pytest.approx(1 / 12, rel=1e-3)


def test_a_cover_that_hangs_down_hangs_at_both_ends():
    assert len(drawn(pile_with(cover="tarp, hanging down, untied")).parts("hanging")) == 2
    assert not drawn(pile_with()).parts("hanging")


def test_an_uncovered_pile_has_no_cover():
    made = drawn(pile_with(cover="none"))
    assert not made.parts("cover")
    assert not any("overhang" in (each.get("data-kind") or "") for each in made.group.iter())


def test_boards_piled_solid_lie_on_each_other_without_stickers():
    made = drawn(pile_with(stickers="none"))
    assert not made.parts("sticker")
    lows = sorted({round(box.low, 1) for box in made.boxes("board")})
    assert [b - a for a, b in itertools.pairwise(lows)] == near([25.4] * (len(lows) - 1))


def test_on_a_floor_there_are_no_bearers_and_the_lowest_stickers_lie_on_it():
    made = drawn(pile_with(place="garage", bearers="none", clearance=None, ground=None))
    assert not made.parts("bearer")
    assert not made.parts("pad")
    assert min(box.low for box in made.boxes("board")) == pytest.approx(19.05, abs=HALF)
    assert "floor" in made.words


def test_pallets_lift_a_stack_off_the_ground():
    plan = pile_with(bearers="pallets", clearance=None)
    pallet = drawn(plan).boxes("pallet")[0]
    assert pallet.width == pytest.approx(16 * 304.8, abs=HALF)
    sticker = 0.75 * 25.4
    assert pallet.high == pytest.approx(plan.stack.facts.clearance * 1000 - sticker, abs=HALF)


def test_weights_lie_on_the_top_course_and_straps_go_round_it():
    made = drawn(pile_with(top_load="40 psf"))
    top = max(box.high for box in made.boxes("board"))
    assert {round(box.low - top, 1) for box in made.boxes("weight")} == {0.0}
    assert any("40 psf" in words for words in made.words)
    assert drawn(pile_with(top_load="straps")).parts("strap")


def test_shade_cloth_hangs_at_both_ends():
    assert len(drawn(pile_with(sides="shade cloth")).parts("side")) == 2
    assert len(drawn(pile_with(sides="plastic, on one side")).parts("side")) == 0


# Dimensions


def test_each_sticker_line_is_told_by_its_distance_from_the_left_end():
    plan = pile_with(stickers="3/4 in x 1 1/2 in, every 32 in, dry")
    made = drawn(plan)
    told = [tape(line.x, System.INCH) for line in plan.stack.arrangement.sticker_lines]
    assert made.words_of("stickers at") == told
    assert [round(points[0][0], 1) for points in made.points("tick")][: len(told)] == near(
        line.x * 1000 for line in plan.stack.arrangement.sticker_lines
    )


def test_bearers_under_every_sticker_line_share_its_string():
    made = drawn(pile_with())
    assert len(made.words_of("stickers, bearers")) == 9
    assert not made.words_of("bearers at")
    apart = drawn(pile_with(bearers="4 in x 6 in of white oak, every 48 in, on 8 in x 16 in pads"))
    assert apart.words_of("bearers at")


def test_a_metric_plan_is_told_in_millimetres():
    plan = plan_of(
        'pile "A"\n  boards a: 40 of European oak 27 mm x 150 mm x 3 m, green\n  stack 3 m x 1.2 m\n'
        "  stickers 20 mm x 40 mm, at 20 mm, 1 m, 2 m, 2980 mm\n  bearers 100 mm x 100 mm, every 500 mm\n"
        "  clearance 300 mm\n"
    )
    made = drawn(plan)
    assert made.words_of("stickers at") == ["20 mm", "1,000 mm", "2,000 mm", "2,980 mm"]
    assert "300 mm clear" in made.words
    assert not [words for words in made.words if words.endswith((" in", " ft"))]


def test_sixty_sticker_lines_are_told_as_many_as_have_room():
    plan = pile_with(
        stickers="3/4 in x 1 1/2 in, 60 a course", bearers="none", clearance=None, place="garage", ground=None
    )
    made = drawn(plan)
    told = made.words_of("stickers at")
    assert len(made.parts("sticker")) == 60
    assert 10 < len(told) < 60
    assert told[0] == tape(plan.stack.arrangement.sticker_lines[0].x, System.INCH)
    assert told[-1] == tape(plan.stack.arrangement.sticker_lines[-1].x, System.INCH)


def test_the_heights_say_clearance_and_stack():
    plan = pile_with()
    made = drawn(plan)
    assert "14 in clear" in made.words
    assert f"{tape(plan.stack.facts.height, System.INCH)} high" in made.words


# Sag


def test_a_sag_that_matters_is_drawn_so_many_times_too_deep_as_is_written():
    plan = pile_with(
        stickers="3/4 in x 1 1/2 in, every 4 ft, dry", boards="a: 96 of white ash 3/4 in x 6 in x 16 ft, green"
    )
    assert plan.stack.facts.sag_max > 0.001
    made = drawn(plan)
    words = next(each for each in made.words if each.startswith("Sag of course"))
    factor = int(words.split("drawn ")[1].split(" times")[0])
    deepest = max(max(y for _, y in points) - min(y for _, y in points) for points in made.points("sag"))
    assert deepest == pytest.approx(plan.stack.facts.sag_max * 1000 * factor, abs=HALF)
    assert factor > 1


def test_a_sag_that_nobody_would_find_is_not_drawn():
    plan = pile_with(stickers="3/4 in x 1 1/2 in, every 12 in, dry", bearers="4 in x 6 in of white oak, every 12 in")
    assert plan.stack.facts.sag_max < 0.001
    assert not drawn(plan).parts("sag")


# Findings


def test_a_number_stands_at_the_board_end_that_hangs_past_its_sticker():
    plan = pile_with(stickers="3/4 in x 1 1/2 in, every 24 in, 24 in from ends, dry")
    number, finding = next(each for each in plan.findings if each.finding.rule == "end-sticker-missing")
    made = drawn(plan)
    mark = finding.marks[0]
    x, y = made.numbers()[number][0]
    stretch = next(box for box in made.boxes("stretch") if abs(box.left - mark.start * 1000) < HALF)
    assert stretch.right == pytest.approx(mark.end * 1000, abs=HALF)
    assert stretch.left - 300 < x < stretch.right + 300
    assert stretch.low - 300 < y < stretch.high + 300


def test_every_finding_that_marks_a_part_has_its_number_in_the_drawing():
    plan = pile_with(
        stickers="3/4 in x 1 1/2 in, every 48 in, wet",
        bearers="4 in x 4 in of white oak, every 64 in",
        clearance="5 in",
        ground="clay, uneven 1 in",
        cover="sheet metal, overhang 2 in, gap 4 in, untied",
        sides="plastic",
    )
    marked = {number for number, finding in plan.findings if finding.marks}
    assert len(marked) > 6
    assert set(drawn(plan).numbers()) == marked


def test_numbers_do_not_lie_over_one_another():
    plan = pile_with(
        stickers="3/4 in x 1 1/2 in, every 48 in, wet", bearers="4 in x 4 in, every 64 in", ground="clay, uneven 1 in"
    )
    made = drawn(plan)
    places = [place for places in made.numbers().values() for place in places]
    radius = float(next(made.group.iter("circle")).get("r"))
    for index, (x, y) in enumerate(places):
        for other, (u, v) in enumerate(places):
            assert index == other or ((x - u) ** 2 + (y - v) ** 2) ** 0.5 >= 2 * radius


def test_places_of_one_finding_close_together_bear_its_number_once():
    plan = pile_with(
        boards="a: 25 of white ash 54 mm x 150 to 300 mm x 2.2 to 3.6 m, 60%",
        stack="3.6 m x 1.2 m",
        stickers="25 mm x 35 mm, every 600 mm, dry",
        bearers="100 mm x 100 mm, at 0.2 m, 1.2 m, 2.2 m",
    )
    made = drawn(plan)
    size = float(made.svg.get("data-letters"))
    marks = sum(len(finding.marks) for _, finding in plan.findings)
    assert marks > 20
    for places in made.numbers().values():
        # No two of one finding where one would do, but for the way to a free place.
        assert all(math.dist(a, b) > 4 * size for a, b in itertools.combinations(places, 2))
    assert sum(len(places) for places in made.numbers().values()) < marks * 0.7
    places = [text for each in made.parts("finding") for text in each.itertext() if " places here)" in text]
    assert places


def test_no_number_lies_over_the_cover_s_words_and_one_set_aside_has_a_line_to_its_place():
    # The finding of the cover is wanted where its words stand.
    plan = pile_with(cover="sheet metal, overhang 1 in, gap 1 in, untied", top_load="600 lb")
    made = drawn(plan)
    rings = [(x, y) for places in made.numbers().values() for x, y in places]
    radius = float(next(made.group.iter("circle")).get("r"))
    size = float(made.svg.get("data-letters"))
    for text in made.group.iter("text"):
        if text.get("class") == "words" and text.get("text-anchor") == "middle" and not text.get("transform"):
            x, y, wide = float(text.get("x")), -float(text.get("y")), len(text.text) * size * 0.4
            for u, v in rings:
                assert not (
                    abs(u - x) < wide / 2 + radius * 0.9 and y - radius * 0.9 < v < y + size * 0.7 + radius * 0.9
                )
    set_aside = [
        each
        for each in made.parts("finding")
        if math.dist(
            (float(each.get("data-x")), float(each.get("data-y"))),
            next((float(c.get("cx")), -float(c.get("cy"))) for c in each if c.tag == "circle"),
        )
        > radius
    ]
    assert len(made.parts("leader")) == len(set_aside) > 0


def test_levels_are_told_by_more_than_colour():
    plan = pile_with(stickers="3/4 in x 1 1/2 in, every 48 in, wet")
    made = drawn(plan)
    for ring in made.parts("finding"):
        words = next(ring.iter("title")).text
        level = plan.findings[int(ring.get("data-number")) - 1].finding.level.value
        assert level in words
        assert level in ring.get("class").split()


# Text


def test_a_name_that_looks_like_markup_comes_out_as_text():
    plan = plan_of(
        "pile \"<script>alert(1)</script>\" '<img src=x onerror=alert(1)>'\n".replace("'", '"')
        + "  boards a: 20 of white ash 4/4 x 6 in x 8 ft, green\n  stack 8 ft x 4 ft\n"
    )
    text = as_text(side_view(plan.stack, plan.findings))
    assert "<script" not in text
    assert "<img" not in text
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in text


def test_a_stack_that_could_not_be_laid_out_is_not_drawn():
    plan = pile_with()
    assert side_view(plan.stack._replace(arrangement=None, facts=None), ()) is None
