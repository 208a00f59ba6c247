"""Reads what is wanted of a stack, what is waived, and how a charge is run."""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType

from stacklint.language.complaints import quote
from stacklint.language.details import Details, Fields, figure_in, read_details, text_of
from stacklint.language.line import Line, tokens_of, words_of
from stacklint.language.nearest import listed
from stacklint.language.numbers import MOST_PIECES, day, whole
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.plan.node import Name
from stacklint.plan.stack import Day, FanHours, Hold, Said, Setting, TakenPart, Taking, Waiver, Want, Wanted


def read_day(line: Line, head: Branch) -> Day | None:
    return day(line, tokens_of(head, "DATE")[0])


def read_want(line: Line, head: Branch | None, details: list[Branch]) -> Want | None:
    fields = Fields(line)
    for wish in head.children[1:] if head is not None else ():
        if isinstance(wish, Token):
            fields.put("moisture", line.quantity(wish), wish)
        else:
            read_details(fields, "want", [wish], _WANT)
    read_details(fields, "want", details, _WANT)
    return line.build(Want, line.whole(), fields.values) if fields.values else None


def _moisture(fields: Fields, detail: Branch) -> None:
    token = figure_in(detail)
    assert token is not None
    fields.put("moisture", fields.line.quantity(token), detail)


def _by(fields: Fields, detail: Branch) -> None:
    date = day(fields.line, tokens_of(detail, "DATE")[0])
    if date is not None:
        fields.put("by", date, detail)


def _use(fields: Fields, detail: Branch) -> None:
    phrase = detail.children[-1]
    fields.put("use", Name(where=fields.line.over(phrase), text=words_of(phrase)), detail)


_WANT = Details(
    takes=("12%", "by 2027-02-01", "for flooring"),
    readers=MappingProxyType({"percent": _moisture, "by": _by, "for_use": _use}),
)


def read_wanted(line: Line, details: list[Branch]) -> Wanted | None:
    fields = Fields(line)
    read_details(fields, "wanted", details, WANTED)
    if {"thickness", "width"}.isdisjoint(fields.values):
        if not line.spoiled:
            line.fault(line.whole(), "What size is wanted?", f"It takes {listed(WANTED.takes)}.")
        return None
    return line.build(Wanted, line.whole(), fields.values)


def _size_of_group(field: str) -> Callable[[Fields, Branch], None]:
    """Reads ``13/16 in thick of a``."""

    def read(fields: Fields, detail: Branch) -> None:
        token = figure_in(detail)
        assert token is not None
        fields.put(field, fields.line.quantity(token), detail)
        label = tokens_of(detail, "WORD")[0]
        fields.put("label", fields.line.name(label), label)

    return read


def _group(fields: Fields, detail: Branch) -> None:
    wood = detail.children[-1]
    fields.put("label", Name(where=fields.line.over(wood), text=words_of(wood)), wood)


WANTED = Details(
    takes=("13/16 in thick", "5 in wide", "of a"),
    figures=MappingProxyType({"thick": "thickness", "wide": "width"}),
    readers=MappingProxyType(
        {"thick_of": _size_of_group("thickness"), "wide_of": _size_of_group("width"), "of": _group}
    ),
)


def read_waive(line: Line, head: Branch) -> Waiver | None:
    values: dict[str, object] = {"rule": line.name(tokens_of(head, "WORD")[0])}
    for reason in tokens_of(head, "STRING"):
        values["reason"] = words_of(reason)
    for date in tokens_of(head, "DATE"):
        until = day(line, date)
        if until is None:
            return None
        values["until"] = until
    return line.build(Waiver, line.whole(), values)


def read_runs(line: Line, head: Branch) -> Setting | None:
    dry, *others = tokens_of(head, "TEMPERATURE", "PERCENT")
    other = "wet_bulb" if others[0].type == "TEMPERATURE" else "humidity"
    return line.build(Setting, line.whole(), {"dry_bulb": line.quantity(dry), other: line.quantity(others[0])})


def read_hold(line: Line, head: Branch) -> Hold | None:
    temperature, time = tokens_of(head, "TEMPERATURE", "TIME")
    values: dict[str, object] = {"temperature": line.quantity(temperature), "time": line.quantity(time)}
    return line.build(Hold, line.whole(), values)


def read_fan_hours(line: Line, head: Branch) -> FanHours | None:
    token = figure_in(head)
    assert token is not None
    return line.build(FanHours, line.whole(), {"a_day": line.quantity(token)})


def read_sterilize(line: Line) -> Said | None:
    return line.build(Said, line.whole(), {})


def read_spot(line: Line, head: Branch) -> Name | None:
    return line.name(tokens_of(head, "STRING")[0])


def read_schedule(line: Line, head: Branch) -> Name | None:
    code = head.children[-1]
    assert isinstance(code, Token)
    return Name(where=line.at(code), text=words_of(code))


def read_from(line: Line, head: Branch | None, details: list[Branch]) -> tuple[Taking, ...]:
    """``from pile "B2"``, further names after commas, and after each name the parts that are taken of its pile."""
    named = [head] if head is not None else []
    parts = [Fields(line)]
    for detail in details:
        if detail.data == "string":
            named.append(detail)
            parts.append(Fields(line))
        else:
            read_details(parts[-1], "from pile", [detail], FROM_PILE)
    takings = []
    for name, fields in zip(reversed(named), reversed(parts), strict=False):  # a head that is lost had the first parts
        pile = line.name(tokens_of(name, "STRING")[0])
        taken = tuple(part for part in fields.values.values() if isinstance(part, TakenPart))
        where = pile.where.to(taken[-1].where) if taken else pile.where
        takings.append(Taking(where=where, pile=pile, parts=taken))
    return tuple(reversed(takings))


def _part(fields: Fields, detail: Branch) -> None:
    """Reads ``40 of a``, ``200 bf of b`` and ``all of c``."""
    line = fields.line
    label = detail.children[-1]
    figure = _amount(detail)
    if figure is None and detail.data != "part":
        message = f"{quote(text_of(line, detail))} is not a part of a pile."
        line.fault(line.over(detail), message, f"It takes {listed(FROM_PILE.takes)}.")
        return
    values: dict[str, object] = {"label": Name(where=line.over(label), text=words_of(label))}
    if figure is not None and figure.type == "VOLUME":
        values["volume"] = line.quantity(figure)
    elif figure is not None:
        values["count"] = whole(line, figure, MOST_PIECES, "boards")
    part = line.build(TakenPart, line.over(detail), values)
    if part is not None and (figure is None or part.count is not None or part.volume is not None):
        fields.put(words_of(label), part, detail)


def _amount(detail: Branch) -> Token | None:
    """The figure of a part; ``None`` where it takes all, or where no figure alone stands there."""
    if detail.data == "part":
        return next(iter(tokens_of(detail, "FIGURE", "VOLUME")), None)
    (section, *_) = detail.children
    assert not isinstance(section, Token)
    return next(iter(tokens_of(section, "FIGURE")), None) if len(section.children) == 1 else None


PARTS = ("40 of a", "200 bf of b", "all of a")
"""What can be taken of a pile."""
FROM_PILE = Details(
    takes=(*PARTS, 'a further name such as "B3"'),
    readers=MappingProxyType({"section_of": _part, "part": _part}),
)
