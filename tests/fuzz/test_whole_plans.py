"""Any plan that the language can say, left as people leave them, travels every road to its end."""

from __future__ import annotations

import pytest
from fuzz import check_target, plan_target
from fuzz.oracle import inside, strict_json
from hypothesis import HealthCheck, Phase, given, settings
from messy_texts import Messy, messy_texts

from stacklint.calendar.gathered import gathered
from stacklint.checking import check
from stacklint.mending import mended
from stacklint.report.calendar_data import calendar_json
from stacklint.report.calendar_events import calendar_ics
from stacklint.report.calendar_page import calendar_html
from stacklint.report.calendar_text import Look, calendar_text
from stacklint.report.forecast_csv import forecast_csv
from stacklint.report.forecast_data import forecast_json
from stacklint.report.kept import kept
from stacklint.report.stay_glyphs import ASCII

TODAY = plan_target.TODAY
QUICK = (Phase.explicit, Phase.reuse, Phase.generate)
"""A plan takes a second to mend: a failing one is told as it was drawn, not looked for in a smaller form."""

few = settings(
    max_examples=4,
    deadline=None,
    derandomize=True,
    database=None,
    phases=QUICK,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
many = settings(few, max_examples=400, derandomize=False)


def is_read_laid_out_and_written(messy: Messy) -> None:
    plan_target.examine(messy.text.encode())


def is_checked_and_told_in_every_form(messy: Messy) -> None:
    check_target.examine(messy.text.encode())


def is_forecast_and_told_what_would_be_sooner(messy: Messy) -> None:
    checked = check(messy.text, today=TODAY, look_for_shorter=True)
    strict_json(forecast_json([checked], ()))
    list(forecast_csv([checked]))


def is_shown_in_a_calendar_in_every_form(messy: Messy) -> None:
    seen = gathered([kept(check(messy.text, "plan.stackplan", today=TODAY, alone=False))], TODAY)
    strict_json(calendar_json(seen, ()))
    for width in (40, 80):
        assert all(len(line) <= width for line in calendar_text(seen, Look(width, ASCII)))
    assert "</html>" in calendar_html(seen, ())
    assert calendar_ics(seen, str, within_frame=False).endswith(b"END:VCALENDAR\r\n")


def is_mended_to_what_is_checked_like_any_other(messy: Messy) -> None:
    before = check(messy.text, today=TODAY)
    made = mended(messy.text, today=TODAY)
    after = check(made.text, today=TODAY)
    for finding in after.findings:
        inside(finding.where, made.text)
    assert len(after.findings) <= len(before.findings) or made.steps
    assert {each.finding.rule for each in made.left} == {finding.rule for finding in after.findings}


ROADS = [
    is_read_laid_out_and_written,
    is_checked_and_told_in_every_form,
    is_forecast_and_told_what_would_be_sooner,
    is_shown_in_a_calendar_in_every_form,
]
TEXTS = [pytest.param(messy_texts(), id="sound"), pytest.param(messy_texts(slips=True), id="with slips")]


@pytest.mark.parametrize("road", ROADS)
@pytest.mark.parametrize("texts", TEXTS)
def test_any_plan(road, texts) -> None:
    few(given(texts)(road))()


@pytest.mark.slow
@pytest.mark.parametrize("road", [*ROADS, is_mended_to_what_is_checked_like_any_other])
@pytest.mark.parametrize("texts", TEXTS)
def test_any_plan_of_very_many(road, texts) -> None:
    many(given(texts)(road))()
