"""What a stack waits for: a pile that is not dry, a kiln or a spot that is taken, the air, a kiln, its own plan."""

from __future__ import annotations

from made_calendars import ASH, DATE, charge, entry, pile, ready, seen

from stacklint.calendar.waiting import For
from stacklint.drying.forecast import Forecast, NoForecast


def waits(text: str, *forecasts: Forecast | NoForecast | None, of: str) -> list[tuple[For, str, DATE | None]]:
    return [tuple(wait) for wait in entry(seen(text, *forecasts), of).waits]


def test_a_pile_that_dries_waits_for_the_air_until_it_is_likely_ready() -> None:
    found = waits(pile(), ready("2026-04-01", "2026-08-01"), of="Ash")
    assert found == [(For.AIR, "It dries until 2026-08-01, likely.", DATE(2026, 8, 1))]


def test_a_pile_that_is_likely_ready_waits_for_nothing() -> None:
    assert waits(pile(), ready("2026-04-01", "2026-06-01"), of="Ash") == []


def test_a_pile_that_is_yet_to_be_stacked_waits_for_its_day() -> None:
    (day, air) = waits(pile(stacked="2026-07-01"), ready("2026-07-01", "2026-11-01"), of="Ash")
    assert day == (For.DAY, "It is stacked on 2026-07-01.", DATE(2026, 7, 1))
    assert air[0] is For.AIR


def test_a_charge_waits_for_a_pile_that_is_not_dry_when_it_starts() -> None:
    text = pile() + charge(of="Ash")
    found = waits(text, ready("2026-04-01", "2026-07-21"), ready("2026-07-01", "2026-07-12", wanted=0.08), of="One")
    assert (
        For.PILE,
        "Pile Ash (line 1) is likely at 12% on 2026-07-21, 20 days after this charge starts.",
        DATE(2026, 7, 21),
    ) in found


def test_a_charge_does_not_wait_for_a_pile_that_is_dry_on_its_day() -> None:
    text = pile() + charge(of="Ash")
    found = waits(text, ready("2026-04-01", "2026-07-01"), ready("2026-07-01", "2026-07-12", wanted=0.08), of="One")
    assert [what for what, *_ in found] == [For.DAY, For.RUN]


def test_a_charge_of_a_pile_that_never_gets_there_is_told_so_without_a_day() -> None:
    text = pile() + charge(of="Ash")
    found = waits(text, ready("2026-04-01", None), ready("2026-07-01", "2026-07-12", wanted=0.08), of="One")
    assert (For.PILE, "Pile Ash (line 1) does not come to 12% where it stands, by forecast.", None) in found


def test_a_charge_waits_for_the_one_that_is_still_in_its_kiln() -> None:
    text = charge("One", "2026-06-20") + charge("Two", "2026-07-01")
    dry = ready("2026-06-20", "2026-07-07"), ready("2026-07-01", "2026-07-20")
    found = waits(text, *dry, of="Two")
    assert (
        For.PLACE,
        "Charge One (line 1) is in kiln Box until 2026-07-07, 6 days after this one comes.",
        DATE(2026, 7, 7),
    ) in found
    assert For.PLACE not in {what for what, *_ in waits(text, *dry, of="One")}


def test_a_pile_waits_for_a_spot_whose_pile_has_no_day_to_go() -> None:
    text = pile("Ash", want="8%") + pile("Oak", stacked="2026-05-01")
    found = waits(text, ready("2026-04-01", None, wanted=0.08), ready("2026-05-01", "2026-09-01"), of="Oak")
    assert (For.PLACE, "Pile Ash (line 1) is in spot row 1, and no day is known on which it goes.", None) in found


def test_a_pile_that_wants_less_than_the_air_can_reach_and_is_in_no_charge_waits_for_a_kiln() -> None:
    (found,) = waits(pile(want="8%"), ready("2026-04-01", None, wanted=0.08), of="Ash")
    what, words, until = found
    assert (what, until) == (For.KILN, None)
    assert words == (
        "The air holds its boards at 10% at the driest and 8% is wanted: it waits for a kiln, and no charge takes its"
        " boards."
    )


def test_where_a_charge_takes_its_boards_it_waits_for_the_charge_and_not_for_a_kiln() -> None:
    text = pile(want="8%") + charge(of="Ash")
    dry = ready("2026-07-01", "2026-07-12", wanted=0.08)
    found = waits(text, ready("2026-04-01", None, wanted=0.08), dry, of="Ash")
    assert found == [(For.CHARGE, "Charge One (line 7) takes its boards on 2026-07-01.", DATE(2026, 7, 1))]


def test_a_charge_that_never_gets_there_waits_for_its_run_and_not_for_a_kiln() -> None:
    (day, found) = waits(charge(), ready("2026-07-01", None, wanted=0.08), of="One")
    assert day[0] is For.DAY
    assert found[0] is For.RUN
    assert found[1].startswith("It does not come to 8% by forecast: not in ")


def test_a_stack_without_a_forecast_waits_for_what_its_plan_lacks() -> None:
    none = NoForecast("How it dries is not forecast: its air is not known.", "Name a site.")
    assert waits(pile(), none, of="Ash") == [
        (For.PLAN, "How it dries is not forecast: its air is not known. Name a site.", None)
    ]


def test_a_stack_whose_day_is_not_said_waits_for_its_plan_to_say_it() -> None:
    found = waits(pile(stacked=None), ready("2026-06-01", "2026-09-01"), of="Ash")
    assert found[0] == (For.PLAN, "Its day is not said: add a line stacked with the day.", None)
    found = waits(charge(starts=None), ready("2026-06-01", "2026-06-12"), of="One")
    assert found[0] == (For.PLAN, "Its day is not said: add a line starts with the day.", None)


def test_the_lines_that_are_asked_for_are_those_of_the_language() -> None:
    assert "white ash" in ASH
    assert entry(seen(pile(stacked="2026-04-01"), ready("2026-04-01", "2026-09-01")), "Ash").presence.start
    assert entry(seen(charge(starts="2026-07-01"), ready("2026-07-01", "2026-07-09")), "One").presence.start


def test_a_charge_that_has_begun_waits_for_no_pile() -> None:
    text = pile() + charge("One", "2026-05-20", of="Ash")
    found = waits(text, ready("2026-04-01", "2026-07-21"), ready("2026-05-20", "2026-07-12", wanted=0.08), of="One")
    assert found
    assert For.PILE not in [what for what, *_ in found]


def test_nobody_waits_for_a_kiln_that_was_left_before_today() -> None:
    text = charge("One", "2026-05-01") + charge("Two", "2026-05-10")
    found = waits(text, ready("2026-05-01", "2026-05-20"), ready("2026-05-10", "2026-07-20"), of="Two")
    assert [what for what, *_ in found] == [For.RUN]
