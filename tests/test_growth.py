"""Four times as much of anything takes about four times the work, counted in calls whatever a machine's speed."""

from __future__ import annotations

import datetime
import sys
from collections.abc import Callable

import pytest
from growing_texts import PLANS, RULES, TALLIES, Growing

from stacklint.checking import check
from stacklint.convert import convert
from stacklint.language import read
from stacklint.rulebook import builtin, load
from stacklint.tidying import tidied

TODAY = datetime.date(2026, 6, 1)
FEW, MANY = 24, 96
MOST_TIMES = 6.0
"""Work in proportion is 4 times as much, quadratic work 16 times; what is the same for any text makes it less."""
CHECKED = (
    *("piles", "piles of one site", "charges in one kiln", "charges from one pile", "boards in a pile"),
    *("courses in a pile", "readings in a pile", "labels of a row", "rows of a course", "piles of own woods"),
)
BOUNDED = {
    "unknown kilns": "each of 200 faults offers the nearest of 2,000 blocks",
    "unknown sites": "likewise",
    "unknown piles": "likewise",
    "statements after commas": "each of 200 faults cuts a statement of 20,000 characters",
    "limits of a rule": "each of 200 faults offers the nearest of 200 clauses",
    "lets of a rule": "likewise",
}
"""What grows faster, up to a limit and no further."""


def calls(work: Callable[[str], object], text: str) -> int:
    """How many functions are called, those of the interpreter among them."""
    count = 0

    def counting(_frame: object, event: str, _argument: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(counting)
    try:
        work(text)
    finally:
        sys.setprofile(before)
    return count


def grows_in_proportion(work: Callable[[str], object], growing: Growing) -> None:
    work(growing(2))
    few, many = calls(work, growing(FEW)), calls(work, growing(MANY))
    if growing in (each[kind] for each in (PLANS, RULES) for kind in BOUNDED if kind in each):
        assert many < few * MOST_TIMES**2, "it is bounded no more"
        return
    assert many < few * MOST_TIMES, f"{few:,} calls for {FEW}, {many:,} for {MANY}"


@pytest.mark.parametrize("kind", PLANS)
def test_reading_a_plan(kind: str) -> None:
    grows_in_proportion(lambda text: read(text, today=TODAY), PLANS[kind])


@pytest.mark.slow
@pytest.mark.parametrize("kind", PLANS)
def test_laying_a_plan_out(kind: str) -> None:
    grows_in_proportion(tidied, PLANS[kind])


@pytest.mark.parametrize("kind", CHECKED)
def test_checking_a_plan(kind: str) -> None:
    grows_in_proportion(lambda text: check(text, today=TODAY), PLANS[kind])


@pytest.mark.parametrize("kind", RULES)
def test_loading_rules(kind: str) -> None:
    grows_in_proportion(lambda text: load([("house.rules", text)], base=builtin(), house=True), RULES[kind])


@pytest.mark.parametrize("kind", TALLIES)
def test_converting_a_tally(kind: str) -> None:
    grows_in_proportion(lambda text: convert(text, "x"), TALLIES[kind])


def test_what_grows_faster_stops_growing_at_its_limit() -> None:
    faulty = PLANS["statements after commas"]
    assert calls(read, faulty(9000)) < 1.5 * calls(read, faulty(1500))
    wrong = RULES["unknown names"]
    assert calls(lambda text: load([("r", text)], house=True), wrong(900)) < 3 * calls(
        lambda text: load([("r", text)], house=True), wrong(450)
    )
