"""Schedules put together, charges of several, and which is harsher."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying.climate import Air
from stacklint.drying.schedule import (
    COLDEST_WET_BULB,
    assemble,
    conditions,
    harsher,
    harsher_air,
    mildest,
    step_at,
)
from stacklint.units import Unit

CODES = st.builds("T{}-{}{}".format, st.integers(1, 14), st.sampled_from("ABCDEF"), st.integers(1, 8))
MOISTURE = st.floats(0.03, 1.5)
HOT = Unit.FAHRENHEIT.to_si(200)


def fahrenheit(temperature: float) -> float:
    return Unit.FAHRENHEIT.from_si(temperature)


def test_a_step_begins_when_the_boards_come_down_to_its_moisture_content() -> None:
    steps = assemble("T4-D2")
    assert step_at(steps, 0.501).depression * 1.8 == pytest.approx(4)
    assert step_at(steps, 0.50).depression * 1.8 == pytest.approx(5)
    assert fahrenheit(step_at(steps, 0.05).dry_bulb) == pytest.approx(180)


def test_a_kiln_runs_no_hotter_than_it_heats() -> None:
    hottest = Unit.FAHRENHEIT.to_si(120)
    found = conditions(assemble("T4-D2"), hottest)
    assert max(step.air.temperature for step in found) == pytest.approx(hottest)


def test_the_wet_bulb_stays_at_80_f_or_more() -> None:
    """A depression of 50 F at 120 F would be a wet bulb of 70 F."""
    from stacklint.drying.air import wet_bulb

    last = conditions(assemble("T1-A1"), HOT)[-1]
    assert wet_bulb(*last.air) == pytest.approx(COLDEST_WET_BULB, abs=0.01)


@given(CODES, st.floats(35, 95))
def test_each_step_holds_until_the_next_begins(code: str, hottest: float) -> None:
    found = conditions(assemble(code), hottest)
    assert [step.until for step in found] == sorted((step.until for step in found), reverse=True)
    assert found[-1].until == -inf
    assert all(0 < step.emc < 0.25 for step in found)


@given(CODES, CODES, MOISTURE)
def test_a_mixed_charge_runs_as_mild_as_its_mildest_schedule(one: str, other: str, moisture: float) -> None:
    mixed = step_at(mildest((one, other)), moisture)
    for code in (one, other):
        own = step_at(assemble(code), moisture)
        assert mixed.dry_bulb <= own.dry_bulb and mixed.depression <= own.depression


@given(CODES)
def test_a_charge_of_one_schedule_runs_that(code: str) -> None:
    assert mildest((code, code)) == assemble(code)


@given(CODES)
def test_no_schedule_is_harsher_than_itself(code: str) -> None:
    assert harsher(code, code) is None


@given(CODES, CODES)
def test_of_two_schedules_that_differ_one_is_harsher(one: str, other: str) -> None:
    differ = assemble(one) != assemble(other)
    assert (harsher(one, other) is not None or harsher(other, one) is not None) is differ


def test_the_schedule_of_poplar_is_too_hot_and_dry_for_red_oak() -> None:
    found = harsher("T11-D4", "T4-D2")
    assert found is not None
    assert fahrenheit(found.said.dry_bulb) == pytest.approx(150)
    assert fahrenheit(found.published.dry_bulb) == pytest.approx(110)
    assert found.said_emc < found.published_emc
    assert "150 F" in found.words and "110 F" in found.words and "hotter and drier in green wood" in found.words


def test_a_schedule_that_is_harsher_only_at_the_end_says_where() -> None:
    """T3 and T4 differ in their last step alone: 160 and 180 F from 15%."""
    found = harsher("T4-D2", "T3-D2")
    assert found is not None
    assert found.moisture == pytest.approx(0.15)
    assert "hotter from 15%" in found.words


def test_a_milder_schedule_is_not_harsher() -> None:
    assert harsher("T3-D1", "T4-D2") is None


def test_set_air_is_judged_at_the_moisture_content_of_the_boards() -> None:
    warm = Air(Unit.FAHRENHEIT.to_si(110), 0.60)
    found = harsher_air(warm, "T4-D2", 0.75)
    assert found is not None and found.words.startswith("drier from 75%")
    assert harsher_air(warm, "T4-D2", 0.34) is None


@given(CODES)
def test_the_air_of_a_step_is_no_harsher_than_its_schedule(code: str) -> None:
    for step in conditions(assemble(code), HOT):
        assert harsher_air(step.air, code, max(step.until + 0.001, 0.05)) is None
