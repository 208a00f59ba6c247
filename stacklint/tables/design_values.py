"""Design values of sawn lumber for bearers, before adjustment: by species group and size class, grade No. 2.

No. 2 is the grade of ordinary construction lumber (common practice, no source). The values come from the National
Design Specification for Wood Construction (NDS) Supplement, Tables 4A, 4B and 4D; each row of the table says
whether it was read. How they are adjusted for wet service, size and load duration is the engineering part's.
"""

from __future__ import annotations

from enum import Enum
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from stacklint.tables.rows import Row, read
from stacklint.tables.wood import Wood
from stacklint.units import ONE_INCH, Unit

_PSI = Unit.PSI.to_si(1)


class SpeciesGroup(Enum):
    """Woods that share design values."""

    DOUGLAS_FIR_LARCH = "Douglas Fir-Larch"
    HEM_FIR = "Hem-Fir"
    SPRUCE_PINE_FIR = "Spruce-Pine-Fir"
    SOUTHERN_PINE = "Southern Pine"
    WESTERN_CEDARS = "Western Cedars"
    RED_OAK = "Red Oak"
    WHITE_OAK = "White Oak"
    MIXED_OAK = "Mixed Oak"
    OTHER_DENSE_HARDWOOD = "Other Dense Hardwood"
    WEAKEST = "Weakest"


class Size(Enum):
    """Size classes of the tables; ``TIMBER`` where a group has one row for both kinds of timber."""

    DIMENSION = "dimension"
    BEAM = "beam"
    POST = "post"
    TIMBER = "timber"


class DesignValues(NamedTuple):
    """Tabulated values, Pa.

    ``wet_value``: tabulated for wet service already. ``size_in_value``: bending is tabulated for each width.
    ``memory``: the row was recalled and not read, or the wood is not of the group and only stands in for it.
    """

    group: SpeciesGroup
    grade: str
    bending: float
    shear: float
    crushing: float
    stiffness: float
    wet_value: bool
    size_in_value: bool
    memory: bool
    source: str

    @property
    def name(self) -> str:
        """The species group and grade, in words."""
        return f"{_IN_WORDS.get(self.group, self.group.value)} {self.grade}"


class GroupChoice(NamedTuple):
    """The group whose design values a wood takes; ``exact`` is false where the group only stands in for its own."""

    group: SpeciesGroup
    exact: bool


_IN_WORDS = MappingProxyType(
    {SpeciesGroup.OTHER_DENSE_HARDWOOD: "dense hardwood", SpeciesGroup.WEAKEST: "weakest listed lumber"}
)
# Timbers of groups that the table has none for: the oaks together, the weakest for the cedars.
_TIMBERS_LENT = MappingProxyType(
    {SpeciesGroup.RED_OAK: SpeciesGroup.MIXED_OAK, SpeciesGroup.WESTERN_CEDARS: SpeciesGroup.WEAKEST}
)
_DENSE_SG = 0.52
_DENSE_CRUSHING = 500 * _PSI
_EDGE = 1e-6


def group_for(wood: Wood | None) -> GroupChoice:
    """The species group of a wood.

    A hardwood outside the groups takes the lower of the oak and maple values if it is about as dense as they are
    and as hard across the grain; any other wood, and one that is not known, the lowest values that are listed.
    """
    if wood is None:
        return GroupChoice(SpeciesGroup.WEAKEST, exact=False)
    named = _groups().get(wood.name)
    if named is not None:
        return GroupChoice(named, exact=True)
    dense = wood.hardwood and wood.sg_green >= _DENSE_SG and wood.c_perp_green >= _DENSE_CRUSHING
    return GroupChoice(SpeciesGroup.OTHER_DENSE_HARDWOOD if dense else SpeciesGroup.WEAKEST, exact=False)


def lookup(group: SpeciesGroup, width: float, depth: float) -> DesignValues | None:
    """The values of a group for a section (m), whichever way it lies; ``None`` below a nominal 2 in.

    A timber, nominally 5 x 5 in and larger, is a beam or stringer where one side is more than 2 in over the other.
    """
    thin, wide = sorted((width / ONE_INCH, depth / ONE_INCH))
    if thin < 1.5 - _EDGE:
        return None
    if thin < 4.5 - _EDGE:
        return _dimension(group, wide)
    size = Size.BEAM if wide - thin > 2 + _EDGE else Size.POST
    row = _table().get((group, size, None)) or _table().get((group, Size.TIMBER, None))
    if row is not None:
        return row
    return _table()[(_TIMBERS_LENT[group], size, None)]


def for_section(wood: Wood | None, width: float, depth: float) -> DesignValues | None:
    """The values for a bearer of a wood (``None``: not known) and section; see :func:`group_for`, :func:`lookup`.

    Where the group only stands in for the wood's own, no more is allowed across the grain than its clear wood
    gives: the mean green stress over 1.67 (ASTM D245, memory), and over 0.67 to bring it to the dry basis of the
    table (NDS wet service factor).
    """
    choice = group_for(wood)
    values = lookup(choice.group, width, depth)
    if values is None or choice.exact or wood is None:
        return values
    crushing = min(values.crushing, wood.c_perp_green / 1.67 / 0.67)
    return DesignValues(
        values.group, values.grade, values.bending, values.shear, crushing, values.stiffness,
        values.wet_value, values.size_in_value, memory=True, source=values.source,
    )  # fmt: skip


def _dimension(group: SpeciesGroup, wide: float) -> DesignValues | None:
    """The row of the narrowest nominal width that holds the section, where a group is tabulated by width.

    Wider than all of them the last row holds: the size factor then lowers it further.
    """
    widths = sorted(nominal for g, s, nominal in _table() if g is group and s is Size.DIMENSION and nominal is not None)
    if not widths:
        return _table().get((group, Size.DIMENSION, None))
    nominal = next((nominal for nominal in widths if wide <= nominal + _EDGE), widths[-1])
    return _table()[(group, Size.DIMENSION, nominal)]


@cache
def _groups() -> dict[str, SpeciesGroup]:
    return {row["wood"]: SpeciesGroup(row["group"]) for row in read("design_groups")}


@cache
def _table() -> dict[tuple[SpeciesGroup, Size, int | None], DesignValues]:
    table = {}
    for row in read("bearer_design_values"):
        nominal = int(row["nominal_width_in"]) if row["nominal_width_in"] else None
        table[(SpeciesGroup(row["species_group"]), Size(row["size"]), nominal)] = _values(row)
    return table


def _values(row: Row) -> DesignValues:
    return DesignValues(
        group=SpeciesGroup(row["species_group"]),
        grade=row["grade"],
        bending=float(row["fb_psi"]) * _PSI,
        shear=float(row["fv_psi"]) * _PSI,
        crushing=float(row["fc_perp_psi"]) * _PSI,
        stiffness=float(row["moe_psi"]) * _PSI,
        wet_value=row["service_condition_of_value"].startswith("WET"),
        size_in_value=bool(row["nominal_width_in"]),
        memory="memory" in row["how"],
        source=row["source"],
    )
