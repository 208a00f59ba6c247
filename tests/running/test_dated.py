"""A plan that is said not to depend on the day comes to the same on every day."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given, settings
from random_plans import plans

from stacklint.checking import check
from stacklint.files import lending
from stacklint.language import write
from stacklint.plan.stack import Day
from stacklint.plan.yard import Plan
from stacklint.report.kept import Kept, kept
from stacklint.running.dated import depends_on_the_day

DATE = datetime.date
RULES = Path(__file__).parents[1] / "rules"
DAYS = (DATE(1990, 1, 1), DATE(2026, 6, 1), DATE(2026, 12, 31), DATE(2027, 3, 1), DATE(9999, 12, 31))


def on(day: DATE, text: str, path: Path | None = None) -> tuple[Kept, bool]:
    """What is kept of a plan that is checked on a day, and whether that is said to depend on it."""
    use = lending(path.parent) if path else None
    checked = check(text, str(path or "-"), today=day, use=use, alone=False)
    return kept(checked), depends_on_the_day(checked, [text])


def differs_where_it_may(text: str, days: Sequence[DATE], path: Path | None = None) -> bool:
    found = [on(day, text, path) for day in days]
    return all(dated or all(one == other for other, _ in found) for one, dated in found)


@pytest.mark.parametrize("path", sorted(RULES.rglob("*.stackplan")), ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_of_the_plans_for_the_rules_none_differs_that_is_said_not_to(path: Path) -> None:
    assert differs_where_it_may(path.read_text(encoding="utf-8"), (DAYS[0], DAYS[-1]), path)


def of_known_days(plan: Plan) -> str:
    """The plan as text, each stack with its first day, and nothing in it that speaks of today."""
    stacks = [
        stack.model_copy(update={"readings": (), "waivers": (), "stacked": stack.stacked or Day(date=DATE(2026, 4, 2))})
        for stack in plan.stacks
    ]
    return write(plan.model_copy(update={"stacks": tuple(stacks)}))


@given(plans())
@settings(max_examples=15)
def test_of_random_plans_none_differs_that_is_said_not_to(plan: Plan) -> None:
    assert differs_where_it_may(write(plan), (DAYS[0], DAYS[2]))
    assert differs_where_it_may(of_known_days(plan), (DAYS[0], DAYS[2]))


@pytest.mark.slow
@given(plans())
@settings(max_examples=300)
def test_of_many_random_plans_none_differs_on_many_days_that_is_said_not_to(plan: Plan) -> None:
    assert differs_where_it_may(write(plan), DAYS)
    assert differs_where_it_may(of_known_days(plan), DAYS)


@given(plans())
@settings(max_examples=10)
def test_a_random_plan_whose_days_are_known_is_said_not_to_depend_on_the_day(plan: Plan) -> None:
    """Else all of the above would hold of plans that are all said to."""
    text = of_known_days(plan)
    assert on(DAYS[0], text)[1] == any(word in text.casefold() for word in ("reading", "waive"))


@pytest.mark.parametrize(
    "line, dated",
    [
        ("stacked 2026-04-02", False),
        ("sawn 2026-04-02", True),
        ("stacked 2026-04-02\n  reading 2026-06-01 30%", True),
        ('stacked 2026-04-02\n  waive ends-bare until 2026-06-01 because "sold"', True),
        ("stacked 2026-04-02  # no reading yet", True),
    ],
)
def test_what_depends_on_the_day(line: str, dated: bool) -> None:
    text = f'pile "A"\n  {line}\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n'
    assert on(DAYS[1], text)[1] is dated


def test_a_charge_that_takes_a_pile_of_no_known_day_depends_on_the_day() -> None:
    pile = 'pile "A"\n  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n'
    charge = 'charge "1"\n  starts 2026-09-01\n  from pile "A"\n'
    assert on(DAYS[1], pile + charge)[1]
    assert not on(DAYS[1], pile + "  stacked 2026-04-02\n" + charge)[1]
