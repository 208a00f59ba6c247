"""One statement in its standard wording: the same figures in the writer's units, in the reference's spelling."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from stacklint.language.blocks import Block, Blocks
from stacklint.language.line import Line, Log
from stacklint.language.lines import logical_lines
from stacklint.language.parse import keywords
from stacklint.language.scan import Token, feet_and_inches, scan
from stacklint.language.statements import BlockKind
from stacklint.language.write import block_lines
from stacklint.language.written import amount, quoted
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, Site, WoodStatement
from stacklint.tidying.pieces import ANY_DAY, Piece
from stacklint.units import Unit

_FIGURES = re.compile(r"\d+(?:\.\d+)?")
_NOTHING = re.compile(r"(?:[ \t\n\u00a0\u2007\u2009\u202f]|\bthe\b)*", re.IGNORECASE)
"""What may stand between words without any meaning, even to people."""
_BOTH_SIDES = re.compile(r"\bboth[ \t]+sides\b", re.IGNORECASE)
"""The one detail that says what is so without it: nothing of it is kept in a plan."""
_CLOSE = frozenset({"COMMA", "COLON"})


class Said(NamedTuple):
    """What a statement says: the files that it uses, the names and the fields of its block, and its figures of length.

    The last count for the system of units that findings come in.
    """

    uses: tuple[str, ...]
    blocks: tuple[tuple[BlockKind, str, dict[str, object]], ...]
    inch: int
    metric: int


class Words(NamedTuple):
    """One line of a statement, and the comment behind it."""

    text: str
    comment: str


def said(text: str, kind: BlockKind | None) -> Said | None:
    """What ``text`` says in a block of this kind; ``None`` if it is not read without faults."""
    read = _blocks(text, kind)
    if read is None:
        return None
    blocks = tuple((block.kind, block.name.text, block.values) for block in read.blocks)
    return Said(tuple(name.text for name in read.uses), blocks, read.log.inch, read.log.metric)


def standard(piece: Piece, kind: BlockKind | None) -> list[str] | None:
    """The statement as plans are written by the package, a line each if it is several.

    ``None`` where that would not say all that the writer said: a figure that is *about* so much, a comment amid.
    """
    text = "\n".join(piece.lines)
    tokens = scan(text, keywords())
    if not _all_words_count(text, tokens) or _BOTH_SIDES.search(text):
        return None
    read = _blocks(text, kind)
    if read is None:
        return None
    if read.uses:
        written = [f"use {quoted(used.text)}" for used in read.uses]
    else:
        written = _written(read.blocks[-1], opening=piece.lead is not None and kind is None)
    return [_in_the_writers_figures(line, tokens) for line in written] or None


def respaced(piece: Piece) -> list[Words]:
    """The statement line by line as it stands, its units spelled as the reference does and its spaces evened out."""
    text = "\n".join(piece.lines)
    tokens = scan(text, keywords())
    lines: list[Words] = []
    start = 0
    for raw in piece.lines:
        end = start + len(raw)
        own = [token for token in tokens if start <= token.start_pos < end]
        lines.append(_respaced(text, own, start, end))
        start = end + 1
    return [line for line in lines if line.text or line.comment]


def unchanged(piece: Piece) -> list[Words]:
    """The statement line by line as it stands, without the space around each line."""
    text = "\n".join(piece.lines)
    tokens = scan(text, keywords())
    lines: list[Words] = []
    start = 0
    for raw in piece.lines:
        end = start + len(raw)
        last = max((token.end_pos for token in tokens if start <= token.start_pos < end), default=start)
        said, comment = _comment(text[last:end])
        lines.append(Words((text[start:last] + said).strip(), comment))
        start = end + 1
    return [line for line in lines if line.text or line.comment]


def _blocks(text: str, kind: BlockKind | None) -> Blocks | None:
    log = Log()
    read = Blocks("-", log, ANY_DAY)
    if kind is not None:
        read.take(Line("-", 1, f'{kind.value} "x"', log))
    for line in logical_lines(text, "-", log):
        read.take(line)
    return None if log.faults else read


def _written(block: Block, opening: bool) -> list[str]:
    node = block.build(Line("-", 1, "", Log()))
    if not isinstance(node, (Site, Kiln, WoodStatement, Stack)):
        return []
    try:
        opened, *statements = block_lines(node)
    except ValueError:
        return []  # a name holds a mark that only its writer's quotation marks can hold
    return [opened] if opening else statements


def _all_words_count(text: str, tokens: Sequence[Token]) -> bool:
    """Whether nothing but spaces stands between the tokens, and after the last at most a comment."""
    place = 0
    for token in tokens:
        if not _NOTHING.fullmatch(text, place, token.start_pos):
            return False
        place = token.end_pos
    rest, _ = _comment(text[place:])
    return not rest


def _comment(tail: str) -> tuple[str, str]:
    """What stands behind the last word of a line: words that are passed over, and the comment."""
    passed_over, mark, comment = tail.partition("#")
    return passed_over.strip(), f"{mark}{comment}".rstrip()


def _in_the_writers_figures(line: str, tokens: Sequence[Token]) -> str:
    """``line`` with lengths in feet and inches, and a slope, as the writer has them: plans keep but their values."""
    both = {token.number: _feet(*pair) for token in tokens if (pair := feet_and_inches(token)) is not None}
    slopes = [_slope(token) for token in tokens if token.type == "RATIO" or _slope_in_percent(token, tokens)]
    if not both and not slopes:
        return line
    written = scan(line, keywords())
    parts: list[str] = []
    done = 0
    for index, token in enumerate(written):
        put = (
            slopes[0]
            if token.type == "RATIO" and slopes
            else both.get(token.number)
            if _inches(written, index)
            else None
        )
        if put is not None:
            parts += line[done : token.start_pos], put
            done = token.end_pos
        elif token.type == "FIGURE" and _inches(written, index):
            parts += line[done : token.end_pos], " in"
            done = token.end_pos
    return "".join([*parts, line[done:]])


def _inches(tokens: Sequence[Token], index: int) -> bool:
    """Whether a figure is in inches: by its own unit, or as the low end of a range by that of the high one."""
    token = tokens[index]
    if token.type == "FIGURE" and [each.type for each in tokens[index + 1 : index + 3]] == ["TO", "LENGTH"]:
        token = tokens[index + 2]
    return token.unit is not None and token.unit.unit is Unit.INCH


def _feet(feet: float, inches: float) -> str:
    return f"{amount(Quantity(number=feet, unit=Unit.FOOT))} {amount(Quantity(number=inches, unit=Unit.INCH))}"


def _slope_in_percent(token: Token, tokens: Sequence[Token]) -> bool:
    before = tokens[tokens.index(token) - 1] if token.type == "PERCENT" else None
    return before is not None and before.text.lower() == "slope"


def _slope(token: Token) -> str:
    if token.unit is not None:
        return amount(Quantity(number=token.number, unit=token.unit.unit))
    rise, run = _FIGURES.findall(token.text)
    return f"{rise} in {run}"


def _respaced(text: str, tokens: Sequence[Token], start: int, end: int) -> Words:
    words: list[str] = []
    place = start
    for token in tokens:
        words += text[place : token.start_pos].split()
        spelled = _spelled(token)
        if token.type in _CLOSE and words:
            words[-1] += spelled
        else:
            words.append(spelled)
        place = token.end_pos
    passed_over, comment = _comment(text[place:end])
    words += passed_over.split()
    return Words(" ".join(words), comment)


def _spelled(token: Token) -> str:
    both = feet_and_inches(token)
    if both is not None:
        return _feet(*both)
    if token.unit is not None:
        figure = amount(Quantity(number=token.number, unit=token.unit.unit))
        return f"{figure}/day" if token.type == "HOURS_A_DAY" else figure
    if token.type == "STRING":
        return quoted(token.text[1:-1])
    return {"TIMES": "x", "TO": "to"}.get(token.type, token.text)
