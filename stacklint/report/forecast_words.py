"""When boards are ready, in words: days, spans of days, and what is not reached."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from stacklint.drying.forecast import BatchForecast, Forecast, Pace, curve
from stacklint.show import percent

KEYS = (0.30, 0.20)
"""Moisture contents on the way: at about 30% the cell walls begin to dry (Wood Handbook, FPL-GTR-282, chapter 4;
memory), below 20% stain and mould stop (NAVFAC MO-312)."""
_YEAR = 365
_LONG = 2 * _YEAR
"""Days. From here on it is told in years for how long the boards were followed."""


def day_or_never(day: datetime.date | None, forecast: Forecast, pace: Pace) -> str:
    """*2026-08-12*, or *not in 3 years* where that is all that was looked at."""
    return day.isoformat() if day is not None else f"not in {followed(forecast, pace)}"


def followed(forecast: Forecast, pace: Pace) -> str:
    """For how long the boards were followed: *400 days*, *3 years*."""
    days = max((len(curve(each.spread, pace).moisture) - 1 for each in forecast.batches), default=0)
    return f"{round(days / _YEAR)} years" if days >= _LONG else f"{days} days"


def ready_words(forecast: Forecast, due: datetime.date | None) -> str:
    """When all boards are ready, likely and at the earliest and latest; and when they are due.

    Where no moisture content is wanted, that is said, for the days then are those of a customary one.
    """
    fast, likely, slow = (forecast.ready(pace) for pace in Pace)
    wanted_by = f"; wanted by {due.isoformat()}" if due else ""
    if forecast.wanted is None:
        wanted_by += "; no moisture content is wanted"
    if fast is None:
        at = "" if forecast.wanted is None else f" at {percent(forecast.wanted)}"
        never = f"not{at} in {followed(forecast, Pace.FAST)}"
        return f"{never}, where the air holds wood at {forecast.floor:.1%} at the driest{wanted_by}"
    said = day_or_never(likely, forecast, Pace.LIKELY)
    if slow is None:
        latest = day_or_never(slow, forecast, Pace.SLOW)
        return f"{said}; at the earliest {fast.isoformat()}, at the slowest {latest}{wanted_by}"
    return f"{said}, between {fast.isoformat()} and {slow.isoformat()}{wanted_by}"


def drying_alike(batches: Iterable[BatchForecast]) -> tuple[tuple[BatchForecast, ...], ...]:
    """Batches of which the same is forecast, together, in the order of their first ones."""
    groups: dict[object, list[BatchForecast]] = {}
    for each in batches:
        groups.setdefault((each.spread, each.alone), []).append(each)
    return tuple(map(tuple, groups.values()))


def labels(group: Iterable[BatchForecast]) -> str:
    """*a*, *a and b*, *a, b and c*."""
    *first, last = (each.batch.label for each in group)
    return f"{', '.join(first)} and {last}" if first else last
