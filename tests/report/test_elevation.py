"""The drawing of a stack's side shows what stands where, and the letter of a finding where it is faulty."""

import pytest

from stacklint.checked import CheckedStack
from stacklint.findings import Mark, Part
from stacklint.plan.shelter import Cover, CoverKind, SideKind, Sides
from stacklint.plan.supports import BearerKind, Bearers
from stacklint.report.elevation import Keyed, elevation
from stacklint.report.glyphs import ASCII
from stacklint.report.row import Ink
from stacklint.units import ONE_FOOT, System, Unit

BARE = {"cover": None, "top_load": None}


def drawn(yard, *marks, courses=4, width=80, laid=None, **parts):
    stack = CheckedStack(yard.pile(**(BARE | parts)), laid or yard.arranged(courses, broken=False), None)
    keyed = [Keyed(key, yard.finding(marks=(mark,))) for key, mark in zip("ABCDEFGH", marks, strict=False)]
    rows = elevation(stack, keyed, width=width, glyphs=ASCII, system=System.INCH)
    return [(row.label, "".join(cell.character for cell in row.cells), "".join(row.after)) for row in rows]


def row(rows, label):
    return next(text for name, text, _ in rows if name == label)


def test_a_stack_stands_on_its_bearers_pads_and_ground(yard):
    labels = [label for label, _, _ in drawn(yard)]
    assert labels == ["4", "", "3", "", "2", "", "1", "", "bearers", "pads", "ground", ""]


def test_two_boards_end_to_end_show_their_joint_half_way(yard):
    course = row(drawn(yard), "1").strip()
    assert course.count(" ") == 1
    assert abs(course.index(" ") - len(course) / 2) <= 1


def test_stickers_stand_over_each_other_and_over_their_bearers(yard):
    rows = drawn(yard)
    stickers = [text for label, text, _ in rows if label == "" and "o" in text]
    assert len(stickers) == 4
    assert len(set(stickers)) == 1
    assert stickers[0].count("o") == 9
    lefts = [index for index, character in enumerate(row(rows, "bearers")) if character == "["]
    assert [index for index, character in enumerate(stickers[0]) if character == "o"][:-1] == lefts[:-1]


def test_boards_that_only_some_rows_have_are_drawn_fainter(yard):
    stack = CheckedStack(yard.pile(**BARE), yard.arranged(4), None)
    rows = elevation(stack, [], width=80, glyphs=ASCII, system=System.INCH)
    top = "".join(cell.character for cell in rows[0].cells)
    # The last course is 2 rows of 8 ft boards and 4 rows of one 12 ft board in a stack of 16 ft.
    assert top.count("-") / len(top.strip()) == pytest.approx(0.25, abs=0.05)
    assert top.rstrip().endswith("-")


def test_a_board_end_two_feet_past_its_sticker_is_marked_there_with_its_letter(yard):
    rows = drawn(yard, Mark(Part.COURSE, 3, 3, 10 * ONE_FOOT, 12 * ONE_FOOT))
    course = row(rows, "3")
    start, letter, end = course.index("!"), course.index("A"), course.rindex("!")
    assert start < letter < end
    assert (letter - course.index("=")) / len(course.strip()) == pytest.approx(11 / 16, abs=0.03)
    assert "A" not in row(rows, "2") + row(rows, "4")


def test_a_finding_for_several_courses_is_marked_in_each(yard):
    rows = drawn(yard, Mark(Part.COURSE, 2, 3, 0.0, ONE_FOOT))
    assert [label for label, text, _ in rows if "A" in text] == ["3", "2"]


def test_two_findings_of_one_place_both_have_their_letter(yard):
    mark = Mark(Part.COURSE, 1, 1, 0.0, 2 * ONE_FOOT)
    course = row(drawn(yard, mark, mark), "1")
    assert "A" in course
    assert "B" in course


def test_a_letter_without_room_stands_beside_the_row(yard):
    marks = [Mark(Part.COURSE, 1, 1, 0.0, 0.1)] * 4
    (text, after) = next((text, after) for label, text, after in drawn(yard, *marks) if label == "1")
    assert set("ABCD") <= set(text + after)
    assert after


def test_a_sticker_line_without_a_bearer_is_marked_from_top_to_bottom(yard):
    rows = drawn(yard, Mark(Part.STICKERS, None, None, 8 * ONE_FOOT, 8 * ONE_FOOT))
    columns = {text.index("A") for label, text, _ in rows if label == "" and "o" in text}
    assert len(columns) == 1


def test_a_missing_sticker_is_marked_where_it_should_be(yard):
    rows = drawn(yard, Mark(Part.STICKERS, 2, 2, 9 * ONE_FOOT, 9 * ONE_FOOT))
    (text,) = [text for label, text, _ in rows if "A" in text]
    assert text.count("o") == 9


def test_a_bearer_that_carries_too_much_is_marked_in_its_row(yard):
    text = row(drawn(yard, Mark(Part.BEARERS, None, None, 4 * ONE_FOOT, 4 * ONE_FOOT)), "bearers")
    # Bearers stand every 2 ft: the one at 4 ft is the third.
    assert text[: text.index("A")].count("[]") == 2


def test_the_ground_the_top_and_the_cover_can_be_marked_where_nothing_else_is_drawn(yard):
    rows = drawn(yard, Mark(Part.GROUND), Mark(Part.TOP), Mark(Part.COVER), Mark(Part.SIDES, 4, 4))
    assert "A" in row(rows, "ground")
    assert row(rows, "top").strip() == "B"
    assert row(rows, "cover").strip() == "C"
    assert row(rows, "4").lstrip().startswith("D")


def test_a_cover_reaches_past_the_stack_as_far_as_its_overhang(yard):
    cover = Cover(kind=CoverKind.SHEET_METAL, overhang_ends=yard.quantity(2, Unit.FOOT))
    rows = drawn(yard, cover=cover)
    boards = len(row(rows, "1").strip())
    assert len(row(rows, "cover").strip()) / boards == pytest.approx(20 / 16, abs=0.05)


def test_a_sloped_cover_rises_and_a_gap_shows_posts(yard):
    cover = Cover(kind=CoverKind.SHEET_METAL, gap=yard.quantity(4, Unit.INCH), slope=1 / 12)
    labels = [(label, text) for label, text, _ in drawn(yard, cover=cover)][:3]
    assert labels[1][1].rstrip().endswith("/")
    assert labels[2][1].count("|") == 3


def test_no_cover_is_no_row(yard):
    assert "cover" not in [label for label, _, _ in drawn(yard, cover=Cover(kind=CoverKind.NONE))]


def test_side_cloth_hangs_at_both_ends_of_every_course(yard):
    rows = drawn(yard, sides=Sides(kind=SideKind.SHADE_CLOTH))
    assert row(rows, "2").strip().startswith(":")
    assert row(rows, "2").strip().endswith(":")


def test_a_stack_on_a_floor_has_no_bearers(yard):
    laid = yard.arranged(4)._replace(whole_floor=True, bearers=())
    labels = [label for label, _, _ in drawn(yard, laid=laid, bearers=None)]
    assert labels[-2:] == ["floor", ""]
    pallets = [label for label, _, _ in drawn(yard, laid=laid, bearers=Bearers(kind=BearerKind.PALLETS))]
    assert pallets[-3:] == ["pallets", "ground", ""]


def test_boards_piled_solid_have_no_stickers_between_them(yard):
    laid = yard.arranged(4)._replace(sticker_lines=(), sticker_thickness=0.0)
    labels = [label for label, _, _ in drawn(yard, laid=laid)]
    assert labels[:4] == ["4", "3", "2", "1"]


def test_the_scale_tells_the_length_of_the_stack(yard):
    assert " 16 ft " in drawn(yard)[-1][1]


@pytest.mark.parametrize("width", [30, 40, 60, 80, 100, 200])
def test_no_row_is_wider_than_it_may_be(yard, width):
    stack = CheckedStack(yard.pile(), yard.arranged(30), None)
    for each in elevation(stack, [], width=width, glyphs=ASCII, system=System.INCH):
        assert 8 + len(each.cells) <= width


def test_where_there_is_no_room_nothing_is_drawn(yard):
    assert drawn(yard, width=20) == []


def test_every_mark_of_a_finding_that_is_drawn_is_a_key(yard):
    stack = CheckedStack(yard.pile(), yard.arranged(6), None)
    keyed = [Keyed("A", yard.finding())]
    rows = elevation(stack, keyed, width=80, glyphs=ASCII, system=System.INCH)
    assert [cell.character for each in rows for cell in each.cells if cell.ink is Ink.KEY] == ["A"]
