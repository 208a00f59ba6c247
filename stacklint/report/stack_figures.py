"""The figures of a stack as programs read them: SI values, the unit in each key, null for what is unknown."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable

from pydantic import BaseModel, ConfigDict, Field

from stacklint.drying.forecast import Forecast, NoForecast, Pace
from stacklint.engineering.facts import StackFacts

_MILLI = 1e3
_KILO = 1e-3


class Model(BaseModel):
    """An object of the output. Frozen; unknown keys are refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


def _unknown(means: str) -> float | None:
    value: float | None = Field(None, description=means, allow_inf_nan=False)
    return value


def _uncounted(means: str) -> int | None:
    value: int | None = Field(None, description=means)
    return value


def _undated(means: str) -> datetime.date | None:
    value: datetime.date | None = Field(None, description=means)
    return value


class StackFigures(Model):
    """Figures of a pile or a charge."""

    volume_m3: float | None = _unknown("wood, by the sizes listed")
    board_measure_m3: float | None = _unknown("wood in the trade's measure: under 1 in thick counts as 1 in")
    pieces: int | None = _uncounted("boards")
    mass_now_kg: float | None = _unknown("the boards at their present moisture content")
    mass_green_kg: float | None = _unknown("the boards green")
    mass_target_kg: float | None = _unknown("the boards at the wanted moisture content")
    water_kg: float | None = _unknown("to take out, from now to the wanted moisture content")
    load_kg: float | None = _unknown("boards, top load and cover, now")
    length_m: float | None = _unknown("of the stack, along the boards")
    width_m: float | None = _unknown("of the stack, across the boards")
    height_m: float | None = _unknown("boards and stickers")
    clearance_m: float | None = _unknown("ground to the underside of the lowest board")
    top_m: float | None = _unknown("ground to the top of the top course")
    courses: int | None = _uncounted("layers of boards")
    unpaired: int | None = _uncounted("boards in rows that do not fill the stack's length")
    left_over: int | None = _uncounted("boards that stand in no course")
    sticker_lines: int | None = _uncounted("lines of stickers along the stack")
    stickers: int | None = _uncounted("stickers to cut")
    sticker_length_m: float | None = _unknown("of each sticker")
    sticker_spacing_m: float | None = _unknown("widest distance between two sticker lines")
    sag_max_mm: float | None = _unknown("largest sag between supports, creep included")
    end_max_mm: float | None = _unknown("longest board end past its last sticker")
    ground_pressure_max_kpa: float | None = _unknown("under the worst pad, block or bearer")
    bearer_load_max_kg: float | None = _unknown("on the bearer that carries most")
    bearer_use_max: float | None = _unknown("largest stress of a bearer as a share of its design value")
    overturning: float | None = _unknown("moment that holds the stack down over the moment of the wind")
    heaviest_board_kg: float | None = _unknown("the heaviest board, now")
    moisture_wettest: float | None = _unknown("moisture content of the wettest boards, a share of the oven-dry mass")
    moisture_driest: float | None = _unknown("moisture content of the driest boards")
    moisture_wanted: float | None = _unknown("moisture content wanted")
    ready_fast: datetime.date | None = _undated("the day when the boards are ready, at the fastest")
    ready_likely: datetime.date | None = _undated("the day when the boards are likely ready")
    ready_slow: datetime.date | None = _undated("the day when the boards are ready, at the slowest")
    floor_moisture: float | None = _unknown("the driest that the air of the forecast can hold the boards at")

    @classmethod
    def of(cls, facts: StackFacts, forecast: Forecast | NoForecast | None = None) -> StackFigures:
        known = forecast if isinstance(forecast, Forecast) else None
        return cls(
            volume_m3=finite(facts.volume),
            board_measure_m3=finite(facts.board_feet),
            pieces=_whole(facts.pieces),
            mass_now_kg=finite(facts.mass_now),
            mass_green_kg=finite(facts.mass_green),
            mass_target_kg=finite(facts.mass_target),
            water_kg=finite(facts.water),
            load_kg=finite(facts.load),
            length_m=finite(facts.length),
            width_m=finite(facts.width),
            height_m=finite(facts.height),
            clearance_m=finite(facts.clearance),
            top_m=finite(facts.top),
            courses=_whole(facts.courses_high),
            unpaired=_whole(facts.unpaired),
            left_over=_whole(facts.left_over),
            sticker_lines=_whole(facts.sticker_lines),
            stickers=_whole(facts.sticker_count),
            sticker_length_m=finite(facts.sticker_length),
            sticker_spacing_m=finite(facts.sticker_spacing),
            sag_max_mm=finite(facts.sag_max, _MILLI),
            end_max_mm=finite(facts.end_max, _MILLI),
            ground_pressure_max_kpa=finite(largest(pad.pressure for pad in facts.pads), _KILO),
            bearer_load_max_kg=largest(bearer.load for bearer in facts.bearers),
            bearer_use_max=largest(bearer.worst for bearer in facts.bearers),
            overturning=finite(facts.overturning),
            heaviest_board_kg=finite(facts.heaviest_board),
            moisture_wettest=finite(facts.wettest),
            moisture_driest=finite(facts.driest),
            moisture_wanted=finite(facts.wanted),
            ready_fast=known.ready(Pace.FAST) if known else None,
            ready_likely=known.ready(Pace.LIKELY) if known else None,
            ready_slow=known.ready(Pace.SLOW) if known else None,
            floor_moisture=finite(known.floor) if known else None,
        )


def finite(value: float | None, scale: float = 1.0) -> float | None:
    """``value`` times ``scale``; ``None`` where it is unknown or no number that JSON can hold."""
    if value is None or not math.isfinite(value):
        return None
    return value * scale


def largest(values: Iterable[float | None]) -> float | None:
    """The largest of those that are known and finite."""
    return max((value for value in values if finite(value) is not None and value is not None), default=None)


def _whole(value: float | None) -> int | None:
    known = finite(value)
    return None if known is None else round(known)
