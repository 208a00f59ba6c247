"""Changes of a text at named places, and the difference of two texts."""

import shutil
import subprocess

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stacklint.changes import Change, changed, diff, line_end
from stacklint.language import read
from stacklint.where import Where

PLAN = 'pile "B2"\n  clearance 10 in\n  wind along\n'


def at(line, column, end_line, end_column):
    return Where("-", line, column, end_line, end_column)


def test_a_figure_is_changed_where_it_stands_and_nothing_else_is():
    (stack,) = read(PLAN).plan.stacks
    change = Change(stack.clearance.height.where, "14 in")
    assert changed(PLAN, [change]) == 'pile "B2"\n  clearance 14 in\n  wind along\n'


def test_places_are_those_of_the_text_before_any_change_in_whatever_order_they_come():
    changes = [Change(at(3, 8, 3, 13), "across"), Change(at(2, 3, 2, 18), "clearance 1 ft")]
    expected = 'pile "B2"\n  clearance 1 ft\n  wind across\n'
    assert changed(PLAN, changes) == expected
    assert changed(PLAN, reversed(changes)) == expected


def test_an_empty_place_takes_what_is_put_in_and_two_insertions_keep_their_order():
    here = at(2, 1, 2, 1)
    put = [Change(here, "  sawn 2026-03-30\n"), Change(here, "  stacked 2026-04-02\n")]
    assert changed(PLAN, put).splitlines()[:3] == ['pile "B2"', "  sawn 2026-03-30", "  stacked 2026-04-02"]


def test_a_line_is_taken_out_from_its_first_column_to_the_first_of_the_next():
    assert changed(PLAN, [Change(at(2, 1, 3, 1), "")]) == 'pile "B2"\n  wind along\n'


def test_the_end_of_the_text_is_a_place():
    assert changed(PLAN, [Change(at(4, 1, 4, 1), "  ends coated\n")]) == PLAN + "  ends coated\n"


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_line_ends_and_a_byte_order_mark_stay_and_what_is_put_in_takes_the_same_ends(ending):
    text = "\ufeff" + PLAN.replace("\n", ending)
    changes = [Change(at(1, 6, 1, 10), '"B3"'), Change(at(4, 1, 4, 1), "  ends coated\n  wind across\n")]
    expected = 'pile "B3"\n  clearance 10 in\n  wind along\n  ends coated\n  wind across\n'
    assert changed(text, changes) == "\ufeff" + expected.replace("\n", ending)
    assert line_end(text) == ending


def test_a_byte_order_mark_does_not_move_the_places_of_the_first_line():
    (fault,) = read("\ufeffpyle\n").faults
    assert fault.where == read("pyle\n").faults[0].where
    assert changed("\ufeffpyle\n", [Change(fault.where, 'pile "B2"')]) == '\ufeffpile "B2"\n'


def test_changes_that_overlap_are_refused():
    with pytest.raises(ValueError, match="overlap"):
        changed(PLAN, [Change(at(2, 3, 2, 18), ""), Change(at(2, 13, 2, 15), "14")])


@pytest.mark.parametrize("place", [at(9, 1, 9, 2), at(1, 1, 1, 40), at(0, 1, 0, 1), at(1, 0, 1, 1), at(2, 5, 2, 3)])
def test_a_place_that_the_text_does_not_have_is_refused(place):
    with pytest.raises(ValueError):
        changed(PLAN, [Change(place, "x")])


def test_a_difference_is_shown_as_a_unified_diff():
    assert diff(PLAN, PLAN.replace("10", "14"), "b2.stackplan") == (
        "--- b2.stackplan\n"
        "+++ b2.stackplan\n"
        "@@ -1,3 +1,3 @@\n"
        ' pile "B2"\n'
        "-  clearance 10 in\n"
        "+  clearance 14 in\n"
        "   wind along\n"
    )


def test_texts_that_are_the_same_have_no_difference():
    assert diff(PLAN, PLAN, "b2.stackplan") == ""


LINES = st.lists(st.sampled_from(["a", "b", "# c", "", "x y"]), max_size=12)


@pytest.mark.skipif(shutil.which("patch") is None, reason="the standard tool patch is not installed")
@settings(max_examples=60, deadline=None)
@given(LINES, LINES, st.booleans(), st.booleans())
def test_the_difference_brings_the_first_text_to_the_second_by_the_standard_tool(
    tmp_path_factory, first, second, first_ended, second_ended
):
    """``patch`` of POSIX.1-2024 (Shell & Utilities) reads what is written here."""
    before, after = ("\n".join(lines) + "\n" * ended for lines, ended in ((first, first_ended), (second, second_ended)))
    folder = tmp_path_factory.mktemp("patched")
    (folder / "plan").write_text(before, newline="")
    said = diff(before, after, "plan")
    if not said:
        assert before == after
        return
    subprocess.run(["patch", "-s", "-p0"], input=said.encode(), cwd=folder, check=True, capture_output=True)
    there = (folder / "plan").read_text() if (folder / "plan").exists() else ""
    assert there == after
