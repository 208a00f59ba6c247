"""The particulars in the head of a build sheet: what the stack is, how much of it there is, and what it weighs."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.checked import CheckedStack
from stacklint.drying.forecast import Forecast
from stacklint.engineering.facts import StackFacts
from stacklint.engineering.foundation_facts import stands_on_soil
from stacklint.plan.stack import Stack, StackKind
from stacklint.report import weights
from stacklint.report.board_tally import board_tally
from stacklint.report.built import Built, counted
from stacklint.report.figures import Figure, figures
from stacklint.report.invented import ABOUT
from stacklint.report.tape import tape
from stacklint.show import percent, rounded, show
from stacklint.units import MASS, ONE_INCH, VOLUME, System


def particulars(checked: CheckedStack) -> Iterator[Figure]:
    """What is unknown is left out, but for the name of the place."""
    stack, facts = checked.stack, checked.facts
    yield Figure("Place", _place(stack))
    woods = (
        dict.fromkeys(group.wood for group in facts.groups if group.wood)
        if facts is not None
        else dict.fromkeys(boards.wood.text for boards in stack.boards)
    )
    if woods:
        yield Figure("Species", ", ".join(woods))
    for label, day in (("Sawn", stack.sawn), ("Stacked", stack.stacked), ("Starts", stack.starts)):
        if day is not None:
            yield Figure(label, day.date.isoformat())
    want = _want(stack)
    if want:
        yield Figure("Wanted", want)
    if facts is not None:
        yield from _amounts(checked, facts)
        yield from _weights(checked, facts)
        yield from (figure for figure in _shape(checked, facts) if figure.text)


def _place(stack: Stack) -> str:
    if stack.kind is StackKind.CHARGE:
        words = [f"kiln {stack.kiln.text}" if stack.kiln is not None else "kiln not said"]
    elif stack.place is None:
        words = ["not said"]
    else:
        words = [stack.place.said or stack.place.kind.value]
        if stack.place.site is not None:
            words.append(f"site {stack.place.site.text}")
        if stack.place.in_sun is not None:
            words.append("in the sun" if stack.place.in_sun else "in the shade")
    if stack.spot is not None:
        words.append(f"spot {stack.spot.text}")
    return ", ".join(words)


def _want(stack: Stack) -> str:
    want = stack.want
    if want is None:
        return ""
    parts = [
        percent(want.moisture.si) if want.moisture is not None else "",
        f"by {want.by.date.isoformat()}" if want.by is not None else "",
        f"for {want.use.text}" if want.use is not None else "",
    ]
    return " ".join(part for part in parts if part)


def _amounts(checked: CheckedStack, facts: StackFacts) -> Iterator[Figure]:
    volume = facts.board_feet if facts.system is System.INCH else facts.volume
    tally = board_tally(checked)
    if volume is not None:
        about = ABOUT if tally is not None and tally.about_volume else ""
        yield Figure("Volume", f"{about}{show(volume, VOLUME, facts.system)}")
    if facts.pieces is not None:
        about = ABOUT if tally is not None and tally.about else ""
        boards = f"{rounded(facts.pieces)} boards" if facts.pieces != 1 else "1 board"
        yield Figure("Pieces", f"{about}{boards}")


def _weights(checked: CheckedStack, facts: StackFacts) -> Iterator[Figure]:
    stacked, read, dry = weights.as_stacked(checked), weights.as_read(checked), weights.dry(checked)
    if facts.mass_now is not None:
        at = f" ({stacked.moisture:.0%})" if stacked is not None else ""
        yield Figure("Weight as stacked", f"{show(facts.mass_now, MASS, facts.system)}{at}")
    if read is not None and read.day is not None:
        words = f"{show(read.mass, MASS, facts.system)} ({read.moisture:.0%} on {read.day.isoformat()})"
        yield Figure("Weight as last read", words)
    if dry is not None:
        want = checked.stack.want
        said = want is not None and want.moisture is not None
        why = "" if said else "; no moisture content is wanted"
        yield Figure("Weight dry", f"{show(dry.mass, MASS, facts.system)} (at {percent(dry.moisture)}{why})")


def _shape(checked: CheckedStack, facts: StackFacts) -> Iterator[Figure]:
    if checked.arrangement is not None:
        built = Built(checked.stack, checked.arrangement, facts)
        yield Figure("Stack", _sizes(built))
        yield Figure("Stickers", _stickers(built))
    yield Figure("Sag", _sag(facts))
    told = {figure.label: figure.text for figure in figures(checked)}
    surface = "ground" if stands_on_soil(checked.stack) else "floor"
    yield Figure("Loads", told.get("loads", "").replace("on the ground", f"on the {surface}"))
    if isinstance(checked.forecast, Forecast) and checked.forecast.wanted is not None:
        yield Figure("Ready", told.get("ready", ""))


def _sizes(built: Built) -> str:
    facts = built.facts
    words = [f"{built.length(built.laid.length)} x {built.length(built.laid.width)}"]
    if facts.courses_high is not None:
        words.append(counted(round(facts.courses_high), "course"))
    if facts.height is not None:
        words.append(f"{built.length(facts.height)} high")
    if facts.clearance:
        words.append(f"{built.length(facts.clearance)} off the {built.surface}")
    return ", ".join(words)


def _stickers(built: Built) -> str:
    facts = built.facts
    if facts.stickered is False:
        return "none: boards piled solid"
    if not facts.sticker_count:
        return ""
    words = [f"{rounded(facts.sticker_count)} to cut of {built.length(built.laid.sticker_length)}"]
    words.append(counted(len(built.laid.sticker_lines), "line"))
    if facts.sticker_spacing is not None:
        words.append(f"{built.length(facts.sticker_spacing)} apart at the widest")
    return ", ".join(words)


def _sag(facts: StackFacts) -> str:
    words = []
    if facts.sag_max is not None:
        words.append(f"{_small(facts.sag_max, facts.system)} at the most between supports")
    if facts.end_max is not None:
        words.append(f"longest board end {tape(facts.end_max, facts.system)}")
    return ", ".join(words)


def _small(metres: float, system: System) -> str:
    """As a rule reads it: nobody sees less than its finest mark."""
    finest = ONE_INCH / 16 if system is System.INCH else 0.001
    return tape(metres, system) if metres >= finest else f"less than {tape(finest, system)}"
