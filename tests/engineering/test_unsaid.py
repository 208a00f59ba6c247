"""What a plan leaves out that a verdict on its drying leans on is said in a note."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check

TODAY = datetime.date(2026, 3, 1)
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
OTHER = 'site "Mill Hill"\n  near "Columbus, OH"\n'
ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"
BUILT = "stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/4 in, every 24 in, dry"
SAID = "place open yard, site 'Larch Bottom'".replace("'", '"'), "stacked 2026-04-01"
OF_DRYING = {"want", "starts", "stacked", "site", "schedule", "kiln"}


def pile(*said: str, boards: str = ASH, sites: str = SITE) -> CheckedPlan:
    return check(f'{sites}pile "A"\n' + "".join(f"  {line}\n" for line in (boards, *BUILT, *said)), today=TODAY)


def charge(*said: str, kiln: tuple[str, ...], sites: str = "", boards: str = ASH) -> CheckedPlan:
    head = sites + 'kiln "Box"\n' + "".join(f"  {line}\n" for line in kiln)
    lines = "".join(f"  {line}\n" for line in (boards, *BUILT, *said))
    return check(f'{head}charge "A" in kiln "Box"\n{lines}', today=TODAY)


def notes(plan: CheckedPlan) -> list[tuple[str, str]]:
    found = [(each.topic, each.text) for each in plan.assumptions if each.topic in OF_DRYING]
    told = {finding.message for finding in plan.findings if finding.rule == "assumed"}
    assert {text for _, text in found} <= told, "each becomes a note"
    return found


STACKED = "It is not said when the pile is stacked: 2026-03-01 is taken."
STARTS = "It is not said when the charge starts: 2026-03-01 is taken."
ONLY_SITE = "No site is named with its place: Larch Bottom, the only one, is taken."


def test_a_pile_of_which_something_is_wanted_is_told_the_day_and_the_site_that_were_taken() -> None:
    assert notes(pile("want 14%")) == [("stacked", STACKED), ("site", ONLY_SITE)]


def test_a_pile_that_says_its_day_and_its_site_is_told_nothing() -> None:
    assert notes(pile(*SAID, "want 14%")) == []


def test_where_nothing_is_wanted_nothing_leans_on_what_is_not_said() -> None:
    assert notes(pile()) == []
    assert notes(pile("want for flooring")) == []


@pytest.mark.parametrize(("moisture", "told"), [("14%", False), ("15%", True)])
def test_boards_that_are_as_dry_as_wanted_already_need_no_days(moisture: str, told: bool) -> None:
    assert bool(notes(pile("want 14%", boards=ASH.replace("green", moisture)))) is told


def test_a_pile_that_cannot_be_forecast_is_told_why_and_what_to_write() -> None:
    for sites in ("", SITE + OTHER):
        ((topic, text),) = notes(pile("want 14%", sites=sites))
        assert topic == "site"
        assert text.startswith("How it dries is not forecast: no site is named whose air would be known.")
        assert 'near "Columbus, OH"' in text


def test_each_note_stands_where_what_it_misses_would_be_said() -> None:
    plan = pile("place open yard", "want 14%")
    lines = {each.topic: each.where.line for each in plan.assumptions}
    assert (lines["stacked"], lines["site"]) == (3, 7)
    lines = {each.topic: each.where.line for each in pile("want 14%", sites="").assumptions}
    assert lines["site"] == 5


def test_of_a_charge_the_kilns_type_and_heat_are_told_where_they_are_not_said() -> None:
    found = notes(charge("want 8%", kiln=("carries 9000 lb",)))
    assert found == [
        ("starts", STARTS),
        ("kiln", "The kiln's type is not said; it is taken as a vented kiln."),
        ("kiln", "How hot the kiln gets is not said; 180 F is taken, usual for a vented kiln."),
    ]
    assert notes(charge("want 8%", "starts 2026-04-01", kiln=("type vented", "heats to 160 F"))) == []


def test_of_a_dehumidifier_of_unsaid_strength_it_is_told_that_it_keeps_up() -> None:
    found = notes(charge("want 8%", "starts 2026-04-01", kiln=("type dehumidification", "heats to 120 F")))
    assert found == [("kiln", "What the dehumidifier removes is not said; it is taken to keep up with the boards.")]
    strong = "type dehumidification", "heats to 120 F", "removes 60 pt/day"
    assert notes(charge("want 8%", "starts 2026-04-01", kiln=strong)) == []


def test_of_a_schedule_and_settings_the_settings_are_taken() -> None:
    said = "want 8%", "starts 2026-04-01", "runs at 110 F 80%"
    kiln = "type vented", "heats to 160 F"
    assert notes(charge(*said, "schedule T4-D2", kiln=kiln)) == [
        ("schedule", "A schedule and settings are both given: it is forecast by the settings.")
    ]
    assert notes(charge(*said, kiln=kiln)) == []


def test_of_a_solar_kiln_the_site_and_the_collector_are_told_where_they_are_not_said() -> None:
    """10 board feet to a square foot of collector (Wengert and Meyer, solar kiln plans): 24 ft2 for 240 bf."""
    found = notes(charge("want 8%", "starts 2026-04-01", kiln=("type solar",), sites=SITE))
    assert found == [
        ("site", ONLY_SITE),
        ("kiln", "The collector's area is not said; 24 ft2 is taken, 10 board feet to 1 ft2."),
    ]
    said = ('place kiln, site "Larch Bottom"', "want 8%", "starts 2026-04-01")
    assert notes(charge(*said, kiln=("type solar", "collector 45 ft2"), sites=SITE)) == []


def test_the_site_of_a_kiln_that_is_heated_is_of_no_matter() -> None:
    assert notes(charge("want 8%", "starts 2026-04-01", kiln=("type vented", "heats to 160 F"), sites=SITE)) == []


def test_a_solar_charge_without_a_site_is_told_that_it_is_not_forecast() -> None:
    ((topic, text),) = notes(charge("want 8%", "starts 2026-04-01", kiln=("type solar",)))
    assert topic == "site"
    assert "no site is named" in text


def test_what_a_machine_in_the_open_does_is_told_where_its_fan_is_said() -> None:
    plan = pile(*SAID, "fan 1 of 1500 cfm, removes 30 pt/day")
    (note,) = (each for each in plan.assumptions if each.text.startswith("What the machine removes"))
    assert (note.topic, note.where.line) == ("fan", 9)


@pytest.mark.parametrize(
    ("place", "text"),
    [("carport", "Carport is taken as an open shed."), ("barn loft", "Barn loft is taken as a closed barn.")],
)
def test_an_everyday_place_is_told_as_what_it_is_taken(place: str, text: str) -> None:
    assert text in [each.text for each in pile(f"place {place}").assumptions]
