"""How a charge dries in a kiln: what must hold for any charge, and what governs it."""

from __future__ import annotations

import datetime
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kiln_charges import DEHUMIDIFICATION, JUNE, SUMMER, VENTED, batch, days, dehumidifier, likely, solar

from stacklint.drying.batch import Batch, Curve
from stacklint.drying.climate import Air, Climate
from stacklint.drying.kiln_drying import KilnDrying, dry
from stacklint.drying.kiln_law import after, days_to
from stacklint.drying.kiln_run import KilnRun
from stacklint.plan.boards import Face
from stacklint.plan.yard import KilnType
from stacklint.tables import safe_rates, woods
from stacklint.tables.safe_rates import UNTIL
from stacklint.tables.wood import Trait
from stacklint.units import System, Unit

WOODS = st.sampled_from(woods.names())
BATCHES = st.builds(batch, WOODS, st.floats(0.5, 4), st.floats(0.05, 1.3), st.floats(10, 3000))
RUNS = st.one_of(
    st.sampled_from([VENTED, DEHUMIDIFICATION]),
    st.builds(dehumidifier, st.floats(5, 300), st.floats(90, 160), st.floats(4, 24)),
    st.builds(solar, st.floats(10, 200)),
)
WANTED = st.floats(0.06, 0.15)
DAMP = KilnRun(KilnType.DEHUMIDIFICATION, settings=(Air(Unit.FAHRENHEIT.to_si(110), 0.60),))
"""Air that holds wood at about 10%."""


def curves(found: KilnDrying) -> list[Curve]:
    return [curve for spread in found.spreads for curve in spread]


@given(st.lists(BATCHES, min_size=1, max_size=3), RUNS, WANTED)
def test_boards_never_dry_past_what_the_air_holds_them_at_nor_take_up_water(
    batches: list[Batch], run: KilnRun, wanted: float
) -> None:
    found = dry(batches, run, wanted, JUNE)
    for curve in curves(found):
        assert all(now <= before + 1e-12 for before, now in zip(curve.moisture, curve.moisture[1:], strict=False))
        assert min(curve.moisture) >= min(found.floor, curve.moisture[0]) - 1e-9


@given(st.lists(BATCHES, min_size=1, max_size=3), RUNS, WANTED)
def test_the_water_that_leaves_is_the_weight_that_the_boards_lose(
    batches: list[Batch], run: KilnRun, wanted: float
) -> None:
    found = dry(batches, run, wanted, JUNE)
    lost = sum(
        each.dry_mass * (spread.likely.moisture[0] - spread.likely.moisture[-1])
        for each, spread in zip(batches, found.spreads, strict=True)
    )
    assert sum(found.water) == pytest.approx(lost, rel=1e-9, abs=1e-9)
    assert len(found.water) == len(found.air) == len(found.spreads[0].likely.moisture) - 1


@given(st.lists(BATCHES, min_size=1, max_size=3), RUNS, WANTED)
def test_no_board_loses_more_in_a_day_than_is_safe(batches: list[Batch], run: KilnRun, wanted: float) -> None:
    found = dry(batches, run, wanted, JUNE)
    for each, spread in zip(batches, found.spreads, strict=True):
        safe = safe_rates.of(each.wood, each.thickness)
        for curve in spread if safe is not None else ():
            for before, now in zip(curve.moisture, curve.moisture[1:], strict=False):
                assert safe is not None
                assert before - now <= safe.per_day + 1e-9 or now < UNTIL


@given(WOODS, st.floats(0.5, 4), st.floats(0.5, 4), st.floats(0.2, 1.3), RUNS, WANTED)
def test_a_thicker_board_is_never_ready_sooner(
    name: str, one: float, other: float, moisture: float, run: KilnRun, wanted: float
) -> None:
    thin, thick = (
        dry([batch(name, inches, moisture)], run, wanted, JUNE).spreads[0].likely.reached
        for inches in sorted((one, other))
    )
    assert thick is None or (thin is not None and thin <= thick * 1.002 + 0.02)


@given(BATCHES, RUNS, WANTED)
def test_the_fast_pace_is_no_later_than_the_likely_one_nor_that_than_the_slow(
    each: Batch, run: KilnRun, wanted: float
) -> None:
    times = [curve.reached for curve in dry([each], run, wanted, JUNE).spreads[0]]
    known = [math.inf if time is None else time for time in times]
    assert known[0] <= known[1] + 0.02 and known[1] <= known[2] + 0.02


@given(BATCHES, RUNS, WANTED)
def test_a_curve_says_when_it_is_reached_as_it_runs(each: Batch, run: KilnRun, wanted: float) -> None:
    for curve in dry([each], run, wanted, JUNE).spreads[0]:
        assert curve.reached == curve.below(wanted)


@given(st.floats(0.02, 1.4), st.floats(0.02, 0.25), st.floats(0.01, 2), st.sampled_from([math.inf, 0.038, 0.01]))
def test_days_and_moisture_of_the_law_are_each_others_inverse(
    moisture: float, emc: float, rate: float, safe: float
) -> None:
    wanted = (moisture + 3 * emc) / 4
    time = days_to(moisture, wanted, emc, rate, safe)
    if moisture > emc + 1e-6:
        assert after(moisture, emc, rate, safe, time) == pytest.approx(wanted, abs=1e-9)
        half = after(moisture, emc, rate, safe, time / 2)
        assert after(half, emc, rate, safe, time / 2) == pytest.approx(wanted, abs=1e-9)
    else:
        assert time in (0.0, math.inf)


@given(BATCHES, RUNS)
def test_boards_that_are_dry_enough_need_no_day(each: Batch, run: KilnRun) -> None:
    found = dry([each], run, 1.35, JUNE)
    assert found.spreads[0].likely == Curve((each.moisture,), 0.0)
    assert found.water == ()


@given(BATCHES, BATCHES, WANTED)
def test_a_mixed_charge_is_ready_no_sooner_than_its_slowest_batch_alone(
    one: Batch, other: Batch, wanted: float
) -> None:
    found = dry([one, other], VENTED, wanted, JUNE)
    together = max(math.inf if spread.likely.reached is None else spread.likely.reached for spread in found.spreads)
    alone = max(math.inf if time is None else time for time in found.alone)
    assert together >= alone - 0.1


def test_green_red_oak_is_held_by_its_safe_daily_loss_at_first() -> None:
    found = dry([batch("northern red oak")], DEHUMIDIFICATION, 0.08, JUNE)
    first = "The safe daily loss of northern red oak 4/4 (3.8% a day) sets the pace for the first"
    assert found.governs[0].startswith(first)
    assert any(sentence.startswith("Schedule T4-D2 sets the pace for the last") for sentence in found.governs)
    moisture = found.spreads[0].likely.moisture
    assert moisture[0] - moisture[1] == pytest.approx(0.038)


def test_a_small_dehumidifier_governs_a_big_charge_of_poplar() -> None:
    found = dry([batch("yellow-poplar", board_feet=2000)], dehumidifier(60), 0.08, JUNE)
    said = "The dehumidifier's 60 pt/day on its label, about 90 in this air, sets the pace for the first"
    assert found.governs[0].startswith(said)
    assert found.taken is not None
    assert found.peak_wanted > found.taken
    day = found.taken * 86_400
    assert max(found.water) <= 1.5 * Unit.PINT_PER_DAY.to_si(60) * 86_400 + 1e-6
    assert found.water[0] == pytest.approx(day, rel=1e-6)


def test_half_the_machine_takes_longer() -> None:
    charge = batch("yellow-poplar", board_feet=2000)
    assert days(charge, dehumidifier(60)) > 1.4 * days(charge, dehumidifier(120))


def test_the_water_that_may_leave_on_the_first_day_is_the_safe_loss_of_all_boards() -> None:
    oak, walnut = batch("northern red oak", board_feet=300), batch("black walnut", board_feet=200)
    found = dry([oak, walnut], VENTED, 0.08, JUNE)
    assert found.peak_safe * 86_400 == pytest.approx(0.038 * oak.dry_mass + 0.082 * walnut.dry_mass)


def test_fans_for_half_the_day_take_twice_the_days() -> None:
    charge = batch("sugar maple", moisture=0.30)
    half, whole = (days(charge, KilnRun(KilnType.VENTED, hours=hours)) for hours in (12.0, 24.0))
    assert half == pytest.approx(2 * whole, rel=0.02)


def test_a_cooler_kiln_takes_longer() -> None:
    charge = batch("northern red oak")
    times = [days(charge, KilnRun(KilnType.VENTED, heats_to=Unit.FAHRENHEIT.to_si(heat))) for heat in (180, 140, 110)]
    assert times == sorted(times)


def test_quartersawn_boards_take_15_percent_longer() -> None:
    """Wengert, Drying oak lumber step 1, read at
    https://woodweb.com./knowledge_base/Drying_Oak_Lumber_Step_1_Assessing_the_Raw_Materia.html"""
    flat, quarter = (days(batch("white ash", face=face)) for face in (Face.FLAT, Face.QUARTER))
    assert quarter / flat == pytest.approx(1.15, abs=0.01)


def test_a_plans_own_schedule_is_run_instead_of_the_published_one() -> None:
    charge = batch("sugar maple")
    mild, hot = (days(charge, KilnRun(KilnType.VENTED, schedule=code)) for code in ("T3-C1", "T8-C3"))
    assert hot == pytest.approx(days(charge), rel=1e-9)
    assert mild > 1.2 * hot


def test_a_kiln_held_at_one_setting_dries_to_what_that_air_holds_and_no_further() -> None:
    found = dry([batch("black cherry")], DAMP, 0.07, JUNE)
    assert found.floor == pytest.approx(0.10, abs=0.01)
    assert found.spreads[0].likely.reached is None
    assert found.spreads[0].likely.moisture[-1] == pytest.approx(found.floor, abs=0.005)


def test_several_settings_follow_each_other_as_the_boards_dry() -> None:
    warm = Unit.FAHRENHEIT.to_si(110)
    steps = KilnRun(KilnType.DEHUMIDIFICATION, settings=(Air(warm, 0.85), Air(warm, 0.60), Air(warm, 0.30)))
    found = dry([batch("black cherry", moisture=0.50)], steps, 0.08, JUNE)
    used = list(dict.fromkeys(found.air))
    assert [air.humidity for air in used] == [0.85, 0.60, 0.30]
    assert any("3 settings follow each other in equal steps" in sentence for sentence in found.assumed)


def test_mixed_thicknesses_cost_the_thin_boards_time() -> None:
    """ "Do not mix from green" (Wengert, https://www.woodweb.com/knowledge_base/Drying_Mixed_Thicknesses_of_Lumber.html)."""
    found = dry([batch("northern red oak", 1), batch("northern red oak", 2)], VENTED, 0.08, JUNE)
    alone = found.alone[0]
    assert alone is not None
    assert likely(found, 0) > alone + 1
    assert likely(found, 1) > 2 * alone


def test_a_wood_without_a_schedule_is_said_to_take_the_mildest_of_its_kind() -> None:
    found = dry([batch("coast Douglas-fir")], VENTED, 0.10, JUNE)
    assert any("No schedule is known for coast Douglas-fir" in sentence for sentence in found.assumed)
    assert any("No safe daily loss is published for coast Douglas-fir" in sentence for sentence in found.assumed)


def test_what_is_not_said_of_a_kiln_is_said_to_be_assumed() -> None:
    found = dry([batch("black cherry")], KilnRun(None), None, JUNE)
    text = " ".join(found.assumed)
    assert "type is not said" in text
    assert "180 F" in text
    assert "reckoned to 8%" in text


def test_a_metric_plan_is_told_in_metric_units() -> None:
    run = KilnRun(KilnType.DEHUMIDIFICATION, removes=Unit.LITRE_PER_DAY.to_si(30), system=System.METRIC)
    text = " ".join(dry([batch("black cherry")], run, 0.08, JUNE).assumed)
    assert " F" not in text and "C" in text


def test_a_solar_kiln_in_january_is_slower_than_in_june() -> None:
    year = Climate(
        tuple(Air(float(t), 0.7) for t in (-5, -3, 3, 9, 15, 20, 23, 22, 17, 11, 4, -3)), "a made place", "made", False
    )
    charge = batch("yellow-poplar", board_feet=450)
    summer = dry([charge], solar(45, year), 0.08, JUNE)
    winter = dry([charge], solar(45, year), 0.08, datetime.date(2026, 1, 5))
    assert likely(winter) > 1.5 * likely(summer)
    assert any("sun on the collector sets the pace" in sentence for sentence in winter.governs)


def test_a_solar_kiln_without_its_outdoor_air_cannot_be_reckoned() -> None:
    with pytest.raises(ValueError, match="outdoors"):
        dry([batch("black cherry")], KilnRun(KilnType.SOLAR), 0.08, JUNE)


def test_a_solar_kiln_without_a_collector_takes_the_published_area_for_its_load() -> None:
    charge = batch("sugar maple", board_feet=450)
    unsaid = dry([charge], KilnRun(KilnType.SOLAR, outdoor=SUMMER), 0.08, JUNE)
    said = dry([charge], solar(45), 0.08, JUNE)
    assert likely(unsaid) == pytest.approx(likely(said))
    assert any("45 ft2" in sentence for sentence in unsaid.assumed)


def test_a_wood_of_the_plans_own_goes_by_the_wood_most_like_it() -> None:
    own = batch("sugar maple")
    strange = own._replace(wood=own.wood._replace(name="ironbark", traits=frozenset({Trait.CHECK})))
    assert days(strange) > 0


def test_a_charge_needs_boards() -> None:
    with pytest.raises(ValueError, match="boards"):
        dry([], VENTED, 0.08, JUNE)


def test_a_kiln_whose_fans_never_run_dries_nothing() -> None:
    found = dry([batch("black cherry")], KilnRun(KilnType.VENTED, hours=0.0), 0.08, JUNE)
    assert found.spreads[0].likely.reached is None
    assert sum(found.water) == 0
    assert found.governs == ("Its fans never run: nothing dries.",)


@pytest.mark.parametrize("run", [KilnRun(KilnType.VENTED, hours=0.0), DAMP, dehumidifier(60, 120, 0.0)])
def test_a_charge_that_stands_still_is_followed_as_long_at_every_pace(run: KilnRun) -> None:
    """So that nobody reads "not in 83 days" beside "not in 105 days", nor "not in 1 days"."""
    found = dry([batch("black cherry"), batch("black cherry", 2)], run, 0.07, JUNE)
    assert {len(curve.moisture) for curve in curves(found)} == {366}
    assert {curve.reached for curve in curves(found)} == {None}


def test_of_a_charge_that_the_air_holds_too_wet_it_is_said_at_what() -> None:
    found = dry([batch("black cherry", moisture=0.3)], DAMP, 0.07, JUNE)
    assert found.governs[-1] == f"Then nothing dries any more: the kiln's air holds the wood at {found.floor:.1%}."
    wet = dry([batch("black cherry", moisture=0.09)], DAMP, 0.07, JUNE)
    assert wet.governs == (f"Nothing dries: the kiln's air holds the wood at {found.floor:.1%}.",)


@given(st.lists(BATCHES, min_size=1, max_size=3), RUNS, WANTED)
def test_the_days_that_each_thing_sets_the_pace_on_add_up_to_the_days_of_the_run(
    batches: list[Batch], run: KilnRun, wanted: float
) -> None:
    found = dry(batches, run, wanted, JUNE)
    said = " ".join(found.governs)
    if not found.water or "throughout" in said or "othing dries" in said:
        return
    days = [int(count) for count in re.findall(r"set(?:s)? the pace (?:for the first|for the last|on) (\d+) day", said)]
    days += [1] * len(re.findall(r"the pace for the (?:first|last) day", said))
    assert sum(days) == len(found.water)


def test_two_batches_that_are_held_on_different_days_are_told_with_days_that_do_not_overlap() -> None:
    """Oak and ash may lose 3.8 and 5.5% a day at most (safe_drying_rates.csv): the oak is held longer."""
    found = dry([batch("northern red oak"), batch("white oak", 1, 0.5)], VENTED, 0.08, JUNE)
    both, one = found.governs[:2]
    assert both.startswith("The safe daily losses of northern red oak 4/4 (3.8% a day) and white oak 4/4 (2.5% a day)")
    assert both.count("set the pace for the first") == 1
    assert one.startswith("The safe daily loss of ")


def test_the_last_days_that_have_a_date_are_reckoned_like_others() -> None:
    found = dry([batch("black cherry")], solar(45), 0.08, datetime.date(9999, 12, 20))
    assert likely(found) > 20
