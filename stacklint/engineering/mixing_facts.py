"""Facts of boards that dry at different speeds in one stack: by their thickness and by their wood."""

from __future__ import annotations

from collections.abc import Mapping
from math import log
from typing import Any, NamedTuple

from stacklint.drying import air_drying, times
from stacklint.drying.forecast import BatchForecast, Forecast, NoForecast, Way
from stacklint.drying.pile_forecast import STAIN_STOPS
from stacklint.engineering.facts import Statement
from stacklint.engineering.lots import Lot
from stacklint.plan.stack import Stack, StackKind
from stacklint.show import show_range
from stacklint.tables import safe_rates, schedules
from stacklint.units import ONE_DAY, ONE_INCH, TIME, System

_DRY = 0.20
_HELD = 0.125
"""What the air of a mean yard holds wood at: 12.5%, the middle of 12 to 13% (Wood Handbook ch. 13, outdoors in most of
the United States, memory)."""
_LEAST_GREEN = 0.25
"""Green wood of a plan that says less is taken as wet as this: none dries from below 20% to 20%."""


class _Range(NamedTuple):
    low: float | None
    high: float | None


def thickness(stack: Stack, lots: Mapping[str, Lot], forecast: Forecast | NoForecast) -> dict[str, Any]:
    """The thickest and the thinnest of the boards that have yet to dry, and their drying times.

    The times are forecast ones, to 20% in the air and to the wanted moisture content in a kiln, there in a charge of
    their own; without a forecast published ones. The ratio is by thickness alone, as though they were of one wood.
    """
    drying = _yet_to_dry(lots)
    slow = max(drying, key=lambda lot: lot.thickness)
    quick = min(drying, key=lambda lot: lot.thickness)
    long, short = _forecast_range(slow, forecast), _forecast_range(quick, forecast)
    if long is None or short is None:
        long, short = _published_range(slow, stack), _published_range(quick, stack)
    ratio = slow.thickness / quick.thickness
    return {
        "thickness_ratio": ratio,
        "time_ratio": ratio**times.THICKNESS_EXPONENT,
        "slow_boards": slow.words,
        "quick_boards": quick.words,
        "slow_low": long.low,
        "slow_high": long.high,
        "quick_low": short.low,
        "quick_high": short.high,
        "slow_range": _words(long),
        "quick_range": _words(short),
        "slow_group": Statement(where=slow.boards.where),
    }


def _words(days: _Range) -> str | None:
    if days.low is None or days.high is None:
        return None
    return show_range(days.low, days.high, TIME, System.INCH)  # days are the same in both


def _yet_to_dry(lots: Mapping[str, Lot]) -> list[Lot]:
    return [lot for lot in lots.values() if lot.moisture.value > _DRY] or list(lots.values())


def _forecast_range(lot: Lot, forecast: Forecast | NoForecast) -> _Range | None:
    if isinstance(forecast, NoForecast):
        return None
    found = next(each for each in forecast.batches if each.batch.label == lot.label)
    if forecast.way is Way.KILN:
        return _alone(found)
    low, high = found.spread.fast.below(STAIN_STOPS), found.spread.slow.below(STAIN_STOPS)
    return None if low is None or high is None else _Range(low * ONE_DAY, high * ONE_DAY)


def _alone(found: BatchForecast) -> _Range | None:
    """The likely time alone, as much shorter and longer as the batch's fast and slow time in the charge are."""
    fast, likely, slow = ((found.unread or found.spread)[pace].reached for pace in range(3))
    if found.alone is None or fast is None or slow is None or not likely:
        return None
    return _Range(found.alone * fast / likely * ONE_DAY, found.alone * slow / likely * ONE_DAY)


def _published_range(lot: Lot, stack: Stack) -> _Range:
    found = times.drying_time(lot.wood, lot.thickness, lot.moisture.value, kiln=stack.kind is StackKind.CHARGE)
    return _Range(found.low, found.high)


def species(lots: Mapping[str, Lot]) -> dict[str, Any]:
    """How far the woods of the boards that have yet to dry are from one another, as if all were of one thickness."""
    drying = _yet_to_dry(lots)
    woods = {lot.wood.name: lot.wood for lot in drying}
    if len(woods) < 2:
        return {"woods": float(len(woods))}
    times_of = {name: max(_time(lot) for lot in drying if lot.wood.name == name) for name in woods}
    slow = max(times_of, key=lambda name: times_of[name])
    quick = min(times_of, key=lambda name: times_of[name])
    safe = {name: found.per_day for name, wood in woods.items() if (found := safe_rates.of(wood, ONE_INCH)) is not None}
    facts: dict[str, Any] = {
        "woods": float(len(woods)),
        "pace_ratio": times_of[slow] / times_of[quick],
        "schedule_steps": _schedule_steps(drying),
        "slow_wood": slow,
        "quick_wood": quick,
    }
    if len(safe) > 1:
        least, most = (end(safe, key=lambda name: safe[name]) for end in (min, max))
        facts |= {"safe_ratio": safe[most] / safe[least], "safe_least_wood": least, "safe_most_wood": most}
    return facts


def _time(lot: Lot) -> float:
    """How long boards of one thickness take from their moisture content to 20% in air that holds wood at 12.5%, by the
    law of :mod:`stacklint.drying.air_drying`: of green ash and green white oak, which go at one rate, the wetter oak
    takes longer, as in the published times (60 and 80 days at least, Wood Handbook list, memory). Boards that are
    drier than that are taken as green."""
    wet = lot.moisture.value if lot.moisture.value > _DRY else max(lot.wood.mc_green, _LEAST_GREEN)
    return log((wet - _HELD) / (_DRY - _HELD)) / air_drying.wood_rate(lot.wood)


def _schedule_steps(drying: list[Lot]) -> float | None:
    """How far apart the published temperature schedules of the woods are, 1 in thick; ``None`` where fewer than two are
    known."""
    codes = [found.code for lot in drying if (found := schedules.published(lot.wood, ONE_INCH)) is not None]
    numbers = [int(code.partition("-")[0].removeprefix("T")) for code in codes]
    return float(max(numbers) - min(numbers)) if len(numbers) > 1 else None
