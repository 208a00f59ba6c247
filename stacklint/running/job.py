"""One plan to be checked, and what comes of it: the work that a process, or another machine, is given."""

from __future__ import annotations

import datetime
import hashlib
import os
from collections.abc import Callable
from enum import Enum
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from pydantic import TypeAdapter

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.files import STANDARD_INPUT, PlanFile, lending
from stacklint.language import UsedText, UseRefused, UseText
from stacklint.report.kept import Kept, kept
from stacklint.rulebook import HouseRules, book_of
from stacklint.running.dated import depends_on_the_day

if TYPE_CHECKING:
    from stacklint.report.screen import Look


class Drawn(Enum):
    """What is drawn of a plan beside what is kept of it."""

    NOTHING = "nothing"
    SCREEN = "screen"
    SHEET = "sheet"


class Form(NamedTuple):
    """What is wanted of a plan. ``look`` goes with ``SCREEN``."""

    drawn: Drawn = Drawn.NOTHING
    look: Look | None = None


class Job(NamedTuple):
    """A plan, the house rules that hold where it lies (the farthest first), and the day to judge by."""

    plan: PlanFile
    houses: tuple[HouseRules, ...]
    today: datetime.date
    form: Form = Form()


class Reading(NamedTuple):
    """A text that a plan asked for by ``use``: the name and the text that asked, and a digest of what it got."""

    name: str
    using: str
    digest: str

    @property
    def path(self) -> str:
        """Where the text is looked for."""
        folder = "" if self.using == STANDARD_INPUT else os.path.dirname(self.using)  # noqa: PTH120 - a path's text
        return os.path.normpath(os.path.join(folder, self.name))  # noqa: PTH118


class Done(NamedTuple):
    """What came of a plan. ``today`` is the day that it was judged by if it depends on the day."""

    kept: Kept
    drawn: str | None
    readings: tuple[Reading, ...]
    today: datetime.date | None


def done(job: Job) -> Done:
    """Checks a plan. Reads nothing but the texts that the plan uses, and those only in its project."""
    plan = job.plan
    texts = {plan.path: plan.text}
    readings: list[Reading] = []
    use = _noted(lending(plan.root), texts, readings)
    checked = check(plan.text, plan.path, book=book_of(job.houses), today=job.today, use=use, alone=False)
    dated = job.form.drawn is Drawn.SHEET or depends_on_the_day(checked, texts.values())
    return Done(
        kept=kept(checked, texts, at_home(plan.root)),
        drawn=_drawn(checked, job),
        readings=tuple(readings),
        today=job.today if dated else None,
    )


def digest_of(found: UsedText | UseRefused) -> str:
    """The same for the same answer to a ``use``."""
    said = (found.path, found.text) if isinstance(found, UsedText) else ("", found.message, found.instead)
    return hashlib.sha256("\0".join(said).encode("utf-8", "backslashreplace")).hexdigest()


def at_home(root: Path) -> Callable[[str], str]:
    """Tells a path in the project at ``root``, the same in every checkout and from whichever folder it is named."""

    @cache
    def home(path: str) -> str:
        if path in ("", STANDARD_INPUT):
            return path
        try:
            return Path(path).resolve().relative_to(root).as_posix()
        except (OSError, ValueError, RuntimeError):
            # Of a file that lies elsewhere only the name is the same everywhere.
            return Path(path).name if Path(path).is_absolute() else path

    return home


def written(what: Done) -> bytes:
    """As JSON, which :func:`read` takes."""
    return _adapter().dump_json(what)


def read(content: bytes) -> Done:
    """What :func:`written` wrote.

    Raises:
        ValueError: if the content is something else.
    """
    return _adapter().validate_json(content)


@cache
def _adapter() -> TypeAdapter[Done]:
    return TypeAdapter(Done)


def _noted(use: UseText, texts: dict[str, str], readings: list[Reading]) -> UseText:
    def find(name: str, using: str) -> UsedText | UseRefused:
        found = use(name, using)
        if isinstance(found, UsedText):
            texts[found.path] = found.text
        readings.append(Reading(name, using, digest_of(found)))
        return found

    return find


def _drawn(checked: CheckedPlan, job: Job) -> str | None:
    if job.form.drawn is Drawn.SCREEN and job.form.look is not None:
        from stacklint.report.screen import drawn

        return drawn(checked, len(book_of(job.houses).rules), job.form.look)
    if job.form.drawn is Drawn.SHEET and checked.stacks:
        from stacklint.report.sheet_page import sheet_html

        return sheet_html(checked, job.today)
    return None
