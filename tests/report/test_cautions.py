"""Cautions stand where they belong, and defer to codes and licensed practice."""

from __future__ import annotations

import sheet_plans as plans

from stacklint.checked import CheckedStack
from stacklint.report.cautions import GENERAL, cautions
from stacklint.show import show
from stacklint.units import MASS

HEAVY = """\
pile "P"
  place garage
  boards a: 2 of black walnut 12/4 x 24 in x 10 ft, green
  stack 10 ft x 4 ft
"""


def told(stack: CheckedStack) -> dict[str, str]:
    return {caution.title: caution.text for caution in cautions(stack)}


def test_boards_over_51_pounds_are_for_two_people() -> None:
    """The load constant of the NIOSH lifting equation is 51 lb."""
    heavy = plans.stack(plans.TALL)
    assert heavy.facts is not None and heavy.facts.heaviest_board is not None
    assert show(heavy.facts.heaviest_board, MASS, heavy.facts.system) in told(heavy)["Lifting"]
    assert "over 51 lb, the most for one person" in told(heavy)["Lifting"]
    assert "two people or a machine" in told(heavy)["Lifting"]
    (light,) = plans.example("sound-pile").stacks
    assert "one person" not in told(light)["Lifting"]


def test_boards_over_what_two_people_lift_are_for_a_machine_or_a_hoist_only() -> None:
    said = told(plans.stack(HEAVY))["Lifting"]
    assert "over 102 lb, more than two people should lift: machine or hoist only." in said
    assert "two people or" not in said
    (finding,) = [each for each in plans.plan(HEAVY).findings if each.rule == "lift-too-heavy"]
    assert "more than two people should lift" in finding.message


def test_weights_on_a_stack_have_their_caution() -> None:
    (charge,) = plans.example("sound-charge").stacks
    assert told(charge)["Weights"].startswith("2,560 lb on top can crush whom they fall on.")
    assert "on its rows only" not in told(charge)["Weights"]
    short = plans.stack(
        'pile "P"\n  boards a: 9 of white ash 4/4 x 6 in x 8 ft, green\n  stack 8 ft x 4 ft\n  top load 400 lb\n'
    )
    assert "The top course is not full: they stand on its rows only" in told(short)["Weights"]
    assert "Straps" in told(plans.stack(plans.TALL))
    (bare,) = plans.example("sound-pile").stacks
    assert {"Weights", "Straps"}.isdisjoint(told(bare))


def test_the_wiring_of_a_fan_is_for_a_licensed_electrician() -> None:
    fan = plans.stack(HEAVY + "  fan 1 of 1500 cfm\n")
    assert "licensed electrician" in told(fan)["Wiring"]
    assert "Wiring" not in told(plans.stack(HEAVY))


def test_a_metal_cover_is_told_with_what_a_gust_lifts() -> None:
    (stack,) = plans.example("sound-pile").stacks
    assert stack.facts is not None and stack.facts.cover is not None and stack.facts.cover.uplift is not None
    said = told(stack)["Wind and the cover"]
    assert said.startswith("Sheet metal")
    assert show(stack.facts.cover.uplift, MASS, stack.facts.system) in said


def test_a_stack_without_a_cover_has_no_caution_of_one() -> None:
    assert "Wind and the cover" not in told(plans.stack(plans.TALL))


def test_heaters_and_wiring_of_a_kiln_are_for_a_licensed_electrician_and_the_local_code() -> None:
    (charge,) = plans.example("sound-charge").stacks
    assert "licensed electrician wires them to the local code" in told(charge)["Heat and wiring"]
    assert "opens from inside" in told(charge)["Going in"]
    (pile,) = plans.example("sound-pile").stacks
    assert "Heat and wiring" not in told(pile)


def test_the_last_word_is_that_of_codes_makers_and_licensed_practice() -> None:
    assert "no certificate" in GENERAL
    assert "Local codes" in GENERAL and "licensed practice" in GENERAL


def test_what_was_not_reckoned_is_not_cautioned_of() -> None:
    assert cautions(plans.stack(plans.BROKEN)) == ()
