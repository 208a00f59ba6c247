"""Which published rows of drying a wood goes by: its own, or those of the wood that dries most like it."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from stacklint.tables import woods
from stacklint.tables.rows import Row, read
from stacklint.tables.wood import Wood


class Kin(NamedTuple):
    """The rows of a wood in the tables of air drying and kiln drying.

    ``lender`` is the wood whose rows these are: another one for a wood that the table of kin does not know.
    ``nearest`` if nothing but its kind and its specific gravity chose that wood. ``kiln_factor`` is the share of the
    kiln row's time. ``schedule`` and ``safe`` are ``None`` where the published tables of kiln schedules and of safe
    daily losses have no row for it.
    """

    lender: str
    nearest: bool
    air: str
    kiln: str
    kiln_factor: float
    schedule: str | None
    safe: str | None


def kin_of(wood: Wood) -> Kin:
    """The rows of a wood; for one that a plan describes itself those of the wood that it is said to be like, else of
    the wood of its kind (hardwood or softwood) and nearest specific gravity."""
    return _kin(wood.name, wood.botanical, wood.sg_green, wood.hardwood)


@cache
def _kin(name: str, botanical: str, sg_green: float, hardwood: bool) -> Kin:
    rows = _rows()
    is_nearest = False
    if name not in rows:
        known = [found for each in rows if (found := woods.find(each))]
        alike = [other for other in known if other.botanical == botanical]
        is_nearest = not alike
        alike = alike or [other for other in known if other.hardwood is hardwood]
        name = min(alike, key=lambda other: abs(other.sg_green - sg_green)).name
    row = rows[name]
    return Kin(
        lender=name,
        nearest=is_nearest,
        air=row["air"],
        kiln=row["kiln"],
        kiln_factor=float(row["kiln_factor"]),
        schedule=row.get("schedule") or None,
        safe=row.get("safe") or None,
    )


@cache
def _rows() -> dict[str, Row]:
    return {row["wood"]: row for row in read("drying_kin")}
