"""What would bring the day forward: other ways to dry the same boards, each forecast like the plan's own."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from stacklint.drying.batch import Batch
from stacklint.drying.forecast import Forecast, NoForecast, Pace, Shorter, Way
from stacklint.drying.outlook import outlook
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Day, Stack
from stacklint.plan.yard import Kiln, Site
from stacklint.show import percent
from stacklint.units import ONE_DAY, System, Unit

_INTO_KILN = 0.20
"""Moisture content at which air-dried boards go into a kiln: stain has stopped (Univ. Missouri Extension G5550)."""
_EARLIER = 30
_A_POINT = 0.01
_WORTH_SAYING = 2.0
"""Days. Less is lost in the range of any forecast."""

Ready = Callable[[Stack, Sequence[Batch], Kiln | None], datetime.date | None]


class _Other(NamedTuple):
    """Another way, in words, and the likely day that it is ready."""

    words: str
    ready: datetime.date | None


def shorter(
    stack: Stack,
    batches: Sequence[Batch],
    sites: Sequence[Site],
    kiln: Kiln | None,
    today: datetime.date,
    system: System,
    forecast: Forecast,
) -> tuple[Shorter, ...]:
    """The ways that save a few days or more, those that save most first. Nothing where nothing is wanted."""
    if forecast.wanted is None:
        return ()

    def ready(changed: Stack, boards: Sequence[Batch], in_kiln: Kiln | None) -> datetime.date | None:
        found = outlook(changed, boards, sites, in_kiln, today, system)
        return None if isinstance(found, NoForecast) else found.ready(Pace.LIKELY)

    now = forecast.ready(Pace.LIKELY)
    ways = list(_without_slowest(stack, batches, kiln, forecast, ready))
    if forecast.way is Way.KILN:
        ways.extend(_in_kiln(stack, batches, kiln, forecast, ready))
    else:
        ways.extend(_in_air(stack, batches, today, forecast, ready))
    found = [
        Shorter(way.words, way.ready, (now - way.ready).days if now is not None else None)
        for way in ways
        if way.ready is not None
    ]
    worth = [each for each in found if each.days is None or each.days >= _WORTH_SAYING]
    return tuple(sorted(worth, key=lambda each: each.ready))


def _without_slowest(
    stack: Stack, batches: Sequence[Batch], kiln: Kiln | None, forecast: Forecast, ready: Ready
) -> Iterator[_Other]:
    slowest = forecast.slowest.batch
    others = [batch for batch in batches if batch.label != slowest.label]
    if others:
        yield _Other(f"without the {slowest.words} the rest are ready", ready(stack, others, kiln))


def _in_air(
    stack: Stack, batches: Sequence[Batch], today: datetime.date, forecast: Forecast, ready: Ready
) -> Iterator[_Other]:
    assert forecast.wanted is not None
    yield from _finished_in_a_kiln(batches, forecast)
    earlier = forecast.start - datetime.timedelta(days=_EARLIER)
    if earlier >= today and stack.stacked is not None:
        sooner = stack.model_copy(update={"stacked": Day(where=stack.stacked.where, date=earlier)})
        yield _Other(f"stacked on {earlier}", ready(sooner, batches, None))
    yield from _a_point_wetter(stack, batches, None, forecast, ready)


def _finished_in_a_kiln(batches: Sequence[Batch], forecast: Forecast) -> Iterator[_Other]:
    """From 20% on in a kiln, by the published kiln times, the middle of their ranges."""
    from stacklint.drying import times

    assert forecast.wanted is not None
    into = forecast.below(_INTO_KILN, Pace.LIKELY)
    if into is None or forecast.wanted >= _INTO_KILN:
        return
    share = (_INTO_KILN - forecast.wanted) / (_INTO_KILN - times.KILN_END)
    published = [times.drying_time(batch.wood, batch.thickness, _INTO_KILN, kiln=True) for batch in batches]
    days = max((each.low + each.high) / 2 for each in published) * share / ONE_DAY
    wet = any(batch.moisture > _INTO_KILN for batch in batches)
    when = f"at {percent(_INTO_KILN)}" if wet else "at once"
    words = f"put into a kiln {when}, by published kiln times"
    yield _Other(words, into + datetime.timedelta(days=round(days)))


def _in_kiln(
    stack: Stack, batches: Sequence[Batch], kiln: Kiln | None, forecast: Forecast, ready: Ready
) -> Iterator[_Other]:
    machine = forecast.machine
    if kiln is not None and kiln.removes is not None and machine is not None and machine.takes is not None:
        doubled = Quantity(where=kiln.removes.where, number=2 * kiln.removes.number, unit=kiln.removes.unit)
        yield _Other(
            "with a machine twice as strong", ready(stack, batches, kiln.model_copy(update={"removes": doubled}))
        )
    yield from _a_point_wetter(stack, batches, kiln, forecast, ready)


def _a_point_wetter(
    stack: Stack, batches: Sequence[Batch], kiln: Kiln | None, forecast: Forecast, ready: Ready
) -> Iterator[_Other]:
    assert forecast.wanted is not None and stack.want is not None
    wetter = forecast.wanted + _A_POINT
    figure = Quantity(where=stack.want.where, number=wetter * 100, unit=Unit.PERCENT)
    changed = stack.model_copy(update={"want": stack.want.model_copy(update={"moisture": figure})})
    yield _Other(f"at {percent(wetter)} instead of {percent(forecast.wanted)}", ready(changed, batches, kiln))
