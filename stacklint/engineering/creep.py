"""Creep: how many times its first (elastic) sag loaded wood sags in the end.

The totals below are a judgement drawn from published figures, not a published table. Each row says from where.
"""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple

WET = 0.30
"""Moisture content from which wood counts as green: fibre saturation, 30% (Wood Handbook ch. 4, memory)."""
SEASONED = 0.20
"""Moisture content below which it counts as seasoned: the upper end of "air dried", 20% (common practice)."""
WARMER = 28.0
"""Degrees C above 20 C at which the Wood Handbook gives creep as two to three times as large (50 F)."""
ROOM = 20.0
HOTTEST = 50.0
"""Degrees C beyond which neither creep nor stiffness has data here (Wood Handbook Table 5-15 ends there)."""


class Creep(NamedTuple):
    """What to multiply the elastic sag by: the low, the likely and the high figure.

    ``beyond_data`` is true where the wood is hotter than the data reach: the figures are then those of the
    hottest air that has data, and the sag may be larger.
    """

    low: float
    likely: float
    high: float
    beyond_data: bool = False


class _Totals(NamedTuple):
    """Total over elastic sag at room temperature."""

    low: float
    likely: float
    high: float
    source: str


class Condition(Enum):
    """The state of loaded wood, with its totals."""

    DRYING_FROM_GREEN = _Totals(
        5.0,
        6.0,
        7.0,
        "Wood Handbook (FPL-GTR-190): green wood that dries under load creeps 4 to 6 times its first deformation; "
        "https://issuhub.com/view/index/5801?pageIndex=138",
    )
    SEASONED = _Totals(
        1.5,
        2.0,
        3.0,
        "1.5: NDS 3.5.2, seasoned lumber used dry; 2.0: Wood Handbook, creep about equals the first deflection after "
        "several years, https://issuhub.com/view/index/5801?pageIndex=138; 3.0: the widest spread of real creep, "
        "https://awc.org/faqs/awc-standards/nds/what-is-creep-and-how-can-i-address-it",
    )
    BEARER_DRY = _Totals(
        1.5,
        1.5,
        2.0,
        "NDS 3.5.2, seasoned lumber used dry: 1.5; "
        "https://awc.org/faqs/awc-standards/nds/what-is-creep-and-how-can-i-address-it; high: Wood Handbook 2.0",
    )
    BEARER_WET = _Totals(
        2.0,
        2.0,
        3.0,
        "NDS 3.5.2, unseasoned lumber 2.0 (wet service from memory), and the widest spread of real creep: "
        "https://awc.org/faqs/awc-standards/nds/what-is-creep-and-how-can-i-address-it",
    )
    BEARER_DRYING = _Totals(
        3.0,
        3.5,
        4.0,
        "judgement: between the 3 of Australian practice for unseasoned wood "
        "(http://www.eng-tips.com/viewthread.cfm?qid=184226) and the 4.0 of Eurocode 5, kdef 2.0 + 1.0 (memory)",
    )


def of(condition: Condition, temperature: float | None = None) -> Creep:
    """Creep of wood in a known state. ``temperature`` is the air's, degrees C; unknown counts as 20 C."""
    totals = condition.value
    return _heated(totals.low, totals.likely, totals.high, temperature)


def boards(moisture: float, temperature: float | None = None) -> Creep:
    """Creep of boards between supports, at their present moisture content, while the stack dries.

    At 30% and wetter they dry from green, at 20% and drier they are seasoned; between the two the totals are
    interpolated, since no publication was found for wood that is half dry when it is loaded.

    Args:
        moisture: moisture content now, a share of the oven-dry mass.
        temperature: highest of the air, degrees C; unknown counts as 20 C.
    """
    green, seasoned = Condition.DRYING_FROM_GREEN.value, Condition.SEASONED.value
    share = min(max((moisture - SEASONED) / (WET - SEASONED), 0.0), 1.0)
    return _heated(
        seasoned.low + share * (green.low - seasoned.low),
        seasoned.likely + share * (green.likely - seasoned.likely),
        seasoned.high + share * (green.high - seasoned.high),
        temperature,
    )


def _heated(low: float, likely: float, high: float, temperature: float | None) -> Creep:
    """Enlarges the creep (not the elastic part) by heat: 2, 2.5 and 3 times at 48 C, in proportion from 20 C on.

    Source: Wood Handbook, about 28 C warmer makes creep two to three times as large (the address above).
    Cooler air is given no credit.
    """
    if temperature is None or temperature <= ROOM:
        return Creep(low, likely, high)
    share = (min(temperature, HOTTEST) - ROOM) / WARMER
    return Creep(
        1 + (low - 1) * (1 + 1.0 * share),
        1 + (likely - 1) * (1 + 1.5 * share),
        1 + (high - 1) * (1 + 2.0 * share),
        temperature > HOTTEST,
    )
