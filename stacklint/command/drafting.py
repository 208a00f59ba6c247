"""A file written whole or not at all: no reader sees half of it, and a writing that fails leaves what was there."""

from __future__ import annotations

import contextlib
import os
import secrets
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

_DRAFT = ".stacklint-"
"""How the name of a draft begins. One that a crash leaves behind is hidden, and is no plan by its ending."""
_BINARY = getattr(os, "O_BINARY", 0)
"""Where a system would else make line ends its own."""


class ReadOnlyError(Exception):
    """Nobody may write the file, by its mode."""


class ChangedError(Exception):
    """Another program has written the file meanwhile."""


@contextmanager
def drafted(file: Path, over: bytes | None = None) -> Iterator[IO[bytes]]:
    """What is written becomes the content of ``file`` when all of it is, and nothing does if an exception passes.

    The draft stands beside the file, is brought to the disk, and only then takes the file's name in one step
    (POSIX.1-2024, ``rename``): whatever happens meanwhile, the name bears the old content or the new, whole. The name
    is taken from what bears it, be it a symbolic link. Mode and owner of a file that was there stay as they were.
    ``over``: the content that it must have had up to the last.

    Raises:
        OSError: if it cannot be written.
        ReadOnlyError: if the file is there and read-only.
        ChangedError: if its content is not ``over``.
    """
    before = _status(file)
    if before is not None and is_read_only(before, file):
        raise ReadOnlyError
    draft = file.with_name(f"{_DRAFT}{secrets.token_hex(8)}")
    # Until it has the mode of the file before it, nobody else may read it.
    descriptor = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, 0o666 if before is None else 0o600)
    try:
        with os.fdopen(descriptor, "wb") as out:
            yield out
            out.flush()
            os.fsync(out.fileno())
        if before is not None:
            with contextlib.suppress(OSError, AttributeError):  # only a superuser may give a file away
                os.chown(draft, before.st_uid, before.st_gid)
            draft.chmod(stat.S_IMODE(before.st_mode))
        if over is not None and file.read_bytes() != over:
            raise ChangedError
        draft.replace(file)
    finally:
        draft.unlink(missing_ok=True)


def is_read_only(status: os.stat_result, file: Path) -> bool:
    """By its mode, which a superuser is not bound by, or because this process may not write it."""
    return not status.st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH) or not os.access(file, os.W_OK)


def _status(file: Path) -> os.stat_result | None:
    try:
        return file.stat()
    except FileNotFoundError:
        return None
