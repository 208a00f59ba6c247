"""What must hold of any forecast: what dries better is never later, who starts later is never done earlier."""

from __future__ import annotations

import datetime
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kiln_charges import DEHUMIDIFICATION, JUNE, VENTED, batch, dehumidifier, solar
from made_piles import years

from stacklint.drying.batch import Batch
from stacklint.drying.climate import Air, Climate
from stacklint.drying.equilibrium import equilibrium
from stacklint.drying.forecast import Forecast, Pace, curve
from stacklint.drying.kiln_drying import KilnDrying, dry
from stacklint.drying.kiln_run import KilnRun, running
from stacklint.drying.outlook import batches_of, outlook
from stacklint.language import read
from stacklint.plan.yard import KilnType
from stacklint.tables import woods

NEVER = math.inf
ROUNDING = 0.03
"""Days. Kiln air changes at the quarter of an hour nearest to the moisture that it changes at."""
WOODS = st.sampled_from(woods.names())
BATCHES = st.builds(batch, WOODS, st.floats(0.5, 4), st.floats(0.05, 1.3), st.floats(10, 3000))
WANTED = st.floats(0.06, 0.15)
KINDS = st.sampled_from([KilnType.VENTED, KilnType.DEHUMIDIFICATION])
SCHEDULED = st.one_of(
    st.sampled_from([VENTED, DEHUMIDIFICATION]),
    st.builds(dehumidifier, st.floats(5, 300), st.floats(90, 160), st.floats(4, 24)),
)
RUNS = st.one_of(SCHEDULED, st.builds(solar, st.floats(10, 200)))


def times(found: KilnDrying, index: int = 0) -> tuple[float, float, float]:
    """Days at the fast, the likely and the slow pace."""
    fast, likely, slow = (NEVER if each.reached is None else each.reached for each in found.spreads[index])
    return fast, likely, slow


def no_later(sooner: KilnDrying, later: KilnDrying, index: int = 0) -> bool:
    return all(one <= other + ROUNDING for one, other in zip(times(sooner, index), times(later, index), strict=True))


# A kiln's air


def set_to(kind: KilnType, temperature: float, humidity: float) -> KilnRun:
    return KilnRun(kind, settings=(Air(temperature, humidity),))


@given(BATCHES, KINDS, st.floats(25, 70), st.floats(0.2, 0.9), st.floats(0.01, 0.5), WANTED)
def test_drier_kiln_air_never_dries_slower(
    of: Batch, kind: KilnType, temperature: float, humidity: float, by: float, wanted: float
) -> None:
    damp, drier = (dry([of], set_to(kind, temperature, each), wanted, JUNE) for each in (humidity, humidity * (1 - by)))
    assert no_later(drier, damp)
    assert drier.floor < damp.floor or of.moisture <= wanted


@given(BATCHES, KINDS, st.floats(25, 60), st.floats(1, 20), st.floats(0.2, 0.9), WANTED)
def test_warmer_kiln_air_of_one_humidity_never_dries_slower(
    of: Batch, kind: KilnType, temperature: float, by: float, humidity: float, wanted: float
) -> None:
    cool, warm = (dry([of], set_to(kind, each, humidity), wanted, JUNE) for each in (temperature, temperature + by))
    assert no_later(warm, cool)


@given(BATCHES, st.floats(30, 60), st.floats(0, 10), st.floats(0.3, 0.9), st.floats(0, 0.3), st.floats(5, 300), WANTED)
def test_a_dehumidifier_keeps_up_no_worse_in_warmer_and_drier_air(
    of: Batch, temperature: float, warmer: float, humidity: float, drier: float, pints: float, wanted: float
) -> None:
    run = dehumidifier(pints)
    before, after = (
        dry([of], run._replace(heats_to=None, settings=(air,)), wanted, JUNE)
        for air in (Air(temperature, humidity), Air(temperature + warmer, humidity * (1 - drier)))
    )
    assert no_later(after, before)


@given(st.lists(BATCHES, min_size=1, max_size=3), st.floats(5, 300), st.floats(1, 5), st.floats(90, 160), WANTED)
def test_a_stronger_dehumidifier_never_makes_a_charge_later(
    batches: list[Batch], pints: float, by: float, heats_to: float, wanted: float
) -> None:
    weak, strong = (dry(batches, dehumidifier(each, heats_to), wanted, JUNE) for each in (pints, pints * by))
    for pace in range(3):
        last = [max(times(found, index)[pace] for index in range(len(batches))) for found in (strong, weak)]
        assert last[0] <= last[1] + ROUNDING


# Schedules


@given(st.lists(BATCHES, min_size=1, max_size=3), SCHEDULED, WANTED)
def test_a_schedule_never_dries_boards_past_what_its_driest_step_holds(
    batches: list[Batch], run: KilnRun, wanted: float
) -> None:
    stages = running(batches, run, wanted).months[0]
    driest = min(stage.condition.emc for stage in stages)
    found = dry(batches, run, wanted, JUNE)
    for each, spread in zip(batches, found.spreads, strict=True):
        for one in spread:
            assert min(one.moisture) >= min(driest, each.moisture) - 1e-9
    assert found.floor >= driest


@given(st.lists(BATCHES, min_size=1, max_size=3), SCHEDULED, WANTED)
def test_on_each_day_no_board_passes_what_the_driest_air_so_far_holds(
    batches: list[Batch], run: KilnRun, wanted: float
) -> None:
    """The air may change within a day to that of the next."""
    found = dry(batches, run, wanted, JUNE)
    held = [equilibrium(*air) for air in found.air]
    for each, spread in zip(batches, found.spreads, strict=True):
        driest = NEVER
        for day in range(len(held) - 1):
            driest = min(driest, held[day], held[day + 1])
            assert spread.likely.moisture[day + 1] >= min(driest, each.moisture) - 1e-9


# Mixed charges


@given(st.lists(BATCHES, min_size=2, max_size=3), SCHEDULED, WANTED)
def test_no_batch_is_ready_later_alone_than_in_a_mixed_charge(
    batches: list[Batch], run: KilnRun, wanted: float
) -> None:
    found = dry(batches, run, wanted, JUNE)
    for spread, alone in zip(found.spreads, found.alone, strict=True):
        together = spread.likely.reached
        assert together is None or (alone is not None and alone <= together + 0.1)


@given(st.lists(BATCHES, min_size=1, max_size=3), RUNS, WANTED)
def test_the_water_of_each_day_of_a_charge_is_what_its_boards_lose_on_it(
    batches: list[Batch], run: KilnRun, wanted: float
) -> None:
    found = dry(batches, run, wanted, JUNE)
    for day, left in enumerate(found.water):
        lost = sum(
            each.dry_mass * (spread.likely.moisture[day] - spread.likely.moisture[day + 1])
            for each, spread in zip(batches, found.spreads, strict=True)
        )
        assert left == pytest.approx(lost, rel=1e-9, abs=1e-9)


# Who starts later


@given(BATCHES, st.floats(10, 200), years(), st.integers(0, 364), st.integers(1, 60), WANTED)
def test_a_solar_charge_that_starts_later_is_never_done_earlier(
    of: Batch, area: float, air: Climate, first: int, by: int, wanted: float
) -> None:
    start = datetime.date(2026, 1, 1) + datetime.timedelta(days=first)
    early, late = (dry([of], solar(area, air), wanted, start + datetime.timedelta(days=day)) for day in (0, by))
    for one, other in zip(times(early), times(late), strict=True):
        assert one <= by + other + ROUNDING or one > 364 - by


ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, {}"
THICK = "boards b: 20 of white oak 8/4 x 6 in x 8 ft, {}"
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
KILNS = (
    "type vented\n  heats to 160 F",
    "type dehumidification\n  heats to 120 F\n  removes 30 pt/day",
    "type solar\n  collector 30 ft2",
)


def forecast(head: str, *said: str) -> Forecast:
    got = read(SITE + head + "".join(f"  {line}\n" for line in said), today=JUNE)
    assert not got.faults, got.faults
    (stack,) = got.plan.stacks
    known = {each.wood.text: woods.find(each.wood.text) for each in stack.boards}
    batches = batches_of(stack, {name: wood for name, wood in known.items() if wood is not None})
    kiln = got.plan.kilns[0] if got.plan.kilns else None
    found = outlook(stack, batches, got.plan.sites, kiln, JUNE)
    assert isinstance(found, Forecast), found
    return found


def ready(found: Forecast) -> list[datetime.date]:
    return [found.ready(pace) or datetime.date.max for pace in Pace]


@pytest.mark.parametrize("kiln", KILNS)
@pytest.mark.parametrize("said", [(), ("sterilize",), ("runs at 110 F 60%",)])
def test_a_charge_that_starts_later_is_never_ready_earlier(kiln: str, said: tuple[str, ...]) -> None:
    head = f'kiln "Box"\n  {kiln}\ncharge "1" in kiln "Box"\n'
    boards = ASH.format("green"), THICK.format("40%")
    days = [ready(forecast(head, *boards, f"starts 2026-05-{day:02}", "want 11%", *said)) for day in range(1, 31, 7)]
    for pace in zip(*days, strict=True):
        assert list(pace) == sorted(pace)
        assert pace[0] < datetime.date.max or said == ("runs at 110 F 60%",)


# A room's machine

PLACES = ("basement", "garage", "closed barn", "greenhouse", "attic", "heated shop", "garage, 60 F", "garage, 60 F 45%")

MOISTURES, PINTS, MONTHS = st.floats(0.13, 0.9), st.floats(0, 60), st.sampled_from([1, 5, 10])
seldom = settings(max_examples=20)
"""For forecasts of a text, which run to three years."""


def in_room(place: str, moisture: float, *said: str, month: int = 4) -> Forecast:
    boards = ASH.format(f"{100 * moisture:.4g}%"), THICK.format(f"{100 * moisture:.4g}%")
    return forecast('pile "A"\n', *boards, f"place {place}", f"stacked 2026-{month:02}-01", "want 12%", *said)


@seldom
@given(st.sampled_from(PLACES), MOISTURES, PINTS, st.floats(0.1, 40), MONTHS)
def test_a_machine_that_takes_out_more_never_dries_a_room_slower(
    place: str, moisture: float, pints: float, more: float, month: int
) -> None:
    weak, strong = (
        in_room(place, moisture, f"fan removes {each:.1f} pt/day", month=month) for each in (pints, pints + more)
    )
    assert all(one <= other for one, other in zip(ready(strong), ready(weak), strict=True))


@seldom
@given(st.sampled_from(PLACES), MOISTURES, PINTS, MONTHS)
def test_a_room_with_a_machine_never_dries_slower_than_without_one(
    place: str, moisture: float, pints: float, month: int
) -> None:
    bare, machine = (
        in_room(place, moisture, *said, month=month) for said in ((), (f"fan removes {pints:.1f} pt/day",))
    )
    for one, other in zip(machine.batches, bare.batches, strict=True):
        for pace in Pace:
            days = zip(curve(one.spread, pace).moisture, curve(other.spread, pace).moisture, strict=False)
            assert all(dried <= left + 1e-9 for dried, left in days)
    assert all(one <= other for one, other in zip(ready(machine), ready(bare), strict=True))


@seldom
@given(MOISTURES, PINTS)
def test_a_machine_beside_a_fan_never_dries_slower_than_the_fan_alone(moisture: float, pints: float) -> None:
    fan = "fan 2 of 1500 cfm"
    alone, both = (in_room("greenhouse", moisture, each) for each in (fan, f"{fan}, removes {pints:.1f} pt/day"))
    assert all(one <= other for one, other in zip(ready(both), ready(alone), strict=True))


def test_a_machine_holds_a_damp_basement_at_half_humidity_at_the_most() -> None:
    """Common practice, no source: household dehumidifiers are set to 45 to 55%."""
    bare, machine = in_room("basement", 0.3), in_room("basement", 0.3, "fan removes 30 pt/day")
    assert max(air.humidity for air in bare.air) > 0.5
    assert max(air.humidity for air in machine.air) == 0.5
    assert ready(bare) == [datetime.date.max] * 3 > ready(machine)
    said = in_room("basement, 60 F 70%", 0.3, "fan removes 30 pt/day")
    assert said.air[0].humidity == pytest.approx(0.7), "what a plan says of the air is not doubted"
