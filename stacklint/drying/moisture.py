"""The moisture content of boards, from what a plan says of them."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.plan.boards import Boards, MoistureWord
from stacklint.plan.node import Quantity
from stacklint.tables.wood import Wood


class Moisture(NamedTuple):
    """A moisture content as a share of the oven-dry mass, with the range that it may lie in.

    ``stated`` is false where the plan says nothing, and green is taken. ``words`` is how a person would say it.
    """

    value: float
    low: float
    high: float
    stated: bool
    words: str


_AIR_DRIED = (0.15, 0.12, 0.19)
"""15%: the middle. 12 to 15% is thoroughly air dried in the United States as a whole, up to 19% in the South (older
Wood Handbook definition, read at https://totalhouseinspection.com/air-dried-lumber); hardwood yards reach 14 to 19%
(Univ. Missouri Extension G5550, https://extension.missouri.edu/p/G5550)."""
_KILN_DRIED = (0.08, 0.06, 0.10)
"""8%, single pieces 6 to 10%: lumber for furniture and interior woodwork, Wood Handbook Table 13-2 (memory). Framing
kiln-dried to 19% has to be given as a figure."""


def of(boards: Boards, wood: Wood) -> Moisture:
    """The moisture content of boards: the figure or the word that the plan gives; green where it gives neither.

    Green boards have the mean of heartwood and sapwood of their wood; the range runs from the one to the other.
    """
    said = boards.moisture
    if isinstance(said, Quantity):
        return Moisture(said.si, said.si, said.si, stated=True, words=f"{said.number:g}%")
    if said is MoistureWord.AIR_DRIED:
        return Moisture(*_AIR_DRIED, stated=True, words=said.value)
    if said is MoistureWord.KILN_DRIED:
        return Moisture(*_KILN_DRIED, stated=True, words=said.value)
    known = [share for share in (wood.mc_heart, wood.mc_sap) if share is not None]
    return Moisture(wood.mc_green, min(known), max(known), stated=said is not None, words=MoistureWord.GREEN.value)
