"""The rules judge a yard: each plan by its own rules and waivers, and the order of the plans is no matter."""

from __future__ import annotations

import datetime
import random
from collections import Counter
from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_coop import TODAY, Coop, Fault, seeded
from made_stands import charge, kiln, pile, plan, site, yards

from stacklint.checking import check
from stacklint.language import UsedText, UseRefused
from stacklint.plan.node import Name
from stacklint.plan.stack import Day, Waiver
from stacklint.rulebook import HouseRules, RuleBook, StackWaiver, book_of, builtin
from stacklint.where import Where
from stacklint.yard.judging import YardJudgement, judged
from stacklint.yard.stands import YardPlan, yard_plan


def judge(*plans: YardPlan, books: dict[str, RuleBook] | None = None) -> YardJudgement:
    return judged(plans, lambda plan: (books or {}).get(plan.path, builtin()), TODAY)


def rules(judgement: YardJudgement) -> list[tuple[str, str]]:
    return [(each.path, each.finding.rule) for each in judgement.findings]


TWO = (
    plan(pile("A", "a.stackplan", "2026-03-01", "2026-08-01", spot="row 3")),
    plan(pile("B", "b.stackplan", "2026-05-01", "2026-10-01", spot="row 3")),
)


def test_of_no_plans_nothing_is_found() -> None:
    assert judge() == YardJudgement((), ())


def test_what_clashes_is_told_in_the_plan_of_the_stack_that_comes_later_with_the_place_of_the_other() -> None:
    judgement = judge(*TWO)
    (found,) = judgement.findings
    assert (found.path, found.finding.rule, found.finding.stack) == ("b.stackplan", "spot-double-booked", "B")
    assert found.finding.where == Where("b.stackplan", 6, 3, 6, 9)
    assert [(each.where.path, each.where.line) for each in found.finding.related] == [("a.stackplan", 6)]
    assert "Pile A (a.stackplan, line 5)" in found.finding.message
    assert found.involves == {"a.stackplan", "b.stackplan"}


def waiver(rule: str, stack: str, until: str | None = None) -> StackWaiver:
    day = Day(date=datetime.date.fromisoformat(until)) if until else None
    said = Waiver(rule=Name(text=rule), reason="as it is", until=day, where=Where("b.stackplan", 12, 3, 12, 20))
    return StackWaiver(stack, said)


def test_a_waiver_in_the_plan_that_a_finding_is_told_in_silences_it() -> None:
    first, second = TWO
    judgement = judge(first, second._replace(waivers=(waiver("spot-double-booked", "B"),)))
    assert judgement.findings == ()
    assert [(each.path, each.waived.finding.rule) for each in judgement.waived] == [
        ("b.stackplan", "spot-double-booked")
    ]


def test_a_waiver_in_the_other_plan_silences_nothing_and_is_told_to_do_nothing() -> None:
    first, second = TWO
    judgement = judge(first._replace(waivers=(waiver("spot-double-booked", "A"),)), second)
    assert ("b.stackplan", "spot-double-booked") in rules(judgement)
    assert [path for path, rule in rules(judgement) if "waive" in rule] == ["a.stackplan"]


def test_a_waiver_that_has_run_out_silences_nothing() -> None:
    first, second = TWO
    judgement = judge(first, second._replace(waivers=(waiver("spot-double-booked", "B", "2025-12-31"),)))
    assert ("b.stackplan", "spot-double-booked") in rules(judgement)
    assert judgement.waived == ()


def test_house_rules_judge_what_is_told_in_their_own_plans_alone() -> None:
    skipping = book_of((HouseRules("house.rules", 'skip spot-double-booked because "rows are long"\n'),))
    assert rules(judge(*TWO, books={"a.stackplan": skipping})) == [("b.stackplan", "spot-double-booked")]
    assert rules(judge(*TWO, books={"b.stackplan": skipping})) == []


def test_findings_come_plan_by_plan_in_the_order_of_the_plans() -> None:
    three = (*TWO, plan(pile("C", "c.stackplan", "2026-06-01", "2026-12-01", spot="row 3")))
    assert [path for path, _ in rules(judge(*three))] == ["b.stackplan", "c.stackplan"]
    assert [path for path, _ in rules(judge(*reversed(three)))] == ["c.stackplan", "b.stackplan"]


def as_set(judgement: YardJudgement) -> tuple[Counter[Any], Counter[Any]]:
    return Counter(judgement.findings), Counter(judgement.waived)


@given(yards(), st.integers(0, 99))
def test_the_order_of_the_plans_is_no_matter(plans: list[YardPlan], seed: int) -> None:
    shuffled = plans.copy()
    random.Random(seed).shuffle(shuffled)
    assert as_set(judge(*shuffled)) == as_set(judge(*plans))


@given(yards())
def test_every_finding_is_in_a_plan_that_is_judged_and_has_a_share_in_it(plans: list[YardPlan]) -> None:
    paths = {each.path for each in plans}
    for each in judge(*plans).findings:
        assert each.path in paths
        assert each.path in each.involves
        assert each.finding.where.path == each.path
        assert each.finding.message and each.finding.instead


def kept(coop: Coop) -> tuple[YardPlan, ...]:
    def use(name: str, using: str) -> UsedText | UseRefused:
        path = f"{using.split('/')[0]}/{name.removeprefix('../')}"
        return UsedText(path, coop.texts[path]) if path in coop.texts else UseRefused("It is not there.", "Write it.")

    return tuple(
        yard_plan(check(text, path, today=TODAY, use=use, alone=False))
        for path, text in sorted(coop.texts.items())
        if path.endswith(".stackplan")
    )


@pytest.fixture(scope="module")
def coop() -> tuple[YardPlan, ...]:
    made = seeded(13, 98, {Fault.KILN_TWICE: 2, Fault.KILN_MONTH: 1, Fault.SPOT_TWICE: 1, Fault.TAKEN_TWICE: 1,
                           Fault.SPOTS: 1, Fault.NOT_USED: 1})  # fmt: skip
    return kept(made)


def test_the_order_of_the_plans_of_a_co_op_is_no_matter(coop: Sequence[YardPlan]) -> None:
    right = as_set(judge(*coop))
    assert sum(right[0].values()) == 2 + 4 + 4
    for seed in range(5):
        shuffled = list(coop)
        random.Random(seed).shuffle(shuffled)
        assert as_set(judge(*shuffled)) == right


def test_a_charge_and_a_pile_that_begin_on_the_last_day_there_is_are_judged_too() -> None:
    plans = [
        plan(pile("A", "a.stackplan", "9999-12-31", None, spot="row 3", where=site(spots=1))),
        plan(pile("B", "b.stackplan", "9999-12-31", None, spot="row 3", where=site(spots=1))),
        plan(charge("1", "c.stackplan", "9999-12-31", None)),
        plan(charge("2", "d.stackplan", "9999-12-31", None, where=kiln("box"))),
    ]
    assert rules(judge(*plans)) == [
        ("b.stackplan", "spot-double-booked"),
        ("b.stackplan", "yard-overfull"),
        ("d.stackplan", "kiln-double-booked"),
    ]


def test_thousands_of_stacks_in_one_spot_name_few_others_each() -> None:
    plans = [plan(pile(str(number), f"{number:05}.stackplan", gone=None, spot="row 3")) for number in range(2000)]
    found = judge(*plans).findings
    assert len(found) == 1999
    assert max(len(each.finding.related) for each in found) == 5
    assert max(len(each.involves) for each in found) < 60
