"""The rule book in a real browser: it fits, prints, and asks nothing of any network."""

from __future__ import annotations

from typing import Any

import pytest

from stacklint.lessons import lesson
from stacklint.report.rule_page import rules_html
from stacklint.rulebook import builtin

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def rules() -> str:
    return rules_html(builtin(), lesson)


@pytest.mark.parametrize("width", [320, 390, 1000])
def test_the_page_fits_the_window_and_nothing_bars_a_reader(page: Any, rules: str, width: int) -> None:
    page.open(rules, width=width)
    assert page.overflowing == []
    assert page.complaints == []
    assert page.requests == []
    assert page.barriers() == []


def test_the_page_can_be_read_on_a_dark_screen(page: Any, rules: str) -> None:
    page.open(rules, dark=True)
    assert page.barriers() == []


def test_on_paper_no_table_is_cut_off(page: Any, rules: str, paper: Any) -> None:
    page.open(rules, width=paper.room, media="print")
    assert page.cut_off == []
    assert page.overflowing == []
    assert page.pdf(paper).startswith(b"%PDF-")
