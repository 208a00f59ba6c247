"""Finished sizes, uses and heat as the rules see them, from a plan's text."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.engineering.facts import Group, StackFacts

TODAY = datetime.date(2026, 6, 1)
INCH = 0.0254
OAK = "northern red oak"


def charge(boards: str, *lines: str, kiln: str = "  heats to 160 F\n") -> CheckedPlan:
    said = "".join(f"  {line}\n" for line in lines)
    return check(
        f'kiln "Box"\n{kiln}\ncharge "A" in kiln "Box"\n  boards a: 64 of {boards}\n  stack 16 ft x 4 ft\n'
        f"  stickers 3/4 in x 1 1/2 in, every 16 in, dry, 4 ft long\n  top load 40 psf\n{said}",
        today=TODAY,
    )


def pile(*lines: str, boards: str = "white ash 4/4 x 6 in x 8 ft, green", more: str = "") -> CheckedPlan:
    said = "".join(f"  {line}\n" for line in lines)
    return check(
        f'{more}pile "P"\n  place garage\n  boards a: 64 of {boards}\n  stack 16 ft x 4 ft\n'
        f"  stickers 3/4 in x 1 1/2 in, every 16 in, dry, 4 ft long\n  bearers none\n{said}",
        today=TODAY,
    )


def facts(plan: CheckedPlan) -> StackFacts:
    found = plan.stacks[0].facts
    assert found is not None
    return found


def group(plan: CheckedPlan) -> Group:
    return facts(plan).groups[0]


def fired(rule: str, plan: CheckedPlan) -> list[str]:
    return [finding.level.value for finding in plan.findings if finding.rule == rule]


def test_a_board_dries_to_what_is_wanted_and_shrinks_by_how_it_was_sawn() -> None:
    flat = group(charge(f"{OAK} 1 in x 6 in x 8 ft, green, flatsawn", "want 7%"))
    quarter = group(charge(f"{OAK} 1 in x 6 in x 8 ft, green, quartersawn", "want 7%"))
    assert flat.dried_to == pytest.approx(0.07)
    assert flat.thickness_dry == pytest.approx(INCH * (1 - 0.040 * 23 / 30))
    assert flat.width_dry == pytest.approx(6 * INCH * (1 - 0.086 * 23 / 30))
    assert quarter.thickness_dry == pytest.approx(INCH * (1 - 0.086 * 23 / 30))


def test_where_nothing_is_wanted_a_charge_is_taken_to_end_at_8_and_a_pile_at_12_percent() -> None:
    assert group(charge(f"{OAK} 1 in x 6 in x 8 ft, green")).dried_to == pytest.approx(0.08)
    assert group(pile()).dried_to == pytest.approx(0.12)


def test_boards_that_are_drier_than_what_is_wanted_do_not_swell_again() -> None:
    assert group(charge(f"{OAK} 1 in x 6 in x 8 ft, 6%", "want 9%")).dried_to == pytest.approx(0.06)


def test_of_a_range_of_widths_the_narrowest_counts_and_live_edges_have_no_width() -> None:
    ranged = group(charge(f"{OAK} 1 in x 5 to 9 in x 8 ft, green"))
    assert ranged.width_narrowest == pytest.approx(5 * INCH)
    assert group(charge(f"{OAK} 1 in x 6 in x 8 ft, green, live edge")).width_dry is None
    assert group(charge(f"{OAK} 1 in x random width x 8 ft, green")).width_dry is None


def test_a_boards_own_finished_size_goes_before_its_groups_and_that_before_the_one_for_all() -> None:
    wanted = ("wanted 3/4 in thick, 5 in wide", "wanted 7/8 in thick of a")
    own = group(charge(f"{OAK} 1 in x 6 in x 8 ft, green, for 13/16 in finished", *wanted))
    assert own.wanted_thickness == pytest.approx(13 / 16 * INCH)
    assert own.wanted_width == pytest.approx(5 * INCH)
    assert group(charge(f"{OAK} 1 in x 6 in x 8 ft, green", *wanted)).wanted_thickness == pytest.approx(7 / 8 * INCH)
    general = group(charge(f"{OAK} 1 in x 6 in x 8 ft, green", wanted[0]))
    assert general.wanted_thickness == pytest.approx(0.75 * INCH)


def test_quartersawn_oak_sawn_an_inch_thick_is_too_thin_for_thirteen_sixteenths_where_flatsawn_does() -> None:
    lines = ("want 6%", "wanted 53/64 in thick")
    assert fired("too-thin-after-drying", charge(f"{OAK} 1 in x 6 in x 8 ft, green, quartersawn", *lines)) == [
        "warning"
    ]
    assert fired("too-thin-after-drying", charge(f"{OAK} 1 in x 6 in x 8 ft, green, flatsawn", *lines)) == []


def test_a_board_too_narrow_for_its_width_is_told_with_the_width_to_saw() -> None:
    plan = charge(f"{OAK} 1 in x 5 in x 8 ft, green, flatsawn", "want 7%", "wanted 4 1/2 in wide")
    (finding,) = [each for each in plan.findings if each.rule == "too-thin-after-drying"]
    assert "wide" in finding.message
    assert "5 in from the saw" in finding.message
    assert finding.instead is not None
    assert "Saw them 5.09 in wide" in finding.instead


def test_a_size_wanted_that_could_not_be_read_is_not_guessed() -> None:
    plan = charge(f"{OAK} 1 in x 6 in x 8 ft, green", "wanted 2 in thick of a", "wanted 3/4 in thik of b")
    assert group(plan).wanted_thickness is None


@pytest.mark.parametrize(
    ("want", "place", "levels"),
    [
        ("want 12% for flooring", "", ["warning"]),
        ("want 9.4% for flooring", "", []),
        ("want 5% for flooring", "", ["warning"]),
        ("want 19% for framing", "", []),
        ("want 6% for framing", "", []),
        ("want 12% for siding", "", []),
        ("want 12% for furniture", 'site "S"\n  near "London"\n\n', []),
        ("want 12% for flooring", 'site "S"\n  near "New Orleans, LA"\n\n', []),
        ("want 12% for musical instruments", "", []),
        ("want 12% for timber frames", "", []),
        ("want 12%", "", []),
        ("want for flooring", "", []),
    ],
)
def test_what_is_wanted_is_held_against_the_use_it_is_wanted_for(want: str, place: str, levels: list[str]) -> None:
    assert fired("target-wrong-for-use", pile(want, more=place)) == levels


def test_a_use_without_a_published_figure_is_said_to_have_none() -> None:
    plan = pile("want 8% for musical instruments")
    text = "No published moisture content is known for musical instruments: what is wanted is taken as it stands."
    assert text in [said.text for said in plan.assumptions if said.topic == "want"]


def test_the_source_of_a_range_is_named_and_a_recalled_one_said_to_be_recalled() -> None:
    assert facts(pile("want 12% for siding")).target_source == "FPL Wood Handbook ch.13 Table 13-2, recalled"
    assert facts(pile("want 8% for furniture")).target_source == "FPL Wood Handbook (2010) ch.13"
    british = pile("want 8% for furniture", more='site "S"\n  near "London"\n\n')
    assert facts(british).target_source == "BS 1186-3"


def test_a_pile_that_goes_to_the_kiln_is_not_asked_for_what_only_the_kiln_can_give() -> None:
    plan = check(
        'pile "P"\n  place garage\n  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green\n  stack 16 ft x 4 ft\n'
        "  stickers 3/4 in x 1 1/2 in, every 16 in, dry, 4 ft long\n  bearers none\n  want 15% for flooring\n\n"
        'charge "C"\n  from pile "p"\n',
        today=TODAY,
    )
    assert facts(plan).goes_to_kiln is True
    assert fired("target-wrong-for-use", plan) == []
    assert fired("insects-not-killed", plan) == []


@pytest.mark.parametrize(
    ("want", "boards", "levels"),
    [
        ("want 8% for flooring", "white ash 4/4 x 6 in x 8 ft, green", ["note"]),
        ("want 8% for flooring", "eastern white pine 4/4 x 6 in x 8 ft, green", []),
        ("want 12% for siding", "white oak 4/4 x 6 in x 8 ft, green", []),
        ("want 8%", "white ash 4/4 x 6 in x 8 ft, green", []),
    ],
)
def test_beetles_are_spoken_of_where_their_wood_is_air_dried_for_a_house(
    want: str, boards: str, levels: list[str]
) -> None:
    assert fired("insects-not-killed", pile(want, boards=boards)) == levels


ASH = "white ash 4/4 x 6 in x 8 ft, 18%"


@pytest.mark.parametrize(
    ("kiln", "lines", "levels"),
    [
        ("  heats to 120 F\n", (), ["note"]),
        ("  heats to 150 F\n", (), []),
        ("  heats to 150 F\n", ("runs at 110 F 40%",), ["note"]),
        ("  heats to 150 F\n", ("runs at 110 F 40%", "sterilize"), []),
        ("  heats to 150 F\n", ("runs at 110 F 40%", "hold 150 F for 4 h"), []),
        ("  type solar\n", (), []),
    ],
)
def test_a_kiln_kills_beetles_only_where_it_gets_hot(kiln: str, lines: tuple[str, ...], levels: list[str]) -> None:
    assert fired("insects-not-killed", charge(ASH, *lines, "want 8% for flooring", kiln=kiln)) == levels


@pytest.mark.parametrize(
    ("kiln", "lines", "levels"),
    [
        ("  heats to 160 F\n", ("hold 160 F for 2 h", "sterilize"), []),
        ("  heats to 160 F\n", ("hold 160 F for 1 h",), ["warning"]),
        ("  heats to 160 F\n", ("hold 160 F for 0.5 h",), ["error"]),
        ("  heats to 160 F\n", ("hold 133 F for 40 h",), ["error"]),
        ("  heats to 140 F\n", ("hold 150 F for 20 h",), ["error"]),
        ("  heats to 130 F\n", ("sterilize",), ["error"]),
        ("  heats to 133 F\n", ("sterilize",), ["error"]),
        ("  heats to 140 F\n", ("sterilize",), []),
        ("  type solar\n", ("sterilize",), []),
        ("  heats to 130 F\n", (), []),
    ],
)
def test_a_heat_treatment_is_judged_by_temperature_and_time(
    kiln: str, lines: tuple[str, ...], levels: list[str]
) -> None:
    assert fired("kiln-cannot-sterilize", charge(ASH, *lines, kiln=kiln)) == levels


def test_a_kiln_too_cool_is_told_how_long_a_hotter_one_would_take() -> None:
    plan = charge(ASH, "sterilize", kiln="  heats to 130 F\n")
    (finding,) = [each for each in plan.findings if each.rule == "kiln-cannot-sterilize"]
    assert "The air gets to 130 F" in finding.message
    assert finding.instead is not None
    assert "160 F" in finding.instead
    assert " h once the air is hot" in finding.instead


def test_a_hold_too_short_in_a_kiln_of_unknown_heat_is_told_by_its_time() -> None:
    plan = charge(ASH, "hold 160 F for 0.5 h", kiln="  type vented\n")
    (finding,) = [each for each in plan.findings if each.rule == "kiln-cannot-sterilize"]
    assert finding.message.startswith(
        "The hot spell lasts 0.5 h; the cores of white ash 4/4 x 6 in x 8 ft are at 133 F"
    )


def test_boards_start_as_warm_as_the_kilns_wet_bulb_and_heat_sooner_for_it() -> None:
    cold = facts(charge(ASH, "hold 160 F for 4 h"))
    warm = facts(charge(ASH, "runs at 110 F / 100 F", "hold 160 F for 4 h"))
    by_humidity = facts(charge(ASH, "runs at 110 F 71%", "hold 160 F for 4 h"))
    assert cold.heating_from == 20.0
    assert warm.heating_from == pytest.approx((100 - 32) / 1.8)
    assert by_humidity.heating_from == pytest.approx((100 - 32) / 1.8, abs=0.5)
    assert warm.heating_high is not None
    assert cold.heating_high is not None
    assert warm.heating_high < cold.heating_high


def test_the_thickest_boards_of_a_charge_set_the_time() -> None:
    thin = facts(charge(ASH, "hold 160 F for 4 h"))
    both = facts(charge(ASH, "boards b: 8 of white ash 8/4 x 6 in x 8 ft, 18%", "hold 160 F for 4 h"))
    assert both.thickest_boards == "white ash 8/4 x 6 in x 8 ft"
    assert both.heating_low is not None
    assert thin.heating_low is not None
    assert both.heating_low > 3 * thin.heating_low


def test_a_published_range_is_told_with_one_sign_of_its_unit() -> None:
    assert facts(charge("white ash 4/4 x 6 in x 8 ft, green", "want 15% for flooring")).target_range == "6 to 9%"
