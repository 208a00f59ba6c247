"""The sizes that the boards are wanted at."""

from __future__ import annotations

import pytest

from stacklint.language import ReadPlan, read
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Wanted
from stacklint.units import Unit

GROUPS = (
    'pile "A"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n'
    "  boards b: 60 of sugar maple 4/4 x 6 in x 8 ft, green\n"
)


def with_lines(*lines: str) -> ReadPlan:
    return read(GROUPS + "".join(f"  {line}\n" for line in lines))


def of(number: float, unit: Unit) -> Quantity:
    return Quantity(number=number, unit=unit)


@pytest.mark.parametrize(
    ("statement", "expected"),
    [
        ("wanted 13/16 in thick", Wanted(thickness=of(13 / 16, Unit.INCH))),
        ("wanted 13/16 in thick of a", Wanted(thickness=of(13 / 16, Unit.INCH), label=Name(text="a"))),
        (
            "wanted 20 mm thick, 90 mm wide of b",
            Wanted(thickness=of(20, Unit.MILLIMETRE), width=of(90, Unit.MILLIMETRE), label=Name(text="b")),
        ),
        (
            "wanted 90 mm wide, 20 mm thick, of b",
            Wanted(thickness=of(20, Unit.MILLIMETRE), width=of(90, Unit.MILLIMETRE), label=Name(text="b")),
        ),
        ('wanted 5" wide', Wanted(width=of(5, Unit.INCH))),
    ],
)
def test_a_size_wanted_is_that_of_a_group_or_of_all_boards(statement: str, expected: Wanted) -> None:
    plan = with_lines(statement)
    assert plan.faults == ()
    assert plan.plan.stacks[0].wanted == (expected,)


def test_each_group_may_have_a_size_of_its_own() -> None:
    plan = with_lines("wanted 13/16 in thick of a", "wanted 3/4 in thick of b")
    assert plan.faults == ()
    assert [wish.label.text for wish in plan.plan.stacks[0].wanted if wish.label] == ["a", "b"]


@pytest.mark.parametrize(
    ("statement", "message"),
    [
        ("wanted of a", "What size is wanted?"),
        ("wanted 3/4 in thick of c", "No boards statement has the label c."),
        ("wanted 3/4 in thick, 1 in thick", "1 in thick says something that this statement has said already."),
        ("wanted 3/4 in", "3/4 in is not a detail of the statement wanted."),
        ("wanted 40 in thick", "40 in cannot be: it must lie between 0.07874 in and 23.62 in."),
    ],
)
def test_a_size_wanted_that_cannot_be_read_is_a_fault(statement: str, message: str) -> None:
    plan = with_lines(statement)
    assert [fault.message for fault in plan.faults] == [message]
    assert "wanted" in plan.plan.stacks[0].faulty
