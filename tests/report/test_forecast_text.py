"""A forecast as a person reads it."""

import datetime

import pytest
from made_forecasts import DRY_MASS, GREEN, START, batch, checked, decay, forecast, in_kiln, plan, reading

from stacklint.drying.forecast import NoForecast, Pace
from stacklint.report.curve_glyphs import ASCII, BLOCKS
from stacklint.report.figures import figures
from stacklint.report.forecast_text import CAUTION, Look, forecast_text
from stacklint.report.forecast_words import ready_words
from stacklint.report.stack_figures import StackFigures
from stacklint.report.water import weight_and_measure
from stacklint.units import ONE_PINT_OF_WATER, ONE_POUND, System

TODAY = datetime.date(2026, 6, 1)


def lines(*plans, width=80, glyphs=BLOCKS):
    return list(forecast_text(plans, Look(width, glyphs, TODAY)))


def told(*plans, **look):
    return " ".join(" ".join(lines(*plans, **look)).split())


def one(made, **parts):
    return plan(checked(made, **parts))


def mixed(**changes):
    thin = batch("thin", 20.0, floor=0.05, wanted=0.08, alone=40.0)
    thick = batch("thick", 60.0, floor=0.05, wanted=0.08, alone=200.0)
    return in_kiln(**{"wanted": 0.08, "floor": 0.05} | changes)._replace(batches=(thin, thick))


def test_the_head_tells_the_stack_what_it_dries_by_from_when_and_what_is_wanted():
    text = told(one(forecast()))
    assert text.startswith("Pile B2, Ash for flooring (b2.stackplan, line 5)")
    assert "Dries in the air of Cold Hollow from 2026-04-02 on." in text
    assert "Wanted: 12% by 2026-10-01." in text


def test_the_days_that_matter_are_told_at_the_earliest_as_is_likely_and_at_the_latest():
    # 40 days times ln(0.7 / 0.2) are 50.1 from 80% to 30% over a floor of 10%: over on the 51st day.
    text = told(one(forecast()))
    assert (START + datetime.timedelta(days=51)).isoformat() == "2026-05-23"
    assert "earliest likely latest below 30% 2026-05-08 2026-05-23 2026-06-12" in text
    days = [forecast().ready(pace).isoformat() for pace in Pace]
    assert f"ready at 12% {' '.join(days)}" in text


def test_a_moisture_content_that_all_boards_are_below_at_the_start_is_not_told():
    dry = batch(floor=0.05, wanted=0.08)
    dry = dry._replace(spread=dry.spread.__class__(*(decay(20.0, 0.05, 0.08, green=0.25) for _ in range(3))))
    text = told(one(forecast(dry, wanted=0.08)))
    assert "below 30%" not in text
    assert "below 20%" in text


def test_a_day_that_is_not_reached_is_told_with_what_was_looked_at_and_never_as_none():
    text = told(one(forecast(wanted=0.08)))
    assert "ready at 8% not in 3 years not in 3 years not in 3 years" in text
    assert "8% is out of its reach" in text
    assert "None" not in text


def test_what_sets_the_time_what_would_shorten_it_and_the_floor_are_told():
    text = told(one(forecast()))
    assert "The thickest boards set the time." in text
    assert "Stacked in May: 2026-08-20, 23 days sooner." in text
    assert "The air holds wood at 10.0% at the driest." in text


def test_a_recalled_source_is_marked_and_a_read_one_is_not():
    text = told(one(forecast()))
    assert "A manual, chapter 7 (from memory)." in text
    assert "A handbook, chapter 4;" in text


def test_every_forecast_ends_with_the_caution():
    assert told(one(forecast())).endswith(CAUTION)
    assert told(one(forecast()), one(forecast())).endswith(CAUTION)


def test_a_pint_is_a_pound_the_world_around_but_for_four_hundredths():
    # A US pint of water, 0.473176 L (NIST SP 811 B.8), weighs 1.043 lb.
    assert pytest.approx(1.043, abs=0.001) == ONE_PINT_OF_WATER / ONE_POUND
    assert weight_and_measure(104.3 * ONE_POUND, System.INCH) == "104 lb (100 pints)"
    assert weight_and_measure(20.0, System.METRIC) == "20 kg (20 litres)"


def test_the_water_to_take_out_is_the_dry_mass_times_the_moisture_to_lose():
    # 500 kg of oven-dry wood from 80% to 12%: 340 kg.
    assert pytest.approx(340.0) == DRY_MASS * (GREEN - 0.12)
    text = told(plan(checked(forecast()), system=System.METRIC))
    assert "340 kg (340 litres) to take out in all." in text
    # The first day of an exponential decay is its wettest: 500 kg x 70% x (1 - e^(-1/40)).
    assert "Most on one day: 8.64 kg (8.6 litres), on 2026-04-02." in text


def test_a_kiln_s_steps_are_told_with_their_times_and_come_before_the_day_it_is_ready():
    text = told(one(in_kiln()))
    assert "kiln Conditioning: 12 h to 24 h, conditioned in damp air." in text
    assert "ready at 12%, kiln done" in text


def test_of_a_mixed_charge_each_batch_has_its_day_and_its_time_alone():
    text = told(one(mixed()))
    # 20 days times ln(0.75 / 0.03) are 64.4.
    assert "thin: white ash, 20 days; 80% at the start, dry 2026-06-06" in text
    assert "in a charge of its own 40 days." in text
    assert "in a charge of its own 200 days." in text


def test_one_batch_alone_is_not_listed():
    assert "at the start" not in told(one(forecast()))


def test_batches_that_dry_alike_are_told_as_one():
    alike = [batch(label, 20.0, floor=0.1, wanted=0.12) for label in ("a", "b", "c")]
    text = told(one(forecast(*alike)))
    assert "at the start" not in text
    assert "█ likely" in text
    text = told(one(forecast(*alike, batch("d", 50.0, floor=0.1, wanted=0.12))))
    assert "█ d likely" in text
    assert "● a, b and c likely" in text
    assert "a, b and c: white ash, 20 days; 80% at the start" in text


def test_where_nothing_is_wanted_the_day_is_told_and_that_nothing_is_wanted():
    each = batch(floor=0.1, wanted=0.15)
    made = forecast(each, wanted=None)
    text = told(one(made, due=None))
    assert "Wanted" not in text
    assert f"ready {made.ready(Pace.FAST)}" in text
    assert ready_words(made, None).endswith("; no moisture content is wanted")


def test_days_past_the_last_that_has_a_date_are_no_stumbling_block():
    made = forecast(start=datetime.date(9999, 12, 20))
    assert "from 9999-12-20 on" in told(one(made, due=None))
    assert "None" not in told(one(made, due=None))
    assert ready_words(made, None).startswith("not at 12% in ")


def test_readings_that_the_curves_start_again_from_are_told():
    taken = datetime.date(2026, 5, 10)
    text = told(one(forecast(restarted=taken), readings=(reading(taken, 38.0),)))
    assert "the reading of 2026-05-10" in text
    assert "◉ reading" in text


def test_every_sign_in_the_drawing_is_explained():
    text = told(one(forecast()))
    for sign in (
        "█ likely",
        "░ from the fastest to the slowest",
        "┄ wanted, 12%",
        "╳ wanted by",
        "┊ today, 2026-06-01",
    ):
        assert sign in text


def test_two_stacks_are_drawn_together_with_their_own_signs_and_stand_side_by_side():
    later = forecast(start=START + datetime.timedelta(days=30))
    shown = lines(plan(checked(forecast()), path="early.stackplan"), plan(checked(later), path="late.stackplan"))
    text = "\n".join(shown)
    assert text.count("└") == 1
    assert "█ Pile B2 (early.stackplan)" in text
    assert "● Pile B2 (late.stackplan)" in text
    starts = next(line for line in shown if line.strip().startswith("starts"))
    assert starts.split() == ["starts", "2026-04-02", "2026-05-02"]


def test_two_stacks_of_one_name_in_files_of_one_name_are_told_apart_by_their_whole_paths():
    far = "a/rather/long/way/down/the/yard/b2.stackplan"
    shown = lines(plan(checked(forecast()), path="b2.stackplan"), plan(checked(forecast()), path=far))
    assert f"● Pile B2 ({far})" in "\n".join(shown)
    starts = next(line for line in shown if line.strip().startswith("starts"))
    assert starts.split() == ["starts", "2026-04-02", "2026-04-02"]


def test_of_two_stacks_only_readings_of_the_batches_that_are_drawn_are_shown():
    taken = datetime.date(2026, 5, 10)
    made = forecast(*(batch(label, days, floor=0.1, wanted=0.12) for label, days in (("a", 20.0), ("b", 50.0))))
    for label, shown in (("a", False), ("b", True), (None, True)):
        readings = (reading(taken, 30.0, of=label),)
        pair = (plan(checked(made, "B1", readings=readings)), one(forecast()))
        assert ("◉ reading" in told(*pair)) is shown


def test_of_three_stacks_each_is_drawn_and_a_table_tells_which_is_ready_when():
    shown = lines(plan(*(checked(forecast(), name) for name in ("B1", "B2", "B3"))))
    assert sum("└" in line for line in shown) == 3
    table = shown[next(i for i, line in enumerate(shown) if line.strip() == "ready") :]
    assert [line.split()[1] for line in table if line.startswith("Pile")] == ["B1", "B2", "B3"]


def test_a_stack_without_a_forecast_is_told_why_and_what_to_say():
    none = NoForecast("The plan does not say where the pile stands.", "Add a site block.")
    text = told(plan(checked(none), checked(forecast(), "B3")))
    assert "The plan does not say where the pile stands. Add a site block." in text
    assert "Pile B3" in text


def test_a_stack_with_faults_is_told_to_be_mended_first():
    assert "what is wrong in its text comes first." in told(one(None))


def test_a_plan_that_wants_nothing_is_told_how_to_want(yard):
    stack = checked(None)._replace(facts=yard.facts())
    assert "Add a line such as: want 8% for furniture." in told(plan(stack))


def test_a_text_without_stacks_is_told_so():
    assert told(plan()) == "There is no pile and no charge here: there is nothing to forecast."


@pytest.mark.parametrize("width", [10, 40, 53, 80, 119, 120, 300])
def test_no_line_is_wider_than_the_screen_and_no_date_is_parted(width):
    plans = [one(forecast()), plan(checked(mixed(), "C1"), path="c.stackplan")]
    for shown in (lines(*plans, width=width), lines(plans[0], width=width), lines(plans[1], width=width)):
        assert max(map(len, shown)) <= max(40, min(width, 120))
        assert not any(line.rstrip().endswith("-") for line in shown)
        assert "2026-04-02" in "\n".join(shown)


def test_a_narrow_screen_has_the_days_in_a_paragraph():
    assert "below 30%: earliest 2026-05-08; likely 2026-05-23; latest 2026-06-12" in told(one(forecast()), width=40)


def test_ascii_says_the_same_in_ascii():
    assert told(one(forecast()), one(mixed()), glyphs=ASCII).isascii()
    assert told(one(mixed()), glyphs=ASCII).isascii()


@pytest.mark.parametrize("name", ["\x1b[31mred", "\u202ekcab", "two\nlines", "[bold]x[/]"])
def test_what_a_plan_says_is_never_a_control(name):
    made = forecast(air_words=name, governs=(name,), assumed=(name,))
    for shown in (lines(plan(checked(made, name), path=name)), lines(*[plan(checked(made, name), path=name)] * 2)):
        assert all(line.isprintable() for line in shown)


def test_the_check_tells_in_one_line_when_boards_are_ready():
    fast, likely, slow = (forecast().ready(pace).isoformat() for pace in Pace)
    due = datetime.date(2026, 10, 1)
    assert ready_words(forecast(), due) == f"{likely}, between {fast} and {slow}; wanted by 2026-10-01"
    assert ready_words(forecast(), None) == f"{likely}, between {fast} and {slow}"


def test_the_check_tells_when_the_slowest_or_none_gets_there():
    each = batch(floor=0.1, wanted=0.12)
    slow = each._replace(spread=each.spread._replace(slow=decay(400.0, 0.118, 0.12)))
    assert ready_words(forecast(slow), None).endswith(", at the slowest not in 3 years")
    assert ready_words(forecast(wanted=0.08), None) == (
        "not at 8% in 3 years, where the air holds wood at 10.0% at the driest"
    )


def test_the_figures_of_a_check_have_the_day_last_and_its_facts_in_iso_dates(yard):
    stack = checked(in_kiln())._replace(facts=yard.facts())
    assert figures(stack)[-1].label == "ready"
    assert [figure.label for figure in figures(stack._replace(forecast=None))][-1] == "loads"
    facts = StackFigures.of(stack.facts, stack.forecast).model_dump(mode="json")
    # 12 to 24 h of conditioning come after the drying: half a day at the fastest, a whole one at the slowest.
    dry = in_kiln()._replace(after=())
    assert facts["ready_slow"] == (dry.ready(Pace.SLOW) + datetime.timedelta(days=1)).isoformat()
    assert facts["floor_moisture"] == pytest.approx(0.1)
    assert StackFigures.of(stack.facts).ready_likely is None
