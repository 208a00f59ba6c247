"""Mends are looked for with bounded work, and what is left over for that reason says so."""

from __future__ import annotations

import datetime

import pytest

from stacklint.mending import mended, trial

TODAY = datetime.date(2026, 6, 1)
PLAN = 'pile "A"\n  place open yard\n  boards a: 32 of white ash 4/4 x 6 in x 8 ft, green\n  stack 16 ft x 4 ft\n'


def spent() -> tuple[int, str]:
    """The characters that the mends of the plan take, with the sentences of what is left."""
    characters = 0
    check = trial.check

    def counting(text: str, *rest: object, **more: object) -> object:
        nonlocal characters
        characters += len(text)
        return check(text, *rest, **more)  # type: ignore[arg-type]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(trial, "check", counting)
        left = mended(PLAN, today=TODAY).left
    return characters, " ".join(each.sentence for each in left)


def test_a_small_plan_takes_far_less_than_the_limit() -> None:
    characters, said = spent()
    assert characters < trial.MOST_CHECKED / 100
    assert "were checked" not in said


@pytest.mark.parametrize("more", [pytest.param(-1, id="below"), pytest.param(0, id="at"), pytest.param(1, id="above")])
def test_checks_are_remembered_up_to_the_limit(more: int, monkeypatch: pytest.MonkeyPatch) -> None:
    texts = [f"{PLAN}# {number}\n" for number in range(4)]
    monkeypatch.setattr(trial, "MOST_KEPT", sum(map(len, texts)) - more)
    checker = trial.Checker("-", None, TODAY, None)
    for text in texts:
        checker.check(text)
    checker.check(texts[-1])
    checker.check(texts[0])
    assert checker.checks == 4 + (more > 0)


@pytest.mark.parametrize("more", [pytest.param(-1, id="below"), pytest.param(0, id="at"), pytest.param(1, id="above")])
def test_no_mend_is_looked_for_once_more_was_checked_than_the_limit(more: int, monkeypatch: pytest.MonkeyPatch) -> None:
    # The first check, which finds what is to be mended, takes the plan as it stands.
    monkeypatch.setattr(trial, "MOST_CHECKED", len(PLAN) - more)
    characters, said = spent()
    assert (characters == len(PLAN)) == (more > 0)
    if more > 0:
        assert "No mend was looked for any more" in said
