"""The forecast of a kiln charge."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from stacklint.drying.batch import Batch
from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, Site


def forecast(
    stack: Stack,
    batches: Sequence[Batch],
    sites: Sequence[Site],
    kiln: Kiln | None,
    start: datetime.date,
    wanted: float | None,
    assumed: tuple[str, ...],
) -> Forecast | NoForecast:
    return NoForecast("Not yet.", "Wait.")
