"""What a kiln does once the boards are dry."""

from __future__ import annotations

import pytest
from kiln_charges import DEHUMIDIFICATION, VENTED, batch, solar

from stacklint.drying.forecast import Step
from stacklint.drying.treatment import steps
from stacklint.tables.rows import read

HOUR = 3600


def named(name: str, found: tuple[Step, ...]) -> Step:
    return next(step for step in found if step.name == name)


def rows(topic: str, quantity: str) -> dict[str, float]:
    """The table's figure by the wanted average, both in percent."""
    return {
        row["applies_to"].removeprefix("target average ").removesuffix(" %"): float(row["low"])
        for row in read("kiln_limits")
        if row["topic"] == topic and row["quantity"].startswith(quantity)
    }


# Dry Kiln Operator's Manual AH-188 (1991) ch. 7, equalising and conditioning table (memory).
@pytest.mark.parametrize("percent", range(5, 12))
def test_the_air_of_each_step_is_that_of_the_published_table(percent: int) -> None:
    hard = steps([batch("sugar maple")], VENTED, percent / 100)
    soft = steps([batch("eastern white pine")], VENTED, percent / 100)
    key = str(percent)
    assert f"at {rows('condition', 'conditioning EMC, hardwood')[key]:g}%" in named("conditioning", hard).words
    assert f"at {rows('condition', 'conditioning EMC, softwood')[key]:g}%" in named("conditioning", soft).words
    equalised = named("equalising", hard).words
    assert f"at {rows('equalise', 'driest sample at start')[key]:g}% once the driest" in equalised
    assert f"until the wettest boards are at {rows('equalise', 'wettest sample at end')[key]:g}%" in equalised


def test_4_4_is_conditioned_for_16_to_24_hours_and_8_4_for_up_to_48() -> None:
    thin = named("conditioning", steps([batch("sugar maple", 1)], VENTED, 0.07))
    thick = named("conditioning", steps([batch("sugar maple", 2)], VENTED, 0.07))
    assert (thin.low / HOUR, thin.high / HOUR) == pytest.approx((16, 24))
    assert thick.high / HOUR == pytest.approx(48)


@pytest.mark.parametrize("wanted", [None, 0.04, 0.12, 0.19])
def test_boards_for_framing_or_air_drying_are_neither_equalised_nor_conditioned(wanted: float | None) -> None:
    assert steps([batch("eastern white pine")], VENTED, wanted) == ()


def test_a_solar_kiln_cannot_hold_the_air_for_it() -> None:
    assert steps([batch("sugar maple")], solar(45), 0.07) == ()


def test_4_4_maple_in_a_hot_kiln_is_equalised_within_two_days() -> None:
    """Common practice, no source."""
    found = named("equalising", steps([batch("sugar maple")], VENTED, 0.07))
    assert 4 * HOUR < found.low < found.high < 48 * HOUR


def test_thicker_boards_and_cooler_kilns_take_longer_to_even_out() -> None:
    thin = named("equalising", steps([batch("northern red oak", 1)], VENTED, 0.07))
    thick = named("equalising", steps([batch("northern red oak", 2)], VENTED, 0.07))
    cool = named("equalising", steps([batch("northern red oak", 1)], DEHUMIDIFICATION, 0.07))
    assert thick.high > 2 * thin.high
    assert cool.high > 2 * thin.high


def test_a_mixed_charge_is_treated_for_its_thickest_boards() -> None:
    alone = steps([batch("sugar maple", 2)], VENTED, 0.07)
    mixed = steps([batch("sugar maple", 1), batch("sugar maple", 2)], VENTED, 0.07)
    assert named("conditioning", mixed).high == pytest.approx(named("conditioning", alone).high)
