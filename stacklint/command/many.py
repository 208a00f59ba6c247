"""Plans that a command is given, checked one after the other and then together, for ``check`` and ``calendar``."""

from __future__ import annotations

import argparse
import datetime
import sys
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from stacklint.command.books import Books
from stacklint.command.output import complain
from stacklint.command.progress import Progress
from stacklint.command.usage import Parser, day, processes
from stacklint.files import PlanFile, Trouble, how_many, plans, real_paths
from stacklint.rulebook import HouseRules, RuleBook, book_of
from stacklint.running.job import Form, Job
from stacklint.running.run import CHUNK, Outcome, Runner, cores
from stacklint.yard.judging import YardJudgement, judged
from stacklint.yard.spelling import respelled
from stacklint.yard.stands import YardPlan

if TYPE_CHECKING:
    from stacklint.running.cache import Cache

NO_CACHE = "none"
_NOTHING_DRAWN = Form()


class Means(NamedTuple):
    """With how many processes, and in which folder results are kept: ``none`` for nowhere, ``None`` for the user's."""

    cores: int
    cache: str | None


def add_plans(parser: Parser) -> None:
    """What is to be checked."""
    parser.add_argument(
        "paths", nargs="*", metavar="PATH", help="a plan, a folder of *.stackplan files, or - for standard input"
    )


def add_judging(parser: Parser) -> None:
    """By what it is judged: house rules and the day."""
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument(
        "--today", type=day, metavar="DATE", help="the day to judge by, as 2026-04-02; today if not given"
    )


def add_means(parser: Parser) -> None:
    """The options that say by what means many plans are checked; :func:`means` reads them."""
    parser.add_argument(
        "--processes", type=processes, metavar="N", help="how many work at once; one for each core if not given"
    )
    parser.add_argument(
        "--cache",
        metavar="FOLDER",
        help="where results of long runs are kept, or none; a folder of the user's if not given",
    )


def means(options: argparse.Namespace) -> Means:
    return Means(options.processes or cores(), options.cache)


def jobs(
    paths: Sequence[str], house: str | None, today: datetime.date, form: Form = _NOTHING_DRAWN
) -> Iterator[Job | Trouble]:
    """What is to be done to check what the command line names; a trouble stands for what cannot be read.

    ``house`` is a file of house rules to use in place of any other.
    """
    books = Books(house)
    for plan in plans(paths):
        if isinstance(plan, Trouble):
            yield plan
            continue
        houses = books.sources(plan.folder, plan.root)
        while books.troubles:
            yield books.troubles.pop(0)
        yield Job(plan, houses, today, form)


class Many:
    """Checks what the command line names. Troubles are told as they come, and kept."""

    def __init__(self, paths: Sequence[str], house: str | None, today: datetime.date, means: Means) -> None:
        self._paths = paths
        self._house = house
        self._means = means
        self.today = today
        self.troubles: list[Trouble] = []
        self._houses: dict[str, tuple[HouseRules, ...]] = {}
        self._yard: list[YardPlan] = []
        self.empty: list[str] = []

    def outcomes(self, form: Form, progress: Progress) -> Iterator[Outcome]:
        """What comes of each plan, in the order of the plans."""
        total = how_many(self._paths)
        few = total < CHUNK
        progress.begin(total)
        with self._cache(few=few) as cache, Runner(1 if few else self._means.cores, cache) as runner:
            for outcome in runner.outcomes(self._jobs(form)):
                self._yard.append(outcome.done.kept.yard)
                progress.one_more()
                yield outcome
        progress.end()

    def _cache(self, *, few: bool) -> AbstractContextManager[Cache | None]:
        """Where results are kept; a few plans are checked in less time than they are looked up."""
        folder = None if few else _folder(self._means.cache)
        if folder is None:
            return nullcontext()
        from stacklint.running.cache import opened

        return opened(folder, datetime.date.today())

    def yard(self) -> YardJudgement:
        """What the plans say of one another; to be asked when all of them are checked."""
        return judged(self.plans, lambda plan: self.book(plan.path), self.today)

    @property
    def plans(self) -> Sequence[YardPlan]:
        """What the yard needs of each plan, each text by one path."""
        return respelled(self._yard, real_paths())

    def book(self, path: str) -> RuleBook:
        """The rules that the plan at a path was judged by."""
        return book_of(self._houses[path])

    def _jobs(self, form: Form) -> Iterator[Job]:
        for each in jobs(self._paths, self._house, self.today, form):
            if isinstance(each, Trouble):
                self._trouble(each)
                continue
            self._houses[each.plan.path] = each.houses
            if _says_nothing(each.plan):
                self.empty.append(each.plan.path)
            yield each

    def _trouble(self, trouble: Trouble) -> None:
        sys.stdout.flush()
        complain(trouble)
        self.troubles.append(trouble)


def _folder(named: str | None) -> Path | None:
    if named == NO_CACHE:
        return None
    if named is not None:
        return Path(named)
    from platformdirs import user_cache_path

    return user_cache_path("stacklint", appauthor=False)


def _says_nothing(plan: PlanFile) -> bool:
    """Nothing but blanks and comments; a text of shared blocks alone is no cause for a word."""
    return all(not line.strip() or line.lstrip().startswith("#") for line in plan.text.split("\n"))
