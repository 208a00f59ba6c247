"""Reads what a stack rests on and what parts its courses: stack, stickers, bearers, ground, clearance."""

from __future__ import annotations

from types import MappingProxyType

from stacklint.language import choices
from stacklint.language.complaints import bare_number
from stacklint.language.details import Details, Fields, figure_in, name_after, read_details, sides, text_of
from stacklint.language.line import Line, plain, tokens_of, words_of
from stacklint.language.nearest import listed, nearest
from stacklint.language.numbers import whole
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Clearance, StackSize
from stacklint.plan.supports import BearerKind, Bearers, Flatness, Ground, Pads, Stickers

MOST_LINES = 1000
"""No stack has more sticker lines, bearers or pads."""


def read_stack(line: Line, details: list[Branch]) -> StackSize | None:
    fields = Fields(line)
    read_details(fields, "stack", details, STACK)
    for needed in ("length", "width"):
        if needed not in fields.values and not line.spoiled:
            line.fault(line.whole(), f"The stack's {needed} is missing.", "Write length x width: stack 16 ft x 4 ft.")
    return line.build(StackSize, line.whole(), fields.values)


def _stack_section(fields: Fields, detail: Branch) -> None:
    section = _section_of(detail)
    if len(tokens_of(section, "TIMES")) != 1:
        fields.line.fault(
            fields.line.over(detail), "A stack has a length and a width.", "Write both: stack 16 ft x 4 ft."
        )
        return
    read = sides(fields.line, section, timber=False)
    if read is None:
        return
    for name, side in zip(("length", "width"), read, strict=True):
        if isinstance(side, Quantity):
            fields.put(name, side, detail)
        else:
            fields.line.fault(side.where, "A stack has one length and one width.", "Write one figure.")


def read_stickers(line: Line, details: list[Branch]) -> Stickers | None:
    fields = Fields(line)
    read_details(fields, "stickers", details, STICKERS)
    return line.build(Stickers, line.whole(), fields.values)


def _sticker_section(fields: Fields, detail: Branch) -> None:
    if _goes_on_at(fields, detail):
        return
    read = sides(fields.line, _section_of(detail))
    if read is None:
        return
    if len(read) > 2:
        fields.line.fault(
            fields.line.over(detail),
            "Stickers have a thickness and a width here.",
            "Write 3/4 in x 1 1/4 in, and the length as a detail of its own: 4 ft long.",
        )
        return
    fields.put("thickness", read[0], detail)
    if len(read) == 2:
        fields.put("width", read[1], detail)


def _sticker_section_of(fields: Fields, detail: Branch) -> None:
    _sticker_section(fields, detail)
    _sticker_wood(fields, detail)


def _sticker_wood(fields: Fields, detail: Branch) -> None:
    wood = detail.children[-1]
    if plain(wood) == "plywood":
        fields.put("plywood", True, wood)
    else:
        fields.put("wood", Name(where=fields.line.over(wood), text=words_of(wood)), wood)


def _count(fields: Fields, detail: Branch) -> None:
    count = whole(fields.line, tokens_of(detail, "FIGURE")[0], MOST_LINES, "lines")
    if count is not None:
        _spaced(fields, "count", count, detail)


def _every(fields: Fields, detail: Branch) -> None:
    token = figure_in(detail)
    if token is not None:
        _spaced(fields, "every", fields.line.quantity(token), detail)


def _at(fields: Fields, detail: Branch) -> None:
    token = figure_in(detail)
    if token is not None:
        _spaced(fields, "at", (fields.line.quantity(token),), detail)


def _spaced(fields: Fields, name: str, value: object, detail: Branch) -> None:
    """One of ``every``, ``count`` and ``at``, which all say the same thing in their ways."""
    if any(other in fields.values for other in ("every", "count", "at")):
        fields.line.fault(
            fields.line.over(detail),
            "The spacing is said twice.",
            "Keep one of: a spacing (every 24 in), a count, positions (at 1 in, 2 ft, 4 ft).",
        )
        return
    fields.put(name, value, detail)


def _goes_on_at(fields: Fields, detail: Branch) -> bool:
    """Whether a bare figure is one more position after ``at``; if so it is taken."""
    section = _section_of(detail)
    if fields.listing != "at" or len(section.children) != 1:
        return False
    token = section.children[0]
    if not isinstance(token, Token):
        return False
    if token.unit is None:
        fields.line.fault(fields.line.at(token), *bare_number(token.text))
        return True
    positions = fields.values.get("at", ())
    assert isinstance(positions, tuple)
    fields.values["at"] = (*positions, fields.line.quantity(token))
    return True


def _section_of(detail: Branch) -> Branch:
    """The section in a detail: the detail's own, not that of the pads."""
    return next(child for child in detail.children if not isinstance(child, Token) and child.data == "section")


def read_bearers(line: Line, details: list[Branch]) -> Bearers | None:
    fields = Fields(line)
    read_details(fields, "bearers", details, BEARERS)
    return line.build(Bearers, line.whole(), fields.values)


def _bearer_words(fields: Fields, detail: Branch) -> None:
    kind = choices.BEARERS.get(plain(detail.children[0]))
    if kind is not None:
        fields.put("kind", kind, detail.children[0])
        return
    said = text_of(fields.line, detail.children[0])
    close = nearest(said, (*choices.BEARERS, "every", "at", "on", "carries", "of"))
    fields.line.fault(
        fields.line.over(detail.children[0]),
        f"{said} is not a detail of the statement bearers.",
        f"Write {close[0]}." if close else f"It takes {listed(BEARERS.takes)}.",
    )


def _bearer_section(fields: Fields, detail: Branch) -> None:
    if _goes_on_at(fields, detail):
        return
    read = sides(fields.line, _section_of(detail))
    if read is None:
        return
    if len(read) > 2 or not all(isinstance(side, Quantity) for side in read):
        fields.line.fault(fields.line.over(detail), "A bearer's section has a width and a depth.", "Write 4 in x 6 in.")
        return
    fields.put("sides", tuple(read), detail)


def _bearer_named(fields: Fields, detail: Branch) -> None:
    _bearer_words(fields, detail)
    _bearer_section(fields, detail)


def _bearer_section_of(fields: Fields, detail: Branch) -> None:
    """``4 in x 6 in of white oak``, or ``3 of them``."""
    if plain(detail.children[-1]) == "them":
        section = _section_of(detail)
        number = section.children[0]
        if len(section.children) == 1 and isinstance(number, Token):
            count = whole(fields.line, number, MOST_LINES, "bearers")
            if count is not None:
                _spaced(fields, "count", count, detail)
            return
    if detail.data == "named_section_of":
        _bearer_words(fields, detail)
    _bearer_section(fields, detail)
    _bearer_of(fields, detail)


def _bearer_of(fields: Fields, detail: Branch) -> None:
    wood = detail.children[-1]
    kind = choices.BEARERS.get(plain(wood))
    if kind is BearerKind.STEEL:
        fields.put("kind", kind, wood)
    else:
        fields.put("wood", Name(where=fields.line.over(wood), text=name_after(detail)), wood)


def _pads(fields: Fields, detail: Branch) -> None:
    line = fields.line
    words = next(token for token in detail.children if isinstance(token, Token) and token.type == "PADS")
    blocks = words.text.lower().startswith("block")
    sections = [child for child in detail.children if not isinstance(child, Token) and child.data == "section"]
    for child in detail.children:
        if not isinstance(child, Token) and child.data == "phrase" and plain(child) not in _PAD_WORDS:
            line.fault(
                line.over(child),
                f"{words_of(child)} is not a kind of {'block' if blocks else 'pad'} that is known here.",
                "Write concrete or cinder, or leave the word out.",
            )
    count = _pads_count(line, sections)
    if count is not None:
        fields.put("pads_count", count, sections.pop(0))
    read = sides(line, sections[0]) if sections else []
    if read is None:
        return
    pads = line.build(Pads, line.over(detail), {"blocks": blocks, "sides": tuple(read)})
    if pads is not None:
        fields.put("pads", pads, detail)


_PAD_WORDS = frozenset(
    {"cinder", "concrete", "hollow", "masonry", "patio", "solid", "solid concrete", "hollow concrete"}
)


def _pads_count(line: Line, sections: list[Branch]) -> int | None:
    """The 3 of ``on 3 pads``: a section that is one bare number."""
    if not sections or len(sections[0].children) != 1:
        return None
    number = sections[0].children[0]
    if not isinstance(number, Token) or number.type != "FIGURE":
        return None
    return whole(line, number, MOST_LINES, "pads")


def _carries(fields: Fields, detail: Branch) -> None:
    token = figure_in(detail)
    assert token is not None
    if token.type != "MASS":
        fields.line.fault(
            fields.line.at(token), "What the bearers carry is said as a weight.", "Write carries 4000 lb."
        )
        return
    fields.put("carries", fields.line.quantity(token), detail)


def read_ground(line: Line, details: list[Branch]) -> Ground | None:
    fields = Fields(line)
    read_details(fields, "ground", details, GROUND)
    return line.build(Ground, line.whole(), fields.values)


def _uneven(fields: Fields, detail: Branch) -> None:
    fields.put("flatness", Flatness.UNEVEN, detail)
    token = figure_in(detail)
    if token is not None:
        fields.put("uneven_by", fields.line.quantity(token), detail)


def read_clearance(line: Line, head: Branch) -> Clearance | None:
    token = figure_in(head)
    assert token is not None
    return line.build(Clearance, line.whole(), {"height": line.quantity(token)})


STACK = Details(
    takes=("a size such as 16 ft x 4 ft", "boards 1 in apart", "next pile 3 ft away", "flue 8 in"),
    figures=MappingProxyType(
        {"boards_apart": "boards_apart", "next_pile": "next_pile", "flue": "flue", "long": "length", "wide": "width"}
    ),
    readers=MappingProxyType({"section": _stack_section}),
)
STICKERS = Details(
    takes=(
        "a size such as 3/4 in x 1 1/4 in",
        "every 24 in",
        "7 a course",
        "at 1 in, 2 ft, 4 ft",
        "1 in from ends",
        "4 ft long",
        "of plywood",
        "dry, green or wet",
        "grooved",
        "out of line",
        "none",
    ),
    words=choices.STICKERS,
    figures=MappingProxyType({"from_ends": "from_ends", "long": "length", "wide": "width", "thick": "thickness"}),
    readers=MappingProxyType(
        {
            "section": _sticker_section,
            "section_of": _sticker_section_of,
            "of": _sticker_wood,
            "every": _every,
            "each_course": _count,
            "at": _at,
        }
    ),
)
BEARERS = Details(
    takes=(
        "a section such as 4 in x 6 in of white oak",
        "steel",
        "pallets",
        "none",
        "every 24 in",
        "3 of them",
        "at 1 ft, 5 ft",
        "1 ft from ends",
        "on 8 in x 16 in pads",
        "carries 4000 lb",
    ),
    figures=MappingProxyType({"from_ends": "from_ends"}),
    readers=MappingProxyType(
        {
            "words": _bearer_words,
            "section": _bearer_section,
            "named_section": _bearer_named,
            "section_of": _bearer_section_of,
            "named_section_of": _bearer_section_of,
            "of": _bearer_of,
            "every": _every,
            "at": _at,
            "on_pads": _pads,
            "carries": _carries,
        }
    ),
)
GROUND = Details(
    takes=(
        "gravel, concrete, grass, bare soil, clay, soft clay or sand",
        "flat, twisted or sloped",
        "uneven 1 in",
        "damp or drained",
        "bears 2000 psf",
    ),
    words=choices.GROUND,
    figures=MappingProxyType({"bears": "bears"}),
    readers=MappingProxyType({"uneven": _uneven}),
)
