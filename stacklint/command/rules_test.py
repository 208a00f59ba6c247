"""``stacklint rules-test``: whether house rules do what the example plans beside them say."""

from __future__ import annotations

import argparse
import datetime
import sys
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from stacklint.command.books import Books
from stacklint.command.output import complain
from stacklint.command.usage import Parser, Report, day, lines_or_json
from stacklint.files import HOUSE_RULES, Trouble, lending, shown
from stacklint.rule_files import RuleFile, example_plan, rule_files

if TYPE_CHECKING:
    from stacklint.checked import CheckedPlan
    from stacklint.rulebook import RuleBook
    from stacklint.rulebook.tested import RuleTested

SUMMARY = "whether house rules do what their example plans say"


def parser() -> Parser:
    parser = Parser(
        "rules-test",
        "Tests house rules by example plans. A rule or a change names them, by their paths\n"
        "from the folder of the rule file:\n\n"
        '  fails "examples/too-wide.stackplan"           the rule must find something in it\n'
        '  fails warning "examples/wide.stackplan"       and give a warning\n'
        '  passes "examples/just-right.stackplan"        the rule must find nothing in it\n\n'
        "The rules of a house.rules are tested together with those of the files house.rules\n"
        "farther up, as they hold for plans beside it; those of another rule file as they\n"
        "hold where it is named as --house. A rule file with a fault is not tested: the\n"
        "fault is told, the other files are.\n\n"
        "exit code: 0 all rules do as their examples say, 1 some do not, 2 something could\n"
        "not be done",
        "  stacklint rules-test\n  stacklint rules-test yards/ --today 2026-06-01 --as json",
    )
    parser.add_argument(
        "paths",
        nargs="*",
        metavar="PATH",
        help="a rule file, or a folder that is searched for *.rules; the current folder if none is named",
    )
    parser.add_argument(
        "--as",
        dest="report",
        type=lines_or_json,
        default=Report.LINES,
        metavar="FORM",
        help="lines (if not given) or json",
    )
    parser.add_argument(
        "--today", type=day, metavar="DATE", help="the day to judge by, as 2026-04-02; today if not given"
    )
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:  # noqa: ARG001 - every command is run so
    from stacklint.report.rules_tested import summary, tested_json, tested_lines

    run = _Run(options.today or datetime.date.today())
    as_json = options.report is Report.JSON
    rules: list[RuleTested] = []
    for rule in run.rules(options.paths or ["."]):
        rules.append(rule)
        for line in () if as_json else tested_lines(rule):
            print(line)
    if as_json:
        print(tested_json(rules, run.troubles))
    else:
        for line in summary(rules, run.files):
            print(line)
    if run.troubles:
        return 2
    return int(not all(rule.holds for rule in rules))


class _Run:
    """Tests file after file; tells of troubles as they come, and keeps them."""

    def __init__(self, today: datetime.date) -> None:
        self._today = today
        self._books = Books(None)
        self.troubles: list[Trouble] = []
        self.files = 0

    def rules(self, paths: list[str]) -> Iterator[RuleTested]:
        """The rules of each file that has no fault, tested."""
        from stacklint.rulebook.reader import read
        from stacklint.rulebook.tested import try_rules

        for file in rule_files(paths):
            if isinstance(file, Trouble):
                self._trouble(file)
                continue
            book = self._book(file)
            if book is None:
                continue
            self.files += 1
            blocks, _ = read(file.path, file.text, house=True)
            for rule in try_rules(blocks, self._checking(file, book)):
                for untried in rule.untried:
                    self._trouble(Trouble(file.path, untried.why, untried.example.where))
                yield rule

    def _book(self, file: RuleFile) -> RuleBook | None:
        """The rules that hold where the file does; ``None`` if it is set aside."""
        books = self._books if file.is_house_rules else Books(file.path)
        book = books.of_folder(file.folder, file.root)
        while books.troubles:
            self._trouble(books.troubles.pop(0))
        name = shown(file.folder / HOUSE_RULES) if file.is_house_rules else file.path
        accepted = any(house.name == name for house in books.sources(file.folder, file.root))
        return book if accepted else None

    def _checking(self, file: RuleFile, book: RuleBook) -> Callable[[str], CheckedPlan | str]:
        from stacklint.checking import check

        checked: dict[str, CheckedPlan | str] = {}

        def checking(name: str) -> CheckedPlan | str:
            if name not in checked:
                plan = example_plan(name, file)
                checked[name] = (
                    plan
                    if isinstance(plan, str)
                    else check(plan.text, plan.path, book=book, today=self._today, use=lending(plan.root))
                )
            return checked[name]

        return checking

    def _trouble(self, trouble: Trouble) -> None:
        sys.stdout.flush()
        complain(trouble)
        self.troubles.append(trouble)
