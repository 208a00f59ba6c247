"""Counts and dates: the figures that are not quantities."""

from __future__ import annotations

import datetime

from stacklint.faults import FaultKind, Measure
from stacklint.language.complaints import quote
from stacklint.language.line import Line
from stacklint.language.scan import Token
from stacklint.plan.stack import Day
from stacklint.units import NUMBER

FIRST_YEAR, LAST_YEAR = 1900, 2200
"""Years outside these are slips of the pen; forecasts are made for any between them."""
MOST_PIECES = 100_000
"""stacklint checks stacks of up to so many boards."""


def whole(line: Line, token: Token, most: int, what: str) -> int | None:
    """A count between 1 and ``most``; anything else is a fault and ``None``."""
    number = token.number
    text = quote(token.text)
    if number > most or number < 1:
        limit = most if number > most else 1
        message = f"{text} {what} cannot be: stacklint checks from 1 to {most:,} {what}."
        line.fault(
            line.at(token),
            message,
            f"Write a number from 1 to {most:,}.",
            FaultKind.VALUE_OUT_OF_RANGE,
            Measure(number, NUMBER) if number < float("inf") else None,
            Measure(float(limit), NUMBER),
        )
        return None
    if number != int(number):
        line.fault(line.at(token), f"{text} is not a whole number.", f"Write how many {what} as a whole number.")
        return None
    return int(number)


def day(line: Line, token: Token) -> Day | None:
    """The day that a date names; one that no calendar has is a fault and ``None``."""
    year, month, number = token.text.split("-")
    try:
        date = datetime.date(int(year), int(month), int(number))
    except ValueError:
        line.fault(
            line.at(token),
            f"No calendar has a day {token.text}.",
            "Write the year, the month and the day: 2026-04-02.",
            FaultKind.VALUE_OUT_OF_RANGE,
        )
        return None
    if not FIRST_YEAR <= date.year <= LAST_YEAR:
        line.fault(
            line.at(token),
            f"{token.text} is not a day of a stack: plans are of the years {FIRST_YEAR} to {LAST_YEAR}.",
            "Correct the year.",
            FaultKind.VALUE_OUT_OF_RANGE,
        )
        return None
    return Day(where=line.at(token), date=date)
