"""Two yards may each have a row 1 and a kiln called Box: they are told apart, and take no place from each other."""

from __future__ import annotations

from made_calendars import DATE, TODAY, charge, kept_plan, pile, ready

from stacklint.calendar.gathered import YardCalendar, gathered
from stacklint.calendar.places import Stretch
from stacklint.report.calendar_page import calendar_html
from stacklint.report.coop_page import coop_html
from stacklint.report.coop_plan import coop_plan
from stacklint.report.kept import Kept


def two_plans(other_text: str = "\n  spots 5") -> list[Kept]:
    """Two folders whose sites and kilns have one name; they say the same where ``other_text`` adds nothing."""

    def shared(more: str) -> str:
        return f'site "Alder Flat"\n  near "Columbus, OH"{more}\nkiln "Box"\n  type vented\n' + (
            "  fans 2 of 1800 cfm\n" if more else ""
        )

    dry = ready("2026-04-01", "2026-09-01"), ready("2026-07-01", "2026-07-09", wanted=0.08)
    return [
        kept_plan(pile() + charge(), *dry, path="hill/a.stackplan", yard=shared("")),
        kept_plan(pile() + charge(), *dry, path="river/b.stackplan", yard=shared(other_text)),
    ]


def two_yards(other_text: str = "\n  spots 5") -> YardCalendar:
    return gathered(two_plans(other_text), TODAY)


def test_sites_and_kilns_of_one_name_have_the_paths_of_their_texts_behind_it() -> None:
    assert [(place.spot.name, place.spot.within) for place in two_yards().places] == [
        ("row 1", "Alder Flat (hill/a.stackplan)"),
        ("row 1", "Alder Flat (river/b.stackplan)"),
        ("Box (hill/a.stackplan)", ""),
        ("Box (river/b.stackplan)", ""),
    ]


def test_stacks_in_two_kilns_of_one_name_do_not_clash() -> None:
    found = two_yards()
    assert all(place.clashes == () for place in found.places)
    assert all(entry.clash is None for entry in found.entries)
    for page in (calendar_html(found, ()), coop_html(map(coop_plan, two_plans()), (), TODAY)):
        assert "Box (hill/a.stackplan)" in page
        assert "together with" not in page


def test_blocks_that_say_the_same_are_one_and_keep_their_name() -> None:
    found = two_yards("")
    row, box = found.places
    assert (row.spot.name, row.spot.within, box.spot.name) == ("row 1", "Alder Flat", "Box")
    assert box.clashes == (Stretch(DATE(2026, 7, 1), DATE(2026, 7, 9)),)


def test_the_room_of_two_sites_of_one_name_is_told_of_each() -> None:
    def site(more: str) -> str:
        return f'site "Alder Flat"\n  near "Columbus, OH"\n  spots {more}\n'

    plans = [
        kept_plan(pile(), ready("2026-04-01", "2026-09-01"), path=path, yard=site(spots))
        for path, spots in (("river/b.stackplan", "5"), ("hill/a.stackplan", "3"))
    ]
    assert [(room.site, room.there_is) for room in gathered(plans, TODAY).rooms] == [
        ("Alder Flat (hill/a.stackplan)", "3 spots"),
        ("Alder Flat (river/b.stackplan)", "5 spots"),
    ]
    assert [room.site for room in gathered(plans[:1], TODAY).rooms] == ["Alder Flat"]
