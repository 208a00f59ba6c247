"""Facts of what a stack stands on: what its sticker lines, bearers and pads carry, and where they are marked."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.engineering.facts import StackFacts
from stacklint.units import GRAVITY, ONE_INCH, Unit

TODAY = datetime.date(2026, 6, 1)
BUILT = (
    "boards a: 64 of white ash 4/4 x 6 in x 8 ft, green",
    "stack 16 ft x 4 ft",
    "stickers 3/4 in x 1 1/2 in, every 24 in, dry",
    "bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads",
)


def checked(*said: str) -> CheckedPlan:
    return check('pile "A"\n' + "".join(f"  {line}\n" for line in (*BUILT, *said)), today=TODAY)


def facts_of(plan: CheckedPlan) -> StackFacts:
    facts = plan.stacks[0].facts
    assert facts is not None
    return facts


def test_the_sticker_lines_carry_the_whole_stack_between_them() -> None:
    facts = facts_of(checked())
    assert facts.load is not None
    assert sum(line.load or 0.0 for line in facts.lines) == pytest.approx(facts.load * GRAVITY)


def test_the_bearers_carry_the_whole_stack_between_them() -> None:
    facts = facts_of(checked())
    assert sum(bearer.load or 0.0 for bearer in facts.bearers) == pytest.approx(facts.load)


def test_ground_that_could_not_be_read_is_presumed_to_bear_nothing_known() -> None:
    plan = checked("ground quagmire, flat")
    assert "plan-text" in {finding.rule for finding in plan.findings}
    assert {pad.bears for pad in facts_of(plan).pads} == {None}


def test_of_ground_that_was_read_in_part_the_kind_still_tells_what_it_bears() -> None:
    """IBC 2012 Table 1806.2: sand 2,000 psf."""
    plan = checked("ground sand, purple")
    assert "plan-text" in {finding.rule for finding in plan.findings}
    assert facts_of(plan).pads[0].bears == pytest.approx(Unit.PSF.to_si(2000))


def test_a_sag_is_marked_on_its_courses_between_its_two_stickers() -> None:
    plan = check(
        'pile "A"\n  boards a: 64 of white ash 4/4 x 6 in x 16 ft, green\n  stack 16 ft x 4 ft\n'
        "  stickers 3/4 in x 1 1/2 in, every 48 in, dry\n  top load 100 psf\n",
        today=TODAY,
    )
    sag = next(finding for finding in plan.findings if finding.rule == "sag-between-stickers")
    assert sag.marks
    for mark in sag.marks:
        assert mark.first_course is not None and mark.last_course is not None
        assert mark.start is not None and mark.end is not None
        assert 1 <= mark.first_course <= mark.last_course
        assert 40 * ONE_INCH < mark.end - mark.start < 50 * ONE_INCH
