"""The whole road: any text in, findings out."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.drying.forecast import Forecast
from stacklint.findings import Level

TODAY = datetime.date(2026, 6, 1)
PILES = Path(__file__).parent.parent / "examples"
SOUND = (PILES / "sound-charge.stackplan").read_text(encoding="utf-8")
WORDS = sorted({word for path in PILES.rglob("*.stackplan") for word in path.read_text(encoding="utf-8").split()})


def _rules(plan: CheckedPlan) -> set[str]:
    return {finding.rule for finding in plan.findings}


def _floor_stack(stickers: str, board: str = "4/4 x 6 in x 16 ft", moisture: str = "green") -> str:
    return (
        'pile "A"\n  place garage\n'
        f"  boards a: 32 of white ash {board}, {moisture}\n  stack 16 ft x 4 ft\n"
        f"  stickers 3/4 in x 1 1/2 in, {stickers}\n  bearers none\n"
    )


@given(st.text())
@settings(max_examples=150)
def test_no_text_whatever_makes_a_check_raise(text: str) -> None:
    check(text, today=TODAY)


@given(st.lists(st.lists(st.sampled_from(WORDS), max_size=8).map(" ".join), max_size=12).map("\n".join))
@settings(max_examples=150, deadline=None)
def test_no_jumble_of_the_languages_own_words_makes_a_check_raise(text: str) -> None:
    check('pile "A"\n' + text, today=TODAY)


@given(st.integers(2, 40), st.sampled_from(["4/4 x 6 in x 16 ft", "8/4 x 4 in x 16 ft", "25 mm x 150 mm x 4.88 m"]))
@settings(max_examples=60, deadline=None)
def test_one_more_sticker_line_evenly_set_never_raises_the_largest_sag(lines: int, board: str) -> None:
    fewer, more = (
        check(_floor_stack(f"{count} a course", board), today=TODAY).stacks[0].facts for count in (lines, lines + 1)
    )
    assert fewer is not None
    assert more is not None
    assert fewer.sag_max is not None
    assert more.sag_max is not None
    assert more.sag_max <= fewer.sag_max * (1 + 1e-9)


@given(st.floats(0.05, 2.0), st.floats(0.05, 2.0))
@settings(max_examples=60, deadline=None)
def test_wetter_boards_never_weigh_less(one: float, other: float) -> None:
    low, high = sorted((round(one, 3), round(other, 3)))
    facts = [
        check(_floor_stack("every 24 in", moisture=f"{share * 100:.1f}%"), today=TODAY).stacks[0].facts
        for share in (low, high)
    ]
    assert facts[0] is not None
    assert facts[1] is not None
    assert facts[0].mass_now is not None
    assert facts[1].mass_now is not None
    assert facts[0].mass_now <= facts[1].mass_now


def test_a_board_end_two_feet_past_its_last_sticker_is_an_error() -> None:
    plan = check(_floor_stack("every 24 in, 24 in from ends"), today=TODAY)
    finding = next(finding for finding in plan.findings if finding.rule == "end-sticker-missing")
    assert finding.level is Level.ERROR
    assert finding.found is not None
    assert finding.found.value == pytest.approx(24 * 0.0254)
    assert finding.where.line == 3


def test_the_same_end_on_dry_boards_is_no_fault() -> None:
    assert "end-sticker-missing" not in _rules(check(_floor_stack("every 24 in, 24 in from ends", moisture="18%")))


def test_a_sound_stack_is_checked_though_another_in_its_file_cannot_be_read() -> None:
    text = _floor_stack("every 24 in, 24 in from ends") + '\npile "B"\n  boards a: many of ash\n'
    plan = check(text, today=TODAY)
    assert {"end-sticker-missing", "plan-text"} <= _rules(plan)
    assert [stack.facts is not None for stack in plan.stacks] == [True, False]


def test_two_stacks_of_one_text_are_judged_each_by_its_own_facts() -> None:
    text = _floor_stack("every 24 in") + _floor_stack("every 24 in, 24 in from ends").replace('"A"', '"B"')
    found = [finding.stack for finding in check(text, today=TODAY).findings if finding.rule == "end-sticker-missing"]
    assert found == ["B"]


def test_the_weight_of_a_stack_is_its_volume_times_specific_gravity_and_water() -> None:
    # White ash: specific gravity 0.55 green (Wood Handbook Table 5-3b); 32 boards of 1 in x 6 in x 16 ft.
    facts = check(_floor_stack("every 24 in", moisture="20%"), today=TODAY).stacks[0].facts
    assert facts is not None
    volume = 32 * 0.0254 * 0.1524 * 4.8768
    assert facts.volume == pytest.approx(volume)
    assert facts.board_feet == pytest.approx(256 * 0.002359737216)
    assert facts.mass_now == pytest.approx(volume * 0.55 * 1000 * 1.2)
    assert facts.mass_now == pytest.approx(facts.volume * 550 * 1.2)


def test_water_to_take_out_is_the_weight_that_is_lost() -> None:
    text = _floor_stack("every 24 in", moisture="60%") + "  want 8%\n"
    facts = check(text, today=TODAY).stacks[0].facts
    assert facts is not None
    assert facts.mass_now is not None
    assert facts.mass_target is not None
    assert facts.water == pytest.approx(facts.mass_now - facts.mass_target)


def test_dry_boards_piled_solid_get_no_finding_about_stickers() -> None:
    text = 'pile "A"\n  place garage\n  boards a: 32 of white ash 4/4 x 6 in x 16 ft, 8%\n'
    text += "  stack 16 ft x 4 ft\n  stickers none\n  bearers none\n"
    assert _rules(check(text, today=TODAY)) == set()


def test_what_is_left_out_is_assumed_aloud_and_hides_no_finding() -> None:
    plan = check('pile "A"\n  boards a: 40 of white ash 4/4 x 6 in x 8 ft\n', today=TODAY)
    assert {"assumed", "no-cover"} <= _rules(plan)
    assert plan.stacks[0].facts is not None


def test_a_statement_that_cannot_be_read_is_not_guessed() -> None:
    text = (
        _floor_stack("every 24 in").replace("place garage", "place open yard") + "  cover sheet metol, overhang 1 in\n"
    )
    found = _rules(check(text, today=TODAY))
    assert "plan-text" in found
    assert "no-cover" not in found


PILE = """pile "A"
  place open yard
  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 14 in, gap 4 in, slope 1 in 12, tied
"""


def _changed(start: str, line: str) -> set[str]:
    """The rules that speak when the line of :data:`PILE` that begins so is written otherwise."""
    lines = [line if said.strip().startswith(start) else said for said in PILE.splitlines()]
    return _rules(check("\n".join(lines), today=TODAY))


def test_a_sound_pile_has_no_finding() -> None:
    assert _rules(check(PILE, today=TODAY)) == set()


def test_green_boards_on_pallets_on_the_ground_lie_too_low() -> None:
    text = PILE.replace("  clearance 14 in\n", "").replace(
        "bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads", "bearers pallets"
    )
    assert "clearance-too-low" in _rules(check(text, today=TODAY))


def test_a_cover_that_hangs_down_the_sides_keeps_rain_out_and_air_too() -> None:
    found = _changed("cover", "  cover tarp, gap 4 in, slope 1 in 12, tied, hanging down")
    assert "sides-sealed" in found
    assert "cover-too-short" not in found


def test_stickers_and_bearers_of_one_spacing_stand_over_one_another() -> None:
    text = PILE.replace("stack 16 ft x 4 ft", "stack 7 ft x 4 ft").replace("x 8 ft, green", "x 7 ft, green")
    text = text.replace("every 24 in", "every 16 in")
    assert "sticker-off-bearer" not in _rules(check(text, today=TODAY))


def test_dry_boards_piled_solid_over_a_long_span_sag_between_their_bearers() -> None:
    text = (
        'pile "A"\n  place open shed\n  boards a: 64 of white oak 4/4 x 6 in x 8 ft, 15%\n  stack 8 ft x 4 ft\n'
        "  stickers none\n  bearers 4 in x 6 in of white oak, at 6 in, 90 in\n  ground concrete, flat\n"
    )
    assert "sag-between-stickers" in _rules(check(text, today=TODAY))


def test_the_heaviest_of_random_widths_is_the_widest_board() -> None:
    text = _floor_stack("every 24 in", "8/4 x 4 to 16 in x 10 ft")
    facts = check(text, today=TODAY).stacks[0].facts
    assert facts is not None
    # 2 in x 16 in x 10 ft of ash: specific gravity 0.55, green at the mean of 46 and 44%.
    assert facts.heaviest_board == pytest.approx(2 * 16 * 120 * 0.0254**3 * 550 * 1.45)


def test_a_kiln_rated_in_cubic_metres_counts_the_wood_alone() -> None:
    text = (
        'kiln "K"\n  holds 2 m3\ncharge "C" in kiln "K"\n'
        "  boards a: 240 of white ash 22 mm x 150 mm x 2.4 m, green\n  stack 2.4 m x 1.2 m\n"
        "  stickers 20 mm x 40 mm, every 400 mm\n"
    )
    assert "kiln-overfull" not in _rules(check(text, today=TODAY))


def test_a_pile_without_boards_is_told_so() -> None:
    plan = check('pile "A"\n  stack 16 ft x 4 ft\n', today=TODAY)
    assert [finding.message for finding in plan.findings] == ["The pile A lists no boards."]


def test_boards_stacked_before_they_were_sawn_are_a_slip() -> None:
    text = PILE + "  sawn 2026-04-10\n  stacked 2026-04-01\n"
    assert _rules(check(text, today=TODAY)) == {"value-out-of-range"}


@pytest.mark.parametrize("length", ["12'-6\"", "12′-6″", "12' 6\"", "12 ft 6 in"])
def test_feet_and_inches_may_be_joined_by_a_hyphen(length: str) -> None:
    stack = check(_floor_stack("every 24 in", f"4/4 x 6 in x {length}"), today=TODAY).stacks[0]
    assert stack.facts is not None
    assert stack.facts.groups[0].length == pytest.approx(150 * 0.0254)


def test_bare_figures_beside_a_metric_length_are_not_taken_as_inches() -> None:
    assert "plan-text" in _rules(check(_floor_stack("every 24 in", "20 x 60 x 2.4 m"), today=TODAY))


def test_an_everyday_place_is_taken_as_the_nearest_and_said_so() -> None:
    plan = check(PILE.replace("open yard", "carport"), today=TODAY)
    assert [finding.message for finding in plan.findings] == ["Carport is taken as an open shed."]


def test_boards_over_empty_space_are_not_held_there() -> None:
    text = _floor_stack("every 24 in").replace(
        "  boards a: 32 of white ash 4/4 x 6 in x 16 ft, green\n",
        "  boards a: 8 of white ash 4/4 x 6 in x 8 ft, green\n  boards b: 8 of white ash 4/4 x 6 in x 16 ft, green\n"
        "  course 1: 8 rows of a\n  course 2: 8 rows of b\n",
    )
    plan = check(text, today=TODAY)
    assert {"long-over-short", "end-sticker-missing"} <= _rules(plan)
    facts = plan.stacks[0].facts
    assert facts is not None
    assert facts.end_max == pytest.approx(8 * 0.3048, abs=0.03)


def test_letter_case_of_a_kilns_name_means_nothing() -> None:
    text = 'kiln "Low box"\n  holds 2 m3\ncharge "C" in kiln "low BOX"\n'
    text += "  boards a: 8 of white ash 4/4 x 6 in x 8 ft, 12%\n"
    assert "unknown-kiln" not in _rules(check(text, today=TODAY))
    again = check(PILE + PILE.replace('"A"', '"a"'), today=TODAY)
    assert "name-used-twice" in _rules(again)


@pytest.mark.parametrize("words", ['because "bent" until 2026-07-01', 'until 2026-07-01 because "bent"'])
def test_a_waiver_gives_its_reason_before_or_after_its_last_day(words: str) -> None:
    text = PILE.replace("24 in, dry", "24 in, dry, out of line") + f"  waive stickers-out-of-line {words}\n"
    plan = check(text, today=TODAY)
    assert plan.findings == ()
    assert [waived.waiver.reason for waived in plan.waived] == ["bent"]


def test_the_top_of_a_stack_is_its_clearance_its_boards_and_the_stickers_between_them() -> None:
    plan = check(
        'pile "A"\n  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green\n  stack 16 ft x 4 ft\n'
        "  stickers 3/4 in x 1 1/2 in, every 24 in\n  clearance 14 in\n",
        today=datetime.date(2026, 6, 1),
    )
    facts = plan.stacks[0].facts
    assert facts is not None
    assert facts.courses_high == 4
    assert facts.top == pytest.approx((14 + 4 * 1 + 3 * 0.75) * 0.0254)


KILN = 'kiln "K"\n  type vented\n  heats to 150 F\n\ncharge "x" in kiln "K"\n  starts 2026-07-01\n'
BOARDS = "  boards a: 60 of white ash 4/4 x 6 in x 8 ft, 30%\n"


@pytest.mark.parametrize("setting", ["110 F 185%", "110 F / 900 F", "110 F 0%", "900 F 50%"])
def test_a_setting_that_cannot_be_is_told_at_its_line_and_the_rest_still_checked(setting: str) -> None:
    plan = check(f"{KILN}{BOARDS}  runs at {setting}\n", today=datetime.date(2026, 6, 1))
    assert ("value-out-of-range", 8) in {(finding.rule, finding.where.line) for finding in plan.findings}
    assert plan.stacks[0].facts is not None


def test_thirty_minutes_of_heat_are_written_as_an_operator_writes_them() -> None:
    for said in ("hold 150 F for 30 min", "hold 150 F for 30 minutes", "sterilise", "hold 66 C for 5 h"):
        plan = check(f"{KILN}{BOARDS}  {said}\n", today=datetime.date(2026, 6, 1))
        assert "plan-text" not in {finding.rule for finding in plan.findings}, said
        assert not any("heats to" in finding.message for finding in plan.findings), said


def test_oak_with_white_pine_in_one_charge_is_an_error() -> None:
    oak = "  boards a: 64 of red oak 4/4 x 6 in x 8 ft, green\n"
    pine = "  boards b: 64 of eastern white pine 4/4 x 6 in x 8 ft, green\n"
    plan = check(KILN + oak + pine, today=datetime.date(2026, 6, 1))
    assert [finding.level for finding in plan.findings if finding.rule == "mixed-species"] == [Level.ERROR]


def test_a_box_at_ninety_fahrenheit_with_a_dehumidifier_brings_poplar_to_eight_percent() -> None:
    text = (
        'kiln "Box"\n  type dehumidification\n  heats to 90 F\n  removes 50 pt/day\n\n'
        'charge "x" in kiln "Box"\n  starts 2026-07-01\n'
        "  boards a: 40 of yellow-poplar 4/4 x 6 in x 8 ft, 12%\n  want 8% by 2026-08-15\n"
    )
    rules = {finding.rule for finding in check(text, today=datetime.date(2026, 6, 1)).findings}
    assert rules.isdisjoint({"target-below-reach", "not-ready-in-time"})


def test_boards_read_wetter_than_the_table_has_green_ones_do_not_gain_water() -> None:
    text = (
        'site "S"\n  near "Columbus, OH"\n\npile "A"\n  place open yard, site "S"\n  stacked 2026-04-02\n'
        "  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green\n  cover sheet metal, overhang 14 in, gap 4 in, tied\n"
        "  want 15% by 2027-06-01\n  reading 2026-05-10 70%\n"
    )
    forecast = check(text, today=datetime.date(2026, 6, 1)).stacks[0].forecast
    assert isinstance(forecast, Forecast)
    assert min(forecast.water) >= 0
