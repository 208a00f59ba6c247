"""A wood that a plan describes itself: its own figures, those of a like wood, and stand-ins for the rest."""

from __future__ import annotations

from typing import TypeVar

from stacklint.plan.node import Quantity
from stacklint.plan.yard import Kind, WoodStatement
from stacklint.tables import relations, woods
from stacklint.tables.wood import MissingFigures, Origin, Trait, Wood

Otherwise = TypeVar("Otherwise", float, float | None)


def described(statement: WoodStatement) -> Wood | MissingFigures:
    """The wood of a ``wood`` statement.

    What is not given is lent by the wood that it is said to be like; failing that, worked out from its specific
    gravity (see :mod:`stacklint.tables.relations`); ``derived`` says which. Without a specific gravity and without
    a known like wood nothing can be reckoned, and the result is :class:`MissingFigures`.
    """
    like = woods.find(statement.like.text) if statement.like is not None else None
    sg = statement.specific_gravity or (like.sg_green if like is not None else None)
    if sg is None:
        return MissingFigures(statement.name.text, ("its specific gravity, or a wood of the table that it is like",))
    hardwood = _is_hardwood(statement, like)
    lender = like or _reckoned(sg, hardwood=hardwood)
    own = Origin(statement.source or "the plan's own figures", memory=False)
    green, dry = _stiffness(statement, lender)
    moisture = _given(statement.green_moisture)
    radial, tangential = _given(statement.shrinkage_radial), _given(statement.shrinkage_tangential)
    return Wood(
        name=statement.name.text,
        botanical=lender.botanical,
        hardwood=hardwood,
        sg_green=sg,
        moe_green=green,
        moe_dry=dry,
        c_perp_green=_first(_given(statement.crushing_green), lender.c_perp_green),
        mc_heart=_first(moisture, lender.mc_heart),
        mc_sap=_first(moisture, lender.mc_sap),
        shrink_radial=_first(radial, lender.shrink_radial),
        shrink_tangential=_first(tangential, lender.shrink_tangential),
        shrink_volumetric=_volumetric(statement, lender, sg),
        mechanics=lender.mechanics if not _stiffness_given(statement) else own,
        moisture=lender.moisture if moisture is None else own,
        shrinkage=own if _shrinkage_given(statement) else lender.shrinkage,
        traits=lender.traits,
        unknown=lender.unknown,
        derived=_derived(statement, like),
    )


def _is_hardwood(statement: WoodStatement, like: Wood | None) -> bool:
    """A wood of unsaid kind is taken as a hardwood: at one specific gravity the less stiff, the safe side for sag."""
    if statement.kind is not None:
        return statement.kind is Kind.HARDWOOD
    return like.hardwood if like is not None else True


def _reckoned(sg: float, *, hardwood: bool) -> Wood:
    """A wood of which only kind and specific gravity are known."""
    lender = woods.moisture_lender(sg, hardwood=hardwood)
    relation = Origin("Wood Handbook FPL-GTR-190 Table 5-11a, from specific gravity (memory)", memory=True)
    return Wood(
        name="",
        botanical="",
        hardwood=hardwood,
        sg_green=sg,
        moe_green=relations.moe_green(sg, hardwood=hardwood),
        moe_dry=relations.moe_dry(sg, hardwood=hardwood),
        c_perp_green=relations.c_perp_green(sg, hardwood=hardwood),
        mc_heart=lender.mc_heart,
        mc_sap=lender.mc_sap,
        shrink_radial=None,
        shrink_tangential=None,
        shrink_volumetric=relations.volumetric(None, None, sg),
        mechanics=relation,
        moisture=Origin(f"{lender.moisture.source}, for {lender.name}", memory=True),
        shrinkage=Origin("Wood Handbook ch. 4, from specific gravity (memory)", memory=True),
        unknown=frozenset(Trait),
    )


def _stiffness(statement: WoodStatement, lender: Wood) -> tuple[float, float]:
    """Green and at 12%; where one of the two is given, the lender's ratio gives the other."""
    green, dry = _given(statement.stiffness_green), _given(statement.stiffness_dry)
    if green is None and dry is None:
        return lender.moe_green, lender.moe_dry
    if green is None:
        return _first(dry, 0.0) * lender.moe_green / lender.moe_dry, _first(dry, 0.0)
    return green, _first(dry, green * lender.moe_dry / lender.moe_green)


def _volumetric(statement: WoodStatement, lender: Wood, sg: float) -> float:
    given = _given(statement.shrinkage_volumetric)
    if given is not None:
        return given
    if statement.shrinkage_radial is None and statement.shrinkage_tangential is None:
        return lender.shrink_volumetric
    radial = _first(_given(statement.shrinkage_radial), lender.shrink_radial)
    tangential = _first(_given(statement.shrinkage_tangential), lender.shrink_tangential)
    return relations.volumetric(radial, tangential, sg)


def _derived(statement: WoodStatement, like: Wood | None) -> tuple[str, ...]:
    """Which figures are not the plan's own, and what they were taken from."""
    origin = f"lent by {like.name}" if like is not None else "from its specific gravity"
    groups = (
        ("specific gravity", statement.specific_gravity is not None),
        ("stiffness", _stiffness_given(statement)),
        ("strength across the grain", statement.crushing_green is not None),
        ("green moisture", statement.green_moisture is not None),
        ("shrinkage", _shrinkage_given(statement)),
    )
    kind = () if statement.kind is not None or like is not None else ("kind, taken as a hardwood",)
    return kind + tuple(f"{figure}, {origin}" for figure, given in groups if not given)


def _stiffness_given(statement: WoodStatement) -> bool:
    return statement.stiffness_green is not None or statement.stiffness_dry is not None


def _shrinkage_given(statement: WoodStatement) -> bool:
    shrinkages = (statement.shrinkage_radial, statement.shrinkage_tangential, statement.shrinkage_volumetric)
    return any(shrinkage is not None for shrinkage in shrinkages)


def _given(quantity: Quantity | None) -> float | None:
    return quantity.si if quantity is not None else None


def _first(given: float | None, otherwise: Otherwise) -> float | Otherwise:
    return given if given is not None else otherwise
