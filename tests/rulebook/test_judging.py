"""What the rules say of the facts: levels, figures, folding, waivers."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from stacklint.faults import Measure
from stacklint.findings import Finding, Level
from stacklint.plan.node import Name
from stacklint.plan.stack import Day, Waiver
from stacklint.rulebook import Judgement, StackWaiver, judge
from stacklint.units import LENGTH, NUMBER, PRESSURE, System
from stacklint.where import NOWHERE, Where

TODAY = datetime.date(2026, 5, 1)
SAG = """\
rule sag
  title Sag
  for each span
  where not span.with_stack
  limit noticeable = 1/16 in source "common practice, no published source"
  limit spoiled = 1/8 in source "common practice, no published source"
  error when span.sag > spoiled
  warning when span.sag > noticeable
  note when span.sag_high > noticeable
  say "{span.boards} would sag {span.sag}."
  instead "Space them {span.spacing_for(noticeable)}."
  why "x"
  caution "Lift with care."
"""
SIXTEENTH = 0.0254 / 16


def judged(book: Any, facts: Any, waivers: Any = (), today: datetime.date = TODAY) -> Judgement:
    return judge(book, facts, waivers, today)


def only(findings: tuple[Finding, ...]) -> Finding:
    (finding,) = findings
    return finding


@pytest.mark.parametrize(
    ("sag", "level"),
    [(2.1, Level.ERROR), (2.0, Level.WARNING), (1.01, Level.WARNING), (1.0, Level.NOTE), (None, Level.NOTE)],
)
def test_the_first_of_error_warning_and_note_that_holds_is_given(
    make: Any, plan: Any, book: Any, sag: float | None, level: Level
) -> None:
    span = make("Span", with_stack=False, sag=sag and sag * SIXTEENTH, sag_high=3 * SIXTEENTH)
    assert only(judged(book(SAG), plan(spans=(span,))).findings).level is level


def test_nothing_is_said_where_no_level_holds_or_all_are_unknown(make: Any, plan: Any, book: Any) -> None:
    spans = (make("Span", with_stack=False, sag=SIXTEENTH / 2, sag_high=SIXTEENTH), make("Span", with_stack=False))
    assert judged(book(SAG), plan(spans=spans)).findings == ()


def test_what_the_filter_leaves_out_or_does_not_know_is_not_judged(make: Any, plan: Any, book: Any) -> None:
    spans = tuple(make("Span", with_stack=answer, sag=1.0) for answer in (True, None))
    assert judged(book(SAG), plan(spans=spans)).findings == ()


def test_a_finding_carries_message_figures_caution_place_and_stack(
    make: Any, plan: Any, book: Any, marked: Any
) -> None:
    span = make(
        "Span",
        7,
        with_stack=False,
        boards="60 of white ash",
        sag=5 * SIXTEENTH,
        marks=(marked(1),),
        spacing_for=lambda limit: 16 * 0.0254 if limit == SIXTEENTH else None,
    )
    finding = only(judged(book(SAG), plan(spans=(span,))).findings)
    assert finding.message == "60 of white ash would sag 5/16 in."
    assert finding.instead == "Space them 16 in."
    assert finding.found == Measure(5 * SIXTEENTH, LENGTH)
    assert finding.limit == Measure(2 * SIXTEENTH, LENGTH)
    assert finding.caution == "Lift with care."
    assert (finding.where.line, finding.stack, finding.rule) == (7, "B2", "sag")
    assert finding.marks == (marked(1),)


def test_figures_are_shown_in_the_units_of_the_plan_and_the_unknown_is_called_so(
    make: Any, plan: Any, book: Any
) -> None:
    span = make("Span", with_stack=False, sag=0.004)
    finding = only(judged(book(SAG), plan(system=System.METRIC, spans=(span,))).findings)
    assert finding.message == "Unknown would sag 4 mm."
    assert finding.instead == "Space them unknown."


def test_findings_on_one_line_of_the_plan_become_one_that_speaks_of_the_worst(
    make: Any, plan: Any, book: Any, marked: Any
) -> None:
    spans = tuple(
        make("Span", line, with_stack=False, boards=f"{sags}/16", sag=sags * SIXTEENTH, marks=(marked(sags),))
        for line, sags in ((5, 3), (5, 9), (5, 2), (6, 4), (5, 1))
    )
    first, second = judged(book(SAG), plan(spans=spans)).findings
    assert (first.where.line, first.more, first.message) == (5, 2, "9/16 would sag 9/16 in.")
    assert first.marks == (marked(9), marked(3), marked(2))
    assert (second.where.line, second.more) == (6, 0)


def test_the_gravest_level_speaks_before_the_largest_figure(make: Any, plan: Any, book: Any) -> None:
    text = SAG.replace("error when span.sag > spoiled", "error when span.sag > spoiled and span.beyond_data")
    spans = tuple(
        make("Span", with_stack=False, boards=name, sag=sags * SIXTEENTH, beyond_data=beyond)
        for name, sags, beyond in (("much", 20, False), ("little", 3, True))
    )
    finding = only(judged(book(text), plan(spans=spans)).findings)
    assert (finding.level, finding.message, finding.more) == (Level.ERROR, "Little would sag 3/16 in.", 1)


def test_where_less_is_worse_the_least_speaks(make: Any, plan: Any, book: Any) -> None:
    text = """rule few
  title Few
  for each board
  limit fewest = 4 source "x"
  error when not board.lines >= fewest
  say "{board.boards}"
  why "x"
"""
    boards = tuple(make("Board", boards=str(lines), lines=lines) for lines in (3, 1, 2))
    finding = only(judged(book(text), plan(boards=boards)).findings)
    assert (finding.message, finding.found, finding.limit) == ("1", Measure(1, NUMBER), Measure(4, NUMBER))


def test_a_finding_marks_no_more_places_than_a_drawing_can_show(make: Any, plan: Any, book: Any, marked: Any) -> None:
    spans = tuple(make("Span", with_stack=False, sag=1.0, marks=(marked(course),)) for course in range(60))
    finding = only(judged(book(SAG), plan(spans=spans)).findings)
    assert (len(finding.marks), finding.more) == (24, 59)


def rule(each: str, level: str, more: str = "", name: str = "some-rule") -> str:
    return f'rule {name}\n  title T\n  for each {each}\n  {level}\n{more}\n  say "said"\n  why "x"\n'


@pytest.mark.parametrize(
    ("level", "more", "found", "limit"),
    [
        ("error when stack.in_open and stack.height > 2 ft", "", 3.0, 0.6096),
        ("error when 2 ft < stack.height", "", 3.0, 0.6096),
        ("error when stack.wettest > 20% and stack.height > tall", "  let tall = stack.width * 2", 0.5, 0.2),
        ("error when stack.height > tall", "  let tall = stack.width * 2", 3.0, 2.0),
        ("error when stack.height > 1.2 * tall", "  let tall = stack.width * 2", 3.0, 2.4),
        ("error when stack.height > stack.width", "", 3.0, 1.0),
        ("error when stack.height > 2 ft", "  measure stack.width against 2 m", 1.0, 2.0),
        ("error when stack.height / stack.width > 1", "", 3.0, 1.0),
        ("error when stack.in_open", "", None, None),
        ("error when any(g in stack.groups: g.moisture > 20%) or stack.in_open", "", None, None),
        ("error when stack.height = 3 m", "", None, None),
    ],
)
def test_found_and_limit_are_read_from_the_condition_or_from_measure(
    plan: Any, book: Any, level: str, more: str, found: float | None, limit: float | None
) -> None:
    facts = plan(in_open=True, height=3.0, width=1.0, wettest=0.5)
    finding = only(judged(book(rule("stack", level, more)), facts).findings)
    assert (finding.found and finding.found.value) == (found and pytest.approx(found))
    assert (finding.limit and finding.limit.value) == (limit and pytest.approx(limit))


def test_at_gives_the_place_of_the_cover_and_the_members_own_where_there_is_no_cover(
    make: Any, plan: Any, book: Any
) -> None:
    text = rule("side", "error when side.wetted > 10%", "  at stack.cover")
    sides = (make("Side", 4, wetted=0.5),)
    cover = make("Cover", 9)
    assert only(judged(book(text), plan(sides=sides, cover=cover)).findings).where.line == 9
    assert only(judged(book(text), plan(sides=sides)).findings).where.line == 4


def test_what_no_text_gave_is_reported_at_the_stack(make: Any, plan: Any, book: Any) -> None:
    line = make("Line", where=NOWHERE, on_bearer=False)
    finding = only(judged(book(rule("line", "error when not line.on_bearer")), plan(lines=(line,))).findings)
    assert finding.where.line == 1


def test_pile_rules_pass_over_charges_and_stack_rules_do_not(make: Any, book: Any) -> None:
    text = "".join(rule(each, f"note when {each}.in_open", "", f"of-{each}") for each in ("pile", "charge", "stack"))
    stacks = tuple(
        make("StackFacts", line, name=kind, kind=kind, in_open=True) for line, kind in ((1, "pile"), (2, "charge"))
    )
    findings = judged(book(text), make("PlanFacts", stacks=stacks)).findings
    assert {(finding.rule, finding.stack) for finding in findings} == {
        ("of-pile", "pile"),
        ("of-stack", "pile"),
        ("of-charge", "charge"),
        ("of-stack", "charge"),
    }


def test_a_kiln_that_is_not_there_is_passed_over(make: Any, plan: Any, book: Any) -> None:
    text = rule("kiln", "error when stack.volume > kiln.holds")
    assert judged(book(text), plan(volume=5.0)).findings == ()
    assert len(judged(book(text), plan(volume=5.0, kiln=make("KilnFacts", holds=3.0))).findings) == 1


def test_every_fault_of_the_text_is_told_by_itself(make: Any, book: Any) -> None:
    text = rule("fault", "error when fault.kind = 'plan-text'").replace('"said"', '"{fault.message}"')
    faults = tuple(make("FaultFacts", 3, kind="plan-text", message=word) for word in ("one", "two"))
    findings = judged(book(text), make("PlanFacts", faults=faults)).findings
    assert [finding.message for finding in findings] == ["One", "Two"]
    assert [finding.more for finding in findings] == [0, 0]


def test_a_fault_keeps_its_own_figures_and_the_stack_it_was_found_in(make: Any, book: Any) -> None:
    text = rule("fault", "error when fault.kind = 'value-out-of-range'")
    found, limit = Measure(4.0, NUMBER), Measure(2.5, NUMBER)
    fault = make("FaultFacts", kind="value-out-of-range", stack="B2", found=found, limit=limit)
    finding = only(judged(book(text), make("PlanFacts", faults=(fault,))).findings)
    assert (finding.found, finding.limit, finding.stack) == (found, limit, "B2")


def test_findings_stand_in_the_order_of_the_text_the_gravest_first(make: Any, book: Any) -> None:
    text = rule("line", "note when not line.on_bearer", name="later") + rule("span", "error when span.sag > 0 in")
    elsewhere = Where("shared.stackplan", 1, 1, 1, 5)
    stack = make(
        "StackFacts",
        lines=tuple(make("Line", line, on_bearer=False) for line in (9, 4)),
        spans=(make("Span", 4, sag=1.0), make("Span", where=elsewhere, sag=1.0)),
    )
    findings = judged(book(text), make("PlanFacts", stacks=(stack,))).findings
    assert [(finding.where.path, finding.where.line, finding.level) for finding in findings] == [
        ("b2.stackplan", 4, Level.ERROR),
        ("b2.stackplan", 4, Level.NOTE),
        ("b2.stackplan", 9, Level.NOTE),
        ("shared.stackplan", 1, Level.ERROR),
    ]


# waivers

WAIVER_RULES = """
rule waiver-unknown
  title T
  for each waiver
  warning when not waiver.known
  say "no rule {waiver.rule}; {waiver.nearest}"
  why "x"
rule waiver-unused
  title T
  for each waiver
  warning when waiver.known and not waiver.used
  say "unused"
  why "x"
rule waiver-expired
  title T
  for each waiver
  warning when waiver.expired and waiver.used
  say "expired on {waiver.until}"
  why "x"
rule waiver-without-reason
  title T
  for each waiver
  warning when not waiver.has_reason
  say "no reason"
  why "x"
"""


def waive(name: str, reason: str | None = "new sticks come on Friday", until: str | None = None) -> Waiver:
    day = Day(date=datetime.date.fromisoformat(until)) if until else None
    where = Where("b2.stackplan", 20, 3, 20, 30)
    return Waiver(where=where, rule=Name(text=name), reason=reason, until=day)


@pytest.mark.parametrize(
    ("waiver", "stack", "rules", "silent"),
    [
        (waive("sag"), "B2", [], True),
        (waive("sag", until="2026-05-01"), "B2", [], True),
        (waive("sag", until="2026-04-30"), "B2", ["sag", "waiver-expired"], False),
        (waive("sag"), "B3", ["sag", "waiver-unused"], False),
        (waive("sog"), "B2", ["sag", "waiver-unknown"], False),
        (waive("waiver-unused"), "B2", ["sag", "waiver-unused"], False),
        (waive("sag", reason=None), "B2", ["waiver-without-reason"], True),
        (waive("sag", reason=" "), "B2", ["waiver-without-reason"], True),
    ],
)
def test_a_waiver_silences_its_rule_on_its_stack_up_to_its_last_day(
    make: Any, plan: Any, book: Any, waiver: Waiver, stack: str, rules: list[str], silent: bool
) -> None:
    facts = plan(spans=(make("Span", with_stack=False, sag=1.0),))
    answer = judged(book(SAG + WAIVER_RULES), facts, (StackWaiver(stack, waiver),))
    assert [finding.rule for finding in answer.findings] == rules
    assert [(one.finding.rule, one.waiver) for one in answer.waived] == ([("sag", waiver)] if silent else [])


def test_a_waiver_of_an_unknown_rule_is_told_the_nearest_name(plan: Any, book: Any) -> None:
    text = WAIVER_RULES + rule("span", "error when span.sag > 1 in", name="sag-between-stickers")
    answer = judged(book(text), plan(), (StackWaiver("B2", waive("sag-betwen-sticker")),))
    finding = only(answer.findings)
    assert finding.message == "No rule sag-betwen-sticker; sag-between-stickers"
    assert (finding.where.line, finding.stack) == (20, "B2")


def test_faults_of_the_text_cannot_be_waived(make: Any, book: Any) -> None:
    text = rule("fault", "error when fault.kind = 'plan-text'", name="plan-text")
    facts = make("PlanFacts", faults=(make("FaultFacts", kind="plan-text"),))
    answer = judged(book(text), facts, (StackWaiver("B2", waive("plan-text")),))
    assert [finding.rule for finding in answer.findings] == ["plan-text"]
    assert answer.waived == ()


# messages


@pytest.mark.parametrize(
    ("filling", "said"),
    [
        ("{stack.wettest as %}", "62.5%"),
        ("{stack.wettest}", "0.625"),
        ("{stack.height}", "10 ft"),
        ("{stack.height as m}", "3.05 m"),
        ("{stack.temperature}", "212 F"),
        ("{stack.temperature as C}", "100 C"),
        ("{stack.floor_pressure}", "62 psf"),
        ("{stack.mass_now / (stack.length * stack.width)}", "50 m-2 kg"),
        ("{{{stack.place}}}", "{attic}"),
        ("{'hot' if stack.hot else \"cool\"} and {stack.width}", "Unknown and unknown"),
        ("{'up to ' & stack.height & ' high'}", "Up to 10 ft high"),
        ("{30 days}", "30 days"),
        ("{largest(g in stack.groups: g.moisture) as %}", "80%"),
    ],
)
def test_messages_are_filled_in_the_units_of_the_plan(make: Any, plan: Any, book: Any, filling: str, said: str) -> None:
    text = rule("stack", "error when stack.height > 1 ft").replace('"said"', f'"{filling}"')
    facts = plan(
        wettest=0.625,
        height=3.048,
        temperature=100.0,
        floor_pressure=Measure(62 * 47.88026, PRESSURE).value,
        mass_now=100.0,
        length=2.0,
        width=None,
        place="attic",
        groups=(make("Group", moisture=0.8),),
    )
    if "stack.width)" in filling:
        facts = plan(height=3.048, mass_now=100.0, length=2.0, width=1.0)
    assert only(judged(book(text), facts).findings).message == said
