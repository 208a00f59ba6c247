"""What takes the water out of a kiln: a dehumidifier in the air that it stands in, a solar kiln's collector."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from stacklint.drying.air import dew_point, humidity_ratio
from stacklint.drying.climate import Air
from stacklint.units import ONE_DAY, Unit

RATED = Air(Unit.FAHRENHEIT.to_si(80), 0.60)
"""What household dehumidifiers were rated in until 2019, 80 F and 60% (memory). Since then it is 65 F and 60%, in
which the same machine takes about 0.60 of the water: labels of the two kinds differ by 0.6 to 0.71 (memory)."""
MOST = 1.5
"""However warm and damp the air, its coil is taken to take no more than this times its rating (assumed)."""
ICE = 0.0
"""Air with its dew point below this ices the coil, and nothing comes off it."""
COLLECTOR_BY_DAY = 2.86
"""Water (kg) that a square metre of a solar kiln's collector dries out of boards in a day of the warm months, fitted:
with it 450 board feet of green 4/4 hardwood (sugar maple) under 45 ft2 take the published 42 days to 8% from June on
(Wengert and Meyer, http://owic.oregonstate.edu/solarkiln/plans.htm) in summer air of 22 C and 68%."""
SOLAR_RISE = 10.0
"""How much warmer than outdoors a solar kiln's air is, day and night together, K (assumed)."""
DEAD_COLD = -10.0
"""At a month's mean of this a collector takes out nothing; it rises evenly to the whole in the warmest months
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


def collector(area: float, months: Sequence[Air]) -> tuple[float, ...]:
    """Water that a solar kiln's collector of an area (m2) dries out of boards in each month, kg/s."""
    temperatures = [air.temperature for air in months]
    summer = sum(sorted(temperatures)[-_SUMMER_MONTHS:]) / _SUMMER_MONTHS
    most = area * COLLECTOR_BY_DAY / ONE_DAY
    if summer <= DEAD_COLD:
        return (0.0,) * len(temperatures)
    shares = (min(max((each - DEAD_COLD) / (summer - DEAD_COLD), 0.0), 1.0) for each in temperatures)
    return tuple(most * share for share in shares)
