"""Stickers and courses that cannot be are told with what was found and what it is held against."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checking import check
from stacklint.findings import Finding
from stacklint.units import LENGTH, ONE_FOOT

TODAY = datetime.date(2026, 6, 1)
BOARDS = "boards a: 64 of white ash 4/4 x 6 in x 8 ft, 15%"


def told(rule: str, *said: str) -> Finding:
    text = 'pile "A"\n' + "".join(f"  {line}\n" for line in (BOARDS, "stack 16 ft x 4 ft", *said))
    (found,) = (each for each in check(text, today=TODAY).findings if each.rule == rule)
    return found


def test_outer_stickers_past_the_middle_are_told_where_the_middle_is() -> None:
    found = told("value-out-of-range", "stickers 3/4 in x 1 1/2 in, every 24 in, 9 ft from ends")
    assert found.message.endswith("would stand 9 ft from the ends, past the middle of the stack at 8 ft.")
    assert found.found == (pytest.approx(9 * ONE_FOOT), LENGTH)
    assert found.limit == (pytest.approx(8 * ONE_FOOT), LENGTH)


def test_a_row_longer_than_the_stack_is_told_with_both_lengths() -> None:
    found = told("boards-do-not-fit", "stickers 3/4 in x 1 1/2 in, every 24 in", "course 1: 8 rows of a + a + a")
    assert found.message == "A row of a + a + a is 24 ft long, but the stack is 16 ft long."
    assert found.found == (pytest.approx(24 * ONE_FOOT), LENGTH)
    assert found.limit == (pytest.approx(16 * ONE_FOOT), LENGTH)


@pytest.mark.parametrize(
    ("courses", "line", "instead"),
    [
        (("course 1: 8 rows of a + a", "course 1: 8 rows of a + a"), 6, "Begin these courses at 2."),
        (("course 3 to 4: 16 rows of a + a",), 5, "Begin these courses at 1, or write what lies under them."),
    ],
)
def test_courses_out_of_their_order_are_told_where_they_stand(
    courses: tuple[str, ...], line: int, instead: str
) -> None:
    text = 'pile "A"\n' + "".join(
        f"  {each}\n" for each in (BOARDS, "stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/2 in, every 24 in", *courses)
    )
    told = {
        (each.where.line, each.instead)
        for each in check(text, today=TODAY).findings
        if each.rule in ("boards-do-not-fit", "value-out-of-range")
    }
    assert (line, instead) in told
