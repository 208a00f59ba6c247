"""Forecasts as comma-separated values (RFC 4180, but for its line ends): a line for each day and batch."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator

from stacklint.checked import CheckedPlan
from stacklint.drying.forecast import Forecast
from stacklint.report.forecast_days import batch_days
from stacklint.report.plain import plain

HEAD = (
    "path",
    "stack",
    "batch",
    "date",
    "fast",
    "likely",
    "slow",
    "water_kg",
    "air_temperature_C",
    "air_humidity",
)
_FORMULA_STARTS = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
"""What makes a spreadsheet take a cell for a formula, and the apostrophe that keeps it from doing so: CWE-1236. Their
full-width forms are taken alike by some (memory). Tabs and line ends, which begin one too, are blanks in a cell."""


def forecast_csv(plans: Iterable[CheckedPlan]) -> str:
    """The days of every forecast, up to the slowest curve's end.

    ``fast``, ``likely`` and ``slow`` are moisture contents in the morning (shares of the oven-dry mass),
    ``water_kg`` is what leaves the batch on that day. What is past a curve's end is left empty.
    """
    text = io.StringIO()
    lines = csv.writer(text, lineterminator="\n")
    lines.writerow(HEAD)
    for plan in plans:
        for stack in plan.stacks:
            if isinstance(stack.forecast, Forecast):
                lines.writerows(_days(plan.path, stack.stack.name.text, stack.forecast))
    return text.getvalue()


def harmless(words: str) -> str:
    """Words as a cell that no spreadsheet computes: an apostrophe before what would begin a formula.

    That is so behind a semicolon too, at which some spreadsheets part cells.
    """
    cells = plain(words).split(";")
    return ";".join(f"'{cell}" if cell.lstrip().startswith(_FORMULA_STARTS) else cell for cell in cells)


def _days(path: str, stack: str, forecast: Forecast) -> Iterator[tuple[str, ...]]:
    for each in forecast.batches:
        named = (harmless(path), harmless(stack), harmless(each.batch.label))
        for index, day in enumerate(batch_days(each, forecast.start)):
            air = forecast.air[index] if index < len(forecast.air) else None
            yield (
                *named,
                day.date.isoformat(),
                _figure(day.fast, 6),
                _figure(day.likely, 6),
                _figure(day.slow, 6),
                _figure(day.water, 3),
                _figure(air.temperature if air else None, 1),
                _figure(air.humidity if air else None, 3),
            )


def _figure(value: float | None, places: int) -> str:
    return "" if value is None else f"{value:.{places}f}"
