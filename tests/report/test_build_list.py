"""The build list and the cut list: what to do in order, and what to bring."""

from __future__ import annotations

import pytest
import sheet_plans as plans

from stacklint.checked import CheckedStack
from stacklint.report.board_tally import board_tally
from stacklint.report.build_list import build_list
from stacklint.report.cut_list import cut_list
from stacklint.report.cuts import Cut
from stacklint.report.steps import Step
from stacklint.report.tape import slope_words, tape
from stacklint.units import ONE_FOOT, ONE_INCH, System

GROUND_UP = """\
pile "P"
  place open yard
  boards a: 24 of white ash 4/4 x 6 in x 8 ft, green
  boards b: 4 of white ash 4/4 x 6 in x 12 ft, green
  boards c: 4 of white ash 4/4 x 6 in x 4 ft, green
  stack 16 ft x 2 ft
  course 1 to 2: 4 rows of a + a
  course 3: 4 rows of a + a
  course 4: 4 rows of b + c
  stickers 3/4 in x 1 1/2 in, every 24 in
"""


UNDER = """\
pile "P"
  place open yard
  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in
  bearers 4 in x 6 in of white oak, every 24 in, {blocks}
"""
ROOF = """\
pile "P"
  place open yard
  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in
  bearers 4 in x 6 in of white oak, every 24 in
  clearance 14 in
"""


def steps(stack: CheckedStack) -> dict[str, Step]:
    return {step.title: step for step in build_list(stack)}


def words(stack: CheckedStack, title: str) -> str:
    return " ".join(steps(stack)[title].lines)


def cuts(stack: CheckedStack) -> dict[str, Cut]:
    return {cut.part: cut for cut in cut_list(stack)}


def test_a_pile_is_built_from_the_ground_up_and_covered_last() -> None:
    (stack,) = plans.example("sound-pile").stacks
    order = ["Before the first board", "Ground", "Pads", "Bearers", "First stickers", "Courses", "Cover", "Sides"]
    assert [step.title for step in build_list(stack)] == order


def test_a_charge_is_loaded_baffled_and_run_after_its_courses_are_laid() -> None:
    (stack,) = plans.example("sound-charge").stacks
    order = [
        "Before loading",
        "Floor",
        "First stickers",
        "Courses",
        "Weights",
        "Loading",
        "Baffles",
        "Running the kiln",
    ]
    assert [step.title for step in build_list(stack)] == order


def test_courses_that_are_laid_alike_are_told_together_whatever_line_they_come_from() -> None:
    layings = steps(plans.stack(GROUND_UP))["Courses"].layings
    assert [(each.first, each.last, each.boards) for each in layings] == [(1, 3, 8), (4, 4, 8)]
    (alike,), (mixed,) = (each.rows for each in layings)
    assert (alike.count, alike.boards) == (4, "8 ft a + 8 ft a")
    assert alike.joints == pytest.approx((8 * ONE_FOOT,))
    assert (mixed.count, mixed.boards) == (4, "12 ft b + 4 ft c")
    assert mixed.joints == pytest.approx((12 * ONE_FOOT,))


def test_boards_that_leave_a_gap_are_told_with_it_and_do_not_meet() -> None:
    text = 'pile "P"\n  boards a: 6 of white ash 4/4 x 6 in x 6 ft, green\n  stack 16 ft x 2 ft\n'
    (laying,) = steps(plans.stack(text))["Courses"].layings
    (gap,) = laying.rows
    assert (gap.count, gap.boards, gap.joints) == (3, "6 ft a, 48 in free, 6 ft a", ())


def test_bearers_that_stand_on_edge_are_to_be_laid_so() -> None:
    (stack,) = plans.example("sound-pile").stacks
    said = words(stack, "Bearers")
    assert "Lay 9 bearers of 4 in x 6 in of white oak across the stack." in said
    assert "They stand on edge, 6 in deep." in said
    assert "in one plane within 1/4 in" in said
    assert "Tops 13 1/4 in, lowest boards 14 in above the ground." in said


def test_a_metric_plan_is_built_in_millimetres() -> None:
    stack = plans.stack(plans.METRIC)
    assert "in one plane within 6 mm" in words(stack, "Bearers")
    assert "150 mm deep" in words(stack, "Bearers")
    assert cuts(stack)["stickers"].section == "25 mm x 40 mm"
    assert cuts(stack)["stickers"].length == "1,200 mm"


def test_uneven_ground_is_to_be_shimmed_before_anything_is_laid() -> None:
    assert "It is uneven by 20 mm by the plan: shim the supports" in words(plans.stack(plans.METRIC), "Ground")


def test_sticker_lines_without_a_bearer_are_named() -> None:
    (stack,) = plans.example("first-plan").stacks
    assert "No bearer stands under those at 32 1/2 in," in words(stack, "First stickers")
    (sound,) = plans.example("sound-pile").stacks
    assert "Each lies on a bearer." in words(sound, "First stickers")


def test_boards_piled_solid_get_no_stickers() -> None:
    solid = plans.plan(plans.SEVERAL).stacks[0]
    assert "First stickers" not in steps(solid)
    assert "without stickers" in words(solid, "Courses")
    assert "stickers" not in cuts(solid)
    assert "Lay pallets of one height" in words(solid, "Ground")
    assert "Leave a flue 6 in wide up the middle, from board to board." in words(solid, "Courses")
    assert "Boards lie 1 in apart." in words(solid, "Courses")


def test_boards_that_are_wider_than_the_stack_are_laid_aside() -> None:
    stack = plans.stack(GROUND_UP + "  boards d: 2 of white ash 4/4 x 30 in x 4 ft, green\n")
    assert "In no course: 2 of 4 ft (d). Lay them aside." in words(stack, "Courses")
    tally = board_tally(stack)
    assert tally is not None
    (aside,) = tally.left_over
    assert (aside.pieces, aside.labels, aside.wood, aside.width) == (2, "d", "white ash", "30 in")
    assert tally.pieces == 32


def test_a_top_load_is_told_as_the_weight_to_lay_on() -> None:
    """40 psf over 16 ft x 4 ft is 2,560 lb."""
    (stack,) = plans.example("sound-charge").stacks
    assert "Lay 2,560 lb on the top course" in words(stack, "Weights")
    assert cuts(stack)["weights"].section == "2,560 lb"


def test_straps_are_drawn_tight_again() -> None:
    assert "tight again at each reading" in words(plans.stack(plans.TALL), "Straps")


def test_a_cover_is_as_long_as_the_stack_and_its_overhangs() -> None:
    """16 ft and twice 18 in are 19 ft, which are 19 ft 0 13/16 in along a slope of 1 in 12, by Pythagoras; 4 ft and
    twice 18 in are 7 ft; 19.07 ft x 7 ft are 133 ft2."""
    (stack,) = plans.example("sound-pile").stacks
    cover = cuts(stack)["cover of sheet metal"]
    assert cover.length == "19 ft 0 13/16 in"
    assert cover.remark.startswith("7 ft wide, 133 ft2; 1 in 12 counted in")
    assert "standing out 18 in past each end and 18 in past each long side" in words(stack, "Cover")


def test_a_sloping_cover_rises_to_the_right_end() -> None:
    """1 in 12 over 16 ft are 16 in: 4 in at the left end, 20 in at the right."""
    stack = plans.stack(ROOF + "  cover sheet metal, overhang 12 in, gap 4 in, slope 2 in 24, tied\n")
    said = words(stack, "Cover")
    assert "It slopes 1 in 12 along the boards and rises to the right end" in said
    assert "it lies 4 in over the top course at the left end of the stack, 20 in over it at the right." in said
    strips = cuts(stack)["strips under the cover"]
    # The first line stands 3/4 in from the left end, 1/16 in higher; the last as far from the right one.
    assert (strips.number, strips.length, strips.section) == (9, "6 ft", "4 1/16 in to 19 15/16 in high")


def test_a_sloping_cover_without_a_gap_lies_on_the_top_course_at_its_low_end() -> None:
    said = words(plans.stack(ROOF + "  cover sheet metal, slope 1 in 12\n"), "Cover")
    assert "it lies on the top course at the left end of the stack, 16 in over it at the right." in said


def test_a_level_cover_lies_on_strips_of_one_height_and_has_no_slope_told() -> None:
    stack = plans.stack(ROOF + "  cover sheet metal, overhang 12 in, gap 4 in\n")
    assert "Hold it 4 in off the top course, on strips over the sticker lines." in words(stack, "Cover")
    assert "slope" not in words(stack, "Cover")
    assert cuts(stack)["strips under the cover"].section == "4 in high"


def test_a_tarp_that_hangs_down_is_cut_with_its_drop_on_each_side_and_end() -> None:
    """Four courses of 1 in with three tiers of stickers of 3/4 in between them are 6 1/4 in: 16 ft, twice 1 ft and
    twice 6 1/4 in are 19 ft 1/2 in; 4 ft and as much are 7 ft 1/2 in."""
    stack = plans.stack(ROOF + "  cover tarp, overhang 1 ft, hanging down, tied\n")
    tarp = cuts(stack)["tarp"]
    assert stack.facts is not None and stack.facts.courses_high == 4
    assert tarp.length == "19 ft 0 1/2 in"
    assert tarp.remark.startswith("7 ft 0 1/2 in wide")


def test_sides_on_the_ends_are_two_pieces_of_the_width() -> None:
    stack = plans.stack(ROOF + "  sides boards, on the ends\n")
    assert (cuts(stack)["boards"].number, cuts(stack)["boards"].length) == (2, "48 in")


def test_a_course_that_is_not_full_lies_in_the_middle_with_as_much_free_on_each_side() -> None:
    """Nine rows of 6 in on 4 ft: eight, and one with 21 in on each side."""
    text = 'pile "P"\n  boards a: 9 of white ash 4/4 x 6 in x 8 ft, green\n  stack 8 ft x 4 ft\n'
    full, short = steps(plans.stack(text))["Courses"].layings
    assert (full.across, full.fills) == ("the whole width", True)
    assert (short.across, short.fills) == ("centred, 21 in free at each side", False)


def test_joints_on_no_sticker_are_named() -> None:
    off = plans.stack(GROUND_UP.replace("every 24 in", "at 1 in, 5 ft, 11 ft, 191 in"))
    said = words(off, "Courses")
    assert "Joints at 8 ft, 12 ft lie on no sticker." in said
    assert "rest on its sticker" not in said
    assert "Boards that meet in a joint both rest on its sticker." in words(plans.stack(GROUND_UP), "Courses")
    text = 'pile "P"\n  boards a: 9 of white ash 4/4 x 6 in x 8 ft, green\n  stack 8 ft x 4 ft\n'
    assert "joint" not in words(plans.stack(text), "Courses")


def test_on_a_floor_all_is_told_of_the_floor() -> None:
    garage = ROOF.replace("open yard", "garage").replace("  clearance 14 in\n", "")
    stack = plans.stack(garage)
    assert "above the floor" in words(stack, "Bearers")
    assert "dry to its shape" not in words(stack, "Floor")
    flat = plans.stack(garage.replace("bearers 4 in x 6 in of white oak, every 24 in", "bearers none"))
    assert "the lowest boards dry to its shape" in words(flat, "Floor")


def test_what_the_cut_list_names_is_brought_only_where_there_is_one() -> None:
    solid = plans.stack(
        'pile "P"\n  place garage\n  boards a: 9 of white ash 4/4 x 6 in x 8 ft, kiln dried\n  stack 8 ft x 4 ft\n'
        "  stickers none\n  bearers none\n"
    )
    assert cut_list(solid) == ()
    assert "Before the first board" not in steps(solid)


def test_damp_ground_is_told_also_where_nothing_else_is_said_of_it() -> None:
    assert "The ground: damp." in words(plans.stack(ROOF + "  ground damp\n"), "Ground")


def test_bearers_whose_wood_is_not_said_are_told_so_in_brackets() -> None:
    stack = plans.stack(ROOF.replace(" of white oak", ""))
    assert "Lay 9 bearers of 4 in x 6 in (wood not said) across the stack." in words(stack, "Bearers")


def test_the_fan_and_the_dehumidifier_of_a_pile_are_set_up_and_brought() -> None:
    room = ROOF.replace("open yard", "garage") + "  fan 2 of 1500 cfm, removes 30 pt/day\n"
    stack = plans.stack(room)
    assert "Set 2 fans (1,500 cfm each) along a long side, so that air crosses the boards" in words(stack, "Fan")
    assert "takes out 30 pt/day" in words(stack, "Fan")
    assert cuts(stack)["fans"].number == 2
    assert "dehumidifier" in cuts(stack)
    assert "dehumidifier" not in cuts(plans.stack(room.replace("garage", "open yard")))


def test_pads_and_bearers_to_cut_are_as_many_as_stand_under_the_stack() -> None:
    (stack,) = plans.example("sound-pile").stacks
    assert stack.facts is not None
    found = cuts(stack)
    assert found["bearers"].number == len(stack.facts.bearers) == 9
    assert (found["bearers"].length, found["bearers"].section) == ("48 in", "4 in x 6 in of white oak")
    assert (found["pads"].number, found["pads"].section, found["pads"].remark) == (
        18,
        "8 in x 16 in",
        "2 under each bearer; tops 7 1/4 in above the ground",
    )
    assert "Set 18 pads, 2 under each bearer: one at each end." in words(stack, "Pads")


def test_hollow_blocks_stand_with_their_cores_upright() -> None:
    stack = plans.stack(UNDER.format(blocks="on 8 in x 16 in blocks"))
    assert "its 8 in x 16 in side, 7 5/8 in high; hollow ones with their cores upright." in words(stack, "Blocks")


def test_blocks_lie_on_their_largest_side_whatever_the_order_of_their_sides() -> None:
    stack = plans.stack(plans.TALL)
    assert "Each stands on its 8 in x 16 in side, 8 in high; hollow ones" in words(stack, "Blocks")
    assert cuts(stack)["blocks"].section == "8 in x 8 in x 16 in"


def test_pads_are_as_high_as_the_stated_clearance_asks() -> None:
    """14 in to the lowest boards, less 3/4 in of stickers, are 13 1/4 in; less bearers 6 in deep, 7 1/4 in."""
    (stack,) = plans.example("sound-pile").stacks
    said = words(stack, "Pads")
    assert "Tops of the pads 7 1/4 in above the ground; tops of the bearers 13 1/4 in." in said


def test_blocks_too_low_for_the_clearance_are_piled_or_made_up() -> None:
    """22 in less 3/4 in and 6 in are 15 1/4 in: two blocks of 7 5/8 in. For 23 in, 1 in more is to be made up; for
    13 in they are 1 3/8 in too high."""
    stack = plans.stack(UNDER.format(blocks="on 8 in x 16 in blocks") + "  clearance 22 in\n")
    assert "Set 36 blocks, 2 piers under each bearer, 2 high" in words(stack, "Blocks")
    assert (cuts(stack)["blocks"].number, "make up" in cuts(stack)["blocks"].remark) == (36, False)
    stack = plans.stack(UNDER.format(blocks="on 8 in x 16 in blocks") + "  clearance 23 in\n")
    assert "tops 16 1/4 in above the ground: make up 1 in under them" in cuts(stack)["blocks"].remark
    stack = plans.stack(UNDER.format(blocks="on 8 in x 16 in blocks") + "  clearance 13 in\n")
    assert "let them 1 3/8 in into the ground" in words(stack, "Blocks")


def test_a_metric_sheet_tells_assumed_blocks_in_millimetres_first() -> None:
    stack = plans.stack(plans.METRIC.replace(", on 200 mm x 400 mm pads", ""))
    assert cuts(stack)["blocks"].section == "200 mm x 400 mm (8 in x 16 in)"
    assert "194 mm high" in words(stack, "Blocks")


def test_the_baffles_that_the_plan_closes_and_the_ways_left_open_are_told() -> None:
    (stack,) = plans.example("sound-charge").stacks
    assert "Close the top, both ends and the floor with baffles" in words(stack, "Baffles")
    mixed = plans.plan(plans.SEVERAL).stacks[2]
    assert "stay open" in words(mixed, "Baffles")
    assert "the top baffle must follow it down" in words(stack, "Baffles")
    assert "top baffle" not in words(mixed, "Baffles")


def test_a_charge_from_a_pile_says_so_and_how_its_kiln_is_run() -> None:
    charge = plans.example("drying/promised-mended").stacks[1]
    assert "The boards come from pile Maple." in words(charge, "Before loading")
    said = words(charge, "Running the kiln")
    assert "Starts 2026-10-01. Schedule T8-C3." in said
    assert "Conditioning:" in said


def test_a_charge_from_parts_of_piles_says_how_much_of_each_is_taken() -> None:
    text = (plans.EXAMPLES / "drying/promised-mended.stackplan").read_text(encoding="utf-8")
    text = text.replace('from pile "Maple"', 'from pile "Maple", 40 of a')
    charge = plans.plan(text).stacks[1]
    assert "The boards come from pile Maple (40 of a)." in words(charge, "Before loading")


def test_the_plenum_and_the_room_that_is_left_are_told() -> None:
    """The kiln is 18 ft x 7 ft x 6 ft, the charge 16 ft x 4 ft x 14 in, its plenum 18 in."""
    (stack,) = plans.example("sound-charge").stacks
    said = words(stack, "Loading")
    assert "Leave a plenum 18 in wide" in said
    assert "Room that is left: 24 in of length, 18 in of width beside the plenum, 58 in over the charge." in said


@pytest.mark.parametrize("plan", [plans.BROKEN])
def test_what_cannot_be_laid_out_has_no_build_list_and_no_cut_list(plan: str) -> None:
    assert build_list(plans.stack(plan)) == ()
    assert cut_list(plans.stack(plan)) == ()


@pytest.mark.parametrize(
    ("inches", "read"),
    [
        (0.75, "3/4 in"),
        (24.5625, "24 9/16 in"),
        (71.96, "71 15/16 in"),
        (72.0, "6 ft"),
        (191.25, "15 ft 11 1/4 in"),
        (191.99, "16 ft"),
        (72.1875, "6 ft 0 3/16 in"),
        (0.0, "0 in"),
        (-1.5, "-1 1/2 in"),
        (-100.0, "-8 ft 4 in"),
    ],
)
def test_a_tape_reads_in_sixteenths_of_an_inch(inches: float, read: str) -> None:
    assert tape(inches * ONE_INCH, System.INCH) == read


def test_a_metric_tape_reads_in_millimetres() -> None:
    assert tape(1.2345, System.METRIC) == "1,234 mm"


@pytest.mark.parametrize(
    ("written", "told"),
    [("4 ft", "4 ft"), ("16 ft", "16 ft"), ("66 in", "66 in"), ("2.4 m", "2.4 m"), ("7.5 ft", "7 ft 6 in")],
)
def test_the_length_of_a_board_is_told_in_the_unit_that_it_is_written_in(written: str, told: str) -> None:
    stack = plans.stack(f'pile "P"\n  boards a: 9 of white ash 4/4 x 6 in x {written}, green\n')
    (laying, *_) = steps(stack)["Courses"].layings
    assert laying.rows[0].boards == f"{told} a"


@pytest.mark.parametrize(
    ("slope", "told"), [(1 / 12, "1 in 12"), (2 / 12, "1 in 6"), (0.4, "1 in 2.5"), (0.04, "1 in 25")]
)
def test_a_slope_is_told_as_one_in_so_many(slope: float, told: str) -> None:
    assert slope_words(slope) == told
