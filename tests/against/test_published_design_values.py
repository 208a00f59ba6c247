"""Bearers against the published design values of lumber and their adjustment.

NDS: National Design Specification for Wood Construction and its Supplement (2015/2018).
"""

from __future__ import annotations

import pytest

from stacklint.engineering import beam, bearers, bearing, creep
from stacklint.engineering.bearers import LoadDuration, Pads, Strength
from stacklint.tables import design_values
from stacklint.tables.design_values import SpeciesGroup
from stacklint.tables.rows import Row, read
from stacklint.units import GRAVITY, ONE_FOOT, ONE_INCH, ONE_POUND, Unit

PSI = Unit.PSI.to_si(1)
POUND = ONE_POUND * GRAVITY
ROWS = tuple(read("bearer_design_values"))


def tabulated(group: SpeciesGroup, width: float, depth: float) -> Strength:
    row = design_values.lookup(group, width * ONE_INCH, depth * ONE_INCH)
    assert row is not None
    return Strength(row.bending, row.shear, row.crushing, row.stiffness, row.wet_value, row.size_in_value)


def adjusted(
    group: SpeciesGroup,
    width: float,
    depth: float,
    *,
    wet: bool = False,
    duration: LoadDuration = LoadDuration.TEN_YEARS,
) -> bearers.Allowable:
    strength = tabulated(group, width, depth)
    found = bearers.adjusted(strength, width * ONE_INCH, depth * ONE_INCH, wet=wet, duration=duration)
    assert found is not None
    return found


# No. 2 dimension lumber: https://github.com/qsaad/stroogle data/wood/SawnSpecies.js (NDS Supplement Table 4A).
# fb, fv, fc-perp, E in psi.
@pytest.mark.parametrize(
    ("group", "values"),
    [
        (SpeciesGroup.DOUGLAS_FIR_LARCH, (900, 180, 625, 1_600_000)),
        (SpeciesGroup.HEM_FIR, (850, 150, 405, 1_300_000)),
        (SpeciesGroup.SPRUCE_PINE_FIR, (875, 135, 425, 1_400_000)),
        (SpeciesGroup.WESTERN_CEDARS, (700, 155, 425, 1_000_000)),
    ],
)
def test_dimension_lumber_has_the_values_of_table_4a(group: SpeciesGroup, values: tuple[float, ...]) -> None:
    row = tabulated(group, 4, 6)
    assert (row.bending / PSI, row.shear / PSI, row.crushing / PSI, row.stiffness / PSI) == pytest.approx(values)


# Bending in MPa by width: https://github.com/xcfem/xc python_modules/materials/awc_nds/dimensional_lumber.py, from
# the metric edition of a guide to Southern Pine (NDS Supplement Table 4B).
@pytest.mark.parametrize(("depth", "mpa"), [(3.5, 7.58), (5.5, 6.89), (7.25, 6.38), (9.25, 5.52), (11.25, 5.17)])
def test_southern_pine_has_the_metric_values_of_its_guide_by_width(depth: float, mpa: float) -> None:
    assert tabulated(SpeciesGroup.SOUTHERN_PINE, 1.5, depth).bending / 1e6 == pytest.approx(mpa, rel=0.01)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['species_group']} {row['size_class'][:12]}")
def test_the_two_systems_of_units_of_a_row_agree(row: Row) -> None:
    """The metric and the psi columns were gathered apart: a slip in either would show."""
    for psi, metric, scale in (
        ("fb_psi", "fb_mpa", 1e6),
        ("fc_perp_psi", "fc_perp_mpa", 1e6),
        ("moe_psi", "moe_gpa", 1e9),
    ):
        if row[psi] and row[metric]:
            assert float(row[psi]) * PSI == pytest.approx(float(row[metric]) * scale, rel=0.01)


# CF of NDS Supplement Table 4A: the same file as above.
@pytest.mark.parametrize(
    ("width", "depth", "factor"),
    [
        (1.5, 3.5, 1.5),
        (1.5, 5.5, 1.3),
        (1.5, 7.25, 1.2),
        (1.5, 9.25, 1.1),
        (1.5, 11.25, 1.0),
        (1.5, 13.25, 0.9),
        (3.5, 3.5, 1.5),
        (3.5, 5.5, 1.3),
        (3.5, 7.25, 1.3),
        (4.0, 8.0, 1.3),
        (3.5, 11.25, 1.1),
        (3.5, 13.25, 1.0),
    ],
)
def test_wider_lumber_takes_a_smaller_size_factor(width: float, depth: float, factor: float) -> None:
    found = adjusted(SpeciesGroup.DOUGLAS_FIR_LARCH, width, depth)
    assert found.bending / PSI == pytest.approx(900 * factor)


# Cfu of NDS Supplement Table 4A: the same file. Bending also takes CF of the width.
@pytest.mark.parametrize(
    ("width", "depth", "factor"), [(3.5, 1.5, 1.1), (5.5, 1.5, 1.15), (9.25, 1.5, 1.2), (5.5, 3.5, 1.05)]
)
def test_lumber_laid_flat_takes_the_flat_use_factor(width: float, depth: float, factor: float) -> None:
    flat = adjusted(SpeciesGroup.DOUGLAS_FIR_LARCH, width, depth)
    edge = adjusted(SpeciesGroup.DOUGLAS_FIR_LARCH, depth, width)
    assert flat.bending / edge.bending == pytest.approx(factor)


def test_southern_pine_takes_no_size_factor_up_to_12_in_but_1_1_where_4_in_thick_and_8_in_wide() -> None:
    """NDS Supplement Table 4B (memory)."""
    assert adjusted(SpeciesGroup.SOUTHERN_PINE, 1.5, 7.25).bending / PSI == pytest.approx(925)
    assert adjusted(SpeciesGroup.SOUTHERN_PINE, 3.5, 5.5).bending / PSI == pytest.approx(1000)
    assert adjusted(SpeciesGroup.SOUTHERN_PINE, 3.5, 7.25).bending / PSI == pytest.approx(925 * 1.1)
    assert adjusted(SpeciesGroup.SOUTHERN_PINE, 1.5, 13.25).bending / PSI == pytest.approx(750 * 0.9)


def test_a_timber_deeper_than_12_in_is_reduced_by_the_ninth_root() -> None:
    """CF = (12 / d)^(1/9) (NDS Supplement Table 4D, memory)."""
    shallow, deep = (adjusted(SpeciesGroup.HEM_FIR, 6, depth) for depth in (11.5, 15.5))
    assert shallow.bending / PSI == pytest.approx(675)
    assert deep.bending / PSI == pytest.approx(675 * 0.9720, rel=1e-4)


# Wet service factors: https://www.yumpu.com/en/document/view/10602831/
# building-design-and-construction-handbook-merritt-ventech/923
def test_wet_dimension_lumber_keeps_its_bending_only_up_to_1150_psi() -> None:
    """Fb x CF: 900 x 1.3 = 1170 psi takes 0.85; hem-fir 850 x 1.3 = 1105 psi does not.

    Fv 0.97, E 0.90, Fc-perp 0.67.
    """
    strong = adjusted(SpeciesGroup.DOUGLAS_FIR_LARCH, 4, 6, wet=True)
    weak = adjusted(SpeciesGroup.HEM_FIR, 4, 6, wet=True)
    assert strong.bending / PSI == pytest.approx(1170 * 0.85)
    assert weak.bending / PSI == pytest.approx(1105)
    assert weak.shear / PSI == pytest.approx(150 * 0.97)
    assert weak.crushing / PSI == pytest.approx(405 * 0.67)
    assert weak.stiffness / PSI == pytest.approx(1_300_000 * 0.9)


def test_wet_timbers_lose_only_across_the_grain() -> None:
    found = adjusted(SpeciesGroup.HEM_FIR, 5.5, 5.5, wet=True)
    assert found.bending / PSI == pytest.approx(575)
    assert found.shear / PSI == pytest.approx(140)
    assert found.stiffness / PSI == pytest.approx(1_100_000)
    assert found.crushing / PSI == pytest.approx(405 * 0.67)


def test_southern_pine_timbers_are_not_made_wet_twice() -> None:
    """Table 4D gives them wet: 375 psi is about 565 x 0.67 (memory)."""
    assert adjusted(SpeciesGroup.SOUTHERN_PINE, 5.5, 5.5, wet=True).crushing / PSI == pytest.approx(375)


# Cb = (l + 0.375) / l: https://web.mst.edu/jthomas/classes/5260/concept/06/08/index.html; rounded as in NDS
# Table 3.10.4.
@pytest.mark.parametrize(
    ("length", "factor"), [(0.5, 1.75), (1, 1.38), (1.5, 1.25), (2, 1.19), (3, 1.13), (4, 1.10), (6, 1.0), (8, 1.0)]
)
def test_a_short_bearing_takes_the_published_area_factor(length: float, factor: float) -> None:
    assert bearing.bearing_area_factor(length * ONE_INCH) == pytest.approx(factor, abs=0.0065)


@pytest.mark.parametrize(("design", "bears"), [(800, 670), (425, 356)])
def test_a_green_board_bears_this_under_a_sticker_of_an_inch_and_a_half(design: float, bears: float) -> None:
    """White oak (memory) and Spruce-Pine-Fir (Table 4A): Fc-perp x 0.67 x 1.25, worked by hand."""
    factor = bearing.bearing_area_factor(1.5 * ONE_INCH)
    found = bearing.limit(0.6, design_value=design * PSI, area_factor=factor)
    assert found is not None
    assert found.stress / PSI == pytest.approx(bears, abs=0.6)


def test_a_6_x_6_of_green_hem_fir_on_piers_4_ft_apart_under_1200_lb_a_foot_is_overloaded_1_81_times() -> None:
    """Worked by hand: M 2,400 lb-ft, S 27.73 in3, fb 1,039 psi against 575 psi (Table 4D, posts and timbers,
    memory); sag 0.082 in, 0.165 in with the factor 2.0 of wet bearers."""
    strength = tabulated(SpeciesGroup.HEM_FIR, 5.5, 5.5)
    used = bearers.use(
        4800 * POUND,
        4 * ONE_FOOT,
        5.5 * ONE_INCH,
        5.5 * ONE_INCH,
        Pads((0.0, 4 * ONE_FOOT), 7.625 * ONE_INCH),
        strength,
        duration=LoadDuration.TEN_YEARS,
    )
    assert used.worst is not None
    assert used.worst[0] == pytest.approx(1.81, abs=0.005)
    assert used.worst[1] is bearers.Way.BENDING
    # 1.5 V / A = 1.5 x 2,400 lb / 30.25 in2 = 119 psi against 140 psi
    assert used.shear == pytest.approx(119 / 140, abs=0.001)
    assert used.sag is not None
    assert used.sag / ONE_INCH == pytest.approx(0.082, abs=0.0005)
    sunk = used.sag * creep.of(creep.Condition.BEARER_WET).likely
    assert sunk / ONE_INCH == pytest.approx(0.165, abs=0.0005)


def test_the_same_bearer_may_carry_664_lb_a_foot() -> None:
    strength = tabulated(SpeciesGroup.HEM_FIR, 5.5, 5.5)
    pads = Pads((0.0, 4 * ONE_FOOT), 7.625 * ONE_INCH)
    used = bearers.use(
        4 * 664 * POUND, 4 * ONE_FOOT, 5.5 * ONE_INCH, 5.5 * ONE_INCH, pads, strength, duration=LoadDuration.TEN_YEARS
    )
    assert used.bending == pytest.approx(1.0, abs=0.001)


def test_4800_lb_of_a_6_x_6_on_a_block_pass_in_crushing() -> None:
    """Worked by hand: 114 psi on 7.625 x 5.5 in against 405 x 0.67 = 271 psi."""
    strength = tabulated(SpeciesGroup.HEM_FIR, 5.5, 5.5)
    half = 7.625 * ONE_INCH / 2
    pads = Pads((half, 8 * ONE_FOOT - half), 7.625 * ONE_INCH)
    used = bearers.use(9600 * POUND, 8 * ONE_FOOT, 5.5 * ONE_INCH, 5.5 * ONE_INCH, pads, strength)
    assert used.pad_load == pytest.approx(4800 * POUND)
    assert used.crushing == pytest.approx(114 / 271, abs=0.003)


def test_the_guide_joist_is_stressed_as_printed() -> None:
    """Residential Structural Design Guide 2nd ed., Example 5.1, as transcribed in https://github.com/xcfem/xc: a
    2 x 8 at 16 in, 40 psf, 14.865 ft, 1345 psi."""
    load = 40 * Unit.PSF.to_si(1) * 16 * ONE_INCH
    result = beam.solve((0.0, 14.865 * ONE_FOOT), 0.0, 14.865 * ONE_FOOT, load, 1.0)
    assert result is not None
    stress = result.largest_moment / (1.5 * 7.25**2 / 6 * ONE_INCH**3)
    assert stress / PSI == pytest.approx(1345, abs=1.0)
