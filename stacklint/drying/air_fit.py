"""Fits the rate of each wood in open air to the published times: ``python -m stacklint.drying.air_fit``.

The low figure of each row of the list of air-drying times (green to 20%, 1 in thick) is for lumber stacked in the good
season of its region of growth: the rate is that at which the best month of a place of that region takes so long. The
high figures, for lumber stacked too late in the year, are not used.
"""

from __future__ import annotations

import csv
import datetime
import math
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from stacklint.drying.air_drying import LIKELY, VAPOUR_POWER
from stacklint.drying.climate import Air
from stacklint.drying.weather import YEAR, Day, day_of_year, year
from stacklint.tables import places, woods
from stacklint.tables.rows import Row, read
from stacklint.tables.wood import Wood

END = 0.20
"""Moisture content that the published times run to."""
LEAST_GREEN = 0.25
SOURCE = "fitted to days_low of air_drying_times.csv at the place named; see stacklint/drying/air_fit.py"


class Fitted(NamedTuple):
    """A row of the published list with the place of its region and the wood that it is of."""

    row: Row
    place: str
    wood: Wood

    @property
    def green(self) -> float:
        return max(self.wood.mc_green, LEAST_GREEN)

    @property
    def days(self) -> tuple[Day, ...]:
        place = places.find(self.place)
        assert place is not None and place.complete
        airs = [(month.temperature, month.humidity) for month in place.months if month is not None]
        return year(tuple(Air(t, rh) for t, rh in airs if t is not None and rh is not None))

    def by_month(self, rate: float) -> list[float]:
        """Days to 20% for boards stacked on the first of each month."""
        starts = (day_of_year(datetime.date(2025, month, 1)) for month in range(1, 13))
        return [time(rate, self.days, start, self.green, END) for start in starts]


def time(rate: float, days: tuple[Day, ...], first: int, green: float, end: float) -> float:
    """Days that a board takes from green to an end, without bound on their number but that of ten years."""
    now = green
    for day in range(10 * YEAR):
        air = days[(first + day) % YEAR]
        after = air.equilibrium + (now - air.equilibrium) * math.exp(-rate * air.vapour**VAPOUR_POWER)
        if after <= end:
            return day + (now - end) / (now - after)
        now = after
    return float(10 * YEAR)


def rows() -> Iterator[Fitted]:
    """The rows of the list whose wood has a row in the table of woods."""
    regions = {row["species"]: row["place"] for row in read("air_regions")}
    wood_of = {row["air"]: row["wood"] for row in reversed(list(read("drying_kin")))}
    for row in read("air_drying_times"):
        name = row["species"]
        if not row["place_or_season"].startswith("region") or name not in wood_of:
            continue
        wood = woods.find(name) or woods.find(wood_of[name])
        assert wood is not None
        yield Fitted(row, regions[name], wood)


def fit(fitted: Fitted) -> float:
    """The rate, a day, at which the best month takes the published low figure."""
    low, high = 1e-3, 2.0
    wanted = float(fitted.row["days_low"])
    for _ in range(40):
        middle = math.sqrt(low * high)
        if min(fitted.by_month(middle)) > wanted:
            low = middle
        else:
            high = middle
    return math.sqrt(low * high)


def main() -> None:
    path = Path(__file__).parent.parent / "tables" / "air_rates.csv"
    with path.open("w", newline="", encoding="utf-8") as out:
        table = csv.writer(out, lineterminator="\n")
        table.writerow(("species", "rate_per_day", "place", "green_mc_pct", "source", "how"))
        for each in rows():
            how = "computed from memory" if each.row["how"] == "memory" else "computed from found"
            rate = f"{fit(each) * LIKELY.rate:.5f}"
            table.writerow((each.row["species"], rate, each.place, f"{each.green * 100:.4g}", SOURCE, how))


if __name__ == "__main__":
    main()
