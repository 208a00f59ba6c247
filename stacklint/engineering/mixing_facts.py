"""Facts of boards that dry at different speeds in one stack: by their thickness and by their wood."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from stacklint.drying import air_drying
from stacklint.drying.forecast import Forecast, NoForecast, Way
from stacklint.drying.pile_forecast import STAIN_STOPS
from stacklint.engineering import times
from stacklint.engineering.facts import Statement
from stacklint.engineering.lots import Lot
from stacklint.plan.stack import Stack, StackKind
from stacklint.tables import safe_rates
from stacklint.show import show_range
from stacklint.units import ONE_DAY, ONE_INCH, TIME, System

_DRY = 0.20


class _Range(NamedTuple):
    low: float | None
    high: float | None


def thickness(stack: Stack, lots: Mapping[str, Lot], forecast: Forecast | NoForecast) -> dict[str, Any]:
    """The thickest and the thinnest of the boards that have yet to dry, and their drying times.

    The times are forecast ones, to 20% in the air and to the wanted moisture content in a kiln; without a forecast
    published ones. The ratio is by thickness alone, as though they were of one wood.
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
    spread = next(each.spread for each in forecast.batches if each.batch.label == lot.label)
    if forecast.way is Way.KILN:
        low, high = spread.fast.reached, spread.slow.reached
    else:
        low, high = spread.fast.below(STAIN_STOPS), spread.slow.below(STAIN_STOPS)
    return None if low is None or high is None else _Range(low * ONE_DAY, high * ONE_DAY)


def _published_range(lot: Lot, stack: Stack) -> _Range:
    found = times.drying_time(lot.wood, lot.thickness, lot.moisture.value, kiln=stack.kind is StackKind.CHARGE)
    return _Range(found.low, found.high)


def species(lots: Mapping[str, Lot]) -> dict[str, Any]:
    """How far the woods of the boards that have yet to dry are from one another, as if all were of one thickness."""
    drying = _yet_to_dry(lots)
    woods = {lot.wood.name: lot.wood for lot in drying}
    if len(woods) < 2:
        return {"woods": float(len(woods))}
    batches = {name: air_drying.wood_rate(wood) for name, wood in woods.items()}
    slow = min(batches, key=lambda name: batches[name])
    quick = max(batches, key=lambda name: batches[name])
    safe = {name: each.per_day for name, wood in woods.items() if (each := safe_rates.of(wood, ONE_INCH)) is not None}
    least = min(safe, key=lambda name: safe[name], default=None)
    most = max(safe, key=lambda name: safe[name], default=None)
    return {
        "woods": float(len(woods)),
        "pace_ratio": batches[quick] / batches[slow],
        "slow_wood": slow,
        "quick_wood": quick,
        "safe_ratio": safe[most] / safe[least] if least is not None and most is not None and len(safe) > 1 else None,
        "safe_least_wood": least,
        "safe_most_wood": most,
    }
