"""Whether a stack is ready by the day it is wanted, by its forecast and by today."""

from __future__ import annotations

import datetime
from enum import Enum
from typing import NamedTuple

from stacklint.yard.stay import Stay


class State(Enum):
    """How a stack stands to the day it is wanted by."""

    OVERDUE = "overdue"
    LATE = "late"
    PERHAPS_LATE = "perhaps late"
    IN_TIME = "in time"
    UNKNOWN = "not known"
    NO_DAY = "no day wanted"


class Lateness(NamedTuple):
    """``days`` are those from the day wanted to the likely day, where that is later; ``at_most`` those to the slow end
    of its range. ``None`` where it is not late, or where the boards are not ready in all the time that was looked at.
    ``passed`` are the days since the day wanted; ``None`` where it is still to come, or today.
    """

    state: State
    days: int | None = None
    at_most: int | None = None
    passed: int | None = None


def lateness(
    stay: Stay | None, due: datetime.date | None, today: datetime.date, held_up: datetime.timedelta
) -> Lateness:
    """How late a stack is.

    It is overdue where the day has passed and it is not likely ready today. ``held_up`` is the time for which what it
    needs is not there when it comes: as it may wait for that, it is perhaps late.
    """
    if due is None:
        return Lateness(State.NO_DAY)
    passed = (today - due).days if due < today else None
    if stay is None or not stay.foretold:
        return Lateness(State.UNKNOWN, passed=passed)
    days, at_most = _later(stay.likely, due), _later(stay.slow, due)
    if passed is not None and (stay.likely is None or stay.likely > today):
        return Lateness(State.OVERDUE, days, at_most, passed)
    if stay.likely is None or stay.likely > due:
        return Lateness(State.LATE, days, at_most, passed)
    perhaps = stay.slow is None or stay.slow > due or due - stay.likely < held_up
    return Lateness(State.PERHAPS_LATE if perhaps else State.IN_TIME, None, at_most, passed)


def _later(day: datetime.date | None, due: datetime.date) -> int | None:
    return (day - due).days if day is not None and day > due else None
