"""Stacks that are in one spot or kiln over the same days."""

from __future__ import annotations

import datetime

import pytest
from made_forecasts import forecast

from stacklint import check
from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.drying.batch import Curve, Spread
from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.engineering.facts import Booking
from stacklint.language import read
from stacklint.yard.judging import yard_facts
from stacklint.yard.stands import yard_plan

DATE = datetime.date
TODAY = DATE(2026, 1, 1)
YARD = """\
site "Larch Bottom"
  near "Columbus, OH"
site "Mill Hill"
  near "Columbus, OH"
site "Kiln"
  near "Columbus, OH"
kiln "Box"
  type vented
kiln "Barrel"
  type vented
kiln "North box"
  type vented
"""
ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"


def ready(start: str, end: str | None) -> Forecast:
    """A forecast whose boards are likely ready on a day, sooner or later by a month; never without a day."""
    first = DATE.fromisoformat(start)
    made = forecast(start=first)
    days = None if end is None else float((DATE.fromisoformat(end) - first).days)
    fast, likely, slow = (Curve((0.8, 0.7), None if days is None else days + late) for late in (-30, 0, 30))
    return made._replace(batches=(made.batches[0]._replace(spread=Spread(fast, likely, slow)),))


def booked(text: str, *forecasts: Forecast | NoForecast | None, yard: str = YARD) -> tuple[Booking, ...]:
    got = read(text + yard, "yard.stackplan", today=TODAY)
    assert not got.faults, got.faults
    stacks = (CheckedStack(stack, None, None, ahead) for stack, ahead in zip(got.plan.stacks, forecasts, strict=True))
    checked = CheckedPlan("yard.stackplan", got.system, tuple(stacks), (), plan=got.plan)
    return yard_facts([yard_plan(checked)]).bookings


def piles(*said: str) -> str:
    """Piles A, B and so on, each with its own lines."""
    return "".join(f'pile "{chr(65 + place)}"\n  {ASH}\n  {lines}\n' for place, lines in enumerate(said))


def spot(stacked: str, name: str = "row 3", site: str = "") -> str:
    place = f'\n  place open yard, site "{site}"' if site else ""
    return f'stacked {stacked}\n  spot "{name}"{place}'


def charges(*starts: str, kilns: tuple[str, str] = ("Box", "Box")) -> str:
    return "".join(
        f'charge "{chr(65 + place)}" in kiln "{kiln}"\n  starts {start}\n  {ASH}\n'
        for place, (start, kiln) in enumerate(zip(starts, kilns, strict=True))
    )


MARCH_TO_AUGUST = ready("2026-03-01", "2026-08-01")
MAY_TO_OCTOBER = ready("2026-05-01", "2026-10-01")


def test_two_piles_in_one_spot_at_once_are_told_where_the_later_one_says_its_spot() -> None:
    text = piles(spot("2026-03-01"), spot("2026-05-01"))
    (found,) = booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER)
    assert (found.place, found.stack, found.in_kiln) == ("spot row 3", "B", False)
    assert (found.first, found.second) == ("pile A (line 1)", "pile B")
    assert found.since == DATE(2026, 5, 1)
    assert found.until == found.free == DATE(2026, 8, 1)
    assert text.splitlines()[found.where.line - 1] == '  spot "row 3"'
    assert found.where.line == 8


def test_the_stack_that_stands_in_the_text_last_may_be_the_one_that_is_there_first() -> None:
    (found,) = booked(piles(spot("2026-05-01"), spot("2026-03-01")), MAY_TO_OCTOBER, MARCH_TO_AUGUST)
    assert (found.first, found.second) == ("pile B (line 5)", "pile A")
    assert found.where.line == 4


def test_a_pile_that_comes_and_goes_while_another_stands_is_in_its_way_until_it_goes() -> None:
    short = ready("2026-04-01", "2026-05-15")
    (found,) = booked(piles(spot("2026-03-01"), spot("2026-04-01")), MARCH_TO_AUGUST, short)
    assert (found.since, found.until, found.free) == (DATE(2026, 4, 1), DATE(2026, 5, 15), DATE(2026, 8, 1))


def test_a_spot_is_free_on_the_day_on_which_its_pile_is_ready() -> None:
    text = piles(spot("2026-03-01"), spot("2026-08-01"))
    assert booked(text, MARCH_TO_AUGUST, ready("2026-08-01", "2026-12-01")) == ()
    text = piles(spot("2026-03-01"), spot("2026-07-31"))
    assert len(booked(text, MARCH_TO_AUGUST, ready("2026-07-31", "2026-12-01"))) == 1


def test_the_likely_day_counts_not_the_slow_one() -> None:
    text = piles(spot("2026-03-01"), spot("2026-08-15"))
    assert booked(text, MARCH_TO_AUGUST, ready("2026-08-15", "2026-12-01")) == ()


def test_names_of_spots_and_kilns_are_one_in_small_and_capital_letters() -> None:
    text = piles(spot("2026-03-01", "row 3"), spot("2026-05-01", "ROW 3"))
    assert [each.place for each in booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER)] == ["spot ROW 3"]
    text = charges("2026-03-01", "2026-05-01", kilns=("North box", "north Box"))
    assert len(booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER)) == 1


def test_spots_of_other_names_are_other_spots() -> None:
    text = piles(spot("2026-03-01", "row 3"), spot("2026-05-01", "row 4"))
    assert booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER) == ()


def test_the_third_row_of_one_site_is_not_that_of_another() -> None:
    def at(one: str, other: str) -> tuple[Booking, ...]:
        text = piles(spot("2026-03-01", site=one), spot("2026-05-01", site=other))
        return booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER)

    assert at("Larch Bottom", "Mill Hill") == ()
    assert len(at("Larch Bottom", "larch bottom")) == 1


def test_a_pile_that_names_no_site_stands_at_the_only_one() -> None:
    text = piles(spot("2026-03-01", site="Larch Bottom"), spot("2026-05-01"))
    only = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
    assert len(booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER, yard=only)) == 1
    assert booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER) == ()


def test_a_pile_leaves_its_spot_when_a_charge_takes_its_boards() -> None:
    """By forecast A would stand until August; the charge takes it on the first of May."""
    taken = 'charge "1" in kiln "Box"\n  from pile "a"\n  starts {}\n'
    two = piles(spot("2026-03-01"), spot("2026-05-01"))
    in_may, in_june = (taken.format(day) for day in ("2026-05-01", "2026-06-01"))
    assert booked(two + in_may, MARCH_TO_AUGUST, MAY_TO_OCTOBER, None) == ()
    (found,) = booked(two + in_june, MARCH_TO_AUGUST, MAY_TO_OCTOBER, None)
    assert found.free == DATE(2026, 6, 1)


def test_a_pile_that_waits_for_its_charge_stands_in_its_spot_though_it_is_ready_or_not_forecast() -> None:
    two = piles(spot("2026-03-01"), spot("2026-09-01"))
    taken = two + 'charge "1" in kiln "Box"\n  from pile "A"\n  starts 2026-10-01\n'
    later = ready("2026-09-01", "2027-01-01")
    none = NoForecast("How it dries is not forecast.", "Name the site.")
    assert booked(two, MARCH_TO_AUGUST, later) == ()
    for first in (MARCH_TO_AUGUST, none, None):
        assert [each.free for each in booked(taken, first, later, None)] == [DATE(2026, 10, 1)]


def test_a_stack_whose_last_day_is_not_known_stands_on_and_no_day_is_told() -> None:
    text = piles(spot("2026-03-01"), spot("2036-05-01"))
    never, no_aim = ready("2026-03-01", None), MARCH_TO_AUGUST._replace(wanted=None)
    for first in (never, no_aim):
        (found,) = booked(text, first, MAY_TO_OCTOBER)
        assert (found.free, found.second) == (None, "pile B")


def test_a_stack_that_could_not_be_reckoned_and_goes_on_no_day_is_in_nobody_s_way() -> None:
    text = piles(spot("2026-03-01"), spot("2036-05-01"))
    for first in (NoForecast("How it dries is not forecast.", "Name the site."), None):
        assert booked(text, first, MAY_TO_OCTOBER) == ()


def test_of_a_pile_whose_first_day_is_not_said_nothing_is_said() -> None:
    assert booked(piles(spot("2026-03-01"), 'spot "row 3"'), MARCH_TO_AUGUST, MAY_TO_OCTOBER) == ()


def test_a_pile_that_was_taken_before_it_is_stacked_is_nowhere() -> None:
    text = piles(spot("2026-03-01"), spot("2026-05-01")) + (
        'charge "1" in kiln "Box"\n  from pile "B"\n  starts 2026-04-01\n'
    )
    assert booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER, None) == ()


def test_two_charges_in_one_kiln_at_once_are_told_and_in_two_kilns_not() -> None:
    (found,) = booked(charges("2026-03-01", "2026-05-01"), MARCH_TO_AUGUST, MAY_TO_OCTOBER)
    assert (found.place, found.in_kiln, found.stack) == ("kiln Box", True, "B")
    assert found.first == "charge A (line 1)"
    other = charges("2026-03-01", "2026-05-01", kilns=("Box", "Barrel"))
    assert booked(other, MARCH_TO_AUGUST, MAY_TO_OCTOBER) == ()


def test_a_charge_that_is_put_in_on_the_day_on_which_the_one_before_is_ready_finds_the_kiln_free() -> None:
    text = charges("2026-03-01", "2026-08-01")
    assert booked(text, MARCH_TO_AUGUST, ready("2026-08-01", "2026-09-01")) == ()


def test_a_spot_and_a_kiln_of_one_name_are_two_places() -> None:
    """Even at a site that is called Kiln."""
    charge = f'charge "B" in kiln "Box"\n  starts 2026-05-01\n  {ASH}\n'
    text = piles(spot("2026-03-01", "Box", site="Kiln")) + charge
    assert booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER) == ()


def test_of_three_piles_in_one_spot_each_that_comes_is_set_against_the_one_that_leaves_last() -> None:
    text = piles(spot("2026-03-01"), spot("2026-05-01"), spot("2026-06-01"))
    found = booked(text, MARCH_TO_AUGUST, MAY_TO_OCTOBER, ready("2026-06-01", "2026-12-01"))
    assert [(each.first, each.second, each.others) for each in found] == [
        ("pile A (line 1)", "pile B", 0),
        ("pile B (line 5)", "pile C", 1),
    ]
    assert [one.words for one in found[1].related] == ["pile B", "pile A"]


def test_of_a_stack_without_a_last_day_it_is_said_what_is_wanting() -> None:
    text = piles(spot("2026-03-01"), spot("2026-05-01"))
    nothing_wanted = MARCH_TO_AUGUST._replace(wanted=None)
    known = [
        [(each.free, each.foretold, each.never_ready) for each in booked(text, first, MAY_TO_OCTOBER)]
        for first in (ready("2026-03-01", None), nothing_wanted, MARCH_TO_AUGUST)
    ]
    assert known == [
        [(None, True, True)],
        [(None, True, False)],
        [(DATE(2026, 8, 1), True, False)],
    ]


@pytest.mark.parametrize(
    ("site", "want", "advice"),
    [
        ('near "Columbus, OH"', "", "Say what moisture content the first is wanted at"),
        ('near "Columbus, OH"', "want 5%", "Want of the first what the air can give"),
        ("spots 3", "want 16%", "Say what the forecast of the first lacks"),
    ],
)
def test_what_would_give_a_spot_its_last_day_is_advised(site: str, want: str, advice: str) -> None:
    first, second = (
        f'pile "{name}"\n  {spot(day)}\n  {ASH}\n' for name, day in (("A", "2026-03-01"), ("B", "2026-05-01"))
    )
    checked = check(f'site "Alder Flat"\n  {site}\n{first}  {want}\n{second}', today=TODAY)
    (found,) = (each for each in checked.findings if each.rule == "spot-double-booked")
    assert advice in found.instead
