"""Mends of any plan: they never fail, they clear what they say, and they leave everything else as it was."""

from __future__ import annotations

import datetime
import re
from collections import Counter

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from messy_texts import messy_texts

from stacklint import language
from stacklint.changes import Change, changed
from stacklint.checking import check
from stacklint.mending import Mend, mended, mends
from stacklint.mending.trial import OF_THE_TEXT
from stacklint.mending.written import Block, Source

TODAY = datetime.date(2026, 6, 1)
QUICK = (Phase.explicit, Phase.reuse, Phase.generate)
"""A plan takes a second to mend: a failing one is told as it was drawn, not looked for in a smaller form."""
_CHOICES = (
    ("place", ("open yard", "open shed, in the shade", "garage", "basement", 'open yard, site "Larch Bottom", windy')),
    ("sawn", ("2026-06-20", "2026-05-01")),
    ("stacked", ("2026-07-10", "2026-05-03")),
    ("stickers", (
        "3/4 in x 1 1/2 in, every 24 in, dry",
        "1/2 in x 3 in, every 900 mm, 6 in from ends, green",
        "3/4 to 1 in x 1 1/2 in, 6 a course, wet, out of line",
        "20 mm x 38 mm, at 1 in, 3 ft, 6 ft, 11 ft, 15 ft, 4 ft long",
        "none",
    )),
    ("bearers", (
        "4 in x 6 in of white oak, every 48 in, on 8 in x 16 in pads",
        "4 in x 2 in, 4 of them, 1 ft from ends, on 2 blocks of 8 in x 16 in",
        "100 mm x 100 mm, at 0.2 m, 2 m, 4 m",
        "pallets",
    )),
    ("clearance", ("14 in", "4 in", "150 mm", "9 ft")),
    ("ground", ("gravel, flat", "sand, uneven 1 in, bears 300 psf", "clay")),
    ("cover", (
        "sheet metal, overhang 14 in, gap 4 in, slope 1 in 12, tied",
        "boards, overhang 2 in, gap 0 in, slope 1 in 40, untied",
        "tarp, overhang 100 mm ends, 50 mm sides, hanging down",
        "none",
    )),
    ("sides", ("plastic", "shade cloth, on one side", "boards")),
    ("top load", ("10 psf", "straps", "100 lb")),
    ("ends", ("coated late", "bare", "coated")),
    ("wind", ("along",)),
    ("want", ("8% by 2026-08-01 for flooring", "12% by 2026-09-01", "25%")),
    ("waive", ("cover-untied", 'sides-sealed because "we know" until 2026-01-01')),
)  # fmt: skip
_BOARDS = (
    "64 of white ash 4/4 x 6 in x 8 ft, green",
    "31 of northern red oak 8/4 x 6 in x 16 ft, 60%",
    "200 of American basswood 3/4 in x 4 in x 10 ft, green",
    "40 of sugar maple 27 mm x 150 mm x 2.4 m, 25%, for 1 in finished",
    "12 of wite oak 4/4 x 6 in x 18 in, green",
)
_COMMENTS = ("", "", "", "   # a note", " # x, y,", ",   # goes on", "#")


@st.composite
def faulty_plans(draw: DrawFn) -> str:
    """A pile and a charge as somebody in a hurry writes them, with comments in odd places."""
    blocks = ['site "Larch Bottom"', '  near "Burlington, VT"', "  stock 20 stickers", ""]
    blocks += [
        'kiln "Box"',
        "  type dehumidification",
        "  inside 17 ft x 5 ft x 6 ft",
        "  holds 300 bf",
        "  plenum 1 ft",
    ]
    for header in draw(
        st.lists(st.sampled_from(('pile "A"', 'pile "B 1"', 'charge "C" in kiln "Box"')), max_size=3, unique=True)
    ):
        blocks += ["", header]
        for number, boards in enumerate(draw(st.lists(st.sampled_from(_BOARDS), min_size=1, max_size=3))):
            blocks.append(f"  boards {'abc'[number]}: {boards}{draw(st.sampled_from(_COMMENTS))}")
        blocks.append(
            f"  stack {draw(st.sampled_from(('16 ft x 4 ft', '16 ft x 7 ft, boards 1/8 in apart', '5 m x 1 m')))}"
        )
        if draw(st.booleans()):
            blocks.append("  course 1 to 2: 3 rows of a + a")
        for keyword, ways in _CHOICES:
            if draw(st.booleans()):
                said = draw(st.sampled_from(ways)).replace(", ", draw(st.sampled_from((", ", ",\n      ", ", "))))
                blocks.append(
                    f"{draw(st.sampled_from(('  ', '', chr(9))))}{keyword} {said}{draw(st.sampled_from(_COMMENTS))}"
                )
    return "\n".join(blocks) + draw(st.sampled_from(("\n", "")))


def comments(text: str) -> Counter[str]:
    return Counter(re.findall(r"#[^\n]*", re.sub(r'"[^"\n]*"', '""', text)))


def said_elsewhere(text: str, changes: tuple[Change, ...]) -> Counter[tuple[str, str]]:
    """What the statements say that no change touches, each with its block's own line."""
    source = Source(text, "-")
    return Counter(
        (source.lines[block.header.line - 1].strip(), _said(source, where.line, where.end_line))
        for block in source.blocks
        for where in (statement.where for statement in block.statements)
        if not any(each.where.line <= where.end_line and each.where.end_line >= where.line for each in changes)
        and not _renamed(block, changes)
    )


def _said(source: Source, first: int, last: int) -> str:
    return "\n".join(source.lines[first - 1 : last])


def _renamed(block: Block, changes: tuple[Change, ...]) -> bool:
    return any(each.where.line <= block.header.line <= each.where.end_line for each in changes)


def judged(text: str, mend: Mend) -> None:
    before, after_text = check(text, today=TODAY), changed(text, mend.changes)
    after = check(after_text, today=TODAY)
    rule, stack = mend.finding.rule, mend.finding.stack
    counts = [sum(each.rule == rule and each.stack == stack for each in plan.findings) for plan in (before, after)]
    assert counts[1] < counts[0]
    if rule not in OF_THE_TEXT:
        worst: dict[str, int] = {}
        for each in before.findings:
            worst[each.rule] = max(worst.get(each.rule, 0), each.level.rank)
        for each in after.findings:
            known = each.level.rank <= worst.get(each.rule, 0)
            assert known or each.level.rank < mend.finding.level.rank, (mend, each)
    if len(Source(after_text, "-").blocks) == len(Source(text, "-").blocks):
        missing = said_elsewhere(text, mend.changes) - said_elsewhere(after_text, ())
        assert not missing, (mend, missing)
    assert not comments(text) - comments(after_text) or "  # " not in text


@settings(max_examples=20, deadline=None, phases=QUICK, suppress_health_check=list(HealthCheck))
@given(faulty_plans())
def test_a_mend_clears_its_finding_and_touches_nothing_else(text: str) -> None:
    for mend in mends(text, today=TODAY):
        judged(text, mend)


@settings(max_examples=5, deadline=None, phases=QUICK, suppress_health_check=list(HealthCheck))
@given(faulty_plans())
def test_mends_one_upon_the_other_never_add_to_what_is_found(text: str) -> None:
    found = mended(text, today=TODAY)
    readable = not any(step.mend.rule in OF_THE_TEXT for step in found.steps)
    if readable and found.steps:
        assert len(check(found.text, today=TODAY).findings) < len(check(text, today=TODAY).findings) + len(found.steps)
    assert {each.finding for each in found.left} == set(check(found.text, today=TODAY).findings)


@settings(max_examples=5, deadline=None, phases=QUICK, suppress_health_check=list(HealthCheck))
@given(messy_texts(slips=True))
def test_a_text_with_anything_in_it_is_mended_or_left_and_never_raises(messy) -> None:
    for mend in mends(messy.text, today=TODAY):
        language.read(changed(messy.text, mend.changes), today=TODAY)


@settings(max_examples=100, deadline=None)
@given(st.text(st.sampled_from('ab ,#"\n\t:x14inpile—é\u2028\x85\r')))
def test_a_text_that_is_no_plan_is_mended_without_raising(text: str) -> None:
    mended(text, today=TODAY)
