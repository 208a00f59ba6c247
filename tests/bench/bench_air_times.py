"""Prints how the open-air model compares with published times, and what a forecast costs.

Run it with ``python tests/bench/bench_air_times.py``. Tests of what is claimed stand in
``tests/against/test_air_drying_times.py``.
"""

from __future__ import annotations

import datetime
import math
import statistics
import time

from stacklint.drying import air_drying, air_fit
from stacklint.drying import climate as climates
from stacklint.drying.batch import Batch
from stacklint.drying.forecast import Way
from stacklint.drying.pile_forecast import pile_forecast
from stacklint.drying.surroundings import Surroundings
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Day, Reading
from stacklint.plan.yard import Site
from stacklint.tables import woods
from stacklint.tables.rows import read
from stacklint.units import ONE_INCH, Unit

FOUND = (
    ("northern red oak", "Madison, WI", (2025, 4, 1), 82),
    ("northern red oak", "Madison, WI", (2025, 9, 1), 154),
    ("northern red oak", "Madison, WI", (2025, 10, 1), 184),
    ("northern red oak", "Madison, WI", (2025, 6, 1), 60),
    ("northern red oak", "Madison, WI", (2025, 1, 5), 150),
    ("loblolly pine", "Jackson, MS", (2025, 5, 1), 42),
    ("northern red oak", "Jackson, MS", (2025, 5, 1), 63),
    ("ponderosa pine", "Flagstaff", (2025, 6, 1), 60),
)
"""Wood, place, day of stacking, published days to 20% (air_drying_times.csv). The first five chose the power 0.8."""


def outdoors(place: str) -> climates.Climate:
    found = climates.outdoor(Site(name=Name(text="Larch Bottom"), near=Name(text=place)))
    assert found is not None
    return found


def batch(name: str, inches: float = 1.0, green: float | None = None, label: str = "a") -> Batch:
    wood = woods.find(name)
    assert wood is not None
    return Batch(label, name, wood, inches * ONE_INCH, green or wood.mc_green, 500.0)


def stacked_too_late() -> list[float]:
    """Row by row of the list; the ratios of the model's worst month to the published time."""
    print("stacked too late in the year, 1 in, green to 20%: the model's worst month (used for no fit)")
    print(f"  {'':28} {'published':>9} {'model':>6} {'ratio':>6}")
    rates = {row["species"]: float(row["rate_per_day"]) for row in read("air_rates")}
    ratios = []
    for row in sorted(air_fit.rows(), key=lambda each: each.row["species"].lower()):
        published, worst = float(row.row["days_high"]), max(row.by_month(rates[row.row["species"]]))
        ratios.append(worst / published)
        print(f"  {row.row['species']:28} {published:9.0f} {worst:6.0f} {worst / published:6.2f}  {row.place}")
    return ratios


def summary(ratios: list[float]) -> None:
    logs = [math.log(ratio) for ratio in ratios]
    print(
        f"  {len(ratios)} rows: median {statistics.median(ratios):.2f}, "
        f"{share(ratios, air_drying.RANGE):.0%} within {air_drying.RANGE:g}, {share(ratios, 2):.0%} within 2, "
        f"from {min(ratios):.2f} to {max(ratios):.2f}, standard deviation a factor of "
        f"{math.exp(statistics.pstdev(logs)):.2f}\n"
    )


def share(ratios: list[float], factor: float) -> float:
    return sum(1 / factor <= ratio <= factor for ratio in ratios) / len(ratios)


def found_rows() -> None:
    print("by place and day of stacking, 1 in, green to 20%")
    print(f"  {'':28} {'published':>9} {'fast':>5} {'likely':>6} {'slow':>5} {'ratio':>6}")
    for name, place, day, published in FOUND:
        spread = air_drying.dry([batch(name)], outdoors(place), datetime.date(*day), 0.20).spreads[0]
        fast, likely, slow = (curve.reached or math.inf for curve in spread)
        print(
            f"  {name:28} {published:9} {fast:5.0f} {likely:6.0f} {slow:5.0f} {likely / published:6.2f}  "
            f"{place}, {datetime.date(*day):%d %B}"
        )
    print()


def costs(runs: int = 100) -> None:
    """CPU of a forecast of one stack with two batches."""
    columbus, start = outdoors("Columbus, OH"), datetime.date(2026, 4, 2)
    batches = [batch("white ash"), batch("white oak", 2, label="b")]
    yard = Surroundings(Way.OPEN_AIR, columbus, "the open air")
    basement = Surroundings(Way.ROOM, columbus, "the basement", 14.0)
    readings_of_three_months = [
        Reading(day=Day(date=start + datetime.timedelta(days)), moisture=Quantity(number=now, unit=Unit.PERCENT))
        for days, now in ((30, 40), (60, 32), (90, 26))
    ]
    print("a forecast of two batches, CPU")
    for words, around, wanted, readings in (
        ("to 15% in the yard", yard, 0.15, ()),
        ("to 15% in the yard, three readings", yard, 0.15, readings_of_three_months),
        ("to 8% in the yard, which never comes", yard, 0.08, ()),
        ("to 15% in a room with a machine", basement, 0.15, ()),
        ("to 8% in that room, three readings", basement, 0.08, readings_of_three_months),
    ):
        pile_forecast(batches, around, start, wanted, readings)
        before = time.process_time()
        for _ in range(runs):
            pile_forecast(batches, around, start, wanted, readings)
        print(f"  {words:40} {(time.process_time() - before) / runs * 1000:6.2f} ms")


def main() -> None:
    summary(stacked_too_late())
    found_rows()
    costs()


if __name__ == "__main__":
    main()
