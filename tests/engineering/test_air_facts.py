"""The air of a charge as the rules see it, from a plan's text."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.engineering.facts import StackFacts
from stacklint.units import Unit

TODAY = datetime.date(2026, 6, 1)
CFM, FPM, FOOT = Unit.CFM.to_si(1), Unit.FEET_PER_MINUTE.to_si(1), 0.3048
OPENINGS = 8 * 0.75 * (192 - 13 * 1.5) / 144 * FOOT**2
"""Eight courses on 3/4 in stickers, 16 ft long, thirteen sticker lines 1 1/2 in wide."""
INSIDE = "  inside 18 ft x 7 ft x 6 ft\n"


def checked(kiln: str = "", charge: str = "", moisture: str = "60%", wood: str = "white ash") -> CheckedPlan:
    return check(
        f'kiln "Box"\n{kiln}\ncharge "A" in kiln "Box"\n'
        f"  boards a: 128 of {wood} 4/4 x 6 in x 8 ft, {moisture}\n  stack 16 ft x 4 ft\n"
        f"  stickers 3/4 in x 1 1/2 in, every 16 in, dry, 4 ft long\n  top load 40 psf\n{charge}",
        today=TODAY,
    )


def facts(kiln: str = "", charge: str = "") -> StackFacts:
    found = checked(kiln, charge).stacks[0].facts
    assert found is not None
    return found


def fired(rule: str, plan: CheckedPlan) -> list[str]:
    return [finding.level.value for finding in plan.findings if finding.rule == rule]


def test_the_openings_of_a_side_and_what_the_fans_drive_through_them() -> None:
    found = facts("  fans 2 of 900 cfm\n" + INSIDE, "  baffles top, ends, floor\n")
    assert found.open_area == pytest.approx(OPENINGS)
    assert found.openings_height == pytest.approx(0.5 * FOOT)
    assert found.fan_delivery == pytest.approx(1800 * CFM)
    assert found.bypass == 0
    assert found.air_speed == pytest.approx(1800 * CFM / OPENINGS)
    assert found.gaps == ""


def test_what_no_baffle_closes_takes_its_share_of_the_air() -> None:
    found = facts("  fans 2 of 900 cfm\n" + INSIDE, "  baffles top, floor\n")
    ends = 2 * 14 / 12 * FOOT**2
    assert found.bypass == pytest.approx(ends / (ends + OPENINGS), rel=1e-6)
    assert found.gaps == "round its ends"
    assert found.air_speed == pytest.approx(1800 * CFM / (OPENINGS + ends), rel=1e-6)


def test_a_kiln_that_says_no_fans_is_not_judged_by_its_air() -> None:
    plan = checked(INSIDE, "  baffles none\n")
    assert plan.stacks[0].facts is not None
    assert plan.stacks[0].facts.air_speed is None
    assert [finding.rule for finding in plan.findings if finding.rule.startswith(("airflow", "baffle"))] == []


def test_fans_without_their_delivery_say_nothing_of_the_air() -> None:
    assert facts("  fans 3\n" + INSIDE).fan_delivery is None


def test_baffles_that_are_not_spoken_of_are_assumed_away_and_said_to_be() -> None:
    plan = checked("  fans 4 of 900 cfm\n" + INSIDE)
    assert any("none are assumed" in said.text and said.topic == "baffles" for said in plan.assumptions)
    assert fired("baffle-missing", plan) == ["warning"]


def test_baffles_said_to_be_missing_are_an_error_where_most_of_the_air_goes_round() -> None:
    assert fired("baffle-missing", checked("  fans 4 of 900 cfm\n" + INSIDE, "  baffles none\n")) == ["error"]


def test_without_the_kilns_inside_a_side_left_open_is_a_warning_and_speed_is_the_most_it_can_be() -> None:
    plan = checked("  type dehumidification\n  fans 2 of 900 cfm\n", "  baffles top\n", wood="northern red oak")
    assert fired("baffle-missing", plan) == ["warning"]
    found = plan.stacks[0].facts
    assert found is not None
    assert found.bypass is None
    assert found.air_speed == pytest.approx(1800 * CFM / OPENINGS)
    assert found.gaps == "round its ends and under it"
    assert fired("airflow-too-fast", plan) == []


def test_bearers_leave_a_way_under_the_charge() -> None:
    found = facts(
        "  fans 2 of 900 cfm\n" + INSIDE, "  bearers 4 in x 4 in of white oak, every 16 in\n  baffles top, ends\n"
    )
    assert found.gaps == "under it"
    assert found.bypass is not None
    assert 0.2 < found.bypass < 0.6


@pytest.mark.parametrize(
    ("kind", "wood", "speed", "slow"),
    [
        ("vented", "white ash", 190, True),
        ("vented", "white ash", 210, False),
        ("vented", "northern red oak", 160, False),
        ("vented", "northern red oak", 140, True),
        ("dehumidification", "white ash", 90, True),
        ("solar", "white ash", 60, False),
        ("solar", "white ash", 40, True),
    ],
)
def test_each_kind_of_kiln_has_its_own_least_speed(kind: str, wood: str, speed: float, slow: bool) -> None:
    cfm = speed * FPM * OPENINGS / CFM
    plan = checked(f"  type {kind}\n  fans 1 of {cfm:.1f} cfm\n" + INSIDE, "  baffles top, ends, floor\n", wood=wood)
    assert bool(fired("airflow-too-slow", plan)) is slow


def test_slow_air_is_told_with_what_the_fans_move_and_what_goes_round() -> None:
    kiln = "  type vented\n  fans 2 of 400 cfm\n"
    (open_ends,) = [
        finding
        for finding in checked(kiln + INSIDE, "  baffles top, floor\n").findings
        if finding.rule == "airflow-too-slow"
    ]
    assert open_ends.message.startswith(
        "The air crosses the boards at 84 fpm at most: the fans move 800 cfm, the openings are 7.19 ft2, and 24.5% goes"
    )
    (unknown,) = [
        finding for finding in checked(kiln, "  baffles top\n").findings if finding.rule == "airflow-too-slow"
    ]
    assert "at 111 fpm at most: the fans move 800 cfm, the openings are 7.19 ft2. 200 fpm" in unknown.message
    assert unknown.instead == "Bring 1,437 cfm through the openings: add fans, or load fewer courses."


def test_dry_boards_do_not_mind_slow_air() -> None:
    kiln = "  type vented\n  fans 1 of 100 cfm\n" + INSIDE
    assert fired("airflow-too-slow", checked(kiln, "  baffles top, ends, floor\n", moisture="19%")) == []
    assert fired("airflow-too-slow", checked(kiln, "  baffles top, ends, floor\n", moisture="21%")) == ["warning"]


def test_fast_air_is_wrong_for_wet_oak_only() -> None:
    kiln = "  type vented\n  fans 2 of 1500 cfm\n" + INSIDE
    closed = "  baffles top, ends, floor\n"
    assert fired("airflow-too-fast", checked(kiln, closed, wood="northern red oak")) == ["warning"]
    assert fired("airflow-too-fast", checked(kiln, closed, wood="northern red oak", moisture="29%")) == []
    assert fired("airflow-too-fast", checked(kiln, closed)) == []


def test_a_pile_in_a_room_with_a_fan_has_no_published_speed() -> None:
    plan = check(
        'pile "A"\n  place garage\n  boards a: 128 of white ash 4/4 x 6 in x 8 ft, green\n  stack 16 ft x 4 ft\n'
        "  stickers 3/4 in x 1 1/2 in, every 16 in, dry, 4 ft long\n  bearers none\n  fan 1 of 100 cfm\n",
        today=TODAY,
    )
    found = plan.stacks[0].facts
    assert found is not None
    assert found.open_area == pytest.approx(OPENINGS)
    assert found.air_speed is None


def test_boards_piled_solid_have_no_openings() -> None:
    plan = check(
        'pile "A"\n  place garage\n  boards a: 128 of white ash 4/4 x 6 in x 8 ft, 8%\n  stack 16 ft x 4 ft\n'
        "  stickers none\n  bearers none\n",
        today=TODAY,
    )
    found = plan.stacks[0].facts
    assert found is not None
    assert found.open_area is None
