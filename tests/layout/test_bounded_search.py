"""The search for the best rows is bounded, for one stack and for all the stacks of a text together."""

from __future__ import annotations

import datetime
import random

import pytest

from stacklint.checking import check
from stacklint.layout import matching
from stacklint.layout.matching import WORK, match
from stacklint.layout.program import Best, Program, maximise


def lengths(seed: int) -> dict[int, int]:
    """Boards of many lengths, none of which fits its neighbours well (hundredths of a millimetre)."""
    made = random.Random(seed)
    return {made.randrange(60_000, 300_000): made.randrange(1, 9) for _ in range(40)}


def test_with_less_leave_to_search_no_more_boards_are_taken() -> None:
    for seed in range(6):
        counts = lengths(seed)
        taken = [sum(len(row.lengths) * row.count for row in match(counts, 487_000, 488_000, work).rows)
                 for work in (WORK // 50, WORK)]  # fmt: skip
        assert taken[0] <= taken[1]


def test_a_search_that_was_ended_is_not_called_the_best() -> None:
    assert not all(match(lengths(seed), 487_000, 488_000, 1000).proven for seed in range(6))


def pile(name: str, thicknesses: int = 1) -> str:
    boards = "".join(
        f"  boards b{length}t{thick}: 7 of white ash {4 + thick}/4 x 6 in x {length} in, green\n"
        for thick in range(thicknesses)
        for length in (37, 41, 53, 59, 61, 67, 71, 97)
    )
    return f'pile "{name}"\n  stack 16 ft x 4 ft\n{boards}'


def granted(text: str, monkeypatch: pytest.MonkeyPatch) -> int:
    """What all searches of a text together were given leave for."""
    given: list[int] = []

    def noted(program: Program, start: list[int], work: int, step: int = 1) -> Best:
        given.append(work)
        return maximise(program, start, work, step)

    monkeypatch.setattr(matching, "maximise", noted)
    check(text, today=datetime.date(2026, 6, 1))
    return sum(given)


def test_stacks_of_one_text_share_what_a_few_dozen_may_search(monkeypatch: pytest.MonkeyPatch) -> None:
    one = granted(pile("A"), monkeypatch)
    many = granted("".join(pile(f"B{number}") for number in range(120)), monkeypatch)
    assert 0 < one <= 2 * WORK
    assert one < many <= 31 * one


def test_thicknesses_of_one_stack_share_what_it_may_search(monkeypatch: pytest.MonkeyPatch) -> None:
    assert granted(pile("A", 6), monkeypatch) <= granted(pile("A"), monkeypatch)
