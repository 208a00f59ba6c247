"""``stacklint sheet``: the build sheet of a plan, to be printed and taken out to the yard."""

from __future__ import annotations

import argparse
import datetime
from typing import TYPE_CHECKING

from stacklint.command.books import Books
from stacklint.command.output import complain, opened
from stacklint.command.usage import Parser, day, did_you_mean
from stacklint.files import Trouble, lending, plans
from stacklint.report.by_stack import only

if TYPE_CHECKING:
    from stacklint.checked import CheckedPlan

SUMMARY = "a page to print and build from: drawings, build list, cut list, readings"


def parser() -> Parser:
    parser = Parser(
        "sheet",
        "Writes one page of HTML for each stack of a plan, to be printed on A4 or Letter\n"
        "paper or read on a phone: drawings to scale, findings, the build list in order,\n"
        "the cut list, the tally, the drying curve, and a table for readings. The page\n"
        "needs no network and no script. House rules count as in a check.\n\n"
        "exit code: 0 all written, 1 a stack has faults that stand in the way, 2 something\n"
        "could not be done",
        "  stacklint sheet b2.stackplan --out b2.html",
    )
    parser.add_argument("plan", nargs="?", metavar="PLAN", help="a plan, or - for standard input")
    parser.add_argument("--out", metavar="FILE", help="write the page to a file instead of standard output")
    parser.add_argument("--stack", metavar="NAME", help="the pile or charge to write; all of the plan if not given")
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument("--today", type=day, metavar="DATE", help="the day that counts as today, as 2026-04-02")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if options.plan is None:
        usage.error("name a plan, or - for standard input")
    from stacklint.report.sheet_page import sheet_html

    today = options.today or datetime.date.today()
    checked, troubles = _checked(options, today)
    for trouble in troubles:
        complain(trouble)
    if checked is None:
        return 2
    page = sheet_html(checked, today)
    with opened(options.out) as out:
        out.write(page)
    if troubles:
        return 2
    return int(any(stack.facts is None for stack in checked.stacks))


def _checked(options: argparse.Namespace, today: datetime.date) -> tuple[CheckedPlan | None, list[Trouble]]:
    """The plan, or ``None`` where there is none to write of; and what could not be done."""
    from stacklint.checking import check

    found = plans([options.plan])
    plan = next(found)
    if isinstance(plan, Trouble):
        return None, [plan]
    if next(found, None) is not None:
        return None, [Trouble(options.plan, "holds several plans; a sheet is written of one, so name one of them")]
    books = Books(options.house)
    book = books.of_plan(plan)
    checked = check(plan.text, plan.path, book=book, today=today, use=lending(plan.root))
    if options.stack is None:
        return checked, books.troubles
    chosen = only(checked, options.stack)
    return (chosen, books.troubles) if chosen is not None else (None, [*books.troubles, _no_such(checked, options)])


def _no_such(checked: CheckedPlan, options: argparse.Namespace) -> Trouble:
    names = [stack.stack.name.text for stack in checked.stacks]
    near = did_you_mean(options.stack, names) if names else ""
    return Trouble(checked.path, f"holds no pile and no charge {options.stack}{near}")
