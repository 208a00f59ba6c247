"""Says in a writer's words why a piece of text cannot be read, and what would do instead."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType

from stacklint.language.line import Line
from stacklint.language.nearest import listed, nearest
from stacklint.language.parse import Part, Refusal, keywords
from stacklint.language.scan import BAD, Token
from stacklint.language.spellings import UNITS


@dataclass(frozen=True, slots=True)
class _Measured:
    """A terminal that is a figure with a unit: what it is called and how it is written."""

    word: str
    units: tuple[str, ...]


_MEASURED = MappingProxyType(
    {
        "LENGTH": _Measured("a length", ("in", "ft", "mm", "m")),
        "AREA": _Measured("an area", ("ft2", "m2")),
        "VOLUME": _Measured("a volume", ("bf", "m3")),
        "MASS": _Measured("a weight", ("lb", "kg")),
        "PRESSURE": _Measured("a pressure", ("psf", "psi", "kPa")),
        "DENSITY": _Measured("a density", ("lb/ft3", "kg/m3")),
        "TEMPERATURE": _Measured("a temperature", ("F", "C")),
        "PERCENT": _Measured("a percentage", ("%",)),
        "FLOW": _Measured("a flow of air", ("cfm", "m3/h")),
        "WATER_RATE": _Measured("an amount of water a day", ("pt/day", "L/day")),
        "SPEED": _Measured("a speed", ("fpm", "m/s")),
        "TIME": _Measured("a time", ("h", "days")),
        "HOURS_A_DAY": _Measured("hours a day", ("h/day",)),
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
_MANY = 7
_LONGEST_QUOTE = 40


def complain(line: Line, part: Part, refusal: Refusal) -> None:
    """Reports the fault of a part that cannot be read, at its own place."""
    token = refusal.token
    if token is None:
        before = refusal.before
        end = before.end_pos if before else len(line.text.rstrip())
        where = line.at(before) if before else line.where(max(end - 1, 0), max(end, 1))
        line.fault(where, *_too_soon(refusal))
        return
    if token.type != BAD:
        stray = next((other for other in part.tokens if other.type == BAD and other.start_pos > token.start_pos), None)
        if stray is not None and stray is refusal.after:
            token = stray
    if token.type == BAD:
        line.fault(line.at(token), *_bad(token))
        return
    token, message, instead = _unexpected(token, refusal)
    line.fault(line.at(token), message, instead)


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


def _too_soon(refusal: Refusal) -> tuple[str, str]:
    before = refusal.before
    after = f" after {quote(before.text)}" if before else ""
    if before is not None and before.type == "COMMA":
        after = " after the comma"
    if before is not None and before.type == "FIGURE":
        kind = next((name for name in _MEASURED if name in refusal.expected), None)
        if kind:
            return bare_number(before.text, kind)
    return f"Something is missing{after}.", f"Write {_expected(refusal.expected)}."


def _unexpected(token: Token, refusal: Refusal) -> tuple[Token, str, str]:
    expected, before = refusal.expected, refusal.before
    wanted = [name for name in _MEASURED if name in expected]
    text = quote(token.text)
    after = refusal.after
    if token.type == "FIGURE" and wanted:
        if after is not None and after.could_be == () and after.type == "WORD" and after.start_pos <= token.end_pos + 1:
            return after, *_unknown_unit(after.text, wanted[0])
        return token, *bare_number(token.text, wanted[0])
    if (
        before is not None
        and before.type == "FIGURE"
        and token.type == "WORD"
        and not token.could_be
        and token.start_pos <= before.end_pos + 1
        and not _near_keyword(token.text, expected)
    ):
        return token, *_unknown_unit(token.text, wanted[0] if wanted else "LENGTH")
    if before is not None and before.type == "FIGURE" and "APART" in token.could_be:
        return before, *bare_number(before.text)
    if token.type in _MEASURED and wanted:
        return (
            token,
            f"{text} is {_MEASURED[token.type].word}; {listed(_MEASURED[kind].word for kind in wanted)} belongs here.",
            f"Write {_expected(expected)}.",
        )
    meant = _near_keyword(token.text, expected) if token.type == "WORD" else None
    if meant:
        return token, f"{text} is not known here.", f"Write {meant}."
    if "COMMA" in expected and (token.type in _MEASURED or token.could_be):
        return token, f"{text} does not go with what stands before it.", f"Put a comma before {text}."
    return token, f"{text} does not belong here.", f"Write {_expected(expected)}."


def _near_keyword(word: str, expected: Iterable[str]) -> str | None:
    accepted = set(expected)
    known = [said for said, names in keywords().items() if said.isalpha() and accepted.intersection(names)]
    return next(iter(nearest(word, known)), None)


def _unknown_unit(word: str, kind: str) -> tuple[str, str]:
    if word.rstrip(".") == "M":
        return "M could mean a thousand or a metre.", "Write mbf for a thousand board feet, m for metres."
    measured = _MEASURED[kind]
    close = nearest(word.rstrip("."), [said for said, unit in UNITS.items() if unit.terminal == kind])
    ways = close or measured.units
    return f"{quote(word)} is not a unit that can stand here.", f"Write {listed(ways)}."


def _expected(names: Iterable[str]) -> str:
    """What could stand at a place, the figures first, then the words."""
    accepted = set(names)
    figures = [
        f"{measured.word} ({listed(f'in {unit}' for unit in measured.units)})"
        for name, measured in _MEASURED.items()
        if name in accepted
    ]
    others = [said for name, said in _OTHERS.items() if name in accepted and name != "COMMA"]
    seen: dict[str, str] = {}
    for said, terminals in keywords().items():
        for name in terminals:
            if name in accepted and name not in _OTHERS:
                seen.setdefault(name, said)
    ways = figures + others + [f"the word {said}" for said in sorted(seen.values())]
    if not ways:
        return "nothing more, or a comma and a further detail" if "COMMA" in accepted else "nothing more"
    if len(ways) > _MANY:
        return f"{', '.join(ways[:_MANY])} or another of the details that the statement takes"
    return listed(ways)


def _bad(token: Token) -> tuple[str, str]:
    text = token.text
    if any(unicodedata.category(character) == "Cc" for character in text):
        return "A character that cannot be seen stands here.", "Delete it; plans are plain text."
    if text[0] in '"“':
        return "A quotation mark opens here and none closes it on this line.", "Put a quotation mark after the name."
    if text == "2/4":
        return "2/4 could be half an inch or a two-by-four.", "Write 1/2 in, or 2 in x 4 in."
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
    return f"{quote(text)} means nothing in a plan.", "Delete it, or put the words it belongs to in quotation marks."
