"""What is taken as the moisture content of boards."""

from __future__ import annotations

import pytest

from stacklint.drying import moisture
from stacklint.plan.boards import Boards, MoistureWord
from stacklint.plan.node import Name, Quantity
from stacklint.tables import woods
from stacklint.units import Unit


def of(said: Quantity | MoistureWord | None, wood: str = "yellow-poplar") -> moisture.Moisture:
    boards = Boards(
        label=Name(text="a"),
        count=10,
        wood=Name(text=wood),
        thickness=Quantity(number=4, unit=Unit.QUARTER),
        length=Quantity(number=8, unit=Unit.FOOT),
        moisture=said,
    )
    found = woods.find(wood)
    assert found is not None
    return moisture.of(boards, found)


def test_green_boards_have_the_mean_of_heartwood_and_sapwood() -> None:
    # Wood Handbook FPL-GTR-190 Table 4-1: yellow-poplar 83 heartwood, 106 sapwood
    green = of(MoistureWord.GREEN)
    assert green.value == pytest.approx(0.945)
    assert (green.low, green.high) == pytest.approx((0.83, 1.06))
    assert green.stated


def test_boards_of_unsaid_moisture_are_taken_as_green_and_say_so() -> None:
    unsaid = of(None)
    assert unsaid.value == of(MoistureWord.GREEN).value
    assert not unsaid.stated


def test_cherry_is_given_for_heartwood_only() -> None:
    # Wood Handbook FPL-GTR-190 Table 4-1: black cherry 58, sapwood not given
    cherry = of(MoistureWord.GREEN, "black cherry")
    assert cherry.value == cherry.low == cherry.high == pytest.approx(0.58)


def test_air_dried_boards_lie_in_the_published_range() -> None:
    dried = of(MoistureWord.AIR_DRIED)
    assert (dried.low, dried.high) == (0.12, 0.19)
    assert dried.low < dried.value < dried.high


def test_kiln_dried_boards_are_drier_than_any_air_dried() -> None:
    assert of(MoistureWord.KILN_DRIED).high < of(MoistureWord.AIR_DRIED).low


def test_a_figure_is_taken_as_it_is() -> None:
    figure = of(Quantity(number=35, unit=Unit.PERCENT))
    assert (figure.low, figure.value, figure.high) == pytest.approx((0.35, 0.35, 0.35))
    assert figure.stated and figure.words == "35%"
