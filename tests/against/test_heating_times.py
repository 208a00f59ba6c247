"""Heating times against measured ones, conduction of heat against a numerical solution, limits against the table."""

from __future__ import annotations

import csv
from math import inf, pi, tan
from pathlib import Path

import numpy as np
import pytest
from scipy.linalg import expm
from scipy.optimize import brentq

from stacklint.drying import heating
from stacklint.drying.heating import FAST, SLOW, Warming, core_excess, heating_time
from stacklint.rulebook import builtin
from stacklint.tables.rows import Row, read
from stacklint.units import ONE_INCH, Unit

MEASURED = tuple(csv.DictReader((Path(__file__).parent / "data/heating_times.csv").open(encoding="utf-8")))
"""Wood Handbook (FPL-GTR-190) tables 20-4 and 20-8, each row with its address."""
FORUM = tuple(row for row in read("sterilization") if row["subject"] == "Forum figure")
F = Unit.FAHRENHEIT.to_si


def times(thickness: float, width: float, start: float, air: float) -> tuple[float, float]:
    """In minutes, of sides in inches and temperatures in F."""
    time = heating_time(thickness * ONE_INCH, width * ONE_INCH, F(start), F(air))
    assert time is not None
    return time.low / 60, time.high / 60


@pytest.mark.parametrize(
    "row",
    MEASURED,
    ids=lambda row: f"{row['wood']} {row['thickness_in']} from {row['start_f']} at {row['wet_bulb_depression_f']}",
)
def test_the_published_heating_times_lie_between_fast_and_slow(row: dict[str, str]) -> None:
    low, high = times(*(float(row[name]) for name in ("thickness_in", "width_in", "start_f", "air_f")))
    assert low <= float(row["minutes"]) <= high


def test_the_range_is_no_wider_than_the_published_times_are() -> None:
    """Neither end lies further than half again past all measured times of its size; of thin boards, for which the film
    counts most, the slow end may be three and a half times the longest."""
    for size in ("1", "4", "6"):
        rows = [row for row in MEASURED if row["thickness_in"] == size and row["start_f"] == "60"]
        minutes = [float(row["minutes"]) for row in rows]
        ranges = [times(float(size), float(row["width_in"]), 60, float(row["air_f"])) for row in rows]
        assert min(minutes) < 1.5 * min(low for low, _ in ranges)
        assert max(high for _, high in ranges) < (3.5 if size == "1" else 1.5) * max(minutes)


def test_an_inch_board_takes_a_quarter_of_an_hour_and_a_six_inch_timber_almost_five_hours() -> None:
    """The FPL study of five hardwoods as quoted in the table of heat treatments."""
    for row in read("sterilization"):
        if row["subject"] != "Heating time to 133 F core":
            continue
        side = 1.0 if row["size"].startswith("1 in") else 6.0
        low, high = times(side, 6.0, 60, float(row["temp_f"]))
        assert low <= float(row["time_min"]) <= high


@pytest.mark.parametrize("row", FORUM, ids=lambda row: f"{row['size']} at {row['temp_f']} F")
def test_forum_figures_are_no_shorter_than_the_fast_end(row: Row) -> None:
    """A weak check: no published study, and the times may hold a margin."""
    thickness, width = (float(part) for part in row["size"].removesuffix(" in").split(" x "))
    assert times(thickness, width, 60, float(row["temp_f"]))[0] < float(row["time_min"])


@pytest.mark.parametrize("half", [0.0127, 0.0254, 0.0762])
@pytest.mark.parametrize("fourier", [0.1, 0.3, 1.0])
@pytest.mark.parametrize("way", [Warming(1.6e-7, 60.0), Warming(1.6e-7, 10.0), Warming(1.6e-7, 400.0)])
def test_the_series_is_the_solution_of_the_heat_equation(half: float, fourier: float, way: Warming) -> None:
    """Against finite volumes, whose matrix scipy raises to the time."""
    cells = 100
    step = half / cells
    film = way.film * step
    flow = np.diag(np.full(cells, -2.0)) + np.diag(np.ones(cells - 1), 1) + np.diag(np.ones(cells - 1), -1)
    flow[0, 0] = -1.0
    flow[-1, -1] = -1.0 - film / (1 + film / 2)
    time = fourier * half**2 / way.diffusivity
    left = expm(flow * (way.diffusivity * time / step**2)) @ np.ones(cells)
    assert core_excess(time, half, way) == pytest.approx(left[0], abs=1e-3)


@pytest.mark.parametrize("biot", [0.05, 1.0, 30.0])
def test_the_roots_of_the_series_are_those_of_z_tan_z(biot: float) -> None:
    found = [root for root, _ in heating._terms(biot)]
    for number, root in enumerate(found):
        wanted = brentq(lambda z: z * tan(z) - biot, number * pi + 1e-9, (number + 0.5) * pi - 1e-9)
        assert root == pytest.approx(wanted, abs=1e-6)


def test_without_a_film_the_roots_are_odd_halves_of_pi() -> None:
    """The exponents of the Wood Handbook's eq. 20-4."""
    assert [root / pi for root, _ in heating._terms(inf)[:4]] == pytest.approx([0.5, 1.5, 2.5, 3.5])


def test_the_film_that_is_assumed_is_that_of_slow_air() -> None:
    assert FAST.film == inf
    assert SLOW.film * 0.2 == pytest.approx(12.0)


def test_what_kills_insects_is_what_the_table_of_heat_treatments_says() -> None:
    rows = [
        row
        for row in read("sterilization")
        if row["subject"] in ("ISPM 15 heat treatment", "Lyctus powderpost beetles")
    ]
    assert {(float(row["temp_c"]), float(row["time_min"]) * 60) for row in rows} == {(heating.CORE, heating.KEPT)}
    rule = builtin().rule("kiln-cannot-sterilize")
    assert rule is not None
    limits = {limit.name: limit.value.value for limit in rule.limits}
    assert limits["kept"] == heating.KEPT
    assert limits["kills"] == pytest.approx(heating.CORE, abs=0.2)


def test_solid_piles_take_as_much_longer_as_the_table_says() -> None:
    (row,) = [row for row in read("sterilization") if row["subject"].startswith("Solid pile")]
    assert row["note"] == f"time factor {heating.SOLID_LEAST:g} to {heating.SOLID_MOST:g}"
