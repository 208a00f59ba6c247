"""``stacklint tidy``: plans in the standard layout."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator

from stacklint.command.output import complain
from stacklint.command.usage import Parser
from stacklint.files import STANDARD_INPUT, Trouble, as_it_stands, input_as_it_stands, plans
from stacklint.report.plain import plain

SUMMARY = "plans in the standard layout, every comment kept"
_INPUT = "standard input"


def parser() -> Parser:
    parser = Parser(
        "tidy",
        "Puts plans into the standard layout: blocks and statements in the order of the\n"
        "language reference, one statement a line, two spaces in, everyday spellings of\n"
        "units and words made the standard ones. A plan says the same afterwards: figures\n"
        "keep their units, and every comment stays with its statement. A line that cannot\n"
        "be read is left as it stands, and so is the order of its block.\n\n"
        "Files are written whole or not at all. The tidied text of standard input goes to\n"
        "standard output.\n\n"
        "exit code: 0 all tidy or made so, 1 with --check when a plan is not tidy, 2 something\n"
        "could not be done",
        "  stacklint tidy yard/\n  stacklint tidy --check --diff yard/",
    )
    parser.add_argument("plans", nargs="*", metavar="PATH", help="a plan, a folder of plans, or - for standard input")
    parser.add_argument("--check", action="store_true", help="write nothing; name the plans that are not tidy")
    parser.add_argument("--diff", action="store_true", help="write nothing; show what would change")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if not options.plans:
        usage.error("name a plan, a folder or - for standard input")
    if STANDARD_INPUT in options.plans and len(options.plans) > 1:
        usage.error("- goes alone: its tidied text is all that is written")
    code = 0
    for text in _texts(options.plans):
        if isinstance(text, Trouble):
            complain(text)
            code = 2
        else:
            code = max(code, _tidy(*text, options))
    return code


def _texts(names: list[str]) -> Iterator[tuple[str, str] | Trouble]:
    """The name and the text of each plan, as it stands."""
    if names == [STANDARD_INPUT]:
        text = input_as_it_stands()
        yield text if isinstance(text, Trouble) else (STANDARD_INPUT, text)
        return
    for plan in plans(names):
        text = plan if isinstance(plan, Trouble) else as_it_stands(plan.path)
        yield text if isinstance(text, Trouble) else (plan.path, text)


def _tidy(path: str, before: str, options: argparse.Namespace) -> int:
    from stacklint.tidying import tidy

    after, left = tidy(before)
    name = _INPUT if path == STANDARD_INPUT else path
    for line in left:
        complain(Trouble(f"{name}:{line}", "cannot be read and stays as it is; stacklint check says why"))
    if options.check or options.diff:
        return _tell(name, before, after, options)
    if path == STANDARD_INPUT:
        sys.stdout.flush()
        sys.stdout.buffer.write(after.encode())
    elif after != before:
        return _write(path, before, after)
    return 0


def _tell(name: str, before: str, after: str, options: argparse.Namespace) -> int:
    if after == before:
        return 0
    if options.check:
        print(plain(f"{name} is not tidy"))
    if options.diff:
        from stacklint.changes import diff

        shown = diff(before, after, name)
        if sys.stdout.isatty():
            shown = "".join(f"{plain(line)}\n" for line in shown.splitlines())
        sys.stdout.write(shown)
    return int(options.check)


def _write(path: str, before: str, after: str) -> int:
    from stacklint.command.rewriting import rewrite

    trouble = rewrite(path, before, after)
    if trouble is not None:
        complain(trouble)
        return 2
    print(plain(f"{path} tidied"))
    return 0
