"""Says in a writer's words why a piece of text cannot be read, and what would do instead."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType

from stacklint.language.line import Line
from stacklint.language.nearest import listed, nearest
from stacklint.language.parse import Part, Refusal, keywords
from stacklint.language.scan import BAD, LONGEST_FIGURE, LONGEST_FRACTION, Token, unseen
from stacklint.language.spellings import UNITS


@dataclass(frozen=True, slots=True)
class _Measured:
    """A terminal that is a figure with a unit: what it is called, its units, how it is written."""

    word: str
    units: tuple[str, ...]
    example: str


_MEASURED = MappingProxyType(
    {
        "LENGTH": _Measured("a length", ("in", "ft", "mm", "m"), "24 in"),
        "AREA": _Measured("an area", ("ft2", "m2"), "120 ft2"),
        "VOLUME": _Measured("a volume", ("bf", "m3"), "350 bf"),
        "MASS": _Measured("a weight", ("lb", "kg"), "600 lb"),
        "PRESSURE": _Measured("a pressure", ("psf", "psi", "kPa"), "50 psf"),
        "DENSITY": _Measured("a density", ("lb/ft3", "kg/m3"), "40 lb/ft3"),
        "TEMPERATURE": _Measured("a temperature", ("F", "C"), "110 F"),
        "PERCENT": _Measured("a percentage", ("%",), "12%"),
        "FLOW": _Measured("a flow of air", ("cfm", "m3/h"), "2400 cfm"),
        "WATER_RATE": _Measured("an amount of water a day", ("pt/day", "L/day"), "60 pt/day"),
        "SPEED": _Measured("a speed", ("fpm", "m/s"), "350 fpm"),
        "TIME": _Measured("a time", ("h", "days"), "4 h"),
        "HOURS_A_DAY": _Measured("hours a day", ("h/day",), "12 h/day"),
    }
)
_OTHERS = MappingProxyType(
    {
        "STRING": "a name in quotation marks",
        "DATE": "a date such as 2026-04-02",
        "FIGURE": "a number",
        "WORD": "a word",
        "COLON": "a colon",
        "COMMA": "a comma",
        "PLUS": "a +",
        "SLASH": "a /",
        "TIMES": "an x",
        "TO": "to",
        "QUARTERS": "quarters such as 4/4",
        "RATIO": "a slope such as 1 in 12",
    }
)
_DETAILS = frozenset({"EVERY", "OVERHANG", "BEARS"})
"""Terminals that can all stand only where a detail begins."""
_MANY = 7
_LONGEST_QUOTE = 40


def complain(line: Line, part: Part, refusal: Refusal, takes: tuple[str, ...] = ()) -> None:
    """Reports the fault of a part that cannot be read, at its own place.

    ``takes`` are the details of the statement, as its writers write them.
    """
    token, message, instead = _fault(part, refusal, takes)
    if token is not None:
        line.fault(line.at(token), message, instead)
        return
    end = max(len(line.text.rstrip()), 1)
    line.fault(line.where(end - 1, end), message, instead)


def _fault(part: Part, refusal: Refusal, takes: tuple[str, ...]) -> tuple[Token | None, str, str]:
    token, after = refusal.token, refusal.after
    if token is None:
        return refusal.before, *_too_soon(refusal, takes)
    if token.type == BAD:
        return token, *_bad(token)
    if after is not None and after.type == BAD:
        return after, *_bad(after)
    return _unexpected(token, part, refusal, takes)


def quote(text: str) -> str:
    """A bit of the writer's text, as messages show it."""
    shown = "".join(character if character.isprintable() else " " for character in text)
    return shown if len(shown) <= _LONGEST_QUOTE else f"{shown[:_LONGEST_QUOTE]}..."


def bare_number(text: str, kind: str = "LENGTH") -> tuple[str, str]:
    """The message for a number without its unit."""
    text = quote(text)
    measured = _MEASURED[kind]
    space = "" if kind == "PERCENT" else " "
    ways = listed(f"{text}{space}{unit}" for unit in measured.units)
    return f"{text} has no unit: {measured.word} belongs here.", f"Say {ways}."


def _too_soon(refusal: Refusal, takes: tuple[str, ...]) -> tuple[str, str]:
    before = refusal.before
    if before is not None and before.type == "FIGURE":
        kind = _wanted_after_figure(refusal.expected)
        if kind:
            return bare_number(before.text, kind)
    after = f" after {quote(before.text)}" if before else ""
    if before is not None and before.type == "COMMA":
        after = " after the comma"
    return f"Something is missing{after}.", _ways(refusal.expected, takes)


def _wanted_after_figure(expected: Iterable[str]) -> str | None:
    """What a bare figure should have been: a length where it could have begun a range of lengths."""
    accepted = set(expected)
    return next((name for name in _MEASURED if name in accepted), "LENGTH" if "TO" in accepted else None)


def _unexpected(token: Token, part: Part, refusal: Refusal, takes: tuple[str, ...]) -> tuple[Token, str, str]:
    expected, before, after = refusal.expected, refusal.before, refusal.after
    wanted = [name for name in _MEASURED if name in expected]
    text = quote(token.text)
    missing = _missing(part, expected)
    if missing is not None:
        return token, *missing
    if token.type == "TO" or (after is not None and (after.type == "TO" or "TO" in after.could_be)):
        return token, "A range cannot stand here.", "Write one figure."
    if token.type == "FIGURE" and wanted:
        if after is not None and _glued(token, after):
            return after, *_unknown_unit(after.text, wanted[0])
        return token, *bare_number(token.text, wanted[0])
    if before is not None and before.type in ("FIGURE", "QUARTERS"):
        if "APART" in token.could_be:
            return before, *bare_number(before.text)
        if _glued(before, token) and not _near_keyword(token.text, expected):
            return token, *_unknown_unit(token.text, wanted[0] if wanted else "LENGTH")
    if token.type in _MEASURED and wanted:
        belongs = listed(_MEASURED[kind].word for kind in wanted)
        examples = listed(f"{_MEASURED[kind].word} such as {_MEASURED[kind].example}" for kind in wanted)
        return token, f"{text} is {_MEASURED[token.type].word}; {belongs} belongs here.", f"Write {examples}."
    meant = _near_keyword(token.text, expected) if token.type == "WORD" else None
    if meant:
        return token, f"{text} is not known here.", f"Write {meant}."
    if "COMMA" in expected and (token.type in _MEASURED or token.could_be):
        return token, f"{text} does not go with what stands before it.", f"Put a comma before {text}."
    return token, f"{text} does not belong here.", _ways(expected, takes)


def _glued(figure: Token, word: Token) -> bool:
    """Whether a word stands where a figure's unit would."""
    return word.type == "WORD" and not word.could_be and word.start_pos <= figure.end_pos + 1


def _missing(part: Part, expected: frozenset[str]) -> tuple[str, str] | None:
    """What a statement lacks, where that can be said better than by what could stand there."""
    if expected == {"DATE"}:
        return "No date can be read here.", "Write the year in four figures, then month and day: 2026-04-02."
    if part.tokens[0].type != "BOARDS":
        return None
    if expected == {"FIGURE", "VOLUME"}:
        return (
            "How many boards are there?",
            "Write a number or a volume: 60 of, 350 bf of. A pack, a lift or a load holds no certain number.",
        )
    if (len(part.tokens) > 1 and expected == {"WORD"}) or expected == {"COLON"}:
        return "A group of boards needs a label.", "Write a label and a colon: boards a: 60 of white ash ..."
    return None


def _near_keyword(word: str, expected: Iterable[str]) -> str | None:
    accepted = set(expected)
    known = [said for said, names in keywords().items() if said.isalpha() and accepted.intersection(names)]
    return next(iter(nearest(word, known)), None)


def _unknown_unit(word: str, kind: str) -> tuple[str, str]:
    measured = _MEASURED[kind]
    close = nearest(word.rstrip("."), [said for said, unit in UNITS.items() if unit.terminal == kind])
    ways = close or measured.units
    return f"{quote(word)} is not a unit that can stand here.", f"Write {listed(ways)}."


def _ways(names: Iterable[str], takes: tuple[str, ...]) -> str:
    """What could stand at a place: the figures first, then the words."""
    accepted = set(names)
    if takes and accepted >= _DETAILS:
        return f"It takes {listed(takes)}."
    figures = [f"{way.word} such as {way.example}" for name, way in _MEASURED.items() if name in accepted]
    others = [said for name, said in _OTHERS.items() if name in accepted and name != "COMMA"]
    seen: dict[str, str] = {}
    for said, terminals in keywords().items():
        for name in terminals:
            if name in accepted and name not in _OTHERS:
                seen.setdefault(name, said)
    ways = figures + others + [f"the word {said}" for said in sorted(seen.values())]
    if not ways:
        return "Put a comma before it, or take it out." if "COMMA" in accepted else "Take it out."
    return f"Write {listed(ways[:_MANY])}."


def _bad(token: Token) -> tuple[str, str]:
    text = token.text
    hidden = unseen(text)
    if hidden is not None:
        message = f"A character that cannot be seen stands here: U+{ord(hidden[0]):04X}."
        return message, "Delete it, or type the word anew."
    if text[0] in '"“':
        return "A quotation mark opens here and none closes it on this line.", "Put a quotation mark after the name."
    if text[-1].isdigit() and len(text) > LONGEST_FRACTION:
        return _too_many_digits(text)
    if text == "2/4":
        return "2/4 could be half an inch or a two-by-four.", "Write 1/2 in, or 2 in x 4 in."
    if text[-1] == "M":
        return "M could mean a thousand or a metre.", "Write mbf for a thousand board feet, m for metres."
    if text[0].isdigit() and ("/" in text or "-" in text or text.count(".") == 2):
        return (
            f"{quote(text)} can be read as more than one day.",
            "Write the year in four figures, then month and day: 2026-04-02.",
        )
    if text[0].isdigit() and "," in text:
        return (
            f"{quote(text)} could be a decimal figure or two figures.",
            f"Write {text.replace(',', '.')}, with a point; commas part thousands (2,500) and details.",
        )
    if len(text) == 1 and unicodedata.numeric(text, None) is not None:
        return f"{text} is no figure of a plan.", "Write it with 0 to 9 and a slash or a point: 60, 2/3, 0.5."
    return f"{quote(text)} means nothing in a plan.", "Delete it, or put the words it belongs to in quotation marks."


def _too_many_digits(text: str) -> tuple[str, str]:
    kind, most = ("fraction", LONGEST_FRACTION) if "/" in text else ("figure", LONGEST_FIGURE)
    message = f"The {kind} {quote(text)} has {len(text):,} characters; a {kind} of a plan has at most {most}."
    return message, "Write it shorter, with a larger unit."
