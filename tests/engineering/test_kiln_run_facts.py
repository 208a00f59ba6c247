"""How a charge is run: its schedule or air against the published one, its machine against its water."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checking import check
from stacklint.engineering.facts import StackFacts

TODAY = datetime.date(2026, 3, 1)
DAY = 86_400
KILN = "type dehumidification", "heats to 160 F", "removes 100 pt/day"
WHITE_OAK = "boards a: 60 of white oak 4/4 x 6 in x 8 ft, 70%"
POPLAR = "boards b: 60 of yellow-poplar 4/4 x 6 in x 8 ft, 70%"


def facts(*said: str, boards: tuple[str, ...] = (WHITE_OAK,), kiln: tuple[str, ...] = KILN) -> StackFacts:
    built = "stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/4 in, every 24 in, dry"
    text = 'kiln "Box"\n' + "".join(f"  {line}\n" for line in kiln)
    text += 'charge "1" in kiln "Box"\n' + "".join(f"  {line}\n" for line in (*boards, *built, *said))
    found = check(text, today=TODAY).stacks[0].facts
    assert found is not None
    return found


# The schedule. White oak 4/4 of the uplands is run at T4-C2, its 8/4 at T3-C1, yellow-poplar 4/4 at T11-D4: Dry Kiln
# Operator's Manual AH-188 ch. 7, code index (memory; kiln_schedule_species.csv).


def test_a_schedule_hotter_than_that_of_the_wood_is_harsher() -> None:
    found = facts("schedule T8-C3")
    assert (found.schedule_said, found.schedule_published) == ("schedule T8-C3", "T4-C2")
    assert found.schedule_boards == "White oak (upland) 4/4 to 6/4"
    assert found.schedule_memory is True
    assert found.schedule_harsher is not None and found.schedule_harsher.startswith("hotter from 70%: 130 F (54 C)")


@pytest.mark.parametrize("code", ["T4-C2", "t4c2", "T3-C1", "T2-B1"])
def test_the_woods_own_schedule_or_a_milder_one_is_not_harsher(code: str) -> None:
    found = facts(f"schedule {code}")
    assert found.schedule_harsher == ""
    assert found.schedule_published is None


def test_thick_boards_are_held_to_the_schedule_of_thick_boards() -> None:
    found = facts("schedule T4-C2", boards=(WHITE_OAK.replace("4/4", "8/4"),))
    assert (found.schedule_published, found.schedule_boards) == ("T3-C1", "White oak (upland) 8/4")


def test_in_a_mixed_charge_the_schedule_of_the_easy_wood_is_harsher_than_that_of_the_hard_one() -> None:
    """ "The mildest schedule governs" (AH-188 ch. 7, memory)."""
    both = facts("schedule T11-D4", boards=(POPLAR, WHITE_OAK))
    assert both.schedule_published == "T4-C2"
    assert facts("schedule T11-D4", boards=(POPLAR,)).schedule_harsher == ""


def test_a_charge_without_schedule_or_settings_is_compared_with_none() -> None:
    found = facts()
    assert found.schedule_harsher is None
    assert found.run_stated is False
    assert facts("schedule T4-C2").run_stated is facts("runs at 110 F 87%").run_stated is True


# The air. The first step of T4-C2 is 110 F with a wet-bulb depression of 4 F.


def test_air_drier_than_the_first_step_of_the_woods_schedule_is_harsher_for_green_boards() -> None:
    found = facts("runs at 110 F / 90 F")
    assert found.schedule_said == "the air that the kiln runs at"
    assert found.schedule_published == "T4-C2"
    assert found.schedule_harsher is not None
    assert found.schedule_harsher.startswith("drier from 70%: 110 F (43 C) with a wet-bulb depression of 20 F")


def test_air_of_the_schedules_own_step_is_not_harsher() -> None:
    assert facts("runs at 110 F / 106 F").schedule_harsher == ""
    assert facts("runs at 105 F / 102 F").schedule_harsher == ""


def test_air_warmer_than_the_step_at_the_boards_moisture_is_harsher() -> None:
    found = facts("runs at 130 F / 126 F")
    assert found.schedule_harsher is not None and found.schedule_harsher.startswith("hotter from 70%")


def test_air_too_dry_for_green_boards_is_right_for_dry_ones() -> None:
    """T4 is at 180 F and C2 at 50 F depression once the boards are at 15% (AH-188, memory)."""
    at = "runs at 140 F / 110 F"
    assert facts(at).schedule_harsher != ""
    assert facts(at, boards=(WHITE_OAK.replace("70%", "14%"),)).schedule_harsher == ""


def test_a_second_setting_is_held_to_the_step_at_which_it_begins() -> None:
    """From 70% to 8% the second of two settings begins at 39%, where T4-C2 still asks for 110 F and 5 F."""
    found = facts("runs at 110 F / 106 F", "runs at 150 F / 130 F", "want 8%")
    assert found.schedule_harsher is not None and found.schedule_harsher.startswith("hotter and drier from 39%")
    assert facts("runs at 110 F / 106 F", "runs at 110 F / 105 F", "want 8%").schedule_harsher == ""


def test_settings_of_a_charge_wanted_wetter_begin_wetter() -> None:
    """From 70% to 20% the second setting begins at 45%; what is not wanted is taken as 8% (Wood Handbook ch. 13)."""
    hot = "runs at 110 F / 106 F", "runs at 150 F / 130 F"
    for said, begins in (("want 20%", "45%"), ("want 8%", "39%"), ("starts 2026-04-01", "39%")):
        found = facts(*hot, said).schedule_harsher
        assert found is not None and f"from {begins}:" in found


# The machine


def test_the_water_of_the_first_day_is_the_safe_loss_of_the_boards() -> None:
    """White oak may lose 2.5% of its dry weight a day (Wengert; safe_drying_rates.csv). 60 boards of 4 bf weigh
    oven-dry 0.60 times what their volume of water does (Wood Handbook, green volume)."""
    found = facts()
    dry_mass = 60 * 4 * 144 * 0.0254**3 * 600
    assert found.water_safe is not None
    assert found.water_safe * DAY == pytest.approx(0.025 * dry_mass, rel=0.01)
    assert found.water_scheduled == pytest.approx(found.water_safe, rel=0.01)


def test_a_machine_takes_out_more_than_its_label_in_air_warmer_than_its_rating() -> None:
    """100 pt/day on the label: rated at 80 F and 60%, run at 110 F and more."""
    taken, half = facts().dryer_takes, facts(kiln=("heats to 160 F", "removes 50 pt/day")).dryer_takes
    assert taken is not None and half is not None
    assert 1.2 < taken * DAY / (100 * 0.473177) < 2
    assert half == pytest.approx(taken / 2)


def test_what_a_machine_of_unsaid_strength_or_open_vents_take_out_is_not_known() -> None:
    assert facts(kiln=("type dehumidification", "heats to 160 F")).dryer_takes is None
    assert facts(kiln=("type vented", "heats to 160 F")).dryer_takes is None
