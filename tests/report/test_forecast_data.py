"""Forecasts as JSON keep to their published schema; as CSV they are safe to open in a spreadsheet."""

import csv
import datetime
import io
import json
import math
from importlib.resources import files

import jsonschema
import pytest
from made_forecasts import DRY_MASS, GREEN, START, batch, checked, decay, forecast, in_kiln, plan

from stacklint.drying.forecast import NoForecast, Pace
from stacklint.files import Trouble
from stacklint.report.forecast_csv import HEAD, forecast_csv, harmless
from stacklint.report.forecast_data import forecast_json

SCHEMA = json.loads(files("stacklint.report").joinpath("forecast.schema.json").read_text(encoding="utf-8"))


def output(*plans, troubles=()):
    text = forecast_json(plans, troubles)
    document = json.loads(text, parse_constant=pytest.fail)
    jsonschema.Draft202012Validator(SCHEMA).validate(document)
    return document


def only(made, **parts):
    (one,) = output(plan(checked(made, **parts)))["forecasts"]
    return one


def two_batches():
    pair = (batch(label, days, floor=0.1, wanted=0.12) for label, days in (("a", 20.0), ("b", 50.0)))
    return forecast(*pair)


def rows(*plans):
    return list(csv.DictReader(io.StringIO(forecast_csv(plans))))


def test_a_forecast_names_its_stack_its_way_and_its_days():
    one = only(forecast())
    assert (one["path"], one["stack"], one["kind"], one["way"]) == ("b2.stackplan", "B2", "pile", "open air")
    assert (one["start"], one["wanted"], one["wanted_by"]) == ("2026-04-02", 0.12, "2026-10-01")
    assert one["ready"] == {pace.value: forecast().ready(pace).isoformat() for pace in Pace}
    assert [key["moisture"] for key in one["key_dates"]] == [0.3, 0.2, 0.12]
    # 40 days times ln(0.7 / 0.2) are 50.1.
    assert one["key_dates"][0]["likely"] == "2026-05-23"


def test_the_days_of_a_batch_are_shares_and_follow_each_other():
    (each,) = only(forecast())["batches"]
    dates = [datetime.date.fromisoformat(day["date"]) for day in each["days"]]
    assert dates == [START + datetime.timedelta(days=index) for index in range(len(dates))]
    # After the time that its decay is told in, 1/e is left of what was above the floor.
    assert each["days"][40]["likely"] == pytest.approx(0.1 + 0.7 / math.e)
    assert each["days"][-1]["fast"] is None
    assert each["days"][-1]["slow"] <= 0.12


def test_the_water_of_all_days_is_what_the_boards_lose():
    one = only(two_batches())
    last = [each["days"] for each in one["batches"]]
    left = [next(day["likely"] for day in reversed(days) if day["likely"] is not None) for days in last]
    lost = sum(DRY_MASS * (GREEN - moisture) for moisture in left)
    assert sum(day["water_kg"] for day in one["water"]) == pytest.approx(lost)
    assert one["water"][0]["air_temperature_c"] == -5.0
    assert one["water"][0]["air_humidity"] == 0.7


def test_the_steps_of_a_kiln_are_seconds():
    (step,) = only(in_kiln())["steps_after"]
    assert (step["name"], step["at_least_s"], step["at_most_s"]) == ("conditioning", 43200.0, 86400.0)


def test_a_recalled_source_says_so():
    assert [source["memory"] for source in only(forecast())["sources"]] == [False, True]


def test_what_is_not_reached_is_null():
    assert only(forecast(wanted=0.08))["ready"] == {"fast": None, "likely": None, "slow": None}
    assert only(forecast(wanted=None))["wanted"] is None


@pytest.mark.parametrize("endless", [math.nan, math.inf, -math.inf])
def test_a_figure_that_json_cannot_hold_is_null(endless):
    made = forecast()
    one = only(made._replace(floor=endless, water=(endless, *made.water[1:])))
    assert one["floor_moisture"] is None
    assert one["water"][0]["water_kg"] is None


def test_a_stack_without_a_forecast_and_a_file_that_could_not_be_read_are_told_of():
    none = NoForecast("The plan does not say where the pile stands.", "Add a site block.")
    document = output(plan(checked(none)), troubles=[Trouble("gone.stackplan", "there is no such file or folder")])
    assert document["forecasts"] == []
    assert document["without"] == [
        {"path": "b2.stackplan", "stack": "B2", "missing": none.missing, "instead": none.instead}
    ]
    (unread,) = document["unread"]
    assert (unread["path"], unread["message"]) == ("gone.stackplan", "there is no such file or folder")
    assert (unread["line"], unread["column"]) == (None, None)


def test_the_csv_has_one_head_and_a_line_for_each_day_and_batch():
    text = forecast_csv([plan(checked(two_batches())), plan(checked(forecast()), path="c.stackplan")])
    assert text.splitlines()[0] == ",".join(HEAD)
    assert text.count("water_kg") == 1
    found = rows(plan(checked(two_batches())))
    # Up to the morning after the slowest has got there: 50 days x 1.4 x ln(0.7 / 0.02) = 248.9.
    assert [row["batch"] for row in found].count("b") == 250
    assert found[0] == {
        "path": "b2.stackplan",
        "stack": "B2",
        "batch": "a",
        "date": "2026-04-02",
        "fast": "0.800000",
        "likely": "0.800000",
        "slow": "0.800000",
        # 500 kg x 70% x (1 - e^(-1/20))
        "water_kg": "17.070",
        "air_temperature_C": "-5.0",
        "air_humidity": "0.700",
    }


def test_the_water_in_the_csv_is_that_of_each_batch_so_that_a_column_adds_up():
    made = two_batches()
    total = sum(float(row["water_kg"] or 0) for row in rows(plan(checked(made))))
    assert total == pytest.approx(sum(made.water), abs=0.2)


def test_after_the_end_of_a_curve_its_cell_is_empty():
    assert rows(plan(checked(forecast())))[-1]["likely"] == ""


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "\r=", "\n@", "＝", " ="])
def test_a_name_that_begins_as_a_formula_is_kept_from_being_one(start):
    # CWE-1236: "If a field starts with a formula character, prepend it with a ' (single apostrophe)".
    name = f'{start}cmd("x")'
    made = forecast(batch(name, floor=0.1, wanted=0.12))
    row = rows(plan(checked(made, name), path=name))[0]
    assert all(row[cell].startswith("'") for cell in ("path", "stack", "batch"))


def test_other_names_stand_in_the_csv_as_they_are():
    assert harmless('Ash, "wide"') == 'Ash, "wide"'
    assert rows(plan(checked(forecast(), 'Ash, "wide"')))[0]["stack"] == 'Ash, "wide"'


def test_a_line_break_in_a_name_does_not_break_the_line():
    assert len(forecast_csv([plan(checked(forecast(), "a\nb"))]).splitlines()) == 1 + len(
        rows(plan(checked(forecast())))
    )


def test_a_batch_that_never_gets_there_is_told_to_the_last_day_looked_at():
    never = decay(400.0, 0.118, 0.12)
    each = batch(floor=0.1, wanted=0.12)
    made = forecast(each._replace(spread=each.spread._replace(slow=never)))
    assert len(rows(plan(checked(made)))) == len(never.moisture)
