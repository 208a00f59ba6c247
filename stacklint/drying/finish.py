"""Finished sizes: what boards measure when they have dried.

Shrinkage grows linearly from fibre saturation (30%) to oven-dry: Wood Handbook (FPL-GTR-190) ch. 4, read at second hand
(see :mod:`stacklint.drying.density`). Listed sizes are green sizes.
"""

from __future__ import annotations

from typing import NamedTuple

from stacklint.drying.density import shrinkage
from stacklint.plan.boards import Face
from stacklint.tables.wood import Wood


class Shrinkage(NamedTuple):
    """From green to oven-dry, as shares of the green size."""

    thickness: float
    width: float


def shrinkage_of(wood: Wood, face: Face | None, *, both_ways: bool = False) -> Shrinkage:
    """How a board of a wood shrinks by the way it lay in the log.

    A flatsawn board shrinks radially in thickness and tangentially in width, a quartersawn one the other way round; a
    riftsawn one has the mean of both. What is not said is taken as flatsawn. ``both_ways`` is for squares and for a
    boxed heart, whose sides are of all kinds: they too have the mean.
    """
    radial, tangential = _radial_and_tangential(wood)
    if both_ways or face is Face.RIFT:
        return Shrinkage((radial + tangential) / 2, (radial + tangential) / 2)
    if face is Face.QUARTER:
        return Shrinkage(tangential, radial)
    return Shrinkage(radial, tangential)


def dry_size(green: float, total: float, moisture: float) -> float:
    """What is left of a green size (m) at a moisture content, of a wood that shrinks by ``total`` to oven-dry."""
    return green * (1 - shrinkage(total, moisture))


def _radial_and_tangential(wood: Wood) -> tuple[float, float]:
    """Where only the volumetric one is known, a third of it is radial: tangential is about twice radial (Wood Handbook
    ch. 4, memory)."""
    radial, tangential = wood.shrink_radial, wood.shrink_tangential
    if radial is None:
        radial = wood.shrink_volumetric / 3 if tangential is None else tangential / 2
    return radial, 2 * radial if tangential is None else tangential
