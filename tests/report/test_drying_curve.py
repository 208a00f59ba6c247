"""The drawing of a drying curve tells the moisture content of each day."""

import datetime
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_forecasts import START, batch, checked, decay, forecast, reading

from stacklint.report.curve_glyphs import ASCII, BLOCKS, curve_glyphs_for
from stacklint.report.drying_curve import ROWS, Chart, Spot, Trace, drying_curve
from stacklint.report.forecast_chart import Forecasted, chart_of, compared_chart

MARGIN = 8
FIRST = START.toordinal()


def drawn(chart, width=80, glyphs=ASCII):
    """The cells of the rows, without the figures at the left, and these."""
    rows = drying_curve(chart, width, glyphs)[:ROWS]
    return [row[MARGIN:].ljust(width - MARGIN) for row in rows], [row[: MARGIN - 1].strip() for row in rows]


def column(day, chart, cells=72):
    return int((day - chart.first) / (chart.last - chart.first) * cells)


def halving(days=60.0):
    """From 80% to nothing, half of it gone every ``days * ln 2``."""
    curve = decay(days, 0.0, 0.01, green=0.8)
    return Chart(FIRST, FIRST + 240, (Trace(FIRST, curve.moisture),))


def test_the_curve_stands_at_half_its_height_after_one_half_life_and_at_a_quarter_after_two():
    # N = N0 exp(-t / T): half is left after T ln 2 (the definition of the half-life).
    chart = halving()
    rows, labels = drawn(chart)
    for label, lives in (("40%", 1), ("20%", 2)):
        at = column(FIRST + lives * 60 * math.log(2), chart)
        assert "*" in rows[labels.index(label)][at - 1 : at + 2]


def test_boards_only_dry_so_the_line_only_falls():
    rows, _ = drawn(halving())
    tops = [next(i for i, row in enumerate(rows) if row[c] == "*") for c in range(70)]
    assert tops == sorted(tops)
    assert tops[0] == 0


def test_the_line_has_no_holes_where_it_is_steep():
    chart = Chart(FIRST, FIRST + 100, (Trace(FIRST, (0.8, 0.1, *[0.1] * 99)),))
    rows, _ = drawn(chart)
    assert all("*" in row for row in rows[:-2])


def test_the_range_lies_on_both_sides_of_the_line():
    one = Forecasted("b2.stackplan", checked(forecast()), forecast())
    rows, _ = drawn(chart_of(one, START))
    stretches = ["".join(row[c] for row in rows) for c in range(8, 30)]
    assert all("." in stretch and "*" in stretch for stretch in stretches)
    assert any(".*" in stretch for stretch in stretches)
    assert any("*." in stretch for stretch in stretches)
    assert not any("* ." in stretch or ". *" in stretch for stretch in stretches)


def test_the_wanted_moisture_content_is_a_level_with_its_figure():
    one = Forecasted("b2.stackplan", checked(forecast()), forecast())
    rows, labels = drawn(chart_of(one, START))
    assert rows[labels.index("12%")].count("-") > 20


def test_a_reading_stands_at_its_day_and_moisture():
    taken = datetime.date(2026, 6, 1)
    one = Forecasted("b2.stackplan", checked(forecast(), readings=(reading(taken, 40.0),)), forecast())
    chart = chart_of(one, START)
    rows, labels = drawn(chart)
    assert rows[labels.index("40%")][column(taken.toordinal(), chart)] == "@"
    assert sum(row.count("@") for row in rows) == 1


def test_readings_before_the_start_widen_the_drawing_and_a_slip_of_years_does_not():
    before = reading(START - datetime.timedelta(days=20), 75.0)
    slip = reading(START.replace(year=1926), 75.0)
    one = Forecasted("b2.stackplan", checked(forecast(), readings=(before, slip)), forecast())
    chart = chart_of(one, START)
    assert chart.first == FIRST - 20
    assert len(chart.readings) == 1


def test_today_is_an_upright_and_none_after_the_end():
    one = Forecasted("b2.stackplan", checked(forecast()), forecast())
    chart = chart_of(one, datetime.date(2026, 5, 2))
    rows, _ = drawn(chart)
    assert sum(row[column(chart.today, chart)] == "'" for row in rows) > ROWS / 2
    assert chart_of(one, datetime.date(2036, 5, 2)).today is None


def test_of_several_batches_each_has_its_own_line_and_the_slowest_lies_on_top():
    made = forecast(*(batch(label, days, floor=0.1, wanted=0.12) for label, days in (("a", 20.0), ("b", 60.0))))
    chart = chart_of(Forecasted("b2.stackplan", checked(made), made), START)
    rows, _ = drawn(chart)
    assert chart.traces[0].likely == made.batches[1].spread.likely.moisture
    assert any("o" in row and row.index("o") < row.index("*") for row in rows if "*" in row)


def test_two_stacks_start_on_their_own_days():
    later = forecast(start=START + datetime.timedelta(days=60))
    pair = [Forecasted("a.stackplan", checked(each), each) for each in (forecast(), later)]
    chart = compared_chart(pair, START)
    rows, _ = drawn(chart)
    first_o = min(row.index("o") for row in rows if "o" in row)
    assert first_o == pytest.approx(column(FIRST + 60, chart), abs=1)


def test_boards_that_never_get_there_are_drawn_for_two_years():
    made = forecast(wanted=0.08)
    chart = chart_of(Forecasted("b2.stackplan", checked(made), made), START)
    assert chart.last - chart.first == 2 * 365


def test_a_slowest_curve_without_an_end_does_not_press_the_likely_one_into_a_corner():
    never = decay(400.0, 0.118, 0.12)
    assert never.reached is None
    each = batch(floor=0.1, wanted=0.12)
    made = forecast(each._replace(spread=each.spread._replace(slow=never)))
    chart = chart_of(Forecasted("b2.stackplan", checked(made), made), START)
    assert chart.last - chart.first == math.ceil(3 * each.spread.likely.reached)


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", None, "no such"])
def test_an_output_that_cannot_carry_blocks_gets_ascii(encoding):
    assert curve_glyphs_for(encoding) is ASCII
    assert "".join(drying_curve(halving(), 80, ASCII)).isascii()


def test_blocks_are_drawn_in_halves_of_a_cell():
    assert curve_glyphs_for("utf-8") is BLOCKS
    assert curve_glyphs_for("utf-8", plain_locale=True) is ASCII
    text = "".join(drying_curve(halving(), 80, BLOCKS))
    assert {"▀", "▄", "█"} <= set(text)


SHARES = st.floats(0.0, 2.8)
CURVES = st.lists(SHARES, min_size=1, max_size=40).map(tuple)
DAYS = st.integers(FIRST - 50, FIRST + 400)


@given(st.lists(CURVES, max_size=9), st.tuples(CURVES, CURVES), SHARES, DAYS, st.integers(20, 140))
def test_any_chart_keeps_to_its_width_and_height(curves, ends, moisture, day, width):
    traces = tuple(Trace(FIRST, curve, ends) for curve in curves)
    spot = Spot(day, moisture)
    chart = Chart(FIRST, FIRST + 300, traces, (moisture,), (spot,), (spot,), day)
    lines = drying_curve(chart, width, BLOCKS)
    assert len(lines) == ROWS + 2
    assert all(len(line) <= max(width, 20) for line in lines)
