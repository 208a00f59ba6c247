"""Published kiln schedules: what dry bulb and wet-bulb depression a wood is run at as it dries.

A code such as ``T4-D2`` names a schedule of temperatures (T1 mild to T14 hot) and one of wet-bulb depressions: the
letter A to F by how wet the wood is when green, the number 1 (mild) to 8. Dry Kiln Operator's Manual AH-188 (1991)
ch. 7; every step and code but those of one wood are recalled.
"""

from __future__ import annotations

import re
from functools import cache
from math import inf
from typing import NamedTuple

from stacklint.tables.kin import kin_of
from stacklint.tables.rows import Row, read
from stacklint.tables.spelling import alike, best
from stacklint.tables.wood import Origin, Wood
from stacklint.units import ONE_INCH, Unit

THIN = "4/4;5/4;6/4"
THICK = "8/4"
THIN_TO = 1.65 * ONE_INCH
"""Boards up to 6/4 take the first row. Green 6/4 is sawn a little over its 1 1/2 in."""
THICK_TO = 2.25 * ONE_INCH
"""The rows end with 8/4, sawn up to 1/4 in over; thicker boards are beyond them."""
MILD_HARDWOOD = "T2-C1"
"""The mildest code of a hardwood row: lowland red and white oak."""
MILD_SOFTWOOD = "T10-C4"
"""The mildest code of a softwood row (8/4 eastern white pine), but for eastern redcedar's, which is to keep its oil."""
_LIKE = 0.4
_FORM = re.compile(r"\s*t\s*(\d+)\s*-?\s*([a-z])\s*(\d+)\s*", re.IGNORECASE)
_HOTTEST, _LETTERS, _DRIEST = 14, "ABCDEF", 8


class Published(NamedTuple):
    """The published schedule of a wood and thickness: its code, and the row of the table that it stands in.

    ``beyond`` is true for boards thicker than the thickest row.
    """

    code: str
    row: str
    thickness: str
    beyond: bool
    origin: Origin


def published(wood: Wood, thickness: float) -> Published | None:
    """The schedule that the tables print for a wood of a thickness (m); ``None`` where they print none."""
    name = kin_of(wood).schedule
    if name is None:
        return None
    group = THIN if thickness <= THIN_TO else THICK
    row = _rows().get((name, group))
    if row is None:
        return None
    origin = Origin(row["source"], row["how"] == "memory")
    return Published(row["schedule_code"], name, group, thickness > THICK_TO, origin)


def mild(wood: Wood) -> str:
    """The code to run a wood at that has no published schedule: the mildest ordinary one of its kind."""
    return MILD_HARDWOOD if wood.hardwood else MILD_SOFTWOOD


def known(code: str) -> str | None:
    """A code as the tables write it; ``None`` for one that they lack. ``t8d4`` is ``T8-D4``."""
    match = _FORM.fullmatch(code)
    if match is None:
        return None
    temperature, depression = f"T{int(match[1])}", f"{match[2].upper()}{int(match[3])}"
    if temperature not in _steps() or depression not in _steps():
        return None
    return f"{temperature}-{depression}"


def nearest(code: str, count: int = 3) -> tuple[str, ...]:
    """Codes that one which does not exist may stand for, the likeliest first."""
    match = _FORM.fullmatch(code)
    if match is None:
        written = code.upper()
        return best(alike(written, _codes(), _LIKE), count, _LIKE)
    temperature = min(max(int(match[1]), 1), _HOTTEST)
    letter = match[2].upper() if match[2].upper() in _LETTERS else _LETTERS[-1]
    number = min(max(int(match[3]), 1), _DRIEST)
    return (f"T{temperature}-{letter}{number}",)


def temperatures(code: str) -> tuple[tuple[float, float], ...]:
    """Of a known code, each step's moisture content at its start and its dry bulb (C), the wettest first.

    The first step's start is infinite.
    """
    return tuple((start, Unit.FAHRENHEIT.to_si(figure)) for start, figure in _steps()[code.partition("-")[0]])


def depressions(code: str) -> tuple[tuple[float, float], ...]:
    """Of a known code, each step's moisture content at its start and its wet-bulb depression (K), the wettest first."""
    return tuple((start, figure / 1.8) for start, figure in _steps()[code.partition("-")[2]])


@cache
def origin(code: str) -> Origin:
    """Where the steps of a code come from."""
    parts = code.split("-")
    rows = [row for row in read("kiln_schedule_steps") if row["code"] in parts]
    return Origin(rows[0]["source"], any(row["how"] == "memory" for row in rows))


@cache
def _steps() -> dict[str, tuple[tuple[float, float], ...]]:
    steps: dict[str, list[tuple[float, float]]] = {}
    for row in read("kiln_schedule_steps"):
        start = inf if row["mc_relation"] == ">" else float(row["mc_at_start_pct"]) / 100
        figure = float(row["dry_bulb_f"] or row["wet_bulb_depression_f"])
        steps.setdefault(row["code"], []).append((start, figure))
    return {code: tuple(each) for code, each in steps.items()}


@cache
def _codes() -> tuple[str, ...]:
    first = [code for code in _steps() if code.startswith("T")]
    return tuple(f"{each}-{second}" for each in first for second in _steps() if not second.startswith("T"))


@cache
def _rows() -> dict[tuple[str, str], Row]:
    """Rows with a code that the steps know."""
    rows = (row for row in read("kiln_schedule_species") if known(row["schedule_code"]))
    return {(row["species"], row["thickness"]): row for row in rows}
