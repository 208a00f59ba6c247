"""``stacklint why``: a rule, its limits, reasons, sources and an example; or the rule book."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from stacklint.command.books import Books
from stacklint.command.output import complain, opened
from stacklint.command.usage import Parser, Report, did_you_mean, screen_or_html
from stacklint.files import project_root

if TYPE_CHECKING:
    from stacklint.rulebook import RuleBook

SUMMARY = "a rule, its limits, reasons and sources; without a name, the rule book"


def parser() -> Parser:
    parser = Parser(
        "why",
        "Teaches a rule: what it catches, its limits and where each comes from, a plan that\n"
        "fails it and how that is mended. Without a name it lists the rules, topic by topic;\n"
        "with --all it tells of every rule, on one page. House rules of the current folder,\n"
        "or those named, are counted in.",
        "  stacklint why sag-between-stickers\n  stacklint why --all --as html --out rules.html",
    )
    parser.add_argument("rule", nargs="?", metavar="RULE", help="a rule's name, as a finding shows it in brackets")
    parser.add_argument("--all", action="store_true", help="the whole rule book, every rule told in full")
    parser.add_argument(
        "--as",
        dest="report",
        type=screen_or_html,
        default=Report.SCREEN,
        metavar="FORM",
        help="screen (if not given), or html with --all",
    )
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument("--out", metavar="FILE", help="write the page to a file instead of standard output")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if options.all and options.rule is not None:
        usage.error("name a rule or say --all, not both")
    if options.report is Report.HTML and not options.all:
        usage.error("--as html goes with --all")
    here = Path.cwd().resolve()
    books = Books(options.house)
    book = books.of_folder(here, project_root(here))
    for trouble in books.troubles:
        complain(trouble)
    with opened(options.out) as out:
        if options.report is Report.HTML:
            from stacklint.lessons import lesson
            from stacklint.report.rule_page import rules_html

            out.write(rules_html(book, lesson))
        else:
            out.writelines(f"{line}\n" for line in _lines(options, book, usage))
    return 2 if books.troubles else 0


def _lines(options: argparse.Namespace, book: RuleBook, usage: Parser) -> Iterator[str]:
    from stacklint.report.reasons import rule_book, rule_reasons, skipped_reasons, whole_book

    if options.rule is None and not options.all:
        return rule_book(book)
    from stacklint.lessons import lesson

    if options.all:
        return whole_book(book, lesson)
    if rule := book.rule(options.rule):
        return rule_reasons(rule, lesson(rule.name))
    skipped = next((each for each in book.skipped if each.rule.name == options.rule), None)
    if skipped is None:
        near = book.nearest(options.rule)
        offer = did_you_mean(near, [near]) if near else "; stacklint why lists all rules"
        usage.error(f"there is no rule {options.rule}{offer}")
    return skipped_reasons(skipped, lesson(skipped.rule.name))
