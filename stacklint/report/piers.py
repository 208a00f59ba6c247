"""What bearers stand on: how high it is to be for the stated clearance, and which way up blocks stand."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.board_words import size_words
from stacklint.engineering.foundation_facts import BLOCK_HEIGHT, Standing, rest_of, standing
from stacklint.report.built import Built
from stacklint.units import ONE_INCH, System

_NOTHING = ONE_INCH / 8
"""Metres. Heights that differ by no more are alike: bedding takes them up."""


class Piers(NamedTuple):
    """``each`` is as high as one of them is, 0 where the plan does not say; ``top`` is theirs above the ground (m).

    A pier is of so many blocks one on the other, and what is to be made up under them (m, below 0 where they are let
    in); pads of no stated height are as high as their top.
    """

    stands: Standing
    bearers: int
    each: float
    top: float
    tiers: int
    make_up: float

    @property
    def word(self) -> str:
        return "blocks" if self.stands.blocks else "pads"

    @property
    def number(self) -> int:
        """Of pads or blocks, all of them."""
        return self.stands.under_each * self.bearers * self.tiers


def piers_of(built: Built) -> Piers | None:
    """``None`` where the stack lies on a floor, or its bearers on the ground."""
    stands, _ = standing(built.stack, built.laid)
    if stands is None or not built.on_bearers:
        return None
    top = tops_of_bearers(built) - built.laid.bearer_depth
    said = built.stack.bearers.pads if built.stack.bearers is not None else None
    # Where the plan does not say what they stand on, something lower than a block is as high as it has to be.
    assumed = BLOCK_HEIGHT if top > BLOCK_HEIGHT - _NOTHING else 0.0
    each = stands.height if said is not None else assumed
    if each <= 0:
        return Piers(stands, len(built.laid.bearers), 0.0, top, 1, 0.0)
    tiers = max(int((top + _NOTHING) / each), 1)
    make_up = top - tiers * each
    return Piers(stands, len(built.laid.bearers), each, top, tiers, make_up if abs(make_up) > _NOTHING else 0.0)


def tops_of_bearers(built: Built) -> float:
    """Above the ground or floor, m: so much lower than the lowest boards as their stickers are thick."""
    return rest_of(built.laid, built.facts.clearance or 0.0)


def bed(stands: Standing, built: Built) -> str:
    """The two sides that a pad or block lies on, in the plan's words: *8 in x 16 in*."""
    said = built.stack.bearers.pads if built.stack.bearers is not None else None
    if said is None or not said.sides:
        return "8 in x 16 in" if built.system is System.INCH else "200 mm x 400 mm (8 in x 16 in)"
    words = {round(side.si, 6): size_words(side) for side in said.sides}
    return " x ".join(words[round(side, 6)] for side in sorted((stands.along, stands.across)))


def reach(metres: float, built: Built) -> str:
    """*7 1/4 in above the ground*; below it where something is let in."""
    return f"{built.length(abs(metres))} {'above' if metres >= 0 else 'below'} the {built.surface}"


def bedding(piers: Piers, built: Built) -> str:
    """What is to be done so that the tops come where they are to be; nothing where the blocks do it."""
    if not piers.make_up:
        return ""
    much = built.length(abs(piers.make_up))
    if piers.make_up > 0:
        return f"make up {much} under them with slabs or hardwood"
    return f"let them {much} into the ground" if built.surface == "ground" else f"they are {much} too high"
