"""Whatever figures a plan holds, each report tells sane numbers: finite, and without exponent where people read."""

from __future__ import annotations

import csv
import datetime
import io
import json
import math
import re
from collections.abc import Iterator
from typing import Any

import pytest
from hostile_yard import TODAY, told
from hypothesis import given, settings
from random_plans import plans
from random_words import TODAY as READ_ON

from stacklint.checking import check
from stacklint.drying.forecast import Forecast, Pace
from stacklint.language import write
from stacklint.plan.yard import Plan
from stacklint.report.forecast_csv import forecast_csv
from stacklint.report.sheet_page import sheet_html

FORMS_FOR_PEOPLE = (
    ["check", "p.stackplan", "--as", "lines", *TODAY],
    ["check", "p.stackplan", "--as", "screen", *TODAY],
    ["check", "p.stackplan", "--as", "html", *TODAY],
    ["sheet", "p.stackplan", *TODAY],
    ["tally", "p.stackplan"],
    ["forecast", "p.stackplan", *TODAY],
    ["arrange", "p.stackplan"],
)
FORMS_FOR_PROGRAMS = (
    ["check", "p.stackplan", "--as", "json", *TODAY],
    ["check", "p.stackplan", "--as", "sarif", *TODAY],
    ["tally", "p.stackplan", "--as", "json"],
    ["forecast", "p.stackplan", "--as", "json", *TODAY],
)
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
BOARDS = "60 of white ash 4/4 x 6 in x 8 ft, green"


def pile(boards: str = BOARDS, *, size: str = "16 ft x 4 ft", place: str = "open yard", more: str = "") -> str:
    lines = (f"place {place}", f"boards a: {boards}", f"stack {size}", "want 12%", more)
    usual = "" if "stickers" in more else "\n  stickers 3/4 in x 1 1/4 in, every 24 in"
    return 'pile "P"\n  ' + "\n  ".join(lines) + usual + "\n"


def site(temperature: str, humidity: str) -> str:
    return 'site "S"\n' + "".join(f"  month {month} {temperature} {humidity}\n" for month in MONTHS)


def charge(kiln: str, run: str = "", boards: str = "60 of white ash 4/4 x 6 in x 8 ft, 250%") -> str:
    return (
        f'kiln "K"\n  {kiln}\ncharge "C" in kiln "K"\n  starts 2026-06-01\n  boards a: {boards}\n'
        f"  stack 16 ft x 4 ft\n  stickers 3/4 in x 1 1/4 in, every 24 in\n  want 6%\n  {run}\n"
    )


EXTREMES = {
    "boards of 1 mm": pile("60 of white ash 1 mm x 1 mm x 1 mm, green"),
    "boards of 2 mm": pile("60 of white ash 2 mm x 10 mm x 100 mm, green", size="0.2 m x 0.1 m"),
    "a stack of 30 m": pile("60 of white ash 4/4 x 6 in x 25 m, green", size="30 m x 4 m"),
    "a stack of 1 km": pile("60 of white ash 4/4 x 6 in x 1000 m, green", size="1000 m x 4 m"),
    "wood wetter than water": pile("60 of white ash 4/4 x 6 in x 8 ft, 250%"),
    "wood without water": pile("60 of white ash 4/4 x 6 in x 8 ft, 0%"),
    "wood almost without water": pile("60 of white ash 4/4 x 6 in x 8 ft, 0.000001%"),
    "one board": pile("1 of white ash 4/4 x 6 in x 8 ft, green"),
    "ten thousand boards": pile("10,000 of white ash 4/4 x 6 in x 8 ft, green"),
    "boards without number": pile("1" + "0" * 60 + " of white ash 4/4 x 6 in x 8 ft, green"),
    "lumber without number": pile("1" + "0" * 60 + " bf of white ash 4/4 x 6 in x 8 ft, green"),
    "a fraction over nothing": pile("60 of white ash 3/0 in x 6 in x 8 ft, green"),
    "a drop of lumber": pile("0.005 bf of white ash 4/4 x 6 in x 8 ft, green"),
    "boards of any size": pile("6 of white ash 2 mm x 10 mm to 2 m x 100 mm to 25 m, green", size="25 m x 4 m"),
    "the year 1900": pile(more="stacked 1900-01-01"),
    "the year 2200": pile(more="stacked 2200-12-31"),
    "the year 9999": pile(more="stacked 9999-12-31"),
    "polar cold": site("-40 C", "1%") + pile(place='open yard, site "S"'),
    "desert heat": site("60 C", "1%") + pile(place='open yard, site "S"'),
    "a steam bath": site("60 C", "100%") + pile(place='open yard, site "S"'),
    "stickers like hair": pile(more="stickers 2 mm x 5 mm, every 20 mm"),
    "stickers like beams": pile(more="stickers 150 mm x 300 mm, every 25 m"),
    "bearers like matches": pile(more="bearers 10 mm x 10 mm of white oak, every 20 mm\n  ground gravel, bears 0 psf"),
    "a mountain on top": pile(more="top load 2000000 lb\n  cover sheet metal, overhang 5 m, gap 5 m, slope 100%"),
    "a storm of fans": pile(place="closed room", more="fan 100 of 400000 cfm"),
    "a breath of fans": pile(place="closed room", more="fan 1 of 0.000001 cfm"),
    "the lightest wood": 'wood "w"\n  hardwood\n  specific gravity 0.1\n' + pile("60 of w 4/4 x 6 in x 8 ft, green"),
    "the heaviest wood": (
        'wood "w"\n  hardwood\n  specific gravity 1.3\n  green moisture 280%\n  stiffness 2 psi green\n'
        "  shrinks 100% volumetric\n" + pile("60 of w 4/4 x 6 in x 8 ft, green")
    ),
    "readings that cannot be": pile(more="stacked 2026-04-02\n  reading 2026-04-03 250%\n  reading 2026-04-04 0.1%"),
    "a kiln of 0.1 m3": charge(
        "type dehumidification\n  inside 0.5 m x 0.5 m x 0.4 m\n  holds 0.1 m3\n  carries 1 lb\n  heats to 10 C\n"
        "  removes 0.000001 pt/day\n  fans 1 of 0.000001 cfm\n  plenum 1 mm"
    ),
    "a kiln like a hall": charge(
        "type vented\n  inside 100 m x 100 m x 100 m\n  holds 5000 m3\n  carries 2000000 lb\n  heats to 160 C\n"
        "  removes 100000 pt/day\n  fans 100 of 400000 cfm\n  plenum 5 m",
        "runs 160 C 1%",
    ),
    "a kiln in the cold": charge("type vented", "runs -20 C 100%"),
    "a kiln without sun": charge("type solar\n  inside 17 ft x 5 ft x 6 ft\n  collector 0.000001 ft2"),
    "a hold of a year": charge("type vented\n  heats to 160 C", "hold 160 C for 9600 h\n  sterilize"),
}
NO_NUMBER = re.compile(r"(?<![A-Za-z])(?:nan|-?inf|infinity)(?![A-Za-z])", re.IGNORECASE)
EXPONENT = re.compile(r"(?<![\w.#])\d+(?:\.\d+)?e[+-]?\d+(?!\w)", re.IGNORECASE)


def numbers(value: Any, key: str = "") -> Iterator[tuple[str, float]]:
    """Every number in a JSON value, with its key."""
    if isinstance(value, dict):
        for name, member in value.items():
            yield from numbers(member, name)
    elif isinstance(value, list):
        for member in value:
            yield from numbers(member, key)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield key, float(value)


def strictly(text: str) -> Any:
    """JSON as RFC 8259 has it: without NaN and Infinity."""

    def refuse(word: str) -> None:
        raise ValueError(word)

    return json.loads(text, parse_constant=refuse)


def readable(text: str) -> str:
    """What of a page people read: without its style, its script and the colours and places of its drawings."""
    return re.sub(r"<(style|script)>.*?</\1>|<[^>]*>", " ", text, flags=re.DOTALL)


@pytest.fixture(params=EXTREMES.values(), ids=EXTREMES)
def text(request, tmp_path, monkeypatch) -> str:
    (tmp_path / "p.stackplan").write_text(request.param, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return request.param


@pytest.mark.usefixtures("text")
def test_no_figure_that_is_none_reaches_a_report():
    for words in FORMS_FOR_PEOPLE:
        said = "".join(told(words))
        assert not NO_NUMBER.search(said), words
        assert not EXPONENT.search(readable(said)), words
    for words in FORMS_FOR_PROGRAMS:
        found = list(numbers(strictly(told(words)[0])))
        assert all(math.isfinite(number) for _, number in found), words
    cells = csv.reader(io.StringIO(told(["forecast", "p.stackplan", "--as", "csv", *TODAY])[0]))
    for row in cells:
        assert not any(NO_NUMBER.fullmatch(cell) for cell in row)


def test_volumes_weights_heights_and_times_are_not_negative(text):
    output = strictly(told(FORMS_FOR_PROGRAMS[0])[0])
    for stack in output["plans"][0]["stacks"]:
        for key, number in numbers(stack["facts"] or {}):
            if not key.endswith("_c"):
                assert number >= 0, key
    for stack in check(text, today=datetime.date(2026, 6, 1)).stacks:
        if isinstance(stack.forecast, Forecast):
            ready = stack.forecast.ready(Pace.LIKELY)
            assert ready is None or ready >= stack.forecast.start


def facts(boards: str) -> dict[str, Any]:
    (stack,) = check(pile(boards), today=datetime.date(2026, 6, 1)).stacks
    assert stack.facts is not None
    return {name: getattr(stack.facts, name) for name in ("volume", "pieces", "mass_now", "height")}


def test_one_board_is_four_board_feet():
    """1 in x 6 in x 8 ft: 4 board feet, of 144 cubic inches each; a board high."""
    one = facts("1 of white ash 4/4 x 6 in x 8 ft, green")
    assert one["volume"] == pytest.approx(4 * 144 * 0.0254**3)
    assert one["pieces"] == 1
    assert one["height"] >= 0.0254


def test_ten_thousand_boards_are_ten_thousand_times_one():
    one, many = (facts(f"{count} of white ash 4/4 x 6 in x 8 ft, green") for count in (1, 10_000))
    for name in ("volume", "pieces", "mass_now"):
        assert many[name] == pytest.approx(10_000 * one[name])


def test_wood_at_250_percent_weighs_three_and_a_half_times_what_it_weighs_without_water():
    """By the meaning of moisture content: water by the oven-dry mass (ISO 13061-1; memory)."""
    dry, wet = (facts(f"60 of white ash 4/4 x 6 in x 8 ft, {moisture}%")["mass_now"] for moisture in (0, 250))
    assert wet == pytest.approx(3.5 * dry)


def _plain_facts(facts: Any) -> dict[str, Any]:
    return {name: value for name in facts.__slots__ if isinstance(value := getattr(facts, name), int | float)}


@pytest.mark.slow
@settings(max_examples=40, deadline=None)
@given(plans())
def test_the_facts_of_any_plan_are_finite(plan: Plan) -> None:
    checked = check(write(plan), "p.stackplan", today=READ_ON)
    for text in (forecast_csv([checked]), readable(sheet_html(checked, READ_ON))):
        assert not re.search(r"(?<![\w“\"])(?:nan|inf)(?![\w”\"])", text)
    for stack in checked.stacks:
        if stack.facts is not None:
            assert all(math.isfinite(number) for _, number in numbers(_plain_facts(stack.facts)))
