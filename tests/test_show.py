"""Figures as people write them: the air of a kiln, the days of a range."""

from __future__ import annotations

import pytest

from stacklint.show import show, show_range
from stacklint.units import SPEED, TIME, System, Unit

DAY = 86_400.0


@pytest.mark.parametrize(
    ("speed", "inch", "metric"),
    [(1.27, "250 fpm", "1.27 m/s"), (10.16, "2,000 fpm", "10.2 m/s"), (25.7, "57.5 mph", "25.7 m/s")],
)
def test_air_between_courses_is_told_in_feet_a_minute_and_a_gust_in_miles_an_hour(
    speed: float, inch: str, metric: str
) -> None:
    """250 fpm is 1.27 m/s, 57.5 mph is 25.7 m/s (NIST SP 811, Appendix B.8)."""
    assert show(speed, SPEED, System.INCH) == inch
    assert show(speed, SPEED, System.METRIC) == metric
    assert Unit.FEET_PER_MINUTE.from_si(1.27) == pytest.approx(250, rel=1e-3)


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(80 * DAY, 250 * DAY, "80 to 250 days"), (DAY, 3 * DAY, "24 h to 3 days"), (3600, 7200, "1 to 2 h")],
)
def test_a_range_of_days_says_its_unit_once(low: float, high: float, words: str) -> None:
    assert show_range(low, high, TIME, System.INCH) == words
