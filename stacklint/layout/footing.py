"""The stickers and bearers of a stack, as stated or as taken where nothing is said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from stacklint.faults import Assumption, Fault
from stacklint.layout.arrangement import StickerLine
from stacklint.layout.lines import Lines, lines_of, over_bearers, spaced
from stacklint.layout.supports import TOUCH
from stacklint.plan.node import Range
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.supports import BearerKind, Bearers, Stickers
from stacklint.units import ONE_INCH, System


class _Usual(NamedTuple):
    """What is taken where a plan is silent, in figures that its system of units would use."""

    thickness: float
    width: float
    every: float
    bearer: float
    sticker_words: str
    every_words: str
    bearer_words: str


_INCH = _Usual(
    0.75 * ONE_INCH, 1.5 * ONE_INCH, 24 * ONE_INCH, 4 * ONE_INCH, "3/4 in x 1 1/2 in", "24 in", "4 in x 4 in"
)
_METRIC = _Usual(0.020, 0.040, 0.600, 0.100, "20 mm x 40 mm", "600 mm", "100 mm x 100 mm")
"""Sizes that yards commonly use (common practice, no source). The 24 in is the usual spacing for hardwoods
and for 1 in softwoods in the Dry Kiln Operator's Manual (USDA AH-188, 1991, ch. 5; memory)."""

_WITH_A_FLOOR = frozenset(
    {PlaceKind.GARAGE, PlaceKind.BASEMENT, PlaceKind.ATTIC, PlaceKind.HEATED_SHOP, PlaceKind.CONTAINER, PlaceKind.KILN}
)


class StickerSet(NamedTuple):
    """Where the stickers stand and their size; no ``places`` where boards are piled solid."""

    places: tuple[float, ...]
    thickness: float
    thickness_low: float
    width: float
    length: float


class BearerSet(NamedTuple):
    """Where the bearers stand and their section; ``whole_floor`` where the stack rests everywhere."""

    places: tuple[float, ...]
    width: float
    depth: float
    whole_floor: bool


@dataclass(slots=True)
class Footing:
    """Works out the stickers and bearers of one stack and gathers what it had to assume or refuse."""

    stack: Stack
    length: float
    width: float
    system: System
    assumptions: list[Assumption]
    faults: list[Fault]

    def stickers(self) -> StickerSet:
        """The sticker lines. Without a statement the usual size and spacing are taken, and said so."""
        said = self.stack.stickers
        if said is not None and said.none:
            return StickerSet((), 0.0, 0.0, 0.0, 0.0)
        usual = self._usual
        low, high = _thickness(said, usual)
        width = said.width.si if said is not None and said.width is not None else usual.width
        length = said.length.si if said is not None and said.length is not None else self.width
        return StickerSet(self._sticker_places(said, width), high, low, width, length)

    def bearers(self, stickers: StickerSet) -> BearerSet:
        """The bearers. A charge and a stack on a floor, a slab or pallets need none; where a statement could not be
        read, the stack is taken to rest everywhere, so that no fault is found in what is not known."""
        said = self.stack.bearers
        usual = self._usual
        if said is None:
            if self._rests_on_floor():
                return BearerSet((), usual.bearer, usual.bearer, True)
            return self._assumed_bearers(stickers)
        if said.kind in (BearerKind.NONE, BearerKind.PALLETS):
            return BearerSet((), usual.bearer, usual.bearer, True)
        width, depth = (said.sides[0].si, said.sides[-1].si) if said.sides else (usual.bearer, usual.bearer)
        if not said.sides and "bearers" not in self.stack.faulty:
            self._assume(said, f"Bearers of {usual.bearer_words} are assumed: the plan does not give their section.")
        places = self._bearer_places(said, width, stickers)
        return BearerSet(places, width, depth, not places)

    @property
    def _usual(self) -> _Usual:
        return _INCH if self.system is System.INCH else _METRIC

    def _sticker_places(self, said: Stickers | None, width: float) -> tuple[float, ...]:
        usual = self._usual
        if said is not None:
            places, faults = lines_of(said, Lines("sticker", self.length, width, self.system))
            self.faults.extend(faults)
            if places is not None:
                return places
        if "stickers" in self.stack.faulty:
            return ()
        from_ends = said.from_ends.si if said is not None and said.from_ends is not None else width / 2
        if said is None:
            text = f"Stickers of {usual.sticker_words} every {usual.every_words} are assumed: the plan names none."
            self.assumptions.append(Assumption(self.stack.name.where, text, "stickers"))
        else:
            text = f"Stickers every {usual.every_words} are assumed: the plan does not say how far apart they stand."
            self.assumptions.append(Assumption(said.where, text, "stickers"))
        return spaced(self.length, usual.every, from_ends)

    def _bearer_places(self, said: Bearers, width: float, stickers: StickerSet) -> tuple[float, ...]:
        places, faults = lines_of(said, Lines("bearer", self.length, width, self.system))
        self.faults.extend(faults)
        if places and stickers.places and _spaced_alike(said, self.stack.stickers):
            return stickers.places
        if places is not None or "bearers" in self.stack.faulty:
            return places or ()
        if stickers.places:
            self._assume(
                said, "A bearer under each sticker line is assumed: the plan does not say where bearers stand."
            )
            return stickers.places
        self._assume(
            said, f"Bearers every {self._usual.every_words} are assumed: the plan does not say where they stand."
        )
        return spaced(self.length, self._usual.every, width / 2)

    def _rests_on_floor(self) -> bool:
        stack = self.stack
        if stack.kind is StackKind.CHARGE or "bearers" in stack.faulty or "place" in stack.faulty:
            return True
        return stack.place is not None and stack.place.kind in _WITH_A_FLOOR

    def _assumed_bearers(self, stickers: StickerSet) -> BearerSet:
        usual = self._usual
        if stickers.places:
            text = f"Bearers of {usual.bearer_words} under every sticker line are assumed: the plan names none."
            self.assumptions.append(Assumption(self.stack.name.where, text, "bearers"))
            return BearerSet(stickers.places, usual.bearer, usual.bearer, False)
        if self.stack.stickers is None or not self.stack.stickers.none:
            return BearerSet((), usual.bearer, usual.bearer, True)
        text = f"Bearers of {usual.bearer_words} every {usual.every_words} are assumed: the plan names none."
        self.assumptions.append(Assumption(self.stack.name.where, text, "bearers"))
        return BearerSet(spaced(self.length, usual.every, usual.bearer / 2), usual.bearer, usual.bearer, False)

    def _assume(self, said: Bearers, text: str) -> None:
        self.assumptions.append(Assumption(said.where, text, "bearers"))


def carried(stickers: StickerSet, bearers: BearerSet) -> tuple[StickerLine, ...]:
    """Each sticker line with the bearer it stands on."""
    if bearers.whole_floor:
        return tuple(StickerLine(x, 0, 0.0) for x in stickers.places)
    return over_bearers(stickers.places, stickers.width, bearers.places, bearers.width)


def _thickness(said: Stickers | None, usual: _Usual) -> tuple[float, float]:
    if said is None or said.thickness is None:
        return usual.thickness, usual.thickness
    if isinstance(said.thickness, Range):
        return said.thickness.low.si, said.thickness.high.si
    return said.thickness.si, said.thickness.si


def _spaced_alike(bearers: Bearers, stickers: Stickers | None) -> bool:
    """Bearers and stickers said to stand at one spacing, with nothing said of the ends, stand over one another."""
    if stickers is None or bearers.every is None or stickers.every is None:
        return False
    same = abs(bearers.every.si - stickers.every.si) < TOUCH
    return same and bearers.from_ends is None and stickers.from_ends is None
