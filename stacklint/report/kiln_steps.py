"""The steps of a charge: what comes before the loading, the baffles, and the air that the kiln is set to."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from math import inf

from stacklint.checked import CheckedStack
from stacklint.drying import schedule
from stacklint.drying.air import wet_bulb
from stacklint.drying.charge_forecast import air_of
from stacklint.drying.climate import Air as ClimateAir
from stacklint.drying.equilibrium import equilibrium
from stacklint.drying.forecast import Forecast, Pace, curve, day_of
from stacklint.engineering.facts import Fit, StackFacts
from stacklint.language.nearest import listed
from stacklint.language.write_stack import part_words
from stacklint.plan.stack import Baffles, Stack, Taking
from stacklint.plan.yard import KilnType
from stacklint.report.forecast_text import said
from stacklint.report.steps import Air, Step
from stacklint.report.tape import tape
from stacklint.show import percent, show
from stacklint.units import ONE_FOOT, TEMPERATURE, TIME, System

_MOST_AIRS = 12
_SAMPLES = (
    "Cut at least four kiln samples from the wettest and the thickest boards, weigh them, and lay them where they can"
    " be drawn (Dry Kiln Operator's Manual, AH-188, 1991, chapter 6; from memory)."
)
_CLEAR = ONE_FOOT / 48
"""Room that is no more than this (m) is not told."""


def before_loading(checked: CheckedStack) -> Step:
    """What is done before the first board of a charge is laid."""
    piles = [_taking(taking) for taking in checked.stack.from_piles]
    lines = [f"The boards come from {' and '.join(piles)}."] if piles else []
    lines.append("Measure the moisture of boards from the middle and from the outside of the load before it goes in.")
    lines.append(_SAMPLES)
    return Step("Before loading", tuple(lines))


def _taking(taking: Taking) -> str:
    parts = listed([part_words(part) for part in taking.parts], "and")
    return f"pile {taking.pile.text} ({parts})" if parts else f"pile {taking.pile.text}"


def kiln_steps(checked: CheckedStack) -> tuple[Step, ...]:
    """Into the kiln, baffles, and how it is run."""
    facts = checked.facts
    if facts is None:
        return ()
    steps = (_loading(facts), _baffles(checked.stack, facts), _run(checked, facts))
    return tuple(step for step in steps if step is not None)


def _loading(facts: StackFacts) -> Step | None:
    kiln = facts.kiln
    if kiln is None:
        return None
    lines = [f"Bring the charge into {kiln.name}, its boards along the kiln's length."]
    if kiln.plenum:
        plenum = tape(kiln.plenum, facts.system)
        lines.append(f"Leave a plenum {plenum} wide on the side where the air enters, along the whole charge.")
    spare = [said for fit in facts.fits if (said := _room(fit, facts.system))]
    if spare:
        lines.append(f"Room that is left: {', '.join(spare)}.")
    return Step("Loading", tuple(lines))


def _room(fit: Fit, system: System) -> str:
    if fit.needs is None or fit.has is None or fit.has - fit.needs <= _CLEAR:
        return ""
    where = {"length": "of length", "width": "of width beside the plenum", "height": "over the charge"}
    return f"{tape(fit.has - fit.needs, system)} {where.get(fit.direction or '', '')}".rstrip()


def _baffles(stack: Stack, facts: StackFacts) -> Step | None:
    said = stack.baffles
    if said is None and not facts.gaps:
        return None
    lines = []
    closed = _closed(said) if said is not None else ""
    if closed:
        lines.append(f"Close {closed} with baffles that lie against the charge, so that no air passes round it.")
    if facts.gaps:
        lines.append(f"Ways round the charge that stay open: {facts.gaps}.")
    if not lines:
        lines.append("No way round the charge is closed.")
    if said is not None and said.top:
        lines.append("Look again after two days: as the charge shrinks, the top baffle must follow it down.")
    return Step("Baffles", tuple(lines))


def _closed(baffles: Baffles) -> str:
    ways = [("the top", baffles.top), ("both ends", baffles.ends), ("the floor", baffles.floor)]
    *first, last = [words for words, is_closed in ways if is_closed] or [""]
    return f"{', '.join(first)} and {last}" if first else last


def _run(checked: CheckedStack, facts: StackFacts) -> Step:
    stack = checked.stack
    lines = []
    if stack.starts is not None:
        lines.append(f"Starts {stack.starts.date.isoformat()}.")
    if stack.schedule is not None:
        lines.append(f"Schedule {stack.schedule.text}.")
    if stack.fan_hours is not None:
        lines.append(f"The fans run {show(stack.fan_hours.a_day.si, TIME, System.METRIC)} a day.")
    airs = tuple(_airs(checked, facts))
    if isinstance(checked.forecast, Forecast):
        lines += dict(said(checked.forecast, facts.system)).get("kiln", [])
    if airs:
        lines.append("The wettest boards set each step: change to the next when all of them are down to its figure.")
    elif facts.kiln is not None and facts.kiln.type == KilnType.SOLAR.value:
        lines.append("The sun sets the air. Fans by day only; vents nearly closed while the boards are green.")
    return Step("Running the kiln", tuple(lines), airs=airs)


def _airs(checked: CheckedStack, facts: StackFacts) -> Iterator[Air]:
    """The settings of the plan; else the steps of the schedule it names; else those that the forecast follows."""
    stack, forecast = checked.stack, checked.forecast
    if stack.runs:
        set_to = [air for setting in stack.runs if (air := air_of(setting)) is not None]
        for number, air in enumerate(set_to, 1):
            yield _air("throughout" if len(set_to) == 1 else f"setting {number}", air, facts.system)
        return
    code = schedule.known(stack.schedule.text) if stack.schedule is not None else None
    if code is not None:
        yield from _scheduled(code, facts)
    elif isinstance(forecast, Forecast) and (facts.kiln is None or facts.kiln.type != KilnType.SOLAR.value):
        yield from _forecast(forecast, facts.system)


def _scheduled(code: str, facts: StackFacts) -> Iterator[Air]:
    """The steps that the charge's wettest boards have yet to go through, no hotter than the kiln gets."""
    steps = schedule.assemble(code)
    hottest = facts.kiln.heats_to if facts.kiln is not None and facts.kiln.heats_to is not None else inf
    wettest = facts.wettest if facts.wettest is not None else inf
    before = None
    for step, condition in zip(steps, schedule.conditions(steps, hottest), strict=True):
        if condition.until < wettest and condition.air != before:
            begins = "at first" if step.start >= wettest else f"from {percent(step.start)}"
            yield _air(begins, condition.air, facts.system)
            before = condition.air


def _forecast(forecast: Forecast, system: System) -> Iterator[Air]:
    """Days of one air together, with the likely moisture content of the wettest boards on the first of them."""
    likely = [curve(each.spread, Pace.LIKELY).moisture for each in forecast.batches]
    days = groupby(enumerate(forecast.air), key=lambda day: day[1])
    for number, (air, alike) in enumerate(days):
        if number == _MOST_AIRS:
            return
        first = next(alike)[0]
        wettest = max((moisture[min(first, len(moisture) - 1)] for moisture in likely), default=0.0)
        begins = "at first" if first == 0 else f"from {percent(wettest)}, likely on {day_of(forecast.start, first)}"
        yield _air(begins, air, system)


def _air(begins: str, air: ClimateAir, system: System) -> Air:
    return Air(
        begins=begins,
        dry_bulb=show(air.temperature, TEMPERATURE, system),
        wet_bulb=show(wet_bulb(*air), TEMPERATURE, system),
        humidity=percent(air.humidity),
        holds=f"{equilibrium(*air):.1%}",
    )
