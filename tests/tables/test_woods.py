"""Finding woods by name, and the figures that come with them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.plan.node import Name, Quantity
from stacklint.plan.yard import Kind, WoodStatement
from stacklint.tables import woods
from stacklint.tables.rows import read
from stacklint.tables.wood import MissingFigures, Wood
from stacklint.units import Unit


def wood(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None, name
    return found


def described(statement: WoodStatement) -> Wood:
    found = woods.described(statement)
    assert isinstance(found, Wood)
    return found


# The trade's names, common practice, no source.
@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("tulip poplar", "yellow-poplar"),
        ("Yellow Poplar", "yellow-poplar"),
        ("soft maple", "red maple"),
        ("hard maples", "sugar maple"),
        ("red oak", "northern red oak"),
        ("White Oaks", "white oak"),
        ("walnut", "black walnut"),
        ("cherries", "black cherry"),
        ("ash", "white ash"),
        ("linden", "American basswood"),
        ("SYP", "loblolly pine"),
        ("southern yellow pine", "loblolly pine"),
        ("Doug fir", "coast Douglas-fir"),
        ("douglas  fir", "coast Douglas-fir"),
        ("eastern red cedar", "eastern redcedar"),
        ("black gum", "black tupelo"),
        ("cypress", "baldcypress"),
        ("Quercus rubra", "northern red oak"),
        ("Fraxinus americana", "white ash"),
    ],
)
def test_a_wood_is_found_by_the_names_that_the_trade_uses(written: str, meant: str) -> None:
    assert wood(written).name == meant


@pytest.mark.parametrize("name", woods.names())
def test_letter_case_spaces_hyphens_and_plurals_make_no_difference(name: str) -> None:
    assert wood(name.upper()).name == name
    assert wood(name.replace("-", " ")).name == name
    assert wood(f"  {name.replace(' ', '  ')} ").name == name
    if not name.endswith(("s", "h", "y")):
        assert wood(f"{name}s").name == name


@pytest.mark.parametrize("name", [row["name"] for row in read("ambiguous_names")])
def test_a_name_of_several_woods_is_not_taken_for_one_of_them(name: str) -> None:
    assert woods.find(name) is None
    assert len(woods.nearest(name, 9)) >= 2


def test_the_cedars_are_offered_for_cedar() -> None:
    assert woods.nearest("cedar", 9)[:3] == ("western redcedar", "eastern redcedar", "northern white-cedar")


@pytest.mark.parametrize(
    ("slip", "meant"),
    [
        ("white ahs", "white ash"),
        ("wite oak", "white oak"),
        ("wlanut", "black walnut"),
        ("poplr", "yellow-poplar"),
        ("sweet gumm", "sweetgum"),
        ("scarlet oak", "white oak"),
        ("mapel", "sugar maple"),
    ],
)
def test_the_wood_meant_is_offered_first_for_a_slip_of_the_pen(slip: str, meant: str) -> None:
    assert woods.find(slip) is None
    assert woods.nearest(slip)[0] == meant


@pytest.mark.parametrize("name", ["", "unobtainium", "%%", "12"])
def test_nothing_is_offered_for_what_is_no_wood(name: str) -> None:
    assert woods.find(name) is None
    assert woods.nearest(name) == ()


@given(st.text(max_size=40))
def test_any_text_can_be_looked_up(text: str) -> None:
    found = woods.find(text)
    assert found is None or found.name in woods.names()
    assert len(woods.nearest(text)) <= 3


def test_every_synonym_stand_in_and_trait_names_a_wood_of_the_table() -> None:
    known = set(woods.names())
    assert {
        row["wood"] for table in ("synonyms", "traits", "design_groups", "drying_kin") for row in read(table)
    } <= known
    assert {row["wood"] for row in read("moisture_stand_ins")} <= known
    assert {row["lent_by"] for row in read("moisture_stand_ins")} <= known
    assert {name for row in read("ambiguous_names") for name in row["woods"].split(";")} <= known


def test_a_synonym_never_hides_a_wood_of_the_table() -> None:
    assert all(wood(name).name == name for name in woods.names())


def test_every_wood_can_be_weighed_bent_and_dried() -> None:
    for name in woods.names():
        found = wood(name)
        assert 0.25 < found.sg_green < 0.75
        assert 4e9 < found.moe_green <= found.moe_dry < 16e9
        assert 1e6 < found.c_perp_green < 9e6
        assert 0.3 < found.mc_green < 1.7
        assert 0.05 < found.shrink_volumetric < 0.2


def test_a_red_maple_says_that_silver_maple_lends_its_green_moisture() -> None:
    red, silver = wood("red maple"), wood("silver maple")
    assert (red.mc_heart, red.mc_sap) == (silver.mc_heart, silver.mc_sap)
    assert red.moisture.memory
    assert red.derived == ("green moisture, lent by silver maple",)
    assert silver.derived == ()


def test_a_stand_in_is_not_stood_in_for_itself() -> None:
    for row in read("moisture_stand_ins"):
        assert wood(row["lent_by"]).derived == ()


def test_norway_spruce_says_that_its_green_stiffness_was_worked_out() -> None:
    spruce = wood("Norway spruce")
    assert "stiffness green, from that at 12%" in spruce.derived
    assert 0.7 < spruce.moe_green / spruce.moe_dry < 0.9


def test_sweetgum_warps_oak_checks_and_maple_stains() -> None:
    assert wood("sweetgum").warp_prone and not wood("sweetgum").check_prone
    assert wood("white oak").check_prone and not wood("white oak").stain_prone
    assert wood("sugar maple").stain_prone and not wood("sugar maple").warp_prone


class TestDescribed:
    def test_a_wood_like_another_borrows_what_is_not_given(self) -> None:
        statement = WoodStatement(
            name=Name(text="mulberry"), like=Name(text="black locust"), specific_gravity=0.59,
            stiffness_green=Quantity(number=1.0e6, unit=Unit.PSI),
        )  # fmt: skip
        mulberry, locust = described(statement), wood("black locust")
        assert mulberry.name == "mulberry"
        assert mulberry.sg_green == 0.59
        assert mulberry.moe_green == pytest.approx(6.894757e9)
        assert mulberry.moe_dry / mulberry.moe_green == pytest.approx(locust.moe_dry / locust.moe_green)
        assert mulberry.c_perp_green == locust.c_perp_green
        assert mulberry.check_prone
        assert "green moisture, lent by black locust" in mulberry.derived
        assert not any(words.startswith(("stiffness", "specific")) for words in mulberry.derived)

    def test_a_specific_gravity_and_a_kind_are_enough(self) -> None:
        fir = described(WoodStatement(name=Name(text="alpine fir"), kind=Kind.SOFTWOOD, specific_gravity=0.31))
        assert not fir.hardwood
        assert fir.shrink_volumetric == pytest.approx(0.265 * 0.31)
        assert fir.moe_green == pytest.approx(0.9e6 * 6894.757, rel=0.2)  # subalpine fir 1.05 million psi, memory
        assert fir.mechanics.memory and fir.derived

    def test_a_wood_of_unsaid_kind_is_taken_as_the_less_stiff_kind(self) -> None:
        unsaid = described(WoodStatement(name=Name(text="thorn"), specific_gravity=0.5))
        soft = described(WoodStatement(name=Name(text="thorn"), specific_gravity=0.5, kind=Kind.SOFTWOOD))
        assert unsaid.moe_green < soft.moe_green
        assert "kind, taken as a hardwood" in unsaid.derived

    def test_figures_of_the_plan_own_are_used_and_named(self) -> None:
        statement = WoodStatement(
            name=Name(text="osage"), specific_gravity=0.76, source="extension bulletin",
            green_moisture=Quantity(number=31, unit=Unit.PERCENT),
            crushing_green=Quantity(number=2260, unit=Unit.PSI),
            shrinkage_radial=Quantity(number=3.8, unit=Unit.PERCENT),
            shrinkage_tangential=Quantity(number=5.9, unit=Unit.PERCENT),
        )  # fmt: skip
        osage = described(statement)
        assert osage.mc_green == pytest.approx(0.31)
        assert osage.shrink_volumetric == pytest.approx(0.038 + 0.059 - 0.038 * 0.059)
        assert osage.c_perp_green == pytest.approx(2260 * 6894.757)
        assert osage.moisture.source == osage.shrinkage.source == "extension bulletin"
        assert not osage.moisture.memory

    def test_without_specific_gravity_or_a_like_wood_it_says_what_it_lacks(self) -> None:
        missing = woods.described(WoodStatement(name=Name(text="thorn"), like=Name(text="no such wood")))
        assert isinstance(missing, MissingFigures)
        assert missing.lacks == ("its specific gravity, or a wood of the table that it is like",)
