"""A text of rules beyond all measure is told once, with its limit; one just within is read like any other."""

from __future__ import annotations

import pytest

from stacklint.rulebook import RuleFault, builtin, load
from stacklint.rulebook.expressions import DEEPEST
from stacklint.rulebook.reader import LONGEST, MOST_BLOCKS, MOST_CLAUSES, MOST_FAULTS, MOST_LINES

AROUND = [pytest.param(-1, id="below"), pytest.param(0, id="at"), pytest.param(1, id="above")]
RULE = 'rule own\n  title x\n  for each stack\n  note when stack.top > 2 ft\n  say "x"\n  why "x"\n'


def faults(text: str) -> tuple[RuleFault, ...]:
    return load([("house.rules", text)], base=builtin(), house=True).faults


def is_told_only_above(found: tuple[RuleFault, ...], more: int, limit: int) -> None:
    if more <= 0:
        assert found == ()
        return
    (fault,) = found
    assert f"{limit:,}" in fault.message
    assert fault.instead


@pytest.mark.parametrize("more", AROUND)
def test_lines_of_a_text(more: int) -> None:
    text = "\n" * (MOST_LINES - 6 + more) + RULE
    is_told_only_above(faults(text), more, MOST_LINES)


@pytest.mark.parametrize("more", AROUND)
def test_rules_of_a_text(more: int) -> None:
    text = "".join(RULE.replace("own", f"own-{number}") for number in range(MOST_BLOCKS + more))
    is_told_only_above(faults(text), more, MOST_BLOCKS)


@pytest.mark.parametrize("more", AROUND)
def test_clauses_of_a_rule(more: int) -> None:
    lets = "".join(f"  let l{number} = stack.top\n" for number in range(MOST_CLAUSES - 5 + more))
    found = faults(RULE + lets)
    told = [fault.message for fault in found if "not used" not in fault.message]
    assert [str(MOST_CLAUSES) in message for message in told] == [True] * (more > 0)


@pytest.mark.parametrize("more", AROUND)
def test_characters_of_a_clause(more: int) -> None:
    written = 'caution "'
    text = RULE + "  " + written + "x" * (LONGEST - len(written) - 1 + more) + '"\n'
    is_told_only_above(faults(text), more, LONGEST)


@pytest.mark.parametrize("more", AROUND)
def test_an_expression_nested_in_itself(more: int) -> None:
    # The comparison is a depth of its own, and what it compares another.
    deep = RULE.replace("when", "when " + "not " * (DEEPEST - 2 + more))
    is_told_only_above(faults(deep), more, DEEPEST)


@pytest.mark.parametrize("more", AROUND)
def test_faults_of_a_text(more: int) -> None:
    found = faults("bogus\n" * (MOST_FAULTS + more))
    told = [fault for fault in found if "not listed" in fault.message]
    assert len(found) == min(MOST_FAULTS + more, MOST_FAULTS + 1)
    assert len(told) == (more > 0)


def test_faults_that_are_found_when_rules_are_built_count_too() -> None:
    wrong = RULE.replace("stack.top", "stack.tip")
    text = "".join(wrong.replace("own", f"own-{number}") for number in range(MOST_FAULTS + 20))
    found = faults(text)
    assert len(found) == MOST_FAULTS + 1
    assert f"{MOST_FAULTS}" in found[-1].message


def test_a_limit_that_cannot_be_read_is_told_once_and_not_where_it_is_used() -> None:
    (fault,) = faults("change stickers-uneven\n  limit alike = 1/16 in source \"not closed\n")
    assert fault.where.path == "house.rules"
