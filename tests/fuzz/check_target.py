"""Fuzz target ``check``: a text is checked, and what comes out is told in every form."""

from __future__ import annotations

from fuzz.oracle import inside, strict_json, told_plainly
from fuzz.plan_target import TODAY, seeds, words

from stacklint.changes import with_line_ends
from stacklint.checking import check
from stacklint.report.answer import Answer, Answers
from stacklint.report.forecast_data import forecast_json
from stacklint.report.json_output import as_json
from stacklint.report.lines import lines
from stacklint.report.sarif import as_sarif
from stacklint.report.sheet_page import sheet_html
from stacklint.rulebook import builtin

__all__ = ["examine", "seeds", "words"]


def examine(data: bytes) -> None:
    text = with_line_ends(data.decode("utf-8", "replace"), "\n")
    if "\0" in text:
        return
    checked = check(text, today=TODAY)
    assert len(checked.findings) <= 201 + 100 * (text.count("\n") + 1)
    for finding in checked.findings:
        inside(finding.where, text)
        assert finding.message and finding.instead
    told_plainly(lines(checked.path, checked.findings))
    answers = Answers((Answer(checked, builtin()),))
    strict_json(as_json(answers))
    strict_json(as_sarif(answers))
    strict_json(forecast_json([checked], ()))
    sheet_html(checked, TODAY)
