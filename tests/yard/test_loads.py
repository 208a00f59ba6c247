"""Sites and kilns that are asked for more than they have."""

from __future__ import annotations

from typing import Any

import pytest
from made_stands import bearers, charge, pile, plan, site, stickers

from stacklint.engineering.yard_facts import Load
from stacklint.plan.yard import StockKind
from stacklint.units import System
from stacklint.yard.judging import yard_facts
from stacklint.yard.stands import YardPlan

STICKERS, BEARERS = StockKind.STICKERS, StockKind.BEARERS


def loads(*plans: YardPlan) -> list[Load]:
    return list(yard_facts(plans).loads)


def at(where: Any, *stays: tuple[str, str | None], **more: Any) -> list[YardPlan]:
    """Piles 1, 2 and so on at a site, each with its first and its last day."""
    return [
        plan(pile(str(number), f"{number}.stackplan", start, gone, where=where, **more))
        for number, (start, gone) in enumerate(stays, 1)
    ]


TWO_MONTHS = (("2026-03-01", "2026-05-01"), ("2026-04-01", "2026-06-01"))


def test_as_many_piles_as_there_are_spots_are_no_matter_and_one_more_is() -> None:
    assert loads(*at(site(spots=2), *TWO_MONTHS)) == []
    (found,) = loads(*at(site(spots=1), *TWO_MONTHS))
    assert (found.stack, found.need, found.room, found.months) == ("2", "2 stacks", "1 spot", "April 2026")
    assert (found.where.path, found.where.line) == ("2.stackplan", 7)
    assert [(each.where.path, each.where.line) for each in found.related] == [("yard.stackplan", 5), ("1.stackplan", 5)]


def test_on_the_day_on_which_a_pile_goes_its_room_is_free() -> None:
    assert loads(*at(site(spots=1), ("2026-03-01", "2026-05-01"), ("2026-05-01", "2026-06-01"))) == []
    assert len(loads(*at(site(spots=1), ("2026-03-01", "2026-05-02"), ("2026-05-01", "2026-06-01")))) == 1


def test_a_pile_that_stays_for_ever_is_in_the_way_for_ever() -> None:
    (found,) = loads(*at(site(spots=1), ("2026-03-01", None), ("2026-05-01", None)))
    assert found.months == "May 2026 and later"


def test_a_pile_that_goes_into_a_kiln_makes_room() -> None:
    first, second = at(site(spots=1), *TWO_MONTHS)
    taken = plan(charge("1", "c.stackplan", "2026-04-01", "2026-04-20", (first.stands[0], 1.0)))
    assert loads(first, second, taken) == []


def test_boards_are_counted_in_board_feet_and_shown_in_the_units_in_which_the_room_is_said() -> None:
    assert loads(*at(site(holds=1000), *TWO_MONTHS, board_feet=500)) == []
    (found,) = loads(*at(site(holds=999), *TWO_MONTHS, board_feet=500))
    assert (found.need, found.room) == ("1,000 bf of wood", "999 bf")


def test_a_yard_without_any_room_is_told_for_its_first_pile() -> None:
    (found,) = loads(*at(site(spots=0), TWO_MONTHS[0]))
    assert (found.stack, found.room) == ("1", "0 spots")


def test_longer_stickers_serve_as_well_and_shorter_ones_do_not() -> None:
    def short(*stock: tuple[StockKind, int, float | None]) -> list[str | None]:
        return [each.need for each in loads(*at(site(stock=stock), *TWO_MONTHS, needs=stickers(50)))]

    assert short((STICKERS, 60, 5.0), (STICKERS, 40, None)) == []
    assert short((STICKERS, 99, 4.0), (STICKERS, 1000, 3.0)) == ["100 stickers of 48 in or longer"]
    assert short((BEARERS, 1, 4.0)) == []


@pytest.mark.parametrize(("stock", "room"), [(99, "99 in stock"), (100, None)])
def test_a_sticker_less_than_an_inch_too_short_serves_as_it_does_for_a_single_stack(
    stock: int, room: str | None
) -> None:
    where = site(stock=[(STICKERS, stock, 1.2 / 0.3048)])
    found = loads(*at(where, *TWO_MONTHS, needs=stickers(50)))
    assert [each.room for each in found] == ([room] if room else [])


def test_a_sticker_two_inches_too_short_does_not_serve() -> None:
    (found,) = loads(*at(site(stock=[(STICKERS, 100, 46 / 12)]), *TWO_MONTHS, needs=stickers(50)))
    assert (found.need, found.room) == ("100 stickers of 48 in", "0 in stock")


def test_two_lengths_that_the_same_stickers_serve_are_told_once() -> None:
    where = site(stock=[(STICKERS, 60, 5.0)])
    first = plan(pile("1", "1.stackplan", "2026-03-01", "2026-06-01", where=where, needs=stickers(50, 4.0)))
    second = plan(pile("2", "2.stackplan", "2026-03-01", "2026-06-01", where=where, needs=stickers(80, 4.5)))
    (found,) = loads(first, second)
    assert (found.need, found.room) == ("130 stickers of 48 in or longer", "60 in stock")


def test_bearers_are_not_stickers() -> None:
    stock = [(STICKERS, 1000, 4.0), (BEARERS, 10, 4.0)]
    (found,) = loads(*at(site(stock=stock), *TWO_MONTHS, needs=(*stickers(50), *bearers(6))))
    assert (found.need, found.room) == ("12 bearers of 48 in", "10 in stock")


def test_a_sticker_of_1220_mm_serves_where_4_ft_are_asked_for() -> None:
    """4 ft are 1219.2 mm; plans in both units stand in one yard."""
    where = site(stock=[(STICKERS, 100, 1.2192 / 0.3048)])
    first, second = at(where, *TWO_MONTHS, needs=stickers(50, 1.220 / 0.3048))
    assert loads(first, second._replace(system=System.METRIC)) == []


@pytest.mark.parametrize("ends", ["2026-09-16", "2026-09-17"])
def test_a_kiln_has_as_many_days_as_the_month(ends: str) -> None:
    plans = [plan(charge(name, f"{name}.stackplan", "2026-09-01", ends)) for name in "12"]
    found = loads(*plans)
    assert len(found) == (ends > "2026-09-16")
    if found:
        assert (found[0].need, found[0].room) == ("32 days of drying", "the 30 days of the month")
        assert (found[0].place, found[0].months, found[0].stack) == ("kiln Box", "September 2026", "2")


def test_charges_take_no_spot_in_the_yard() -> None:
    inside = [plan(charge(str(n), f"c{n}.stackplan")._replace(site=site(spots=1))) for n in (1, 2)]
    assert [each.place for each in loads(*inside, *at(site(spots=1), TWO_MONTHS[0]))] == ["kiln Box"]
