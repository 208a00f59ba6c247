"""Facts of a whole stack: what it weighs, what covers it, what could not be read of it."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.engineering.facts import StackFacts
from stacklint.engineering.wind import cover_uplift
from stacklint.units import ONE_FOOT, ONE_INCH, ONE_POUND, Unit

TODAY = datetime.date(2026, 6, 1)
BUILT = (
    "boards a: 64 of white ash 4/4 x 6 in x 8 ft, green",
    "stack 16 ft x 4 ft",
    "stickers 3/4 in x 1 1/2 in, every 24 in, dry",
)


def pile(*said: str) -> CheckedPlan:
    return check('pile "A"\n' + "".join(f"  {line}\n" for line in (*BUILT, *said)), today=TODAY)


def facts(plan: CheckedPlan) -> StackFacts:
    found = plan.stacks[0].facts
    assert found is not None
    return found


def rules(plan: CheckedPlan) -> set[str]:
    return {finding.rule for finding in plan.findings}


@pytest.mark.parametrize("said", [(), ("top load straps",)])
def test_a_stack_without_weights_and_cover_weighs_what_its_boards_weigh(said: tuple[str, ...]) -> None:
    found = facts(pile(*said))
    assert found.load == found.mass_now
    assert found.top_pressure == 0.0


def test_weights_are_loaded_on_the_whole_top_of_the_stack() -> None:
    """30 psf on 16 ft x 4 ft are 1,920 lb."""
    found = facts(pile("top load 30 psf"))
    assert found.load is not None and found.mass_now is not None
    assert found.load - found.mass_now == pytest.approx(1920 * ONE_POUND)
    assert found.top_pressure == pytest.approx(Unit.PSF.to_si(30))
    assert facts(pile("top load 1920 lb")).top_pressure == pytest.approx(Unit.PSF.to_si(30))


def test_a_top_load_that_could_not_be_read_is_not_taken_for_none() -> None:
    plan = pile("place attic", "top load plenty")
    assert facts(plan).top_pressure is None
    assert "plan-text" in rules(plan) and "top-unweighted" not in rules(plan)
    assert "top-unweighted" in rules(pile("place attic"))


def test_a_cover_that_could_not_be_read_is_not_taken_for_none() -> None:
    plan = pile("place open yard", "cover wishful thinking")
    assert facts(plan).no_cover is None
    assert "plan-text" in rules(plan) and "no-cover" not in rules(plan)
    assert "no-cover" in rules(pile("place open yard"))


def test_the_wind_lifts_a_cover_by_its_overhang_at_the_ends_and_at_the_sides() -> None:
    cover = facts(pile("cover sheet metal, overhang 24 in ends, 6 in sides, gap 4 in, slope 1 in 12")).cover
    assert cover is not None
    assert cover.kind == "sheet metal"
    area = (16 * ONE_FOOT + 48 * ONE_INCH) * (4 * ONE_FOOT + 12 * ONE_INCH)
    assert cover.uplift == pytest.approx(cover_uplift(area))


def test_a_cover_weighs_by_its_area_overhangs_included() -> None:
    def held(overhang: str) -> float:
        cover = facts(pile(f"cover sheet metal, overhang {overhang}, gap 4 in, slope 1 in 12")).cover
        assert cover is not None and cover.holds_down is not None
        return cover.holds_down

    assert held("24 in ends, 6 in sides") / held("12 in") == pytest.approx((20 * 5) / (18 * 6))


def test_lengths_of_which_no_row_fills_the_stack_are_told_with_its_length() -> None:
    plan = check(
        'pile "A"\n  boards a: 12 of white ash 4/4 x 6 in x 7 ft, 15%\n  stack 16 ft x 4 ft\n  stickers none\n',
        today=TODAY,
    )
    assert facts(plan).matching == "none that fill 16 ft"


def test_a_charge_that_names_no_kiln_is_told_to_name_it() -> None:
    plan = check('charge "A"\n' + "".join(f"  {line}\n" for line in BUILT), today=TODAY)
    (note,) = (each for each in plan.assumptions if each.text.startswith("The charge names no kiln"))
    assert note.topic == "in kiln"
