"""``stacklint check --accept-today``: findings of today are recorded, so that only new ones count."""

from __future__ import annotations

import os
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

    @property
    def known(self) -> frozenset[str]:
        """The fingerprints of what was accepted."""
        return frozenset(each.fingerprint for each in self.record.all)

    def has(self, told: Told) -> bool:
        """Whether a finding was accepted before, or is now."""
        return self.making or self.record.has(told)

    def plan(self, path: str, root: Path) -> None:
        """A plan of the run: of it, what is recorded and not found is gone."""
        self._homes.add(at_home(root)(path))
        self._roots.add(root)

    def see(self, path: str, root: Path, told: Told) -> None:
        """A finding of the run in the plan at a path, accepted or not."""
        self._seen.add(told.fingerprint)
        if self.making:
            home = at_home(root)(told.finding.where.path or path)
            self._found.append(records.accepted(told.finding, told.fingerprint, home))

    def gone(self) -> tuple[Accepted, ...]:
        """What is recorded of plans of this run, or of texts that are there no more, and was not found."""
        missing = (each for each in self.record.all if each.fingerprint not in self._seen)
        return tuple(each for each in missing if each.path in self._homes or not self._there(each.path))

    def close(self) -> tuple[str, ...]:
        """Writes a new record; gives what is to be said of the record, a line each.

        Raises:
            UnwrittenError: if it cannot be written.
        """
        if self.making:
            with opened(self._path) as out:
                out.write(records.written(self._found))
            return (f"{_findings(len(set(self._found)))} recorded in {self._path}: from now on only new ones count.",)
        return tuple(
            f"{self._path}:{each.line}: gone: {each.rule} in {each.path}"
            f"{', ' + each.stack if each.stack else ''}. Take this line out of the record."
            for each in self.gone()
        )

    def _there(self, path: str) -> bool:
        return any((root / path).exists() for root in self._roots)


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
