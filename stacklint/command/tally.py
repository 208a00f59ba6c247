"""``stacklint tally``: volume, pieces, weight, stickers to cut and loads."""

from __future__ import annotations

import argparse

from stacklint.command.output import complain, opened
from stacklint.command.usage import Parser, Report, screen_or_json
from stacklint.files import Trouble, lending, plans

SUMMARY = "volume, pieces, weight, stickers to cut and loads of a plan"


def parser() -> Parser:
    parser = Parser(
        "tally",
        "Reckons what a plan comes to: volume, pieces, weight now, green and dry, stickers\n"
        "to cut, what each bearer and footing carries, and the share of a kiln that a\n"
        "charge takes.\n\n"
        "exit code: 0 all reckoned, 1 a stack has faults that stand in the way, 2 something\n"
        "could not be done",
        "  stacklint tally b2.stackplan",
    )
    parser.add_argument("plan", nargs="?", metavar="PLAN", help="a plan, or - for standard input")
    parser.add_argument(
        "--as",
        dest="report",
        type=screen_or_json,
        default=Report.SCREEN,
        metavar="FORM",
        help="screen (if not given) or json",
    )
    parser.add_argument("--out", metavar="FILE", help="write the tally to a file instead of standard output")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if options.plan is None:
        usage.error("name a plan, or - for standard input")
    from stacklint.checking import check
    from stacklint.report.tally import tally_json, tally_text

    code = 0
    with opened(options.out) as out:
        for plan in plans([options.plan]):
            if isinstance(plan, Trouble):
                complain(plan)
                code = 2
                continue
            checked = check(plan.text, plan.path, use=lending(plan.root))
            if any(stack.facts is None for stack in checked.stacks):
                code = max(code, 1)
            if options.report is Report.JSON:
                out.write(tally_json(checked) + "\n")
            else:
                out.writelines(f"{line}\n" for line in tally_text(checked))
    return code
