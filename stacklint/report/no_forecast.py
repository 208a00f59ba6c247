"""Why a stack has no forecast."""

from __future__ import annotations

from stacklint.checked import CheckedStack
from stacklint.drying.forecast import NoForecast

_FAULTS = NoForecast(
    "How it dries is not forecast: what is wrong in its text comes first.", "Mend it; stacklint check tells of it."
)
_NOTHING_WANTED = NoForecast(
    "How it dries is not forecast: no moisture content is wanted.", "Add a line such as: want 8% for furniture."
)


def why_none(checked: CheckedStack) -> NoForecast:
    """What a stack lacks that has no forecast, and what to say."""
    if isinstance(checked.forecast, NoForecast):
        return checked.forecast
    return _FAULTS if checked.facts is None else _NOTHING_WANTED
