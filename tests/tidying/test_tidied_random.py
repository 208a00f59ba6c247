"""Whatever a plan's text looks like, tidying it changes nothing that it says."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from messy_texts import Messy, messy_texts
from random_plans import plans
from random_words import TODAY

from stacklint.language import ReadPlan, read
from stacklint.language.write import write
from stacklint.tidying import tidied

random_texts = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
many_random_texts = settings(random_texts, max_examples=400)


def faults(plan: ReadPlan) -> Counter[tuple[object, ...]]:
    """The faults apart from their places: those move with their lines."""
    return Counter(fault._replace(where=None) for fault in plan.faults)  # type: ignore[arg-type]


def is_the_same_plan_laid_out(messy: Messy) -> None:
    before, after = read(messy.text, today=TODAY), read(tidied(messy.text), today=TODAY)
    assert after.plan == before.plan
    assert after.system is before.system
    assert faults(after) == faults(before)


def keeps_each_comment_once(messy: Messy) -> None:
    text = tidied(messy.text)
    for comment in messy.comments:
        assert text.count(comment) == 1
    assert text.count("<") == messy.text.count("<")


def is_laid_out_for_good(messy: Messy) -> None:
    text = tidied(messy.text)
    assert tidied(text) == text


def leaves_what_cannot_be_read(messy: Messy) -> None:
    slips = iter(messy.slips)
    slip = next(slips, None)
    for line in tidied(messy.text).split("\n"):
        if slip is not None and line == slip:
            slip = next(slips, None)
    assert slip is None


TEXTS = [pytest.param(messy_texts(), id="sound"), pytest.param(messy_texts(slips=True), id="with slips")]
KEPT = [is_the_same_plan_laid_out, keeps_each_comment_once, is_laid_out_for_good, leaves_what_cannot_be_read]


@pytest.mark.parametrize("kept", KEPT)
@pytest.mark.parametrize("texts", TEXTS)
def test_any_tidied_text(kept, texts) -> None:
    random_texts(given(texts)(kept))()


@pytest.mark.slow
@pytest.mark.parametrize("kept", KEPT)
@pytest.mark.parametrize("texts", TEXTS)
def test_any_tidied_text_of_very_many(kept, texts) -> None:
    many_random_texts(given(texts)(kept))()


@random_texts
@given(plans())
def test_what_the_package_writes_is_tidy_but_for_long_lines(plan) -> None:
    text = write(plan)
    assert "\n".join(_joined(tidied(text))) == text


def _joined(text: str) -> list[str]:
    """The lines of a text, each with those that it goes on over."""
    lines: list[str] = []
    for line in text.split("\n"):
        if lines and lines[-1].endswith(","):
            lines[-1] += f" {line.strip()}"
        else:
            lines.append(line)
    return lines


@random_texts
@given(messy_texts(slips=True), st.sampled_from(["\r\n", "\r"]))
def test_line_ends_and_a_byte_order_mark_are_kept(messy, ending) -> None:
    text = f"{messy.text}\n"
    assert tidied("\ufeff" + text.replace("\n", ending)) == "\ufeff" + tidied(text).replace("\n", ending)


@given(st.text(st.sampled_from('ab ,#"\n\t:x14inpile—é\u2028\x85')))
def test_any_text_at_all_is_laid_out_for_good_and_says_the_same(text) -> None:
    once = tidied(text)
    assert tidied(once) == once
    assert faults(read(once)) == faults(read(text))


@given(st.lists(st.sampled_from(["Dear Joe,", "", "the oak came in today", "  - 40 boards", "* two bundles"])))
def test_a_letter_is_left_as_it_stands(lines) -> None:
    text = "\n".join(lines)
    assert tidied(text) == (text if text.strip() else "")
