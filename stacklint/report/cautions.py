"""Cautions for the people who build a stack: short, and never in place of local codes and licensed practice."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.engineering.facts import StackFacts
from stacklint.plan.shelter import CoverKind
from stacklint.plan.stack import Stack
from stacklint.report.cover_cuts import top_weight
from stacklint.report.laying import layings
from stacklint.report.machines import has_machines
from stacklint.report.tape import tape
from stacklint.rulebook import builtin
from stacklint.show import show
from stacklint.units import MASS

GENERAL = (
    "This sheet is no certificate, and a plan without findings may still be unsafe to build. Local codes, the makers of"
    " rated equipment and licensed practice come before anything that stands here."
)
_LIFTS = "lift-too-heavy"
"""The rule whose limits say what one person and what two may lift."""
_METAL = frozenset({CoverKind.SHEET_METAL, CoverKind.ROOF_PANELS})


class Caution(NamedTuple):
    title: str
    text: str


def cautions(checked: CheckedStack) -> tuple[Caution, ...]:
    """What bears on safety in building, and in running the kiln of a charge; none where nothing could be reckoned."""
    facts = checked.facts
    if facts is None:
        return ()
    return (
        *_lifting(facts),
        _toppling(facts),
        *_weights(checked, facts),
        *_cover(checked, facts),
        *_machines(checked.stack),
        *_kiln(facts),
    )


def _lifting(facts: StackFacts) -> Iterator[Caution]:
    if facts.heaviest_board is None:
        return
    one, two = _limits()
    text = f"The heaviest board weighs about {show(facts.heaviest_board, MASS, facts.system)} as stacked."
    if facts.heaviest_board > two:
        text += (
            f" That is over {show(two, MASS, facts.system)}, more than two people should lift: machine or hoist only."
        )
    elif facts.heaviest_board > one:
        limit = show(one, MASS, facts.system)
        text += f" That is over {limit}, the most for one person in an ideal lift: two people or a machine."
    text += " Gloves against splinters, boots with toe caps. Nobody reaches under a board that is being set down."
    yield Caution("Lifting", text)


def _limits() -> tuple[float, float]:
    """What one person and what two may lift (kg), as the rule book has it."""
    rules = (rule for rule in builtin().rules if rule.name == _LIFTS)
    found = {limit.name: limit.value.value for rule in rules for limit in rule.limits}
    return found["one"], found["two"]


def _toppling(facts: StackFacts) -> Caution:
    said = []
    if facts.top is not None and facts.width is not None:
        top, base = tape(facts.top, facts.system), tape(facts.width, facts.system)
        said.append(f"The stack stands {top} high on a base {base} wide.")
    said.append("Nobody climbs it or stands beside it while it is loaded by machine.")
    if facts.on_bearers:
        said.append("Bearers and blocks that rock or roll are bedded anew before the first board.")
    said.append("A stack that leans is fenced off and taken down from the top.")
    return Caution("Toppling", " ".join(said))


def _weights(checked: CheckedStack, facts: StackFacts) -> Iterator[Caution]:
    said, laid = checked.stack.top_load, checked.arrangement
    if said is None or laid is None:
        return
    weight = top_weight(checked.stack, laid)
    if weight:
        full = all(each.fills for each in layings(checked)[-1:])
        rows = "" if full else " The top course is not full: they stand on its rows only, or they tip."
        yield Caution(
            "Weights",
            f"{show(weight, MASS, facts.system)} on top can crush whom they fall on. They are set level and tied, by"
            f" machine or in pieces that one person can lift, with nobody at the sides.{rows} They come off before a"
            " sticker or a board is loosened.",
        )
    elif said.straps:
        yield Caution(
            "Straps",
            "A drawn strap whips when it breaks or is cut: eye protection, and nobody in line with it. What it holds"
            " may roll off when it is loosened.",
        )


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


def _machines(stack: Stack) -> Iterator[Caution]:
    if not has_machines(stack):
        return
    yield Caution(
        "Wiring",
        "Fans and dehumidifiers run for weeks in damp air beside dry wood. A licensed electrician wires their outlets"
        " to the local code: earthed, with a ground-fault breaker. No extension cords under boards or through water,"
        " nothing over a heater, guards on the fans; a smoke alarm in the room.",
    )


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
