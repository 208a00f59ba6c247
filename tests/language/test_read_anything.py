"""Whatever a text holds, reading it neither raises nor takes more than its share of work."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stacklint.language import blocks, read
from stacklint.language.line import MOST_FAULTS, Line
from stacklint.language.lines import LONGEST, MOST_LINES

TODAY = datetime.date(2026, 6, 1)
GOOD = """\
site "Cold Hollow"
  near "Columbus, OH"
  month jan -1 C 74%
kiln "North box"
  inside 17 ft x 5 ft x 6 ft
  fans 4 of 2400 cfm
wood "osage orange"
  stiffness 1,330,000 psi green, 1,660,000 psi dry
pile "B2" "Ash for flooring"
  place open yard, site "Cold Hollow"
  boards a: 60 of white ash 4/4 x 5 to 9 in x 8 ft, green, flatsawn
  stack 16 ft x 4 ft
  course 1 to 6: 8 rows of a + a
  stickers 3/4 in x 1 1/4 in, at 1 in, 2 ft, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  cover sheet metal, overhang 12 in ends, slope 1 in 12, tied
  want 12% by 2027-02-01 for flooring
  reading 2026-05-10 41%, of a
  waive stickers-wet because "dry ones come Friday" until 2026-07-01
charge "C" in kiln "North box"
  runs at 110 F / 102 F
  from pile "B2"
"""
MARKS = (
    *('"', "“", "”", "#", ",", ":", "+", "/", "x", "×", "to", "-", "1/0", "1/4", "¾", "9e9", "°F", ".5", "M", "2/4"),
    *("0", "-1", "in", "ft", "%", "lb", "\n", "\t", "\x00", "é", "²", "٣", "1,2", "9" * 400, "99999-99-99", "(", "'"),
)
FRAGMENTS = (*GOOD.split(), *MARKS)

thorough = settings(max_examples=150, deadline=None)


@thorough
@given(st.text())
def test_no_text_whatever_raises(text: str) -> None:
    read(text, today=TODAY)
    read(f'pile "B2"\nstickers {text}', today=TODAY)


@thorough
@given(st.lists(st.sampled_from(FRAGMENTS), max_size=40))
def test_no_jumble_of_the_words_of_plans_raises(words: list[str]) -> None:
    read(" ".join(words), today=TODAY)
    read(f'pile "B2"\nboards a: {" ".join(words)}', today=TODAY)


@thorough
@given(st.data())
def test_no_plan_with_a_stretch_torn_out_or_pasted_in_raises(data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(GOOD)))
    end = data.draw(st.integers(start, min(start + 12, len(GOOD))))
    pasted = data.draw(st.sampled_from(FRAGMENTS) | st.text(max_size=3))
    result = read(GOOD[:start] + pasted + GOOD[end:], today=TODAY)
    lines = (GOOD[:start] + pasted + GOOD[end:]).count("\n") + 1
    for fault in result.faults:
        assert 1 <= fault.where.line <= fault.where.end_line <= lines
        assert fault.where.column >= 1
        assert fault.message and fault.instead


def test_the_plan_that_is_torn_is_good_when_whole() -> None:
    assert read(GOOD, today=TODAY).faults == ()


def test_after_two_hundred_faults_the_rest_is_not_read(monkeypatch: pytest.MonkeyPatch) -> None:
    scanned = 0
    scan = blocks.scan

    def counting(text: str, *rest: object) -> object:
        nonlocal scanned
        scanned += 1
        return scan(text, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(blocks, "scan", counting)
    faults = read("bogus\n" * 50_000).faults
    assert len(faults) == MOST_FAULTS + 1
    assert "not listed" in faults[-1].message
    assert scanned == MOST_FAULTS


def test_a_line_of_ten_million_characters_is_one_fault_and_is_not_scanned(monkeypatch: pytest.MonkeyPatch) -> None:
    taken: list[int] = []
    take = blocks.Blocks.take

    def counting(self: blocks.Blocks, line: Line) -> None:
        taken.append(len(line.text))
        take(self, line)

    monkeypatch.setattr(blocks.Blocks, "take", counting)
    result = read('pile "B2"\n' + "1," * 5_000_000 + '\nwind across\npile "B3"')
    assert [fault.where.line for fault in result.faults] == [2]
    assert max(taken) <= LONGEST
    assert [stack.name.text for stack in result.plan.stacks] == ["B2", "B3"]


def test_more_lines_than_any_plan_has_are_one_fault() -> None:
    (fault,) = read("\n" * (MOST_LINES + 50_000)).faults
    assert fault.where.line == MOST_LINES + 1


def test_a_statement_that_goes_on_for_thousands_of_lines_is_cut_off() -> None:
    faults = read('pile "B2"\nstickers 3/4 in,\n' + "dry,\n" * 50_000).faults
    assert len(faults) <= MOST_FAULTS + 1


def test_a_comma_before_each_of_thousands_of_statements_does_not_pile_up() -> None:
    faults = read('pile "B2"\n' + "wind across,\n" * 1500).faults
    assert len(faults) == MOST_FAULTS + 1


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_lines_may_end_as_any_editor_ends_them(ending: str) -> None:
    assert read(GOOD.replace("\n", ending), today=TODAY) == read(GOOD, today=TODAY)


def test_a_mark_of_the_order_of_bytes_is_passed_over() -> None:
    assert read("\ufeff" + GOOD, today=TODAY).plan == read(GOOD, today=TODAY).plan
