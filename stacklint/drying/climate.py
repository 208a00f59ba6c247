"""The air that boards stand in, month by month: a site's, and that of sheds and rooms derived from it."""

from __future__ import annotations

from typing import NamedTuple


class Air(NamedTuple):
    """Mean air of a time: temperature in degrees Celsius, relative humidity as a share."""

    temperature: float
    humidity: float


class Climate(NamedTuple):
    """The mean air of the twelve months, January first.

    ``words`` says whose air it is; ``memory`` is true where some of it was recalled and not read; ``assumed`` says
    in whole sentences what was assumed to derive it.
    """

    months: tuple[Air, ...]
    words: str
    source: str
    memory: bool
    assumed: tuple[str, ...] = ()
