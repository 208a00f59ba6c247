"""The days on which the moisture of a stack is to be read, and what the forecast expects then."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.drying.batch import Curve
from stacklint.drying.forecast import Forecast, Pace, Way
from stacklint.plan.stack import StackKind

OFTEN, SELDOM = 0.30, 0.20
"""Moisture contents from which on a pile is read less often: at about 30% the cell walls begin to dry, below 20% the
boards are air dry and hardly stain."""
WEEK, FORTNIGHT, MONTH = 7, 14, 28
MOST, MOST_IN_KILN = 20, 40
"""Rows: a pile's fill a page. After them the reading goes on at the same pace."""
_BLANK, _SPARE = 12, 3
"""Rows without a day: where no forecast says how long the boards dry, and for those that dry slower than is likely."""

PILE_RULE = (
    "Weekly until the boards are below 30%, then every two weeks until they are below 20%, then every four weeks until"
    " they are ready; more often in hot, dry wind (common practice, no published source). Read boards from the middle"
    " and from the outside of the stack, away from their ends, and write down which."
)
KILN_RULE = (
    "Every day: weigh the samples, set the kiln by the wettest of them, and write down its air (common practice, no"
    " published source)."
)


class DueReading(NamedTuple):
    """A reading to be taken. The moisture contents are those of the slowest boards by forecast."""

    day: datetime.date
    likely: float
    low: float
    high: float


class ReadingPlan(NamedTuple):
    """``rule`` says how often; ``more`` that slow boards dry on after the last row; ``blank`` rows have no day."""

    rule: str
    due: tuple[DueReading, ...]
    blank: int
    more: bool


def reading_plan(checked: CheckedStack, today: datetime.date) -> ReadingPlan:
    """When the stack is to be read from now on: no day that is past, none on or before the last reading."""
    forecast = checked.forecast
    rule = KILN_RULE if checked.stack.kind is StackKind.CHARGE else PILE_RULE
    if not isinstance(forecast, Forecast) or not forecast.batches:
        return ReadingPlan(rule, (), _BLANK, more=False)
    read = [reading.day.date for reading in checked.stack.readings]
    first = max([today, *(day + datetime.timedelta(days=1) for day in read)])
    due = [reading for reading in _days(forecast, max(read, default=forecast.start)) if reading.day >= first]
    latest = _done(forecast, Pace.SLOW)
    most = MOST_IN_KILN if forecast.way is Way.KILN else MOST
    if len(due) > most:
        return ReadingPlan(rule, tuple(due[:most]), 0, more=True)
    slower = bool(due) and (latest is None or due[-1].day.toordinal() < latest)
    return ReadingPlan(rule, tuple(due), _SPARE if due else _BLANK, more=slower)


def _days(forecast: Forecast, since: datetime.date) -> Iterator[DueReading]:
    """Counted from a day; the last is on or after the day on which the boards are likely ready."""
    slowest = forecast.slowest.spread
    day = max((since - forecast.start).days, 0)
    end = _done(forecast, Pace.LIKELY)
    if end is None:
        end = forecast.start.toordinal() + len(slowest.likely.moisture) - 1
    while forecast.start.toordinal() + day < end:
        day += 1 if forecast.way is Way.KILN else _pace(_at(slowest.likely, day))
        if forecast.start.toordinal() + day > datetime.date.max.toordinal():
            return
        likely = _at(slowest.likely, day)
        yield DueReading(
            day=forecast.start + datetime.timedelta(days=day),
            likely=likely,
            # Each curve ends on the first day at what is wanted, a little under it.
            low=min(_at(slowest.fast, day), likely),
            high=max(_at(slowest.slow, day), likely),
        )


def _done(forecast: Forecast, pace: Pace) -> int | None:
    """The day's ordinal; ``None`` where the boards are not ready in all the time that was looked at."""
    day = forecast.ready(pace)
    return None if day is None else day.toordinal()


def _pace(moisture: float) -> int:
    if moisture > OFTEN:
        return WEEK
    return FORTNIGHT if moisture > SELDOM else MONTH


def _at(each: Curve, day: int) -> float:
    """After its last day a curve stays where it was."""
    return each.moisture[min(day, len(each.moisture) - 1)]
