"""A finding is known again after a change that does not concern it, and told apart from another."""

from __future__ import annotations

import datetime
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from messy_texts import messy_texts

from stacklint.checking import check
from stacklint.report.fingerprints import fingerprints, texts_of
from stacklint.tidying import tidy

TODAY = datetime.date(2026, 6, 1)
PLANS = sorted((Path(__file__).parent.parent / "rules").glob("*/fails.stackplan"))
PILE = """\
pile "B2" "Ash for flooring"
  place open yard
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  boards b: 24 of white ash 4/4 x 6 in x 8 ft, green
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, 24 in from ends, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 24 in, gap 4 in, slope 1 in 12, tied
"""


def prints(text: str, path: str = "b2.stackplan") -> Counter[tuple[str, str]]:
    """The rules that are broken, each with the fingerprint of its finding."""
    found = check(text, path, today=TODAY).findings
    made = fingerprints(found, str, texts_of({path: text}))
    return Counter((finding.rule, fingerprint) for finding, fingerprint in zip(found, made, strict=True))


def of(rule: str, text: str) -> list[str]:
    return [fingerprint for each, fingerprint in prints(text) if each == rule]


def changed(old: str, new: str, text: str = PILE) -> str:
    assert old in text
    return text.replace(old, new)


HANGING = "end-sticker-missing"
(HANGS_A, HANGS_B) = of(HANGING, PILE)


@pytest.mark.parametrize(
    "text",
    [
        "# a yard\n\n\n" + PILE,
        changed("  stack 8 ft", "  # from the butt log\n  stack 8 ft"),
        changed("8 ft, green", "8 ft, green  # wet still"),
        changed('"Ash for flooring"', '"Ash for stairs"'),
        changed('pile "B2"', 'pile "A1"\n  boards a: 8 of white oak 8/4 x 6 in x 8 ft\n\npile "B2"'),
        changed("60 of", "75 of"),
        changed("4/4 x 6 in x 8 ft, green", "4/4x6\"x8', green, flatsawn"),
        changed("clearance 14 in", "clearance 15 in"),
        changed("24 in from ends", "20 in from ends"),
        changed("boards a: 60 of white ash", "Boards  A : 60 pcs of White Ash"),
        PILE.upper(),
        changed("  ", "\t"),
    ],
    ids=lambda text: next(
        (new for new, old in zip(text.split("\n"), PILE.split("\n"), strict=False) if new != old), ""
    ),
)
def test_a_change_of_something_else_does_not_make_a_finding_new(text: str) -> None:
    assert {HANGS_A, HANGS_B} <= set(of(HANGING, text))


def test_the_same_fault_of_other_boards_is_another_finding() -> None:
    assert HANGS_A != HANGS_B
    assert HANGS_A not in of(HANGING, changed("boards a:", "boards c:"))


def test_the_same_fault_in_another_stack_or_another_file_is_another_finding() -> None:
    assert not {HANGS_A, HANGS_B} & set(of(HANGING, changed('pile "B2"', 'pile "B3"')))
    assert not prints(PILE) & prints(PILE, "b3.stackplan")


def test_when_boards_are_taken_out_of_a_plan_only_their_finding_is_gone() -> None:
    without = changed("  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n", "")
    assert of(HANGING, without) == [HANGS_B]


MISSPELT = 'pile "A"\n  boards a: 8 of white ahs 4/4 x 6 in x 8 ft\n  boards b: 8 of red ok 4/4 x 6 in x 8 ft\n'


def test_a_word_that_is_not_known_is_told_by_the_word() -> None:
    ash, oak = of("unknown-species", MISSPELT)
    assert of("unknown-species", changed("white ahs", "white ash", MISSPELT)) == [oak]
    assert of("unknown-species", changed("red ok", "red oka", MISSPELT))[0] == ash
    assert of("unknown-species", changed("red ok", "red oka", MISSPELT))[1] != oak


def test_a_figure_in_other_units_or_spelling_is_the_same_figure() -> None:
    wet = 'pile "A"\n  boards a: 8 of white ash 4/4 x 6 in x 8 ft, 281%\n'
    for spelt in ("281 %", "281 percent", "281% MC"):
        assert of("value-out-of-range", changed("281%", spelt, wet)) == of("value-out-of-range", wet)
    assert of("value-out-of-range", changed("281%", "282%", wet)) != of("value-out-of-range", wet)


OUTSIDE = changed("every 24 in, 24 in from ends, dry, 4 ft long", "at 1 in, 4 ft, 9 ft, 10 ft")


@pytest.mark.parametrize("broken", [",\n    9 ft, 10 ft", ", 9 ft,\n  10 ft", ",\n# a note,\n\n9 ft,  # far\n10 ft"])
def test_a_detail_on_a_line_that_a_statement_goes_on_over_is_the_same_detail(broken: str) -> None:
    nine, ten = of("value-out-of-range", OUTSIDE)
    assert nine != ten
    assert of("value-out-of-range", changed(", 9 ft, 10 ft", broken, OUTSIDE)) == [nine, ten]


TWICE = 'pile "A"\n  boards a: 8 of white ahs 4/4 x 6 in x 8 ft\n  boards b: 8 of white ahs 4/4 x 6 in x 8 ft\n'


def test_of_two_findings_alike_in_all_but_their_place_the_second_is_numbered() -> None:
    first, second = of("unknown-species", TWICE)
    assert first != second


def test_when_the_first_of_two_alike_goes_the_number_of_the_second_is_no_more_found() -> None:
    """So one line of the record is told as gone, whichever of the two was mended, and the other is not new."""
    first, _ = of("unknown-species", TWICE)
    for mended in (TWICE.replace("ahs", "ash", 1), TWICE[::-1].replace("sha", "hsa", 1)[::-1]):
        assert of("unknown-species", mended) == [first]


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.parent.name)
def test_no_finding_is_new_when_its_plan_is_put_into_the_standard_layout(plan: Path) -> None:
    text = plan.read_text(encoding="utf-8")
    assert prints(tidy(text).text) == prints(text)


def without_shortages(text: str) -> Counter[tuple[str, str]]:
    """Which of two courses lacks a board depends on which is written first."""
    return Counter({key: count for key, count in prints(text).items() if key[0] != "boards-do-not-fit"})


@settings(max_examples=25, derandomize=True, database=None, phases=[Phase.generate])
@given(messy_texts(slips=True))
def test_no_finding_is_new_when_a_messy_plan_is_put_into_the_standard_layout(messy) -> None:
    assert without_shortages(tidy(messy.text).text) == without_shortages(messy.text)


@pytest.mark.slow
@settings(max_examples=1000, phases=[Phase.generate])
@given(messy_texts(slips=True))
def test_no_finding_of_many_messy_plans_is_new_in_the_standard_layout(messy) -> None:
    assert without_shortages(tidy(messy.text).text) == without_shortages(messy.text)


@settings(max_examples=40, phases=[Phase.generate])
@given(st.sampled_from(PLANS), st.data())
def test_no_finding_is_new_when_blank_lines_and_comments_come_between(plan: Path, data: st.DataObject) -> None:
    lines = plan.read_text(encoding="utf-8").split("\n")
    between = st.lists(st.sampled_from(["", "  ", "# a note", "   # stickers none, every 9 ft"]), max_size=2)
    loosened = [each for line in lines for each in (*data.draw(between), line)]
    assert prints("\n".join(loosened)) == prints("\n".join(lines))
