"""How ``check`` tells what it finds, in each of its forms: plan after plan, and last what is found between them."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import IO, NamedTuple, Protocol

from stacklint.checked import Waived
from stacklint.command.progress import Progress
from stacklint.files import Trouble
from stacklint.report.accepted import Accepted, Record
from stacklint.report.kept import Kept, Told, ToldWaived
from stacklint.rulebook import RuleBook
from stacklint.running.job import Drawn, Form
from stacklint.running.run import Outcome


class Between(NamedTuple):
    """What is found between plans, by the path of the plan that it is told in."""

    findings: Mapping[str, Sequence[Told]]
    waived: Mapping[str, Sequence[ToldWaived]]

    def of(self, path: str) -> tuple[tuple[Told, ...], tuple[ToldWaived, ...]]:
        return tuple(self.findings.get(path, ())), tuple(self.waived.get(path, ()))

    @property
    def paths(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*self.findings, *self.waived)))


class Ending(NamedTuple):
    """What else a report ends with: what could not be read, recorded findings that are gone, and words for a person."""

    troubles: Sequence[Trouble] = ()
    gone: Sequence[Accepted] = ()
    words: Sequence[str] = ()


BookOf = Callable[[str], RuleBook]
IsAccepted = Callable[[Told], bool]


class Teller(Protocol):
    """One form of report. ``form`` is what it wants drawn of each plan."""

    form: Form

    def plan(self, outcome: Outcome) -> None: ...

    def close(self, between: Between, ending: Ending) -> None: ...


class LinesTeller:
    """A line for each finding that is not accepted."""

    form = Form()

    def __init__(self, out: IO[str], accepted: IsAccepted) -> None:
        self._out = out
        self._accepted = accepted

    def plan(self, outcome: Outcome) -> None:
        self._tell(outcome.done.kept.path, outcome.done.kept.findings)

    def close(self, between: Between, ending: Ending) -> None:  # noqa: ARG002 - what ends it is told elsewhere
        for path, found in between.findings.items():
            self._tell(path, found)

    def _tell(self, path: str, found: Iterable[Told]) -> None:
        from stacklint.report.lines import lines

        new = (told.finding for told in found if not self._accepted(told))
        self._out.writelines(f"{line}\n" for line in lines(path, new))


class ScreenTeller:
    """For a person: each plan drawn, unless there are many and nothing is found in it."""

    def __init__(self, out: IO[str], progress: Progress, accepted: IsAccepted, *, many: bool) -> None:
        from stacklint.report.screen import Screen, look_of

        look = look_of(out)._replace(brief=many)
        self.form = Form(Drawn.SCREEN, look)
        self._screen = Screen(progress, look)
        self._accepted = accepted

    def plan(self, outcome: Outcome) -> None:
        self._screen.plan(outcome.done.kept, outcome.done.drawn or "", self._accepted)

    def close(self, between: Between, ending: Ending) -> None:
        waived: list[Waived] = [each.waived for found in between.waived.values() for each in found]
        self._screen.yard(between.findings, waived, self._accepted)
        self._screen.close(ending.words)


class JsonTeller:
    form = Form()

    def __init__(self, out: IO[str], accepted: IsAccepted) -> None:
        from stacklint.report.json_output import JsonReport

        self._out = out
        self._report = JsonReport(accepted)

    def plan(self, outcome: Outcome) -> None:
        self._report.plan(outcome.done.kept)

    def close(self, between: Between, ending: Ending) -> None:
        yard = {path: between.of(path) for path in between.paths}
        self._report.write(self._out, yard, ending.troubles, ending.gone)


class SarifTeller:
    form = Form()

    def __init__(self, out: IO[str], book_of: BookOf, home: Callable[[str], str], record: Record | None) -> None:
        from stacklint.report.sarif import SarifReport

        self._out = out
        self._report = SarifReport(home, record)
        self._book_of = book_of

    def plan(self, outcome: Outcome) -> None:
        kept = outcome.done.kept
        self._report.plan(kept.path, kept.findings, kept.waived, self._book_of(kept.path))

    def close(self, between: Between, ending: Ending) -> None:
        for path in between.paths:
            self._report.plan(path, *between.of(path), self._book_of(path))
        self._report.write(self._out, ending.troubles, ending.gone)


class HtmlTeller:
    """One page. Of each plan only what the page tells is kept."""

    def __init__(self, out: IO[str], sheets: str | None, page: str | None, today: datetime.date) -> None:
        from stacklint.command.sheets import Sheets

        self.form = Form(Drawn.SHEET) if sheets is not None else Form()
        self._out = out
        self._sheets = Sheets(sheets, page) if sheets is not None else None
        self._today = today
        self._plans: list[tuple[Kept, str | None]] = []

    def plan(self, outcome: Outcome) -> None:
        sheet = outcome.done.drawn
        address = self._sheets.write(outcome.done.kept.path, sheet) if self._sheets and sheet is not None else None
        self._plans.append((outcome.done.kept._replace(figures=()), address))

    def close(self, between: Between, ending: Ending) -> None:
        from stacklint.report.coop_page import coop_html
        from stacklint.report.coop_plan import coop_plan

        told = [coop_plan(kept.with_more(*between.of(kept.path)), sheet) for kept, sheet in self._plans]
        self._out.write(coop_html(told, ending.troubles, self._today))
