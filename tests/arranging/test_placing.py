"""Courses go into a plan's text in place of its own, and nothing else changes."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from random_plans import plans

from stacklint.arranging.placing import course_changes
from stacklint.changes import changed
from stacklint.language import read
from stacklint.language.write import write
from stacklint.plan.boards import CourseRows, Courses
from stacklint.plan.node import Name
from stacklint.plan.yard import Plan


def courses(*rows: tuple[int, int, int, str]) -> tuple[Courses, ...]:
    """First and last course, number of rows, labels."""
    return tuple(
        Courses(
            first=first,
            last=last,
            rows=(CourseRows(count=count, labels=tuple(Name(text=label) for label in labels.split("+"))),),
        )
        for first, last, count, labels in rows
    )


ONE = courses((1, 6, 8, "a+a"))
TWO = courses((1, 6, 8, "a+a"), (7, 7, 4, "b+c"))


def put(text: str, new: tuple[Courses, ...], stack: int = 0) -> str:
    plan = read(text).plan
    return changed(text, course_changes(text, plan, plan.stacks[stack], new))


BARE = """\
pile "B2"
    boards a: 96 of white ash 4/4 x 6 in x 8 ft, green   # from the north lot
    stack 16 ft x 4 ft   # on gravel
    stickers 3/4 in x 1 1/4 in
"""


def test_courses_come_below_the_size_at_its_indent() -> None:
    assert put(BARE, TWO) == BARE.replace(
        "# on gravel\n",
        "# on gravel\n    course 1 to 6: 8 rows of a + a\n    course 7: 4 rows of b + c\n",
    )


def test_without_a_size_they_come_below_the_last_boards() -> None:
    text = 'pile "B2"\n  boards a: 3 of white ash 4/4 x 6 in x 8 ft,\n    green\n\npile "B3"\n  stack 16 ft x 4 ft\n'
    assert put(text, ONE) == text.replace("    green\n", "    green\n  course 1 to 6: 8 rows of a + a\n")


def test_a_charge_with_a_piles_boards_has_its_courses_in_its_own_block() -> None:
    text = (
        'pile "B2"\n  boards a: 96 of white ash 4/4 x 6 in x 8 ft\n  stack 16 ft x 4 ft\n\n'
        'charge "C"\n  from pile "B2"\n'
    )
    assert put(text, ONE, stack=1) == text.replace('charge "C"\n', 'charge "C"\n  course 1 to 6: 8 rows of a + a\n')


WRITTEN = """\
pile "B2"
  boards a: 96 of white ash 4/4 x 6 in x 8 ft
  course 1: 3 rows of a + a   # by hand
  stack 16 ft x 4 ft
\tcourse 2 to 3: 2 rows of a,   # the knotty ones
\t  4 rows of a + a
  course 4: 1 row of a
# the end
"""


def test_courses_take_the_places_of_those_that_stand_there() -> None:
    assert put(WRITTEN, TWO) == (
        'pile "B2"\n'
        "  boards a: 96 of white ash 4/4 x 6 in x 8 ft\n"
        "  course 1 to 6: 8 rows of a + a   # by hand\n"
        "  stack 16 ft x 4 ft\n"
        "\t# the knotty ones\n"
        "\tcourse 7: 4 rows of b + c\n"
        "# the end\n"
    )


def test_a_statement_that_goes_leaves_its_comment() -> None:
    after = put(WRITTEN, ONE)
    assert "# the knotty ones" in after
    assert "# by hand" in after
    assert after.count("course") == 1
    assert after.endswith("# the knotty ones\n# the end\n")


def test_courses_that_need_more_lines_follow_the_last_that_stood_there() -> None:
    text = 'pile "B2"\n  course 1: 3 rows of a   # low\n  stack 16 ft x 4 ft'
    assert put(text, TWO) == (
        'pile "B2"\n  course 1 to 6: 8 rows of a + a   # low\n  course 7: 4 rows of b + c\n  stack 16 ft x 4 ft'
    )


def test_the_last_line_of_a_text_goes_with_its_line_end() -> None:
    text = 'pile "B2"\n  course 1: 3 rows of a\n  course 2: 3 rows of a'
    assert put(text, ONE) == 'pile "B2"\n  course 1 to 6: 8 rows of a + a'


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_a_byte_order_mark_stay(ending: str, mark: str) -> None:
    text = mark + BARE.replace("\n", ending)
    plan = read(BARE).plan
    after = changed(text, course_changes(text, plan, plan.stacks[0], TWO))
    assert after == mark + put(BARE, TWO).replace("\n", ending)


@settings(max_examples=60, deadline=None)
@given(plans(), st.data())
def test_a_plan_with_courses_put_in_says_all_else_as_before(plan: Plan, data: st.DataObject) -> None:
    text = write(plan)
    before = read(text).plan
    able = [place for place, stack in enumerate(before.stacks) if stack.boards]
    if not able:
        return
    place = data.draw(st.sampled_from(able))
    stack = before.stacks[place]
    own = [
        boards.label for boards in stack.boards if boards.where.line > stack.where.line and "." not in boards.label.text
    ]
    if not own:
        return
    labels = st.lists(st.sampled_from(own), min_size=1, max_size=3).map(tuple)
    rows = st.builds(CourseRows, count=st.integers(1, 9), labels=labels)
    number = data.draw(st.integers(1, 4))
    new = tuple(
        Courses(first=first, last=first, rows=tuple(data.draw(st.lists(rows, min_size=1, max_size=3))))
        for first in range(1, number + 1)
    )
    after = read(put(text, new, place)).plan
    stacks = list(before.stacks)
    stacks[place] = stack.model_copy(update={"courses": new})
    assert after == before.model_copy(update={"stacks": tuple(stacks)})
