"""``stacklint check --accept-today``: findings of today are recorded, so that only new ones count.

The run that makes a record tells all that it finds. With ``--since``, as in CI, none is made: a record that is named
wrongly in a script, or was never committed, hides nothing there.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from stacklint.command.output import opened
from stacklint.command.usage import UsageError
from stacklint.files import Trouble, read
from stacklint.report import accepted as records
from stacklint.report.accepted import Accepted, FaultyRecordError, Record
from stacklint.report.kept import Told
from stacklint.running.job import at_home


class Accepting:
    """The record at a path. One that is not there is made at the end of the run, of all that was found."""

    def __init__(self, path: str) -> None:
        self._path = path
        self.making = not os.path.lexists(path)
        self.record = Record() if self.making else _read(path)
        self._found: list[Accepted] = []
        self._seen: set[str] = set()
        self._homes: set[str] = set()
        self._roots: set[Path] = set()

    def plan(self, path: str, root: Path) -> None:
        """A plan of the run: of it, what is recorded and not found is gone."""
        self._homes.add(records.recorded(at_home(root)(path)))
        self._roots.add(root)

    def see(self, path: str, root: Path, told: Told, involves: Iterable[str] = ()) -> None:
        """A finding of the run in the plan at a path, accepted or not, and the plans that have a share in it."""
        self._seen.add(told.fingerprint)
        if not self.making:
            return
        home = at_home(root)
        finding = told.finding
        others = {each: home(each) for each in involves if each != path}
        for other, there in others.items():
            finding = finding._replace(message=finding.message.replace(other, there))
        self._found.append(
            records.accepted(finding, told.fingerprint, home(finding.where.path or path), others.values())
        )

    def gone(self) -> tuple[Accepted, ...]:
        """What is recorded and was not found, where each plan that had a share is one of this run, or there no more."""
        missing = (each for each in self.record.all if each.fingerprint not in self._seen)
        return tuple(each for each in missing if all(map(self._looked_at, (each.path, *each.others))))

    def close(self) -> tuple[str, ...]:
        """Writes a new record; gives what is to be said of the record, a line each.

        Raises:
            UnwrittenError: if it cannot be written.
        """
        if self.making:
            text = records.written(self._found)
            with opened(self._path) as out:
                out.write(text)
            count = len(records.read(text).all)
            return (f"{_findings(count)} recorded in {self._path}: from now on only new ones count.",)
        return tuple(
            f"{self._path}:{each.line}: gone: {each.rule} in {each.path}"
            f"{', ' + each.stack if each.stack else ''}. Take this line out of the record."
            for each in self.gone()
        )

    def _looked_at(self, path: str) -> bool:
        return path in self._homes or not any((root / path).exists() for root in self._roots)


def _read(path: str) -> Record:
    text = read(path)
    if isinstance(text, Trouble):
        raise UsageError(f"stacklint: {path}: {text.message}")
    try:
        return records.read(text)
    except FaultyRecordError as error:
        raise UsageError(f"stacklint: {path}: {error}") from None


def _findings(count: int) -> str:
    return "1 finding is" if count == 1 else f"{count} findings are"
