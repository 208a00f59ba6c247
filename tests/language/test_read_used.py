"""Blocks from other texts, and charges that take their boards from piles."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from stacklint.faults import FaultKind
from stacklint.language import ReadPlan, UsedText, UseRefused, read
from stacklint.plan.boards import MoistureWord
from stacklint.units import System

YARD = """\
site "Cold Hollow"
  near "Columbus, OH"
kiln "North box"
  holds 1400 bf
wood "osage orange"
  like black locust
pile "Y1"
  boards a: 5 of white oak 8/4 x 6 in x 8 ft
"""


def read_with(text: str, files: Mapping[str, str], path: str = "main.stackplan") -> ReadPlan:
    def find(name: str, using: str) -> UsedText | UseRefused:
        asked.append((name, using))
        if name not in files:
            return UseRefused(f"There is no file {name}.", "Correct the name.")
        return UsedText(name, files[name])

    asked.clear()
    return read(text, path, use=find)


asked: list[tuple[str, str]] = []


def test_a_plan_has_the_sites_kilns_and_woods_of_the_text_it_uses() -> None:
    result = read_with(
        'use "yard"\npile "B2"\n place open yard, site "Cold Hollow"\n'
        ' boards a: 1 of osage orange 1 in x 6 in x 8 ft\ncharge "C" in kiln "North box"\n from pile "Y1"',
        {"yard": YARD},
    )
    assert result.faults == ()
    plan = result.plan
    assert [use.text for use in plan.uses] == ["yard"]
    assert [site.name.text for site in plan.sites] == ["Cold Hollow"]
    assert [kiln.where.path for kiln in plan.kilns] == ["yard"]
    assert [wood.name.text for wood in plan.woods] == ["osage orange"]
    assert [stack.name.text for stack in plan.stacks] == ["B2", "C"]
    assert [stack.name.text for stack in plan.lent] == ["Y1"]
    assert plan.stacks[1].boards == plan.lent[0].boards
    assert asked == [("yard", "main.stackplan")]


def test_a_fault_in_a_used_text_stands_in_that_text() -> None:
    result = read_with('use "yard"', {"yard": 'kiln "K"\n holds 1400 lb'})
    assert [fault.where[:3] for fault in result.faults] == [("yard", 2, 8)]
    assert result.plan.kilns[0].faulty == {"holds"}


def test_used_texts_may_use_others_and_one_used_twice_is_read_once() -> None:
    files = {"a": 'use "yard"', "b": 'use "yard"', "yard": 'kiln "K"\n holds 1400 lb'}
    result = read_with('use "a"\nuse "b"\ncharge "C" in kiln "K"', files)
    assert len(result.faults) == 1
    assert [kiln.name.text for kiln in result.plan.kilns] == ["K"]


def test_texts_that_use_one_another_in_a_circle_are_one_fault_at_a_use_line() -> None:
    result = read_with('use "a"', {"a": '\nuse "main.stackplan"', "main.stackplan": 'use "a"'})
    (fault,) = result.faults
    assert (fault.kind, fault.where[:4]) == (FaultKind.PLAN_TEXT, ("a", 2, 5, 2))
    assert "uses itself" in fault.message


def test_a_text_that_uses_itself_is_one_fault() -> None:
    (fault,) = read_with('use "main.stackplan"', {"main.stackplan": ""}).faults
    assert "uses itself" in fault.message


def test_a_chain_of_uses_ends() -> None:
    files = {f"f{number}": f'use "f{number + 1}"' for number in range(100)}
    (fault,) = read_with('use "f0"', files).faults
    assert fault.where.path == "f18"
    assert "20 files" in fault.message


def test_a_use_that_is_refused_says_why() -> None:
    (fault,) = read_with('use "elsewhere"', {}).faults
    assert (fault.kind, fault.where[1:]) == (FaultKind.PLAN_TEXT, (1, 5, 1, 16))
    assert (fault.message, fault.instead) == ("There is no file elsewhere.", "Correct the name.")


def test_without_a_way_to_find_files_a_use_is_a_fault() -> None:
    (fault,) = read('use "yard"').faults
    assert "cannot be looked up" in fault.message


def test_units_of_a_used_text_do_not_make_a_plan_metric() -> None:
    files = {"yard": 'kiln "K"\n inside 5 m x 2 m x 2 m'}
    assert read_with('use "yard"\npile "B2"\n clearance 14 in', files).system is System.INCH


def test_a_kiln_of_the_plan_may_not_have_the_name_of_a_used_one() -> None:
    (fault,) = read_with('use "yard"\nkiln "North box"', {"yard": YARD}).faults
    assert (fault.kind, fault.where.line) == (FaultKind.NAME_USED_TWICE, 2)


PILES = """\
pile "B2"
  place open yard
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  course 1: 4 rows of a
  stickers 3/4 in, every 24 in
  bearers pallets
  clearance 14 in
  ground gravel
  cover tarp
  sides open
  wind across
  top load straps
  ends coated
  want 12%
  reading 2026-05-10 41%
pile "B3"
  boards a: 40 of white ash 4/4 x 6 in x 4 ft
  boards b: 4 of white ash 4/4 x 6 in x 6 ft
  ends bare
"""


def test_a_charge_has_boards_size_stickers_and_end_coat_of_its_pile() -> None:
    result = read(PILES + 'charge "C"\n from pile "B2"')
    assert result.faults == ()
    pile, _, charge = result.plan.stacks
    assert charge.boards == pile.boards
    assert charge.boards[0].moisture is MoistureWord.GREEN
    assert (charge.size, charge.stickers, charge.ends) == (pile.size, pile.stickers, pile.ends)


@pytest.mark.parametrize(
    "field", ["place", "bearers", "clearance", "ground", "cover", "sides", "wind", "top_load", "want"]
)
def test_what_belongs_to_the_yard_stays_in_the_yard(field: str) -> None:
    charge = read(PILES + 'charge "C"\n from pile "B2"').plan.stacks[2]
    assert getattr(charge, field) is None
    assert charge.courses == ()
    assert charge.readings == ()


def test_what_a_charge_says_itself_holds() -> None:
    text = PILES + 'charge "C"\n stickers 1 in, every 16 in\n from pile "B2"'
    charge = read(text).plan.stacks[2]
    assert charge.stickers is not None and charge.stickers.every is not None
    assert charge.stickers.every.number == 16


def test_what_a_charge_says_wrongly_is_not_taken_from_its_pile_instead() -> None:
    charge = read(PILES + 'charge "C"\n stack 12 lb x 4 ft\n from pile "B2"').plan.stacks[2]
    assert charge.size is None
    assert "stack" in charge.faulty


def test_boards_of_two_piles_keep_labels_of_their_own() -> None:
    text = PILES + 'charge "C"\n from pile "B3"\n from pile "B2"\n course 1: 2 rows of a, 1 row of B2.a'
    result = read(text)
    assert result.faults == ()
    charge = result.plan.stacks[2]
    assert [boards.label.text for boards in charge.boards] == ["a", "b", "B2.a"]
    assert charge.ends == result.plan.stacks[1].ends
    assert charge.size == result.plan.stacks[0].size


def test_several_piles_may_be_named_in_one_statement() -> None:
    charge = read(PILES + 'charge "C"\n from pile "B2", "B3"').plan.stacks[2]
    assert [taking.pile.text for taking in charge.from_piles] == ["B2", "B3"]
    assert len(charge.boards) == 3


def test_a_charge_of_a_pile_with_unreadable_boards_knows_that_it_lacks_some() -> None:
    text = 'pile "B2"\n boards a: sixty of white ash\ncharge "C"\n from pile "B2"'
    assert read(text).plan.stacks[1].faulty == {"boards"}
