"""Reads the statements of the blocks that stacks share: sites, kilns and woods."""

from __future__ import annotations

from types import MappingProxyType

from stacklint.faults import FaultKind, Measure
from stacklint.language import choices
from stacklint.language.complaints import quote
from stacklint.language.details import Details, Fields, figure_in, read_details, text_of
from stacklint.language.line import Line, plain, tokens_of, words_of
from stacklint.language.nearest import listed, nearest
from stacklint.language.numbers import whole
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.language.shelter import MOST_FANS
from stacklint.plan.node import Name, Node
from stacklint.plan.yard import Inside, Kiln, Month, Spots, Stock, StockKind, WoodStatement
from stacklint.units import NUMBER

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_FULL_MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
_LIGHTEST, _HEAVIEST = 0.1, 1.3
"""Specific gravity: balsa is about 0.15 and the heaviest woods about 1.2 (common practice, no source)."""
MOST_IN_STOCK = 1_000_000
MOST_SPOTS = 10_000
_NAMELESS = Name(text="")

Values = dict[str, object]


def read_near(line: Line, head: Branch) -> Values:
    return {"near": line.name(tokens_of(head, "STRING")[0])}


def read_month(line: Line, head: Branch) -> Values:
    word, temperature, humidity = tokens_of(head, "WORD", "TEMPERATURE", "PERCENT")
    said = word.text.lower().rstrip(".")
    number = next(
        (index for index, pair in enumerate(zip(MONTHS, _FULL_MONTHS, strict=True), 1) if said in (*pair, pair[1][:4])),
        None,
    )
    if number is None:
        close = nearest(said, (*MONTHS, *_FULL_MONTHS))
        line.fault(
            line.at(word), f"{quote(word.text)} is not a month.", f"Write {close[0] if close else listed(MONTHS)}."
        )
        return {}
    values: Values = {
        "number": number,
        "temperature": line.quantity(temperature),
        "humidity": line.quantity(humidity),
    }
    return {"months": line.build(Month, line.whole(), values)}


def read_spots(line: Line, head: Branch) -> Values:
    count = whole(line, tokens_of(head, "FIGURE")[0], MOST_SPOTS, "spots")
    return {"spots": line.build(Spots, line.whole(), {"count": count})} if count is not None else {}


def read_stock(line: Line, head: Branch) -> Values:
    kind = StockKind.STICKERS if tokens_of(head, "STICKERS") else StockKind.BEARERS
    count = whole(line, tokens_of(head, "FIGURE")[0], MOST_IN_STOCK, kind.value)
    if count is None:
        return {}
    values: Values = {"kind": kind, "count": count}
    for token in tokens_of(head, "LENGTH"):
        values["length"] = line.quantity(token)
    return {"stock": line.build(Stock, line.whole(), values)}


def read_kiln_type(line: Line, head: Branch) -> Values:
    phrase = head.children[-1]
    kind = choices.KILN_TYPES.get(plain(phrase)) or choices.KILN_TYPES.get(plain(phrase).removesuffix(" kiln"))
    if kind is None:
        close = nearest(plain(phrase), choices.KILN_TYPES)
        standard = [kind.value for kind in dict.fromkeys(choices.KILN_TYPES.values())]
        line.fault(
            line.over(phrase),
            f"{quote(text_of(line, phrase))} is not a type of kiln that is known here.",
            f"Write {listed(close or standard)}.",
        )
    return {"type": kind}


def read_inside(line: Line, head: Branch) -> Values:
    lengths = [line.quantity(token) for token in tokens_of(head, "LENGTH")]
    values = dict(zip(("length", "width", "height"), lengths, strict=True))
    return {"inside": line.build(Inside, line.whole(), dict(values))}


def read_kiln_figure(field: str, line: Line, head: Branch) -> Values:
    token = figure_in(head)
    assert token is not None
    return _fitting(line, Kiln, {field: line.quantity(token)})


def read_kiln_fans(line: Line, head: Branch) -> Values:
    values: Values = {}
    count = whole(line, tokens_of(head, "FIGURE")[0], MOST_FANS, "fans")
    if count is not None:
        values["fan_count"] = count
    for token in tokens_of(head, "FLOW"):
        values["fan_each"] = line.quantity(token)
    return _fitting(line, Kiln, values)


def read_like(line: Line, head: Branch) -> Values:
    wood = head.children[-1]
    return {"like": Name(where=line.over(wood), text=words_of(wood))}


def read_gravity(line: Line, head: Branch) -> Values:
    token = tokens_of(head, "FIGURE")[0]
    if not _LIGHTEST <= token.number <= _HEAVIEST:
        low = token.number < _LIGHTEST
        line.fault(
            line.at(token),
            f"No wood has a specific gravity of {quote(token.text)}: it lies between {_LIGHTEST} and {_HEAVIEST}.",
            "Write the oven-dry mass over the green volume, water being 1.",
            FaultKind.VALUE_OUT_OF_RANGE,
            Measure(token.number, NUMBER) if abs(token.number) < float("inf") else None,
            Measure(_LIGHTEST if low else _HEAVIEST, NUMBER),
        )
        return {}
    return {"specific_gravity": token.number}


def read_wood_figure(field: str, line: Line, head: Branch) -> Values:
    token = figure_in(head)
    assert token is not None
    return _fitting(line, WoodStatement, {field: line.quantity(token)})


def read_source(head: Branch) -> Values:
    return {"source": words_of(tokens_of(head, "STRING")[0])}


def read_stiffness(line: Line, head: Branch | None, details: list[Branch]) -> Values:
    return _figures_of(line, "stiffness", head, details, _STIFFNESS, "pressure_of", _STIFFNESS_FIELDS)


def read_shrinkage(line: Line, head: Branch | None, details: list[Branch]) -> Values:
    return _figures_of(line, "shrinks", head, details, _SHRINKS, "percent_of", _SHRINKS_FIELDS)


def _figures_of(
    line: Line,
    keyword: str,
    head: Branch | None,
    details: list[Branch],
    table: Details,
    kind: str,
    names: MappingProxyType[str, str],
) -> Values:
    """``4% radial, 6% tangential``: figures that a word behind them tells apart."""
    fields = Fields(line)
    ours = [detail for detail in details if detail.data == kind]
    read_details(fields, keyword, [detail for detail in details if detail.data != kind], table)
    for branch in ([head] if head is not None else []) + ours:
        figure, word = branch.children[-2:]
        assert isinstance(figure, Token) and isinstance(word, Token)
        name = names.get(word.text.lower())
        if name is None:
            close = nearest(word.text, names)
            line.fault(
                line.at(word), f"{quote(word.text)} is not known here.", f"Write {listed(close or tuple(names))}."
            )
            continue
        fields.put(name, line.quantity(figure), branch)
    return _fitting(line, WoodStatement, fields.values)


def _fitting(line: Line, kind: type[Node], values: Values) -> Values:
    """The values that a block of this kind accepts; the others are reported."""
    node = line.build(kind, line.whole(), {"name": _NAMELESS, **values})
    return {name: value for name, value in values.items() if node is not None and getattr(node, name) is not None}


_STIFFNESS_FIELDS = MappingProxyType({"green": "stiffness_green", "dry": "stiffness_dry"})
_SHRINKS_FIELDS = MappingProxyType(
    {"radial": "shrinkage_radial", "tangential": "shrinkage_tangential", "volumetric": "shrinkage_volumetric"}
)
_STIFFNESS = Details(takes=("1,330,000 psi green", "1,660,000 psi dry"))
_SHRINKS = Details(takes=("4% radial", "6% tangential", "9% volumetric"))
