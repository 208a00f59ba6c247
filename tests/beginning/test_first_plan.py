"""A first plan is clean under a check, whatever the wood, and says what the wood wants."""

from __future__ import annotations

import datetime
import re

import pytest

from stacklint.beginning import Answers, Question, begin, refused
from stacklint.beginning.choices import LADDERS
from stacklint.checking import check
from stacklint.findings import Level
from stacklint.language import read
from stacklint.plan.shelter import PlaceKind
from stacklint.rulebook import builtin, load
from stacklint.tables import woods
from stacklint.units import System

TODAY = datetime.date(2026, 6, 1)
INCH = {"width": "6 in", "length": "8 ft"}
METRIC = {"width": "150 mm", "length": "2.4 m"}
SIZES = [("4/4", INCH), ("8/4", INCH), ("27 mm", METRIC), ("54 mm", METRIC)]


def begun(**answers: str) -> str:
    given = {"wood": "white ash", "amount": "60"} | answers
    return begin(Answers(**given), today=TODAY).text


def grave(text: str) -> list[str]:
    return [finding.rule for finding in check(text, today=TODAY).findings if finding.level is not Level.NOTE]


def line(text: str, keyword: str) -> str:
    (found,) = re.findall(rf"^  ({keyword} .*)$", text, re.MULTILINE)
    return found


@pytest.mark.parametrize("thickness, sizes", SIZES)
@pytest.mark.parametrize("wood", woods.names())
def test_a_first_plan_of_every_wood_is_clean(wood: str, thickness: str, sizes: dict[str, str]) -> None:
    made = begin(Answers(wood=wood, amount="60", thickness=thickness, **sizes), today=TODAY)
    checked = check(made.text, today=TODAY)
    assert made.findings == ()
    assert [finding for finding in checked.findings if finding.level is not Level.NOTE] == []
    assert checked.stacks[0].facts is not None
    assert checked.system is (System.METRIC if sizes is METRIC else System.INCH)


@pytest.mark.parametrize("place", [kind for kind in PlaceKind if kind not in (PlaceKind.ATTIC, PlaceKind.KILN)])
@pytest.mark.parametrize("moisture", ["green", "18%", "kiln dried"])
def test_a_first_plan_is_clean_wherever_green_wood_may_stand(place: PlaceKind, moisture: str) -> None:
    assert grave(begun(place=place.value, moisture=moisture)) == []


def test_green_wood_in_an_attic_is_told_since_no_choice_mends_it() -> None:
    made = begin(Answers(wood="white ash", amount="60", place="attic"), today=TODAY)
    assert [finding.rule for finding in made.findings] == ["place-too-hot"]


@pytest.mark.parametrize("amount", ["1", "7", "61", "350 bf", "4,000 bf"])
def test_no_board_is_left_without_a_partner_whatever_their_number(amount: str) -> None:
    assert grave(begun(amount=amount)) == []


@pytest.mark.parametrize("length", ["2 ft", "30 in", "7 ft", "11 ft", "14 ft", "16 ft", "8' 6\""])
def test_stickers_hold_both_ends_of_boards_of_any_length(length: str) -> None:
    if refused(Question.LENGTH, length, TODAY):
        length = length.replace("' ", " ft ").replace('"', " in")
    assert grave(begun(length=length)) == []


def test_boards_of_several_lengths_get_a_stack_that_they_fill() -> None:
    """6 and 10, 7 and 9, 8 and 8 ft come to 16 ft; five boards of each length are 25."""
    text = begun(length="6 to 10 ft", amount="50")
    assert line(text, "stack").startswith("stack 16 ft x 4 ft")
    assert grave(text) == []


def test_wood_that_warps_gets_closer_stickers_and_a_load_on_top() -> None:
    """12 to 16 in for woods prone to warp (Wengert, How far apart should stickers be)."""
    warps, lies_flat = begun(wood="sweetgum"), begun(wood="white ash")
    assert "every 16 in" in line(warps, "stickers")
    assert "every 24 in" in line(lies_flat, "stickers")
    assert line(warps, "top load") == "top load 50 psf"
    assert "top load" not in lies_flat


def test_softwood_stickers_stand_closer_than_hardwood_ones() -> None:
    """16 to 18 in for framing lumber (Sticker specs and spacing, 2000)."""
    assert "every 18 in" in line(begun(wood="eastern white pine"), "stickers")


def test_every_sticker_line_has_its_bearer() -> None:
    for wood in ("sweetgum", "white ash", "eastern white pine"):
        text = begun(wood=wood)
        spacing = re.search(r"every \d+ in", line(text, "stickers"))
        assert spacing is not None
        assert spacing.group() in line(text, "bearers")


def test_thick_hardwood_in_the_open_gets_stickers_of_an_inch() -> None:
    """TM 38-400 (1994) p. 5-7: hardwood 1 1/4 in and thicker, at 24% or more, in an open yard; 3/4 in otherwise."""
    assert line(begun(thickness="5/4"), "stickers").startswith("stickers 1 in x")
    assert line(begun(thickness="4/4"), "stickers").startswith("stickers 3/4 in x")
    assert line(begun(thickness="8/4", place="open shed"), "stickers").startswith("stickers 3/4 in x")
    assert line(begun(thickness="8/4", wood="eastern white pine"), "stickers").startswith("stickers 3/4 in x")


def test_green_ends_are_coated_and_dry_ones_are_not() -> None:
    assert line(begun(), "ends") == "ends coated"
    assert "ends" not in begun(moisture="air dried")


def test_oak_stacked_in_hot_dry_months_gets_shade_cloth() -> None:
    """Wengert: shade cloth helps oak on a sunny, windy site; in the cool months it needs none."""
    summer = begun(wood="white oak", near="Columbus, OH", stacked="2026-07-01")
    winter = begun(wood="white oak", near="Columbus, OH", stacked="2026-01-10")
    assert line(summer, "sides") == "sides shade cloth"
    assert "sides" not in winter


def test_a_closed_room_gets_fans_for_wet_boards_and_no_cover() -> None:
    text = begun(place="garage")
    assert line(text, "fan") == "fan 2 of 1500 cfm"
    assert "cover" not in text
    assert "fan" not in begun(place="garage", moisture="12%")


def test_boards_too_many_for_one_low_pile_get_a_longer_one() -> None:
    assert line(begun(amount="60"), "stack").startswith("stack 8 ft x 4 ft")
    assert line(begun(amount="6000 bf"), "stack").startswith("stack 16 ft x")


def test_a_heavy_pile_gets_larger_pads_than_a_light_one() -> None:
    light = begun(amount="60", thickness="8/4", wood="white oak", size="8 ft x 6 ft")
    heavy = begun(amount="4,000 bf", thickness="8/4", wood="white oak", size="8 ft x 6 ft")
    assert "on 8 in x 16 in pads" in line(light, "bearers")
    assert "on 16 in x 16 in pads" in line(heavy, "bearers")
    assert grave(heavy) == []


def test_what_is_answered_stands_in_the_plan_as_it_was_answered() -> None:
    text = begun(
        thickness="54 mm",
        width="150 to 300 mm",
        length="2.2 m",
        amount="1.5 m3",
        moisture="60%",
        size="2.2 m x 1.5 m",
        place="carport, in the shade",
        near="Burlington, VT",
        stacked="2026-03-02",
        want="15%",
        by="2028-05-01",
        use="garden furniture",
        name="B 7",
    )
    plan = read(text, today=TODAY).plan
    (stack,) = plan.stacks
    assert plan.sites[0].near is not None and plan.sites[0].near.text == "Burlington, VT"
    assert line(text, "boards") == "boards a: 1.5 m3 of white ash 54 mm x 150 to 300 mm x 2.2 m, 60%"
    assert line(text, "stack").startswith("stack 2.2 m x 1.5 m")
    assert line(text, "place") == 'place carport, site "Home yard", in the shade'
    assert line(text, "want") == "want 15% by 2028-05-01 for garden furniture"
    assert stack.name.text == "B 7"
    assert stack.stacked is not None and stack.stacked.date == datetime.date(2026, 3, 2)


def test_house_rules_have_their_say_in_what_is_chosen() -> None:
    text = 'change sticker-spacing-too-wide\n  limit hardwood = 12 in\n  because "our ash cups"\n'
    loaded = load([("house.rules", text.replace('  because "our ash cups"\n', ""))], base=builtin(), house=True)
    assert loaded.faults == ()
    made = begin(Answers(wood="white ash", amount="60"), book=loaded.book, today=TODAY)
    assert "every 12 in" in line(made.text, "stickers")


def test_every_choice_is_mended_by_rules_that_there_are() -> None:
    for ladder in LADDERS:
        assert all(builtin().rule(rule) is not None for rule in ladder.rules)
        assert len(ladder.inch) == len(ladder.metric)


@pytest.mark.parametrize(
    "question, answer, told",
    [
        (Question.WOOD, "oak", "white oak, northern red oak or southern red oak"),
        (Question.WOOD, "unobtainium", "unobtainium"),
        (Question.THICKNESS, "4", "unit"),
        (Question.THICKNESS, "0 in", "cannot be"),
        (Question.AMOUNT, "a truckload", "How many boards"),
        (Question.MOISTURE, "flatsawn", "no moisture"),
        (Question.MOISTURE, "400%", "cannot be"),
        (Question.STACKED, "4/2/2026", "2026-04-02"),
        (Question.WANT, "for flooring", "for flooring"),
        (Question.NEAR, "Atlantis", "Atlantis"),
        (Question.PLACE, "kiln", "charge"),
        (Question.PLACE, "the moon", "moon"),
        (Question.SIZE, "16 x 4", "unit"),
        (Question.NAME, 'B" 2', "quotation marks"),
        (Question.WOOD, "white ash 4/4 x 6 in x 8 ft, green # ", "#"),
        (Question.WOOD, "white ash\nboards b: 3", "one line"),
        (Question.WOOD, "  ", "Nothing is answered"),
    ],
)
def test_an_answer_that_cannot_stand_in_a_plan_is_told_why(question: Question, answer: str, told: str) -> None:
    refusal = refused(question, answer, TODAY)
    assert refusal is not None
    assert told in f"{refusal.message} {refusal.instead}"


def test_everyday_answers_are_taken() -> None:
    for question, answer in (
        (Question.WOOD, "tulip poplar"),
        (Question.THICKNESS, "1-1/4 in"),
        (Question.WIDTH, "random width"),
        (Question.WIDTH, "5-9 in"),
        (Question.AMOUNT, "400 bdft"),
        (Question.MOISTURE, "18 percent"),
        (Question.PLACE, "pole barn"),
        (Question.NEAR, "Columbus, OH"),
    ):
        assert refused(question, answer, TODAY) is None


def test_without_a_wood_there_is_no_plan() -> None:
    with pytest.raises(ValueError, match="Which wood"):
        begin(Answers(amount="60"), today=TODAY)
