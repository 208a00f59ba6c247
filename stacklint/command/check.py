"""``stacklint check``: what is wrong with plans, for a person, for programs and for CI."""

from __future__ import annotations

import argparse
import datetime
import os
import sys
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import IO, TYPE_CHECKING

from stacklint.command.many import Many, add_judging, add_means, add_plans, means
from stacklint.command.output import complain, opened
from stacklint.command.progress import Progress
from stacklint.command.tellers import (
    Between,
    Ending,
    HtmlTeller,
    JsonTeller,
    LinesTeller,
    SarifTeller,
    ScreenTeller,
    Teller,
)
from stacklint.command.usage import Parser, Report, UsageError, fail_level, report
from stacklint.files import PLAN_SUFFIX, Trouble, how_many
from stacklint.findings import Finding, Level
from stacklint.report.fingerprints import fingerprints, texts_of
from stacklint.report.kept import Told, ToldWaived
from stacklint.report.plain import plain
from stacklint.running.job import Drawn, at_home
from stacklint.running.run import Outcome
from stacklint.yard.judging import YardJudgement
from stacklint.yard.stands import YardPlan

if TYPE_CHECKING:
    from stacklint.command.accepting import Accepting
    from stacklint.running.since import Changed

MANY = 20
"""Plans from which on those in which nothing is found are answered in a line on a screen."""

SUMMARY = "what is wrong with plans, and what to do about it"


def parser() -> Parser:
    parser = Parser(
        "check",
        "Checks plans of lumber stacks and kiln charges, and tells what is wrong in them\n"
        "and what to do.\n\n"
        "House rules are read from the files house.rules beside a plan and in the folders\n"
        "above it, up to the project's first folder: the nearest one under version control,\n"
        "or else the folder that is named here, or that of the plan. A nearer file goes on\n"
        "top of a farther one. One with a fault in it is set aside: it is told, the other\n"
        "rules judge, and the exit code is 2. Plans that a rule file names as its examples\n"
        "are passed over where a folder is named.\n\n"
        "As html all plans come on one page: a table that can be sorted and filtered, what\n"
        "stands in which spot and kiln month by month, and the findings.\n\n"
        "exit code: 0 nothing at or above --fail-at, 1 findings, 2 something could not\n"
        "be done",
        "  stacklint check yard/ --as lines --fail-at warning\n"
        "  stacklint check yard/ --as html --out yard.html --sheets sheets/",
    )
    add_plans(parser)
    parser.add_argument(
        "--as",
        dest="report",
        type=report,
        metavar="FORM",
        help="screen, lines, json, sarif or html; screen on a terminal, else lines",
    )
    add_judging(parser)
    parser.add_argument(
        "--fail-at",
        type=fail_level,
        default=Level.ERROR,
        metavar="LEVEL",
        help="the level from which on the exit code is 1: error (if not given), warning, note or never",
    )
    parser.add_argument("--out", metavar="FILE", help="write the report to a file instead of standard output")
    parser.add_argument(
        "--sheets", metavar="FOLDER", help="with --as html: write each plan's build sheet there and link to it"
    )
    parser.add_argument(
        "--since",
        metavar="REVISION",
        help="tell only what a change since a revision of git can affect; all plans are still seen together",
    )
    parser.add_argument(
        "--accept-today",
        metavar="FILE",
        help="record the findings of today in a file that is not there; where it is, only new findings count",
    )
    add_means(parser)
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if not options.paths:
        usage.error("name a plan, a folder or - for standard input")
    if options.sheets is not None and options.report is not Report.HTML:
        usage.error("--sheets goes with --as html")
    if options.since is not None and options.report is Report.HTML:
        usage.error("--since does not go with --as html: a page shows the whole yard")
    record: str | None = options.accept_today
    if record is not None and (not record or record.lower().endswith(PLAN_SUFFIX)):
        usage.error("--accept-today needs the name of a text that is no plan, such as accepted.txt")
    if record is not None and record == options.out:
        usage.error("--out and --accept-today name one file; name two")
    today = options.today or datetime.date.today()
    many = Many(options.paths, options.house, today, means(options))
    accepting = _accepting(record) if record is not None else None
    if options.since is not None and accepting is not None and accepting.making:
        usage.error(f"there is no record {record}; make it once without --since, and keep it with the plans")
    with opened(options.out) as out:
        form = options.report or (Report.SCREEN if options.out is None and out.isatty() else Report.LINES)
        check = _Check(many, accepting, options.since)
        progress = Progress(out)
        check.tell(
            _teller(form, out, progress, options, check, many), progress, mention_empty=form is not Report.SCREEN
        )
    if many.troubles:
        return 2
    failing: Level | None = options.fail_at
    return int(failing is not None and check.worst >= failing.rank)


class _Check:
    """One run: tells each plan as it comes and then what is found between them; notes how grave the gravest is."""

    def __init__(self, many: Many, accepting: Accepting | None, since: str | None) -> None:
        self._many = many
        self.accepting = accepting
        self._since = since
        self._changed: dict[Path, Changed] = {}
        self._roots: dict[str, Path] = {}
        self._homes: dict[Path, Callable[[str], str]] = {}
        self._affected: set[str] = set()
        self._concerned: set[str] = set()
        self._told: set[tuple[str, str]] = set()
        self.worst = 0

    def accepted(self, told: Told) -> bool:
        return self.accepting is not None and self.accepting.record.has(told)

    def home(self, path: str) -> str:
        """A path in its project, the outermost where one lies in another."""
        real = Path(path).resolve()
        roots = (root for root in self._homes if real.is_relative_to(root))
        outermost = min(roots, key=lambda root: len(root.parts), default=None)
        return path if outermost is None else self._homes[outermost](path)

    def tell(self, teller: Teller, progress: Progress, *, mention_empty: bool) -> None:
        drawn = teller.form.drawn is Drawn.SCREEN
        for whole in self._many.outcomes(teller.form, progress):
            path, root = whole.job.plan.path, whole.job.plan.root
            self._roots[path] = root
            outcome = whole if drawn else self._without_repeated(whole)
            if root not in self._homes:
                self._homes[root] = at_home(root)
            if self.accepting is not None:
                self.accepting.plan(path, root)
            affected = self._can_be_affected(outcome)
            self._note(path, outcome.done.kept.findings, counts=affected)
            if affected:
                self._affected.add(path)
                self._concerned.update(_concerned(outcome.done.kept.yard))
                teller.plan(outcome)
        for path in self._many.empty if mention_empty else ():
            complain(Trouble(path, "holds no pile and no charge"))
        teller.close(self._between(self._many.yard()), self._ending())

    def _without_repeated(self, outcome: Outcome) -> Outcome:
        """A fault of a text that many plans use is told with the first of them; a drawn plan shows it with each."""
        kept = outcome.done.kept
        new = []
        for told in kept.findings:
            said = (told.fingerprint, told.finding.message)
            if said not in self._told:
                new.append(told)
            self._told.add(said)
        if len(new) == len(kept.findings):
            return outcome
        done = outcome.done._replace(kept=kept._replace(findings=tuple(new)))
        return outcome._replace(done=done)

    def _ending(self) -> Ending:
        words: list[str] = []
        if self._since is not None:
            words.append(f"{len(self._affected)} of {len(self._roots)} plans can be affected since {self._since}.")
        if self.accepting is None:
            return Ending(self._many.troubles, (), words)
        gone = self.accepting.gone()
        said = self.accepting.close()
        for line in said:
            print(plain(line), file=sys.stderr)
        return Ending(self._many.troubles, gone, words)

    def _can_be_affected(self, outcome: Outcome) -> bool:
        if self._since is None:
            return True
        root = outcome.job.plan.root
        if root not in self._changed:
            self._changed[root] = _changed(self._since, root)
        return self._changed[root].can_affect(outcome.job, outcome.done)

    def _note(self, path: str, found: Iterable[Told], *, counts: bool, involves: Iterable[str] = ()) -> None:
        for told in found:
            if self.accepting is not None:
                self.accepting.see(path, self._roots[path], told, involves)
            making = self.accepting is not None and self.accepting.making
            if counts and not making and not self.accepted(told):
                self.worst = max(self.worst, told.finding.level.rank)

    def _between(self, yard: YardJudgement) -> Between:
        """What is found between the plans, as far as a plan that can be affected has a share in it, or a pile of which
        such a plan takes boards: it stands longer when its charge comes later."""
        findings: dict[str, list[Told]] = defaultdict(list)
        waived: dict[str, list[ToldWaived]] = defaultdict(list)
        for path, found in groupby(yard.findings, key=lambda each: each.path):
            said = list(found)
            prints = self._prints(path, [each.finding for each in said])
            for each, fingerprint in zip(said, prints, strict=True):
                told = Told(each.finding, fingerprint)
                counts = self._concerns(each.involves)
                self._note(path, (told,), counts=counts, involves=each.involves)
                if counts:
                    findings[path].append(told)
        for path, silent in groupby(yard.waived, key=lambda each: each.path):
            kept = list(silent)
            prints = self._prints(path, [one.waived.finding for one in kept])
            for one, fingerprint in zip(kept, prints, strict=True):
                if self._concerns(one.involves):
                    waived[path].append(ToldWaived(one.waived, fingerprint))
        return Between(findings, waived)

    def _concerns(self, plans: Iterable[str]) -> bool:
        return any(os.path.normpath(plan) in self._concerned for plan in plans)

    def _prints(self, path: str, findings: Sequence[Finding]) -> Iterator[str]:
        return fingerprints(findings, self._homes[self._roots[path]], texts_of({}))


def _concerned(plan: YardPlan) -> Iterator[str]:
    """The plan, and those of whose piles it takes boards."""
    yield os.path.normpath(plan.path)
    yield from (taking.block.path for stand in plan.stands for taking in stand.takings)


def _accepting(path: str) -> Accepting:
    from stacklint.command.accepting import Accepting

    return Accepting(path)


def _changed(revision: str, root: Path) -> Changed:
    from stacklint.running.since import NoHistoryError, changed_since

    try:
        return changed_since(revision, root)
    except NoHistoryError as error:
        raise UsageError(f"stacklint check: --since {error}") from None


def _teller(
    form: Report, out: IO[str], progress: Progress, options: argparse.Namespace, check: _Check, many: Many
) -> Teller:
    accepting = check.accepting
    match form:
        case Report.SCREEN:
            return ScreenTeller(out, progress, check.accepted, many=how_many(options.paths) >= MANY)
        case Report.JSON:
            return JsonTeller(out, check.accepted)
        case Report.SARIF:
            return SarifTeller(out, many.book, check.home, accepting.record if accepting is not None else None)
        case Report.HTML:
            return HtmlTeller(out, options.sheets, options.out, many.today)
        case _:
            return LinesTeller(out, check.accepted)
