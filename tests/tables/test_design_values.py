"""Which design values a bearer takes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import bearers
from stacklint.tables import design_values, woods
from stacklint.tables.design_values import DesignValues, SpeciesGroup
from stacklint.units import ONE_INCH, Unit

PSI = Unit.PSI.to_si(1)


def values(wood: str | None, width: float, depth: float) -> DesignValues:
    found = design_values.for_section(woods.find(wood) if wood else None, width * ONE_INCH, depth * ONE_INCH)
    assert found is not None
    return found


# NDS Supplement Tables 4A, 4B and 4D, No. 2; the white oak rows and all timbers from memory.
@pytest.mark.parametrize(
    ("wood", "section", "bending", "crushing"),
    [
        ("Douglas-fir", (4, 6), 900, 625),
        ("western hemlock", (3.5, 5.5), 850, 405),
        ("hem-fir", (6, 6), 575, 405),
        ("SPF", (4, 4), 875, 425),
        ("white oak", (4, 6), 850, 800),
        ("white oak", (6, 6), 600, 800),
        ("white oak", (6, 10), 750, 800),
        ("red oak", (4, 4), 800, 820),
        ("red oak", (6, 6), 575, 800),
        ("southern pine", (4, 4), 1100, 565),
        ("southern pine", (4, 6), 1000, 565),
        ("southern pine", (2, 12), 750, 565),
        ("southern pine", (6, 8), 850, 375),
    ],
)
def test_a_bearer_takes_the_row_of_its_species_group_and_size(
    wood: str, section: tuple[float, float], bending: float, crushing: float
) -> None:
    found = values(wood, *section)
    assert found.bending == pytest.approx(bending * PSI)
    assert found.crushing == pytest.approx(crushing * PSI)


def test_only_southern_pine_is_tabulated_by_width_and_its_timbers_wet() -> None:
    assert values("southern pine", 4, 6).size_in_value
    assert values("southern pine", 6, 6).wet_value
    assert not values("white oak", 4, 6).size_in_value
    assert not values("white oak", 6, 6).wet_value


def test_a_board_under_two_inches_has_no_design_values() -> None:
    assert design_values.for_section(woods.find("white oak"), 1 * ONE_INCH, 6 * ONE_INCH) is None


def test_an_unknown_wood_takes_the_lowest_values_of_all() -> None:
    for section in ((4.0, 6.0), (6.0, 6.0), (6.0, 10.0)):
        unknown = values(None, *section)
        assert unknown.memory
        for group in SpeciesGroup:
            listed = design_values.lookup(group, section[0] * ONE_INCH, section[1] * ONE_INCH)
            assert listed is not None
            assert unknown.bending <= listed.bending
            assert unknown.shear <= listed.shear
            assert unknown.crushing <= listed.crushing
            assert unknown.stiffness <= listed.stiffness


def test_a_soft_wood_without_a_group_is_crushed_sooner_than_the_group_that_stands_in() -> None:
    assert values("cottonwood", 4, 6).crushing == pytest.approx(200 * PSI / 1.67 / 0.67)
    assert values("cottonwood", 4, 6).memory


def test_dense_hardwoods_outside_the_oak_groups_take_no_more_than_oak() -> None:
    for wood in ("white ash", "sugar maple", "beech", "hickory"):
        assert values(wood, 4, 6).group is SpeciesGroup.OTHER_DENSE_HARDWOOD
        assert values(wood, 4, 6).bending < values("red oak", 4, 6).bending


@given(st.floats(0.5, 16), st.floats(0.5, 16))
def test_the_size_class_is_the_one_that_bearers_are_judged_by(width: float, depth: float) -> None:
    size = bearers.size_class(width * ONE_INCH, depth * ONE_INCH)
    found = design_values.for_section(woods.find("white oak"), width * ONE_INCH, depth * ONE_INCH)
    if size is None:
        assert found is None
        return
    assert found is not None
    expected = {
        bearers.SizeClass.DIMENSION: 850,
        bearers.SizeClass.BEAM: 750,
        bearers.SizeClass.POST: 600,
    }[size]
    assert found.bending == pytest.approx(expected * PSI)


def test_every_wood_has_values_for_every_size_of_bearer() -> None:
    for name in woods.names():
        for section in ((2.0, 6.0), (4.0, 4.0), (6.0, 6.0), (6.0, 12.0), (8.0, 8.0)):
            assert values(name, *section).name
