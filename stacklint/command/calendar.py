"""``stacklint calendar``: what stands where, month by month, when each stack is ready, and what it waits for."""

from __future__ import annotations

import argparse
import datetime
import os
import shutil
from pathlib import Path
from typing import IO

from stacklint.calendar.frame import USUAL
from stacklint.calendar.gathered import YardCalendar, gathered
from stacklint.command.many import Many, add_judging, add_means, add_plans, means
from stacklint.command.output import opened
from stacklint.command.progress import Progress
from stacklint.command.usage import Parser, Report, month, months, screen_json_html_or_ics
from stacklint.report.kept import Kept
from stacklint.running.job import Form, at_home

SUMMARY = "what stands where month by month, when it is ready, and what it waits for"


def parser() -> Parser:
    parser = Parser(
        "calendar",
        "Shows what stands in which spot and kiln month by month, how full sites and kilns\n"
        "are and when they are free; and of each stack when it is ready, by when it is\n"
        "wanted, how late that is, and what it waits for: a pile that is not dry, a kiln\n"
        "that is taken, the air.\n\n"
        "As ics it is a calendar (RFC 5545) that calendar programs show: events for what\n"
        "stands where, kiln bookings, the days on which stacks are likely ready and those\n"
        "by which they are wanted. Of the months only those asked for, else all.\n\n"
        "exit code: 0 told, 2 something could not be read",
        "  stacklint calendar yard/ --from 2026-06 --months 6\n"
        "  stacklint calendar yard/ --as ics --out yard.ics",
    )
    add_plans(parser)
    parser.add_argument(
        "--as",
        dest="report",
        type=screen_json_html_or_ics,
        default=Report.SCREEN,
        metavar="FORM",
        help="screen (if not given), json, html or ics",
    )
    parser.add_argument(
        "--from",
        dest="first",
        type=month,
        metavar="MONTH",
        help="the first month to show, as 2026-04; this month, or the one in which the first stack comes, if not given",
    )
    parser.add_argument(
        "--months", type=months, metavar="N", help=f"how many months to show; {USUAL} if not given, 60 at the most"
    )
    add_judging(parser)
    parser.add_argument("--out", metavar="FILE", help="write the calendar to a file instead of standard output")
    add_means(parser)
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if not options.paths:
        usage.error("name a plan, a folder or - for standard input")
    today = options.today or datetime.date.today()
    many = Many(options.paths, options.house, today, means(options))
    with opened(options.out) as out:
        plans: list[Kept] = []
        roots: dict[str, Path] = {}
        for outcome in many.outcomes(Form(), Progress(out)):
            kept = outcome.done.kept
            roots[kept.path] = outcome.job.plan.root
            plans.append(kept._replace(findings=(), waived=(), figures=()))
        calendar = gathered(plans, today, options.first, options.months or USUAL)
        _print(calendar, many, roots, options, out)
    return 2 if many.troubles else 0


def _print(
    calendar: YardCalendar, many: Many, roots: dict[str, Path], options: argparse.Namespace, out: IO[str]
) -> None:
    match options.report:
        case Report.JSON:
            from stacklint.report.calendar_data import calendar_json

            out.write(calendar_json(calendar, many.troubles) + "\n")
        case Report.ICS:
            from stacklint.report.calendar_events import calendar_ics

            asked = options.first is not None or options.months is not None
            events = calendar_ics(calendar, lambda path: at_home(roots[path])(path), within_frame=asked)
            _write(events, out)
        case Report.HTML:
            from stacklint.report.calendar_page import calendar_html

            out.write(calendar_html(calendar, many.troubles))
        case _:
            from stacklint.report.calendar_text import Look, calendar_text
            from stacklint.report.stay_glyphs import stay_glyphs_for

            plain_locale = os.environ.get("LC_ALL") in ("C", "POSIX")
            glyphs = stay_glyphs_for(getattr(out, "encoding", None), plain_locale=plain_locale)
            out.writelines(f"{line}\n" for line in calendar_text(calendar, Look(_width(out), glyphs)))


def _write(content: bytes, out: IO[str]) -> None:
    """As bytes where that can be: the format has an encoding and line ends of its own, whatever the system's are."""
    buffer: IO[bytes] | None = getattr(out, "buffer", None)
    if buffer is None:
        out.write(content.decode("utf-8"))
        return
    out.flush()
    buffer.write(content)


def _width(out: IO[str]) -> int:
    """The terminal's columns; 80 where the calendar goes elsewhere and no ``COLUMNS`` are set."""
    if out.isatty() or os.environ.get("COLUMNS"):
        return shutil.get_terminal_size((80, 24)).columns
    return 80
