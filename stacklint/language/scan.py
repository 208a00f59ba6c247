"""Cuts a logical line into the terminals of the grammar.

A figure and its unit make one token, named for its dimension (``LENGTH``, ``MASS``, ...), so that the
grammar can say what belongs where. Words that the grammar uses carry the names of the terminals they
could be; the parser's state decides which, and whether the word is one at all (``green`` in ``green
ash`` is not).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import ClassVar

from stacklint.language.spellings import FOOT, INCH, Spelled, unit_at


class Token:
    """A terminal in a logical line: its name, its text, and where it starts and ends in the line.

    ``number`` and ``unit`` are set for figures. ``could_be`` names the keywords that a word spells.
    The other positions are those that the parser asks of a line's last token.
    """

    __slots__ = ("could_be", "end_pos", "number", "start_pos", "text", "type", "unit")
    line: ClassVar[int] = 0
    column: ClassVar[int] = 0
    end_line: ClassVar[int] = 0
    end_column: ClassVar[int] = 0

    def __init__(
        self,
        type: str,  # the parser asks for this name
        text: str,
        start: int,
        end: int,
        number: float = 0.0,
        unit: Spelled | None = None,
        could_be: tuple[str, ...] = (),
    ) -> None:
        self.type = type
        self.text = text
        self.start_pos = start
        self.end_pos = end
        self.number = number
        self.unit = unit
        self.could_be = could_be

    def __repr__(self) -> str:
        return f"{self.type}({self.text!r})"


LONGEST_FIGURE, LONGEST_FRACTION = 100, 30
"""Characters. What is written of a plan that was read has fewer, be it the longest fraction as a decimal."""
BAD = "BAD"
"""The type of what no plan can hold; ``complaints`` says why."""

_FRACTIONS = MappingProxyType({"¼": 0.25, "½": 0.5, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875})
_PARTS = "".join(_FRACTIONS)
_ONE = "[0-9]"
"""Digits of other scripts are refused: some of them look like another of these, as the Bengali four like an eight."""
_BLANKS = r" \t\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000"
_SLASH = "[/⁄]"
_FIGURE = (
    rf"{_ONE}+(?:[{_BLANKS}]+|-){_ONE}+{_SLASH}{_ONE}+(?![0-9/⁄])|{_ONE}+{_SLASH}{_ONE}+(?![0-9/⁄])"
    rf"|{_ONE}+[{_BLANKS}]?[{_PARTS}]|[{_PARTS}]"
    rf"|{_ONE}{{1,3}}(?:,{_ONE}{{3}})+(?![0-9,])(?:\.{_ONE}+)?|{_ONE}+(?:\.{_ONE}+)?|\.{_ONE}+"
)
_STARTS_FIGURE = rf"[0-9{_PARTS}]|\.{_ONE}"
_SPACE = rf"[{_BLANKS}\n]"
_OTHER_NUMBERS = "²³¹⁰⁴-⁹₀-₉⅐-↉①-⓿❶-➓"
"""They count as letters to a regular expression, but begin no word."""
_IN_WORD = r"[\w\u0300-\u036f]"
"""Letters, and accents that are written behind them (Unicode's form NFD)."""
_UNSEEN = (
    r"\x00-\x08\x0b-\x1f\x7f-\x9f\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b\u200e\u200f\u2028-\u202e"
    r"\u2060-\u206f\u2800\u3164\ufe00-\ufe0d\ufeff\uffa0\ufff0-\ufffb\U000e0000-\U000e0fff"
)
_TOKEN = re.compile(
    rf"(?:{_SPACE}+|#[^\n]*|~|≈|±|\+/-)*+"
    rf"(?:(?P<word>[^\W\d_{_PARTS}{_OTHER_NUMBERS}]{_IN_WORD}*(?:[-.'’][^\W_]{_IN_WORD}*)*\.?)"
    rf"|(?P<date>{_ONE}{{4}}-{_ONE}{{1,2}}-{_ONE}{{1,2}}(?![\w/-]))"
    rf"|(?P<slashes>{_ONE}{{1,4}}(?:/{_ONE}{{1,2}}/|-{_ONE}{{1,2}}-|\.{_ONE}{{1,2}}\.){_ONE}{{2,4}}(?![\w/.-]))"
    rf"|(?P<decimal_comma>{_ONE}+,{_ONE}{{1,2}}(?![0-9,]))"
    rf"|(?P<ratio>{_ONE}+(?:\.{_ONE}+)?(?:[{_BLANKS}]+in[{_BLANKS}]+|:){_ONE}+(?:\.{_ONE}+)?(?=[{_BLANKS}]*(?:[,#\n]|$)))"
    rf"|(?P<figure>[-−]?(?:{_FIGURE}))"
    rf'|(?P<string>["“][^"“”\n{_UNSEEN}]*["”])'
    r"|(?P<mark>[,:+/×])"
    r"|(?P<other>\"[^\n]*|“[^\n]*|.))"
)
_AFTER_FIGURE = re.compile(
    rf"{_SPACE}*(?:(?P<TIMES>[xX×*])(?={_SPACE}*(?:{_STARTS_FIGURE}|random|about|roughly|~))|(?P<TO>[-–—−])(?={_SPACE}*(?:{_STARTS_FIGURE})))"
)
_INCHES = re.compile(
    rf"(?P<comma>,)?[{_BLANKS}]*(?:(?P<dash>[-–—−])[{_BLANKS}]*|and[{_BLANKS}]+)?(?P<figure>{_FIGURE})"
)
_FIGURES = re.compile(_FIGURE)
_SLASHED = re.compile(_SLASH)
_HIDDEN = re.compile(f"[{_UNSEEN}]")
_FOOT_MARKS = "'’′"
_MARKS = {",": "COMMA", ":": "COLON", "+": "PLUS", "/": "SLASH", "×": "TIMES"}
_BEFORE_FIGURES = frozenset({"about", "roughly", "approximately", "approx", "around", "nearly", "exactly", "full"})
_NUMBERS = MappingProxyType(
    {
        word: float(number)
        for number, word in enumerate(["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"], 2)
    }
)
_COUNTED = frozenset({"STICKERS", "ROWS", "PADS", "PER", "PIECES"})
_NEXT_WORD = re.compile(rf"[{_BLANKS}]+([A-Za-z]+)")
_M = re.compile(rf"[{_BLANKS}]*M(?![\w/])")
_THOUSAND = re.compile(r"[kK](?![A-Za-z])")


def scan(text: str, keywords: Mapping[str, tuple[str, ...]]) -> list[Token]:
    """The tokens of a logical line. ``keywords`` gives the terminals that a word, in lower case, could be."""
    tokens: list[Token] = []
    add = tokens.append
    position, end = 0, len(text)
    after_figure = False
    while position < end:
        if after_figure:
            after_figure = False
            sign = _AFTER_FIGURE.match(text, position)
            if sign is not None:
                kind = sign.lastgroup or ""
                add(Token(kind, sign.group(kind), sign.start(kind), sign.end()))
                position = sign.end()
                continue
        match = _TOKEN.match(text, position)
        if match is None:
            break
        kind = match.lastgroup or ""
        start, position = match.span(kind)
        said = match.group(kind)
        if kind == "word":
            lower = said.lower().rstrip(".")
            could_be = keywords.get(lower)
            if could_be is not None:
                add(Token("WORD", said, start, position, 0.0, None, could_be))
            elif lower in _NUMBERS and _counts(text, position, keywords):
                token = _figure(text, said, start, position)
                position = token.end_pos
                add(token)
                after_figure = True
            elif lower != "the" and lower not in _BEFORE_FIGURES:
                add(Token("WORD", said, start, position))
        elif kind == "figure" and position - start > (LONGEST_FRACTION if _SLASHED.search(said) else LONGEST_FIGURE):
            add(Token(BAD, said, start, position))
        elif kind == "figure":
            token = _figure(text, said, start, position)
            position = token.end_pos
            add(token)
            after_figure = True
        elif kind == "mark":
            add(Token(_MARKS[said], said, start, position))
        elif kind == "string":
            add(Token("STRING", said, start, position))
        elif kind == "date":
            add(Token("DATE", said, start, position))
        elif kind == "ratio":
            add(Token("RATIO", said, start, position))
        else:
            hidden = unseen(said) if kind == "other" else None
            if hidden is not None:
                add(Token(BAD, hidden[0], start + hidden.start(), start + hidden.end()))
            else:
                add(Token(BAD, said, start, position))
    return tokens


def unseen(text: str) -> re.Match[str] | None:
    """The first character of which nothing is seen: it would make two names of what reads as one, or hide what follows
    it. The two joiners of letters, U+200C and U+200D, may stand in names."""
    return _HIDDEN.search(text)


def _counts(text: str, end: int, keywords: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether a number in a word is followed by what it counts or measures: ``four stickers``, ``two inch``."""
    if unit_at(text, end) is not None:
        return True
    following = _NEXT_WORD.match(text, end)
    return following is not None and not _COUNTED.isdisjoint(keywords.get(following.group(1).lower(), ()))


def _figure(text: str, said: str, start: int, end: int) -> Token:
    try:
        number = float(said)
    except ValueError:
        number = _NUMBERS.get(said.lower()) or figure(said)
    found = unit_at(text, end)
    if found is None:
        return _without_unit(text, said, number, start, end)
    unit, end = found
    if unit is FOOT:
        return _feet(text, number, start, end)
    return Token(unit.terminal, text[start:end], start, end, number * unit.times, unit)


def _without_unit(text: str, said: str, number: float, start: int, end: int) -> Token:
    ambiguous = _M.match(text, end)
    if ambiguous:
        return Token(BAD, text[start : ambiguous.end()], start, ambiguous.end())
    thousand = _THOUSAND.match(text, end)
    if thousand:
        return Token("FIGURE", text[start : end + 1], start, end + 1, number * 1000)
    top, slash, bottom = said.replace("⁄", "/").partition("/")
    if slash and bottom == "4" and top.isdigit():
        if number == 0.5:
            return Token(BAD, said, start, end)
        if number > 0.5:
            return Token("QUARTERS", said, start, end, number * 4)
    return Token("FIGURE", said, start, end, number)


def _feet(text: str, feet: float, start: int, end: int) -> Token:
    """Feet, or feet and inches: ``8' 6"``, ``8'-6"``, ``8 ft 6 in``, ``12 feet, 2 inches``.

    A comma parts feet from inches only where both are spelled out; elsewhere it parts details.
    """
    inches = _INCHES.match(text, end)
    if inches is not None:
        found = unit_at(text, inches.end())
        if found is not None and found[0] is INCH:
            number = figure(inches.group("figure"))
            spelled_out = text[start:end].lower().endswith(("foot", "feet")) and "inch" in text[inches.end() : found[1]]
            dash = inches.group("dash") is not None
            inch_mark = not text[inches.end() : found[1]].strip().isalpha()
            marked = text[start:end].rstrip()[-1:] in _FOOT_MARKS and inch_mark
            if number < 12 and (inches.group("comma") is None or spelled_out) and (not dash or marked):
                return Token("LENGTH", text[start : found[1]], start, found[1], feet * 12 + number, INCH)
    return Token("LENGTH", text[start:end], start, end, feet, FOOT)


def feet_and_inches(token: Token) -> tuple[float, float] | None:
    """The feet and the inches of a length that is written in both, such as ``8' 6"``."""
    if token.unit is not INCH:
        return None
    figures = _FIGURES.findall(token.text)
    return (figure(figures[0]), figure(figures[1])) if len(figures) == 2 else None


def figure(said: str) -> float:
    """The number that a figure writes: ``1 1/4``, ``1-1/4``, ``1¼``, ``1,400``, ``.5``.

    A fraction over 0 is infinite, which no bounds admit.
    """
    sign = -1.0 if said[0] in "-−" else 1.0
    said = said.lstrip("-−").replace(",", "").replace("⁄", "/")
    if said[-1] in _FRACTIONS:
        return sign * (float(said[:-1].strip() or 0) + _FRACTIONS[said[-1]])
    top, slash, bottom = said.partition("/")
    if not slash:
        return sign * float(said)
    *whole, over = top.replace("-", " ").split()
    part = float(over) / float(bottom) if float(bottom) else float("inf")
    return sign * (float(whole[0] if whole else 0) + part)
