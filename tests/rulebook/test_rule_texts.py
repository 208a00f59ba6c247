"""How rule files are cut into rules, and what is said of those that are wrong."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.findings import Level
from stacklint.rulebook import RuleFault, load
from stacklint.rulebook.reader import CLAUSES
from stacklint.units import LENGTH

WHOLE = """\
# Ends
rule ends-too-long   # a name
  title    Ends hang too far: a sawyer's complaint#1  # said plainly
  card     "end stickers"
  for each end
  limit    most = 3 in   source "an old book,"
                                "page 3"
           memory
  limit    far  = 2 * most  source "a # in a text"
  let      green = end.moisture > 25%
  where    green
           and not end.inside
  error    when end.past > far
  warning  when end.past > most
  measure  end.past against most
  at       stack.cover
  say      "The end of {end.boards} hangs {end.past}"
           " past."   # the end
  instead  "Within {most}."
  why      "It droops."
  caution  "Mind your head."
"""


def faults(text: str, **kept: Any) -> list[RuleFault]:
    return list(load([("yard.rules", text)], **kept).faults)


def test_a_whole_rule_is_read_clause_by_clause(book: Any) -> None:
    rule = book(WHOLE).rule("ends-too-long")
    assert rule.title == "Ends hang too far: a sawyer's complaint#1"
    assert rule.card == "end stickers"
    assert rule.each.name == "end"
    assert rule.why == "It droops."
    assert rule.caution == "Mind your head."
    assert rule.levels == (Level.ERROR, Level.WARNING)
    most, far = rule.limits
    assert (most.source, most.memory, most.written) == ("an old book, page 3", True, "3 in")
    assert (far.source, far.memory) == ("a # in a text", False)
    assert far.value.value == pytest.approx(6 * 0.0254)
    assert far.value.dimension == LENGTH
    assert rule.where.line == 2


def test_line_ends_of_another_system_and_a_missing_last_one_are_read_alike(book: Any) -> None:
    assert book(WHOLE.replace("\n", "\r\n")).names == book(WHOLE.rstrip()).names == ("ends-too-long",)


def rule_with(clauses: str = "", *, head: str = "", level: str = "error when span.sag > most") -> str:
    return (
        f"rule sags\n  title Sags\n  for each span\n{head}"
        f'  limit most = 1/8 in source "a book"\n  {level}\n{clauses}'
        '  say "{span.boards}"\n  why "It sags."\n'
    )


def line_of(text: str, part: str) -> int:
    return next(number for number, line in enumerate(text.split("\n"), 1) if part in line)


@pytest.mark.parametrize(
    ("text", "part", "columns", "message", "instead"),
    [
        (rule_with("  errror when span.sag > most\n"), "errror", (3, 9), "There is no clause errror.", "Write error."),
        (rule_with("  limit big = 3 in\n"), "big", (15, 19), "big gives no source.", "source"),
        (rule_with('  limit most = 3 in source "b"\n'), "3 in", (9, 13), "most is named twice.", "one of the two"),
        (rule_with('  limit span = 3 in source "b"\n'), "3 in", (9, 13), "span already stands for a span.", "another"),
        (
            rule_with('  limit known = 3 in source "b"\n'),
            "3 in",
            (9, 14),
            "known is a word of the rule",
            "another name",
        ),
        (rule_with('  limit big 3 in source "b"\n'), "big", (9, 28), "big is given no value.", "NAME = VALUE"),
        (rule_with('  limit big = 3 in source "b"\n'), "big", (9, 12), "big is not used in the rule sags.", "most"),
        (rule_with("  let wet = span.moisture\n"), "wet", (7, 10), "wet is not used in the rule sags.", "most"),
        (rule_with('  limit big = span.sag source "b"\n'), "big", (15, 23), "span.sag is not one fixed figure.", "let"),
        (rule_with('  limit big = "x" source "b"\n'), "big", (15, 18), "big is a text; a limit is a quantity.", "let"),
        (rule_with('  limit big = 1/0 in source "b"\n'), "big", (15, 21), "1/0 in divides by zero.", "figure"),
        (rule_with("  note span.sag > most\n"), "note", (8, 23), "note does not say when.", "note when CONDITION"),
        (rule_with("  note when span.boards\n"), "note", (13, 24), "span.boards is a text where yes or no", "known"),
        (rule_with("  error when span.sag > 1 in\n"), "> 1 in", (3, 8), "This rule has error twice.", "or"),
        (rule_with("  where\n"), "where", (3, 8), "Nothing follows where.", "same line"),
        (rule_with("  where span.sag > mosst\n"), "where", (20, 25), "Nothing here is named mosst.", "Write most."),
        (rule_with("  at span.sag\n"), "at span", (6, 14), "span.sag is a length, which has no place", "stack"),
        (rule_with("  at stack.groups\n"), "at stack", (6, 18), "stack.groups is a collection, which has", "cover"),
        (rule_with("  measure span.sag\n"), "measure", (11, 19), "measure does not say against what.", "against"),
        (
            rule_with("  measure span.sag against 3 lb\n"),
            "measure",
            (11, 32),
            "a length is measured against a weight.",
            "of its kind",
        ),
        (rule_with('  instead "{mosst}"\n'), "mosst", (13, 18), "Nothing here is named mosst.", "Write most."),
        (rule_with('  instead "{span.sag as lb}"\n'), "as lb", (25, 27), "span.sag is a length, and lb meas", "in or"),
        (rule_with('  instead "{span.sag as inch}"\n'), "inch", (25, 29), "There is no unit inch.", "Write in or min."),
        (rule_with('  instead "{span.with_stack}"\n'), "with_", (13, 28), "span.with_stack is yes or no, wh", "if"),
        (rule_with('  instead "{stack.groups}"\n'), "groups", (13, 25), "stack.groups is a collection", "text by it"),
        (rule_with('  instead "a {span.sag"\n'), "a {", (14, 15), "A { stands without its }.", "{{"),
        (rule_with('  instead "a } b"\n'), "a }", (14, 15), "A } stands without its {.", "}}"),
        (rule_with('  instead "a {} b"\n'), "a {", (15, 16), "The expression ends too soon.", "expression"),
        (rule_with('  instead "open\n'), "open", (11, 16), "A text is not closed.", 'End it with "'),
        (rule_with('  instead "a"\n    "b" c\n'), '"b" c', (9, 10), "c stands where a text belongs.", "quotes"),
        (rule_with("  instead bare words\n"), "bare", (11, 21), "bare words stands where a text belongs.", "quotes"),
        (rule_with("  never error\n"), "never", (3, 8), "never belongs to house rules.", "out of the rule"),
        (rule_with("  for each spam\n"), "spam", (3, 6), "This rule has for twice.", "one of the two"),
        (rule_with().replace("each span", "each spam"), "spam", (12, 16), "There is no collection spam.", "span"),
        (rule_with().replace("for each span", "for span"), "for", (7, 11), "for is not followed by each.", "for each"),
        (rule_with().replace("  title Sags\n", ""), "rule", (1, 10), "The rule sags has no title.", "title"),
        (rule_with().replace("  for each span\n", ""), "rule", (1, 10), "The rule sags has no for each.", "for each"),
        (rule_with().replace('  why "It sags."\n', ""), "rule", (1, 10), "The rule sags has no why.", "why"),
        (rule_with().replace("  say", "  instead"), "rule", (1, 10), "The rule sags has no say.", "say"),
        (rule_with(level=""), "rule", (1, 10), "The rule sags has no level.", "error when"),
        (rule_with() + rule_with(), "rule", (1, 10), "There is a rule sags already in yard.rules, line 1.", "another"),
        ("title Alone\n", "title", (1, 6), "This title belongs to no rule.", "rule NAME"),
        ("rule Sags\n", "rule", (6, 10), "Sags cannot name a rule.", "small letters"),
        ("rule\n", "rule", (5, 6), "The rule has no name.", "Name it"),
        ("3 rules\n", "3", (1, 8), "3 cannot start a clause.", "keyword"),
        ("change sags\n  never error\n", "change", (1, 12), "change belongs to house rules.", "house.rules"),
        ('skip sags because "x"\n', "skip", (1, 22), "skip belongs to house rules.", "house.rules"),
    ],
)
def test_a_faulty_clause_is_named_at_its_place_with_a_way_out(
    text: str, part: str, columns: tuple[int, int], message: str, instead: str
) -> None:
    found = [fault for fault in faults(text) if message in fault.message]
    assert found, [fault.message for fault in faults(text)]
    where = found[0].where
    assert (where.column, where.end_column) == columns
    if text != rule_with() + rule_with():
        assert where.line == line_of(text, part)
    assert instead in found[0].instead


def test_all_faults_of_a_file_are_told_in_one_run_and_its_good_rules_are_kept() -> None:
    bad = (
        "rule bad\n  title Bad\n  for each span\n  where span.sagg > 1 in\n"
        '  error when span.sag > 3 lb\n  warning when span.sag > none\n  say "{span.bords}"\n  why "x"\n'
    )
    loaded = load([("yard.rules", bad + rule_with())])
    assert [fault.where.line for fault in loaded.faults] == [4, 5, 6, 7]
    assert loaded.book.names == ("sags",)


def test_a_faulty_limit_is_told_once_and_not_wherever_it_is_used() -> None:
    text = rule_with(level="error when span.sag > most").replace("1/8 in", "1/8 inn")
    assert [fault.message for fault in faults(text)] == ["There is no unit inn."]


def test_a_fault_on_a_continued_line_is_placed_on_that_line() -> None:
    text = rule_with(level="error when span.sag > most\n     and span.lenth > 1 in")
    (fault,) = faults(text)
    assert (fault.where.line, fault.where.column, fault.where.end_column) == (6, 15, 20)
    assert fault.instead == "Write length."


@pytest.mark.parametrize("line", ["limit most = 3 in", "at span", "never note"])
def test_faults_never_hide_each_other(line: str) -> None:
    text = f'rule one\n  {line}\nrule two\n  why "x"\n'
    names = {fault.message.split(" has no ")[0] for fault in faults(text)}
    assert {"The rule one", "The rule two"} <= names


LINES = st.lists(
    st.tuples(
        st.sampled_from([*CLAUSES, "rule", "change", "skip", "keep", "", "#", '"', "'", "and", "for each"]),
        st.text(alphabet="abc span.sag=<>1/8 in()\"'{}#&:,-", max_size=20) | st.text(max_size=10),
    ).map(" ".join),
    max_size=12,
)


@given(LINES, st.booleans())
def test_no_text_breaks_the_loader(lines: list[str], house: bool) -> None:
    text = "\n".join(lines)
    for fault in load([("yard.rules", text), ("more.rules", rule_with() + text)], house=house).faults:
        assert fault.message and fault.instead
        assert 1 <= fault.where.line <= fault.where.end_line
        assert fault.where.column >= 1


@given(st.integers(0, len(rule_with())), st.text(max_size=3), st.integers(0, 6))
def test_no_slip_of_the_pen_breaks_the_loader(at: int, typed: str, deleted: int) -> None:
    text = rule_with()[:at] + typed + rule_with()[at + deleted :]
    loaded = load([("yard.rules", text)])
    assert len(loaded.book.rules) + len(loaded.faults) > 0 or "rule" not in text.split("#")[0]


def test_a_long_row_of_open_quotes_and_braces_is_read_in_no_time() -> None:
    import time

    started = time.process_time()
    for text in (
        'say "' + "{a}" * 20_000,
        'say "' + "{" * 20_000,
        "error when " + "(" * 20_000,
        "limit " + "1/" * 9_000,
    ):
        assert faults(rule_with(f"  {text}\n"))
    assert time.process_time() - started < 2.0
