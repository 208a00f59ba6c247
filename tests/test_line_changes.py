"""A new layout changes only the lines that differ."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stacklint.changes import changed, line_changes

LINES = st.lists(st.sampled_from(["", "pile", "  boards", "# a", "stack"]), max_size=6).map("\n".join)


@given(LINES, LINES)
def test_the_changes_make_the_one_text_of_the_other(before, after):
    assert changed(before, line_changes(before, after)) == after


def test_lines_that_stay_are_not_touched():
    (change,) = line_changes("a\nb\nc\n", "a\nB\nc\n")
    assert (change.where.line, change.where.end_line, change.text) == (2, 3, "B\n")
