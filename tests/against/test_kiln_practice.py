"""Limits on the air of a kiln charge, against the table of kiln practice."""

from __future__ import annotations

import pint
import pytest

from stacklint.drying.kiln_air import speed
from stacklint.rulebook import builtin
from stacklint.tables.rows import Row, read
from stacklint.units import Unit

ROWS = tuple(read("kiln_limits"))
FPM = Unit.FEET_PER_MINUTE.to_si(1)


def row(topic: str, applies_to: str) -> Row:
    """The one row of a topic whose case begins so."""
    found = [entry for entry in ROWS if entry["topic"] == topic and entry["applies_to"].startswith(applies_to)]
    assert len(found) == 1
    return found[0]


def limits(rule: str) -> dict[str, float]:
    held = builtin().rule(rule)
    assert held is not None
    return {limit.name: limit.value.value for limit in held.limits}


@pytest.mark.parametrize(
    ("limit", "applies_to"),
    [("vented", "conventional kiln"), ("tender", "oak and other"), ("dh", "dehumidification"), ("sun", "solar")],
)
def test_air_is_slow_below_the_published_range_of_its_kiln(limit: str, applies_to: str) -> None:
    assert limits("airflow-too-slow")[limit] / FPM == pytest.approx(float(row("air_speed", applies_to)["low"]))


@pytest.mark.parametrize(("limit", "applies_to"), [("inner", "oak and other"), ("sun", "solar")])
def test_air_is_fast_for_oak_above_the_published_range(limit: str, applies_to: str) -> None:
    assert limits("airflow-too-fast")[limit] / FPM == pytest.approx(float(row("air_speed", applies_to)["high"]))


def test_slow_air_matters_until_more_of_it_brings_no_faster_drying() -> None:
    """F. Lamb, The importance of air velocity in drying (2002), read."""
    (lamb,) = [entry for entry in ROWS if entry["quantity"].startswith("MC below which more speed")]
    assert lamb["how"] == "found"
    assert limits("airflow-too-slow")["dry"] * 100 == pytest.approx(float(lamb["high"]))


def test_the_plenum_is_as_wide_as_its_openings_are_high() -> None:
    assert limits("plenum-too-narrow")["least"] == float(row("plenum", "internal-fan kiln")["low"])


def test_no_gap_round_a_load_is_allowed_for() -> None:
    """The table has every gap closed; the shares from which the rule speaks are common practice, no source."""
    (gap,) = [entry for entry in ROWS if entry["quantity"].startswith("permissible open gap")]
    assert float(gap["high"]) == 0
    assert 0 < limits("baffle-missing")["little"] < limits("baffle-missing")["much"] < 0.5


def test_the_speed_is_the_fans_air_over_the_openings() -> None:
    """The table's definition, fan capacity = speed x openings, with the units of pint."""
    units = pint.UnitRegistry()
    delivery, openings = 2400 * units.foot**3 / units.minute, 12 * units.foot**2
    wanted = (delivery / openings).to("m/s").magnitude
    found = speed(delivery.to("m^3/s").magnitude, openings.to("m^2").magnitude, 0.0)
    assert found == pytest.approx(wanted)
    assert found / FPM == pytest.approx(200)


def test_every_recalled_limit_says_so() -> None:
    for name in ("airflow-too-slow", "airflow-too-fast", "plenum-too-narrow"):
        rule = builtin().rule(name)
        assert rule is not None
        recalled = {limit.name for limit in rule.limits if limit.memory}
        read_or_practice = "F. Lamb", "common practice"
        assert recalled == {limit.name for limit in rule.limits if not limit.source.startswith(read_or_practice)}
