"""What is known of a wood."""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple


class Trait(Enum):
    """What a wood is prone to while it dries and after."""

    WARP = "warp"
    CHECK = "check"
    STAIN = "stain"
    POWDERPOST = "powderpost"
    """Powderpost beetles (Lyctus) in its sapwood, once it is dry."""


class Origin(NamedTuple):
    """Where figures come from. ``memory`` is true where they were recalled and not read."""

    source: str
    memory: bool


class Wood(NamedTuple):
    """A wood: shares are of the oven-dry mass (moisture) or of the green size (shrinkage); stresses in Pa.

    ``sg_green`` is oven-dry mass over green volume, relative to water. ``moe_green`` and ``moe_dry`` (at 12%
    moisture content) are those of the standard bending test of small clear pieces. ``c_perp_green`` is the mean
    stress across the grain at the proportional limit, not an allowable one. The green moisture content of
    heartwood and sapwood is ``None`` where neither the source nor a stand-in gives it.

    ``derived`` says in words which figures the sources lack and what they were worked out from. Of the traits in
    ``unknown`` no table says whether it is prone to them.
    """

    name: str
    botanical: str
    hardwood: bool
    sg_green: float
    moe_green: float
    moe_dry: float
    c_perp_green: float
    mc_heart: float | None
    mc_sap: float | None
    shrink_radial: float | None
    shrink_tangential: float | None
    shrink_volumetric: float
    mechanics: Origin
    moisture: Origin
    shrinkage: Origin
    traits: frozenset[Trait] = frozenset()
    unknown: frozenset[Trait] = frozenset()
    derived: tuple[str, ...] = ()

    @property
    def warp_prone(self) -> bool | None:
        return self._prone(Trait.WARP)

    @property
    def check_prone(self) -> bool | None:
        return self._prone(Trait.CHECK)

    @property
    def stain_prone(self) -> bool | None:
        return self._prone(Trait.STAIN)

    @property
    def powderpost_prone(self) -> bool | None:
        return self._prone(Trait.POWDERPOST)

    def _prone(self, trait: Trait) -> bool | None:
        return None if trait in self.unknown else trait in self.traits

    @property
    def mc_green(self) -> float:
        """Green moisture content of a board of unknown share of sapwood: the mean of heartwood and sapwood.

        The weight of a stack follows the mean; single boards lie anywhere between the two.
        """
        known = [share for share in (self.mc_heart, self.mc_sap) if share is not None]
        return sum(known) / len(known)


class MissingFigures(NamedTuple):
    """A described wood that cannot be reckoned with: what it lacks, in words."""

    name: str
    lacks: tuple[str, ...]
