"""Boards that dry at different speeds in one stack."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedStack
from stacklint.checking import check
from stacklint.drying.forecast import Forecast
from stacklint.engineering.facts import StackFacts
from stacklint.tables import woods
from stacklint.tables.kin import kin_of
from stacklint.tables.rows import read

TODAY = datetime.date(2026, 9, 1)
DAY = 86_400.0
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
KILN = 'kiln "North box"\n  type dehumidification\n  inside 17 ft x 5 ft x 6 ft\n  heats to 150 F\n'


def stack(*boards: str, site: str = SITE, head: str = 'pile "Row 3"', more: str = "") -> CheckedStack:
    """``boards`` are wood and thickness, and moisture where they are not green."""
    lines = "\n  ".join(_line(chr(97 + place), *each.partition(", ")[::2]) for place, each in enumerate(boards))
    text = f"{site}{head}\n  {lines}\n  stack 16 ft x 4 ft\n  stickers 3/4 in x 1 1/4 in, every 24 in, dry\n  {more}\n"
    return check(text, today=TODAY).stacks[0]


def _line(label: str, boards: str, moisture: str) -> str:
    return f"boards {label}: 40 of {boards} x 6 in x 8 ft, {moisture or 'green'}"


def facts(*boards: str, site: str = SITE, head: str = 'pile "Row 3"', more: str = "stacked 2026-04-02") -> StackFacts:
    found = stack(*boards, site=site, head=head, more=more).facts
    assert found is not None
    return found


def rate(name: str) -> float:
    wood = woods.find(name)
    assert wood is not None
    return next(float(row["rate_per_day"]) for row in read("air_rates") if row["species"] == kin_of(wood).air)


def test_boards_of_twice_the_thickness_take_2_8_times_as_long() -> None:
    """The power 1.5 of AH-188 (memory); 4/4 in 60 days and 8/4 in 180 (Wengert)."""
    found = facts("white ash 4/4", "white ash 8/4")
    assert found.thickness_ratio == pytest.approx(2)
    assert found.time_ratio == pytest.approx(2.83, abs=0.2)
    assert (found.slow_boards, found.quick_boards) == (
        "white ash 8/4 x 6 in x 8 ft",
        "white ash 4/4 x 6 in x 8 ft",
    )
    assert found.slow_group is not None and found.slow_group.where.line == 5


def test_the_times_of_a_pile_are_those_of_its_forecast_down_to_20_percent() -> None:
    checked = stack("white ash 4/4", "white ash 8/4", more="stacked 2026-04-02\n  want 15%")
    found, made = checked.facts, checked.forecast
    assert found is not None and isinstance(made, Forecast)
    quick, slow = (each.spread for each in made.batches)
    assert found.quick_low == quick.fast.below(0.20) * DAY  # type: ignore[operator]
    assert found.quick_high == quick.slow.below(0.20) * DAY  # type: ignore[operator]
    assert found.slow_low == slow.fast.below(0.20) * DAY  # type: ignore[operator]
    assert found.slow_high == slow.slow.below(0.20) * DAY  # type: ignore[operator]


def test_without_a_forecast_the_times_are_the_published_ones() -> None:
    """White ash, 60 to 200 days to 20% (Wood Handbook list, memory)."""
    found = facts("white ash 4/4", "white ash 8/4", site="")
    assert (found.quick_low, found.quick_high) == (pytest.approx(60 * DAY), pytest.approx(200 * DAY))
    assert found.slow_low is not None and found.slow_low > 150 * DAY


def test_where_20_percent_is_not_reached_the_times_are_the_published_ones_too() -> None:
    found = facts("white ash 4/4", "white ash 8/4", more="place basement\n  stacked 2026-04-02")
    assert found.quick_low == pytest.approx(60 * DAY)


MIXED = (
    f'{KILN}charge "c" in kiln "North box"\n  boards a: 40 of white ash 4/4 x 6 in x 8 ft, 35%\n'
    "  boards b: 40 of white ash 8/4 x 6 in x 8 ft, 35%\n  stack 16 ft x 4 ft\n"
    "  stickers 3/4 in x 1 1/4 in, every 24 in, dry\n  starts 2026-05-01\n  schedule T8-D4\n  want 8%\n"
)


def test_in_a_kiln_the_times_are_those_of_each_thickness_in_a_charge_of_its_own() -> None:
    checked = check(MIXED, today=TODAY).stacks[0]
    alone = check(MIXED.replace("boards b: 40 of white ash 8/4", "boards b: 40 of white ash 4/4"), today=TODAY)
    found, made, thin = checked.facts, checked.forecast, alone.stacks[0].forecast
    assert found is not None and isinstance(made, Forecast) and isinstance(thin, Forecast)
    by_itself = thin.batches[0].spread.likely.reached
    assert by_itself is not None
    assert made.batches[0].alone == pytest.approx(by_itself, rel=0.01)
    assert found.quick_low is not None and found.quick_high is not None and found.slow_low is not None
    assert found.quick_low < by_itself * DAY < found.quick_high
    assert found.quick_high < found.slow_low


def test_readings_do_not_change_how_long_each_thickness_would_take() -> None:
    plain = check(MIXED, today=TODAY).stacks[0].facts
    read = check(MIXED + "  reading 2026-05-08 30%, of b\n", today=TODAY).stacks[0].facts
    assert plain is not None and read is not None
    assert (read.quick_low, read.slow_high) == (pytest.approx(plain.quick_low), pytest.approx(plain.slow_high))


def test_boards_that_are_dry_already_are_not_compared() -> None:
    found = facts("white ash 4/4", "white ash 8/4", "white ash 12/4, 12%")
    assert found.slow_boards == "white ash 8/4 x 6 in x 8 ft"
    assert found.thickness_ratio == pytest.approx(2)


def test_where_all_are_dry_all_are_compared() -> None:
    assert facts("white ash 4/4, 12%", "white ash 12/4, 12%").thickness_ratio == pytest.approx(3)


def test_woods_are_compared_by_their_times_as_if_of_one_thickness() -> None:
    """Yellow-poplar 40 days at least, northern white oak 80 (Wood Handbook list, memory)."""
    found = facts("yellow-poplar 8/4", "white oak 4/4")
    assert found.woods == 2
    assert (found.slow_wood, found.quick_wood) == ("white oak", "yellow-poplar")
    assert found.pace_ratio == pytest.approx(80 / 40, rel=0.15)


def test_green_white_oak_takes_longer_than_green_ash_though_it_dries_at_its_rate() -> None:
    """White ash 60 days at least, northern white oak 80 (Wood Handbook list, memory)."""
    assert rate("white oak") > rate("white ash")
    found = facts("white ash 4/4", "white oak 4/4")
    assert (found.slow_wood, found.quick_wood) == ("white oak", "white ash")
    assert found.pace_ratio == pytest.approx(80 / 60, rel=0.05)


def test_woods_are_compared_as_wet_as_they_are() -> None:
    assert facts("white ash 4/4, 60%", "white oak 4/4, 40%").slow_wood == "white ash"


def test_dry_woods_are_compared_as_if_green() -> None:
    assert facts("white ash 4/4, 10%", "white oak 4/4, 10%").pace_ratio == pytest.approx(80 / 60, rel=0.05)


def test_safe_losses_are_compared_where_two_woods_have_one() -> None:
    """Upland red oak 3.8% and white oak 2.5% a day (Wengert; safe_drying_rates.csv)."""
    found = facts("northern red oak 4/4", "white oak 4/4")
    assert found.safe_ratio == pytest.approx(3.8 / 2.5)
    assert (found.safe_most_wood, found.safe_least_wood) == ("northern red oak", "white oak")
    assert facts("paper birch 4/4", "white oak 4/4").safe_ratio is None


def test_one_wood_has_nothing_to_be_compared_with() -> None:
    found = facts("white ash 4/4", "white ash 8/4")
    assert found.woods == 1
    assert (found.pace_ratio, found.slow_wood, found.quick_wood, found.safe_ratio) == (None, None, None, None)


def test_a_dry_wood_beside_a_green_one_is_not_compared() -> None:
    assert facts("yellow-poplar 4/4, 10%", "white oak 4/4").woods == 1
