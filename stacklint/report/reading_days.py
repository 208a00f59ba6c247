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
"""Rows with a day: a pile's fill a page. After them the reading goes on at the same pace."""
_LEAST = 3
"""Rows with a day, also where the boards should have been ready long ago."""
_BLANK, _SPARE = 12, 3
"""Rows without a day: where no forecast says how long the boards dry, and for what is read besides."""

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
    """A reading to be taken. The moisture contents are those of the slowest boards by forecast.

    ``dry``: they are likely at what is wanted by then. ``overdue``: the day is past; what is expected is for today.
    """

    day: datetime.date
    likely: float
    low: float
    high: float
    dry: bool = False
    overdue: bool = False


class ReadingPlan(NamedTuple):
    """``rule`` says how often; ``more`` that slow boards dry on after the last row; ``blank`` rows have no day."""

    rule: str
    due: tuple[DueReading, ...]
    blank: int
    more: bool


def reading_plan(checked: CheckedStack, today: datetime.date) -> ReadingPlan:
    """When the stack is to be read from now on: what is overdue as one reading, then the days from today on."""
    forecast = checked.forecast
    rule = KILN_RULE if checked.stack.kind is StackKind.CHARGE else PILE_RULE
    if not isinstance(forecast, Forecast) or not forecast.batches:
        return ReadingPlan(rule, (), _BLANK, more=False)
    read = [reading.day.date for reading in checked.stack.readings]
    latest = _done(forecast, Pace.SLOW)
    most = MOST_IN_KILN if forecast.way is Way.KILN else MOST
    since = max(read, default=forecast.start)
    missed = next(_days(forecast, since), today)
    late = missed < today
    due: list[DueReading] = []
    for day in _days(forecast, today if late else since):
        before = due[-1].day.toordinal() if due else 0
        if len(due) > most or (len(due) >= _LEAST and latest is not None and before >= latest):
            break
        due.append(_reading(forecast, day))
    # What should have been read before is read once, today, and the next readings count from that.
    overdue = (_reading(forecast, today)._replace(day=missed, overdue=True),) if late else ()
    return ReadingPlan(rule, (*overdue, *due[:most]), _SPARE, more=len(due) > most)


def _days(forecast: Forecast, since: datetime.date) -> Iterator[datetime.date]:
    """Counted from a day, without end but that of the calendar."""
    day = max((since - forecast.start).days, 0)
    likely = forecast.slowest.spread.likely
    while True:
        day += 1 if forecast.way is Way.KILN else _pace(_at(likely, day))
        if forecast.start.toordinal() + day > datetime.date.max.toordinal():
            return
        yield forecast.start + datetime.timedelta(days=day)


def _reading(forecast: Forecast, on: datetime.date) -> DueReading:
    slowest, day = forecast.slowest.spread, (on - forecast.start).days
    likely, reached = _at(slowest.likely, day), slowest.likely.reached
    return DueReading(
        day=on,
        likely=likely,
        # Each curve ends on the first day at what is wanted, a little under it.
        low=min(_at(slowest.fast, day), likely),
        high=max(_at(slowest.slow, day), likely),
        dry=reached is not None and reached <= day,
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
    return each.moisture[min(max(day, 0), len(each.moisture) - 1)]
