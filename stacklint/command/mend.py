"""``stacklint mend``: the smallest changes of plans that clear what a check finds."""

from __future__ import annotations

import argparse
import shutil
import sys
import textwrap
from typing import TYPE_CHECKING

from stacklint.command.books import Books
from stacklint.command.output import complain
from stacklint.command.usage import Parser, day, did_you_mean
from stacklint.files import STANDARD_INPUT, PlanFile, Trouble, as_it_stands, lending, plans
from stacklint.findings import Level
from stacklint.report.plain import plain

if TYPE_CHECKING:
    from stacklint.mending import Mended

SUMMARY = "the smallest changes of a plan that clear what a check finds"
_INPUT = "standard input"


def parser() -> Parser:
    parser = Parser(
        "mend",
        "Looks for the smallest change of a plan's text that clears each finding, and shows\n"
        "it as a unified diff with its reason. Every change was tried before it is shown:\n"
        "checked again, the plan no longer has that finding, nor a new one as grave; where\n"
        "a word could not be read, what it kept hidden may come to light. The rest of the\n"
        "text stays as it is. The changes follow one on the other, the gravest first, so\n"
        "that they go together. What only a person can decide is said, not guessed.\n\n"
        "Files are written whole or not at all. With --write the mended text of standard\n"
        "input goes to standard output.\n\n"
        "exit code: 0 nothing to mend, or all of it written and no warning or error left,\n"
        "1 changes are offered or a warning or an error is left, 2 something could not be\n"
        "done",
        "  stacklint mend b2.stackplan\n  stacklint mend yard/ --write --only cover-too-short",
    )
    parser.add_argument("plans", nargs="*", metavar="PATH", help="a plan, a folder of plans, or - for standard input")
    parser.add_argument("--write", action="store_true", help="make the changes instead of showing them")
    parser.add_argument(
        "--only", action="append", metavar="RULE", help="mend findings of this rule alone; may be given several times"
    )
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument(
        "--today", type=day, metavar="DATE", help="the day to judge by, as 2026-04-02; today if not given"
    )
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if not options.plans:
        usage.error("name a plan, a folder or - for standard input")
    if options.write and STANDARD_INPUT in options.plans and len(options.plans) > 1:
        usage.error("with --write, - goes alone: its mended text is all that is written")
    books = Books(options.house)
    code = 0
    for plan in plans(options.plans):
        if isinstance(plan, Trouble):
            _trouble(plan)
            code = 2
        else:
            code = max(code, _mend(plan, books, options, usage))
    return code


def _mend(plan: PlanFile, books: Books, options: argparse.Namespace, usage: Parser) -> int:
    from stacklint.mending import mended

    book = books.of_plan(plan)
    code = 0
    while books.troubles:
        _trouble(books.troubles.pop(0))
        code = 2
    for rule in options.only or ():
        if rule not in book.names:
            usage.error(f"there is no rule {rule}{did_you_mean(rule, book.names)}")
    found = mended(
        plan.text,
        plan.path,
        book=book,
        today=options.today,
        use=lending(plan.root),
        only=frozenset(options.only) if options.only else None,
    )
    if options.write:
        return max(code, _write(plan, found))
    _show(plan, found)
    return max(code, int(bool(found.steps) or _is_wanting(found)))


def _is_wanting(found: Mended) -> bool:
    """A warning or an error is left."""
    return any(each.finding.level is not Level.NOTE for each in found.left)


def _show(plan: PlanFile, found: Mended) -> None:
    from stacklint.changes import diff

    name = _name(plan)
    for step in found.steps:
        finding = step.mend.finding
        _tell(f"{name}, line {finding.where.line}: {finding.message} ({finding.rule}, {finding.level.value})")
        others = f" This clears {step.more} more." if step.more else ""
        _tell(f"{step.mend.reason}{others}")
        for line in diff(step.before, step.after, name).splitlines():
            print(plain(line))
        print()
    for line in _left(name, found):
        _tell(line)


def _tell(sentence: str) -> None:
    """Prints a sentence: on a terminal folded between words at its width, elsewhere on one line."""
    text = plain(sentence)
    if sys.stdout.isatty():
        width = shutil.get_terminal_size((80, 24)).columns
        text = textwrap.fill(text, width, break_long_words=False, break_on_hyphens=False)
    print(text)


def _left(name: str, found: Mended) -> list[str]:
    """What is left to people, a line each."""
    lines = []
    for each in found.left:
        finding = each.finding
        where = f"{name if finding.where.path == STANDARD_INPUT else finding.where.path}, line {finding.where.line}"
        lines.append(
            plain(f"{where}: {finding.message} ({finding.rule}, {finding.level.value}) Left to you: {each.sentence}")
        )
    return lines


def _write(plan: PlanFile, found: Mended) -> int:
    left = int(_is_wanting(found))
    name = _name(plan)
    if plan.path == STANDARD_INPUT:
        sys.stdout.flush()
        sys.stdout.buffer.write(found.text.encode())
        for line in _left(name, found):
            print(line, file=sys.stderr)
        return left
    if found.steps:
        trouble = _rewritten(plan, found)
        if trouble is not None:
            _trouble(trouble)
            return 2
        for step in found.steps:
            others = f" This clears {step.more} more." if step.more else ""
            _tell(f"{name}: {step.mend.reason} ({step.mend.rule}){others}")
    for line in _left(name, found):
        _tell(line)
    return left


def _rewritten(plan: PlanFile, found: Mended) -> Trouble | None:
    """Makes the changes in the file as it stands, its line ends and byte order mark kept."""
    from stacklint.changes import changed
    from stacklint.command.rewriting import rewrite

    before = as_it_stands(plan.path)
    if isinstance(before, Trouble):
        return before
    if before.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n") != plan.text:
        return Trouble(plan.path, "was changed by another program meanwhile; it was left as it is")
    after = before
    for step in found.steps:
        after = changed(after, step.mend.changes)
    return rewrite(plan.path, before, after)


def _name(plan: PlanFile) -> str:
    return _INPUT if plan.path == STANDARD_INPUT else plan.path


def _trouble(trouble: Trouble) -> None:
    sys.stdout.flush()
    complain(trouble)
