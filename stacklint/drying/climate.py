"""The air that boards stand in, month by month: a site's, and that of sheds and rooms derived from it.

Rooms without figures of their own hold at least as much water vapour as the air outdoors; where they are warmer, that
air is drier. What each kind of room is taken for is said in :data:`_WARMTH` and :data:`_WATER`, in the words that
reach the reader.
"""

from __future__ import annotations

from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from stacklint.drying.air import saturation_pressure
from stacklint.drying.equilibrium import equilibrium
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.yard import Site
from stacklint.tables import places

_DAMPEST = 0.95
"""No month's mean air is taken damper: nearer saturation the equilibrium of wood is not known."""
_DAMPEST_BASEMENT = 0.85


class Air(NamedTuple):
    """Mean air of a time: temperature in degrees Celsius, relative humidity as a share."""

    temperature: float
    humidity: float


class Climate(NamedTuple):
    """The mean air of the twelve months, January first.

    ``words`` says whose air it is; ``memory`` is true where some of it was recalled and not read; ``assumed`` says
    in whole sentences what was assumed to derive it.
    """

    months: tuple[Air, ...]
    words: str
    source: str
    memory: bool
    assumed: tuple[str, ...] = ()


class _Known(NamedTuple):
    """A month that is known: its air and where that was read."""

    air: Air
    sources: tuple[str, ...]
    memory: bool


def outdoor(site: Site) -> Climate | None:
    """The outdoor air at a site: its own months, the others those of the place it is near.

    ``None`` where that leaves a month without figures; :func:`missing_months` says which.
    """
    near = None if site.near is None else site.near.text
    if not site.months:
        return None if near is None else _at_place(near)
    months = _months(site)
    known = [month for month in months if month is not None]
    if len(known) < 12:
        return None
    place = None if near is None or len(_own(site)) == 12 else places.find(near)
    return _climate(known, site.name.text if place is None else place.name)


def missing_months(site: Site) -> tuple[int, ...]:
    """The months (1 for January) for which neither the site nor the place it is near has both figures."""
    return tuple(number for number, month in enumerate(_months(site), start=1) if month is None)


def indoor(
    kind: PlaceKind, outdoor: Climate | None, temperature: float | None = None, humidity: float | None = None
) -> Climate | None:
    """The air in a room or shed: the plan's own temperature (C) and humidity (a share), else derived from outdoors.

    What the plan gives holds in every month. ``None`` where it does not give both and the outdoor air is not known.
    The open yard and the open shed have the outdoor air; the air of a kiln is its schedule's: ``None``.
    """
    if kind is PlaceKind.KILN:
        return None
    if temperature is not None and humidity is not None:
        return Climate((Air(temperature, humidity),) * 12, f"the {kind.value}", "the plan", memory=False)
    if outdoor is None:
        return None
    if kind in _OPEN and temperature is None and humidity is None:
        return outdoor
    months = tuple(
        Air(warmth, _humidity(kind, air, warmth) if humidity is None else humidity)
        for air, warmth in zip(outdoor.months, _warmths(kind, outdoor.months, temperature), strict=True)
    )
    words = f"the {kind.value} at {outdoor.words}"
    assumed = (*outdoor.assumed, *_assumed(kind, temperature, humidity))
    return Climate(months, words, outdoor.source, outdoor.memory, assumed)


def lowest_equilibrium(climate: Climate) -> tuple[float, int]:
    """The lowest monthly equilibrium moisture content (a share), and its month (1 for January)."""
    return min((equilibrium(*air), number) for number, air in enumerate(climate.months, start=1))


# Outdoors


def _months(site: Site) -> tuple[_Known | None, ...]:
    own = _own(site)
    near = (None,) * 12 if site.near is None else _place_months(site.near.text)
    return tuple(own.get(number, month) for number, month in enumerate(near, start=1))


def _own(site: Site) -> dict[int, _Known]:
    sources = (f"the plan's months of site {site.name.text}",)
    return {
        month.number: _Known(Air(month.temperature.si, month.humidity.si), sources, memory=False)
        for month in site.months
    }


@cache
def _place_months(name: str) -> tuple[_Known | None, ...]:
    place = places.find(name)
    return (None,) * 12 if place is None else tuple(_known(month) for month in place.months)


def _known(month: places.PlaceMonth | None) -> _Known | None:
    if month is None or month.temperature is None or month.humidity is None:
        return None
    return _Known(Air(month.temperature, month.humidity), month.sources, month.memory)


@cache
def _at_place(name: str) -> Climate | None:
    place, months = places.find(name), _place_months(name)
    known = [month for month in months if month is not None]
    return None if place is None or len(known) < 12 else _climate(known, place.name)


def _climate(months: list[_Known], words: str) -> Climate:
    sources = dict.fromkeys(source for month in months for source in month.sources)
    memory = any(month.memory for month in months)
    return Climate(tuple(month.air for month in months), words, "; ".join(sources), memory)


# Rooms

_OPEN = frozenset({PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED})

# The figures for attics, greenhouses and basements have no published source.
_WARMTH = MappingProxyType(
    {
        PlaceKind.ATTIC: "The attic is taken to be 10 C (18 F) warmer than outdoors in the warm half of the year and "
        "5 C (9 F) warmer in the cold half.",
        PlaceKind.GREENHOUSE: "The greenhouse is taken to be 8 C (14 F) warmer than outdoors.",
        PlaceKind.BASEMENT: "The basement is taken to be half way between the outdoor means of the month and of the "
        "year, and at least 12 C (54 F).",
        PlaceKind.HEATED_SHOP: "The heated shop is taken to be at 20 C (68 F) while it is below 10 C (50 F) outdoors, "
        "rising to 25 C (77 F) at 20 C (68 F) outdoors (EN 15026, recalled), and no colder than outdoors.",
    }
)
_WATER = MappingProxyType(
    {
        PlaceKind.BASEMENT: "The air in the basement is taken to hold up to 270 Pa more water vapour than that "
        "outdoors in cold months (humidity class 1 of EN ISO 13788, recalled), and to be at most 85% humid.",
        PlaceKind.HEATED_SHOP: "The air in the heated shop is taken to hold up to 270 Pa more water vapour than that "
        "outdoors in cold months (humidity class 1 of EN ISO 13788, recalled).",
    }
)


def _assumed(kind: PlaceKind, temperature: float | None, humidity: float | None) -> tuple[str, ...]:
    warmth = _WARMTH.get(kind, f"The {kind.value} is taken to be as warm as outdoors.")
    water = _WATER.get(kind, f"The air in the {kind.value} is taken to hold as much water vapour as that outdoors.")
    return (*((warmth,) if temperature is None else ()), *((water,) if humidity is None else ()))


def _warmths(kind: PlaceKind, outdoors: tuple[Air, ...], given: float | None) -> tuple[float, ...]:
    if given is not None:
        return (given,) * 12
    mean = sum(air.temperature for air in outdoors) / 12
    return tuple(_warmth(kind, air.temperature, mean) for air in outdoors)


def _warmth(kind: PlaceKind, outdoors: float, mean: float) -> float:
    """Temperature of a room in a month, C, from those outdoors of the month and of the year."""
    match kind:
        case PlaceKind.ATTIC:
            return outdoors + (10 if outdoors > mean else 5)
        case PlaceKind.GREENHOUSE:
            return outdoors + 8
        case PlaceKind.BASEMENT:
            return max((outdoors + mean) / 2, 12)
        case PlaceKind.HEATED_SHOP:
            return max(outdoors, 20 + 5 * _share(outdoors, 10, 20))
        case _:
            return outdoors


def _humidity(kind: PlaceKind, outdoors: Air, temperature: float) -> float:
    """Relative humidity of a room's air at a temperature, from the water in the outdoor air and that added inside."""
    if temperature == outdoors.temperature and kind not in _LIVED_IN:
        return outdoors.humidity
    vapour = outdoors.humidity * saturation_pressure(outdoors.temperature)
    if kind in _LIVED_IN:
        vapour += _CLASS_1 * (1 - _share(outdoors.temperature, 0, 20))
    most = _DAMPEST_BASEMENT if kind is PlaceKind.BASEMENT else _DAMPEST
    return min(vapour / saturation_pressure(temperature), most)


_LIVED_IN = frozenset({PlaceKind.BASEMENT, PlaceKind.HEATED_SHOP})
_CLASS_1 = 270.0
"""Water vapour that storage rooms hold above that outdoors, Pa, at 0 C outdoors and below; none at 20 C. Upper bound
of humidity class 1, EN ISO 13788 (memory)."""


def _share(value: float, low: float, high: float) -> float:
    return min(max((value - low) / (high - low), 0.0), 1.0)
