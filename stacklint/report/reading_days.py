"""The days on which the moisture of a stack is to be read, and what the forecast expects then."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.drying.batch import Curve
from stacklint.drying.forecast import BatchForecast, Forecast, Pace, Way, curve

OFTEN, SELDOM = 0.30, 0.20
"""Moisture contents from which on a pile is read less often: at about 30% the cell walls begin to dry, below 20% the
boards are air dry and hardly stain."""
WEEK, FORTNIGHT, MONTH = 7, 14, 28
MOST = 40
"""Rows: what fills a page and stays of use. After them the reading goes on at the same pace."""
_BLANK = 12
"""Rows to fill in where no forecast says how long the boards dry."""

PILE_RULE = (
    "Weekly until the boards are below 30%, then every two weeks until they are below 20%, then every four weeks until"
    " they are ready. Read more often in hot, dry wind. (Common practice, no published source.)"
)
KILN_RULE = (
    "Every day: weigh the samples and set the kiln by the wettest of them. At least four samples in a charge of this"
    " size (Dry Kiln Operator's Manual, AH-188, 1991, chapter 6; from memory)."
)


class DueReading(NamedTuple):
    """A reading to be taken. The moisture contents are those of the slowest boards by forecast."""

    day: datetime.date
    likely: float | None
    low: float | None
    high: float | None


class ReadingPlan(NamedTuple):
    """``rule`` says how often; ``more`` that the boards dry on after the last row; ``blank`` rows have no day."""

    rule: str
    due: tuple[DueReading, ...]
    blank: int
    more: bool


def reading_plan(checked: CheckedStack, today: datetime.date) -> ReadingPlan:
    """When the stack is to be read from now on: no day that is past, none on or before the last reading."""
    forecast = checked.forecast
    kiln = checked.facts is not None and bool(checked.facts.is_charge)
    rule = KILN_RULE if kiln else PILE_RULE
    if not isinstance(forecast, Forecast) or not forecast.batches:
        return ReadingPlan(rule, (), _BLANK, more=False)
    read = [reading.day.date for reading in checked.stack.readings]
    first = max([today, *(day + datetime.timedelta(days=1) for day in read)])
    slowest = forecast.slowest
    due = [reading for reading in _days(forecast, slowest, max(read, default=None)) if reading.day >= first]
    return ReadingPlan(rule, tuple(due[:MOST]), 0 if due else _BLANK, more=len(due) > MOST)


def _days(forecast: Forecast, slowest: BatchForecast, last_read: datetime.date | None) -> Iterator[DueReading]:
    """Counted from the start, or from the last reading; the last is on or after the latest day of being ready."""
    likely, fast, slow = (curve(slowest.spread, pace) for pace in (Pace.LIKELY, Pace.FAST, Pace.SLOW))
    step_from = 0 if last_read is None else max((last_read - forecast.start).days, 0)
    end = slow.reached if slow.reached is not None else len(slow.moisture) - 1
    day = float(step_from)
    while day < end:
        day += 1 if forecast.way is Way.KILN else _pace(_at(likely, day))
        if forecast.start.toordinal() + day > datetime.date.max.toordinal():
            return
        yield DueReading(
            day=forecast.start + datetime.timedelta(days=int(day)),
            likely=_at(likely, day),
            low=_at(fast, day),
            high=_at(slow, day),
        )


def _pace(moisture: float) -> int:
    if moisture > OFTEN:
        return WEEK
    return FORTNIGHT if moisture > SELDOM else MONTH


def _at(each: Curve, day: float) -> float:
    """After its last day a curve stays where it was."""
    return each.moisture[min(int(day), len(each.moisture) - 1)]
