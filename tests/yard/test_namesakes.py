"""Stacks of several plans that bear one name."""

from __future__ import annotations

from made_stands import charge, kiln, pile, plan, site

from stacklint.yard.judging import yard_facts
from stacklint.yard.stands import YardPlan


def told(*plans: YardPlan) -> list[tuple[str, str]]:
    """The plans in which a name is told to be used twice, each with the plan that has it first."""
    facts = yard_facts(plans).faults
    return [(fact.where.path, fact.related[0].where.path) for fact in facts if fact.kind == "name-used-twice"]


def test_two_piles_of_one_folder_with_one_name_are_told_in_the_second() -> None:
    assert told(plan(pile("B2", "a.stackplan")), plan(pile("b2", "b.stackplan"))) == [("b.stackplan", "a.stackplan")]


def test_two_piles_of_two_folders_may_bear_one_name() -> None:
    assert told(plan(pile("B2", "hill/a.stackplan")), plan(pile("B2", "river/a.stackplan"))) == []


def test_two_piles_of_one_site_may_not_wherever_their_plans_lie() -> None:
    found = told(
        plan(pile("B2", "hill/a.stackplan", where=site())), plan(pile("B2", "river/a.stackplan", where=site()))
    )
    assert found == [("river/a.stackplan", "hill/a.stackplan")]


def test_two_charges_of_one_kiln_may_not_and_of_two_kilns_in_two_folders_may() -> None:
    first = plan(charge("7", "hill/a.stackplan"))
    assert told(first, plan(charge("7", "river/a.stackplan"))) == [("river/a.stackplan", "hill/a.stackplan")]
    assert told(first, plan(charge("7", "river/a.stackplan", where=kiln("Sun house", line=30)))) == []


def test_a_pile_and_a_charge_may_bear_one_name() -> None:
    assert told(plan(pile("7", "a.stackplan")), plan(charge("7", "b.stackplan"))) == []


def test_each_further_pile_of_a_name_is_told_with_the_first() -> None:
    three = [plan(pile("B2", f"{letter}.stackplan")) for letter in "abc"]
    assert told(*three) == [("b.stackplan", "a.stackplan"), ("c.stackplan", "a.stackplan")]


def test_two_of_one_text_are_left_to_its_reading() -> None:
    assert told(plan(pile("B2", "a.stackplan"), pile("B2", "a.stackplan", line=20))) == []


def test_piles_without_a_name_are_namesakes_too() -> None:
    assert len(told(plan(pile("", "a.stackplan")), plan(pile("", "b.stackplan")))) == 1
