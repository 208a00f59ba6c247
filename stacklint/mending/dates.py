"""Proposals for days: a later day for what is promised or begun, found by looking from day to day."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator

from stacklint.mending.case import Case, Ladder, Option, Proposal
from stacklint.mending.edits import dropped_statement, inserted_before, replaced
from stacklint.plan.stack import Day, Stack

_MOST_DAYS = 500
_WEEKS = (*range(1, 9), *range(12, 53, 4))


def promised_later(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The first day on which the boards are likely to be dry, in place of the day promised."""
    want = stack.want
    facts = case.facts
    if want is None or want.by is None or case.statement(want) is None or facts is None:
        return
    ready = facts.ready_likely
    if ready is not None and ready > want.by.date:
        yield _on(want.by, ready, "Promise them by")


def started_later(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The day on which a charge starts, or a pile is stacked, put off by as many days as it takes."""
    for day, said in ((stack.starts, "Start it on"), (stack.stacked, "Stack it on")):
        if day is not None and day.date >= case.today and case.statement(day) is not None:
            yield Ladder((_most_days(day),), _days_after(day, said))


def _most_days(day: Day) -> int:
    return min(_MOST_DAYS, (datetime.date.max - day.date).days)


def _days_after(day: Day, said: str) -> Callable[[tuple[int, ...]], Option]:
    return lambda up: _on(day, day.date + datetime.timedelta(days=up[0]), said)


def stacked_sooner(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Stacking nearer to sawing: days that are still to come only."""
    sawn, stacked = stack.sawn, stack.stacked
    if sawn is None or stacked is None or stacked.date <= case.today:
        return
    first = max(sawn.date, case.today)
    days = (stacked.date - first).days
    if days > 0 and case.statement(stacked) is not None:
        yield Ladder((days,), lambda up: _on(stacked, stacked.date - datetime.timedelta(days=up[0]), "Stack them on"))
    if sawn.date > case.today and case.statement(sawn) is not None:
        yield Ladder(
            ((stacked.date - sawn.date).days,),
            lambda up: _on(sawn, sawn.date + datetime.timedelta(days=up[0]), "Saw them on"),
        )


def another_season(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Sawing and stacking put off by weeks, where both are still to come."""
    sawn, stacked = stack.sawn, stack.stacked
    if stacked is None or stacked.date <= case.today or case.statement(stacked) is None:
        return
    if sawn is not None and (sawn.date < case.today or case.statement(sawn) is None):
        return
    for week in _WEEKS:
        later = datetime.timedelta(weeks=week)
        if (datetime.date.max - stacked.date) < later:
            return
        option = _on(stacked, stacked.date + later, "Stack them on")
        if sawn is None:
            yield option
        else:
            also = _on(sawn, sawn.date + later, "Saw them on")
            yield Option((*also.changes, *option.changes), f"{also.says}, and stack them on {stacked.date + later}")


def readings_in_order(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A reading that stands below a later one moved above it."""
    source = case.source
    late = source.statement(case.finding.where)
    day = next((each.day for each in stack.readings if late is not None and each.where == late.where), None)
    if late is None or day is None:
        return
    for other in stack.readings:
        above = source.statement(other.where)
        if above is not None and above.where.line < late.where.line and other.day.date > day.date:
            text = source.said(late.where)
            if text:
                put = inserted_before(source, above, text)
                yield Option((put, dropped_statement(source, late)), f"Put the reading of {day.date} in its order")
            return


def _on(day: Day, date: datetime.date, said: str) -> Option:
    return Option((replaced(day.where, date.isoformat()),), f"{said} {date.isoformat()}")
