"""``stacklint forecast``: how the boards dry, when they are ready, and what sets the day."""

from __future__ import annotations

import argparse
import datetime
import os
import shutil
from collections.abc import Iterator
from typing import IO, TYPE_CHECKING

from stacklint.command.output import complain, opened
from stacklint.command.usage import Parser, Report, day, did_you_mean, screen_json_or_csv
from stacklint.files import Trouble, lending, plans

if TYPE_CHECKING:
    from stacklint.checked import CheckedPlan

SUMMARY = "how the boards dry, when they are ready, and what sets the day"
_MOST = 2


def parser() -> Parser:
    parser = Parser(
        "forecast",
        "Foretells how the boards of a plan dry, day by day: a drying curve with its range,\n"
        "when they are ready, the water to take out, what sets the time and what would\n"
        "shorten it. Two plans, or two stacks of one, are drawn together.\n\n"
        "As csv there is a line for each day and batch. Names there that begin as a formula\n"
        "would (= + - @) have an apostrophe before them.\n\n"
        "exit code: 0 all foretold, 1 a stack has no forecast, 2 something could not be done",
        "  stacklint forecast b2.stackplan --today 2026-06-01",
    )
    parser.add_argument("plans", nargs="*", metavar="PLAN", help="a plan or two, or - for standard input")
    parser.add_argument(
        "--as",
        dest="report",
        type=screen_json_or_csv,
        default=Report.SCREEN,
        metavar="FORM",
        help="screen (if not given), json or csv",
    )
    parser.add_argument("--stack", metavar="NAME", help="the pile or charge to foretell; all of the plan if not given")
    parser.add_argument("--today", type=day, metavar="DATE", help="the day that counts as today, as 2026-04-02")
    parser.add_argument("--out", metavar="FILE", help="write the forecast to a file instead of standard output")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if not options.plans:
        usage.error("name a plan or two, or - for standard input")
    if len(options.plans) > _MOST:
        usage.error(f"{options.plans[_MOST]} is one plan too many; two can be compared")
    today = options.today or datetime.date.today()
    with opened(options.out) as out:
        answers = tuple(_checked(options, today))
        found = [answer for answer in answers if not isinstance(answer, Trouble)]
        troubles = [answer for answer in answers if isinstance(answer, Trouble)]
        for trouble in troubles:
            complain(trouble)
        _print(found, troubles, options.report, today, out)
    return 2 if troubles else int(any(map(_lacks_one, found)))


def _checked(options: argparse.Namespace, today: datetime.date) -> Iterator[CheckedPlan | Trouble]:
    from stacklint.checking import check

    for plan in plans(options.plans):
        if isinstance(plan, Trouble):
            yield plan
            continue
        checked = check(plan.text, plan.path, today=today, use=lending(plan.root), look_for_shorter=True)
        yield checked if options.stack is None else _only(checked, options.stack)


def _only(checked: CheckedPlan, name: str) -> CheckedPlan | Trouble:
    """The plan with the stack of that name alone."""
    names = [stack.stack.name.text for stack in checked.stacks]
    stacks = tuple(stack for stack in checked.stacks if stack.stack.name.text.casefold() == name.casefold())
    if stacks:
        return checked._replace(stacks=stacks)
    near = did_you_mean(name, names) if names else ""
    return Trouble(checked.path, f"holds no pile and no charge {name}{near}")


def _lacks_one(checked: CheckedPlan) -> bool:
    from stacklint.drying.forecast import Forecast

    return any(not isinstance(stack.forecast, Forecast) for stack in checked.stacks)


def _print(found: list[CheckedPlan], troubles: list[Trouble], form: Report, today: datetime.date, out: IO[str]) -> None:
    if form is Report.JSON:
        from stacklint.report.forecast_data import forecast_json

        out.write(forecast_json(found, troubles) + "\n")
    elif form is Report.CSV:
        from stacklint.report.forecast_csv import forecast_csv

        out.write(forecast_csv(found))
    elif found:
        from stacklint.report.curve_glyphs import curve_glyphs_for
        from stacklint.report.forecast_text import Look, forecast_text

        plain_locale = os.environ.get("LC_ALL") in ("C", "POSIX")
        glyphs = curve_glyphs_for(getattr(out, "encoding", None), plain_locale=plain_locale)
        out.writelines(f"{line}\n" for line in forecast_text(found, Look(_width(out), glyphs, today)))


def _width(out: IO[str]) -> int:
    """The terminal's columns; 80 where the forecast goes elsewhere and no ``COLUMNS`` are set."""
    if out.isatty() or os.environ.get("COLUMNS"):
        return shutil.get_terminal_size((80, 24)).columns
    return 80
