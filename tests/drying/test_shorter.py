"""What would bring the day forward: each way is worth what its own forecast says."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checking import check
from stacklint.drying.forecast import Forecast, Pace, Shorter

DATE = datetime.date
TODAY = DATE(2026, 3, 1)
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"
OAK = "boards b: 20 of white oak 8/4 x 6 in x 8 ft, green"
INTO_KILN = "put into a kiln"


def pile(*said: str, boards: tuple[str, ...] = (ASH,), stacked: str = "2026-04-20", today: DATE = TODAY) -> Forecast:
    return _forecast(f'{SITE}pile "Row 3"\n', (*boards, f"stacked {stacked}", *said), today)


def charge(*said: str, boards: tuple[str, ...] = (ASH,), pints: float = 10) -> Forecast:
    kiln = f'kiln "Box"\n  type dehumidification\n  heats to 120 F\n  removes {pints:g} pt/day\n'
    return _forecast(f'{kiln}charge "1" in kiln "Box"\n', (*boards, "starts 2026-04-20", *said), TODAY)


def _forecast(head: str, said: tuple[str, ...], today: DATE) -> Forecast:
    text = head + "".join(f"  {line}\n" for line in said)
    found = check(text, today=today, look_for_shorter=True).stacks[0].forecast
    assert isinstance(found, Forecast), found
    return found


def way(found: Forecast, words: str) -> Shorter:
    (one,) = (each for each in found.shorter if each.words.startswith(words))
    return one


def likely(found: Forecast) -> DATE:
    ready = found.ready(Pace.LIKELY)
    assert ready is not None
    return ready


def test_a_pile_stacked_a_month_sooner_is_ready_when_one_stacked_on_that_day_is() -> None:
    found = pile("want 14%")
    sooner = way(found, "stacked on 2026-03-21")
    assert sooner.ready == likely(pile("want 14%", stacked="2026-03-21"))
    assert sooner.days == (likely(found) - sooner.ready).days > 0


def test_a_pile_cannot_be_stacked_before_today() -> None:
    found = pile("want 14%", today=DATE(2026, 3, 22))
    assert not any(each.words.startswith("stacked") for each in found.shorter)
    assert way(pile("want 14%", today=DATE(2026, 3, 21)), "stacked on 2026-03-21")


def test_a_point_more_moisture_is_there_as_soon_as_the_curve_passes_it() -> None:
    found = pile("want 14%")
    wetter = way(found, "at 15% instead of 14%")
    assert wetter.ready == likely(pile("want 15%")) == found.below(0.15, Pace.LIKELY)
    assert wetter.days == (likely(found) - wetter.ready).days


def test_a_pile_finished_in_a_kiln_waits_for_20_percent_and_then_takes_the_published_days() -> None:
    """White ash takes 4 to 7 days from 20 to 6% in a kiln (kiln_drying_times.csv, memory): three sevenths of that to
    14%, six sevenths to 8%."""
    found = pile("want 14%")
    at_20 = found.below(0.20, Pace.LIKELY)
    assert at_20 is not None
    finished = way(found, f"{INTO_KILN} at 20%, by published kiln times")
    assert 4 * 3 / 7 <= (finished.ready - at_20).days <= 7 * 3 / 7
    to_8 = way(pile("want 8%"), INTO_KILN)
    assert 4 * 6 / 7 <= (to_8.ready - at_20).days <= 7 * 6 / 7


def test_what_the_yard_never_dries_so_far_is_there_by_a_kiln_without_days_to_compare() -> None:
    found = pile("want 8%")
    assert found.ready(Pace.LIKELY) is None
    assert way(found, INTO_KILN).days is None


def test_boards_that_are_at_20_percent_already_go_into_a_kiln_at_once() -> None:
    dry = pile("want 12%", boards=(ASH.replace("green", "18%"),))
    assert way(dry, f"{INTO_KILN} at once").ready > DATE(2026, 4, 20)


def test_for_boards_wanted_wetter_than_a_kiln_takes_them_no_kiln_is_offered() -> None:
    assert not any(each.words.startswith(INTO_KILN) for each in pile("want 25%").shorter)


def test_without_its_slowest_boards_the_rest_of_a_stack_are_ready_as_if_alone() -> None:
    rest = way(pile("want 14%", boards=(ASH, OAK)), "without the white oak 8/4 x 6 in x 8 ft the rest are ready")
    assert rest.ready == likely(pile("want 14%"))
    in_kiln = way(charge("want 8%", boards=(ASH, OAK), pints=400), "without the white oak")
    assert in_kiln.ready == likely(charge("want 8%", pints=400))
    assert in_kiln.days is not None and in_kiln.days > 60


def test_a_machine_twice_as_strong_is_offered_to_a_charge_that_waits_for_its_machine() -> None:
    found = charge("want 8%")
    twice = way(found, "with a machine twice as strong")
    assert twice.ready == likely(charge("want 8%", pints=20)) < likely(found)


def test_a_stronger_machine_that_would_save_no_days_is_not_offered() -> None:
    assert not any("machine" in each.words for each in charge("want 8%", pints=400).shorter)


@pytest.mark.parametrize("boards", [(ASH,), (ASH, OAK)])
def test_the_way_that_saves_most_comes_first_and_none_saves_less_than_two_days(boards: tuple[str, ...]) -> None:
    for found in (pile("want 14%", boards=boards), charge("want 8%", boards=boards)):
        saved = [each.days for each in found.shorter if each.days is not None]
        assert len(saved) == len(found.shorter) >= 2
        assert saved == sorted(saved, reverse=True)
        assert saved[-1] >= 2


def test_a_pile_of_which_nothing_is_wanted_has_no_day_to_bring_forward() -> None:
    assert pile().shorter == ()


def test_what_the_kilns_air_never_dries_so_far_is_not_brought_forward_by_a_stronger_machine() -> None:
    assert charge("want 7%", "runs at 110 F 60%").shorter == ()
