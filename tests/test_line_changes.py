"""A new layout changes only the lines that differ."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint import changes
from stacklint.changes import MOST_COMPARED, changed, diff, line_changes

LINES = st.lists(st.sampled_from(["", "pile", "  boards", "# a", "stack"]), max_size=6).map("\n".join)


@given(LINES, LINES)
def test_the_changes_make_the_one_text_of_the_other(before, after):
    assert changed(before, line_changes(before, after)) == after


def test_lines_that_stay_are_not_touched():
    (change,) = line_changes("a\nb\nc\n", "a\nB\nc\n")
    assert (change.where.line, change.where.end_line, change.text) == (2, 3, "B\n")


@given(LINES, LINES)
def test_of_more_lines_than_are_compared_all_between_count_as_changed(before, after):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(changes, "MOST_COMPARED", 2)
        assert changed(before, line_changes(before, after)) == after
        assert len(line_changes("a\nb\nc\nd\ne\n", "a\nB\nc\nD\ne\n")) == 1
        assert len(line_changes("a\nb\nc\nd\n", "a\nB\nc\nd\n")) == 1


@pytest.mark.parametrize("more, found", [(-1, 2), (0, 2), (1, 1)])
def test_ten_thousand_lines_are_compared_one_by_one_and_no_more(more, found):
    lines = [f"line {number}" for number in range(MOST_COMPARED + more)]
    before = "\n".join(["first", *lines, "last", ""])
    after = "\n".join(["first", "A", *lines[1:-1], "Z", "last", ""])
    assert len(line_changes(before, after)) == found
    assert diff(before, after, "plan").count("@@ -") == found


def test_a_line_that_stands_all_over_a_long_text_is_not_looked_for_place_by_place():
    blocks = "".join(f'pile "P{number}"\n  wind across\n' for number in range(2000))
    old, new = blocks.split("\n"), blocks.replace("\npile", "\n\npile").split("\n")
    places = changes._compared(old, new).b2j.values()
    assert max(map(len, places)) <= len(new) / 100
