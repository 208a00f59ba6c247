"""The characters that a stack is drawn with: block elements where the output carries them, ASCII elsewhere."""

from __future__ import annotations

from dataclasses import dataclass, fields


@dataclass(frozen=True, slots=True)
class Glyphs:
    """One character each, but ``bearer``, which is a left and a right edge; ``slim`` is one where room is short."""

    board: str
    some_rows: str
    fault: str
    sticker: str
    bearer: str
    slim: str
    pad: str
    soil: str
    floor: str
    cover: str
    rise: str
    post: str
    load: str
    cloth: str
    line: str
    left_stop: str
    right_stop: str
    rule: str


BLOCKS = Glyphs(
    board="█",
    some_rows="▓",
    fault="░",
    sticker="■",
    bearer="╠╣",
    slim="╬",
    pad="▀",
    soil="≈",
    floor="═",
    cover="━",
    rise="╱",
    post="│",
    load="▼",
    cloth="┆",
    line="─",
    left_stop="├",
    right_stop="┤",
    rule="─",
)
ASCII = Glyphs(
    board="=",
    some_rows="-",
    fault="!",
    sticker="o",
    bearer="[]",
    slim="#",
    pad="^",
    soil="~",
    floor="_",
    cover="_",
    rise="/",
    post="|",
    load="v",
    cloth=":",
    line="-",
    left_stop="|",
    right_stop="|",
    rule="-",
)


def glyphs_for(encoding: str | None, *, plain_locale: bool = False) -> Glyphs:
    """Block elements if ``encoding`` carries every one of them and the locale does not ask for ASCII."""
    drawn = "".join(getattr(BLOCKS, field.name) for field in fields(BLOCKS))
    return ASCII if plain_locale or not carried(drawn, encoding) else BLOCKS


def carried(drawn: str, encoding: str | None) -> bool:
    """Whether ``encoding`` has every character of ``drawn``; one that is unknown is taken for ASCII."""
    try:
        drawn.encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True
