"""Forecasts beside each other in tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stacklint.drying.forecast import Pace
from stacklint.report.columns import table
from stacklint.report.forecast_chart import Forecasted, told_apart
from stacklint.report.forecast_words import KEYS, day_or_never, ready_words
from stacklint.show import percent


def compared_table(found: Sequence[Forecasted], width: int) -> Iterator[str]:
    """A column for each stack: what it dries by, when it starts, and the days that matter with their range."""
    rows = [
        ["", *(told_apart(one, found) for one in found)],
        ["dries in", *(one.forecast.air_words for one in found)],
        ["starts", *(one.forecast.start.isoformat() for one in found)],
        ["wanted", *(_wanted(one) for one in found)],
    ]
    for key in KEYS:
        if any(key < _wettest(one) and key > (one.forecast.wanted or 0.0) for one in found):
            rows.append([f"below {percent(key)}", *(_days(one, key) for one in found)])
    rows.append(["ready", *(ready_words(one.forecast, None) for one in found)])
    rows.append(["slowest", *(one.forecast.slowest.batch.words for one in found)])
    rows.append(["driest", *(f"the air holds wood at {one.forecast.floor:.1%}" for one in found)])
    yield from table(rows, width)


def ready_table(found: Sequence[Forecasted], width: int) -> Iterator[str]:
    """A line for each stack: when it is ready."""
    rows = [("", "ready")]
    rows += [(told_apart(one, found), ready_words(one.forecast, one.due)) for one in found]
    yield from table(rows, width)


def _wanted(one: Forecasted) -> str:
    if one.forecast.wanted is None:
        return "-"
    by = f" by {one.due.isoformat()}" if one.due else ""
    return f"{percent(one.forecast.wanted)}{by}"


def _wettest(one: Forecasted) -> float:
    return max((each.spread.likely.moisture[0] for each in one.forecast.batches), default=0.0)


def _days(one: Forecasted, key: float) -> str:
    if key >= _wettest(one):
        return "at the start"
    if key <= (one.forecast.wanted or 0.0):
        return "-"
    fast, likely, slow = (day_or_never(one.forecast.below(key, pace), one.forecast, pace) for pace in Pace)
    return f"{likely} ({fast} to {slow})"
