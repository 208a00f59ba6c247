"""A batch's forecast day by day, up to the end of its slowest curve."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from stacklint.drying.forecast import BatchForecast, day_of


class BatchDay(NamedTuple):
    """Moisture contents in the morning of a day, ``None`` after a curve's end.

    ``water`` is what leaves the batch on that day (kg, likely); ``None`` from the likely curve's last day on.
    """

    date: datetime.date
    fast: float | None
    likely: float | None
    slow: float | None
    water: float | None


def batch_days(each: BatchForecast, start: datetime.date) -> Iterator[BatchDay]:
    fast, likely, slow = (curve.moisture for curve in each.spread)
    for index in range(max(len(fast), len(likely), len(slow))):
        before, after = _at(likely, index), _at(likely, index + 1)
        yield BatchDay(
            date=day_of(start, index),
            fast=_at(fast, index),
            likely=before,
            slow=_at(slow, index),
            water=None if before is None or after is None else each.batch.dry_mass * (before - after),
        )


def _at(moisture: tuple[float, ...], index: int) -> float | None:
    return moisture[index] if index < len(moisture) else None
