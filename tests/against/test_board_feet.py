"""Board measure against the published rules of measurement.

American hardwood export council page on the measurement rules of the National Hardwood Lumber Association,
https://americanhardwood.org/en/american-hardwood/grading-sawn-lumber/measurement (read); the rule for lumber under
1 in from memory of those rules.
"""

from __future__ import annotations

import pytest

from stacklint.engineering.lots import Lot, lots_of
from stacklint.layout import arrange
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Stack, StackKind
from stacklint.tables import woods
from stacklint.tables.rows import read
from stacklint.units import Unit

PUBLISHED = {row["quantity"]: row for row in read("practice_limits") if row["topic"] == "measure"}


def inches(number: float) -> Quantity:
    return Quantity(number=number, unit=Unit.INCH)


def lot(thickness: Quantity, width: float, length: float, count: int = 1) -> Lot:
    oak = woods.find("white oak")
    assert oak is not None
    boards = Boards(
        label=Name(text="a"),
        count=count,
        wood=Name(text="white oak"),
        thickness=thickness,
        width=inches(width),
        length=Quantity(number=length, unit=Unit.FOOT),
    )
    stack = Stack(kind=StackKind.PILE, name=Name(text="B1"), boards=(boards,))
    return lots_of(stack, arrange(stack), {"white oak": oak}, None)["a"]


def board_feet(thickness: Quantity, width: float, length: float, count: int = 1) -> float:
    return Unit.BOARD_FOOT.from_si(lot(thickness, width, length, count).board_feet)


def test_a_board_foot_is_144_cubic_inches() -> None:
    published = float(PUBLISHED["board foot"]["low"])
    assert Unit.BOARD_FOOT.to_si(1) == pytest.approx(published * Unit.INCH.to_si(1) ** 3)


def test_a_foot_square_an_inch_thick_is_a_board_foot() -> None:
    assert board_feet(inches(1), 12, 1) == pytest.approx(1)


def test_the_published_worked_board_comes_out_within_the_rounding_of_its_surface_measure() -> None:
    # 2 x 6 1/4 in x 8 ft: surface measure 4 1/6, tallied as 4; 8 board feet
    published = float(PUBLISHED["worked value: 2 x 6.25 in x 8 ft"]["low"])
    exact = board_feet(inches(2), 6.25, 8)
    assert exact == pytest.approx(2 * (4 + 1 / 6))
    assert abs(exact - published) <= 0.5 * 2


@pytest.mark.parametrize(("quarters", "nominal"), [(4, 1.0), (5, 1.25), (6, 1.5), (8, 2.0)])
def test_quarters_count_as_their_nominal_thickness(quarters: int, nominal: float) -> None:
    thickness = Quantity(number=quarters, unit=Unit.QUARTER)
    assert board_feet(thickness, 12, 1) == pytest.approx(nominal)


def test_lumber_thinner_than_an_inch_counts_as_an_inch() -> None:
    assert board_feet(inches(0.5), 12, 8) == pytest.approx(8)
    assert Unit.BOARD_FOOT.from_si(lot(inches(0.5), 12, 8).volume) == pytest.approx(4)


def test_sixty_boards_count_sixty_times_one() -> None:
    assert board_feet(Quantity(number=4, unit=Unit.QUARTER), 6, 8, 60) == pytest.approx(240)
