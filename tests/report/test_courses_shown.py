"""A tall stack is drawn in part: what a finding marks is never left out."""

from hypothesis import given
from hypothesis import strategies as st

from stacklint.findings import Mark, Part
from stacklint.report.courses_shown import MOST, Hidden, shown


def test_a_low_stack_is_drawn_whole_from_the_top_down(yard):
    assert shown(yard.arranged(6).courses, []) == (6, 5, 4, 3, 2, 1)


def test_a_tall_stack_shows_its_ends_and_counts_what_is_between(yard):
    drawn = shown(yard.arranged(30, broken=False).courses, [])
    assert drawn == (30, 29, 28, Hidden(24, True), 3, 2, 1)
    assert drawn[3].words == "24 courses more like this"


def test_courses_laid_otherwise_are_not_said_to_be_like_those_drawn(yard):
    (hidden,) = [each for each in shown(yard.arranged(40).courses, []) if isinstance(each, Hidden)]
    assert hidden.alike
    marked = shown(yard.arranged(40).courses, [Mark(Part.COURSE, 20, 20)])
    assert 20 in marked


def test_the_course_of_a_finding_is_drawn(yard):
    assert 17 in shown(yard.arranged(30).courses, [Mark(Part.COURSE, 17, 17, 0.0, 1.0)])


@given(count=st.integers(2, 300), marked=st.lists(st.integers(1, 300), max_size=30))
def test_drawn_and_hidden_courses_add_up_and_fit_a_screen(yard, count, marked):
    drawn = shown(yard.arranged(count).courses, [Mark(Part.COURSE, course, course) for course in marked])
    told = [each for each in drawn if isinstance(each, int)]
    assert len(told) + sum(each.count for each in drawn if isinstance(each, Hidden)) == count
    assert told == sorted(told, reverse=True)
    assert told[0] == count
    assert told[-1] == 1
    assert len(told) <= 2 * MOST
