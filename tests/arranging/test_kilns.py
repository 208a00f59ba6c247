"""A stack tried in a kiln: its length, its width beside the plenum, and how many courses the kiln takes."""

from __future__ import annotations

import pytest

from stacklint.arranging.kilns import KilnLoad, Limit, TooLong, load_kiln
from stacklint.checking import check, woods_of
from stacklint.language import read
from stacklint.language.write import write
from stacklint.plan.stack import StackKind
from stacklint.units import ONE_BOARD_FOOT, ONE_FOOT, ONE_INCH

KILN = """\
kiln "North box"
  type dehumidification
  inside {inside}
  {says}

pile "B2"
  place open yard
  {boards}
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, dry
  bearers 4 in x 6 in of white oak, every 24 in
  clearance 14 in
"""
BOARDS = "boards a: 400 of white ash 4/4 x 6 in x 8 ft, 20%"


def tried(boards: str = BOARDS, inside: str = "17 ft x 5 ft x 6 ft", says: str = "plenum 18 in") -> KilnLoad | TooLong:
    found = read(KILN.format(boards=boards, inside=inside, says=says))
    assert found.faults == ()
    (stack,) = found.plan.stacks
    woods = woods_of(stack, found.plan)
    assert woods is not None
    return load_kiln(stack, found.plan.kilns[0], woods)


def loaded(**said: str) -> KilnLoad:
    load = tried(**said)
    assert isinstance(load, KilnLoad)
    return load


def test_the_stack_is_as_wide_as_the_kiln_beside_its_plenum() -> None:
    """5 ft less 18 in are 42 in: seven rows of 6 in."""
    arrangement = loaded().laid.arrangement
    assert arrangement.width == pytest.approx(42 * ONE_INCH)
    assert [rows.count for rows in arrangement.courses[0].rows] == [7]


def test_the_stack_is_as_long_as_its_boards_fill_best() -> None:
    """Eights lie in pairs in a kiln of 17 ft, one by one in one of 15 ft."""
    assert loaded().laid.arrangement.length == pytest.approx(16 * ONE_FOOT)
    assert loaded(inside="15 ft x 5 ft x 6 ft").laid.arrangement.length == pytest.approx(8 * ONE_FOOT)


def test_no_stack_in_a_long_kiln_is_longer_than_is_built() -> None:
    """A track of 60 m takes stacks end to end; none of them is longer than 20 m."""
    assert loaded(inside="60 m x 5 ft x 6 ft").laid.arrangement.length <= 20


def test_the_height_of_the_kiln_keeps_out_what_does_not_go_under_it() -> None:
    """Courses of 1 in on stickers of 3/4 in: 20 of them are 35 in, 21 are 36 3/4 in."""
    load = loaded(inside="17 ft x 5 ft x 3 ft")
    assert (load.courses, load.stopped) == (20, Limit.HEIGHT)
    assert load.amounts.height == pytest.approx(35 * ONE_INCH)
    assert sum(load.boards.values()) == 20 * 14
    assert sum(load.out.values()) == 400 - 20 * 14


def test_the_rated_volume_keeps_out_what_is_over_it() -> None:
    """A course of 14 boards of 4 bf is 56 bf: 500 bf are 8 courses and a rest."""
    load = loaded(says="plenum 18 in\n holds 500 bf")
    assert (load.courses, load.stopped) == (8, Limit.VOLUME)
    assert load.amounts.volume / ONE_BOARD_FOOT == pytest.approx(448)


def test_a_rating_in_board_feet_counts_thin_boards_as_an_inch() -> None:
    thin = BOARDS.replace("4/4", "1/2 in")
    assert loaded(boards=thin, says="plenum 18 in\n holds 500 bf").courses == 8
    assert loaded(boards=thin, says="plenum 18 in\n holds 41.67 ft3").courses == 17


def test_the_rated_weight_keeps_out_what_is_over_it() -> None:
    load = loaded(says="plenum 18 in\n carries 1000 lb")
    assert load.stopped is Limit.WEIGHT
    each = load.amounts.mass / load.courses
    assert load.amounts.mass <= 1000 * 0.45359237 < load.amounts.mass + each


def test_green_boards_are_fewer_for_the_weight_than_dry_ones() -> None:
    says = "plenum 18 in\n carries 1000 lb"
    assert loaded(boards=BOARDS.replace("20%", "green"), says=says).courses < loaded(says=says).courses


def test_where_all_goes_in_the_courses_that_still_would_are_counted() -> None:
    """28 boards are 2 courses; 8 of 56 bf come to 448 of 500 bf."""
    load = loaded(boards=BOARDS.replace("400", "28"), says="plenum 18 in\n holds 500 bf")
    assert (load.courses, load.more, load.out) == (2, 6, {})


def test_boards_longer_than_the_kiln_are_told() -> None:
    found = tried(boards=BOARDS.replace("8 ft", "18 ft"))
    assert isinstance(found, TooLong)
    assert (found.label, round(found.length / ONE_FOOT), round(found.inside / ONE_FOOT)) == ("a", 18, 17)


def test_what_a_pile_stands_on_stays_in_the_yard_and_what_a_charge_stands_on_does_not() -> None:
    pile = loaded(inside="17 ft x 5 ft x 3 ft")
    text = KILN.format(boards=BOARDS, inside="17 ft x 5 ft x 3 ft", says="plenum 18 in")
    text = text.replace('pile "B2"\n  place open yard', 'charge "B2" in kiln "North box"').replace(
        "  clearance 14 in\n", ""
    )
    plan = read(text).plan
    (charge,) = plan.stacks
    woods = woods_of(charge, plan)
    assert woods is not None
    on_bearers = load_kiln(charge, plan.kilns[0], woods)
    assert isinstance(on_bearers, KilnLoad)
    # 6 in of bearers take the room of three courses of 1 3/4 in and a rest.
    assert on_bearers.courses == pile.courses - 3


@pytest.mark.parametrize("says", ["plenum 18 in", "plenum 18 in\n holds 500 bf", "plenum 1 ft\n carries 2000 lb"])
@pytest.mark.parametrize("boards", [BOARDS, BOARDS.replace("8 ft", "5 to 9 ft"), BOARDS.replace("4/4", "8/4")])
def test_a_check_of_what_goes_in_finds_the_kiln_neither_too_small_nor_too_weak(says: str, boards: str) -> None:
    """The rules kiln-overfull, kiln-overweight and stack-too-big-for-kiln judge the same courses as a charge."""
    load = loaded(boards=boards, says=says)
    found = read(KILN.format(boards=boards, inside="17 ft x 5 ft x 6 ft", says=says)).plan
    taken = [
        group.model_copy(
            update={
                "label": group.label.model_copy(update={"text": "bcdefghjk"[number]}),
                "count": count,
                "volume": None,
                "length": load.laid.stack.size.length.model_copy(update={"number": length / ONE_FOOT}),  # type: ignore[union-attr]
            }
        )
        for number, ((_, length), count) in enumerate(load.boards.items())
        for group in load.laid.stack.boards
    ]
    charge = load.laid.stack.model_copy(update={"kind": StackKind.CHARGE, "boards": tuple(taken)})
    text = write(found.model_copy(update={"stacks": (charge,)}))
    rules = {finding.rule for finding in check(text).findings}
    assert rules.isdisjoint({"kiln-overfull", "kiln-overweight", "stack-too-big-for-kiln"})
