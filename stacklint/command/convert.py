"""``stacklint convert``: a tally in comma-separated values made a plan."""

from __future__ import annotations

import argparse
from pathlib import PurePath

from stacklint.command.output import complain, write_new_plan
from stacklint.command.usage import Parser
from stacklint.files import STANDARD_INPUT, Trouble, plans, read
from stacklint.where import Where

SUMMARY = "boards lines of a plan from a tally in comma-separated values"


def parser() -> Parser:
    parser = Parser(
        "convert",
        "Makes a pile with its boards lines of a tally in comma-separated values (RFC\n"
        "4180; semicolons and tabs part cells too). Columns are known by their headings, in\n"
        "any order: species, thickness, width, length or size (5/4x6x10', 2x8-16), count or\n"
        "volume, moisture, notes. A heading may name the unit: width (in), length_mm.\n\n"
        "A row that cannot be read is told with its line, and kept in the plan as a comment.\n\n"
        "exit code: 0 all rows converted, 1 rows could not be read, 2 it could not be done",
        "  stacklint convert boards.csv --out b2.stackplan",
    )
    parser.add_argument("tally", nargs="?", metavar="FILE", help="the tally, or - for standard input")
    parser.add_argument("--name", metavar="NAME", help="the pile's name; that of the tally's file if not given")
    parser.add_argument("--wood", metavar="WOOD", help="the wood of rows that name none")
    parser.add_argument("--together", action="store_true", help="sum rows that are alike but for their count")
    parser.add_argument("--out", metavar="FILE", help="write the plan to a new file instead of standard output")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if options.tally is None:
        usage.error("name a tally in comma-separated values, or - for standard input")
    text = _text(options.tally)
    if isinstance(text, Trouble):
        complain(text)
        return 2
    from stacklint.convert import TableTrouble, convert

    name = options.name or ("boards" if options.tally == STANDARD_INPUT else PurePath(options.tally).stem)
    converted = convert(text, name, wood=options.wood, together=options.together)
    if isinstance(converted, TableTrouble):
        complain(Trouble(options.tally, converted.message))
        return 2
    write_new_plan(converted.text, options.out)
    for note in converted.notes:
        complain(Trouble(options.tally, note))
    for row in converted.unread:
        complain(Trouble(options.tally, row.why, Where(options.tally, row.line, 1, row.line, 2)))
    return int(bool(converted.unread))


def _text(name: str) -> str | Trouble:
    if name != STANDARD_INPUT:
        return read(name)
    plan = next(plans([name]))
    return plan if isinstance(plan, Trouble) else plan.text
