"""An invented co-op on disk, and its plans as jobs."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path

import pytest
from made_coop import TODAY, Coop, Fault, seeded

from stacklint.command.books import Books
from stacklint.files import PlanFile, plans
from stacklint.running.job import Form, Job

JobsOf = Callable[..., list[Job]]


@pytest.fixture(scope="session")
def coop() -> Coop:
    """Of about a hundred plans, some with faults."""
    return seeded(8, 98, {Fault.KILN_TWICE: 1, Fault.SPOT_TWICE: 1, Fault.WIDE: 1, Fault.NOT_USED: 1, Fault.SPOTS: 1})


@pytest.fixture
def yard(coop: Coop, tmp_path: Path) -> Path:
    """Its folder, which a test may change."""
    folder = tmp_path / "coop"
    coop.write(folder)
    return folder


@pytest.fixture(scope="session")
def jobs_of() -> JobsOf:
    """The jobs that a check of a folder comes to."""

    def jobs(folder: Path, today: datetime.date = TODAY, form: Form = Form()) -> list[Job]:  # noqa: B008
        books = Books(None)
        found = [plan for plan in plans([str(folder)]) if isinstance(plan, PlanFile)]
        return [Job(plan, books.sources(plan.folder, plan.root), today, form) for plan in found]

    return jobs
