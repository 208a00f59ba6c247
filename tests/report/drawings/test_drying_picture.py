"""Drying curves on paper: the forecast, what is wanted by when, what was read, today."""

import datetime
import itertools
import math
import re

import made_forecasts as made
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.drying.forecast import NoForecast, Pace, Step
from stacklint.report.drawings import drying_curve
from stacklint.report.drawings.calendar import day_ticks
from stacklint.report.svg import as_text

DATE = datetime.date
TODAY = DATE(2026, 6, 10)


def drawn(forecast=None, today=TODAY, **parts):
    picture = drying_curve(made.checked(forecast or made.forecast(), **parts), today)
    assert picture is not None
    return picture


def of(picture, class_):
    return [each for each in picture.iter() if class_ in (each.get("class") or "").split()]


def points(path):
    values = [float(each) for each in re.findall(r"-?\d+(?:\.\d+)?", path.get("d"))]
    return list(zip(values[::2], values[1::2], strict=True))


def words(picture):
    return ["".join(each.itertext()) for each in picture.iter("text")]


class Scale:
    """Where days and moistures fall, read off the axes that the picture shows."""

    def __init__(self, picture):
        percents = []
        for each in picture.iter("text"):
            if each.get("text-anchor") == "end" and each.text.endswith("%"):
                percents.append((float(each.text[:-1]), float(each.get("y")) - 4.5))
        (self.low, y0), (high, y1) = percents[0], percents[-1]
        self.y0, self.a_percent = y0, (y1 - y0) / (high - self.low)
        # Months and years written at the ticks of the first days of months.
        axis = points(next(iter(of(picture, "axis"))))
        self.left, self.right = axis[0][0], axis[-1][0]

    def y(self, moisture):
        return self.y0 + (moisture * 100 - self.low) * self.a_percent


def test_the_likely_line_goes_through_the_moisture_contents_forecast():
    forecast = made.forecast()
    picture = drawn(forecast, due=None)
    scale = Scale(picture)
    line = points(of(picture, "likely")[0])
    moisture = forecast.slowest.spread.likely.moisture
    assert line[0][1] == pytest.approx(scale.y(moisture[0]), abs=0.5)
    assert line[-1][1] == pytest.approx(scale.y(moisture[-1]), abs=0.5)
    assert line[0][0] == pytest.approx(scale.left, abs=0.5)


def test_the_range_lies_between_the_fastest_and_the_slowest():
    picture = drawn()
    fast = points(next(each for each in of(picture, "range-edge") if each.get("data-pace") == "fast"))
    slow = points(next(each for each in of(picture, "range-edge") if each.get("data-pace") == "slow"))
    assert fast[-1][0] < slow[-1][0]
    assert fast[3][1] > slow[3][1]
    assert of(picture, "range")


def test_readings_are_dots_on_their_days():
    picture = drawn(readings=(made.reading(DATE(2026, 5, 2), 41), made.reading(DATE(2026, 6, 1), 28)))
    scale = Scale(picture)
    dots = [each for each in of(picture, "reading") if each.get("data-day")]
    assert [each.get("data-day") for each in dots] == ["2026-05-02", "2026-06-01"]
    assert [float(each.get("cy")) for each in dots] == pytest.approx([scale.y(0.41), scale.y(0.28)], abs=0.5)
    assert float(dots[0].get("cx")) < float(dots[1].get("cx"))
    assert "readings" in words(picture)


def test_today_is_an_upright_line_where_it_lies_within():
    assert of(drawn(), "today")
    assert not of(drawn(today=DATE(2031, 1, 1)), "today")


def test_what_is_wanted_is_a_dashed_line_at_its_moisture_content():
    picture = drawn()
    line = points(of(picture, "wanted")[0])
    assert [y for _, y in line] == pytest.approx([Scale(picture).y(0.12)] * 2, abs=0.5)
    assert "12%" in words(picture)


def test_key_dates_are_told_and_dotted_on_the_line():
    forecast = made.forecast()
    picture = drawn(forecast)
    told = " ".join(words(picture))
    for moisture in (0.30, 0.20):
        assert f"under {moisture:.0%} {forecast.below(moisture, Pace.LIKELY).isoformat()}" in told
    assert f"ready {forecast.ready(Pace.LIKELY).isoformat()}" in told
    assert len([each for each in of(picture, "key") if each.tag == "circle"]) == 3


def test_earliest_and_latest_day_are_a_bracket():
    forecast = made.forecast()
    bracket = next(each for each in of(drawn(forecast), "ready-range") if each.get("data-from"))
    assert bracket.get("data-from") == forecast.ready(Pace.FAST).isoformat()
    assert bracket.get("data-to") == forecast.ready(Pace.SLOW).isoformat()


def test_boards_that_never_get_there_have_no_bracket_and_no_word_of_one():
    picture = drawn(made.forecast(wanted=0.08, floor=0.1))
    assert not of(picture, "ready-range")
    assert not [each for each in words(picture) if each.startswith("ready")]


def test_months_are_told_along_the_bottom():
    told = words(drawn())
    assert any(re.fullmatch(r"(May|Jun) 2026", each) for each in told)


def two_batches():
    return made.forecast(made.batch("a", 40.0, floor=0.1, wanted=0.12), made.batch("b", 20.0, floor=0.1, wanted=0.12))


def test_boards_that_dry_otherwise_have_lines_of_their_own_told_in_the_legend():
    picture = drawn(two_batches())
    lines = [each for each in of(picture, "likely") if each.get("data-batch")]
    assert {each.get("data-batch") for each in lines} == {"a", "b"}
    assert {"a, likely", "b, likely", "a from fastest to slowest"} <= set(words(picture))


def test_the_line_of_quicker_boards_bears_signs_and_no_dashes_that_look_like_what_is_wanted():
    picture = drawn(two_batches())
    quicker = next(each for each in of(picture, "likely") if each.get("data-batch") == "b")
    assert "dash" not in (quicker.get("style") or "")
    signs = of(picture, "curve-sign")
    lowest = max(y for _, y in points(of(picture, "axis")[0]))
    in_field = [each for each in signs if points(each)[0][1] < lowest]
    assert len(in_field) >= 2
    assert len(signs) == len(in_field) + 1  # One is in the legend.
    corners = [points(each) for each in in_field]
    for shape in corners:
        x, y = (sum(values) / len(shape) for values in zip(*shape, strict=True))
        assert distance_to(points(quicker), x, y) < 1.5


def distance_to(line, x, y):
    """From a point to the nearest one of a line, looked for in small steps."""
    steps = [n / 20 for n in range(21)]
    return min(
        math.dist((x, y), (x0 + t * (x1 - x0), y0 + t * (y1 - y0)))
        for (x0, y0), (x1, y1) in itertools.pairwise(line)
        for t in steps
    )


def test_no_name_of_boards_stands_among_the_curves():
    picture = drawn(two_batches())
    low = max(y for _, y in points(of(picture, "axis")[0]))
    for each in picture.iter("text"):
        if each.text.startswith(("a", "b")):
            assert float(each.get("y")) > low


@given(st.floats(3, 60), st.floats(3, 60))
def test_dots_of_key_days_lie_on_the_line_of_the_slowest_boards(a, b):
    forecast = made.forecast(made.batch("a", a, floor=0.1, wanted=0.12), made.batch("b", b, floor=0.1, wanted=0.12))
    picture = drawn(forecast)
    slowest = next(points(each) for each in of(picture, "likely") if each.get("class") == "likely")
    dots = [(float(each.get("cx")), float(each.get("cy"))) for each in of(picture, "key")]
    assert dots
    assert all(distance_to(slowest, *dot) < 3 for dot in dots)


def test_the_line_goes_on_to_the_day_on_which_the_kiln_s_last_step_is_done():
    steps = (Step("equalising", 4 * 86_400.0, 6 * 86_400.0, "equalising"),)
    picture = drawn(made.forecast()._replace(after=steps))
    end = points(of(picture, "likely")[0])[-1]
    ready = max((float(each.get("cx")), float(each.get("cy"))) for each in of(picture, "key"))
    assert ready == pytest.approx(end, abs=0.5)


def test_two_readings_alike_of_one_day_are_two_dots():
    picture = drawn(readings=(made.reading(DATE(2026, 5, 2), 41), made.reading(DATE(2026, 5, 2), 41)))
    one, two = (float(each.get("cx")) for each in of(picture, "reading") if each.get("data-day"))
    assert abs(one - two) >= 10


def test_the_picture_describes_itself_in_words():
    picture = drawn()
    assert "B2" in picture.find("title").text
    assert made.forecast().ready(Pace.LIKELY).isoformat() in picture.find("desc").text


def test_without_a_forecast_there_is_no_curve():
    assert drying_curve(made.checked(NoForecast("No site.", "Name one.")), TODAY) is None
    assert drying_curve(made.checked(None), TODAY) is None


@given(st.floats(0.02, 0.3), st.floats(0.03, 0.35), st.integers(-2000, 4000))
def test_any_forecast_is_drawn_within_its_frame(floor, wanted, later):
    forecast = made.forecast(wanted=wanted, floor=floor)
    text = as_text(drawn(forecast, today=made.START + datetime.timedelta(days=later)))
    assert "nan" not in text
    assert "inf" not in text


@given(st.integers(1, DATE.max.toordinal()), st.integers(1, 5000), st.floats(0.01, 3))
def test_labels_of_days_do_not_run_together(first, span, room):
    last = min(first + span, DATE.max.toordinal())
    ticks = [tick for tick in day_ticks(first, last, lambda label: len(label) * room) if tick.label]
    assert ticks
    for before, after in itertools.pairwise(ticks):
        assert after.day - before.day >= len(before.label) * room


def test_every_month_of_a_year_has_its_tick_on_its_first_day():
    first, last = DATE(2026, 1, 1).toordinal(), DATE(2026, 12, 31).toordinal()
    days = [DATE.fromordinal(tick.day) for tick in day_ticks(first, last, lambda label: len(label) * 2)]
    assert days == [DATE(2026, month, 1) for month in range(1, 13)]


@given(st.floats(3, 60), st.integers(0, 800))
def test_key_dates_near_each_other_are_told_on_lines_of_their_own(days, later):
    forecast = made.forecast(made.batch("a", days, floor=0.1, wanted=0.12))
    picture = drawn(forecast, due=made.START + datetime.timedelta(days=later), today=TODAY)
    places = [(float(each.get("x")), float(each.get("y")), len(each.text) * 6) for each in of(picture, "key-word")]
    for x, y, wide in places:
        assert 10 < y < 60
        assert 0 <= x <= 700 - wide
    for (x, y, wide), (u, v, _) in itertools.pairwise(sorted(places)):
        assert y != v or x + wide <= u
