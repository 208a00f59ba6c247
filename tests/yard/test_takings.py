"""What charges take from piles."""

from __future__ import annotations

import datetime

import pytest
from made_stands import BOARD_FOOT, charge, pile, plan

from stacklint.engineering.facts import FaultFacts
from stacklint.engineering.yard_facts import Taking
from stacklint.yard.judging import yard_facts
from stacklint.yard.stands import YardPlan

A = pile("A", "a.stackplan", board_feet=500)


def takings(*plans: YardPlan) -> list[Taking]:
    return list(yard_facts([plan(A), *plans]).takings)


def over(*plans: YardPlan) -> list[tuple[str | None, int]]:
    """Each charge that takes more than there is, and how many board feet."""
    return [(each.stack, round(each.over / BOARD_FOOT)) for each in takings(*plans) if each.over]


def test_two_charges_that_each_take_half_of_a_pile_take_what_it_has() -> None:
    halves = [plan(charge(name, f"{name}.stackplan", f"2026-09-0{name}", None, (A, 0.5))) for name in "12"]
    assert over(*halves) == []
    assert [round(each.taken / BOARD_FOOT) for each in takings(*halves)] == [250, 500]


def test_the_charge_that_starts_last_is_the_one_that_takes_what_is_gone() -> None:
    whole = plan(charge("1", "z.stackplan", "2026-09-01", None, (A, 1.0)))
    later = plan(charge("2", "b.stackplan", "2026-09-02", None, (A, 0.3)))
    assert over(whole, later) == over(later, whole) == [("2", 150)]
    (found,) = (each for each in takings(whole, later) if each.over)
    assert (found.where.path, found.where.line) == ("b.stackplan", 7)
    assert found.pile == "pile A (a.stackplan, line 5)"
    assert found.takers == "charge 1 (z.stackplan, line 5)"
    assert [(each.where.path, each.where.line) for each in found.related] == [("a.stackplan", 5), ("z.stackplan", 7)]
    assert found.involves == {"a.stackplan", "b.stackplan", "z.stackplan"}


def test_a_charge_whose_day_is_not_said_comes_after_all_that_say_theirs() -> None:
    unsaid = plan(charge("1", "b.stackplan", None, None, (A, 0.5)))
    whole = plan(charge("2", "c.stackplan", "2030-01-01", None, (A, 1.0)))
    assert over(unsaid, whole) == [("1", 250)]


def test_of_many_charges_that_took_the_boards_a_few_are_named_and_the_rest_counted() -> None:
    plans = [plan(charge(str(n), f"{n:04}.stackplan", "2026-09-01", None, (A, 1.0))) for n in range(1, 1001)]
    last = takings(*plans)[-1]
    assert last.takers is not None
    assert last.takers.endswith("charge 4 (0004.stackplan, line 5) and 995 more")
    assert len(last.related) == 5
    assert len(last.involves) < 60


@pytest.mark.parametrize("starts", ["2026-07-31", "2026-08-01"])
def test_a_pile_is_ready_on_its_day_and_not_before(starts: str) -> None:
    (found,) = takings(plan(charge("1", "b.stackplan", starts, None, (A, 1.0))))
    assert (found.dry_likely, found.wanted, found.never_dry) == (datetime.date(2026, 8, 1), 0.2, False)
    assert found.starts == datetime.date.fromisoformat(starts)


def test_boards_that_are_counted_are_told_by_their_number_and_others_by_their_volume() -> None:
    listed = pile("B", "b.stackplan", board_feet=500, pieces=None)
    for source, boards in ((A, (100.0, 130.0, 30.0)), (listed, (None, None, None))):
        first = plan(charge("1", "1.stackplan", "2026-09-01", None, (source, 0.8)))
        second = plan(charge("2", "2.stackplan", "2026-09-02", None, (source, 0.5)))
        *_, last = yard_facts([plan(source), first, second]).takings
        assert (last.boards_listed, last.boards_taken, last.boards_over) == boards
        assert round(last.over / BOARD_FOOT) == 150


def test_of_several_groups_those_that_are_gone_are_told() -> None:
    lot = A.lots[0]
    both = A._replace(lots=(lot, lot._replace(listed=lot.listed._replace(line=9), label="b", pieces=30)))
    takes_a = charge("1", "1.stackplan", "2026-09-01", None, (A, 0.5))
    takes_both = charge("2", "2.stackplan", "2026-09-02", None, (both, 0.75))
    first, second = yard_facts([plan(both), plan(takes_a), plan(takes_both)]).takings
    assert (first.groups, first.boards_over) == ("a", 0)
    assert (second.groups, second.boards_listed, second.boards_taken, second.boards_over) == ("a", 100, 125, 25)


def strays(*plans: YardPlan) -> list[FaultFacts]:
    return [each for each in yard_facts(plans).faults if each.kind == "plan-text"]


def test_a_pile_of_a_plan_that_is_not_used_is_told_with_the_line_that_lacks() -> None:
    missing = plan(charge("1", "hill/kiln/c.stackplan", missing=("a",)))
    (found,) = strays(missing, plan(pile("A", "hill/piles/p.stackplan")))
    assert "stands in hill/piles/p.stackplan" in found.message
    assert found.instead == 'Add the line use "../piles/p.stackplan" at the top of this plan.'
    assert (found.where.path, found.where.line) == ("hill/kiln/c.stackplan", 13)
    assert [each.where.path for each in found.related] == ["hill/piles/p.stackplan"]


def test_of_several_piles_of_that_name_the_nearest_is_named() -> None:
    plans = [plan(pile("A", path)) for path in ("a/p.stackplan", "hill/p.stackplan", "z/p.stackplan")]
    (found,) = strays(plan(charge("1", "hill/c.stackplan", missing=("A",))), *plans)
    assert found.instead == 'Add the line use "p.stackplan" at the top of this plan.'


def test_of_a_pile_that_no_plan_has_the_yard_knows_nothing() -> None:
    assert strays(plan(charge("1", "c.stackplan", missing=("A",))), plan(pile("B", "b.stackplan"))) == []
