"""Finds places in the climate table by the names that people write."""

from __future__ import annotations

from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from stacklint.tables.rows import Row, number, read
from stacklint.tables.spelling import alike, best, plain

_NEAR = 0.6
"""Names less alike than this are not offered."""
_SAME_REGION = 0.75
"""Places of the same state or province stand before names spelt only partly like it."""

# Abbreviations of the states, as the postal service of the United States writes them; of the provinces, Canada Post.
_REGIONS = MappingProxyType(
    {
        "AL": "Alabama", "AK": "Alaska", "AZ": "Arizona", "AR": "Arkansas", "CA": "California", "CO": "Colorado",
        "CT": "Connecticut", "DE": "Delaware", "DC": "District of Columbia", "FL": "Florida", "GA": "Georgia",
        "HI": "Hawaii", "ID": "Idaho", "IL": "Illinois", "IN": "Indiana", "IA": "Iowa", "KS": "Kansas",
        "KY": "Kentucky", "LA": "Louisiana", "ME": "Maine", "MD": "Maryland", "MA": "Massachusetts",
        "MI": "Michigan", "MN": "Minnesota", "MS": "Mississippi", "MO": "Missouri", "MT": "Montana",
        "NE": "Nebraska", "NV": "Nevada", "NH": "New Hampshire", "NJ": "New Jersey", "NM": "New Mexico",
        "NY": "New York", "NC": "North Carolina", "ND": "North Dakota", "OH": "Ohio", "OK": "Oklahoma",
        "OR": "Oregon", "PA": "Pennsylvania", "RI": "Rhode Island", "SC": "South Carolina", "SD": "South Dakota",
        "TN": "Tennessee", "TX": "Texas", "UT": "Utah", "VT": "Vermont", "VA": "Virginia", "WA": "Washington",
        "WV": "West Virginia", "WI": "Wisconsin", "WY": "Wyoming", "AB": "Alberta", "BC": "British Columbia",
        "NB": "New Brunswick", "NS": "Nova Scotia", "ON": "Ontario", "QC": "Quebec", "NSW": "New South Wales",
    }
)  # fmt: skip
_COUNTRIES = MappingProxyType({"United States": ("USA", "US"), "United Kingdom": ("UK", "Great Britain")})


class PlaceMonth(NamedTuple):
    """Mean temperature (degrees Celsius) and relative humidity (a share) of a month; ``None`` where unknown."""

    temperature: float | None
    humidity: float | None
    sources: tuple[str, ...]
    memory: bool


class Place(NamedTuple):
    """A place of the climate table. ``months`` are January to December, ``None`` where the table has no row."""

    name: str
    country: str
    months: tuple[PlaceMonth | None, ...]

    @property
    def complete(self) -> bool:
        """Both figures of all twelve months are known."""
        return all(
            month is not None and month.temperature is not None and month.humidity is not None for month in self.months
        )

    @property
    def memory(self) -> bool:
        """Some of its figures were recalled and not read."""
        return any(month.memory for month in self.months if month is not None)

    @property
    def sources(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(source for month in self.months if month is not None for source in month.sources))


def find(name: str) -> Place | None:
    """The place that a name stands for: ``Columbus, OH``, ``Columbus, Ohio`` or ``columbus oh``.

    A town alone is taken where one state or province of the table has a town of that name. Of two stations of a
    town (``London`` and ``London (Gatwick)``) the one with all its figures, then the plainer name. ``None`` for
    unknown and ambiguous names.
    """
    written = plain(name)
    known = [place for place, towns in _towns() if written.startswith(towns) and written in _keys(_rows()[place][0])]
    if len({place.rpartition(", ")[2] for place in known}) != 1:
        return None
    return min((_place(place) for place in known), key=lambda place: (not place.complete, len(place.name)))


def nearest(name: str, count: int = 3) -> tuple[str, ...]:
    """The places of the table whose names are most like ``name``; all of that name where it is ambiguous."""
    written = plain(name)
    scored = [(score, place) for score, key in alike(written, _names(), _NEAR) for place in _names()[key]]
    town = plain(name.partition(",")[0])
    region = _region(name)
    if region is not None:
        scored = [(score if place.endswith(f", {region}") else score - 0.3, place) for score, place in scored]
        scored += [(_SAME_REGION, place) for place in _rows() if place.endswith(f", {region}")]
    scored += [(0.95, place) for place in _names().get(town, ())]
    return best(scored, count, _NEAR)


def names() -> tuple[str, ...]:
    """The names of all places in the table, in its order."""
    return tuple(_rows())


def _region(name: str) -> str | None:
    """The state or province that a name ends with or is: ``PA`` and ``Pennsylvania``."""
    last = name.rpartition(",")[2].strip()
    known = {row[0]["region"] for row in _rows().values()}
    found = _REGIONS.get(last.upper()) or next((each for each in known if plain(each) == plain(last)), None)
    return found if found in known else None


@cache
def _rows() -> dict[str, list[Row]]:
    places: dict[str, list[Row]] = {}
    for row in read("climate_normals"):
        places.setdefault(f"{row['place']}, {row['region']}", []).append(row)
    return places


@cache
def _towns() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Every place with the plain names of its town, which is how all that it is written by begins."""
    return tuple(
        (place, tuple(plain(town) for town in _town_names(rows[0]["place"]))) for place, rows in _rows().items()
    )


@cache
def _names() -> dict[str, tuple[str, ...]]:
    """Places by every plain name that they may be written by."""
    found: dict[str, tuple[str, ...]] = {}
    for place, rows in _rows().items():
        for key in _keys(rows[0]):
            found[key] = (*found.get(key, ()), place)
    return found


def _keys(row: Row) -> dict[str, None]:
    short = [abbreviation for abbreviation, region in _REGIONS.items() if region == row["region"]]
    towns = _town_names(row["place"])
    outer = ["", row["region"], *short, row["country"], *_COUNTRIES.get(row["country"], ())]
    ends = [*outer, *(f"{region} {country}" for region in (row["region"], *short) for country in outer[-3:])]
    return dict.fromkeys(plain(f"{town} {end}") for town in towns for end in ends)


def _town_names(place: str) -> tuple[str, ...]:
    return (place, place.partition(" (")[0], *_twin_towns(place))


def _twin_towns(place: str) -> tuple[str, ...]:
    """``Seattle-Tacoma`` is found as ``Seattle`` and ``Tacoma``."""
    return tuple(place.split("-")) if "-" in place else ()


@cache
def _place(name: str) -> Place:
    rows = _rows()[name]
    months = tuple(_best_month([row for row in rows if int(row["month"]) == month]) for month in range(1, 13))
    return Place(name, rows[0]["country"], months)


def _best_month(rows: list[Row]) -> PlaceMonth | None:
    """Of several sources for a month's figure one that was read, one that gives both figures, the first."""
    if not rows:
        return None
    temperature, humidity = _best(rows, "mean_temp_c"), _best(rows, "mean_rh_pct")
    used = [row for row in (temperature, humidity) if row is not None]
    return PlaceMonth(
        None if temperature is None else number(temperature["mean_temp_c"]),
        None if humidity is None else number(humidity["mean_rh_pct"], 0.01),
        tuple(dict.fromkeys(row["source"] for row in used)),
        memory=any(row["how"] == "memory" for row in used),
    )


def _best(rows: list[Row], figure: str) -> Row | None:
    known = (row for row in rows if row[figure])
    return min(
        known, key=lambda row: (row["how"] == "memory", not (row["mean_temp_c"] and row["mean_rh_pct"])), default=None
    )
