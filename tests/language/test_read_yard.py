"""The blocks that stacks share: sites, kilns, woods."""

from __future__ import annotations

import pytest

from stacklint.faults import FaultKind, Measure
from stacklint.language import read
from stacklint.plan.node import Name, Quantity
from stacklint.plan.yard import (
    Inside,
    Kiln,
    KilnType,
    Kind,
    Month,
    Plan,
    Site,
    Spots,
    Stock,
    StockKind,
    WoodStatement,
)
from stacklint.units import NUMBER, System, Unit


def plan_of(text: str) -> Plan:
    result = read(text)
    assert result.faults == ()
    return result.plan


def of(number: float, unit: Unit) -> Quantity:
    return Quantity(number=number, unit=unit)


def test_a_site_lies_near_a_place_of_the_climate_table() -> None:
    plan = plan_of('site "Cold Hollow"\n  near "Columbus, OH"')
    assert plan.sites == (Site(name=Name(text="Cold Hollow"), near=Name(text="Columbus, OH")),)


@pytest.mark.parametrize("january", ["jan", "Jan.", "january", "JANUARY"])
def test_a_site_may_say_its_own_months(january: str) -> None:
    (site,) = plan_of(f'site "Cold Hollow"\n month {january} -1 C 74%\n month sept 60 F 80%').sites
    assert site.months == (
        Month(number=1, temperature=of(-1, Unit.CELSIUS), humidity=of(74, Unit.PERCENT)),
        Month(number=9, temperature=of(60, Unit.FAHRENHEIT), humidity=of(80, Unit.PERCENT)),
    )


def test_a_kiln_says_its_room_its_limits_and_its_fans() -> None:
    plan = plan_of(
        """
        kiln "North box"
          type dehumidification
          inside 17 ft x 5 ft x 6 ft
          holds 1400 bf
          carries 9000 lb
          heats to 150 F
          removes 60 pt/day
          fans 4 of 2400 cfm
          plenum 18 in
          collector 120 ft2
        """
    )
    feet = [of(number, Unit.FOOT) for number in (17, 5, 6)]
    assert plan.kilns == (
        Kiln(
            name=Name(text="North box"),
            type=KilnType.DEHUMIDIFICATION,
            inside=Inside(length=feet[0], width=feet[1], height=feet[2]),
            holds=of(1400, Unit.BOARD_FOOT),
            carries=of(9000, Unit.POUND),
            heats_to=of(150, Unit.FAHRENHEIT),
            removes=of(60, Unit.PINT_PER_DAY),
            fan_count=4,
            fan_each=of(2400, Unit.CFM),
            plenum=of(18, Unit.INCH),
            collector=of(120, Unit.SQUARE_FOOT),
        ),
    )


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("vented", KilnType.VENTED),
        ("solar", KilnType.SOLAR),
        ("solar kiln", KilnType.SOLAR),
        ("DH", KilnType.DEHUMIDIFICATION),
        ("dehumidifier", KilnType.DEHUMIDIFICATION),
    ],
)
def test_a_kiln_is_of_one_of_three_types(said: str, kind: KilnType) -> None:
    assert plan_of(f'kiln "K"\n type {said}').kilns[0].type is kind


def test_a_wood_may_be_described_by_the_plan() -> None:
    plan = plan_of(
        """
        wood "osage orange"
          like black locust                      # a table wood that lends what is not given
          hardwood                               # or softwood
          specific gravity 0.76                  # oven-dry mass over green volume
          stiffness 1,330,000 psi green, 1,660,000 psi dry
          crushing 1200 psi                      # across the grain, green
          green moisture 60%
          shrinks 4% radial, 6% tangential, 9% volumetric
          source "own tests, 2025"
        """
    )
    assert plan.woods == (
        WoodStatement(
            name=Name(text="osage orange"),
            like=Name(text="black locust"),
            kind=Kind.HARDWOOD,
            specific_gravity=0.76,
            stiffness_green=of(1_330_000, Unit.PSI),
            stiffness_dry=of(1_660_000, Unit.PSI),
            crushing_green=of(1200, Unit.PSI),
            green_moisture=of(60, Unit.PERCENT),
            shrinkage_radial=of(4, Unit.PERCENT),
            shrinkage_tangential=of(6, Unit.PERCENT),
            shrinkage_volumetric=of(9, Unit.PERCENT),
            source="own tests, 2025",
        ),
    )


def test_a_wood_may_be_a_softwood_and_have_its_dry_stiffness_alone() -> None:
    (wood,) = plan_of('wood "yard pine"\n softwood\n like red pine\n stiffness 9 MPa dry').woods[:1]
    assert wood.kind is Kind.SOFTWOOD
    assert wood.stiffness_green is None
    assert wood.stiffness_dry == of(9, Unit.MEGAPASCAL)


@pytest.mark.parametrize(("said", "limit"), [("0.05", 0.1), ("1.4", 1.3)])
def test_no_wood_is_lighter_or_heavier_than_wood_can_be(said: str, limit: float) -> None:
    result = read(f'wood "odd"\n like white ash\n specific gravity {said}')
    (fault,) = result.faults
    assert fault.kind is FaultKind.VALUE_OUT_OF_RANGE
    assert fault.where[1:] == (3, 19, 3, 19 + len(said))
    assert fault.found == Measure(float(said), NUMBER)
    assert fault.limit == Measure(limit, NUMBER)
    assert result.plan.woods[0].specific_gravity is None
    assert result.plan.woods[0].faulty == {"specific gravity"}


def test_a_wood_is_hard_or_soft_but_not_both() -> None:
    result = read('wood "odd"\n hardwood\n softwood')
    assert [fault.where.line for fault in result.faults] == [3]
    assert result.plan.woods[0].kind is Kind.HARDWOOD


def test_a_plan_in_millimetres_is_metric_and_one_in_feet_is_not() -> None:
    metric = 'pile "B2"\n stack 4.8 m x 1.2 m\n stickers 20 mm x 30 mm, every 24 in'
    assert read(metric).system is System.METRIC
    assert read(metric.replace("1.2 m", "4 ft").replace("30 mm", "1 in")).system is System.INCH
    assert read('pile "B2"').system is System.INCH


def test_a_site_says_what_lies_ready_and_what_it_has_room_for() -> None:
    (site,) = plan_of(
        """
        site "Upper shed"
          spots 12
          holds 20,000 bf
          stock 400 stickers of 4 ft
          stock 60 bunks of 6 ft
          stock 20 bearers
        """
    ).sites
    assert site.spots == Spots(count=12)
    assert site.holds == of(20_000, Unit.BOARD_FOOT)
    assert site.stock == (
        Stock(kind=StockKind.STICKERS, count=400, length=of(4, Unit.FOOT)),
        Stock(kind=StockKind.BEARERS, count=60, length=of(6, Unit.FOOT)),
        Stock(kind=StockKind.BEARERS, count=20),
    )


@pytest.mark.parametrize("said", ["spots 0", "spots 10001", "holds 0 bf", "stock 0 bearers", "stock 6 bearers of 1 mm"])
def test_what_no_site_has_is_out_of_range(said: str) -> None:
    result = read(f'site "S"\n  {said}')
    assert [fault.kind for fault in result.faults] == [FaultKind.VALUE_OUT_OF_RANGE]
    assert result.plan.sites[0].faulty == {said.split()[0]}


@pytest.mark.parametrize("said", ["spots 3.5", "spots 12 ft", "holds 200", "holds 3 ft", "stock 60 boards"])
def test_what_says_no_number_or_volume_is_refused(said: str) -> None:
    result = read(f'site "S"\n  {said}')
    assert [fault.kind for fault in result.faults] == [FaultKind.PLAN_TEXT]


@pytest.mark.parametrize("said", ["spots 12", "holds 200 bf"])
def test_a_site_says_its_room_once(said: str) -> None:
    (fault,) = read(f'site "S"\n  {said}\n  {said}').faults
    assert "twice" in fault.message and fault.where.line == 3


def test_a_kiln_has_no_spots() -> None:
    (fault,) = read('kiln "K"\n  spots 12').faults
    assert "belongs in a site" in fault.message
