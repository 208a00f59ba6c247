"""The characters that drying curves are drawn with: block elements where the output carries them, ASCII elsewhere."""

from __future__ import annotations

from dataclasses import dataclass, fields

from stacklint.report.glyphs import carried


@dataclass(frozen=True, slots=True)
class CurveGlyphs:
    """One character each, but ``lines`` (one for each curve) and ``shades`` (those of one range, of another, of both).

    ``upper`` and ``lower`` draw the first curve where it fills half a cell; ``lines[0]`` fills a whole one.
    """

    upper: str
    lower: str
    lines: str
    shades: str
    wanted: str
    due: str
    today: str
    reading: str
    side: str
    tick: str
    corner: str
    base: str
    date_tick: str

    @property
    def most(self) -> int:
        """How many curves can be told apart."""
        return len(self.lines)


BLOCKS = CurveGlyphs(
    upper="▀",
    lower="▄",
    lines="█●○▲△◆",
    shades="░▒▓",
    wanted="┄",
    due="╳",
    today="┊",
    reading="◉",
    side="│",
    tick="┤",
    corner="└",
    base="─",
    date_tick="┬",
)
ASCII = CurveGlyphs(
    upper="*",
    lower="*",
    lines="*o#%&$",
    shades=".:;",
    wanted="-",
    due="X",
    today="'",
    reading="@",
    side="|",
    tick="+",
    corner="+",
    base="-",
    date_tick="+",
)


def curve_glyphs_for(encoding: str | None, *, plain_locale: bool = False) -> CurveGlyphs:
    """Block elements if ``encoding`` carries every one of them and the locale does not ask for ASCII."""
    drawn = "".join(getattr(BLOCKS, field.name) for field in fields(BLOCKS))
    return ASCII if plain_locale or not carried(drawn, encoding) else BLOCKS
