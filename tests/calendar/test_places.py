"""How spots and kilns are used month by month, and when they are free."""

from __future__ import annotations

import datetime

from hypothesis import given
from hypothesis import strategies as st
from made_calendars import DATE, TODAY, charge, pile, ready, seen

from stacklint.calendar.gathered import YardCalendar
from stacklint.calendar.places import Place, Stretch
from stacklint.yard.stay import SpotKind


def only(calendar: YardCalendar) -> Place:
    (place,) = calendar.places
    return place


def days(place: Place) -> dict[str, tuple[int, int]]:
    return {each.month.name: (each.taken, each.asked) for each in place.months if each.asked}


def test_a_kiln_is_taken_on_the_days_of_its_charge_and_free_before_and_after() -> None:
    box = only(seen(charge(starts="2026-06-21"), ready("2026-06-21", "2026-07-11"), months=3))
    assert (box.spot.kind, box.spot.name) == (SpotKind.KILN, "Box")
    assert days(box) == {"June 2026": (10, 10), "July 2026": (10, 10)}
    assert box.free == (Stretch(TODAY, DATE(2026, 6, 21)), Stretch(DATE(2026, 7, 11), None))
    assert box.clashes == ()


def test_days_that_two_charges_ask_for_are_taken_once_and_asked_for_twice() -> None:
    text = charge("One", "2026-06-11") + charge("Two", "2026-06-16")
    box = only(seen(text, ready("2026-06-11", "2026-06-21"), ready("2026-06-16", "2026-06-26")))
    assert days(box) == {"June 2026": (15, 20)}
    assert box.clashes == (Stretch(DATE(2026, 6, 16), DATE(2026, 6, 21)),)


def test_a_month_that_is_asked_for_more_days_than_it_has_says_so() -> None:
    text = charge("One", "2026-07-01") + charge("Two", "2026-07-10")
    box = only(seen(text, ready("2026-07-01", "2026-07-31"), ready("2026-07-10", "2026-07-31")))
    assert [(each.month.name, each.asked, each.over) for each in box.months if each.asked] == [("July 2026", 51, True)]


def test_a_spot_whose_pile_has_no_day_to_go_is_not_free_again() -> None:
    row = only(seen(pile(want="8%", stacked="2026-07-01"), ready("2026-07-01", None, wanted=0.08), first=TODAY))
    assert row.free == (Stretch(TODAY, DATE(2026, 7, 1)),)


def test_a_pile_gives_its_spot_free_when_a_charge_takes_its_boards() -> None:
    text = pile() + charge(of="Ash")
    found = seen(text, ready("2026-04-01", "2026-09-21"), ready("2026-07-01", "2026-07-12", wanted=0.08))
    row = next(place for place in found.places if place.spot.kind is SpotKind.SPOT)
    assert row.free == (Stretch(DATE(2026, 7, 1), None),)


def test_no_day_before_today_is_told_to_be_free() -> None:
    row = only(seen(pile(), ready("2026-04-01", "2026-05-01"), first=DATE(2026, 3, 1)))
    assert row.free == (Stretch(TODAY, None),)


def test_a_stack_whose_day_is_not_said_takes_no_days() -> None:
    row = only(seen(pile(stacked=None), ready("2026-06-01", "2026-09-01")))
    assert days(row) == {}
    assert row.stacks == (0,)


def test_piles_without_a_spot_stand_together_and_take_no_ones_place() -> None:
    text = pile("Ash", spot=None) + pile("Oak", spot=None)
    yard = only(seen(text, ready("2026-04-01", "2026-09-01"), ready("2026-04-01", "2026-09-01")))
    assert (yard.spot.kind, yard.holds_one, yard.months, yard.clashes) == (SpotKind.YARD, False, (), ())
    assert len(yard.stacks) == 2


STAYS = st.lists(st.tuples(st.integers(-60, 500), st.integers(1, 200)), min_size=1, max_size=6)


@given(stays=STAYS)
def test_every_day_of_the_months_is_taken_or_free_and_those_of_two_are_clashes(stays: list[tuple[int, int]]) -> None:
    spans = [(TODAY + datetime.timedelta(start), TODAY + datetime.timedelta(start + length)) for start, length in stays]
    text = "".join(charge(str(number), start.isoformat()) for number, (start, _) in enumerate(spans))
    box = only(seen(text, *(ready(start.isoformat(), end.isoformat()) for start, end in spans), first=TODAY))

    def there(day: DATE) -> int:
        return sum(start <= day < end for start, end in spans)

    def within(day: DATE, stretches: tuple[Stretch, ...]) -> bool:
        return any(each.start <= day and (each.end is None or day < each.end) for each in stretches)

    for month in box.months:
        shown = [month.month.first + datetime.timedelta(day) for day in range(month.length)]
        assert month.taken == sum(there(day) > 0 for day in shown)
        assert month.asked == sum(map(there, shown))
        for day in shown:
            assert within(day, box.free) == (there(day) == 0)
            assert within(day, box.clashes) == (there(day) > 1)
