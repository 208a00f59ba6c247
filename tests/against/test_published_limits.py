"""Limits that the code and the rule book hold, against the published rows of the table of safety limits."""

from __future__ import annotations

import pytest

from stacklint.engineering import ground
from stacklint.plan.supports import Soil
from stacklint.rulebook import builtin
from stacklint.tables.rows import Row, read
from stacklint.units import GRAVITY, ONE_FOOT, ONE_INCH, ONE_POUND, Unit

ROWS = tuple(read("safety_limits"))
PSF = Unit.PSF.to_si(1)
POUND = ONE_POUND * GRAVITY


def row(topic: str, applies_to: str, source: str = "") -> Row:
    """The one row of a topic whose case begins so, of a source named so."""
    found = [
        entry
        for entry in ROWS
        if entry["topic"] == topic and entry["applies_to"].startswith(applies_to) and source in entry["source"]
    ]
    assert len(found) == 1, [entry["applies_to"] for entry in found]
    return found[0]


def limit(rule: str, name: str) -> float:
    """A limit of the rule book, SI."""
    held = builtin().rule(rule)
    assert held is not None
    return float(next(limit.value.value for limit in held.limits if limit.name == name))


@pytest.mark.parametrize(
    ("soil", "applies_to", "source"),
    [
        (Soil.GRAVEL, "sandy gravel and gravel (GW", "IBC 2012"),
        (Soil.SAND, "sand, silty sand", "IBC 2012"),
        (Soil.CLAY, "clay, sandy clay", "IBC 2012"),
        (Soil.BARE_SOIL, "filled ground or loam", "Chicago"),
        (Soil.GRASS, "filled ground or loam", "Chicago"),
        (Soil.SOFT_CLAY, "very soft clay", "Chicago"),
    ],
)
def test_ground_is_presumed_to_bear_what_the_building_code_says(soil: Soil, applies_to: str, source: str) -> None:
    pressure = ground.presumed(soil).pressure
    assert pressure is not None
    assert pressure / PSF == pytest.approx(float(row("soil", applies_to, source)["high"]))


def test_soft_clay_bears_no_more_than_the_code_allows_it() -> None:
    """The code gives 1,500 psf for soft clay and 500 for very soft clay; the lower is used."""
    pressure = ground.presumed(Soil.SOFT_CLAY).pressure
    assert pressure is not None
    assert pressure / PSF <= float(row("soil", "soft clay", "Chicago")["high"])


def test_a_dry_stacked_block_pier_bears_what_is_published() -> None:
    found = next(entry for entry in ROWS if entry["quantity"].startswith("load on a dry-stacked single pier"))
    assert float(found["high"]) * POUND == pytest.approx(ground.BLOCK_PIER)


def test_a_nominal_block_has_its_actual_size() -> None:
    length = float(next(entry for entry in ROWS if entry["quantity"] == "actual length")["high"])
    width = float(next(entry for entry in ROWS if entry["quantity"] == "actual width and height")["high"])
    found = ground.footprint(16 * ONE_INCH, 8 * ONE_INCH, block=True)
    assert found == pytest.approx(length * width * ONE_INCH**2)


def test_4800_lb_on_one_block_are_too_much_for_every_soil() -> None:
    """Worked by hand: 7.625 x 15.625 in = 0.827 ft2, 5,800 psf, over the 3,000 psf of gravel."""
    area = ground.footprint(16 * ONE_INCH, 8 * ONE_INCH, block=True)
    pressure = ground.pressure(4800 * POUND, area)
    assert pressure / PSF == pytest.approx(5800, abs=5)
    assert all(pressure > (ground.presumed(soil).pressure or 0) for soil in Soil)


@pytest.mark.parametrize(
    ("side_ft", "psf", "soils"), [(16 / 12, 2700, {Soil.GRAVEL}), (2, 1200, {Soil.GRAVEL, Soil.SAND, Soil.CLAY})]
)
def test_a_larger_pad_brings_4800_lb_within_what_these_soils_bear(side_ft: float, psf: float, soils: set[Soil]) -> None:
    """Worked by hand: 2,700 psf under 16 in square, 1,200 psf under 24 in square."""
    pressure = ground.pressure(4800 * POUND, ground.footprint(side_ft * ONE_FOOT, side_ft * ONE_FOOT))
    assert pressure / PSF == pytest.approx(psf)
    assert {soil for soil in Soil if pressure <= (ground.presumed(soil).pressure or 0)} == soils


def test_a_stack_laid_by_hand_may_stand_as_high_as_the_construction_rules_say() -> None:
    """29 CFR 1926.250(b)(8), 8 CCR 1549(c) and Ohio 4123:1-3-02 agree on 16 ft by hand and 20 ft by machine."""
    by_hand = [entry for entry in ROWS if "handled manually" in entry["applies_to"]]
    assert len(by_hand) == 3
    for entry in by_hand:
        assert float(entry["high"]) * ONE_FOOT == pytest.approx(limit("pile-too-tall", "by_hand"))
    by_machine = row("height", "lumber piles, construction", "California")
    assert float(by_machine["high"]) * ONE_FOOT == pytest.approx(limit("pile-too-tall", "by_machine"))


def test_one_person_lifts_the_load_constant_of_the_lifting_equation() -> None:
    constant = float(row("lifting", "one person, US (NIOSH load constant)")["high"])
    assert constant * ONE_POUND == pytest.approx(limit("lift-too-heavy", "one"))


def test_a_stack_is_top_heavy_from_the_ratio_of_uk_practice() -> None:
    """4 to 1, from memory; see the row's source."""
    assert float(row("height", "sawn timber packs, UK practice")["high"]) == limit("pile-top-heavy", "norm")


def test_every_limit_of_the_table_names_its_source() -> None:
    assert all(entry["source"] for entry in ROWS)
