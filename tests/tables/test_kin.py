"""By which published rows a wood dries."""

from __future__ import annotations

import pytest

from stacklint.plan.node import Name
from stacklint.plan.yard import Kind, WoodStatement
from stacklint.tables import woods
from stacklint.tables.kin import kin_of
from stacklint.tables.rows import read
from stacklint.tables.wood import Wood


def described(name: str, *, like: str | None = None, sg: float | None = None, kind: Kind | None = None) -> Wood:
    found = woods.described(
        WoodStatement(
            name=Name(text=name), like=None if like is None else Name(text=like), specific_gravity=sg, kind=kind
        )
    )
    assert isinstance(found, Wood)
    return found


def known(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None
    return found


def column(table: str, name: str) -> set[str]:
    return {row[name] for row in read(table)}


@pytest.mark.parametrize("name", woods.names())
def test_every_wood_of_the_table_has_rows_of_its_own(name: str) -> None:
    kin = kin_of(known(name))
    assert kin.lender == name
    assert kin.air in column("air_rates", "species")
    assert kin.kiln in column("kiln_rates", "wood") | column("kiln_drying_times", "species")
    assert 0 < kin.kiln_factor <= 1


@pytest.mark.parametrize("name", [name for name in woods.names() if name in column("air_rates", "species")])
def test_a_wood_that_the_list_has_dries_by_its_own_row(name: str) -> None:
    assert kin_of(known(name)).air == name


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("white oak", "northern white oak"),
        ("European oak", "northern white oak"),
        ("European ash", "white ash"),
        ("Norway spruce", "red spruce"),
        ("shagbark hickory", "hickory"),
        ("redwood old-growth", "redwood sinker"),
    ],
)
def test_a_wood_that_the_list_lacks_dries_as_its_nearest_relation(name: str, row: str) -> None:
    """Common practice, no source."""
    assert kin_of(known(name)).air == row


def test_a_softwood_never_dries_by_the_row_of_a_hardwood() -> None:
    hard = {kin_of(known(name)).air for name in woods.names() if known(name).hardwood}
    soft = {kin_of(known(name)).air for name in woods.names() if not known(name).hardwood}
    assert not hard & soft
    assert len(hard) > 20 and len(soft) > 20


@pytest.mark.parametrize("like", ["white oak", "yellow-poplar", "eastern white pine"])
def test_a_wood_that_is_said_to_be_like_another_dries_as_that_one(like: str) -> None:
    """However heavy it is."""
    assert kin_of(described("fen wood", like=like)).lender == like
    assert kin_of(described("fen wood", like=like, sg=0.9)).lender == like


def test_a_wood_known_by_its_weight_alone_dries_as_the_one_of_its_kind_that_is_nearest() -> None:
    for kind in Kind:
        for sg in (0.30, 0.45, 0.60, 0.95):
            wood = described("fen wood", sg=sg, kind=kind)
            lender = known(kin_of(wood).lender)
            assert lender.hardwood is (kind is Kind.HARDWOOD)
            nearest = min(
                abs(known(name).sg_green - sg) for name in woods.names() if known(name).hardwood is lender.hardwood
            )
            assert abs(lender.sg_green - sg) == pytest.approx(nearest)


def test_a_plans_own_figures_for_a_known_wood_do_not_change_how_it_dries() -> None:
    assert kin_of(described("white oak", sg=0.5)).lender == "white oak"


def test_schedules_and_safe_losses_are_named_only_where_the_tables_have_them() -> None:
    schedules, safe = column("kiln_schedule_species", "species"), column("safe_drying_rates", "species")
    for name in woods.names():
        kin = kin_of(known(name))
        assert kin.schedule is None or kin.schedule in schedules
        assert kin.safe is None or kin.safe in safe
    assert kin_of(known("northern red oak")).safe == "Red oak (upland)"
    assert kin_of(known("sassafras")).schedule is None
