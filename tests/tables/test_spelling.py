"""Slips of the pen are found by likeness, and a name of any length costs little."""

from __future__ import annotations

from difflib import SequenceMatcher

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.tables import places, woods
from stacklint.tables.spelling import alike, plain

NAMES = ("whiteash", "whiteoak", "redoak", "sugarmaple", "douglasfir", "ash", "easternwhitepine")


_SHUFFLED = st.sampled_from(NAMES).flatmap(st.permutations).map("".join)


@given(st.text("abcehiklmorstuw", max_size=30) | _SHUFFLED)
def test_what_is_passed_over_is_never_like(written: str) -> None:
    every = [(SequenceMatcher(None, written, name).ratio(), name) for name in NAMES]
    assert list(alike(written, NAMES, 0.6)) == [each for each in every if each[0] >= 0.6]


@pytest.mark.parametrize("nearest", [woods.nearest, places.nearest])
@pytest.mark.parametrize("length", [1_000, 20_000])
def test_a_name_of_thousands_of_letters_is_compared_with_none(nearest, length, monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[SequenceMatcher[str]] = []
    ratio = SequenceMatcher.ratio
    monkeypatch.setattr(SequenceMatcher, "ratio", lambda matcher: compared.append(matcher) or ratio(matcher))
    assert nearest("white ahs") and compared
    compared.clear()
    assert nearest("burlington white ash "[: length % 19 + 2] * (length // 2)) == ()
    assert compared == []


def test_case_spaces_and_plurals_make_no_difference() -> None:
    assert plain("White-Oaks") == plain("white oak") == "whiteoak"
