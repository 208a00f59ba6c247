"""Finds woods by the names that people write, with their figures."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING

from stacklint.tables import relations
from stacklint.tables.rows import Row, number, read
from stacklint.tables.spelling import alike, best, last_word, plain
from stacklint.tables.wood import Origin, Trait, Wood
from stacklint.units import Unit

if TYPE_CHECKING:
    from stacklint.plan.yard import WoodStatement
    from stacklint.tables.wood import MissingFigures

_PSI = Unit.PSI.to_si(1)
_PERCENT = 0.01
_NEAR = 0.6
"""Names less alike than this are not offered."""
_SAME_FAMILY = 0.8
"""``scarlet oak`` is no slip of the pen, but an oak: other oaks stand before names spelt only partly like it."""
_NO_SOURCE = Origin("common practice, no source", memory=True)


def find(name: str) -> Wood | None:
    """The wood that a name stands for; ``None`` for an unknown or ambiguous name (``oak``).

    Takes common and botanical names and the trade's synonyms. Letter case, spaces, hyphens and plurals make no
    difference.
    """
    known = _names().get(plain(name))
    return _wood(known) if known is not None else None


def nearest(name: str, count: int = 3) -> tuple[str, ...]:
    """The woods that a name not found may stand for, the likeliest first.

    For an ambiguous name these are the woods that it covers; otherwise those spelt most like it.
    """
    written = plain(name)
    covered = _ambiguous().get(written)
    if covered is not None:
        return covered[:count]
    family = _ambiguous().get(last_word(name), ())
    scored = [(score, _spelt()[key]) for score, key in alike(written, _spelt(), _NEAR)]
    scored += [(score, wood) for score, key in alike(written, _ambiguous(), _NEAR) for wood in _ambiguous()[key]]
    scored += [(_SAME_FAMILY, wood) for wood in family]
    return best(scored, count, _NEAR)


def names() -> tuple[str, ...]:
    """The common names of all woods in the table, in its order."""
    return tuple(_rows())


def described(statement: WoodStatement) -> Wood | MissingFigures:
    """The wood that a plan describes itself; see :func:`stacklint.tables.described.described`."""
    from stacklint.tables.described import described as describe

    return describe(statement)


def moisture_lender(sg_green: float, *, hardwood: bool) -> Wood:
    """The wood of the same kind and nearest specific gravity whose green moisture content the table gives."""
    rows = (row for row in _rows().values() if row["source_mc"] and (row["kind"] == "hardwood") is hardwood)
    nearest_row = min(rows, key=lambda row: abs(float(row["sg_green"]) - sg_green))
    return _wood(nearest_row["common_name"])


@cache
def _rows() -> dict[str, Row]:
    return {row["common_name"]: row for row in read("species")}


@cache
def _names() -> dict[str, str]:
    """Wood by plain name: botanical names where they are of one wood, synonyms, common names."""
    botanical: dict[str, list[str]] = {}
    for name, row in _rows().items():
        for latin in _latin_names(row["botanical_name"]):
            botanical.setdefault(plain(latin), []).append(name)
    found = {key: woods[0] for key, woods in botanical.items() if len(woods) == 1}
    found.update((plain(row["name"]), row["wood"]) for row in read("synonyms"))
    found.update((plain(name), name) for name in _rows())
    return found


@cache
def _spelt() -> dict[str, str]:
    """Wood by plain common name or synonym: what a slip of the pen is compared with."""
    found = {plain(name): name for name in _rows()}
    for row in read("synonyms"):
        found.setdefault(plain(row["name"]), row["wood"])
    return found


@cache
def _ambiguous() -> dict[str, tuple[str, ...]]:
    return {plain(row["name"]): tuple(row["woods"].split(";")) for row in read("ambiguous_names")}


@cache
def _stand_ins() -> dict[str, str]:
    return {row["wood"]: row["lent_by"] for row in read("moisture_stand_ins")}


@cache
def _traits() -> dict[str, dict[Trait, bool]]:
    """Of each wood what it is prone to and what not."""
    found: dict[str, dict[Trait, bool]] = {}
    for row in read("traits"):
        found.setdefault(row["wood"], {})[Trait(row["prone_to"])] = row["prone"] == "yes"
    return found


@cache
def _wood(name: str) -> Wood:
    row = _rows()[name]
    traits = _traits().get(name, {})
    hardwood = row["kind"] == "hardwood"
    sg = float(row["sg_green"])
    dry = float(row["moe_12_psi"]) * _PSI
    green = number(row["moe_green_psi"], _PSI)
    crushing = number(row["c_perp_green_psi"], _PSI)
    radial = number(row["shrink_radial_pct"], _PERCENT)
    tangential = number(row["shrink_tangential_pct"], _PERCENT)
    volumetric = number(row["shrink_volumetric_pct"], _PERCENT)
    heart, sap, moisture, lent = _green_moisture(row)
    derived = [
        words
        for words, lacks in (
            ("stiffness green, from that at 12%", green is None),
            ("strength across the grain, from its specific gravity", crushing is None),
            ("volumetric shrinkage, from radial and tangential", volumetric is None),
            (f"green moisture, lent by {lent}", lent is not None),
        )
        if lacks
    ]
    return Wood(
        name=name,
        botanical=row["botanical_name"],
        hardwood=hardwood,
        sg_green=sg,
        moe_green=green if green is not None else relations.moe_green_from_dry(dry, sg, hardwood=hardwood),
        moe_dry=dry,
        c_perp_green=crushing if crushing is not None else relations.c_perp_green(sg, hardwood=hardwood),
        mc_heart=heart,
        mc_sap=sap,
        shrink_radial=radial,
        shrink_tangential=tangential,
        shrink_volumetric=volumetric if volumetric is not None else relations.volumetric(radial, tangential, sg),
        mechanics=_origin(row, "mech"),
        moisture=moisture,
        shrinkage=_origin(row, "shrink"),
        traits=frozenset(trait for trait, prone in traits.items() if prone),
        unknown=frozenset(Trait).difference(traits),
        derived=tuple(derived),
    )


def _green_moisture(row: Row) -> tuple[float | None, float | None, Origin, str | None]:
    """Heartwood, sapwood, where from, and the wood that lent them if the row has none of its own."""
    lender = None
    if not row["source_mc"]:
        lender = _stand_ins()[row["common_name"]]
        row = _rows()[lender]
    origin = _origin(row, "mc")
    if lender is not None:
        origin = Origin(f"{origin.source}, for {lender}", memory=True)
    return number(row["mc_green_heart_pct"], _PERCENT), number(row["mc_green_sap_pct"], _PERCENT), origin, lender


def _origin(row: Row, group: str) -> Origin:
    source = row[f"source_{group}"]
    return Origin(source, memory=f"{group}:memory" in row["how"]) if source else _NO_SOURCE


def _latin_names(botanical: str) -> Iterator[str]:
    """``Quercus montana (syn. Q. prinus)`` is found as ``Quercus montana``; a name of two species by the first."""
    yield botanical.partition(" (")[0].partition(" / ")[0]
