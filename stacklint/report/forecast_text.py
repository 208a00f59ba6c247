"""Forecasts for a person to read: the drying curve, the days that matter, and what sets them."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.drying.forecast import BatchForecast, Forecast, Pace, Shorter, Step
from stacklint.report.columns import beside, folded, side_by_side, table
from stacklint.report.compared_text import compared_table, ready_table
from stacklint.report.curve_glyphs import CurveGlyphs
from stacklint.report.drying_curve import drying_curve
from stacklint.report.forecast_chart import (
    Forecasted,
    Sign,
    chart_of,
    compared_chart,
    compared_signs,
    signs_of,
)
from stacklint.report.forecast_words import KEYS, day_or_never, drying_alike, labels
from stacklint.report.no_forecast import why_none
from stacklint.report.water import most_water, taken_out, weight_and_measure
from stacklint.show import percent, rounded, show
from stacklint.units import ONE_DAY, TIME, System

CAUTION = (
    "A forecast has a range and is no promise: weather, the boards and the stacking decide. Measure with a moisture"
    " meter, or weigh samples, before the boards are used."
)
NARROWEST, WIDEST = 40, 120


class Look(NamedTuple):
    """What the text is fitted to: columns, characters, and the day that is marked as today."""

    width: int
    glyphs: CurveGlyphs
    today: datetime.date

    @property
    def columns(self) -> int:
        return max(NARROWEST, min(self.width, WIDEST))


def forecast_text(plans: Sequence[CheckedPlan], look: Look) -> Iterator[str]:
    """The lines for all stacks of the plans, without line ends; two stacks are compared in one drawing."""
    found = [
        Forecasted(plan.path, stack, stack.forecast)
        for plan in plans
        for stack in plan.stacks
        if isinstance(stack.forecast, Forecast)
    ]
    compared = len(found) == 2
    if compared:
        yield from _compared(found, look)
    for plan in plans:
        for stack in plan.stacks:
            if isinstance(stack.forecast, Forecast):
                yield from _stack(Forecasted(plan.path, stack, stack.forecast), plan.system, look, drawn=not compared)
            else:
                yield from _without(plan.path, stack, look)
            yield ""
    if not any(plan.stacks for plan in plans):
        yield from folded("There is no pile and no charge here: there is nothing to forecast.", look.columns)
        return
    if len(found) > 2:
        yield from ready_table(found, look.columns)
        yield ""
    if found:
        yield from folded(CAUTION, look.columns)


def _stack(one: Forecasted, system: System, look: Look, *, drawn: bool) -> Iterator[str]:
    width = look.columns
    yield from _head(one.path, one.checked, width)
    yield from _inset(folded(starts(one), width - 2))
    if drawn:
        yield ""
        chart = chart_of(one, look.today)
        yield from drying_curve(chart, width, look.glyphs)
        yield from _inset(_legend(signs_of(one, chart, look.glyphs), width - 2))
        yield ""
        yield from _inset(table(key_days(one.forecast), width - 2))
    yield ""
    for label, paragraphs in said(one.forecast, system):
        if paragraphs:
            yield from _inset(beside(label, paragraphs, width - 2))


def _head(path: str, stack: CheckedStack, width: int) -> Iterator[str]:
    title = f", {stack.stack.title}" if stack.stack.title else ""
    kind = stack.stack.kind.value.capitalize()
    yield from folded(f"{kind} {stack.stack.name.text}{title}  ({path}, line {stack.stack.where.line})", width)


def starts(one: Forecasted) -> str:
    """In what air and from what day the boards dry, and what is wanted of them."""
    forecast = one.forecast
    wanted = "" if forecast.wanted is None else f" Wanted: {percent(forecast.wanted)}"
    if wanted:
        wanted += f" by {one.due.isoformat()}." if one.due else "."
    restarted = ""
    if forecast.restarted is not None:
        restarted = f" Reckoned on from the reading of {forecast.restarted.isoformat()}."
    return f"Dries in {forecast.air_words} from {forecast.start.isoformat()} on.{wanted}{restarted}"


def _without(path: str, stack: CheckedStack, look: Look) -> Iterator[str]:
    yield from _head(path, stack, look.columns)
    none = why_none(stack)
    yield from _inset(folded(f"{none.missing} {none.instead}", look.columns - 2))


def key_days(forecast: Forecast) -> list[tuple[str, ...]]:
    """The days on which moisture contents are reached that some of the boards are still above at the start.

    Rows of four, their heads first.
    """
    rows: list[tuple[str, ...]] = [("", "earliest", "likely", "latest")]
    wettest = max((each.spread.likely.moisture[0] for each in forecast.batches), default=0.0)
    for key in KEYS:
        if key < wettest and (forecast.wanted is None or key > forecast.wanted):
            days = [day_or_never(forecast.below(key, pace), forecast, pace) for pace in Pace]
            rows.append((f"below {percent(key)}", *days))
    at = "" if forecast.wanted is None else f" at {percent(forecast.wanted)}"
    steps = ", kiln done" if forecast.before or forecast.after else ""
    rows.append((f"ready{at}{steps}", *(day_or_never(forecast.ready(pace), forecast, pace) for pace in Pace)))
    return rows


def said(forecast: Forecast, system: System) -> Iterator[tuple[str, list[str]]]:
    """What is told of a forecast, paragraph by paragraph, each list under its label."""
    groups = drying_alike(forecast.batches)
    if len(groups) > 1:
        yield "batches", [_batches(group, forecast) for group in groups]
    yield "water", list(_water(forecast, system))
    yield "kiln", [_step(step) for step in (*forecast.before, *forecast.after)]
    yield "governs", list(forecast.governs)
    yield "sooner", [_sooner(each) for each in forecast.shorter]
    yield "driest", [_floor(forecast)] if forecast.floor > 0 else []
    yield "assumed", [*forecast.assumed]
    sources = [f"{each.source}{' (from memory)' if each.memory else ''}" for each in forecast.origins]
    yield "sources", ["; ".join(dict.fromkeys(sources)) + "."] if sources else []


def _batches(group: Sequence[BatchForecast], forecast: Forecast) -> str:
    """When batches that dry alike are dry, and how long they would take in a charge of their own."""
    first = group[0]
    words = "; ".join(dict.fromkeys(each.batch.words for each in group))
    alone = forecast._replace(batches=(first,), before=(), after=())
    fast, likely, slow = (day_or_never(alone.ready(pace), alone, pace) for pace in Pace)
    said = f"{labels(group)}: {words}; {percent(first.batch.moisture)} at the start, dry {likely} ({fast} to {slow})"
    if first.alone:
        said += f"; in a charge of its own {_days(first.alone)}"
    return f"{said}."


def _water(forecast: Forecast, system: System) -> Iterator[str]:
    total = taken_out(forecast)
    if total > 0:
        yield f"{weight_and_measure(total, system)} to take out in all."
    most = most_water(forecast)
    if most is not None and most.water > 0:
        yield f"Most on one day: {weight_and_measure(most.water, system)}, on {most.day.isoformat()}."


def _step(step: Step) -> str:
    low, high = show(step.low, TIME, System.METRIC), show(step.high, TIME, System.METRIC)
    span = low if low == high else f"{low} to {high}"
    words = f", {step.words}" if step.words else ""
    return f"{_begun(step.name)}: {span}{words}."


def _floor(forecast: Forecast) -> str:
    driest = f"The air holds wood at {forecast.floor:.1%} at the driest"
    if forecast.wanted is not None and forecast.wanted < forecast.floor:
        return f"{driest}; {percent(forecast.wanted)} is out of its reach."
    return f"{driest}."


def _sooner(shorter: Shorter) -> str:
    saved = f", {_days(shorter.days)} sooner" if shorter.days is not None else ""
    return f"{_begun(shorter.words)}: {shorter.ready}{saved}."


def _begun(words: str) -> str:
    """As a sentence begins."""
    return f"{words[:1].upper()}{words[1:]}"


def _days(days: float) -> str:
    if days < 1:
        return show(days * ONE_DAY, TIME, System.METRIC)
    return "1 day" if round(days) == 1 else f"{rounded(round(days))} days"


def _compared(found: Sequence[Forecasted], look: Look) -> Iterator[str]:
    chart = compared_chart(found, look.today)
    yield from drying_curve(chart, look.columns, look.glyphs)
    yield from _inset(_legend(compared_signs(found, chart, look.glyphs), look.columns - 2))
    yield ""
    yield from _inset(compared_table(found, look.columns - 2))
    yield ""


def _legend(signs: Sequence[Sign], width: int) -> Iterator[str]:
    """The signs and their meanings."""
    yield from side_by_side([f"{sign.glyph} {sign.words}" for sign in signs], width)


def _inset(lines: Iterator[str]) -> Iterator[str]:
    return (f"  {line}".rstrip() for line in lines)
