"""The build list and the cut list: what to do in order, and what to bring."""

from __future__ import annotations

import pytest
import sheet_plans as plans

from stacklint.checked import CheckedStack
from stacklint.report.board_tally import board_tally
from stacklint.report.build_list import build_list
from stacklint.report.cut_list import Cut, cut_list
from stacklint.report.steps import Step
from stacklint.report.tape import tape
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
    assert (mixed.count, mixed.boards) == (4, "12 ft b + 48 in c")
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
    assert "The lowest boards come 14 in above the ground." in said


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
    assert "Leave a flue 6 in wide up the middle." in words(solid, "Courses")
    assert "Boards lie 1 in apart." in words(solid, "Courses")


def test_boards_that_are_wider_than_the_stack_are_laid_aside() -> None:
    stack = plans.stack(GROUND_UP + "  boards d: 2 of white ash 4/4 x 30 in x 4 ft, green\n")
    assert "In no course: 2 of 48 in (d). Lay them aside." in words(stack, "Courses")
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
    """16 ft and twice 18 in are 19 ft; 4 ft and twice 18 in are 7 ft; 19 ft x 7 ft are 133 ft2."""
    (stack,) = plans.example("sound-pile").stacks
    cover = cuts(stack)["cover of sheet metal"]
    assert cover.length == "19 ft"
    assert cover.remark.startswith("7 ft wide flat, 133 ft2")
    assert "standing out 18 in past each end and 18 in past each long side" in words(stack, "Cover")
    assert "Let it fall 1 in 12" in words(stack, "Cover")


def test_pads_and_bearers_to_cut_are_as_many_as_stand_under_the_stack() -> None:
    (stack,) = plans.example("sound-pile").stacks
    assert stack.facts is not None
    found = cuts(stack)
    assert found["bearers"].number == len(stack.facts.bearers) == 9
    assert (found["bearers"].length, found["bearers"].section) == ("48 in", "4 in x 6 in of white oak")
    assert (found["pads"].number, found["pads"].section, found["pads"].remark) == (
        18,
        "8 in x 16 in",
        "2 under each bearer",
    )
    assert "Set 18 pads, 2 under each bearer: one at each end." in words(stack, "Pads")


def test_hollow_blocks_stand_with_their_cores_upright() -> None:
    stack = plans.stack(plans.TALL)
    assert "cores upright" in words(stack, "Blocks")
    assert cuts(stack)["blocks"].section == "8 in x 8 in x 16 in"


def test_the_baffles_that_the_plan_closes_and_the_ways_left_open_are_told() -> None:
    (stack,) = plans.example("sound-charge").stacks
    assert "Close the top, both ends and the floor with baffles" in words(stack, "Baffles")
    mixed = plans.plan(plans.SEVERAL).stacks[2]
    assert "stay open" in words(mixed, "Baffles")


def test_a_charge_from_a_pile_says_so_and_how_its_kiln_is_run() -> None:
    charge = plans.example("drying/promised-mended").stacks[1]
    assert "The boards come from pile Maple." in words(charge, "Before loading")
    said = words(charge, "Running the kiln")
    assert "Starts 2026-10-01. Schedule T8-C3." in said
    assert "Conditioning:" in said


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
        (0.0, "0 in"),
        (-1.5, "-1 1/2 in"),
        (-100.0, "-8 ft 4 in"),
    ],
)
def test_a_tape_reads_in_sixteenths_of_an_inch(inches: float, read: str) -> None:
    assert tape(inches * ONE_INCH, System.INCH) == read


def test_a_metric_tape_reads_in_millimetres() -> None:
    assert tape(1.2345, System.METRIC) == "1,234 mm"
