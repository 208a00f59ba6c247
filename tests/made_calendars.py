"""Calendars of yards that are written for a test, with forecasts whose days are known."""

from __future__ import annotations

import datetime

from made_forecasts import forecast

from stacklint.calendar.gathered import Entry, YardCalendar, gathered
from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.drying.batch import Curve, Spread
from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.language import UsedText, UseRefused, read
from stacklint.report.kept import Kept, kept

DATE = datetime.date
TODAY = DATE(2026, 6, 1)
YARD = """\
site "Alder Flat"
  near "Columbus, OH"
kiln "Box"
  type vented
"""
ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"


def ready(
    start: str, likely: str | None, fast: str | None = "", slow: str | None = "", *, wanted: float | None = 0.12
) -> Forecast:
    """A forecast whose boards are ready on these days; ``None`` for never. At the fastest and the slowest on the
    likely day if nothing else is said."""
    first = DATE.fromisoformat(start)
    made = forecast(start=first, wanted=wanted)
    curves = []
    for day in (likely if fast == "" else fast, likely, likely if slow == "" else slow):
        days = None if day is None else float((DATE.fromisoformat(day) - first).days)
        curves.append(Curve((0.8, 0.7), days))
    return made._replace(batches=(made.batches[0]._replace(spread=Spread(*curves)),))


def kept_plan(
    text: str, *forecasts: Forecast | NoForecast | None, path: str = "yard.stackplan", yard: str = YARD
) -> Kept:
    """What is kept of a plan that was not reckoned, but forecast as is said."""

    def use(name: str, using: str) -> UsedText | UseRefused:
        raise AssertionError((name, using))

    got = read(text + yard, path, use, today=TODAY)
    assert not got.faults, got.faults
    stacks = (CheckedStack(stack, None, None, ahead) for stack, ahead in zip(got.plan.stacks, forecasts, strict=True))
    return kept(CheckedPlan(path, got.system, tuple(stacks), (), plan=got.plan))


def seen(
    text: str,
    *forecasts: Forecast | NoForecast | None,
    today: DATE = TODAY,
    first: DATE | None = None,
    months: int = 12,
    yard: str = YARD,
) -> YardCalendar:
    """The calendar of one plan."""
    return gathered([kept_plan(text, *forecasts, yard=yard)], today, first, months)


def entry(calendar: YardCalendar, name: str) -> Entry:
    (found,) = [each for each in calendar.entries if each.stack.name == name]
    return found


def pile(name: str = "Ash", stacked: str | None = "2026-04-01", spot: str | None = "row 1", want: str = "12%") -> str:
    lines = [f'pile "{name}"', '  place open yard, site "Alder Flat"', f"  {ASH}", f"  want {want}"]
    lines += [f"  stacked {stacked}"] if stacked else []
    lines += [f'  spot "{spot}"'] if spot else []
    return "\n".join(lines) + "\n"


def charge(name: str = "One", starts: str | None = "2026-07-01", of: str | None = None, want: str = "8%") -> str:
    lines = [f'charge "{name}" in kiln "Box"', f"  want {want}"]
    lines += [f'  from pile "{of}"' if of else f"  {ASH}"]
    lines += [f"  starts {starts}"] if starts else []
    return "\n".join(lines) + "\n"
