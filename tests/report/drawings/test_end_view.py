"""The end view is to scale: rows side by side, the length of stickers and bearers, the cover at the sides."""

import itertools

import pytest
from measured_drawings import Drawn, pile_with, plan_of

from stacklint.report.drawings import end_view

HALF = 0.5


def drawn(plan):
    made = end_view(plan.stack, plan.findings)
    assert made is not None
    return Drawn(made)


def lowest_course(made):
    boards = made.boxes("board")
    low = min(box.low for box in boards)
    return sorted(box for box in boards if box.low == low)


def test_rows_lie_side_by_side_as_wide_as_their_boards():
    rows = lowest_course(drawn(pile_with()))
    assert [box.width for box in rows] == pytest.approx([6 * 25.4] * 8, abs=HALF)
    assert all(left.right == pytest.approx(right.left, abs=HALF) for left, right in itertools.pairwise(rows))
    assert (rows[0].left, rows[-1].right) == (pytest.approx(0, abs=HALF), pytest.approx(48 * 25.4, abs=HALF))


def test_boards_stand_apart_as_far_as_the_plan_says():
    rows = lowest_course(drawn(pile_with(stack="16 ft x 4 ft, boards 1 in apart")))
    gaps = [right.left - left.right for left, right in itertools.pairwise(rows)]
    assert gaps == pytest.approx([25.4] * (len(rows) - 1), abs=HALF)


def test_a_flue_parts_the_rows_in_the_middle():
    rows = lowest_course(drawn(pile_with(stack="16 ft x 4 ft, flue 8 in")))
    gaps = [right.left - left.right for left, right in itertools.pairwise(rows)]
    assert max(gaps) == pytest.approx(8 * 25.4, abs=HALF)
    assert sorted(gaps)[:-1] == pytest.approx([0] * (len(rows) - 2), abs=HALF)
    middle = gaps.index(max(gaps))
    assert middle in (len(rows) // 2 - 1, len(rows) // 2)


def test_a_flue_between_boards_that_lie_apart_is_as_wide_as_the_plan_says():
    rows = lowest_course(drawn(pile_with(stack="16 ft x 4 ft, boards 1 in apart, flue 8 in")))
    gaps = [right.left - left.right for left, right in itertools.pairwise(rows)]
    assert max(gaps) == pytest.approx(8 * 25.4, abs=HALF)
    assert sorted(gaps)[:-1] == pytest.approx([25.4] * (len(rows) - 2), abs=HALF)


def test_stickers_are_as_long_as_they_are_cut():
    made = drawn(pile_with(stickers="3/4 in x 1 1/2 in, every 24 in, dry, 3 ft long"))
    assert {round(box.width, 1) for box in made.boxes("sticker")} == {914.4}
    assert {round(box.middle, 1) for box in made.boxes("sticker")} == {609.6}
    assert "stickers 36 in" in made.words


def test_there_is_a_sticker_under_each_course():
    plan = pile_with()
    assert len(drawn(plan).boxes("sticker")) == plan.stack.facts.courses_high


def test_a_bearer_lies_across_the_whole_width_on_its_pads():
    made = drawn(pile_with())
    bearer, pads = made.boxes("bearer")[0], made.boxes("pad")
    assert (bearer.left, bearer.right) == (pytest.approx(0, abs=HALF), pytest.approx(1219.2, abs=HALF))
    assert len(pads) == 2
    assert [pad.high for pad in pads] == pytest.approx([bearer.low] * 2, abs=HALF)
    assert (pads[0].left, pads[-1].right) == (pytest.approx(0, abs=HALF), pytest.approx(1219.2, abs=HALF))


def test_the_cover_stands_out_at_the_sides_by_the_overhang_of_the_sides():
    cover = drawn(pile_with(cover="sheet metal, overhang 18 in ends, 12 in sides, gap 4 in, tied")).boxes("cover")[0]
    assert (cover.left, cover.right) == (pytest.approx(-304.8, abs=HALF), pytest.approx(1219.2 + 304.8, abs=HALF))


def test_cloth_hangs_at_both_sides_and_boards_on_one_side_at_one():
    assert len(drawn(pile_with(sides="shade cloth")).parts("side")) == 2
    assert len(drawn(pile_with(sides="boards, on one side")).parts("side")) == 1
    assert not drawn(pile_with(sides="plastic, on the ends")).parts("side")


def test_boards_that_begin_further_in_are_darker():
    plan = plan_of(
        'pile "A"\n  boards a: 8 of white ash 4/4 x 6 in x 16 ft, green\n  boards b: 8 of white ash 4/4 x 6 in x 8 ft,'
        " green\n  stack 16 ft x 4 ft\n  course 1: 8 rows of a\n  stickers 3/4 in x 1 1/2 in, at 1 in, 4 ft, 8 ft,"
        " 12 ft, 15 ft 11 in\n"
    )
    made = drawn(plan)
    inside = {rows.row.pieces[0].start > 0.001 for run in plan.stack.arrangement.courses[1:] for rows in run.rows}
    assert bool(made.parts("behind")) is (True in inside)


def test_a_finding_of_the_cover_is_numbered_at_the_cover():
    plan = pile_with(cover="sheet metal, overhang 1 in, gap 4 in, tied")
    made = drawn(plan)
    number = next(number for number, finding in plan.findings if finding.rule == "cover-too-short")
    cover = made.boxes("cover")[0]
    assert any(abs(y - cover.low) < 300 for _, y in made.numbers()[number])


def test_boards_and_stickers_of_many_courses_are_drawn_finer_than_those_of_a_few():
    many = end_view(pile_with(boards="a: 640 of white ash 4/4 x 6 in x 8 ft, green").stack, ())
    few = end_view(pile_with(boards="a: 64 of white ash 4/4 x 6 in x 8 ft, green").stack, ())
    assert "fine" in many.get("class").split()
    assert "fine" not in few.get("class").split()
