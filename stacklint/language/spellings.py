"""How units are spelled in everyday writing.

The standard spelling of a unit is its symbol (SI symbols as in NIST SP 811, trade symbols as in
stacklint.units); the others are common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from types import MappingProxyType

from stacklint.units import Unit


@dataclass(frozen=True, slots=True)
class Spelled:
    """A unit as a text spells it: ``terminal`` is its name in the grammar; ``times`` the thousand of ``MBF``."""

    terminal: str
    unit: Unit
    times: float = 1.0


_LENGTH = "LENGTH"
INCH = Spelled(_LENGTH, Unit.INCH)
FOOT = Spelled(_LENGTH, Unit.FOOT)

_TABLE: tuple[tuple[Spelled, str], ...] = (
    (INCH, 'in|inch|inches|"|”|″|\'\'|""|’’|′′'),
    (FOOT, "ft|foot|feet|'|’|′"),
    (Spelled(_LENGTH, Unit.MILLIMETRE), "mm|millimetre|millimetres|millimeter|millimeters"),
    (Spelled(_LENGTH, Unit.CENTIMETRE), "cm|centimetre|centimetres|centimeter|centimeters"),
    (Spelled(_LENGTH, Unit.METRE), "m|metre|metres|meter|meters"),
    (Spelled("AREA", Unit.SQUARE_FOOT), "ft2|ft²|sqft|sf|sq ft|sq feet|square feet|square foot"),
    (Spelled("AREA", Unit.SQUARE_METRE), "m2|m²|sqm|sq m|square metres|square meters"),
    (
        Spelled("VOLUME", Unit.BOARD_FOOT),
        "bf|b.f|bdft|bd-ft|bd.ft|bd/ft|bdf|bd'|board-feet|board-foot|bd ft|bd feet|bd foot|board ft|board feet|"
        "board foot",
    ),
    (Spelled("VOLUME", Unit.BOARD_FOOT, 1000.0), "mbf|kbf|k bf|k b.f|k bdft|k bd ft|k board feet"),
    (Spelled("VOLUME", Unit.CUBIC_FOOT), "ft3|ft³|cuft|cf|cu ft|cubic feet|cubic foot"),
    (Spelled("VOLUME", Unit.CUBIC_METRE), "m3|m³|cbm|cu m|cubic metres|cubic metre|cubic meters|cubic meter"),
    (Spelled("MASS", Unit.POUND), "lb|lbs|pound|pounds"),
    (Spelled("MASS", Unit.KILOGRAM), "kg|kgs|kilo|kilos|kilogram|kilograms"),
    (
        Spelled("PRESSURE", Unit.PSF),
        "psf|lb/ft2|lb/ft²|lbs/ft2|lbs/ft²|lb/sf|lbs/sf|lbs./sf|lb./sf|lb/sq ft|lbs/sq ft|lb per sq ft|lbs per sq ft|"
        "lb per square foot|lbs per square foot|pounds per square foot",
    ),
    (Spelled("PRESSURE", Unit.PSI), "psi|lb/in2|lb per square inch|lbs per square inch|pounds per square inch"),
    (Spelled("PRESSURE", Unit.KILOPASCAL), "kpa"),
    (Spelled("PRESSURE", Unit.MEGAPASCAL), "mpa|n/mm2|n/mm²"),
    (
        Spelled("PRESSURE", Unit.KILOGRAM_PER_SQUARE_METRE),
        "kg/m2|kg/m²|kg per square metre|kg per square meter",
    ),
    (Spelled("DENSITY", Unit.KILOGRAM_PER_CUBIC_METRE), "kg/m3|kg/m³"),
    (Spelled("DENSITY", Unit.POUND_PER_CUBIC_FOOT), "lb/ft3|lb/ft³|lbs/ft3|pcf"),
    (Spelled("TEMPERATURE", Unit.FAHRENHEIT), "f|°f|degf|° f|deg f|degrees f|degree f|degrees fahrenheit|fahrenheit"),
    (Spelled("TEMPERATURE", Unit.CELSIUS), "c|°c|degc|° c|deg c|degrees c|degree c|degrees celsius|celsius"),
    (
        Spelled("PERCENT", Unit.PERCENT),
        "%|percent|per cent|% mc|% moisture|% moisture content|% rh|% emc|% humidity|% relative humidity|"
        "percent mc|percent moisture|percent moisture content|percent rh|percent humidity|percent relative humidity",
    ),
    (Spelled("FLOW", Unit.CFM), "cfm|ft3/min|cubic feet per minute|cubic feet a minute"),
    (Spelled("FLOW", Unit.CUBIC_METRE_PER_HOUR), "m3/h|m³/h|m3/hr|cubic metres per hour|cubic meters per hour"),
    (
        Spelled("WATER_RATE", Unit.PINT_PER_DAY),
        "pt/day|pts/day|pint/day|pints/day|pt/d|ppd|pt a day|pt per day|pints a day|pints per day",
    ),
    (
        Spelled("WATER_RATE", Unit.LITRE_PER_DAY),
        "l/day|l/d|litre/day|litres/day|liter/day|liters/day|l a day|l per day|litres a day|litres per day|"
        "liters a day|liters per day",
    ),
    (Spelled("SPEED", Unit.FEET_PER_MINUTE), "fpm|ft/min|feet per minute|feet a minute"),
    (Spelled("SPEED", Unit.MILE_PER_HOUR), "mph|miles per hour|miles an hour"),
    (Spelled("SPEED", Unit.METRE_PER_SECOND), "m/s|metres per second|meters per second"),
    (Spelled("TIME", Unit.SECOND), "s|sec|secs|second|seconds"),
    (Spelled("TIME", Unit.MINUTE), "min|mins|minute|minutes"),
    (Spelled("TIME", Unit.HOUR), "h|hr|hrs|hour|hours"),
    (Spelled("TIME", Unit.DAY), "d|day|days"),
    (
        Spelled("HOURS_A_DAY", Unit.HOUR),
        "h/day|hr/day|hrs/day|hour/day|hours/day|h/d|h a day|h per day|hours a day|hours per day|hrs a day",
    ),
)


def _one_word() -> dict[str, Spelled]:
    return {form: unit for unit, forms in _TABLE for form in forms.split("|") if " " not in form}


def _several_words() -> dict[str, tuple[tuple[str, Spelled], ...]]:
    found: dict[str, list[tuple[str, Spelled]]] = {}
    for unit, forms in _TABLE:
        for form in forms.split("|"):
            first, _, rest = form.partition(" ")
            if rest:
                found.setdefault(first, []).append((rest, unit))
    return {first: tuple(sorted(rests, key=lambda item: -len(item[0]))) for first, rests in found.items()}


UNITS = MappingProxyType(_one_word())
"""By spelling, in lower case, of one word and without a full stop at its end."""
LONGER_UNITS = MappingProxyType(_several_words())
"""By first word: the further words, the longest first."""

_UNIT_WORD = re.compile(r"\"\"|''|’’|′′|[%\"”″'’′]|°?[A-Za-z](?:[\w²³/'-]|\.(?=\w|/))*\.?|°", re.ASCII)
_LETTERS = re.compile(r"°?[A-Za-z]+")
_SPACE = re.compile(r"[ \t\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+|-(?=[A-Za-z])")


def unit_at(text: str, start: int) -> tuple[Spelled, int] | None:
    """The unit that stands in ``text`` at ``start``, after a space, a hyphen or nothing, and where it ends."""
    space = _SPACE.match(text, start)
    start = space.end() if space and text[space.end() : space.end() + 1] not in ('"', "”") else start
    match = _UNIT_WORD.match(text, start)
    if match is None:
        return None
    end = match.end()
    word = match.group().lower()
    if word == "in" or word == "ft":
        return (INCH if word == "in" else FOOT), end
    if match.group() in ("M", "M."):
        return None
    if word[-1] == ".":
        word = word[:-1]
    longer = LONGER_UNITS.get(word)
    if longer is not None:
        for rest, unit in longer:
            reached = _follows(text, end, rest)
            if reached:
                return unit, reached
    unit_found = UNITS.get(word)
    if unit_found is not None:
        return unit_found, end
    return _glued(text, start)


def _glued(text: str, start: int) -> tuple[Spelled, int] | None:
    """A unit with something else right behind it, such as ``110F/102F`` or ``6inx8ft``."""
    letters = _LETTERS.match(text, start)
    if letters is None:
        return None
    word, end = letters.group().lower(), letters.end()
    unit = UNITS.get(word)
    if unit and text[end : end + 1] in ("/", "-"):
        return unit, end
    if word[-1] == "x" and word[:-1] in UNITS and text[end : end + 1].isdigit():
        return UNITS[word[:-1]], end - 1
    return None


def _follows(text: str, start: int, words: str) -> int | None:
    """Where ``words`` end in ``text``, if they follow at ``start``, whatever the spaces between."""
    for word in words.split(" "):
        while text[start : start + 1].isspace() and text[start] != "\n":
            start += 1
        end = start + len(word)
        if text[start:end].lower() != word:
            return None
        start = end
    if text[start : start + 1].isalnum():
        return None
    return start + 1 if text[start : start + 1] == "." else start
