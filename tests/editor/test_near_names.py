"""A name that is unknown is offered the nearest known ones, and taking one clears the finding."""

from __future__ import annotations

import datetime

import pytest

from stacklint.changes import changed
from stacklint.checking import check
from stacklint.editor.findings import told_of_plan
from stacklint.editor.fixes import near_names
from stacklint.editor.names import laid
from stacklint.editor.positions import Page
from stacklint.rulebook import builtin

TODAY = datetime.date(2026, 6, 1)
BOARDS = "  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green\n"
NORTH = 'site "North"\n  near "Columbus, OH"\n'


def findings(text: str):
    return told_of_plan(check(text, today=TODAY), text)


def fixes(text: str, rule: str):
    page, own = Page(text), laid(text, "-")
    return [fix for told in findings(text) if told.rule == rule for fix in near_names(page, own, told, builtin(), None)]


@pytest.mark.parametrize(
    "text, rule, name",
    [
        ('pile "P"\n  boards a: 6 of wite ash 4/4 x 6 in x 8 ft\n', "unknown-species", "white ash"),
        ('pile "P"\n  boards a: 6 of oak 4/4 x 6 in x 8 ft\n', "unknown-species", "northern red oak"),
        ('site "S"\n  near "Columbos, OH"\n', "unknown-place", '"Columbus, Ohio"'),
        (f'pile "P"\n  place opn yard\n{BOARDS}', "unknown-place", "open yard"),
        (f'{NORTH}pile "P"\n  place open yard, site "Nort"\n{BOARDS}', "unknown-place", '"North"'),
        (f'kiln "Box"\n  type solar\ncharge "C" in kiln "Bax"\n{BOARDS}', "unknown-kiln", '"Box"'),
        (f'pile "Ash 2"\n{BOARDS}charge "C"\n  from pile "Ash 3"\n', "plan-text", '"Ash 2"'),
        (f'pile "P"\n{BOARDS}  stikers 3/4 in\n', "plan-text", "stickers"),
        (f'pile "P"\n{BOARDS}  stickers 3/4 in, groved\n', "plan-text", "grooved"),
        (f'pile "P"\n{BOARDS}  waive stickers-wett because "x"\n', "waiver-unused", "stickers-wet"),
    ],
)  # fmt: skip
def test_the_nearest_name_is_offered_and_clears_the_finding(text, rule, name):
    found = {fix.title: fix for fix in fixes(text, rule)}
    assert f"Write {name}" in found
    after = changed(text, found[f"Write {name}"].changes)
    fix = found[f"Write {name}"]
    assert all(told[:3] != fix.told[:3] for told in findings(after))


def test_a_name_like_no_other_is_offered_nothing():
    assert fixes('kiln "Box"\n  type solar\ncharge "C" in kiln "zzzz"\n', "unknown-kiln") == []


def test_advice_that_is_no_word_is_not_offered_as_one():
    assert fixes(f'pile "P"\n{BOARDS}  clearance 14\n', "plan-text") == []
