"""Why facts of a stack are unknown: what the plan does not say, and what no table holds.

A rule that leans on such a fact and cannot be judged for want of it is told in a note: see
:mod:`stacklint.rulebook.lacking`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType

from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.drying.surroundings import outdoors
from stacklint.engineering.drying_facts import Drying
from stacklint.engineering.lots import Lot
from stacklint.engineering.part_facts import Bearer
from stacklint.faults import Lack
from stacklint.plan.shelter import CoverKind
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln, KilnType, Site
from stacklint.tables import safe_rates, schedules
from stacklint.tables.wood import Trait

_SAY_IT = "Say in a wood block which wood it is like (like)."
_TRAITS: Mapping[Trait, tuple[str, frozenset[str]]] = MappingProxyType(
    {
        Trait.WARP: ("whether {} warps", frozenset({"Group.warp_prone", "StackFacts.warp_prone"})),
        Trait.CHECK: ("whether {} checks", frozenset({"Group.check_prone"})),
        Trait.STAIN: ("whether {} stains", frozenset({"Group.stain_prone", "StackFacts.stain_prone"})),
        Trait.POWDERPOST: ("whether beetles attack {}", frozenset({"StackFacts.powderpost_prone"})),
    }
)
"""What is not known of a wood, in words with its name, and the facts that are unknown for it."""
_AIR = frozenset({"StackFacts.air_temperature", "StackFacts.air_humidity"})
"""Facts of the outdoor air on the day of stacking."""
_READINGS = frozenset({"Reading.held", "Reading.slow"})
_FORECAST = _READINGS | frozenset(
    {
        "Group.first_loss",
        "StackFacts.dryer_takes",
        "StackFacts.late_fast",
        "StackFacts.late_likely",
        "StackFacts.reach",
        "StackFacts.ready_likely",
        "StackFacts.ready_words",
        "StackFacts.water_safe",
        "StackFacts.water_scheduled",
    }
)
"""Facts that a forecast gives."""


def lacks(
    stack: Stack,
    lots: Mapping[str, Lot],
    kiln: Kiln | None,
    sites: Sequence[Site],
    drying: Drying,
    bearers: Sequence[Bearer],
) -> tuple[Lack, ...]:
    """Everything that facts of a stack are unknown for want of, but what is told already: statements that could not be
    read, and why the drying is not forecast where a moisture content is wanted."""
    found = [*_of_days(stack), *_of_cover(stack), *_of_woods(lots), *_of_bearers(bearers), *_of_heat(stack)]
    if stack.kind is StackKind.CHARGE:
        found += _of_kiln(stack, kiln) if kiln is not None else ()
    forecast = drying.forecast
    if isinstance(forecast, Forecast) or any(said.text.startswith(forecast.missing) for said in drying.assumptions):
        return tuple(found)
    if stack.kind is StackKind.PILE:
        found += _of_air(stack, sites)
    if stack.kind is StackKind.PILE or kiln is not None:
        found.append(_of_forecast(stack, forecast, _READINGS if _dry_already(stack, lots) else _FORECAST))
    return tuple(found)


def _dry_already(stack: Stack, lots: Mapping[str, Lot]) -> bool:
    """Boards that are as dry as wanted need no forecast."""
    wanted = stack.want.moisture if stack.want is not None else None
    return wanted is not None and all(lot.moisture.value <= wanted.si for lot in lots.values())


def _of_days(stack: Stack) -> Iterator[Lack]:
    if stack.kind is StackKind.CHARGE:
        return
    stacked, sawn = stack.stacked is not None, stack.sawn is not None
    if not stacked and "stacked" not in stack.faulty:
        facts = _AIR | ({"StackFacts.days_waiting"} if sawn else frozenset())
        yield Lack(stack.name.where, "It is not said", "when the pile is stacked", "stacked", facts)
    if stacked and not sawn and "sawn" not in stack.faulty:
        facts = frozenset({"StackFacts.days_waiting"})
        yield Lack(stack.name.where, "It is not said", "when the boards were sawn", "sawn", facts)


def _of_cover(stack: Stack) -> Iterator[Lack]:
    cover = stack.cover
    if cover is None or cover.kind is CoverKind.NONE or "cover" in stack.faulty:
        return
    if cover.gap is None:
        what = "what air is left over the top course"
        yield Lack(cover.where, "It is not said", what, "cover", frozenset({"Cover.gap"}))
    if cover.slope is None:
        yield Lack(cover.where, "It is not said", "how the cover slopes", "cover", frozenset({"Cover.slope"}))


def _of_woods(lots: Mapping[str, Lot]) -> Iterator[Lack]:
    """What the tables do not know of the woods."""
    for lot in lots.values():
        name = lot.wood.name
        if safe_rates.of(lot.wood, lot.thickness) is None:
            facts = frozenset({"Group.safe_loss", "Reading.safe"})
            what = f"how much {name} may lose in a day"
            yield Lack(lot.boards.where, "No table says", what, "like", facts, _SAY_IT)
        if schedules.published(lot.wood, lot.thickness) is None:
            facts = frozenset({"StackFacts.schedule_harsher"})
            what = f"by what kiln schedule {name} is dried"
            yield Lack(lot.boards.where, "No table says", what, "like", facts, _SAY_IT)
        for trait, (words, facts) in _TRAITS.items():
            if trait in lot.wood.unknown:
                yield Lack(lot.boards.where, "No table says", words.format(name), "like", facts, _SAY_IT)


def _of_bearers(bearers: Sequence[Bearer]) -> Iterator[Lack]:
    """Steel, and lumber under a nominal 2 in, have no design values in the tables."""
    for bearer in bearers[:1]:
        if bearer.worst is None:
            what = f"what bearers of {bearer.section} carry"
            instead = "Take bearers of lumber 2 in thick or thicker, or go by their maker's rating."
            yield Lack(bearer.where, "No table says", what, "bearers", frozenset({"Bearer.worst"}), instead)


def _of_heat(stack: Stack) -> Iterator[Lack]:
    if stack.sterilize is not None and stack.hold is None and "hold" not in stack.faulty:
        facts = frozenset({"StackFacts.hold_time", "StackFacts.hold_temperature"})
        yield Lack(stack.sterilize.where, "It is not said", "how long the boards are kept hot", "hold", facts)


def _of_air(stack: Stack, sites: Sequence[Site]) -> Iterator[Lack]:
    outside, _ = outdoors(stack, sites)
    if isinstance(outside, NoForecast):
        yield _of_forecast(stack, outside, _AIR)


def _of_forecast(stack: Stack, forecast: NoForecast, facts: Iterable[str]) -> Lack:
    if forecast.topic == "site":
        return Lack(stack.name.where, "It is not said", "at which site it stands", "site", frozenset(facts))
    where = stack.place.where if stack.place is not None else stack.name.where
    return Lack(where, forecast.reason, "", forecast.topic, frozenset(facts), forecast.instead)


def _of_kiln(stack: Stack, kiln: Kiln) -> Iterator[Lack]:
    where = stack.kiln.where if stack.kiln is not None else stack.name.where
    solar = kiln.type is KilnType.SOLAR or (kiln.type is None and kiln.collector is not None)
    dehumidifier = kiln.type is KilnType.DEHUMIDIFICATION
    for unsaid, topic, what, facts in (
        (kiln.type is None and kiln.removes is None and not solar, "type", "of what type it is", {"KilnFacts.type"}),
        (kiln.inside is None, "inside", "how large it is inside", {"Fit.has", "StackFacts.bypass"}),
        (kiln.holds is None, "holds", "what it holds", {"KilnFacts.holds", "StackFacts.kiln_measure"}),
        (kiln.carries is None, "carries", "what it carries", {"KilnFacts.carries"}),
        (
            kiln.heats_to is None,
            "heats to",
            "how hot it gets",
            {"KilnFacts.heats_to", "StackFacts.heat_temperature", "StackFacts.hottest"},
        ),
        (kiln.removes is None and dehumidifier, "removes", "what water it takes out", {"StackFacts.dryer_takes"}),
        (kiln.collector is None and solar, "collector", "how large its collector is", {"StackFacts.dryer_takes"}),
        (
            kiln.fan_count is None or kiln.fan_each is None,
            "fans",
            "what its fans move",
            {"StackFacts.air_speed", "StackFacts.bypass", "StackFacts.gaps"},
        ),
        (kiln.plenum is None, "plenum", "how wide its plenum is", {"Fit.needs", "StackFacts.plenum_ratio"}),
    ):
        if unsaid and topic not in kiln.faulty:
            yield Lack(where, f"Kiln {kiln.name.text} does not say", what, topic, frozenset(facts))
