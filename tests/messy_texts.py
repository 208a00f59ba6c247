"""Hypothesis strategies for plans as people leave them: any order, any spacing, comments in odd places, slips."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from random import Random
from typing import NamedTuple

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from random_plans import plans

from stacklint.language.parse import keywords
from stacklint.language.scan import Token, scan
from stacklint.language.write import write

SLIPS = (
    "stikers 3/4 in x 1 1/4 in",
    "  clearance 14",
    "cover sheet metal, overhang 12, tyed  # a slip",
    "\tsawn 4/2/2026",
    "  @ the back",
    "wind across, along,",
    "  clearance 14 in,",
    "pile B9 B10",
    'site "unclosed',
    "boards a: a truckload of white ash",
)
"""Lines that no plan can hold, and lines that make those after them unreadable."""
_EVERYDAY = {
    "in": ("inches", '"', "inch", "IN", "″"),
    "ft": ("feet", "'", "foot", "Ft."),
    "bf": ("bdft", "board feet", "BF"),
    "lb": ("lbs", "pounds"),
    "mm": ("millimetres",),
    "m": ("metres",),
    "F": ("degrees F", "°F"),
    "%": (" percent", "% MC"),
}


class Messy(NamedTuple):
    """A text, the comments in it, each different from all others, and the lines that cannot be read."""

    text: str
    comments: tuple[str, ...]
    slips: tuple[str, ...]


@st.composite
def messy_texts(draw: DrawFn, slips: bool = False) -> Messy:
    """A random plan, its blocks and statements shuffled, spelled and spaced as people do, with comments everywhere."""
    random = Random(draw(st.integers(0, 2**32)))
    blocks = [block.split("\n") for block in write(draw(plans())).rstrip("\n").split("\n\n")]
    random.shuffle(blocks)
    comments: list[str] = []
    slipped: list[str] = []

    def comment() -> str:
        said = random.choice(['a "note"', "x, y,", "5/4, 6 in", "#", "it's 8\" wide", 'pile "B2"', "", "木"])
        comments.append(f"# {said} <{len(comments)}>")
        return comments[-1] + random.choice(("", "", "  "))

    def empty_or_comment() -> str:
        return random.choice((lambda: "", lambda: "  ", comment, lambda: f"   {comment()}"))()

    lines = [empty_or_comment()] if random.random() < 0.4 else []
    for opening, *statements in blocks:
        random.shuffle(statements)
        for statement in (opening, *statements):
            while random.random() < 0.25:
                lines.append(empty_or_comment())
            if slips and random.random() < 0.1:
                slipped.append(random.choice(SLIPS))
                lines.append(slipped[-1])
            margin = random.choice(("", "  ", "\t", "      "))
            lines += [margin + part for part in _loosened(random, statement.strip(), comment)]
            if random.random() < 0.2:
                lines[-1] += random.choice((" ", "")) + comment()
    while random.random() < 0.4:
        lines.append(empty_or_comment())
    text = "\n".join(lines) + random.choice(("\n", "\n", "", "\n\n\n"))
    return Messy(text, tuple(comments), tuple(slipped))


def _loosened(random: Random, statement: str, comment: Callable[[], str]) -> Iterator[str]:
    """The statement in everyday spelling, over several lines after some of its commas, with comments there."""
    held = ""
    place = 0
    for token in scan(statement, keywords()):
        gap = statement[place : token.start_pos]
        held += gap * random.choice((1, 1, 1, 2, 3)) + _everyday(random, token)
        place = token.end_pos
        if token.type == "COMMA" and random.random() < 0.15:
            yield held + (f" {comment()}" if random.random() < 0.5 else "")
            if random.random() < 0.2:
                yield comment()
            held = " "
    yield held + statement[place:]


def _everyday(random: Random, token: Token) -> str:
    if random.random() > 0.3:
        return token.text
    if token.type == "STRING":
        return f"“{token.text[1:-1]}”"
    for unit, spellings in _EVERYDAY.items():
        if token.unit is not None and token.text.endswith(unit) and token.text[-len(unit) - 1 :][:1] in " 0123456789":
            return token.text[: -len(unit)].rstrip() + " " * (unit != "%") + random.choice(spellings)
    return token.text.upper() if token.could_be else token.text
