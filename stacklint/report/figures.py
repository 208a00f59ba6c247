"""The figures of a stack as a careful person wants to see them, in the units of the plan."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.drying.forecast import Forecast
from stacklint.engineering.facts import StackFacts
from stacklint.report.forecast_words import ready_words
from stacklint.report.stack_figures import largest
from stacklint.show import percent, rounded, show
from stacklint.units import LENGTH, MASS, PRESSURE, VOLUME, Dimension, System

_VISIBLE = 0.0001
"""Metres. Nobody sees or measures a smaller sag in a board."""


class Figure(NamedTuple):
    label: str
    text: str


def figures(checked: CheckedStack) -> tuple[Figure, ...]:
    """Volume, weight, shape, stickers, sag, loads and when it is ready; what is unknown is left out."""
    facts = checked.facts
    if facts is None:
        return ()
    lines = (
        Figure("wood", _wood(facts)),
        Figure("weight", _weight(facts)),
        Figure("stack", _shape(facts)),
        Figure("stickers", _stickers(facts)),
        Figure("sag", _sag(facts)),
        Figure("loads", _loads(facts)),
        Figure("ready", _ready(checked)),
    )
    return tuple(line for line in lines if line.text)


def looked_at(facts: StackFacts, rules: int) -> str:
    """What a check went through, as a sentence."""
    places = (
        (_total(facts.courses_high), "course"),
        (_total(*(end.count for end in facts.ends)), "board end"),
        (_total(*(joint.count for joint in facts.joints)), "joint"),
        (len(facts.spans), "span"),
        (len(facts.lines), "sticker line"),
        (len(facts.bearers), "bearer"),
        (len(facts.pads), "footing"),
    )
    said = ", ".join(_counted(number, word) for number, word in places if number)
    return f"Looked at {said} by {_counted(rules, 'rule')}." if said else f"Looked at by {_counted(rules, 'rule')}."


def _wood(facts: StackFacts) -> str:
    volume = facts.board_feet if facts.system is System.INCH else facts.volume
    return _joined(
        _amount(facts, volume, VOLUME),
        _number(facts.pieces, "board"),
        _number(facts.unpaired, "board", "without a match") if facts.unpaired else "",
        _number(facts.left_over, "board", "in no course") if facts.left_over else "",
    )


def _weight(facts: StackFacts) -> str:
    target = _amount(facts, facts.mass_target, MASS)
    at = f" at {percent(facts.wanted)}" if facts.wanted is not None else " dry"
    water = _amount(facts, facts.water, MASS)
    return _joined(
        _amount(facts, facts.mass_now, MASS, after=" now"),
        _amount(facts, facts.mass_green, MASS, after=" green"),
        target and target + at,
        water and f"{water} of water to take out" if facts.water and facts.water > 0 else "",
    )


def _shape(facts: StackFacts) -> str:
    length, width = _amount(facts, facts.length, LENGTH), _amount(facts, facts.width, LENGTH)
    return _joined(
        f"{length} x {width}" if length and width else "",
        _number(facts.courses_high, "course"),
        _amount(facts, facts.height, LENGTH, after=" high"),
        _amount(facts, facts.clearance, LENGTH, after=" off the ground") if facts.clearance else "",
    )


def _stickers(facts: StackFacts) -> str:
    if facts.stickered is False:
        return "none: boards piled solid"
    if not facts.sticker_count:
        return ""
    length = _amount(facts, facts.sticker_length, LENGTH)
    each = f" of {length}" if length else ""
    return _joined(
        f"{rounded(facts.sticker_count)} to cut{each}",
        _number(facts.sticker_lines, "line"),
        _amount(facts, facts.sticker_spacing, LENGTH, after=" apart at the widest"),
    )


def _sag(facts: StackFacts) -> str:
    if facts.sag_max is not None and facts.sag_max < _VISIBLE:
        between = "next to nothing between supports"
    else:
        between = _amount(facts, facts.sag_max, LENGTH, after=" at the most between supports")
    return _joined(between, _amount(facts, facts.end_max, LENGTH, before="longest board end "))


def _loads(facts: StackFacts) -> str:
    bearer = largest(each.load for each in facts.bearers)
    ground = largest(each.pressure for each in facts.pads)
    return _joined(
        _amount(facts, facts.load, MASS, after=" in all"),
        _amount(facts, bearer, MASS, after=" on the worst bearer"),
        _amount(facts, ground, PRESSURE, after=" on the ground"),
    )


def _ready(checked: CheckedStack) -> str:
    if not isinstance(checked.forecast, Forecast):
        return ""
    want = checked.stack.want
    return ready_words(checked.forecast, want.by.date if want is not None and want.by is not None else None)


def _amount(facts: StackFacts, value: float | None, dimension: Dimension, before: str = "", after: str = "") -> str:
    return "" if value is None else f"{before}{show(value, dimension, facts.system)}{after}"


def _number(value: float | None, word: str, rest: str = "") -> str:
    if value is None:
        return ""
    return f"{_counted(round(value), word)}{' ' if rest else ''}{rest}"


def _counted(number: int, word: str) -> str:
    return f"1 {word}" if number == 1 else f"{rounded(number)} {word}s"


def _total(*counts: float | None) -> int:
    return round(sum(count for count in counts if count is not None))


def _joined(*parts: str) -> str:
    return ", ".join(part for part in parts if part)
