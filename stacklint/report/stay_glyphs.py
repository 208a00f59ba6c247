"""The characters that stays in spots and kilns are drawn with: blocks where the output carries them, else ASCII."""

from __future__ import annotations

from dataclasses import dataclass, fields

from stacklint.report.glyphs import carried


@dataclass(frozen=True, slots=True)
class StayGlyphs:
    """One character each: a stack is there until it is ready at the earliest (``sure``), up to the latest (``range``)
    and beyond the months shown (``on``); it is likely ready; two are in one place; today."""

    sure: str
    range: str
    likely: str
    on: str
    clash: str
    today: str


BLOCKS = StayGlyphs(sure="█", range="▒", likely="◆", on="▸", clash="╳", today="┊")
ASCII = StayGlyphs(sure="=", range=".", likely="#", on=">", clash="X", today="'")


def stay_glyphs_for(encoding: str | None, *, plain_locale: bool = False) -> StayGlyphs:
    """Blocks if ``encoding`` carries every one of them and the locale does not ask for ASCII."""
    drawn = "".join(getattr(BLOCKS, field.name) for field in fields(BLOCKS))
    return ASCII if plain_locale or not carried(drawn, encoding) else BLOCKS
