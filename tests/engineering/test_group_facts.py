"""Facts of the groups of boards of a stack."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedStack
from stacklint.checking import check
from stacklint.drying.forecast import Forecast
from stacklint.engineering.facts import Group
from stacklint.findings import Mark, Part
from stacklint.units import ONE_DAY, ONE_INCH

TODAY = datetime.date(2026, 9, 1)
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
KILN = 'kiln "Box"\n  type vented\n  heats to 160 F\n'
BUILT = "stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/4 in, every 24 in, dry"
ASH = "60 of white ash 4/4 x 6 in x 8 ft, green"


def stack(*boards: str, said: tuple[str, ...] = (), built: tuple[str, ...] = BUILT, head: str = "") -> CheckedStack:
    lists = [f"boards {chr(97 + place)}: {each}" for place, each in enumerate(boards)]
    text = (head or f'{SITE}pile "A"\n  stacked 2026-04-02\n') + "".join(
        f"  {line}\n" for line in (*lists, *built, *said)
    )
    return check(text, today=TODAY).stacks[0]


def groups(*boards: str, **more: tuple[str, ...]) -> tuple[Group, ...]:
    found = stack(*boards, **more).facts
    assert found is not None
    return found.groups


def group(boards: str = ASH, **more: tuple[str, ...]) -> Group:
    (one,) = groups(boards, **more)
    return one


def in_kiln(boards: str) -> Group:
    found = stack(boards, head=f'{KILN}charge "A" in kiln "Box"\n  starts 2026-04-02\n').facts
    assert found is not None
    return found.groups[0]


def test_a_board_of_green_ash_weighs_its_dry_wood_and_the_water_in_it() -> None:
    """Specific gravity 0.55 of the green volume (Wood Handbook ch. 5); 1 in x 6 in x 8 ft at 40%."""
    one = group(ASH.replace("green", "40%"))
    volume = ONE_INCH * 6 * ONE_INCH * 96 * ONE_INCH
    assert one.board_mass == pytest.approx(550 * 1.4 * volume, rel=0.01)
    assert one.volume == pytest.approx(60 * volume)
    assert (one.pieces, one.moisture, one.moisture_stated) == (60, 0.40, True)
    assert group(ASH.removesuffix(", green")).moisture_stated is False


def test_boards_of_several_sizes_are_weighed_by_their_longest_and_widest() -> None:
    even, mixed = group(), group(ASH.replace("x 6 in x 8 ft", "x 4 to 6 in x 6 to 8 ft"))
    assert (even.sizes_vary, mixed.sizes_vary) == (False, True)
    assert mixed.board_mass == pytest.approx(even.board_mass)
    assert mixed.length == pytest.approx(even.length)


@pytest.mark.parametrize(("thickness", "timber"), [("4 in", False), ("4 1/2 in", True), ("6 in", True)])
def test_a_piece_is_a_timber_from_nominal_five_inches_on(thickness: str, timber: bool) -> None:
    """American Softwood Lumber Standard PS 20 (memory): timbers are nominal 5 in or more in their least dimension,
    4 1/2 in dressed."""
    assert group(f"8 of white oak {thickness} x 6 in x 8 ft, green").timber is timber


def test_the_courses_of_a_group_are_those_in_which_its_boards_lie() -> None:
    """Eight boards of 6 in across 4 ft, two lengths of 8 ft: sixteen boards fill a course of 16 ft."""
    first, second = groups("32 of white ash 4/4 x 6 in x 8 ft, green", "16 of white oak 4/4 x 6 in x 8 ft, green")
    assert first.marks == (Mark(Part.COURSE, 1, 2),)
    assert second.marks == (Mark(Part.COURSE, 3, 3),)


def test_the_spacing_of_a_group_is_the_widest_distance_between_the_stickers_under_it() -> None:
    assert group().spacing == pytest.approx(24 * ONE_INCH, abs=0.01)
    close = group(built=("stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/4 in, every 16 in, dry"))
    assert close.spacing == pytest.approx(16 * ONE_INCH, abs=0.01)


def test_boards_that_find_no_partner_are_counted_with_their_group() -> None:
    """Boards of 9 ft leave 7 ft of 16, which no other board fills."""
    paired, odd = groups("32 of white ash 4/4 x 6 in x 8 ft, green", "5 of white ash 4/4 x 6 in x 9 ft, green")
    assert (paired.unpaired, odd.unpaired) == (0, 5)


def test_the_days_of_a_pile_are_those_published_for_the_yard_and_of_a_charge_those_for_a_kiln() -> None:
    """White ash: 10 to 15 days from green to 6% in a kiln, 60 to 200 to 20% in the air (air_drying_times.csv and
    kiln_drying_times.csv, memory)."""
    yard, kiln = group(), in_kiln(ASH)
    assert kiln.drying_days_low == pytest.approx(10 * ONE_DAY)
    assert kiln.drying_days_high == pytest.approx(15 * ONE_DAY)
    assert yard.drying_days_low == pytest.approx(60 * ONE_DAY)
    assert yard.drying_days_high == pytest.approx(200 * ONE_DAY)


def test_the_safe_daily_loss_of_white_oak_is_read_and_that_of_walnut_recalled() -> None:
    """2.5% a day for 4/4 white oak, 1% for 8/4 (Wengert), 8.2% for walnut (memory); safe_drying_rates.csv."""
    oak, walnut = group(ASH.replace("white ash", "white oak")), group(ASH.replace("white ash", "black walnut"))
    thick = group(ASH.replace("white ash 4/4", "white oak 8/4"))
    assert (oak.safe_loss, oak.safe_memory) == (0.025, False)
    assert (walnut.safe_loss, walnut.safe_memory) == (pytest.approx(0.082), True)
    assert thick.safe_loss == pytest.approx(0.010)


def test_a_wood_without_a_published_safe_loss_has_none() -> None:
    fir = group(ASH.replace("white ash", "coast Douglas-fir"))
    assert (fir.safe_loss, fir.safe_memory) == (None, None)


def test_the_loss_of_the_first_day_is_that_of_the_likely_forecast_of_each_group() -> None:
    checked = stack("32 of white ash 4/4 x 6 in x 8 ft, green", "32 of white ash 8/4 x 6 in x 8 ft, green")
    found, made = checked.facts, checked.forecast
    assert found is not None and isinstance(made, Forecast)
    for one, each in zip(found.groups, made.batches, strict=True):
        moisture = each.spread.likely.moisture
        assert one.first_loss == moisture[0] - moisture[1]
        assert one.first_loss > 0
    thin, thick = (one.first_loss for one in found.groups)
    assert thin is not None and thick is not None and thin > 2 * thick


def test_of_boards_that_were_read_since_the_first_day_is_not_guessed() -> None:
    assert group(said=("reading 2026-05-02 50%",)).first_loss is None


def test_without_a_forecast_or_a_day_of_drying_there_is_no_loss_of_the_first_day() -> None:
    nowhere = stack(ASH, head='pile "A"\n  stacked 2026-04-02\n').facts
    assert nowhere is not None and nowhere.groups[0].first_loss is None
    assert group(ASH.replace("green", "12%"), said=("want 14%",)).first_loss is None


def test_the_traits_of_a_wood_are_those_of_its_group() -> None:
    """Wide-rayed oak checks, sweetgum warps, maple stains (traits.csv)."""
    oak, gum, maple = (group(ASH.replace("white ash", wood)) for wood in ("white oak", "sweetgum", "sugar maple"))
    assert (oak.check_prone, gum.warp_prone, maple.stain_prone) == (True, True, True)
    assert (gum.check_prone, oak.warp_prone) == (False, False)
    assert oak.hardwood is True
    assert group(ASH.replace("white ash", "eastern white pine")).hardwood is False
