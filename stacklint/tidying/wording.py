"""One statement in its standard wording: the same figures in the writer's units, in the reference's spelling."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from stacklint.language.blocks import Block, Blocks
from stacklint.language.line import Line, Log
from stacklint.language.lines import logical_lines
from stacklint.language.parse import keywords
from stacklint.language.scan import Token, feet_and_inches, scan
from stacklint.language.statements import BlockKind
from stacklint.language.write import block_lines
from stacklint.language.written import amount, quoted
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, Site, WoodStatement
from stacklint.tidying.pieces import ANY_DAY, Piece
from stacklint.units import Unit
from stacklint.where import NOWHERE

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


class Statement:
    """A statement, or the line that opens a block, as it was read: in a block of this kind, ``None`` for none."""

    __slots__ = ("kind", "lines", "read", "text", "tokens")

    def __init__(self, piece: Piece, kind: BlockKind | None) -> None:
        self.lines = piece.lines
        self.kind = kind
        self.text = "\n".join(piece.lines)
        self.tokens = scan(self.text, keywords())
        self.read = _read(self.text, kind)

    def is_said_by(self, lines: Sequence[str]) -> bool:
        """Whether ``lines`` say the same in a block of the same kind."""
        return tuple(lines) == self.lines or _said(_read("\n".join(lines), self.kind)) == _said(self.read)

    def standard(self) -> list[str] | None:
        """It as plans are written by the package, a line each if it is several.

        ``None`` where that would not say all that the writer said: a figure that is *about* so much.
        """
        if not _all_words_count(self.text, self.tokens) or _BOTH_SIDES.search(self.text):
            return None
        if self.read.uses:
            written = [f"use {quoted(used.text)}" for used in self.read.uses]
        else:
            written = _written(self.read.blocks[-1], opening=self.kind is None)
        return [_in_the_writers_figures(line, self.tokens) for line in written] or None

    def on_one_line(self) -> list[str]:
        """It in the writer's words, evened out and on one line."""
        return [" ".join(words.text for words in self.respaced())]

    def respaced(self) -> list[Words]:
        """It line by line as it stands, its units spelled as the reference does and its spaces evened out."""
        return [words for words in self._by_line(_respaced) if words.text or words.comment]

    def unchanged(self) -> list[Words]:
        """It line by line as it stands, without the space around each line."""
        return [words for words in self._by_line(_stripped) if words.text or words.comment]

    def _by_line(self, words: Callable[[str, Sequence[Token], int, int], Words]) -> Iterator[Words]:
        start = 0
        for line in self.lines:
            end = start + len(line)
            yield words(self.text, [token for token in self.tokens if start <= token.start_pos < end], start, end)
            start = end + 1


def _read(text: str, kind: BlockKind | None) -> Blocks:
    read = Blocks("-", Log(), ANY_DAY)
    if kind is not None:
        read.blocks.append(Block(kind, Name(text=kind.value), NOWHERE, {}))
    for line in logical_lines(text, "-", read.log):
        read.take(line)
    return read


def _said(read: Blocks) -> Said | None:
    """What was read, and ``None`` if not all could be."""
    if read.log.faults:
        return None
    blocks = tuple((block.kind, block.name.text, block.values) for block in read.blocks)
    return Said(tuple(name.text for name in read.uses), blocks, read.log.inch, read.log.metric)


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


def _stripped(text: str, tokens: Sequence[Token], start: int, end: int) -> Words:
    last = tokens[-1].end_pos if tokens else start
    passed_over, comment = _comment(text[last:end])
    return Words((text[start:last] + passed_over).strip(), comment)


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
