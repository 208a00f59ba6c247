"""What a pile stands in: the air of its place, and whether anything moves or dries it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stacklint.drying import climate as climates
from stacklint.drying.air_drying import Unaided
from stacklint.drying.climate import Climate
from stacklint.drying.forecast import NoForecast, Way
from stacklint.drying.weather import MONTHS
from stacklint.plan.shelter import PlaceKind
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Site
from stacklint.show import percent
from stacklint.units import ONE_DAY

_OPEN = frozenset({PlaceKind.OPEN_YARD, PlaceKind.OPEN_SHED})


PILED_SOLID = 0.20
"""Moisture content up to which boards without stickers are rightly piled and go with the air, if slowly: stain has
stopped there (Univ. Missouri Extension G5550)."""
NOT_RECKONED = (
    "Cover, sides, wind, sticker thickness and the width of the pile change no time here: no published figure of "
    "what they do was found, and the range stands for them."
)
FAN_NOT_RECKONED = "How much air the fan moves is not reckoned with: only that it moves."
HELD_AT = 0.50
"""Relative humidity at which a machine that takes water out of a room's air holds it (common practice, no source:
household dehumidifiers are set to 45 to 55%)."""


class Surroundings(NamedTuple):
    """The air of a stack's place. ``removes`` is what a machine takes out of a closed room's air, kg a day;
    ``still`` says that nothing moves that air, ``unaided`` how the room would be without the machine."""

    way: Way
    climate: Climate
    words: str
    removes: float | None = None
    still: bool = False
    assumed: tuple[str, ...] = ()
    unaided: Unaided | None = None


def site_of(stack: Stack, sites: Sequence[Site]) -> tuple[Site | None, tuple[str, ...]]:
    """The site that a stack names; one that names none stands at the only site of its plan, which is then said."""
    named = stack.place.site if stack.place is not None else None
    if named is not None:
        return next((site for site in sites if site.name.text.casefold() == named.text.casefold()), None), ()
    if len(sites) == 1:
        return sites[0], (f"No site is named with its place: {sites[0].name.text}, the only one, is taken.",)
    return None, ()


def outdoors(stack: Stack, sites: Sequence[Site]) -> tuple[Climate | NoForecast, tuple[str, ...]]:
    """The air outside at the stack's site, or what is missing to know it."""
    site, assumed = site_of(stack, sites)
    if site is None:
        return (
            NoForecast(
                "How it dries is not forecast: no site is named whose air would be known.",
                'Add a block such as: site "Home yard", near "Columbus, OH"; '
                'and name it: place open yard, site "Home yard".',
                "site",
            ),
            (),
        )
    known = climates.outdoor(site)
    if known is not None:
        return known, assumed
    if "near" in site.faulty or (site.near is None and not site.months):
        missing = f"How it dries is not forecast: the air at site {site.name.text} is not known."
        return NoForecast(missing, 'Say which place it is near, as: near "Columbus, OH".', "near"), ()
    months = ", ".join(MONTHS[month - 1] for month in climates.missing_months(site))
    return (
        NoForecast(
            f"How it dries is not forecast: at site {site.name.text} the air is not known for {months}.",
            "Add those months, as: month jan -1 C 74%; or the name of a place near it.",
            "month",
        ),
        (),
    )


def surroundings(stack: Stack, sites: Sequence[Site], wettest: float) -> Surroundings | NoForecast:
    """The air that a pile stands in, or what is missing to know it. ``wettest`` is that of its wettest boards."""
    kind = stack.place.kind if stack.place is not None else PlaceKind.OPEN_YARD
    if "place" in stack.faulty and stack.place is None:
        return NoForecast("How it dries is not forecast: its place could not be read.", "Mend the place.")
    if kind is PlaceKind.KILN:
        return NoForecast(
            "How it dries is not forecast: a kiln's air is that of its schedule, which a pile does not have.",
            'Write it as a charge, as: charge "2026-07" in kiln "North box".',
            "place",
        )
    if stack.stickers is not None and stack.stickers.none and wettest > PILED_SOLID:
        return NoForecast(
            "How it dries is not forecast: the boards are piled solid, and no air reaches their faces.",
            "Lay them on stickers.",
            "stickers",
        )
    outside, assumed = outdoors(stack, sites)
    if kind in _OPEN:
        if isinstance(outside, NoForecast):
            return outside
        assumed = (*assumed, NOT_RECKONED)
        return Surroundings(Way.OPEN_AIR, outside, f"the open air at {outside.words}", assumed=assumed)
    place = stack.place
    temperature = place.temperature.si if place is not None and place.temperature is not None else None
    humidity = place.humidity.si if place is not None and place.humidity is not None else None
    known = None if isinstance(outside, NoForecast) else outside
    room = climates.indoor(kind, known, temperature, humidity)
    if room is None:
        assert isinstance(outside, NoForecast)
        return NoForecast(
            outside.missing,
            f"{outside.instead} Or give the room's own air, as: place {kind.value}, 60 F 45%.",
            outside.topic,
        )
    fan = stack.fan
    if "fan" in stack.faulty and (fan is None or fan.removes is None):
        return NoForecast("How it dries is not forecast: its fan could not be read.", "Mend the fan.")
    removes = fan.removes.si * ONE_DAY if fan is not None and fan.removes is not None else None
    own_air = kind is PlaceKind.HEATED_SHOP or (temperature is not None and humidity is not None)
    still = fan is None and not own_air
    if still:
        assumed = (*assumed, f"Nothing moves the air of the {kind.value}: boards above 20% stay as wet as they are.")
    assumed = (*assumed, *room.assumed)
    blown = fan is not None and fan.each is not None
    unaided = Unaided(room, still=not own_air and not blown) if removes is not None else None
    if removes and humidity is None:
        room = room._replace(months=tuple(air._replace(humidity=min(air.humidity, HELD_AT)) for air in room.months))
        assumed = (*assumed, f"The machine holds the room at {percent(HELD_AT)} relative humidity or less (assumed).")
    if blown:
        assumed = (*assumed, FAN_NOT_RECKONED)
    return Surroundings(Way.ROOM, room, f"the air of {room.words}", removes, still, assumed, unaided)
