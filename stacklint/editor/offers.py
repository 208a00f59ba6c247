"""What an editor offers to write: the words themselves, and the place that they are put in."""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple

from stacklint.where import Where


class OfferKind(Enum):
    """What an offered word is."""

    KEYWORD = "a statement or a clause"
    DETAIL = "a detail of a statement"
    WORD = "a word of the grammar"
    UNIT = "a unit"
    WOOD = "a species"
    PLACE = "a place"
    NAME = "a name that a block or a statement gives"
    RULE = "a rule"
    FACT = "a fact that rules see"
    COLLECTION = "what a rule goes through"


class Offer(NamedTuple):
    """``text`` would be written at ``where``, which lies on one line and ends at the cursor or after it.

    ``shown`` is what the list of offers shows, ``detail`` a few words beside it, ``means`` a sentence on it.
    """

    shown: str
    text: str
    kind: OfferKind
    where: Where
    detail: str = ""
    means: str = ""
