"""Rule files in an editor: their faults, what can be written in them, and what a fact means."""

from __future__ import annotations

import pytest
from editor_marks import marked, rules_offered

from stacklint.editor.findings import told_of_rules
from stacklint.editor.rule_answers import rule_completion, rule_hover
from stacklint.rulebook import builtin, builtin_texts, load
from stacklint.rulebook.reader import CLAUSES
from stacklint.rulebook.scope import collections, facts_of

RULE = """\
rule boards-sag
  title    Boards sag
  for each span
  limit    most = 1/16 in  source "common practice, no published source"
  error    when span.sag > most
  say      "{span.boards} would sag {span.sag}."
  why      "They keep their bend."
"""


def told(text: str) -> str | None:
    page, spot = marked(text)
    answer = rule_hover(page, spot, builtin())
    return None if answer is None else answer.text.replace("\\", "")


@pytest.mark.parametrize("path, text", builtin_texts(), ids=[path for path, _ in builtin_texts()])
def test_the_built_in_rules_have_no_faults(path, text):
    assert told_of_rules(text, f"/any/where/{path}") == ()


def test_house_rules_are_read_on_top_of_the_built_in_ones():
    assert told_of_rules('skip lift-too-heavy because "forklift only"\n', "/yard/house.rules") == ()


def test_a_fault_of_a_rule_stands_at_its_place_with_what_to_write():
    (fault,) = told_of_rules(RULE.replace("span.sag > most", "span.sagg > most"), "/yard/house.rules")
    assert fault.where.line == 5
    assert "sagg" in fault.message and "sag" in fault.message.replace("sagg", "")


def test_a_line_begins_with_a_clause_or_a_block():
    assert set(rules_offered(f"{RULE}  |")) == {"rule", "change", "skip", "keep", *CLAUSES}
    assert "title" in rules_offered(f"{RULE}  ti|")


def test_for_each_is_offered_every_collection():
    assert rules_offered("rule x\n  for each |") == list(collections())


def test_keep_is_offered_the_rules_that_house_rules_farther_up_skip():
    book = load([("house.rules", 'skip lift-too-heavy because "forklift only"\n')], base=builtin(), house=True).book
    page, spot = marked("keep |")
    assert [(offer.shown, offer.means) for offer in rule_completion(page, spot, book)] == [
        ("lift-too-heavy", "forklift only")
    ]


def test_an_example_is_offered_the_levels_that_it_may_fail_at():
    assert rules_offered("change no-cover\n  fails |") == ["error", "warning", "note"]
    assert rules_offered('change no-cover\n  fails "a|') == []


def test_a_variable_is_offered_the_facts_of_its_class():
    assert set(facts_of("Span")) <= set(rules_offered(RULE.replace("span.sag > most", "span.|")))
    assert "spacing_for(...)" in rules_offered(RULE.replace("span.sag > most", "span.sp|"))


def test_facts_of_facts_are_offered():
    found = rules_offered("rule x\n  for each charge\n  error when charge.kiln.|")
    assert "holds" in found and "pieces" not in found


def test_the_variable_of_a_quantifier_has_the_facts_of_its_collection():
    found = rules_offered("rule x\n  for each charge\n  error when any(g in charge.groups: g.|")
    assert set(facts_of("Group")) <= set(found)


def test_an_expression_is_offered_its_variables_limits_and_quantifiers():
    found = rules_offered(RULE.replace("span.sag > most", "|"))
    assert {"span", "stack", "most", "any", "largest"} <= set(found)


def test_a_rule_of_the_whole_text_has_no_stack():
    assert "stack" not in rules_offered("rule x\n  for each fault\n  error when |")


def test_a_figure_is_offered_units():
    assert {"in", "mm", "psf", "%"} <= set(rules_offered("rule x\n  for each span\n  limit most = 1/16 |"))


def test_a_message_is_offered_facts_between_braces_only():
    assert "sag" in rules_offered(RULE.replace('"{span.boards} would', '"{span.|} would'))
    assert rules_offered(RULE.replace("would sag", "would span.|")) == []


def test_changes_and_skips_are_offered_the_rules():
    assert rules_offered("change sag|") == list(builtin().names)
    assert rules_offered("skip |") == list(builtin().names)


def test_a_change_knows_the_limits_and_facts_of_its_rule():
    found = rules_offered("change sag-between-stickers\n  error when |")
    assert {"span", "noticeable", "spoiled"} <= set(found)


def test_nothing_is_offered_in_a_comment_or_a_reason():
    assert rules_offered("# ru|") == []
    assert rules_offered(RULE.replace("keep their", "keep |their")) == []


def test_a_fact_tells_its_meaning_and_unit():
    page = told(RULE.replace("span.sag > most", "span.s|ag > most"))
    assert "span.sag" in page and "a length, kept in m" in page
    assert facts_of("Span")["sag"].means in page


def test_each_part_of_a_dotted_name_tells_of_itself():
    text = "rule x\n  for each charge\n  error when charge.kiln.holds > 3 m3\n"
    assert "a kiln" in told(text.replace("charge.kiln", "charge.ki|ln"))
    assert "a volume, kept in m3" in told(text.replace("holds", "ho|lds"))
    assert "a stack" in told(text.replace("charge.kiln", "cha|rge.kiln"))


def test_a_fact_that_takes_an_argument_tells_what():
    page = told(RULE.replace("span.sag > most", "span.spacing|_for(most) > 1 m"))
    assert "asked with a length" in page


def test_a_limit_tells_its_figure_and_source():
    page = told(RULE.replace("> most", "> mo|st"))
    assert '1/16 in source "common practice, no published source"' in page.replace("  ", " ")


def test_a_changed_rule_tells_its_reasons():
    rule = builtin().rule("sag-between-stickers")
    assert rule.why in told("change sag-betw|een-stickers\n")


def test_a_collection_tells_what_it_goes_through():
    assert "its boards between supports" in told(RULE.replace("each span", "each sp|an"))


def test_words_of_a_text_tell_nothing():
    assert told(RULE.replace("keep their", "keep |their")) is None
    assert told("# sp|an") is None


def test_every_fact_that_is_offered_is_known_to_the_rule_language():
    page, _ = marked(RULE.replace("span.sag > most", "span.|"))
    for name in rules_offered(RULE.replace("span.sag > most", "span.|")):
        if name.endswith("(...)"):
            continue
        rule = page.text.replace("when span.", f"when span.{name} is known").replace(
            "  limit    most = 1/16 in", "  # "
        )
        assert load([("house.rules", rule)], house=True).faults == ()
