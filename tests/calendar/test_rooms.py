"""How full a site is, month by month, against its spots, what it holds and its stock."""

from __future__ import annotations

from made_calendars import ASH, DATE, charge, pile, ready, seen

from stacklint.calendar.gathered import gathered
from stacklint.calendar.rooms import Room
from stacklint.checking import check
from stacklint.report.kept import kept

SITE = """\
site "Alder Flat"
  near "Columbus, OH"
  spots 2
"""


def asked(room: Room) -> dict[str, tuple[float, bool]]:
    return {each.month.name: (each.most, each.over) for each in room.months if each.most}


def test_the_most_stacks_that_stand_at_once_in_each_month_are_set_against_the_spots() -> None:
    text = "".join(pile(name, stacked, spot=None) for name, stacked in (
        ("A", "2026-06-10"), ("B", "2026-06-20"), ("C", "2026-07-05")))  # fmt: skip
    found = seen(
        text,
        ready("2026-06-10", "2026-07-20"),
        ready("2026-06-20", "2026-08-01"),
        ready("2026-07-05", "2026-09-02"),
        yard=SITE,
    )
    (room,) = found.rooms
    assert (room.site, room.there_is) == ("Alder Flat", "2 spots")
    assert asked(room) == {
        "June 2026": (2.0, False),
        "July 2026": (3.0, True),
        "August 2026": (1.0, False),
        "September 2026": (1.0, False),
    }
    assert [each.words for each in room.months[:3]] == ["2 stacks", "3 stacks", "1 stack"]


def test_a_stack_that_goes_makes_room_for_one_that_comes_on_the_same_day() -> None:
    text = pile("A", "2026-06-10", spot=None) + pile("B", "2026-07-10", spot=None)
    found = seen(text, ready("2026-06-10", "2026-07-10"), ready("2026-07-10", "2026-08-10"), yard=SITE)
    assert asked(found.rooms[0])["July 2026"] == (1.0, False)


def test_a_stack_that_no_day_is_known_of_stands_on_in_every_month() -> None:
    found = seen(pile(want="8%"), ready("2026-04-01", None, wanted=0.08), yard=SITE, months=3)
    assert asked(found.rooms[0]) == {"June 2026": (1.0, False), "July 2026": (1.0, False), "August 2026": (1.0, False)}


def test_wood_and_stickers_are_counted_where_the_plan_is_reckoned() -> None:
    text = f"""\
{SITE}  holds 400 bf
  stock 50 stickers of 4 ft

pile "A"
  place open yard, site "Alder Flat"
  stacked 2026-06-02
  {ASH}
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry, 4 ft long
  want 12%
"""
    found = gathered([kept(check(text, "a.stackplan", today=DATE(2026, 6, 1), alone=False))], DATE(2026, 6, 1), None, 1)
    said = {room.there_is: room.months[0].words for room in found.rooms}
    # 60 boards of 4 bf; 8 boards of 6 in side by side in 4 ft make 8 courses, each on five lines of stickers.
    assert said == {"2 spots": "1 stack", "400 bf": "240 bf of wood", "50 in stock": "40 stickers of 48 in"}


def test_charges_take_no_spot_of_a_site() -> None:
    text = charge().replace('  want', '  place closed shed, site "Alder Flat"\n  want')
    (room,) = seen(text, ready("2026-07-01", "2026-07-09"), yard=f'{SITE}kiln "Box"\n  type vented\n').rooms
    assert asked(room) == {}


def test_a_site_that_says_no_room_is_not_told_of() -> None:
    assert seen(pile(), ready("2026-04-01", "2026-09-01")).rooms == ()
