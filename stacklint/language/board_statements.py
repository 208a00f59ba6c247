"""Reads the statements about the boards themselves: boards, course, reading."""

from __future__ import annotations

import datetime
from types import MappingProxyType

from stacklint.faults import FaultKind, Measure
from stacklint.language import choices
from stacklint.language.complaints import quote
from stacklint.language.details import (
    Details,
    Fields,
    figure_in,
    nominal,
    read_details,
    side_of,
    sides,
    text_of,
    token_type,
    unit_of,
)
from stacklint.language.line import Line, first, tokens_of, words_of
from stacklint.language.numbers import day, whole
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.plan.boards import Boards, CourseRows, Courses
from stacklint.plan.node import Name, Node, Quantity, Range
from stacklint.plan.stack import Reading
from stacklint.units import NUMBER, System, Unit

MOST_BOARDS = 100_000
MOST_COURSES = 1000
MOST_IN_ROW = 300
"""Boards in a row, as ``a + a``: the longest stack has room for so many of the shortest boards."""
_SMALL_UNITS = (Unit.INCH, Unit.MILLIMETRE, Unit.CENTIMETRE)
_ORDER = ("thickness", "width", "length")


def read_boards(line: Line, head: Branch | None, details: list[Branch]) -> Boards | None:
    """A ``boards`` statement. Without a readable head only its details are looked through."""
    fields = Fields(line)
    if head is not None:
        _head(fields, head)
    read_details(fields, "boards", details, _BOARDS)
    random_width = fields.values.pop("random_width", False)
    if head is None:
        return None
    _sizes(fields, head, bool(random_width))
    if not all(name in fields.values for name in ("thickness", "length")) or not _counted(fields):
        return None
    return line.build(Boards, line.whole(), fields.values)


def _counted(fields: Fields) -> bool:
    return "count" in fields.values or "volume" in fields.values


def _head(fields: Fields, head: Branch) -> None:
    line = fields.line
    label = head.children[1]
    assert isinstance(label, Token)
    fields.values["label"] = line.name(label)
    for child in head.children:
        if isinstance(child, Token):
            continue
        if child.data == "amount":
            _amount(fields, child)
        elif child.data == "wood":
            fields.values["wood"] = Name(where=line.over(child), text=words_of(child))


def _amount(fields: Fields, amount: Branch) -> None:
    token = first(amount)
    if token.type == "VOLUME":
        quantity = fields.line.quantity(token)
        if quantity.number <= 0:
            fields.line.fault(
                fields.line.at(token), "There are no boards.", "Say how many.", FaultKind.VALUE_OUT_OF_RANGE
            )
            return
        fields.values["volume"] = quantity
        return
    count = whole(fields.line, token, MOST_BOARDS, "boards")
    if count is not None:
        fields.values["count"] = count


def _sizes(fields: Fields, head: Branch, random_width: bool) -> None:
    """Gives the measures of the head to thickness, width and length."""
    line = fields.line
    measures = [child for child in head.children[5:] if _is_measure(child)]
    names, parts = _named(line, measures)
    if not parts:
        return
    units = _units(parts)
    read = {name: side_of(line, part, unit) for name, part, unit in zip(names, parts, units, strict=True)}
    if any(side is None for side in read.values()):
        return
    if random_width and "length" not in read and "width" in read and "length" not in fields.values:
        read["length"] = read.pop("width")
    for name, side in read.items():
        if name == "thickness" and isinstance(side, Range):
            line.fault(side.where, "Boards of one group have one thickness.", "Write a boards statement for each.")
            return
        fields.put(name, side, head)
    _check_sizes(fields, random_width or len(parts) < len(measures))


def _is_measure(child: Branch | Token) -> bool:
    if isinstance(child, Token):
        return child.type in ("LENGTH", "QUARTERS") or child.type == "FIGURE"
    return child.data in ("range", "measured", "random")


def _named(line: Line, measures: list[Branch | Token]) -> tuple[list[str], list[Branch | Token]]:
    """Which measure is which: by the word behind it, or by its place."""
    names: list[str] = []
    parts: list[Branch | Token] = []
    for position, measure in enumerate(measures):
        name = _ORDER[position]
        part = measure
        if not isinstance(measure, Token) and measure.data == "random":
            continue
        if not isinstance(measure, Token) and measure.data == "measured":
            part = measure.children[0]
            name = {"THICK": "thickness", "WIDE": "width", "LONG": "length"}[token_type(measure.children[1])]
        if name in names:
            line.fault(line.over(measure), f"The {name} is said twice.", "Write thickness x width x length.")
            return [], []
        names.append(name)
        parts.append(part)
    return names, parts


def _units(parts: list[Branch | Token]) -> list[Unit | None]:
    """The unit that each measure has or is lent.

    In ``2x6 x 16 ft`` and ``5/4 x 6 x 10 ft`` the bare figures are nominal inches. In ``20 x 90 mm``
    a bare figure has the unit of the next one, if that is not one for lengths of whole boards.
    """
    own = [unit_of(part) for part in parts]
    lent: list[Unit | None] = []
    for index, part in enumerate(parts):
        following = own[index + 1] if index + 1 < len(own) else None
        if own[index] is not None or not _bare(part):
            lent.append(own[index] or following)
        elif following in _SMALL_UNITS:
            lent.append(following)
        elif all(_inch_sized(other) for other in parts[: index + 1]) and index < 2 and not _metric(own):
            lent.append(Unit.INCH)
        else:
            lent.append(None)
    return lent


def _metric(units: list[Unit | None]) -> bool:
    return any(unit is not None and unit.system is System.METRIC for unit in units)


def _bare(part: Branch | Token) -> bool:
    """A figure, or a range of two, without a unit."""
    if isinstance(part, Token):
        return part.type == "FIGURE"
    figures = [child for child in part.children if isinstance(child, Token)]
    return part.data == "range" and any(token.type == "FIGURE" for token in figures)


def _inch_sized(part: Branch | Token) -> bool:
    if isinstance(part, Token):
        return part.type == "QUARTERS" or nominal(part)
    return all(nominal(child) for child in part.children if isinstance(child, Token) and child.type == "FIGURE")


def _check_sizes(fields: Fields, random_width: bool) -> None:
    line = fields.line
    thickness, width, length = (fields.values.get(name) for name in _ORDER)
    if length is None and not line.spoiled:
        line.fault(
            line.whole(), "The length of the boards is missing.", "Write thickness x width x length: 4/4 x 6 in x 8 ft."
        )
    elif width is None and not random_width and not line.spoiled:
        line.fault(
            line.whole(), "The width of the boards is missing.", "Write it before the length, or write random width."
        )
    if isinstance(thickness, Quantity) and isinstance(width, (Quantity, Range)):
        widest = width.high.si if isinstance(width, Range) else width.si
        if thickness.si > widest * 1.001:
            line.fault(
                thickness.where.to(width.where),
                "A board's thickness cannot be more than its width.",
                "Write thickness x width x length, in that order: 2 in x 25 in x 7 ft.",
            )
            del fields.values["thickness"]


def _random_width(fields: Fields, detail: Branch) -> None:
    fields.put("random_width", True, detail)


def _moisture(fields: Fields, detail: Branch) -> None:
    token = figure_in(detail)
    assert token is not None
    fields.put("moisture", fields.line.quantity(token), detail)


def _length(fields: Fields, detail: Branch) -> None:
    section = detail.children[0]
    if isinstance(section, Token) or len(section.children) > 1:
        fields.line.fault(
            fields.line.over(detail),
            f"{quote(text_of(fields.line, detail))} stands apart from the size of the boards.",
            "Write thickness x width x length right after the wood.",
        )
        return
    read = sides(fields.line, section)
    if read:
        fields.put("length", read[0], detail)


_BOARDS = Details(
    takes=(
        "a moisture such as green, air dried, kiln dried or 28%",
        "flatsawn, quartersawn or riftsawn",
        "live edge",
        "boxed heart",
        "squares",
        "random width",
        "for 13/16 in finished",
    ),
    words=choices.BOARDS,
    figures=MappingProxyType({"finished": "finished", "long": "length", "wide": "width"}),
    readers=MappingProxyType({"percent": _moisture, "section": _length, "random_width": _random_width}),
)


def read_courses(line: Line, head: Branch | None, details: list[Branch]) -> Courses | None:
    rows: list[CourseRows | None] = []
    for detail in ([head.children[-1]] if head is not None else []) + list(details):
        if not isinstance(detail, Token):
            rows.append(_rows(line, detail))
    if head is None:
        return None
    bounds = [whole(line, token, MOST_COURSES, "courses") for token in tokens_of(head, "FIGURE")]
    low, high = bounds[0], bounds[-1]
    if low is None or high is None or any(row is None for row in rows):
        return None
    if low > high:
        token = tokens_of(head, "FIGURE")[1]
        line.fault(
            line.at(tokens_of(head, "FIGURE")[0]).to(line.at(token)),
            "The range of courses runs backwards.",
            f"Write course {high} to {low}.",
            FaultKind.VALUE_OUT_OF_RANGE,
        )
        return None
    return line.build(Courses, line.whole(), {"first": low, "last": high, "rows": tuple(rows)})


def _rows(line: Line, rows: Branch) -> CourseRows | None:
    if rows.data == "rows" and isinstance(rows.children[0], Token) is False:
        rows = rows.children[0]  # type: ignore[assignment]  # a detail that is one rows branch
    if rows.data != "rows":
        line.fault(
            line.over(rows),
            f"{quote(text_of(line, rows))} does not say what lies in the course.",
            "Write rows of board groups: 4 rows of a + b.",
        )
        return None
    count = whole(line, first(rows), MOST_BOARDS, "rows")
    labels: tuple[Node, ...] = tuple(line.name(token) for token in tokens_of(rows, "WORD"))
    if len(labels) > MOST_IN_ROW:
        line.fault(
            line.over(rows),
            f"The row has {len(labels):,} boards; a row has at most {MOST_IN_ROW}.",
            "Write what lies in one row: 4 rows of a + b.",
            FaultKind.VALUE_OUT_OF_RANGE,
            Measure(float(len(labels)), NUMBER),
            Measure(float(MOST_IN_ROW), NUMBER),
        )
        return None
    if count is None:
        return None
    return line.build(CourseRows, line.over(rows), {"count": count, "labels": labels})


def read_reading(line: Line, head: Branch, details: list[Branch], today: datetime.date) -> Reading | None:
    fields = Fields(line)
    date, percent = head.children[1:3]
    assert isinstance(date, Token) and isinstance(percent, Token)
    read_on = day(line, date)
    if read_on is not None and read_on.date > today:
        line.fault(
            read_on.where,
            f"The reading of {read_on.date} lies in the future: today is {today}.",
            "Correct the date, or take the reading out until the boards have been measured.",
            FaultKind.VALUE_OUT_OF_RANGE,
        )
        read_on = None
    fields.values["moisture"] = line.quantity(percent)
    if len(head.children) > 3:
        fields.values["label"] = line.name(head.children[-1])  # type: ignore[arg-type]  # a WORD, by the grammar
    read_details(fields, "reading", details, _READING)
    if read_on is None:
        return None
    return line.build(Reading, line.whole(), fields.values | {"day": read_on})


def _reading_label(fields: Fields, detail: Branch) -> None:
    wood = detail.children[-1]
    fields.put("label", Name(where=fields.line.over(wood), text=words_of(wood)), wood)


_READING = Details(
    takes=("of a", "outer boards", "core"),
    words=choices.READING,
    readers=MappingProxyType({"of": _reading_label}),
)
