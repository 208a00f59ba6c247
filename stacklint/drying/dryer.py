"""What takes the water out of a kiln: a dehumidifier in the air that it stands in, a solar kiln's collector."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from stacklint.drying.air import dew_point, humidity_ratio, saturation_pressure
from stacklint.drying.climate import Air
from stacklint.units import ONE_DAY, Unit

RATED = Air(Unit.FAHRENHEIT.to_si(80), 0.60)
"""What household dehumidifiers were rated in until 2019, 80 F and 60% (memory). Since then it is 65 F and 60%, in
which the same machine takes about 0.60 of the water: labels of the two kinds differ by 0.6 to 0.71 (memory)."""
MOST = 1.5
"""However warm and damp the air, its coil is taken to take no more than this times its rating (assumed)."""
ICE = 0.0
"""Air with its dew point below this ices the coil, and nothing comes off it."""
COLLECTOR_BY_DAY = 3.2
"""Water (kg) that a square metre of a solar kiln's collector dries out of boards in a day of the warm months, fitted:
with it 450 board feet of green 4/4 hardwood (sugar maple) under 45 ft2 take the published 42 days to 8% (Wengert and
Meyer, http://owic.oregonstate.edu/solarkiln/plans.htm) in summer air of 22 C and 68%. At 1,000 Btu a pound (Wengert
and Oliveira) that is 650 Btu for a square foot, about a third of a summer day's sun."""
SOLAR_RISE = 30.0
"""How much warmer than outdoors a solar kiln's air is while the sun warms it, in the warm months, K; and
for :data:`SUN_HOURS` a day (both assumed; the published 42 days cannot be met with less)."""
SUN_HOURS = 12.0
DEAD_COLD = -10.0
"""At a month's mean of this the sun warms and dries nothing; both rise evenly to the whole in the warmest months
(assumed: less sun and more loss go together)."""
BOARD_FEET_TO_COLLECTOR = 10.0
"""A solar kiln should hold at most so many board feet to a square foot of roof (Wengert and Meyer, same page)."""
_SUMMER_MONTHS = 3


@cache
def capacity(removes: float, temperature: float, humidity: float) -> float:
    """Water that a dehumidifier takes out of air (kg/s), by its rating ``removes`` (kg/s).

    In proportion to the water in the air, at most :data:`MOST` times the rating.
    """
    if humidity <= 0 or dew_point(temperature, humidity) < ICE:
        return 0.0
    ratio = humidity_ratio(temperature, humidity) / humidity_ratio(*RATED)
    return removes * min(ratio, MOST)


def sun(months: Sequence[Air]) -> tuple[float, ...]:
    """How much of its warm-month heat the sun gives a solar kiln in each month, as a share."""
    temperatures = [air.temperature for air in months]
    summer = sum(sorted(temperatures)[-_SUMMER_MONTHS:]) / _SUMMER_MONTHS
    if summer <= DEAD_COLD:
        return (0.0,) * len(temperatures)
    return tuple(min(max((each - DEAD_COLD) / (summer - DEAD_COLD), 0.0), 1.0) for each in temperatures)


def collected(area: float, share: float) -> float:
    """Water that a solar kiln's collector of an area (m2) dries at a share of the sun: kg/s, over a day."""
    return area * COLLECTOR_BY_DAY * share / ONE_DAY


def warmed(outdoors: Air, share: float) -> Air:
    """The air of a solar kiln by day at a share of the sun: the outdoor air with its water, warmed."""
    inside = outdoors.temperature + SOLAR_RISE * share
    vapour = outdoors.humidity * saturation_pressure(outdoors.temperature)
    return Air(inside, vapour / saturation_pressure(inside))
