"""Whole stacks laid out."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stacklint.faults import FaultKind
from stacklint.layout import arrange
from stacklint.layout.rows import fills
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.stack import StackKind, StackSize
from stacklint.plan.supports import BearerKind, Bearers, Stickers
from stacklint.plan.yard import Inside, Kiln
from stacklint.units import ONE_FOOT, ONE_INCH, Unit


def stood(arrangement):
    """How many boards of each label and length stand in the courses."""
    found = Counter()
    for course in arrangement.courses:
        for rows in course.rows:
            for piece in rows.row.pieces:
                found[piece.label, round(piece.length / ONE_FOOT, 3)] += rows.count * course.count
    return found


def feet(places):
    return [round(x / ONE_FOOT, 3) for x in places]


def labels(course):
    return [(rows.count, " + ".join(piece.label for piece in rows.row.pieces)) for rows in course.rows]


def topics(arrangement):
    return [assumption.topic for assumption in arrangement.assumptions]


# Courses


def test_eight_rows_of_6_in_boards_lie_in_4_ft(yard):
    laid = arrange(yard.stack(yard.boards("a", 16, 16)))
    assert [(course.first, course.last, labels(course)) for course in laid.courses] == [(1, 2, [(8, "a")])]


def test_gaps_between_boards_leave_room_for_fewer_rows(yard):
    """Seven rows of 6 in with six gaps of 1 in are 48 in; an eighth does not go in."""
    size = StackSize(length=yard.feet(16), width=yard.feet(4), boards_apart=yard.inches(1))
    laid = arrange(yard.stack(yard.boards("a", 7, 16), size=size))
    assert labels(laid.courses[0]) == [(7, "a")]
    assert laid.gap == pytest.approx(ONE_INCH)
    laid = arrange(yard.stack(yard.boards("a", 8, 16), size=size))
    assert laid.course_count == 2


def test_a_flue_takes_its_width_from_the_rows(yard):
    size = StackSize(length=yard.feet(16), width=yard.feet(4), flue=yard.inches(8))
    laid = arrange(yard.stack(yard.boards("a", 8, 16), size=size))
    assert labels(laid.courses[0]) == [(6, "a")]


def test_a_flue_is_as_wide_as_said_from_board_to_board_also_where_boards_lie_apart(yard):
    """Six rows of 6 in, four gaps of 1 in and the flue of 8 in are 48 in."""
    size = StackSize(length=yard.feet(16), width=yard.feet(4), boards_apart=yard.inches(1), flue=yard.inches(8))
    laid = arrange(yard.stack(yard.boards("a", 12, 16), size=size))
    assert [labels(course) for course in laid.courses] == [[(6, "a")]]


def test_a_12_ft_board_is_matched_with_a_4_ft_one(yard):
    laid = arrange(yard.stack(yard.boards("b", 4, 12), yard.boards("c", 4, 4)))
    assert labels(laid.courses[0]) == [(4, "b + c")]
    assert laid.unpaired == ()
    assert [(one.count, feet(one.lengths), one.fills) for one in laid.matching] == [(4, [12, 4], True)]


def test_boards_without_a_match_are_unpaired_and_lie_on_top(yard):
    laid = arrange(yard.stack(yard.boards("b", 12, 12), yard.boards("c", 8, 4)))
    assert [(odd.label, odd.count) for odd in laid.unpaired] == [("b", 4)]
    assert labels(laid.courses[-1]) == [(4, "b")]
    assert laid.matching[-1].fills is False


def test_thick_courses_lie_below_thin_ones(yard):
    laid = arrange(yard.stack(yard.boards("thin", 8, 16), yard.boards("thick", 8, 16, thickness=2)))
    assert [labels(course) for course in laid.courses] == [[(8, "thick")], [(8, "thin")]]


def test_short_rows_lie_above_the_full_rows_of_every_thickness(yard):
    laid = arrange(yard.stack(yard.boards("thick", 8, 10, thickness=2), yard.boards("thin", 8, 16)))
    assert [labels(course) for course in laid.courses] == [[(8, "thin")], [(8, "thick")]]


def test_a_course_not_full_is_made_up_with_short_boards_of_its_thickness(yard):
    laid = arrange(
        yard.stack(
            yard.boards("long", 6, 16, thickness=2),
            yard.boards("short", 4, 10, thickness=2),
            yard.boards("thin", 8, 16),
        )
    )
    assert [labels(course) for course in laid.courses] == [[(6, "long"), (2, "short")], [(8, "thin")], [(2, "short")]]


def test_boards_longer_than_the_stack_lie_lowest_and_stick_out_at_the_right(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 16), yard.boards("long", 8, 18)))
    assert labels(laid.courses[0]) == [(8, "long")]
    piece = laid.courses[0].rows[0].row.pieces[0]
    assert feet([piece.start, piece.end]) == [0, 18]
    assert [odd.label for odd in laid.unpaired] == ["long"]


def test_rows_of_one_group_come_before_rows_that_mix_groups(yard):
    laid = arrange(yard.stack(yard.boards("a", 3, 8), yard.boards("b", 5, 8, width=7)))
    rows = Counter()
    for course in laid.courses:
        rows.update({text: number * course.count for number, text in labels(course)})
    assert rows == {"a + a": 1, "b + b": 2, "a + b": 1}


def test_boards_wider_than_the_stack_are_left_over(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 16), yard.boards("slab", 2, 16, width=30), width=2))
    assert [(odd.label, odd.count) for odd in laid.left_over] == [("slab", 2)]
    assert [fault.kind for fault in laid.faults] == [FaultKind.BOARDS_DO_NOT_FIT]
    assert laid.faults[0].found.value == pytest.approx(30 * ONE_INCH)
    assert laid.faults[0].limit.value == pytest.approx(24 * ONE_INCH)


def test_height_counts_boards_and_stickers(yard):
    """Two courses of 2 in over four of 1 in with six tiers of 3/4 in: 8 + 4 1/2 in."""
    stack = yard.stack(
        yard.boards("a", 32, 16),
        yard.boards("b", 16, 16, thickness=2),
        stickers=Stickers(thickness=yard.inches(0.75), width=yard.inches(1.25), every=yard.feet(2)),
    )
    laid = arrange(stack)
    assert laid.height == pytest.approx(12.5 * ONE_INCH)
    assert laid.sticker_count == 6 * 9


def test_laying_does_not_slow_down_with_the_number_of_boards(yard):
    laid = arrange(yard.stack(yard.boards("a", 60_000, 8), yard.boards("b", 40_000, 12)))
    assert sum(stood(laid).values()) == 100_000
    assert len(laid.courses) < 10


def test_more_boards_than_any_stack_holds_are_refused(yard):
    laid = arrange(yard.stack(yard.boards("a", 100_001, 8)))
    assert laid.courses == ()
    assert laid.height == 0
    assert [(fault.kind, fault.found.value, fault.stack) for fault in laid.faults] == [
        (FaultKind.VALUE_OUT_OF_RANGE, 100_001, "B2")
    ]


def test_a_stack_without_boards_is_laid_out_empty(yard):
    laid = arrange(yard.stack(length=None))
    assert laid.courses == ()
    assert laid.faults == ()


# Size


def test_a_stack_without_size_is_as_long_as_its_longest_board(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 10), yard.boards("b", 8, 12), length=None))
    assert feet([laid.length, laid.width]) == [12, 4]
    said = next(assumption for assumption in laid.assumptions if assumption.topic == "stack")
    assert "12 ft" in said.text


def test_a_stack_without_size_is_as_long_and_wide_as_the_courses_written(yard):
    stack = yard.stack(yard.boards("a", 20, 8), length=None, courses=(yard.course(1, 1, (10, "a + a")),))
    laid = arrange(stack)
    assert feet([laid.length, laid.width]) == [16, 5]
    assert laid.faults == ()


def test_a_charge_without_size_is_no_wider_than_the_kiln_beside_its_plenum(yard):
    inside = Inside(length=yard.feet(17), width=yard.feet(4.5), height=yard.feet(6))
    kiln = Kiln(name=Name(text="k"), inside=inside, plenum=yard.inches(18))
    laid = arrange(yard.stack(yard.boards("a", 8, 12), length=None, kind=StackKind.CHARGE), kiln)
    assert feet([laid.width]) == [3]


def test_nothing_is_said_of_a_size_that_could_not_be_read(yard):
    stack = yard.stack(yard.boards("a", 8, 12), length=None, faulty=frozenset({"stack"}))
    assert "stack" not in topics(arrange(stack))


# Stickers and bearers


def test_without_stickers_the_usual_ones_are_taken_and_it_is_said(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 16)))
    assert len(laid.sticker_lines) == 9
    assert laid.sticker_thickness == pytest.approx(0.75 * ONE_INCH)
    assert topics(laid) == ["stickers", "bearers"]


def test_in_a_metric_plan_the_usual_stickers_are_metric(yard):
    group = yard.boards("a", 8, 16).model_copy(update={"length": yard.metres(4.8)})
    laid = arrange(yard.stack(group))
    assert laid.sticker_thickness == pytest.approx(0.020)
    assert "600 mm" in laid.assumptions[0].text


def test_stickers_without_a_spacing_are_taken_every_24_in(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 16), stickers=Stickers(from_ends=Quantity(number=1, unit=Unit.INCH))))
    assert [round(line.x / ONE_INCH, 2) for line in laid.sticker_lines][:2] == [1, 24.75]
    assert topics(laid)[0] == "stickers"


def test_boards_piled_solid_have_no_sticker_lines(yard):
    laid = arrange(yard.stack(yard.boards("a", 16, 16), stickers=Stickers(none=True)))
    assert laid.sticker_lines == ()
    assert laid.height == pytest.approx(2 * ONE_INCH)
    assert laid.sticker_count == 0
    assert len(laid.bearers) == 9


def test_a_spacing_that_could_not_be_read_is_not_made_up(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 16), faulty=frozenset({"stickers"})))
    assert laid.sticker_lines == ()
    assert laid.assumptions == ()


def test_uneven_stickers_keep_both_thicknesses_and_their_length(yard):
    said = Stickers(
        thickness=Range(low=yard.inches(0.75), high=yard.inches(1)), every=yard.feet(2), length=yard.feet(5)
    )
    laid = arrange(yard.stack(yard.boards("a", 8, 16), stickers=said))
    assert (laid.sticker_thickness_low, laid.sticker_thickness) == (pytest.approx(0.01905), pytest.approx(0.0254))
    assert laid.sticker_length == pytest.approx(5 * ONE_FOOT)


def test_stickers_are_as_long_as_the_stack_is_wide_where_nothing_is_said(yard):
    assert arrange(yard.stack(yard.boards("a", 8, 16))).sticker_length == pytest.approx(4 * ONE_FOOT)


def test_bearers_wider_apart_than_stickers_leave_lines_off_them(yard):
    stack = yard.stack(
        yard.boards("a", 8, 16),
        stickers=Stickers(width=yard.inches(1.5), every=yard.feet(2), from_ends=yard.inches(2)),
        bearers=Bearers(sides=(yard.inches(4), yard.inches(6)), every=yard.feet(4), from_ends=yard.inches(2)),
    )
    laid = arrange(stack)
    assert [line.bearer for line in laid.sticker_lines] == [0, None, 1, None, 2, None, 3, None, 4]
    assert (laid.bearer_width, laid.bearer_depth) == (pytest.approx(4 * ONE_INCH), pytest.approx(6 * ONE_INCH))
    assert laid.whole_floor is False
    # 188 in between the outer lines is eight spaces of 23 1/2 in; half the bearer and half the sticker go off it.
    assert laid.sticker_lines[1].off == pytest.approx((23.5 - 2 - 0.75) * ONE_INCH)


def test_in_the_open_bearers_are_taken_under_every_sticker_line(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 16), stickers=Stickers(every=yard.feet(2))))
    assert [line.bearer for line in laid.sticker_lines] == list(range(9))
    assert topics(laid) == ["bearers"]


@pytest.mark.parametrize("kind", [PlaceKind.GARAGE, PlaceKind.BASEMENT, PlaceKind.CONTAINER, PlaceKind.ATTIC])
def test_a_floor_carries_every_line(yard, kind):
    stack = yard.stack(yard.boards("a", 8, 16), place=yard.place(kind), stickers=Stickers(every=yard.feet(2)))
    laid = arrange(stack)
    assert laid.whole_floor
    assert {(line.bearer, line.off) for line in laid.sticker_lines} == {(0, 0.0)}
    assert laid.assumptions == ()


@pytest.mark.parametrize("kind", [BearerKind.PALLETS, BearerKind.NONE])
def test_pallets_and_no_bearers_carry_the_stack_everywhere(yard, kind):
    laid = arrange(yard.stack(yard.boards("a", 8, 16), bearers=Bearers(kind=kind)))
    assert laid.whole_floor
    assert laid.bearers == ()


def test_a_charge_rests_on_the_kiln_floor_unless_bearers_are_stated(yard):
    stack = yard.stack(yard.boards("a", 8, 16), kind=StackKind.CHARGE, stickers=Stickers(every=yard.feet(2)))
    assert arrange(stack).whole_floor
    stated = stack.model_copy(update={"bearers": Bearers(sides=(yard.inches(4),), every=yard.feet(4))})
    laid = arrange(stated)
    assert not laid.whole_floor
    assert len(laid.bearers) == 5
    assert laid.bearer_depth == laid.bearer_width


def test_bearers_without_places_stand_under_the_sticker_lines(yard):
    stack = yard.stack(
        yard.boards("a", 8, 16), stickers=Stickers(count=5), bearers=Bearers(sides=(yard.inches(6), yard.inches(6)))
    )
    laid = arrange(stack)
    assert laid.bearers == tuple(line.x for line in laid.sticker_lines)
    assert topics(laid) == ["bearers"]


def test_bearers_without_a_section_are_taken_as_4_by_4_and_it_is_said(yard):
    laid = arrange(yard.stack(yard.boards("a", 8, 16), stickers=Stickers(count=5), bearers=Bearers(every=yard.feet(4))))
    assert laid.bearer_width == pytest.approx(4 * ONE_INCH)
    assert "section" in laid.assumptions[0].text


# What holds of every stack

GROUPS = st.lists(
    st.tuples(st.integers(1, 40), st.integers(3, 18), st.sampled_from([4, 6, 7.5]), st.sampled_from([1, 1.25, 2])),
    min_size=1,
    max_size=5,
)


@settings(max_examples=150, deadline=None)
@given(GROUPS)
def test_every_board_stands_once_and_in_order(yard, groups):
    stack = yard.stack(
        *(yard.boards(f"g{place}", *group, line=place) for place, group in enumerate(groups)), length=14, width=4
    )
    laid = arrange(stack)
    listed = Counter({(f"g{place}", float(length)): count for place, (count, length, _, _) in enumerate(groups)})
    left = Counter({(odd.label, round(odd.length / ONE_FOOT, 3)): odd.count for odd in laid.left_over})
    assert stood(laid) + left == listed

    assert [course.first for course in laid.courses] == [
        1,
        *(course.last + 1 for course in laid.courses[:-1]),
    ]
    full = []
    for course in laid.courses:
        assert course.thickness == course.thinnest
        assert sum(rows.count * rows.row.width for rows in course.rows) <= laid.width + 1e-9
        if all(fills(sum(piece.length for piece in rows.row.pieces), laid.length) for rows in course.rows):
            full.append(course.thickness)
        for rows in course.rows:
            pieces = rows.row.pieces
            assert all(left.end <= right.start + 1e-9 for left, right in pairwise(pieces))
    assert full == sorted(full, reverse=True)
    unpaired = sum(odd.count for odd in laid.unpaired)
    assert unpaired == sum(len(one.lengths) * one.count for one in laid.matching if not one.fills)
