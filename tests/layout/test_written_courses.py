"""Courses that the plan writes out."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stacklint.faults import FaultKind
from stacklint.layout import arrange
from stacklint.layout.rows import fills
from stacklint.plan.stack import StackSize
from stacklint.units import ONE_FOOT, ONE_INCH


def labels(course):
    return [(rows.count, " + ".join(piece.label for piece in rows.row.pieces)) for rows in course.rows]


def courses(laid):
    return [(course.first, course.last, labels(course)) for course in laid.courses]


def test_courses_are_laid_as_written_and_the_rest_above(yard):
    stack = yard.stack(
        yard.boards("a", 60, 8, line=3),
        yard.boards("b", 8, 12, line=4),
        yard.boards("c", 8, 4, line=5),
        courses=(yard.course(1, 3, (8, "a + a"), line=9), yard.course(4, 4, (2, "c + b"), (6, "a + a"), line=10)),
    )
    laid = arrange(stack)
    assert courses(laid) == [
        (1, 3, [(8, "a + a")]),
        (4, 4, [(2, "c + b"), (6, "a + a")]),
        (5, 5, [(6, "b + c")]),
    ]
    assert [course.where.line for course in laid.courses] == [9, 10, 4]
    assert laid.faults == ()


def test_boards_in_one_written_course_may_differ_in_thickness(yard):
    stack = yard.stack(
        yard.boards("a", 4, 16),
        yard.boards("b", 4, 16, thickness=1.25),
        courses=(yard.course(1, 1, (4, "a"), (4, "b")),),
    )
    (course,) = arrange(stack).courses
    assert course.thickness > course.thinnest


def test_written_rows_that_do_not_fill_leave_their_boards_unpaired(yard):
    stack = yard.stack(yard.boards("b", 8, 12), yard.boards("c", 3, 4), courses=(yard.course(1, 1, (8, "b")),))
    laid = arrange(stack)
    assert {(odd.label, odd.count) for odd in laid.unpaired} == {("b", 8), ("c", 3)}
    assert [(one.count, one.fills) for one in laid.matching] == [(3, True), (5, False)]


def test_more_boards_than_are_listed_do_not_fit(yard):
    stack = yard.stack(yard.boards("a", 60, 8), courses=(yard.course(1, 6, (8, "a + a")),))
    laid = arrange(stack)
    (fault,) = laid.faults
    assert fault.kind is FaultKind.BOARDS_DO_NOT_FIT
    assert (fault.found.value, fault.limit.value) == (96, 60)
    assert sum(rows.count * course.count for course in laid.courses for rows in course.rows) == 30


def test_boards_that_are_not_listed_do_not_fit(yard):
    stack = yard.stack(yard.boards("a", 16, 8), courses=(yard.course(1, 1, (4, "a + z")),))
    (fault,) = arrange(stack).faults
    assert "no boards z are listed" in fault.message


def test_boards_that_may_be_listed_in_a_line_that_could_not_be_read_are_not_missed(yard):
    stack = yard.stack(
        yard.boards("a", 16, 8), courses=(yard.course(1, 1, (4, "a + z")),), faulty=frozenset({"boards"})
    )
    assert arrange(stack).faults == ()


def test_a_row_longer_than_the_stack_does_not_fit(yard):
    stack = yard.stack(yard.boards("a", 16, 9), courses=(yard.course(1, 1, (8, "a + a")),))
    (fault,) = arrange(stack).faults
    assert fault.kind is FaultKind.BOARDS_DO_NOT_FIT
    assert fault.found.value == pytest.approx(18 * ONE_FOOT)
    assert fault.limit.value == pytest.approx(16 * ONE_FOOT)


def test_a_row_three_inches_longer_than_the_stack_fits(yard):
    stack = yard.stack(yard.boards("a", 16, 8 + 1.5 / 12), courses=(yard.course(1, 1, (8, "a + a")),))
    assert arrange(stack).faults == ()


def test_rows_wider_than_the_stack_cannot_be(yard):
    size = StackSize(length=yard.feet(16), width=yard.feet(4), boards_apart=yard.inches(1))
    stack = yard.stack(yard.boards("a", 16, 16), size=size, courses=(yard.course(1, 2, (8, "a")),))
    (fault,) = arrange(stack).faults
    assert fault.kind is FaultKind.VALUE_OUT_OF_RANGE
    assert fault.found.value == pytest.approx((8 * 6 + 7) * ONE_INCH)


def test_boards_of_random_width_are_judged_by_the_narrowest_they_can_be(yard):
    """Eight boards of 5 to 9 in may lie in 48 in, ten cannot."""
    may = yard.stack(yard.boards("a", 8, 16, width=(5, 9)), courses=(yard.course(1, 1, (8, "a")),))
    cannot = yard.stack(yard.boards("a", 10, 16, width=(5, 9)), courses=(yard.course(1, 1, (10, "a")),))
    assert arrange(may).faults == ()
    assert [fault.kind for fault in arrange(cannot).faults] == [FaultKind.VALUE_OUT_OF_RANGE]


@pytest.mark.parametrize(
    ("spans", "words"),
    [
        (((1, 2), (4, 4)), "Course 3 is missing"),
        (((1, 2), (2, 3)), "Course 2 is laid twice"),
        (((2, 3),), "Course 1 is missing"),
        (((1, 1), (3, 2)), "run backwards"),
    ],
)
def test_courses_are_numbered_without_gap_or_overlap(yard, spans, words):
    written = tuple(yard.course(first, last, (1, "a")) for first, last in spans)
    laid = arrange(yard.stack(yard.boards("a", 40, 16), courses=written))
    assert [fault.kind for fault in laid.faults] == [FaultKind.BOARDS_DO_NOT_FIT]
    assert words in laid.faults[0].message


def test_a_course_that_could_not_be_read_leaves_no_gap(yard):
    written = (yard.course(1, 2, (1, "a")), yard.course(4, 4, (1, "a")))
    assert arrange(yard.stack(yard.boards("a", 40, 16), courses=written, faulty=frozenset({"course"}))).faults == ()


def test_boards_of_several_lengths_are_chosen_so_that_rows_fill(yard):
    """Lengths of 6, 7, 8, 9 and 10 ft, four of each: 6 + 10, 7 + 9 and 8 + 8 fill 16 ft and use them all."""
    stack = yard.stack(yard.boards("a", 20, (6, 10)), courses=(yard.course(1, 2, (5, "a + a")),))
    laid = arrange(stack)
    assert laid.unpaired == ()
    assert laid.course_count == 2
    assert all(sum(number for number, _ in labels(course)) == 5 for course in laid.courses)
    lengths = Counter()
    for course in laid.courses:
        for rows in course.rows:
            lengths[tuple(round(piece.length / ONE_FOOT) for piece in rows.row.pieces)] += rows.count * course.count
    assert {tuple(sorted(pair)) for pair in lengths} == {(6, 10), (7, 9), (8, 8)}


def test_rows_of_three_boards_of_many_lengths_are_filled_too(yard):
    """Thirteen lengths from 2 to 14 ft, six of each: 2 + 2 + 12, 3 + 3 + 10, 4 + 5 + 7 ft and so on."""
    stack = yard.stack(yard.boards("a", 78, (2, 14)), courses=(yard.course(1, 1, (8, "a + a + a")),))
    (course, *_) = arrange(stack).courses
    assert sum(rows.count for rows in course.rows) == 8
    assert all(fills(sum(piece.length for piece in rows.row.pieces), 16 * ONE_FOOT) for rows in course.rows)


def test_a_million_courses_are_laid_as_far_as_the_boards_go(yard):
    stack = yard.stack(yard.boards("a", 16, 16), courses=(yard.course(1, 1_000_000, (8, "a")),))
    laid = arrange(stack)
    assert laid.course_count == 2
    assert len(laid.faults) == 1


WRITTEN = st.lists(
    st.tuples(
        st.integers(0, 6),
        st.integers(0, 3),
        st.lists(st.tuples(st.integers(1, 5), st.lists(st.sampled_from("abcz"), min_size=1, max_size=3)), min_size=1),
    ),
    max_size=4,
)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.integers(1, 30), min_size=3, max_size=3), WRITTEN)
def test_whatever_is_written_every_board_listed_stands_once(yard, counts, written):
    boards = (yard.boards("a", counts[0], 8), yard.boards("b", counts[1], (4, 12)), yard.boards("c", counts[2], 17))
    courses = tuple(
        yard.course(first, first + more, *((number, " + ".join(labels)) for number, labels in rows))
        for first, more, rows in written
    )
    laid = arrange(yard.stack(*boards, courses=courses))
    stood = Counter()
    for course in laid.courses:
        assert course.rows
        for rows in course.rows:
            assert rows.count > 0
            for piece in rows.row.pieces:
                stood[piece.label] += rows.count * course.count
    assert stood == dict(zip("abc", counts, strict=True))
