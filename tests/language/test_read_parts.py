"""A charge that takes a part of a pile: what is taken, and what cannot be."""

from __future__ import annotations

import pytest

from stacklint.faults import Fault, FaultKind, Measure
from stacklint.language import read
from stacklint.language.write import write
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Stack, TakenPart, Taking
from stacklint.units import NUMBER, VOLUME, Unit

PILES = """\
pile "B2"
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  boards b: 350 bf of white ash 4/4 x 5 to 9 in x 8 ft, 35%
  boards c: 40 of white ash 4/4 x 6 in x 16 ft, green
  stack 16 ft x 4 ft

pile "B3"
  boards a: 80 of white ash 4/4 x 6 in x 8 ft, green

"""


def charge(*lines: str) -> tuple[Stack, tuple[Fault, ...]]:
    result = read(PILES + 'charge "C"\n' + "".join(f"  {line}\n" for line in lines))
    return result.plan.stacks[-1], result.faults


def taken(said: str) -> list[tuple[str, int | None, Quantity | None]]:
    """The label, the count and the volume of each group of the charge."""
    stack, faults = charge(f"from pile {said}")
    assert faults == ()
    return [(boards.label.text, boards.count, boards.volume) for boards in stack.boards]


def fault(said: str) -> Fault:
    stack, faults = charge(f"from pile {said}")
    (found,) = faults
    assert "from pile" in stack.faulty
    return found


def bf(number: float) -> Quantity:
    return Quantity(number=number, unit=Unit.BOARD_FOOT)


def test_a_charge_takes_so_many_boards_so_much_wood_or_all_of_a_group() -> None:
    assert taken('"B2", 40 of a, 200 bf of b, all of c') == [("a", 40, None), ("b", None, bf(200)), ("c", 40, None)]


def test_groups_that_are_not_named_stay_in_the_pile() -> None:
    assert taken('"B2", all of a') == [("a", 60, None)]


def test_without_parts_the_whole_pile_is_taken() -> None:
    assert [label for label, _, _ in taken('"B2"')] == ["a", "b", "c"]


def test_boards_are_taken_by_volume_from_a_counted_group_and_by_count_from_a_volume() -> None:
    assert taken('"B2", 100 bf of a, 20 of b') == [("a", None, bf(100)), ("b", 20, None)]


@pytest.mark.parametrize("said", ["40 boards of a", "40 pieces of a", "40 of A"])
def test_a_count_may_say_what_it_counts(said: str) -> None:
    if said.endswith("A"):
        assert fault(f'"B2", {said}').instead == "Write a."
    else:
        assert taken(f'"B2", {said}') == [("a", 40, None)]


def test_a_part_belongs_to_the_pile_named_last_before_it() -> None:
    assert taken('"B2", 40 of a, "B3", 10 of a') == [("a", 40, None), ("B3.a", 10, None)]
    stack, _ = charge('from pile "B2", "B3", 10 of a')
    ten = TakenPart(label=Name(text="a"), count=10)
    assert stack.from_piles == (Taking(pile=Name(text="B2")), Taking(pile=Name(text="B3"), parts=(ten,)))


def test_the_whole_of_what_is_listed_can_be_taken_however_it_is_measured() -> None:
    assert taken('"B2", 60 of a') == [("a", 60, None)]
    assert taken('"B2", 240 bf of a')
    assert taken('"B2", 0.826 m3 of b')


def test_a_label_that_the_pile_does_not_list_is_told_with_the_nearest() -> None:
    found = fault('"B3", 40 of b')
    assert (found.kind, found.stack, found.where[1:]) == (FaultKind.PLAN_TEXT, "C", (11, 25, 11, 26))
    assert (found.message, found.instead) == ("Pile B3 lists no boards b.", "Write a.")


def test_a_label_of_a_boards_statement_that_could_not_be_read_is_not_told_again() -> None:
    text = 'pile "B2"\n  boards a: sixty of white ash\ncharge "C"\n  from pile "B2", 40 of a\n'
    assert [each.where.line for each in read(text).faults] == [2]


@pytest.mark.parametrize(
    ("said", "message", "found", "limit"),
    [
        ("80 of a", "Pile B2 lists 60 of a, and 80 are taken.", Measure(80, NUMBER), Measure(60, NUMBER)),
        (
            "400 bf of b",
            "Pile B2 lists 350 bf of b, and 400 bf are taken.",
            Measure(bf(400).si, VOLUME),
            Measure(bf(350).si, VOLUME),
        ),
        (
            "100 of b",
            "Pile B2 lists 350 bf of b (about 75 boards), and 100 are taken.",
            Measure(100, NUMBER),
            Measure(75, NUMBER),
        ),
        (
            "300 bf of a",
            "Pile B2 lists 60 of a (about 240 bf), and 300 bf are taken.",
            Measure(75, NUMBER),
            Measure(60, NUMBER),
        ),
    ],
)
def test_no_more_is_taken_than_the_pile_lists(said: str, message: str, found: Measure, limit: Measure) -> None:
    told = fault(f'"B2", {said}')
    assert (told.kind, told.message) == (FaultKind.VALUE_OUT_OF_RANGE, message)
    assert told.where[1:] == (11, 19, 11, 19 + len(said))
    assert (told.found, told.limit) == (found, limit)


@pytest.mark.parametrize("said", ["0 of a", "0 bf of a", "100001 of a"])
def test_nothing_and_more_than_any_stack_holds_cannot_be_taken(said: str) -> None:
    assert fault(f'"B2", {said}').kind is FaultKind.VALUE_OUT_OF_RANGE


@pytest.mark.parametrize("said", ["2.5 of a", "3 to 4 of a", "4 in of a", "half of a", "40 of", "all", "dry", "40"])
def test_what_is_no_part_of_a_pile_is_refused(said: str) -> None:
    assert fault(f'"B2", {said}').kind is FaultKind.PLAN_TEXT


def test_a_group_is_named_once_for_a_pile() -> None:
    found = fault('"B2", 40 of a, all of a')
    assert found.where[1:] == (11, 28, 11, 36)
    assert "already" in found.message


@pytest.mark.parametrize("lines", [('from pile "B2", 4 of a', 'from pile "b2", 2 of a'), ('from pile "B2", "b2"',)])
def test_a_charge_names_a_pile_once(lines: tuple[str, ...]) -> None:
    stack, faults = charge(*lines)
    (found,) = faults
    assert found.message == 'The charge takes boards from pile "b2" twice.'
    assert found.where.line == 10 + len(lines)
    assert "from pile" in stack.faulty
    assert [boards.label.text for boards in stack.boards] == (["a"] if len(lines) == 2 else ["a", "b", "c"])


def test_boards_of_its_own_that_are_as_the_piles_are_boards_of_their_own() -> None:
    own = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"
    stack, faults = charge(own, 'from pile "B2", all of a')
    assert faults == ()
    assert [boards.label.text for boards in stack.boards] == ["a", "B2.a"]
    text = PILES + f'charge "C"\n  from pile "B2", all of a\n  {own}\n'
    assert write(read(text).plan) == text


def test_a_part_is_written_as_it_is_read() -> None:
    text = PILES + 'charge "C"\n  from pile "B2", 40 of a, 200 bf of b, all of c\n  from pile "B3"\n'
    assert write(read(text).plan) == text
