"""Forecasts as JSON, day by day, described by a JSON Schema that is generated from the models here."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable

from pydantic import Field

from stacklint import __version__
from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.drying.forecast import BatchForecast, Forecast, Pace, Shorter, Step, Way, day_of
from stacklint.files import Trouble
from stacklint.plan.stack import StackKind
from stacklint.report.forecast_days import BatchDay, batch_days
from stacklint.report.forecast_words import KEYS
from stacklint.report.json_output import Unread, written
from stacklint.report.no_forecast import why_none
from stacklint.report.stack_figures import Model, finite
from stacklint.tables.wood import Origin


class PacesOutput(Model):
    """A day three ways; null where it is not within the days looked at."""

    fast: datetime.date | None
    likely: datetime.date | None
    slow: datetime.date | None

    @classmethod
    def of(cls, day: Callable[[Pace], datetime.date | None]) -> PacesOutput:
        return cls(fast=day(Pace.FAST), likely=day(Pace.LIKELY), slow=day(Pace.SLOW))


class KeyDayOutput(PacesOutput):
    """When every batch is at or below a moisture content; the first day if it is so from the start."""

    moisture: float = Field(description="a share of the oven-dry mass")


class DayOutput(Model):
    """Moisture contents in the morning of a day. Null after the curve's end."""

    date: datetime.date
    fast: float | None
    likely: float | None
    slow: float | None

    @classmethod
    def of(cls, day: BatchDay) -> DayOutput:
        return cls(date=day.date, fast=finite(day.fast), likely=finite(day.likely), slow=finite(day.slow))


class BatchOutput(Model):
    label: str
    words: str
    wood: str
    thickness_m: float
    moisture: float = Field(description="at the start, a share of the oven-dry mass")
    dry_mass_kg: float = Field(description="oven-dry")
    alone_days: float | None = Field(description="likely, in a charge of its own; null where it shares none")
    days: tuple[DayOutput, ...]

    @classmethod
    def of(cls, each: BatchForecast, start: datetime.date) -> BatchOutput:
        batch = each.batch
        return cls(
            label=batch.label,
            words=batch.words,
            wood=batch.wood.name,
            thickness_m=batch.thickness,
            moisture=batch.moisture,
            dry_mass_kg=batch.dry_mass,
            alone_days=finite(each.alone),
            days=tuple(map(DayOutput.of, batch_days(each, start))),
        )


class WaterOutput(Model):
    """The water that leaves all the boards on a day, likely, and the air that they stand in."""

    date: datetime.date
    water_kg: float | None
    air_temperature_c: float | None
    air_humidity: float | None = Field(description="relative, a share")


class StepOutput(Model):
    """What the kiln does before or after the drying."""

    name: str
    words: str
    at_least_s: float | None
    at_most_s: float | None

    @classmethod
    def of(cls, step: Step) -> StepOutput:
        return cls(name=step.name, words=step.words, at_least_s=finite(step.low), at_most_s=finite(step.high))


class ShorterOutput(Model):
    """What would bring the day forward, and by how much."""

    words: str
    ready: datetime.date = Field(description="the likely day then")
    days: float | None = Field(description="that it saves; null where the plan's own way is not there in time")

    @classmethod
    def of(cls, shorter: Shorter) -> ShorterOutput:
        return cls(words=shorter.words, ready=shorter.ready, days=finite(shorter.days))


class SourceOutput(Model):
    source: str
    memory: bool = Field(description="true where it was recalled and not read")

    @classmethod
    def of(cls, origin: Origin) -> SourceOutput:
        return cls(source=origin.source, memory=origin.memory)


class ForecastOutput(Model):
    path: str
    stack: str
    kind: StackKind
    title: str | None
    way: Way
    air: str = Field(description="whose air it is, in words")
    start: datetime.date
    restarted: datetime.date | None = Field(description="the reading that the curves start again from")
    wanted: float | None = Field(description="moisture content, a share of the oven-dry mass")
    wanted_by: datetime.date | None
    ready: PacesOutput = Field(description="when all boards are there and the kiln's last step is done")
    key_dates: tuple[KeyDayOutput, ...]
    batches: tuple[BatchOutput, ...]
    water: tuple[WaterOutput, ...] = Field(description="one for each day")
    floor_moisture: float | None = Field(description="the driest that the air can hold the boards at")
    governs: tuple[str, ...] = Field(description="what sets the time, in sentences")
    shorter: tuple[ShorterOutput, ...]
    steps_before: tuple[StepOutput, ...]
    steps_after: tuple[StepOutput, ...]
    assumed: tuple[str, ...]
    sources: tuple[SourceOutput, ...]

    @classmethod
    def of(cls, path: str, checked: CheckedStack, forecast: Forecast) -> ForecastOutput:
        stack = checked.stack
        return cls(
            path=path,
            stack=stack.name.text,
            kind=stack.kind,
            title=stack.title,
            way=forecast.way,
            air=forecast.air_words,
            start=forecast.start,
            restarted=forecast.restarted,
            wanted=finite(forecast.wanted),
            wanted_by=stack.want.by.date if stack.want and stack.want.by else None,
            ready=PacesOutput.of(forecast.ready),
            key_dates=tuple(_key_day(forecast, key) for key in _keys(forecast)),
            batches=tuple(BatchOutput.of(each, forecast.start) for each in forecast.batches),
            water=tuple(_water(forecast)),
            floor_moisture=finite(forecast.floor),
            governs=forecast.governs,
            shorter=tuple(map(ShorterOutput.of, forecast.shorter)),
            steps_before=tuple(map(StepOutput.of, forecast.before)),
            steps_after=tuple(map(StepOutput.of, forecast.after)),
            assumed=forecast.assumed,
            sources=tuple(map(SourceOutput.of, forecast.origins)),
        )


class NoForecastOutput(Model):
    """A stack of which nothing can be foretold: why, and what would have to be said."""

    path: str
    stack: str
    missing: str
    instead: str


class ForecastsOutput(Model):
    """What ``stacklint forecast --as json`` prints."""

    stacklint: str = Field(description="the version that wrote this")
    forecasts: tuple[ForecastOutput, ...]
    without: tuple[NoForecastOutput, ...]
    unread: tuple[Unread, ...]


def forecast_json(plans: Iterable[CheckedPlan], troubles: Iterable[Trouble]) -> str:
    """Every forecast of the plans, and what stands in the way of the others."""
    forecasts, without = [], []
    for plan in plans:
        for checked in plan.stacks:
            if isinstance(checked.forecast, Forecast):
                forecasts.append(ForecastOutput.of(plan.path, checked, checked.forecast))
                continue
            none = why_none(checked)
            without.append(
                NoForecastOutput(
                    path=plan.path, stack=checked.stack.name.text, missing=none.missing, instead=none.instead
                )
            )
    unread = tuple(Unread.of(trouble) for trouble in troubles)
    return written(
        ForecastsOutput(stacklint=__version__, forecasts=tuple(forecasts), without=tuple(without), unread=unread)
    )


def _keys(forecast: Forecast) -> tuple[float, ...]:
    """30% and 20%, and what is wanted."""
    return KEYS if forecast.wanted is None or forecast.wanted in KEYS else (*KEYS, forecast.wanted)


def _key_day(forecast: Forecast, key: float) -> KeyDayOutput:
    days = PacesOutput.of(lambda pace: forecast.below(key, pace))
    return KeyDayOutput(moisture=key, fast=days.fast, likely=days.likely, slow=days.slow)


def _water(forecast: Forecast) -> Iterable[WaterOutput]:
    for index, water in enumerate(forecast.water):
        air = forecast.air[index] if index < len(forecast.air) else None
        yield WaterOutput(
            date=day_of(forecast.start, index),
            water_kg=finite(water),
            air_temperature_c=finite(air.temperature) if air else None,
            air_humidity=finite(air.humidity) if air else None,
        )
