"""Published drying times: what a wood of a thickness takes in the open or in a kiln.

The tables give ranges for 1 in lumber: in the air from green to 20%, the low end for the good season, the high for
lumber stacked too late in the year; in a kiln to 6%, from green and from 20%. They serve to compare and to plan, and
do not know a site's weather.
"""

from __future__ import annotations

from functools import cache
from math import log
from typing import NamedTuple

from stacklint.tables.kin import Kin, kin_of
from stacklint.tables.rows import Row, read
from stacklint.tables.wood import Wood
from stacklint.units import ONE_DAY, ONE_INCH

THICKNESS_EXPONENT = 1.5
"""Drying time goes by thickness to this power: 1.52 measured on red oak; 1.585 from 60 and 180 days for 4/4 and 8/4
(Wengert, https://woodweb.com/knowledge_base/Time_to_AirDry_Thick_Lumber.html); 1.466 from 15% more time for 10% more
thickness (Wengert, Drying oak lumber step 1); 1.5 in the Dry Kiln Operator's Manual AH-188 (memory)."""
AIR_END = 0.20
"""Moisture content that the air-drying times run to."""
AIR_EQUILIBRIUM = 0.12
"""What lumber tends to in the open: typical of the outdoor table (Wood Handbook Table 13-1, memory)."""
KILN_END, KILN_TURN = 0.06, 0.20


class DryingTime(NamedTuple):
    """A range of drying time, s. ``method`` says in words how it was got from the published row."""

    low: float
    high: float
    source: str
    memory: bool
    method: str


def drying_time(wood: Wood, thickness: float, moisture: float, *, kiln: bool) -> DryingTime:
    """How long a wood takes from a moisture content: to 20% in the open, to 6% in a kiln; 0 where it is there.

    Args:
        thickness: of the boards, m.
        moisture: now, as a share of the oven-dry mass.
        kiln: in a kiln that runs a schedule, not in the open.

    A wood without a row of its own takes that of the kin named in the table; one that the table of woods does not
    know takes that of the wood of its kind and nearest specific gravity.
    """
    kin = kin_of(wood)
    scale = (thickness / ONE_INCH) ** THICKNESS_EXPONENT * ONE_DAY
    return _in_kiln(kin, wood, moisture, scale) if kiln else _in_air(kin, wood, moisture, scale)


def _in_air(kin: Kin, wood: Wood, moisture: float, scale: float) -> DryingTime:
    """The share of the whole time goes by exponential decay: (M - Me) / (M0 - Me) = exp(-t / tau), the form of the
    red oak equation (encyclopedia article on wood drying, quoted in a teaching notebook,
    https://raw.githubusercontent.com/damontallen/Construction-materials/master/Red%20Oak%20Drying%20Time.ipynb)."""
    row = _air()[kin.air]
    share = 0.0
    if moisture > AIR_END:
        span = AIR_END - AIR_EQUILIBRIUM
        green = max(wood.mc_green, AIR_END + 0.01)
        share = min(log((moisture - AIR_EQUILIBRIUM) / span) / log((green - AIR_EQUILIBRIUM) / span), 1.0)
    low, high = (float(row[end]) * share * scale for end in ("days_low", "days_high"))
    method = _method(kin.air, wood, kin.lender, "green to 20% in the open, 1 in thick")
    return DryingTime(low, high, row["source"], row["how"] == "memory", method)


def _in_kiln(kin: Kin, wood: Wood, moisture: float, scale: float) -> DryingTime:
    """Linear in moisture between the two published starts, and from the lower one to the end."""
    green, turn = (_kiln()[(kin.kiln, start)] for start in ("green", "20"))
    factor = kin.kiln_factor * scale
    ends = []
    for end in ("days_low", "days_high"):
        from_green, from_turn = float(green[end]), float(turn[end])
        if moisture <= KILN_TURN:
            days = from_turn * max(moisture - KILN_END, 0.0) / (KILN_TURN - KILN_END)
        else:
            span = max(wood.mc_green - KILN_TURN, 0.01)
            days = from_turn + (from_green - from_turn) * min((moisture - KILN_TURN) / span, 1.0)
        ends.append(days * factor)
    halved = ", halved for a softwood" if kin.kiln_factor != 1 else ""
    method = _method(kin.kiln, wood, kin.lender, f"to 6% in a kiln, 1 in thick{halved}")
    return DryingTime(ends[0], ends[1], green["source"], green["how"] == "memory", method)


def _method(row: str, wood: Wood, lender: str, what: str) -> str:
    borrowed = f", as {lender}" if lender != wood.name else ""
    return f"published range for {row}{borrowed}, {what}; by thickness to the power {THICKNESS_EXPONENT:g}"


@cache
def _air() -> dict[str, Row]:
    """The rows of the list of woods: from green to 20% in their region of growth."""
    return {row["species"]: row for row in read("air_drying_times") if row["place_or_season"].startswith("region")}


@cache
def _kiln() -> dict[tuple[str, str], Row]:
    rows = (row for row in read("kiln_drying_times") if row["kiln_type"] == "conventional" and row["to_mc_pct"] == "6")
    return {(row["species"], row["from_mc_pct"]): row for row in rows}
