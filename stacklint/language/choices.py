"""The words that statements take, each with what it says. Everyday words beside the standard ones."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType

from stacklint.plan.boards import Face, MoistureWord
from stacklint.plan.shelter import CoverKind, EndCoat, Fastening, PlaceKind, SideKind
from stacklint.plan.stack import ReadingFrom
from stacklint.plan.supports import BearerKind, Flatness, Soil, StickerState, Wetness
from stacklint.plan.yard import KilnType

Words = Mapping[str, tuple[tuple[str, object], ...]]


def _choice(name: str, *choices: type[Enum] | tuple[Enum, str]) -> dict[str, tuple[tuple[str, object], ...]]:
    """Words that set the field ``name``: every member of an enum by its value, or one by further spellings.

    The scanner passes over "the", so the spellings are without it.
    """
    words: dict[str, tuple[tuple[str, object], ...]] = {}
    for choice in choices:
        if isinstance(choice, tuple):
            member, spellings = choice
            words.update(dict.fromkeys(spellings.split("|"), ((name, member),)))
        else:
            words.update({str(member.value).replace("the ", ""): ((name, member),) for member in choice})
    return words


def _flag(name: str, spellings: str, value: object = True) -> dict[str, tuple[tuple[str, object], ...]]:
    return dict.fromkeys(spellings.split("|"), ((name, value),))


BOARDS: Words = MappingProxyType(
    _choice(
        "moisture",
        MoistureWord,
        (MoistureWord.GREEN, "wet off saw|wet off of saw|dead green|fresh sawn|freshly sawn|fresh off saw|off saw"),
        (MoistureWord.AIR_DRIED, "ad|air dry|shed dried"),
        (MoistureWord.KILN_DRIED, "kd|kiln dry"),
    )
    | _choice(
        "face",
        Face,
        (Face.FLAT, "flat sawn|plainsawn|plain sawn|slab sawn|through and through"),
        (Face.QUARTER, "quarter sawn"),
        (Face.RIFT, "rift sawn"),
    )
    | _flag("live_edge", "live edge|live edges|live edged|waney edge|waney edged|unedged")
    | _flag("boxed_heart", "boxed heart")
    | _flag("squares", "squares")
)
PLACES: Mapping[str, PlaceKind] = MappingProxyType(
    {kind.value: kind for kind in PlaceKind}
    | dict.fromkeys(("yard", "outdoors", "outside", "open air", "field", "lot"), PlaceKind.OPEN_YARD)
    | dict.fromkeys(
        ("shed", "pole barn", "lean to", "carport", "porch", "open barn", "open sided shed", "pole shed", "awning"),
        PlaceKind.OPEN_SHED,
    )
    | dict.fromkeys(("barn", "barn loft", "hay loft", "loft", "closed shed", "hayloft"), PlaceKind.CLOSED_BARN)
    | dict.fromkeys(("shipping container",), PlaceKind.CONTAINER)
    | dict.fromkeys(("cellar",), PlaceKind.BASEMENT)
    | dict.fromkeys(("polytunnel", "hoop house"), PlaceKind.GREENHOUSE)
    | dict.fromkeys(("shop", "workshop", "heated room", "heated workshop", "house"), PlaceKind.HEATED_SHOP)
    | dict.fromkeys(("kiln chamber", "drying room"), PlaceKind.KILN)
)
PLACE: Words = MappingProxyType(
    _flag("in_sun", "in sun|sun|sunny|full sun|in full sun")
    | _flag("in_sun", "in shade|shade|shaded|shady", False)
    | _flag("windy", "windy|exposed")
    | _flag("windy", "sheltered", False)
)
STICKERS: Words = MappingProxyType(
    _choice("state", StickerState, (StickerState.DRY, "kiln dried|kiln dry|air dried|air dry|kd|ad"))
    | _flag("none", "none|no stickers|solid|piled solid|dead stacked|dead piled")
    | _flag("plywood", "plywood")
    | _flag("grooved", "grooved")
    | _flag("out_of_line", "out of line")
)
BEARERS: Mapping[str, BearerKind] = MappingProxyType(
    {kind.value: kind for kind in BearerKind}
    | {"timbers": BearerKind.TIMBER, "pallet": BearerKind.PALLETS, "steel beams": BearerKind.STEEL}
)
GROUND: Words = MappingProxyType(
    _choice(
        "soil",
        Soil,
        (Soil.GRAVEL, "crushed stone|stone|crushed rock"),
        (Soil.CONCRETE, "slab|concrete slab"),
        (Soil.GRASS, "sod|turf"),
        (Soil.BARE_SOIL, "soil|dirt|earth|bare earth|bare dirt"),
    )
    | _choice("flatness", (Flatness.FLAT, "flat|level"), (Flatness.TWISTED, "twisted"))
    | _choice("flatness", (Flatness.SLOPED, "sloped|sloping"))
    | _choice("wetness", Wetness, (Wetness.DAMP, "wet|boggy"), (Wetness.DRAINED, "well drained|dry"))
)
COVER: Words = MappingProxyType(
    _choice(
        "kind",
        CoverKind,
        (CoverKind.NONE, "no cover|nothing"),
        (CoverKind.SHEET_METAL, "metal|tin|metal sheets|corrugated metal|roofing metal|metal roofing|corrugated iron"),
        (CoverKind.ROOF_PANELS, "roof panel|panels"),
        (CoverKind.BOARDS, "slabs"),
        (CoverKind.TARP, "tarpaulin|tarps"),
    )
    | _choice("fastening", (Fastening.TIED, "tied|tied down|strapped"), (Fastening.UNTIED, "untied|loose"))
    | _flag("hanging_down", "hanging down|hanging")
)
SIDES: Words = MappingProxyType(
    _choice("kind", SideKind, (SideKind.OPEN, "none"), (SideKind.SHADE_CLOTH, "shadecloth|shade net|burlap"))
    | _flag("on_one_side", "on one side|one side")
    | _flag("on_ends", "on ends|on end")
    | {"on both sides": ()}
)
ENDS: Words = MappingProxyType(
    _choice(
        "coat",
        EndCoat,
        (EndCoat.COATED, "sealed|waxed|end coated"),
        (EndCoat.COATED_AT_SAW, "coated at mill|sealed at saw"),
        (EndCoat.BARE, "uncoated|unsealed"),
    )
)
WIND: Words = MappingProxyType(
    _flag("across", "across|across boards|crosses boards") | _flag("across", "along|along boards", False)
)
TOP_LOAD: Words = MappingProxyType(_flag("straps", "straps|ratchet straps|strapped"))
BAFFLES: Words = MappingProxyType(
    _flag("top", "top") | _flag("ends", "ends") | _flag("floor", "floor") | {"none": (), "no baffles": ()}
)
READING: Words = MappingProxyType(
    _choice(
        "taken_from",
        ReadingFrom,
        (ReadingFrom.OUTER_BOARDS, "outer board|outside boards|outer"),
        (ReadingFrom.CORE, "in core|middle|middle boards"),
    )
)
KILN_TYPES: Mapping[str, KilnType] = MappingProxyType(
    {kind.value: kind for kind in KilnType}
    | dict.fromkeys(("dh", "dehumidifier", "dehumidifying"), KilnType.DEHUMIDIFICATION)
    | dict.fromkeys(("conventional", "steam", "vent"), KilnType.VENTED)
)
