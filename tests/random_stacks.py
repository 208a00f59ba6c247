"""Hypothesis strategies for the statements of a pile or a charge."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy
from random_words import (
    TODAY,
    days,
    figures,
    maybe,
    one_of,
    positions,
    quantities,
    spans,
    texts,
    thicknesses,
    words_of,
)

from stacklint.plan import bounds
from stacklint.plan.boards import Boards, CourseRows, Courses, Face, MoistureWord
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.shelter import (
    Cover,
    CoverKind,
    Fan,
    Fastening,
    PlaceKind,
    PlaceStatement,
    SideKind,
    Sides,
    TopLoad,
)
from stacklint.plan.stack import (
    Baffles,
    Reading,
    ReadingFrom,
    Setting,
    StackSize,
    Waiver,
    Want,
    Wanted,
)
from stacklint.plan.supports import (
    BearerKind,
    Bearers,
    Flatness,
    Ground,
    Pads,
    Soil,
    Stickers,
    StickerState,
    Wetness,
)

EVERYDAY_PLACES = {
    "pole barn": PlaceKind.OPEN_SHED,
    "lean to": PlaceKind.OPEN_SHED,
    "carport": PlaceKind.OPEN_SHED,
    "porch": PlaceKind.OPEN_SHED,
    "barn loft": PlaceKind.CLOSED_BARN,
}
USES = ("flooring", "furniture", "musical instruments", "outdoor furniture", "framing")
RULES = ("stickers-wet", "sag-between-stickers", "cover-too-short", "lift-too-heavy")


@st.composite
def boards(draw: DrawFn, label: Name, wood_names: SearchStrategy[Name]) -> Boards:
    """A ``boards`` statement. Its boards are no thicker than wide, as thickness is written first."""
    counted = draw(st.booleans())
    thickness = draw(thicknesses())
    width = draw(maybe(spans(bounds.BoardWidth)))
    narrowest = width.low if isinstance(width, Range) else width
    if narrowest and narrowest.si < thickness.si:
        thickness = Quantity(number=narrowest.number / 2, unit=narrowest.unit)
    return Boards(
        label=label,
        count=draw(st.integers(1, 100_000)) if counted else None,
        volume=None if counted else draw(quantities(bounds.Volume)),
        wood=draw(wood_names),
        thickness=thickness,
        width=width,
        length=draw(spans(bounds.BoardLength)),
        moisture=draw(maybe(words_of(MoistureWord) | quantities(bounds.MoistureContent))),
        face=draw(maybe(words_of(Face))),
        live_edge=draw(st.booleans()),
        boxed_heart=draw(st.booleans()),
        squares=draw(st.booleans()),
        finished=draw(maybe(quantities(bounds.BoardThickness))),
    )


@st.composite
def courses(draw: DrawFn, labels: list[Name]) -> tuple[Courses, ...]:
    """Courses from the ground up, each number once."""
    row = st.builds(
        CourseRows,
        count=st.integers(1, 40),
        labels=st.lists(st.sampled_from(labels), min_size=1, max_size=4).map(tuple),
    )
    written = []
    first = 1
    for height in draw(st.lists(st.integers(1, 12), max_size=4)):
        rows = draw(st.lists(row, min_size=1, max_size=3))
        written.append(Courses(first=first, last=first + height - 1, rows=tuple(rows)))
        first += height
    return tuple(written)


@st.composite
def places(draw: DrawFn, site_names: list[Name]) -> PlaceStatement:
    said = draw(maybe(st.sampled_from(sorted(EVERYDAY_PLACES))))
    return PlaceStatement(
        kind=EVERYDAY_PLACES[said] if said else draw(words_of(PlaceKind)),
        said=said,
        site=draw(maybe(st.sampled_from(site_names))) if site_names else None,
        temperature=draw(maybe(quantities(bounds.OutdoorTemperature))),
        humidity=draw(maybe(quantities(bounds.Humidity))),
        in_sun=draw(maybe(st.booleans())),
        windy=draw(maybe(st.booleans())),
        floor_carries=draw(maybe(quantities(bounds.Pressure))),
    )


def sizes() -> SearchStrategy[StackSize]:
    return st.builds(
        StackSize,
        length=quantities(bounds.StackLength),
        width=quantities(bounds.StackWidth),
        boards_apart=maybe(quantities(bounds.SmallLength)),
        next_pile=maybe(quantities(bounds.Position)),
        flue=maybe(quantities(bounds.SmallLength)),
    )


@st.composite
def _laid_out(draw: DrawFn) -> dict[str, Any]:
    """Where sticker lines or bearers lie: a spacing, a count or positions, or nothing said."""
    how = draw(st.sampled_from(["every", "count", "at", "nothing"]))
    if how == "at":
        return {"at": draw(positions())}
    from_ends = {"from_ends": draw(maybe(quantities(bounds.SmallLength)))}
    if how == "every":
        return from_ends | {"every": draw(quantities(bounds.Spacing))}
    if how == "count":
        return from_ends | {"count": draw(st.integers(1, 60))}
    return from_ends


@st.composite
def stickers(draw: DrawFn, wood_names: SearchStrategy[Name]) -> Stickers:
    if draw(st.integers(0, 9)) == 9:
        return Stickers(none=True)
    plywood = draw(st.booleans())
    return Stickers(
        thickness=draw(spans(bounds.StickerThickness)),
        width=draw(maybe(quantities(bounds.StickerWidth))),
        state=draw(maybe(words_of(StickerState))),
        plywood=plywood,
        wood=None if plywood else draw(maybe(wood_names)),
        grooved=draw(st.booleans()),
        out_of_line=draw(st.booleans()),
        length=draw(maybe(quantities(bounds.Spacing))),
        **draw(_laid_out()),
    )


@st.composite
def pads(draw: DrawFn) -> Pads:
    blocks = draw(st.booleans())
    sides = draw(st.sampled_from([0, 2, 3] if blocks else [0, 2]))
    return Pads(blocks=blocks, sides=tuple(draw(quantities(bounds.SectionSide)) for _ in range(sides)))


@st.composite
def bearers(draw: DrawFn, wood_names: SearchStrategy[Name]) -> Bearers:
    kind = draw(words_of(BearerKind))
    if kind is BearerKind.NONE:
        return Bearers(kind=kind)
    carries = draw(maybe(quantities(bounds.Weight)))
    if kind is BearerKind.PALLETS:
        return Bearers(kind=kind, carries=carries)
    section = tuple(draw(st.lists(quantities(bounds.SectionSide), min_size=2, max_size=2)))
    under = draw(maybe(pads()))
    return Bearers(
        kind=kind,
        sides=section,
        wood=draw(maybe(wood_names)) if kind is BearerKind.TIMBER else None,
        pads=under,
        pads_count=draw(maybe(st.integers(1, 12))) if under else None,
        carries=carries,
        **draw(_laid_out()),
    )


@st.composite
def grounds(draw: DrawFn) -> Ground:
    flatness = draw(maybe(words_of(Flatness)))
    uneven = flatness is Flatness.UNEVEN
    return Ground(
        soil=draw(words_of(Soil)),
        flatness=flatness,
        uneven_by=draw(quantities(bounds.SmallLength)) if uneven else None,
        bears=draw(maybe(quantities(bounds.Pressure))),
        wetness=draw(maybe(words_of(Wetness))),
    )


@st.composite
def covers(draw: DrawFn) -> Cover:
    kind = draw(words_of(CoverKind))
    if kind is CoverKind.NONE:
        return Cover(kind=kind)
    length = maybe(quantities(bounds.SmallLength))
    fastening = draw(maybe(words_of(Fastening)))
    return Cover(
        kind=kind,
        overhang_ends=draw(length),
        overhang_sides=draw(length),
        gap=draw(length),
        slope=draw(maybe(slopes())),
        fastening=fastening,
        weight=draw(quantities(bounds.Weight)) if fastening is Fastening.WEIGHTED else None,
        hanging_down=draw(st.booleans()),
    )


def slopes() -> SearchStrategy[float]:
    """Rises of whole inches in a foot, one in so many, and any slope at all."""
    in_a_foot = st.integers(1, 12).map(lambda rise: rise / 12)
    one_in = st.integers(1, 200).map(lambda run: 1 / run)
    return in_a_foot | one_in | figures(0.0, 1.0)


def sides() -> SearchStrategy[Sides]:
    return st.builds(Sides, kind=words_of(SideKind), on_one_side=st.booleans(), on_ends=st.booleans())


def top_loads() -> SearchStrategy[TopLoad]:
    return (
        st.builds(TopLoad, pressure=quantities(bounds.Pressure))
        | st.builds(TopLoad, weight=quantities(bounds.Weight))
        | st.just(TopLoad(straps=True))
    )


@st.composite
def fans(draw: DrawFn) -> Fan:
    removes = draw(maybe(quantities(bounds.WaterRate)))
    if removes and draw(st.booleans()):
        return Fan(removes=removes)
    return Fan(count=draw(st.integers(1, 40)), each=draw(quantities(bounds.AirFlow)), removes=removes)


@st.composite
def wants(draw: DrawFn) -> Want:
    return Want(
        moisture=draw(quantities(bounds.MoistureContent)),
        by=draw(maybe(days())),
        use=draw(maybe(one_of(USES))),
    )


@st.composite
def sizes_wanted(draw: DrawFn, labels: list[Name]) -> Wanted:
    thickness = draw(maybe(quantities(bounds.BoardThickness)))
    return Wanted(
        thickness=thickness,
        width=draw(maybe(quantities(bounds.FinishedWidth)) if thickness else quantities(bounds.FinishedWidth)),
        label=draw(maybe(st.sampled_from(labels))) if labels else None,
    )


@st.composite
def readings(draw: DrawFn, labels: list[Name]) -> Reading:
    return Reading(
        day=draw(days(last=TODAY)),
        moisture=draw(quantities(bounds.MoistureContent)),
        label=draw(maybe(st.sampled_from(labels))) if labels else None,
        taken_from=draw(maybe(words_of(ReadingFrom))),
    )


def waivers() -> SearchStrategy[Waiver]:
    return st.builds(Waiver, rule=one_of(RULES), reason=maybe(texts()), until=maybe(days()))


@st.composite
def settings(draw: DrawFn) -> Setting:
    """How a kiln runs. The wet bulb stands no higher than the dry one."""
    dry = draw(quantities(bounds.KilnTemperature))
    if draw(st.booleans()):
        return Setting(dry_bulb=dry, humidity=draw(quantities(bounds.Humidity)))
    wet = draw(quantities(bounds.KilnTemperature))
    wet, dry = sorted((wet, dry), key=lambda temperature: temperature.si)
    return Setting(dry_bulb=dry, wet_bulb=wet)


@st.composite
def baffles(draw: DrawFn) -> Baffles:
    closed = draw(st.sets(st.sampled_from(["top", "ends", "floor"]), min_size=1))
    return Baffles(**dict.fromkeys(closed, True))
