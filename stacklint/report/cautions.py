"""Cautions for the people who build a stack: short, and never in place of local codes and licensed practice."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.engineering.facts import StackFacts
from stacklint.plan.shelter import CoverKind
from stacklint.show import show
from stacklint.units import LENGTH, MASS, ONE_POUND

GENERAL = (
    "This sheet is no certificate, and a plan without findings may still be unsafe to build. Local codes, the makers of"
    " rated equipment and licensed practice come before anything that stands here."
)
LIFT = 51 * ONE_POUND
"""What one person may lift in an ideal lift: load constant of the NIOSH lifting equation, read at
https://www.osha.gov/SLTC/etools/poultry/additional_material/niosh.html."""
_METAL = frozenset({CoverKind.SHEET_METAL, CoverKind.ROOF_PANELS})


class Caution(NamedTuple):
    title: str
    text: str


def cautions(checked: CheckedStack) -> tuple[Caution, ...]:
    """What bears on safety in building, and in running the kiln of a charge; none where nothing could be reckoned."""
    facts = checked.facts
    if facts is None:
        return ()
    return (*_lifting(facts), _toppling(facts), *_cover(checked, facts), *_kiln(facts))


def _lifting(facts: StackFacts) -> Iterator[Caution]:
    if facts.heaviest_board is None:
        return
    weight, limit = show(facts.heaviest_board, MASS, facts.system), show(LIFT, MASS, facts.system)
    text = f"The heaviest board weighs about {weight} now."
    if facts.heaviest_board > LIFT:
        text += f" That is over {limit}, the most for one person in an ideal lift: two people or a machine."
    text += " Gloves against splinters, boots with toe caps. Nobody reaches under a board that is being set down."
    yield Caution("Lifting", text)


def _toppling(facts: StackFacts) -> Caution:
    said = []
    if facts.top is not None and facts.width is not None:
        top, base = show(facts.top, LENGTH, facts.system), show(facts.width, LENGTH, facts.system)
        said.append(f"The stack stands {top} high on a base {base} wide.")
    said.append("Nobody climbs it or stands beside it while it is loaded by machine.")
    if facts.on_bearers:
        said.append("Bearers and blocks that rock or roll are bedded anew before the first board.")
    said.append("A stack that leans is fenced off and taken down from the top.")
    return Caution("Toppling", " ".join(said))


def _cover(checked: CheckedStack, facts: StackFacts) -> Iterator[Caution]:
    cover = facts.cover
    if cover is None or checked.stack.cover is None:
        return
    what = (
        "Sheet metal has edges that cut and flies in wind."
        if checked.stack.cover.kind in _METAL
        else ("A cover flies in wind.")
    )
    text = f"{what} Never lay one alone or in gusts; tie it as it is laid."
    if cover.uplift is not None and cover.holds_down is not None and facts.in_open:
        text += (
            f" A strong gust can lift it with about {show(cover.uplift, MASS, facts.system)}; the cover and what"
            f" weights it come to {show(cover.holds_down, MASS, facts.system)}, and the ties must hold the rest."
        )
    yield Caution("Wind and the cover", text)


def _kiln(facts: StackFacts) -> Iterator[Caution]:
    if not facts.is_charge:
        return
    yield Caution(
        "Heat and wiring",
        "Heaters, fans, lamps and their wiring in a home-built kiln work hot and damp next to dry wood. A licensed"
        " electrician wires them to the local code: rated for the heat, earthed, with a ground-fault breaker and an"
        " over-temperature cut-out that does not depend on the controller. No open flame and no extension cords inside;"
        " an extinguisher and a smoke alarm at the door.",
    )
    yield Caution(
        "Going in",
        "Nobody goes alone into a hot kiln, fans stopped and locked off first; its door opens from inside and outward"
        " (29 CFR 1910.265(f)(3)).",
    )
    yield Caution(
        "Loading",
        "Chock the cart. Nobody stands beside, under or before a charge that is being pushed, and nobody loads past the"
        " kiln maker's rating.",
    )
