"""``stacklint why``: a rule, its limits, reasons and sources; without a name, the rule book."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from stacklint.command.books import Books
from stacklint.command.output import complain
from stacklint.command.usage import Parser, did_you_mean
from stacklint.files import project_root

SUMMARY = "a rule, its limits, reasons and sources; without a name, the rule book"


def parser() -> Parser:
    parser = Parser(
        "why",
        "Tells of a rule: what it catches, its limits and where each comes from. Without a\n"
        "name it lists the rules, topic by topic. House rules of the current folder, or\n"
        "those named, are counted in.",
        "  stacklint why sag-between-stickers",
    )
    parser.add_argument("rule", nargs="?", metavar="RULE", help="a rule's name, as a finding shows it in brackets")
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    from stacklint.report.reasons import rule_book, rule_reasons, skipped_reasons

    here = Path.cwd().resolve()
    books = Books(options.house)
    book = books.of_folder(here, project_root(here))
    for trouble in books.troubles:
        complain(trouble)
    code = 2 if books.troubles else 0
    if options.rule is None:
        lines = rule_book(book)
    elif rule := book.rule(options.rule):
        lines = rule_reasons(rule)
    elif skipped := next((each for each in book.skipped if each.rule.name == options.rule), None):
        lines = skipped_reasons(skipped)
    else:
        near = book.nearest(options.rule)
        offer = did_you_mean(near, [near]) if near else "; stacklint why lists all rules"
        usage.error(f"there is no rule {options.rule}{offer}")
    sys.stdout.writelines(f"{line}\n" for line in lines)
    return code
