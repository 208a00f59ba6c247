"""A course from above is to scale: boards, joints, stickers, widths of rows and gaps."""

import itertools

import pytest
from measured_drawings import Drawn, pile_with, plan_of, points_of

from stacklint.report.drawings import course_plan
from stacklint.report.tape import tape
from stacklint.units import System

HALF = 0.5
MIXED = {"course": "1: 4 rows of a + a, 2 rows of b + c, 2 rows of c + b"}


def drawn(plan, course=1):
    made = course_plan(plan.stack, course, plan.findings)
    assert made is not None
    return Drawn(made)


def test_every_board_of_the_course_lies_where_it_is_laid():
    plan = pile_with(**MIXED)
    run = plan.stack.arrangement.courses[0]
    laid = sorted(
        (piece.start * 1000, piece.length * 1000)
        for rows in run.rows
        for piece in rows.row.pieces
        for _ in range(rows.count)
    )
    boxes = sorted((box.left, box.width) for box in drawn(plan).boxes("board"))
    assert [start for start, _ in boxes] == pytest.approx([start for start, _ in laid], abs=HALF)
    assert [length for _, length in boxes] == pytest.approx([length for _, length in laid], abs=HALF)


def test_joints_lie_where_the_boards_meet_in_their_own_rows():
    plan = pile_with(**MIXED)
    made = drawn(plan)
    run = plan.stack.arrangement.courses[0]
    laid = sorted(joint * 1000 for rows in run.rows for joint in rows.row.joints for _ in range(rows.count))
    assert sorted(points_of(each)[0][0] for each in made.parts("joint")) == pytest.approx(laid, abs=HALF)
    for each in made.parts("joint"):
        (_, low), (_, high) = points_of(each)
        assert high - low == pytest.approx(152.4, abs=HALF)


def test_stickers_lie_across_the_boards_at_their_lines():
    plan = pile_with(stickers="3/4 in x 1 1/2 in, at 1 in, 5 ft, 8 ft, 11 ft, 15 ft 11 in, 3 ft long")
    boxes = drawn(plan).boxes("sticker")
    assert [box.middle for box in boxes] == pytest.approx([25.4, 1524, 2438.4, 3352.8, 4851.4], abs=HALF)
    assert {round(box.width, 1) for box in boxes} == {38.1}
    assert {round(box.height, 1) for box in boxes} == {914.4}


def test_boards_piled_solid_show_their_bearers_instead():
    made = drawn(pile_with(stickers="none"))
    assert not made.parts("sticker")
    assert [box.middle for box in made.boxes("bearer")] == pytest.approx(
        [x * 1000 for x in pile_with(stickers="none").stack.arrangement.bearers], abs=HALF
    )
    assert made.words_of("bearers at")


def test_sticker_lines_are_told_by_their_distances():
    plan = pile_with()
    told = [tape(line.x, System.INCH) for line in plan.stack.arrangement.sticker_lines]
    assert drawn(plan).words_of("stickers at") == told


def test_rows_of_one_width_are_told_together_and_others_each():
    assert drawn(pile_with()).words_of("row") == ["8 x 6 in"]
    plan = plan_of(
        'pile "A"\n  boards a: 4 of white ash 4/4 x 6 in x 8 ft, green\n  boards b: 2 of white ash 4/4 x 10 in x 8 ft,'
        " green\n  stack 8 ft x 44 in\n  course 1: 4 rows of a, 2 rows of b\n"
    )
    assert drawn(plan).words_of("row") == ["6 in"] * 4 + ["10 in"] * 2


def test_gaps_between_boards_are_told_and_drawn():
    made = drawn(pile_with(stack="16 ft x 4 ft, boards 1 in apart"))
    lows = sorted({round(box.low, 1) for box in made.boxes("board")})
    assert [b - a for a, b in itertools.pairwise(lows)] == pytest.approx([177.8] * (len(lows) - 1), abs=HALF)
    assert "1 in apart" in made.words


def test_each_board_bears_its_group_and_length():
    words = [word for word in drawn(pile_with(**MIXED)).words if word in ("a 8 ft", "b 12 ft", "c 48 in")]
    assert (words.count("a 8 ft"), words.count("b 12 ft"), words.count("c 48 in")) == (8, 4, 4)


def test_a_hanging_end_is_hatched_on_the_rows_that_have_it():
    plan = plan_of(
        'pile "A"\n  boards a: 8 of white ash 4/4 x 6 in x 8 ft, green\n  boards b: 4 of white ash 4/4 x 6 in x 11 ft,'
        " green\n  stack 16 ft x 4 ft\n  course 1: 4 rows of a + a, 4 rows of b\n"
        "  stickers 3/4 in x 1 1/2 in, at 1 in, 2 ft, 4 ft, 6 ft, 8 ft, 10 ft, 12 ft, 14 ft, 15 ft 11 in\n"
    )
    made = drawn(plan)
    number, finding = next(each for each in plan.findings if each.finding.rule == "end-sticker-missing")
    mark = finding.marks[0]
    stretch = next(box for box in made.boxes("stretch") if box.left == pytest.approx(mark.start * 1000, abs=HALF))
    assert stretch.height == pytest.approx(4 * 152.4, abs=HALF)
    assert any(stretch.low < y < stretch.high for _, y in made.numbers()[number])


def test_findings_of_other_courses_are_not_numbered_here():
    plan = pile_with(boards="a: 96 of white ash 4/4 x 6 in x 8 ft, green")
    other = [
        each._replace(
            finding=each.finding._replace(marks=tuple(m._replace(first_course=5, last_course=5) for m in f.marks))
        )
        for each in plan.findings
        if (f := each.finding).marks
    ]
    made = Drawn(course_plan(plan.stack, 1, other))
    assert not made.parts("finding")


def test_a_course_that_the_stack_has_not_is_not_drawn():
    plan = pile_with()
    assert course_plan(plan.stack, 0, ()) is None
    assert course_plan(plan.stack, 99, ()) is None
