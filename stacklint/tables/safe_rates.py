"""Safe daily loss: how much moisture boards may lose in a day before they check.

It holds for the wettest boards. Oaks: Wengert, column on kiln drying oak (read); other woods recalled.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import exp, log
from typing import NamedTuple

from stacklint.tables.kin import kin_of
from stacklint.tables.rows import Row, read
from stacklint.tables.wood import Wood
from stacklint.units import ONE_INCH

BEYOND = 1.32
"""Boards thicker than 8/4 take less by this power of their thickness: that by which 8/4 takes 0.4 of 4/4."""
UNTIL = 0.15
"""Below this moisture content the limit is academic: the loss falls off by itself (Wengert, same column, item 4)."""


class SafeRate(NamedTuple):
    """The most that a wood of a thickness may lose in a day, as a share of the oven-dry mass.

    ``words`` says whose figure it is. ``memory`` is true where it or a factor on it was recalled.
    """

    per_day: float
    source: str
    memory: bool
    words: str


def of(wood: Wood, thickness: float) -> SafeRate | None:
    """The safe daily loss of a wood of a thickness (m); ``None`` where no published figure is known.

    4/4 and 8/4 have rows (8/4 is 0.4 of 4/4, 2.5 times slower: Wengert, read); 5/4 takes 0.8 of the 4/4 row, 6/4 0.6
    (memory); other thicknesses lie between by a power of the thickness. Thinner than 4/4 is held to the 4/4 row.
    """
    name = kin_of(wood).safe
    rows = _rows().get(name) if name is not None else None
    if name is None or rows is None:
        return None
    thin, thick = rows
    inches = round(thickness / ONE_INCH, 4)
    rate = _rate(float(thin["max_mc_loss_pct_per_day"]), float(thick["max_mc_loss_pct_per_day"]), inches)
    row = thick if inches >= 2 else thin
    memory = "memory" in row["how"] or 1 < inches < 2
    return SafeRate(rate / 100, row["source"], memory, f"{name}, {_thickness(inches)}")


def _rate(thin: float, thick: float, inches: float) -> float:
    anchors = ((1.0, thin), (1.25, thin * 0.8), (1.5, thin * 0.6), (2.0, thick))
    if inches <= 1:
        return thin
    for (low, first), (high, last) in pairwise(anchors):
        if inches <= high:
            return first * exp(log(last / first) * log(inches / low) / log(high / low))
    return thick * float((2 / inches) ** BEYOND)


def _thickness(inches: float) -> str:
    return f"{inches * 4:g}/4" if inches * 4 == int(inches * 4) else f"{inches:.3g} in"


@cache
def _rows() -> dict[str, tuple[Row, Row]]:
    """The 4/4 and 8/4 rows of each wood that has a figure; of two rows for one thickness the lower."""
    lowest: dict[tuple[str, str], Row] = {}
    for row in read("safe_drying_rates"):
        key = (row["species"], row["thickness"])
        figure = row["max_mc_loss_pct_per_day"]
        if figure and (key not in lowest or float(figure) < float(lowest[key]["max_mc_loss_pct_per_day"])):
            lowest[key] = row
    woods = [species for species, thickness in lowest if thickness == "4/4"]
    return {wood: (lowest[wood, "4/4"], lowest[wood, "8/4"]) for wood in woods}
