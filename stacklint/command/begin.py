"""``stacklint begin``: a first plan from a few answers, asked for on a terminal or given as options."""

from __future__ import annotations

import argparse
import datetime
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from stacklint.command.books import Books
from stacklint.command.output import UnwrittenError, complain, write_new_plan
from stacklint.command.usage import Parser, UsageError, day
from stacklint.files import project_root
from stacklint.report.plain import plain

if TYPE_CHECKING:
    from stacklint.beginning import Answers, Begun
    from stacklint.command.ask import Asker
    from stacklint.rulebook import RuleBook

SUMMARY = "a first plan, from a few answers or options"

_OPTIONS = (
    ("--wood", "wood", "NAME", "the wood, as white ash"),
    ("--thickness", "thickness", "LENGTH", "of the boards; 4/4 (27 mm) if not given"),
    ("--width", "width", "LENGTH", "of the boards, or a range, or random width; 6 in (150 mm) if not given"),
    ("--length", "length", "LENGTH", "of the boards, or a range; 8 ft (2.4 m) if not given"),
    ("--count", "count", "NUMBER", "how many boards"),
    ("--volume", "volume", "VOLUME", "or how much: 400 bf, 1 m3"),
    ("--moisture", "moisture", "MOISTURE", "green (if not given), air dried or a figure, as 35%%"),
    ("--place", "place", "PLACE", "where it stands: open yard (if not given), open shed, garage ..."),
    ("--near", "near", "TOWN", 'a town of the climate table, as "Columbus, OH"'),
    ("--size", "size", "SIZE", "of the stack, as 16 ft x 4 ft; to suit the boards if not given"),
    ("--stacked", "stacked", "DATE", "the day it is stacked, as 2026-04-02"),
    ("--want", "want", "MOISTURE", "the moisture content wanted, as 12%%"),
    ("--by", "by", "DATE", "the day it is wanted by"),
    ("--for", "use", "USE", "what the boards are for, as flooring"),
    ("--name", "name", "NAME", "what the pile is called; First pile if not given"),
)


def parser() -> Parser:
    parser = Parser(
        "begin",
        "Writes a first plan of a pile: the boards as answered, and the stickers, bearers,\n"
        "cover and all else as their wood and thickness want them, so that a check finds\n"
        "nothing to mend. On a terminal it asks for what the options do not say, unless\n"
        "they give --wood and --count or --volume. Answers are written as in a plan.\n\n"
        "exit code: 0 the plan is sound, 1 it is written, but a check still finds something\n"
        "that no choice mends, 2 something could not be done",
        '  stacklint begin\n  stacklint begin --wood "white ash" --thickness 5/4 --count 60 --out b2.stackplan',
    )
    for option, field, value, words in _OPTIONS:
        parser.add_argument(option, dest=field, metavar=value, help=words)
    parser.add_argument("--out", metavar="FILE", help="write the plan to a file instead of standard output")
    parser.add_argument("--overwrite", action="store_true", help="replace the file if it is there already")
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument("--today", type=day, metavar="DATE", help="the day that counts as today, as 2026-04-02")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if options.count is not None and options.volume is not None:
        usage.error("--count and --volume say the same; give one of them")
    today = options.today or datetime.date.today()
    answers = _given(options, usage, today)
    asker = _asker(today) if answers.missing else None
    if asker is not None:
        answers = asker.ask(answers)
    elif answers.missing:
        usage.error(f"give {_lacking(answers)}, or answer the questions on a terminal")
    out, overwrite = options.out, options.overwrite
    if asker is not None:
        out, overwrite = asker.where(out, overwrite=overwrite)
    books = Books(options.house)
    book = _book(books, out)
    for trouble in books.troubles:
        complain(trouble)
    code = _write(_begun(answers, book, today), out, overwrite=overwrite)
    return 2 if books.troubles else code


def _given(options: argparse.Namespace, usage: Parser, today: datetime.date) -> Answers:
    """What the options answer; one that cannot be taken ends the command."""
    from stacklint.beginning import Answers, Question, refused

    given: dict[str, str] = {}
    for option, field, _, _ in _OPTIONS:
        said = getattr(options, field)
        if said is None:
            continue
        question = Question.AMOUNT if field in ("count", "volume") else Question[field.upper()]
        refusal = refused(question, said, today)
        if refusal is not None:
            usage.error(f"{option}: {refusal.message} {refusal.instead}")
        given[question.field] = said
    return Answers(**given)


def _lacking(answers: Answers) -> str:
    from stacklint.beginning import Question

    words = {Question.WOOD: "--wood", Question.AMOUNT: "--count or --volume"}
    return " and ".join(words[question] for question in answers.missing)


def _asker(today: datetime.date) -> Asker | None:
    """Who asks; nobody where there is no terminal to ask and answer on."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        return None
    from stacklint.command.ask import Asker

    return Asker(today)


def _book(books: Books, out: str | None) -> RuleBook:
    folder = (Path(out).parent if out is not None else Path.cwd()).resolve()
    return books.of_folder(folder, project_root(folder))


def _begun(answers: Answers, book: RuleBook, today: datetime.date) -> Begun:
    from stacklint.beginning import begin

    try:
        return begin(answers, book=book, today=today)
    except ValueError as error:
        raise UsageError(f"stacklint begin: the answers do not go together: {error}") from None


def _write(begun: Begun, out: str | None, *, overwrite: bool) -> int:
    if out is not None and Path(out).is_file() and not overwrite:
        raise UnwrittenError(f"{out} is there already, and is not overwritten; --overwrite replaces it")
    write_new_plan(begun.text, out, overwrite=overwrite)
    sys.stdout.flush()
    where = "the plan" if out is None else out
    if not begun.findings:
        print(plain(f"stacklint: a check finds nothing to mend in {where}"), file=sys.stderr)
        return 0
    print(plain(f"stacklint: in {where} a check still finds what no choice mends:"), file=sys.stderr)
    for finding in begun.findings:
        print(plain(f"  {finding.level.value}: {finding.message} {finding.instead} [{finding.rule}]"), file=sys.stderr)
    return 1
