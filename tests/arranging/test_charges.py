"""Which boards make a good charge: the rule book decides who goes with whom, the kiln how much."""

from __future__ import annotations

import datetime

from stacklint.arranging.charges import Charge, Proposals, Yard, kilns_of, lots, proposals, taken_kilns
from stacklint.checking import check
from stacklint.language import read
from stacklint.report.charges_text import charge_text, charges_lines
from stacklint.rulebook import builtin, load
from stacklint.units import ONE_BOARD_FOOT, System

DAY = datetime.date(2026, 9, 1)
TODAY = datetime.date(2026, 6, 1)
YARD = """\
site "Larch Bottom"
  near "Burlington, VT"

kiln "North box"
  type dehumidification
  inside 17 ft x 6 ft x 6 ft
  holds {holds}
  carries 9000 lb
  plenum 18 in

"""


def pile(name: str, *boards: str, stacked: str = "2026-04-02") -> str:
    lines = "\n".join(f"  boards {label}: {said}" for label, said in zip("abc", boards, strict=False))
    return f'pile "{name}"\n  place open yard\n  stacked {stacked}\n{lines}\n  stack 16 ft x 4 ft\n\n'


ASH = pile("Ash", "96 of white ash 4/4 x 6 in x 8 ft, green")
MORE_ASH = pile("More ash", "64 of white ash 4/4 x 6 in x 8 ft, green")
THICK = pile("Thick ash", "60 of white ash 8/4 x 6 in x 8 ft, green")
OAK = pile("Oak", "80 of white oak 4/4 x 6 in x 8 ft, 18%")
WET = pile("Wet ash", "90 of white ash 4/4 x 6 in x 8 ft, green", stacked="2026-08-30")


def yard(*piles: str, holds: str = "1400 bf") -> list[Yard]:
    found = read(YARD.format(holds=holds) + "".join(piles), today=TODAY)
    assert found.faults == ()
    return [Yard("yard.stackplan", found.plan)]


def proposed(*piles: str, holds: str = "1400 bf", day: datetime.date = DAY) -> Proposals:
    yards = yard(*piles, holds=holds)
    return proposals(lots(yards, day, TODAY), kilns_of(yards), yards, day, builtin())


def one(*piles: str, holds: str = "1400 bf") -> Charge:
    (charge,) = proposed(*piles, holds=holds).charges
    return charge


def names(charge: Charge) -> set[str]:
    return {taken.lot.pile.name.text for taken in charge.taken}


def away(charge: Charge) -> dict[str, str]:
    return {each.lot.pile.name.text: each.finding.rule for each in charge.turned_away}


def test_boards_alike_go_together() -> None:
    charge = one(ASH, MORE_ASH)
    assert names(charge) == {"Ash", "More ash"}
    assert all(taken.whole for taken in charge.taken)
    assert charge.load.amounts.volume / ONE_BOARD_FOOT == sum(n * 4.0 for n in (96, 64))


def test_thick_boards_do_not_go_with_thin_ones() -> None:
    """8/4 takes 2.5 times the time of 4/4 (Wengert, Drying Mixed Thicknesses)."""
    charge = one(THICK.replace("2026-04-02", "2026-08-30"), WET)
    assert names(charge) == {"Thick ash"}
    assert away(charge) == {"Wet ash": "mixed-thickness-in-stack"}


def test_thick_boards_go_with_thin_ones_that_have_dried_in_the_yard() -> None:
    """Kiln forum practice: well air-dried thicknesses are mixed without harm (common practice)."""
    charge = one(ASH, THICK)
    assert names(charge) == {"Ash", "Thick ash"}
    assert min(taken.lot.moisture for taken in charge.taken) <= 0.20


def test_green_boards_do_not_go_with_air_dried_ones() -> None:
    """A spread above 10 to 15% makes every setting a compromise (Wengert, Drying loads with mixed moisture content)."""
    charge = one(ASH, MORE_ASH, WET)
    assert names(charge) == {"Ash", "More ash"}
    assert away(charge) == {"Wet ash": "mixed-moisture"}


def test_dried_in_the_yard_boards_of_two_woods_may_share_a_charge() -> None:
    """Kiln forum practice: well air-dried oak and hickory share a charge without harm (common practice)."""
    dry = pile("Dry ash", "96 of white ash 4/4 x 6 in x 8 ft, 16%")
    assert names(one(dry, OAK)) == {"Dry ash", "Oak"}


def test_the_moisture_is_that_of_the_forecast_on_the_day() -> None:
    yards = yard(ASH)
    spring, autumn = (lots(yards, day, TODAY)[0].moisture for day in (datetime.date(2026, 4, 20), DAY))
    assert autumn < 0.22 < 0.3 < spring


def test_a_pile_not_yet_stacked_is_passed_over() -> None:
    late = pile("Late", "96 of white ash 4/4 x 6 in x 8 ft, green", stacked="2026-10-01")
    assert {lot.pile.name.text for lot in lots(yard(ASH, late), DAY, TODAY)} == {"Ash"}


def test_a_pile_that_a_charge_takes_is_passed_over() -> None:
    taken = 'charge "1" in kiln "North box"\n  starts 2026-10-01\n  from pile "Ash"\n'
    assert {lot.pile.name.text for lot in lots(yard(ASH, MORE_ASH, taken), DAY, TODAY)} == {"More ash"}


def test_what_is_over_the_rating_of_the_kiln_remains_for_another_day() -> None:
    found = proposed(ASH, MORE_ASH, holds="400 bf")
    (charge,) = found.charges
    assert charge.load.amounts.volume / ONE_BOARD_FOOT <= 400
    left = sum(lot.boards.count or 0 for lot in found.remaining)
    assert left + sum(taken.boards for taken in charge.taken) == 96 + 64


def test_of_several_kinds_the_one_that_fills_the_kiln_best_goes_first() -> None:
    assert names(one(OAK.replace("80 of", "20 of"), WET)) == {"Wet ash"}
    assert names(one(OAK, WET.replace("90 of", "20 of"))) == {"Oak"}


def test_each_kiln_has_a_charge_of_its_own() -> None:
    second = 'kiln "Sun house"\n  type solar\n  inside 10 ft x 6 ft x 5 ft\n  holds 500 bf\n\n'
    found = proposed(second, ASH, MORE_ASH, WET)
    assert [charge.kiln.name.text for charge in found.charges] == ["North box", "Sun house"]
    assert names(found.charges[0]).isdisjoint(names(found.charges[1]))


def test_house_rules_decide_who_goes_with_whom() -> None:
    house = load([("house.rules", 'skip mixed-moisture because "ours is a slow kiln"\n')], base=builtin(), house=True)
    assert house.faults == ()
    yards = yard(ASH, MORE_ASH, WET)
    found = proposals(lots(yards, DAY, TODAY), kilns_of(yards), yards, DAY, house.book)
    assert "mixed-moisture" not in away(found.charges[0]).values()


def test_a_kiln_that_still_holds_a_charge_is_told_with_the_day_it_is_free() -> None:
    running = (
        'charge "1" in kiln "North box"\n  starts 2026-08-25\n  runs at 110 F 25%\n'
        "  boards a: 96 of white ash 4/4 x 6 in x 8 ft, 40%\n  stack 16 ft x 4 ft\n  want 8%\n"
    )
    checked = check(YARD.format(holds="1400 bf") + running, today=TODAY)
    name, until = taken_kilns(checked.stacks, DAY)["north box"]
    assert name == "1"
    assert until > DAY
    assert taken_kilns(checked.stacks, until) == {}
    assert taken_kilns(checked.stacks, datetime.date(2026, 8, 1)) == {}


def _put_in(charge: Charge, *piles: str, holds: str = "1400 bf") -> set[str]:
    """The rules that find something in the plan with the proposed charge put in."""
    text = YARD.format(holds=holds) + "".join(piles) + charge_text(charge)
    checked = check(text, today=TODAY)
    (stack,) = (each for each in checked.stacks if each.stack.kind.value == "charge")
    assert stack.facts is not None
    assert stack.facts.pieces == sum(taken.boards for taken in charge.taken)
    return {finding.rule for finding in checked.findings if finding.stack == stack.stack.name.text}


UNFIT = {
    "plan-text",
    "mixed-thickness-in-stack",
    "mixed-species",
    "mixed-moisture",
    "kiln-overfull",
    "kiln-overweight",
    "stack-too-big-for-kiln",
}


def test_the_text_of_a_charge_of_whole_piles_takes_them_from_the_piles() -> None:
    charge = one(ASH, MORE_ASH, THICK)
    text = charge_text(charge)
    assert 'from pile "Ash"' in text
    assert 'from pile "More ash"' in text
    assert "boards" not in text
    assert _put_in(charge, ASH, MORE_ASH, THICK).isdisjoint(UNFIT)


def test_the_text_of_a_charge_of_a_part_of_a_pile_says_how_many_of_its_boards_go_in() -> None:
    charge = one(ASH, MORE_ASH, WET, holds="500 bf")
    text = charge_text(charge)
    part = next(taken for taken in charge.taken if not taken.whole)
    assert f'from pile "{part.lot.pile.name.text}", {part.boards} of a\n' in text
    assert "boards" not in text
    assert _put_in(charge, ASH, MORE_ASH, WET, holds="500 bf").isdisjoint(UNFIT)


def test_a_charge_of_random_lengths_lists_each_length_that_goes_in() -> None:
    mixed = pile("Mixed", "200 of white ash 4/4 x 6 in x 4 to 8 ft, 20%")
    charge = one(mixed, holds="500 bf")
    assert _put_in(charge, mixed, holds="500 bf").isdisjoint(UNFIT)
    assert charge_text(charge).count("boards a:") == 1
    assert charge_text(charge).count("# of pile Mixed, boards a") == len(charge.taken[0].lengths)


def test_of_a_pile_with_groups_that_stay_those_that_go_in_are_named() -> None:
    both = pile("Both", "96 of white ash 4/4 x 6 in x 8 ft, 18%", "20 of white ash 4/4 x 6 in x 18 ft, 18%")
    charge = one(both)
    assert 'from pile "Both", all of a\n' in charge_text(charge)
    assert _put_in(charge, both).isdisjoint(UNFIT)


def test_boards_of_two_texts_are_listed_with_their_piles() -> None:
    yards = [*yard(ASH), Yard("other.stackplan", yard(MORE_ASH)[0].plan)]
    (charge,) = proposals(lots(yards, DAY, TODAY), kilns_of(yards), yards, DAY, builtin()).charges
    assert names(charge) == {"Ash", "More ash"}
    assert charge_text(charge).count("# of pile") == 2
    assert "from pile" not in charge_text(charge)


def test_of_a_pile_that_a_charge_takes_in_part_the_rest_is_free() -> None:
    taken = 'charge "1" in kiln "North box"\n  starts 2026-10-01\n  from pile "Ash", 40 of a\n'
    (lot,) = lots(yard(ASH, taken), DAY, TODAY)
    assert lot.boards.count == 56
    assert 'from pile "Ash", 56 of a\n' in charge_text(one(ASH, taken))
    rest = taken + 'charge "2"\n  from pile "Ash", 224 bf of a\n'
    assert lots(yard(ASH, rest), DAY, TODAY) == ()


def test_what_is_shown_tells_the_charge_what_is_turned_away_and_what_remains() -> None:
    shown = " ".join("\n".join(charges_lines(proposed(ASH, WET, OAK), System.INCH, several=False)).split())
    assert "Charge for kiln North box on 2026-09-01" in shown
    assert "Not with these:" in shown
    assert "[mixed-moisture]" in shown
    assert "Remaining for another day" in shown


def test_kilns_that_say_nothing_of_their_size_are_passed_over() -> None:
    plan = read('kiln "Box"\n  type vented\n\nkiln "North"\n  holds 500 bf\n').plan
    assert [kiln.name.text for kiln in kilns_of([Yard("p", plan)])] == ["North"]
