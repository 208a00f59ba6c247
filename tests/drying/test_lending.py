"""A charge takes boards from a pile as dry as the pile is by then."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.drying.forecast import Forecast, Pace, curve
from stacklint.drying.lending import rest_of
from stacklint.findings import Finding
from stacklint.language import read
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Stack

TODAY = datetime.date(2026, 9, 1)
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
KILN = """\
kiln "North box"
  type dehumidification
  inside 17 ft x 5 ft x 6 ft
  heats to 150 F
  removes 60 pt/day
  fans 4 of 2400 cfm
"""
PILE = """\
pile "B2"
  place open yard
  stacked {stacked}
  boards a: 60 of {wood} 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, dry
  want 12%
"""
CHARGE = """\
charge "2026-07" in kiln "North box"
  {starts}
  schedule T8-D4
  from pile "B2"
  want 8%
"""


def plan(
    starts: str = "starts 2026-06-01", *, site: str = SITE, stacked: str = "2026-04-02", wood: str = "white ash",
    more: str = "",
) -> CheckedPlan:  # fmt: skip
    text = site + KILN + PILE.format(stacked=stacked, wood=wood) + CHARGE.format(starts=starts) + more
    return check(text, today=TODAY)


def charge_of(checked: CheckedPlan) -> Stack:
    return next(one.stack for one in checked.stacks if one.stack.name.text == "2026-07")


def moisture(stack: Stack, place: int = 0) -> float:
    figure = stack.boards[place].moisture
    assert isinstance(figure, Quantity)
    return figure.si


def said(checked: CheckedPlan, word: str) -> list[Finding]:
    return [finding for finding in checked.findings if word in finding.message]


def test_boards_from_a_pile_are_as_dry_as_the_pile_is_forecast_to_be() -> None:
    checked = plan()
    pile = checked.stacks[0].forecast
    assert isinstance(pile, Forecast)
    days = (datetime.date(2026, 6, 1) - datetime.date(2026, 4, 2)).days
    expected = curve(pile.batches[0].spread, Pace.LIKELY).moisture[days]
    assert 0.15 < expected < 0.30
    assert moisture(charge_of(checked)) == pytest.approx(expected, abs=0.0006)


def test_the_charge_itself_is_forecast_from_there() -> None:
    charge = plan().stacks[1].forecast
    assert isinstance(charge, Forecast)
    assert charge.batches[0].batch.moisture == moisture(charge_of(plan()))


def test_it_is_said_where_and_how_dry() -> None:
    checked = plan()
    found = said(checked, "as forecast")
    assert len(found) == 1
    figure = f"{moisture(charge_of(checked)):.0%}"
    assert found[0].message == f"Of pile B2, boards a at {figure} are taken on 2026-06-01, as forecast."
    assert found[0].where.line == 17


def test_a_charge_that_starts_later_takes_drier_boards() -> None:
    early, late = (moisture(charge_of(plan(f"starts 2026-{month}-01"))) for month in ("05", "07"))
    assert late < early


def test_long_after_the_boards_are_as_dry_as_the_pile_was_followed_to() -> None:
    """Stacked in April to 12%, as dry as the air of Columbus can hold them: they do not get below it by waiting."""
    assert 0.115 < moisture(charge_of(plan("starts 2200-12-31"))) < 0.14


def test_without_a_start_or_a_forecast_the_boards_stay_as_they_are_listed() -> None:
    for checked in (plan(""), plan(site="")):
        assert not isinstance(charge_of(checked).boards[0].moisture, Quantity)
        assert not said(checked, "as forecast")


def test_boards_of_the_charges_own_stay_as_they_are_listed() -> None:
    checked = plan(more="  boards z: 10 of white ash 4/4 x 6 in x 8 ft, 33%\n")
    figures = {boards.label.text: boards.moisture for boards in charge_of(checked).boards}
    assert isinstance(figures["z"], Quantity) and figures["z"].si == 0.33
    assert len(said(checked, "as forecast")) == 1


def test_a_charge_that_starts_before_its_pile_is_stacked_is_an_error() -> None:
    checked = plan("starts 2026-03-01")
    found = said(checked, "before the pile B2 that its boards come from is stacked on 2026-04-02")
    assert [(each.rule, each.where.line, each.level.value) for each in found] == [("value-out-of-range", 17, "error")]
    assert not said(checked, "as forecast")
    assert not said(plan("starts 2026-04-02"), "before the pile")


def test_a_pile_of_two_woods_lends_each_at_its_own_moisture() -> None:
    text = (
        SITE
        + KILN
        + PILE.format(stacked="2026-04-02", wood="white ash").replace(
            "  stack 16", "  boards b: 20 of white oak 8/4 x 6 in x 8 ft, green\n  stack 16"
        )
        + CHARGE.format(starts="starts 2026-06-01")
    )
    charge = charge_of(check(text, today=TODAY))
    assert moisture(charge, 1) > moisture(charge, 0) + 0.1


def test_readings_of_the_pile_count_for_the_charge() -> None:
    text = SITE + KILN + PILE.format(stacked="2026-04-02", wood="white ash") + "  reading 2026-06-01 21%\n"
    text += CHARGE.format(starts="starts 2026-06-01")
    assert moisture(charge_of(check(text, today=TODAY))) == pytest.approx(0.21)


@pytest.mark.parametrize("broken", ["", "  boards a: 60 of gopher wood 4/4 x 6 in x 8 ft, green\n"])
def test_a_pile_without_boards_that_are_known_lends_none(broken: str) -> None:
    text = SITE + KILN + f'pile "B2"\n  stacked 2026-04-02\n{broken}' + CHARGE.format(starts="starts 2026-06-01")
    checked = check(text, today=TODAY)
    assert not said(checked, "as forecast")
    assert checked.findings


def test_of_two_piles_of_one_name_the_first_lends() -> None:
    two = PILE.format(stacked="2026-04-02", wood="white ash") + PILE.format(stacked="2026-04-02", wood="sugar maple")
    checked = check(SITE + KILN + two + CHARGE.format(starts="starts 2026-06-01"), today=TODAY)
    assert charge_of(checked).boards[0].wood.text == "white ash"
    assert "name-used-twice" in {finding.rule for finding in checked.findings}


def test_a_part_of_a_pile_is_as_dry_as_its_pile_and_is_all_that_is_laid() -> None:
    text = SITE + KILN + PILE.format(stacked="2026-04-02", wood="white ash")
    text += CHARGE.format(starts="starts 2026-06-01").replace('from pile "B2"', 'from pile "B2", 40 of a')
    charge = check(text, today=TODAY).stacks[1]
    assert moisture(charge.stack) == moisture(charge_of(plan()))
    assert charge.facts is not None and charge.facts.pieces == 40
    assert isinstance(charge.forecast, Forecast)


def test_boards_of_its_own_that_are_as_the_piles_stay_as_they_are_listed() -> None:
    own = "  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n"
    boards = {each.label.text: each.moisture for each in charge_of(plan(more=own)).boards}
    assert isinstance(boards["B2.a"], Quantity)
    assert not isinstance(boards["a"], Quantity)


def test_a_charge_whose_part_cannot_be_taken_is_not_laid_out() -> None:
    text = SITE + KILN + PILE.format(stacked="2026-04-02", wood="white ash")
    text += CHARGE.format(starts="starts 2026-06-01").replace('from pile "B2"', 'from pile "B2", 80 of a')
    checked = check(text, today=TODAY)
    assert "value-out-of-range" in {each.rule for each in checked.findings if each.where.line == 19}
    assert checked.stacks[1].arrangement is None


@pytest.mark.parametrize(
    ("taken", "left"),
    [
        (['"P", 40 of a'], [("a", 20, None), ("b", None, 350)]),
        (['"P", 40 of a', '"p", 20 of a, 150 bf of b'], [("b", None, 200)]),
        (['"P", 120 bf of a'], [("a", 30, None), ("b", None, 350)]),
        (['"P", all of a, 0.826 m3 of b'], []),
        (['"P", 5 of b'], [("a", 60, None), ("b", 83, None)]),
        (['"P"'], []),
        (['"Q"'], [("a", 60, None), ("b", None, 350)]),
    ],
)
def test_what_charges_leave_of_a_pile(taken: list[str], left: list[tuple[str, int | None, float | None]]) -> None:
    """350 bf of boards of 4 bf are 88, to the whole board."""
    text = 'pile "P"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft\n'
    text += "  boards b: 350 bf of white ash 4/4 x 6 in x 8 ft\n"
    text += 'pile "Q"\n  boards a: 6 of white ash 4/4 x 6 in x 8 ft\n'
    text += "".join(f'charge "{number}"\n  from pile {said}\n' for number, said in enumerate(taken))
    found = read(text)
    assert found.faults == ()
    rest = rest_of(found.plan.stacks[0], found.plan.stacks)
    assert [(each.label.text, each.count, each.volume and round(each.volume.number, 3)) for each in rest] == left
