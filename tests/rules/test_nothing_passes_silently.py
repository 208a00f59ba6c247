"""A check that cannot be made says so: whatever is taken out of a plan, no finding goes without a word.

Of each plan that fires a rule every statement and every block is taken out in turn. A finding may be gone then only

- if it stood on what was taken out, or
- if its rule was judged again and found nothing: its condition is no, not unknown, for everything of the stack that it
  goes through, or
- if what it goes through is what was taken out: no reading is judged where there is none, or
- if nobody asks any more: ``want``, ``sterilize``, ``hold``, ``spot`` and ``stock`` ask for a check, they do not answer
  one, or
- if the plan says something new in its place: the same rule in other words, an error of the text, or a note that names
  the rule or the statement that is lacking.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.findings import Finding
from stacklint.rulebook import builtin
from stacklint.rulebook.judge import standings
from stacklint.rulebook.lacking import is_undecided
from stacklint.tidying.pieces import Section, pieces

TODAY = datetime.date(2026, 6, 1)
FAILING = sorted(Path(__file__).parent.glob("*/fails.stackplan"))
ASKING = ("want", "sterilize", "hold", "spot", "stock", "waive")
GOES_THROUGH = {"reading": ("reading",), "cover": ("cover",), "side": ("cover",), "course": ("course", "boards")}
ABOUT_NOTHING_ELSE = ("assumed", "not-judged", "waiver-unused", "waiver-expired", "waiver-without-reason")
"""Rules of what is left out, or of a waiver: they have nothing to say of a plan that is whole."""


class Cut(NamedTuple):
    """A plan without some of its lines; ``opening`` is the first of them."""

    opening: str
    lines: range
    text: str


def cuts(text: str) -> Iterator[Cut]:
    """Without each statement in turn, with the lines that it goes on over, and without each block."""
    for section in pieces(text).sections:
        placed = [each.piece for each in section.items]
        if section.opening is not None:
            yield _cut(text, section.opening.piece.number, _end(section))
        for piece in placed:
            yield _cut(text, piece.number, piece.number + len(piece.lines))


def _end(section: Section) -> int:
    assert section.opening is not None
    last = section.items[-1].piece if section.items else section.opening.piece
    return last.number + len(last.lines)


def _cut(text: str, first: int, end: int) -> Cut:
    lines = text.split("\n")
    return Cut(lines[first - 1].strip(), range(first, end), "\n".join(lines[: first - 1] + lines[end - 1 :]))


def silent(full: CheckedPlan, cut: Cut) -> list[Finding]:
    """The findings of the whole plan that are gone without a word."""
    rest = check(cut.text, "plan.stackplan", today=TODAY)
    before = {(each.rule, each.message) for each in full.findings}
    new = [each for each in rest.findings if (each.rule, each.message) not in before]
    kept = {(each.rule, each.message) for each in rest.findings}
    return [
        finding
        for finding in full.findings
        if finding.rule not in ABOUT_NOTHING_ELSE
        and (finding.rule, finding.message) not in kept
        and not set(range(finding.where.line, finding.where.end_line + 1)) & set(cut.lines)
        and not cut.opening.startswith(ASKING)
        and not any(answers(each, finding, cut) for each in new)
        and not judged_again(finding, rest, cut)
    ]


def answers(said: Finding, finding: Finding, cut: Cut) -> bool:
    """What is said anew speaks for the finding that is gone."""
    if said.rule in (finding.rule, "plan-text", "unknown-kiln", "unknown-species", "unknown-place"):
        return True
    if said.rule not in ("assumed", "not-judged"):
        return False
    topics = said.instead.rpartition("(")[2].partition(")")[0].split(", ")
    return finding.rule in said.message or any(topic and cut.opening.startswith(topic) for topic in topics)


def judged_again(finding: Finding, rest: CheckedPlan, cut: Cut) -> bool:
    """The rule has a verdict on the stack still, or nothing is left of what it goes through."""
    rule = builtin().rule(finding.rule)
    assert rule is not None
    stack = next((each for each in rest.stacks if each.stack.name.text == finding.stack), None)
    if stack is None or rule.each.of_plan:
        return cut.opening.startswith(("pile", "charge"))
    if stack.facts is None:
        return False
    at = list(standings(stack.facts, rule))
    if not at:
        return cut.opening.startswith(GOES_THROUGH.get(rule.each.name, ()))
    return not any(is_undecided(rule, standing) for standing in at)


@pytest.mark.parametrize("path", FAILING, ids=lambda path: path.parent.name)
def test_no_finding_goes_without_a_word_when_a_statement_is_taken_out(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    full = check(text, "plan.stackplan", today=TODAY)
    gone = {cut.opening: found for cut in cuts(text) if (found := silent(full, cut))}
    assert gone == {}
