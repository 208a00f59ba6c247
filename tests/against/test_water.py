"""The water in a charge against published rules for it."""

from __future__ import annotations

import pytest
from kiln_charges import JUNE, VENTED, batch, wood

from stacklint.drying.density import oven_dry_mass, water_lost
from stacklint.drying.kiln_drying import dry
from stacklint.tables.rows import Row, read
from stacklint.units import ONE_BOARD_FOOT, ONE_POUND

ROWS = [row for row in read("kiln_limits") if row["topic"] == "water"]
NAMES = {
    "red oak": "northern red oak",
    "hard maple": "sugar maple",
    "beech": "American beech",
    "basswood": "American basswood",
}


def pounds_a_point(name: str) -> float:
    """Water in 1,000 board feet of full 1 in boards at 1% moisture content."""
    return oven_dry_mass(wood(name), 1000 * ONE_BOARD_FOOT) * 0.01 / ONE_POUND


# 1,000 board feet are 83.33 ft3 of 62.43 lb times the specific gravity of green wood (memory).
@pytest.mark.parametrize("row", [row for row in ROWS if "SG" in row["quantity"]], ids=lambda row: row["applies_to"])
def test_a_thousand_board_feet_give_off_the_published_water_for_each_percent(row: Row) -> None:
    name = NAMES.get(row["applies_to"], row["applies_to"])
    assert pounds_a_point(name) == pytest.approx(float(row["low"]), rel=0.02)
    assert pounds_a_point(name) == pytest.approx(52 * wood(name).sg_green, rel=0.01)


def test_oak_gives_off_about_four_gallons_for_each_percent() -> None:
    """33 lb, a forum contributor, read at https://www.woodweb.com/knowledge_base/Drying_Schedule_for_Red_Oak.html"""
    (row,) = [row for row in ROWS if "SG" not in row["quantity"]]
    assert pounds_a_point("northern red oak") == pytest.approx(float(row["low"]), rel=0.15)


def test_a_batch_weighs_what_the_rule_says() -> None:
    assert batch("black cherry", board_feet=1000).dry_mass / ONE_POUND == pytest.approx(52 * 100 * 0.47, rel=0.01)


def test_red_oak_at_its_safe_daily_loss_gives_off_13_gallons_for_1000_board_feet() -> None:
    """3.8% a day (Wengert, read) times 29 lb: about 110 lb."""
    found = dry([batch("northern red oak", board_feet=1000)], VENTED, 0.08, JUNE)
    assert found.peak_safe * 86_400 / ONE_POUND == pytest.approx(110, rel=0.02)
    assert found.water[0] / ONE_POUND == pytest.approx(110, rel=0.02)


def test_a_charge_loses_the_water_that_its_weight_says() -> None:
    volume = 500 * ONE_BOARD_FOOT
    found = dry([batch("black walnut", moisture=0.80)], VENTED, 0.08, JUNE)
    end = found.spreads[0].likely.moisture[-1]
    assert sum(found.water) == pytest.approx(water_lost(wood("black walnut"), volume, 0.80, end))
