"""What a first plan chooses itself, from the usual figures upward as far as the rules want it.

Every choice is a ladder. Its lowest rung is the usual; where a check finds one of the rules that the choice answers
to, the next rung is taken. So a wood that warps gets stickers closer together and a load on top, and a heavy pile
deeper bearers, without a recipe for any wood.
"""

from __future__ import annotations

from typing import NamedTuple

from stacklint.plan.shelter import PlaceKind
from stacklint.units import System


class Ladder(NamedTuple):
    """Rungs in inches and in metric units, the usual first, and the rules that ask for the next one."""

    name: str
    inch: tuple[str, ...]
    metric: tuple[str, ...]
    rules: frozenset[str]

    def rungs(self, system: System) -> tuple[str, ...]:
        return self.inch if system is System.INCH else self.metric


LADDERS = (
    # 24 in is usual for hardwood, 16 to 18 in for softwood, 12 to 16 in for thin stock and woods that warp (see the
    # sources of the rule sticker-spacing-too-wide). The metric figures are the nearest that a tape shows.
    Ladder(
        "spacing",
        ("24 in", "18 in", "16 in", "12 in", "8 in"),
        ("600 mm", "450 mm", "400 mm", "300 mm", "200 mm"),
        frozenset(
            {
                "sticker-spacing-too-wide",
                "sag-between-stickers",
                "end-sticker-missing",
                "joint-off-sticker",
                "board-on-one-sticker",
                "sticker-off-bearer",
            }
        ),
    ),
    # 1 1/4 to 2 in for hardwood (FPL-GTR-118, memory).
    Ladder(
        "sticker_width",
        ("1 1/4 in", "1 1/2 in", "2 in"),
        ("30 mm", "40 mm", "50 mm"),
        frozenset({"sticker-crushing"}),
    ),
    # TM 38-400 (1994) p. 5-14: roofs of package piles stand out 12 to 18 in at the ends; more for a tall pile.
    Ladder(
        "overhang",
        ("12 in", "18 in", "24 in", "36 in"),
        ("300 mm", "450 mm", "600 mm", "900 mm"),
        frozenset({"cover-too-short", "rain-on-sides"}),
    ),
    # Common practice, no published source: timbers that yards have.
    Ladder(
        "bearers",
        ("4 in x 6 in", "6 in x 6 in", "6 in x 8 in", "8 in x 10 in"),
        ("100 mm x 150 mm", "150 mm x 150 mm", "150 mm x 200 mm", "200 mm x 250 mm"),
        frozenset({"bearer-overloaded"}),
    ),
    Ladder(
        "pads",
        ("8 in x 16 in", "16 in x 16 in", "24 in x 24 in", "3 ft x 3 ft"),
        ("200 mm x 400 mm", "400 mm x 400 mm", "600 mm x 600 mm", "900 mm x 900 mm"),
        frozenset({"ground-overloaded"}),
    ),
    # Wengert, Weighing down stacked lumber (2014): 30 to 60 lb a square foot is the practical trial.
    Ladder("top_load", ("", "50 psf"), ("", "240 kg/m2"), frozenset({"top-unweighted"})),
    # Wengert: shade cloth helps oak on a sunny, windy site.
    Ladder("sides", ("", "shade cloth"), ("", "shade cloth"), frozenset({"season-for-checks"})),
    # Common practice, no published source: a pair of household box fans.
    Ladder("fan", ("", "2 of 1500 cfm"), ("", "2 of 2500 m3/h"), frozenset({"place-without-air"})),
)

TOO_TALL = frozenset({"pile-too-tall", "pile-top-heavy"})
"""The rules that ask for a longer or wider stack."""

TOP_NOT_FULL = frozenset({"weights-on-few-boards", "course-half-empty"})
"""The rules that ask for another width, of which the boards fill the top course better."""


class Widths(NamedTuple):
    """Widths of a stack, the usual first, then those nearest to it."""

    usual: tuple[str, ...]
    wide: tuple[str, ...]


# Packages are 3 1/2 to 4 ft wide (TM 38-400); air crosses 6 ft without a flue (Bryant, Lumber, 1922, p. 209).
WIDTHS_INCH = Widths(
    ("4 ft", "45 in", "42 in", "51 in", "39 in", "54 in", "36 in", "33 in", "30 in", "27 in", "24 in", "18 in"),
    ("6 ft", "69 in", "66 in", "63 in", "5 ft"),
)
WIDTHS_METRIC = Widths(
    ("1.2 m", "1.15 m", "1.1 m", "1.25 m", "1 m", "1.3 m", "0.9 m", "0.85 m", "0.8 m", "0.7 m", "0.6 m", "0.45 m"),
    ("1.8 m", "1.75 m", "1.7 m", "1.65 m", "1.6 m"),
)


class Standing(NamedTuple):
    """What a pile needs where it stands: a cover in the open; off the ground, ``raised``; ``windy`` where air moves."""

    covered: bool
    raised: bool
    windy: bool


def standing(place: PlaceKind) -> Standing:
    return Standing(
        covered=place is PlaceKind.OPEN_YARD,
        raised=place in (PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED, PlaceKind.GREENHOUSE),
        windy=place in (PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED),
    )
