"""Fuzz target ``rules``: a text is loaded as house rules and as rules of the book, and a plan is judged by it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from fuzz.oracle import inside, strict_json
from fuzz.plan_target import TODAY

from stacklint.changes import with_line_ends
from stacklint.checking import check
from stacklint.editor.findings import told_of_rules
from stacklint.editor.symbols import folds, rule_symbols
from stacklint.report.answer import Answer, Answers
from stacklint.report.json_output import as_json
from stacklint.rulebook import RuleBook, builtin, builtin_texts, load
from stacklint.rulebook.grammar import RESERVED
from stacklint.rulebook.reader import CLAUSES, MOST_FAULTS
from stacklint.rulebook.scope import collections, facts_of
from stacklint.units import Unit

MARKS = (
    *("when", "each", "source", "memory", "because", "against", "as", "(", ")", "[", "]", "{", "}", '"', "'", "#"),
    *("&", "+", "-", "*", "/", "=", "!=", "<", "<=", ">", ">=", ",", ".", ":", "\n", "\n  ", "\r\n", "\t", "\x00"),
    *("0", "1/0", "9" * 60, "1e9", "1 1/4 in", "5/4", "-5 C", "x in stack.courses: ", "not in", "is unknown", "é"),
)
_ROOT = Path(__file__).parents[2]


def seeds() -> Iterator[bytes]:
    """Each rule of the book by itself, each as a change and a skip of it, and the file as it stands."""
    for _, text in builtin_texts():
        yield text.encode()
        for rule in re.split(r"\n(?=rule )", text):
            yield rule.encode()
            name = re.match(r"rule (\S+)\n", rule)
            if name is not None:
                yield rule.replace("rule ", "change ", 1).encode()
                yield rule.replace(name.group(1), "new-rule", 1).encode()
                yield f'skip {name.group(1)} because "not here"\n'.encode()


@cache
def words() -> tuple[str, ...]:
    """The words of the rule language, the facts of every collection, and marks."""
    facts = {name for each in collections().values() for name in facts_of(each.of)}
    rules = builtin().names
    return (*CLAUSES, *sorted(RESERVED), *collections(), *sorted(facts), *rules, *_units(), *MARKS)


def examine(data: bytes) -> None:
    text = with_line_ends(data.decode("utf-8", "replace"), "\n")
    for house in (True, False):
        loaded = load([("house.rules", text)], base=builtin(), house=house)
        assert len(loaded.faults) <= MOST_FAULTS + 1
        for fault in loaded.faults:
            if fault.where.path == "house.rules":
                inside(fault.where, text)
            assert fault.message and fault.instead
        if house and not loaded.faults:
            _judges(loaded.book)
    told_of_rules(text, "house.rules")
    for fold in folds(rule_symbols(text, "house.rules"), text):
        assert 1 <= fold.first < fold.last <= text.count("\n") + 1


def _judges(book: RuleBook) -> None:
    for text in _plans():
        checked = check(text, book=book, today=TODAY)
        for finding in checked.findings:
            inside(finding.where, text)
        strict_json(as_json(Answers((Answer(checked, book),))))


@cache
def _plans() -> tuple[str, ...]:
    """A pile and a charge with something of everything."""
    names = ("sound-pile", "sound-charge")
    return tuple((_ROOT / "examples" / f"{name}.stackplan").read_text(encoding="utf-8") for name in names)


def _units() -> tuple[str, ...]:
    return tuple(unit.symbol for unit in Unit if unit.symbol)
