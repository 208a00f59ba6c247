"""Reads where a stack stands and what shelters it: place, cover, sides, ends, wind, top load, fan, baffles."""

from __future__ import annotations

from types import MappingProxyType

from stacklint.faults import FaultKind
from stacklint.language import choices
from stacklint.language.complaints import quote
from stacklint.language.details import Details, Fields, figure_in, read_details, text_of
from stacklint.language.line import Line, Made, plain, tokens_of, words_of
from stacklint.language.nearest import listed, nearest
from stacklint.language.numbers import whole
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.plan.shelter import Cover, Ends, Fan, Fastening, PlaceKind, PlaceStatement, Sides, TopLoad, WindAcross
from stacklint.plan.stack import Baffles

MOST_FANS = 1000
_STANDARD_PLACES = tuple(kind.value for kind in PlaceKind)


def read_place(line: Line, details: list[Branch]) -> PlaceStatement | None:
    fields = Fields(line)
    read_details(fields, "place", details, PLACE)
    if "kind" not in fields.values and not line.spoiled:
        line.fault(line.whole(), "What kind of place is it?", f"Write one of {listed(_STANDARD_PLACES)}.")
    return line.build(PlaceStatement, line.whole(), fields.values)


def _place_words(fields: Fields, detail: Branch) -> None:
    phrase = plain(detail)
    kind = choices.PLACES.get(phrase)
    if kind is not None:
        fields.put("kind", kind, detail)
        if phrase != kind.value:
            fields.values.setdefault("said", words_of(detail).lower())
        return
    for name, value in choices.PLACE.get(phrase, ()):
        fields.put(name, value, detail)
    if phrase in choices.PLACE:
        return
    said = quote(text_of(fields.line, detail))
    if "kind" in fields.values:
        close = nearest(phrase, choices.PLACE)
        instead = f"Write {close[0]}." if close else f"It takes {listed(PLACE.takes)}."
        fields.line.fault(fields.line.over(detail), f"{said} is not a detail of the statement place.", instead)
        return
    close = nearest(phrase, choices.PLACES, 3)
    fields.line.fault(
        fields.line.over(detail),
        f"{said} is not a kind of place that is known here.",
        f"Write {listed(close)}." if close else f"Write one of {listed(_STANDARD_PLACES)}.",
        FaultKind.UNKNOWN_PLACE,
    )


def _air(fields: Fields, detail: Branch) -> None:
    for name, token in zip(("temperature", "humidity"), detail.children, strict=False):
        assert isinstance(token, Token)
        fields.put(name, fields.line.quantity(token), token)


def _site(fields: Fields, detail: Branch) -> None:
    token = tokens_of(detail, "STRING")[0]
    fields.put("site", fields.line.name(token), token)


def read_cover(line: Line, details: list[Branch]) -> Cover | None:
    fields = Fields(line)
    read_details(fields, "cover", details, COVER)
    if "kind" not in fields.values and not line.spoiled:
        kinds = listed(kind for kind in ("none", "sheet metal", "plywood", "boards", "roof panels", "tarp"))
        line.fault(line.whole(), "What is the cover made of?", f"Write one of {kinds}.")
    return line.build(Cover, line.whole(), fields.values)


def _overhang(fields: Fields, detail: Branch) -> None:
    token = figure_in(detail)
    assert token is not None
    quantity = fields.line.quantity(token)
    fields.put("overhang_ends", quantity, detail)
    fields.values.setdefault("overhang_sides", quantity)


def _slope(fields: Fields, detail: Branch) -> None:
    token = detail.children[-1]
    assert isinstance(token, Token)
    if token.type == "PERCENT":
        slope = token.number / 100
    else:
        rise, run = (float(part) for part in token.text.lower().replace(":", "in").split("in"))
        slope = rise / run if run else float("inf")
    if slope > 2:
        fields.line.fault(
            fields.line.at(token),
            f"A cover that rises {quote(token.text)} is a wall.",
            "Write rise in run, such as 1 in 12.",
            FaultKind.VALUE_OUT_OF_RANGE,
        )
        return
    fields.put("slope", slope, detail)


def _weighted(fields: Fields, detail: Branch) -> None:
    fields.put("fastening", Fastening.WEIGHTED, detail)
    token = figure_in(detail)
    if token is not None:
        fields.put("weight", fields.line.quantity(token), detail)


def read_sides(line: Line, details: list[Branch]) -> Sides | None:
    return _one_choice(line, "sides", details, SIDES, Sides)


def read_ends(line: Line, details: list[Branch]) -> Ends | None:
    return _one_choice(line, "ends", details, ENDS, Ends)


def read_wind(line: Line, details: list[Branch]) -> WindAcross | None:
    return _one_choice(line, "wind", details, WIND, WindAcross)


def _one_choice(line: Line, keyword: str, details: list[Branch], table: Details, kind: type[Made]) -> Made | None:
    fields = Fields(line)
    read_details(fields, keyword, details, table)
    if not fields.values or (kind is Sides and "kind" not in fields.values):
        if not line.spoiled:
            line.fault(line.whole(), f"What are the {keyword}?", f"It takes {listed(table.takes)}.")
        return None
    return line.build(kind, line.whole(), fields.values)


def read_top_load(line: Line, details: list[Branch]) -> TopLoad | None:
    fields = Fields(line)
    read_details(fields, "top load", details, TOP_LOAD)
    if len(fields.values) > 1:
        line.fault(line.over(details[-1]), "The top load is said twice.", "Keep one: a pressure, a weight or straps.")
        first = next(iter(fields.values))
        fields.values = {first: fields.values[first]}
    return line.build(TopLoad, line.whole(), fields.values) if fields.values else None


def read_fan(line: Line, details: list[Branch]) -> Fan | None:
    fields = Fields(line)
    read_details(fields, "fan", details, FAN)
    return line.build(Fan, line.whole(), fields.values) if fields.values else None


def fan_count(line: Line, detail: Branch) -> int | None:
    """The count of a detail such as ``2 of 1500 cfm`` or ``2``."""
    section = detail.children[0]
    number = section if isinstance(section, Token) else section.children[0]
    if isinstance(section, Token) or len(section.children) == 1:
        assert isinstance(number, Token) or number.data == "range"
        if isinstance(number, Token) and number.type == "FIGURE":
            return whole(line, number, MOST_FANS, "fans")
    line.fault(line.over(section), "How many fans?", "Write the number and the air that each moves: 2 of 1500 cfm.")
    return None


def _fans(fields: Fields, detail: Branch) -> None:
    count = fan_count(fields.line, detail)
    if count is not None:
        fields.put("count", count, detail.children[0])
    token = figure_in(detail)
    if token is not None:
        fields.put("each", fields.line.quantity(token), token)


def read_baffles(line: Line, details: list[Branch]) -> Baffles | None:
    fields = Fields(line)
    read_details(fields, "baffles", details, BAFFLES)
    return line.build(Baffles, line.whole(), fields.values)


def _floor(fields: Fields, detail: Branch) -> None:
    fields.put("floor", True, detail)


PLACE = Details(
    takes=('site "..."', "60 F 45%", "in the sun", "in the shade", "windy", "sheltered", "floor carries 40 psf"),
    figures=MappingProxyType({"floor_carries": "floor_carries", "percent": "humidity"}),
    readers=MappingProxyType({"words": _place_words, "on": _place_words, "air": _air, "site": _site}),
)
COVER = Details(
    takes=(
        "none, sheet metal, plywood, boards, roof panels or tarp",
        "overhang 12 in",
        "gap 4 in",
        "slope 1 in 12",
        "tied",
        "untied",
        "weighted 200 lb",
        "hanging down",
    ),
    words=choices.COVER,
    figures=MappingProxyType({"gap": "gap", "overhang_ends": "overhang_ends", "overhang_sides": "overhang_sides"}),
    readers=MappingProxyType({"overhang": _overhang, "slope": _slope, "weighted": _weighted}),
)
SIDES = Details(takes=("open", "shade cloth", "boards", "plastic", "on one side", "on the ends"), words=choices.SIDES)
ENDS = Details(takes=("coated", "coated at the saw", "coated late", "painted", "bare"), words=choices.ENDS)
WIND = Details(takes=("across", "along"), words=choices.WIND)
TOP_LOAD = Details(
    takes=("a pressure such as 50 psf", "a weight such as 600 lb", "straps"),
    words=choices.TOP_LOAD,
    figures=MappingProxyType({"pressure": "pressure", "mass": "weight"}),
    bare="PRESSURE",
)
FAN = Details(
    takes=("2 of 1500 cfm", "removes 30 pt/day"),
    figures=MappingProxyType({"removes": "removes"}),
    readers=MappingProxyType({"fans": _fans, "section": _fans}),
)
BAFFLES = Details(
    takes=("top", "ends", "floor", "none"),
    words=choices.BAFFLES,
    readers=MappingProxyType({"floor": _floor}),
)
