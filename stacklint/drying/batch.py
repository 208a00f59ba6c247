"""Batches: boards that dry alike, and how their moisture content goes day by day."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.plan.boards import Face
from stacklint.tables.wood import Wood


class Batch(NamedTuple):
    """Like boards of one stack. ``moisture`` is that at the start; ``dry_mass`` their oven-dry mass, kg."""

    label: str
    words: str
    wood: Wood
    thickness: float
    moisture: float
    dry_mass: float
    face: Face | None = None


class Curve(NamedTuple):
    """Moisture content at the start of each day, as shares: ``moisture[0]`` is that of the day of the start.

    ``reached`` is the time (days from the start, with their fraction) at which the wanted moisture content is
    reached; ``None`` if not within the days that were looked at.
    """

    moisture: tuple[float, ...]
    reached: float | None

    def below(self, moisture: float) -> float | None:
        """Days from the start until the boards are at or below a moisture content; ``None`` if they never are."""
        for day, now in enumerate(self.moisture):
            if now <= moisture:
                if day == 0 or now == moisture:
                    return float(day)
                before = self.moisture[day - 1]
                return day - 1 + (before - moisture) / (before - now)
        return None


class Spread(NamedTuple):
    """One batch three ways: as it may go at the fastest, as is likely, at the slowest."""

    fast: Curve
    likely: Curve
    slow: Curve
