"""What came of plans before, kept by the content of all that it depends on.

A result is found again only where plan, path, house rules, program and form are the same to the byte, every text that
the plan uses is answered as it was, and, if it depends on the day, the day is the same. Each is kept with a digest of
its own: one that was damaged, or that another program wrote, is passed over. Nothing in it is ever run: it is JSON,
compressed. A damaged file is begun anew by the next run; that, or a disk that is full, makes the cache do nothing, and
no check fails for it.
"""

from __future__ import annotations

import contextlib
import datetime
import hashlib
import os
import sqlite3
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from stacklint.files import lending
from stacklint.running import job as jobs
from stacklint.running.job import Done, Job, digest_of
from stacklint.running.program import program_digest

NAME = "checked.sqlite3"
_LAYOUT = 1
"""Of the tables and of what is in them; a file of another layout is begun anew."""
_UNUSED = 90
"""Days after which what nobody asked for is thrown away."""
_SEEN_AGAIN = 7
"""Days after which it is noted that something was asked for again: not every time, which would cost a write."""
_AT_A_TIME = 256
_MOST = 1_000_000_000
"""Bytes that the file may come to; the oldest goes first."""
_PATIENCE = 5.0
"""Seconds to wait for another run that writes."""


class Cache:
    """The results of one folder. Use :func:`opened`."""

    def __init__(self, database: sqlite3.Connection, path: Path, day: int) -> None:
        self._database: sqlite3.Connection | None = database
        self._path = path
        self._day = day
        self._new: list[tuple[bytes, int, bytes, bytes]] = []
        self._seen: list[bytes] = []
        self._answers: dict[tuple[Path, str, str], str] = {}

    def find(self, job: Job) -> Done | None:
        """What came of the same job before, if that still holds."""
        key = key_of(job)
        row = self._row(key)
        if row is None:
            return None
        used, digest, content = row
        if digest != _digest(key, content):
            return None
        try:
            found = jobs.read(zlib.decompress(content))
        except (ValueError, zlib.error):
            return None
        if not self._holds(job, found):
            return None
        if self._day - used > _SEEN_AGAIN:
            self._seen.append(key)
        return found

    def keep(self, job: Job, content: bytes) -> None:
        """Keeps what came of a job, as :func:`stacklint.running.job.written` has it."""
        if self._database is None:
            return
        key = key_of(job)
        packed = zlib.compress(content, 1)
        self._new.append((key, self._day, _digest(key, packed), packed))
        if len(self._new) >= _AT_A_TIME:
            self.flush()

    def flush(self) -> None:
        """Writes what waits, in one step."""
        if self._database is None:
            return
        try:
            with self._database:
                self._database.executemany("INSERT OR REPLACE INTO results VALUES (?, ?, ?, ?)", self._new)
                seen = [(self._day, key) for key in self._seen]
                self._database.executemany("UPDATE results SET day = ? WHERE key = ?", seen)
        except sqlite3.Error as error:
            self._give_up(error)
        self._new, self._seen = [], []

    def close(self) -> None:
        self.flush()
        if self._database is None:
            return
        try:
            self._tidy(self._database)
        except sqlite3.Error as error:
            self._give_up(error)
        else:
            self._give_up()

    def _tidy(self, database: sqlite3.Connection) -> None:
        with database:
            database.execute("DELETE FROM results WHERE day < ?", (self._day - _UNUSED,))
            (size,) = database.execute("SELECT coalesce(sum(length(content)), 0) FROM results").fetchone()
            if size > _MOST:
                oldest = "SELECT key FROM results ORDER BY day LIMIT (SELECT count(*) / 2 FROM results)"
                database.execute(f"DELETE FROM results WHERE key IN ({oldest})")

    def _row(self, key: bytes) -> tuple[int, bytes, bytes] | None:
        if self._database is None:
            return None
        try:
            found = self._database.execute("SELECT day, digest, content FROM results WHERE key = ?", (key,)).fetchone()
        except sqlite3.Error as error:
            self._give_up(error)
            return None
        if found is None or not all(isinstance(part, kind) for part, kind in zip(found, _COLUMNS, strict=True)):
            return None
        return found  # type: ignore[no-any-return]

    def _holds(self, job: Job, found: Done) -> bool:
        if found.today is not None and found.today != job.today:
            return False
        return all(self._answer(job, each.name, each.using) == each.digest for each in found.readings)

    def _answer(self, job: Job, name: str, using: str) -> str:
        """What a ``use`` is answered now. Each is looked up once in a run."""
        asked = job.plan.root, os.path.dirname(using), name  # noqa: PTH120 - a path's text
        if asked not in self._answers:
            self._answers[asked] = digest_of(lending(job.plan.root)(name, using))
        return self._answers[asked]

    def _give_up(self, error: sqlite3.Error | None = None) -> None:
        """Asks it for nothing more. A file that is damaged, not one that is busy or full, is taken away."""
        if self._database is not None:
            with contextlib.suppress(sqlite3.Error):
                self._database.close()
        self._database = None
        if isinstance(error, sqlite3.DatabaseError) and not isinstance(error, sqlite3.OperationalError):
            with contextlib.suppress(OSError):
                self._path.unlink()


_COLUMNS = (int, bytes, bytes)


def key_of(job: Job) -> bytes:
    """Stands for all that a result depends on but the texts that the plan uses and the day."""
    plan = job.plan
    said = (
        program_digest(),
        plan.path,
        plan.text,
        os.path.relpath(plan.folder, plan.root),
        repr(job.form),
        *(part for house in job.houses for part in house),
    )
    digest = hashlib.sha256()
    for part in said:
        content = part.encode("utf-8", "backslashreplace")
        digest.update(f"{len(content)}:".encode())
        digest.update(content)
    return digest.digest()


@contextmanager
def opened(folder: Path | None, day: datetime.date) -> Iterator[Cache | None]:
    """The cache in a folder, which is made if it is not there; ``None`` where there can be none.

    ``day`` is that of the system's clock: what was not asked for in a long time is thrown away by it.
    """
    database = None if folder is None else _database(folder)
    if folder is None or database is None:
        yield None
        return
    cache = Cache(database, folder / NAME, day.toordinal())
    try:
        yield cache
    finally:
        cache.close()


def _database(folder: Path) -> sqlite3.Connection | None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except (OSError, ValueError):
        return None
    path = folder / NAME
    return _attempt(lambda: _connected(path)) or _attempt(lambda: _begun_anew(path))


def _attempt(way: Callable[[], sqlite3.Connection | None]) -> sqlite3.Connection | None:
    try:
        return way()
    except (OSError, ValueError, sqlite3.Error):
        return None


def _begun_anew(path: Path) -> sqlite3.Connection | None:
    path.unlink()
    return _connected(path)


def _connected(path: Path) -> sqlite3.Connection | None:
    """``None`` where the file is a database of another layout."""
    database = sqlite3.connect(path, timeout=_PATIENCE)
    try:
        # A crash of the machine may lose or spoil what was written last; every row has a digest, and all of it can be
        # worked out again.
        database.execute("PRAGMA synchronous = OFF")
        (layout,) = database.execute("PRAGMA user_version").fetchone()
        tables = database.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
        if layout != _LAYOUT and tables:
            database.close()
            return None
        with database:
            database.execute(
                "CREATE TABLE IF NOT EXISTS results (key BLOB PRIMARY KEY, day INTEGER, digest BLOB, content BLOB)"
                " WITHOUT ROWID"
            )
            database.execute(f"PRAGMA user_version = {_LAYOUT}")
    except BaseException:
        database.close()
        raise
    return database


def _digest(key: bytes, content: bytes) -> bytes:
    return hashlib.sha256(key + content).digest()
