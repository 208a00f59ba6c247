"""``stacklint check``: what is wrong with plans, for a person, for programs and for CI."""

from __future__ import annotations

import argparse
import datetime
import sys
from collections.abc import Iterator
from typing import IO

from stacklint.command.books import Books
from stacklint.command.output import complain, opened
from stacklint.command.usage import Parser, Report, day, fail_level, report
from stacklint.files import PlanFile, Trouble, lending, plans
from stacklint.findings import Level
from stacklint.report.answer import Answer, Answers

SUMMARY = "what is wrong with plans, and what to do about it"


def parser() -> Parser:
    parser = Parser(
        "check",
        "Checks plans of lumber stacks and kiln charges, and tells what is wrong in them\n"
        "and what to do.\n\n"
        "House rules are read from the files house.rules beside a plan and in the folders\n"
        "above it, up to the project's first folder: the nearest one under version control,\n"
        "or else the folder that is named here, or that of the plan. A nearer file goes on\n"
        "top of a farther one. One with a fault in it is set aside: it is told, the other\n"
        "rules judge, and the exit code is 2. Plans that a rule file names as its examples\n"
        "are passed over where a folder is named.\n\n"
        "As html all plans come on one page: a table that can be sorted and filtered, what\n"
        "stands in which spot and kiln month by month, and the findings.\n\n"
        "exit code: 0 nothing at or above --fail-at, 1 findings, 2 something could not\n"
        "be done",
        "  stacklint check yard/ --as lines --fail-at warning\n"
        "  stacklint check yard/ --as html --out yard.html --sheets sheets/",
    )
    parser.add_argument(
        "paths", nargs="*", metavar="PATH", help="a plan, a folder of *.stackplan files, or - for standard input"
    )
    parser.add_argument(
        "--as",
        dest="report",
        type=report,
        metavar="FORM",
        help="screen, lines, json, sarif or html; screen on a terminal, else lines",
    )
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument(
        "--today", type=day, metavar="DATE", help="the day to judge by, as 2026-04-02; today if not given"
    )
    parser.add_argument(
        "--fail-at",
        type=fail_level,
        default=Level.ERROR,
        metavar="LEVEL",
        help="the level from which on the exit code is 1: error (if not given), warning, note or never",
    )
    parser.add_argument("--out", metavar="FILE", help="write the report to a file instead of standard output")
    parser.add_argument(
        "--sheets", metavar="FOLDER", help="with --as html: write each plan's build sheet there and link to it"
    )
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if not options.paths:
        usage.error("name a plan, a folder or - for standard input")
    if options.sheets is not None and options.report is not Report.HTML:
        usage.error("--sheets goes with --as html")
    run = _Run(options)
    with opened(options.out) as out:
        form = options.report or (Report.SCREEN if options.out is None and out.isatty() else Report.LINES)
        _print(run, form, out)
    if run.troubles:
        return 2
    failing: Level | None = options.fail_at
    return int(failing is not None and run.worst >= failing.rank)


class _Run:
    """Checks plan after plan; tells of troubles as they come, and keeps them."""

    def __init__(self, options: argparse.Namespace) -> None:
        self.options = options
        self._books = Books(options.house)
        self.troubles: list[Trouble] = []
        self.worst = 0

    def answers(self, *, mention_empty: bool) -> Iterator[Answer]:
        from stacklint.checking import check

        for plan in plans(self.options.paths):
            if isinstance(plan, Trouble):
                self._trouble(plan)
                continue
            book = self._books.of_plan(plan)
            while self._books.troubles:
                self._trouble(self._books.troubles.pop(0))
            checked = check(plan.text, plan.path, book=book, today=self.options.today, use=lending(plan.root))
            if checked.worst:
                self.worst = max(self.worst, checked.worst.rank)
            if mention_empty and _says_nothing(plan):
                complain(Trouble(plan.path, "holds no pile and no charge"))
            yield Answer(checked, book)

    def _trouble(self, trouble: Trouble) -> None:
        sys.stdout.flush()
        complain(trouble)
        self.troubles.append(trouble)


def _says_nothing(plan: PlanFile) -> bool:
    """Nothing but blanks and comments; a text of shared blocks alone is no cause for a word."""
    return all(not line.strip() or line.lstrip().startswith("#") for line in plan.text.split("\n"))


def _print(run: _Run, form: Report, out: IO[str]) -> None:
    if form is Report.SCREEN:
        from stacklint.report.screen import Screen

        screen = Screen(out)
        for answer in run.answers(mention_empty=False):
            screen.plan(answer)
        screen.close()
        return
    if form is Report.LINES:
        from stacklint.report.lines import lines

        for answer in run.answers(mention_empty=True):
            out.writelines(f"{line}\n" for line in lines(answer.checked))
        return
    if form is Report.HTML:
        _print_html(run, out)
        return
    found = tuple(run.answers(mention_empty=True))
    answers = Answers(found, tuple(run.troubles))
    if form is Report.JSON:
        from stacklint.report.json_output import as_json

        out.write(as_json(answers) + "\n")
    else:
        from stacklint.report.sarif import as_sarif

        out.write(as_sarif(answers) + "\n")


def _print_html(run: _Run, out: IO[str]) -> None:
    """One page. Of each plan only what the page tells is kept, so that a large yard needs little memory."""
    from stacklint.command.sheets import Sheets
    from stacklint.report.coop_page import coop_html
    from stacklint.report.coop_plan import coop_plan

    today = run.options.today or datetime.date.today()
    sheets = None if run.options.sheets is None else Sheets(run.options.sheets, run.options.out, today)
    plans_told = [
        coop_plan(answer.checked, sheets.write(answer.checked) if sheets else None)
        for answer in run.answers(mention_empty=True)
    ]
    out.write(coop_html(plans_told, run.troubles, today))
