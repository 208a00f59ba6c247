"""Writes a changed plan over the plan that it was made from: whole, or not at all."""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
from pathlib import Path

from stacklint.files import Trouble

_DRAFT = ".stacklint-"
"""How the name of a draft begins. One that a crash leaves behind is hidden, and is no plan by its ending."""


class _RefusedError(Exception):
    """Why a file is not written, as a sentence's end."""


def rewrite(path: str, before: str, after: str) -> Trouble | None:
    """Puts ``after`` into the file in place of ``before``, the text that was read from it.

    The new text is written beside the file, brought to the disk, and only then takes the file's name in one step
    (POSIX.1-2024, ``rename``): whatever happens meanwhile, the name bears the old text or the new, whole. A symbolic
    link stays, and the file that it leads to is written; mode and owner stay as they are. Of a file with several
    names (hard links) the one that was given gets the new text, and the others keep the old.

    Returns what stood in the way: the file is read-only, was changed by another program since it was read, or
    cannot be written. It is then as it was.
    """
    try:
        _rewrite(Path(path).resolve(strict=True), before.encode(), after.encode())
    except OSError as error:
        reason = error.strerror.lower() if error.strerror else str(error)
        return Trouble(path, f"cannot be written: {reason}; it is as it was")
    except _RefusedError as error:
        return Trouble(path, f"{error}; it was left as it is")
    return None


def _rewrite(file: Path, before: bytes, after: bytes) -> None:
    status = file.stat()
    if not status.st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH) or not os.access(file, os.W_OK):
        raise _RefusedError("is read-only")
    descriptor, name = tempfile.mkstemp(prefix=_DRAFT, dir=file.parent)
    draft = Path(name)
    try:
        with os.fdopen(descriptor, "wb") as out:
            out.write(after)
            out.flush()
            os.fsync(out.fileno())
        with contextlib.suppress(
            OSError, AttributeError
        ):  # only a superuser may give a file away; Windows has no owners
            os.chown(draft, status.st_uid, status.st_gid)
        draft.chmod(stat.S_IMODE(status.st_mode))
        if file.read_bytes() != before:
            raise _RefusedError("was changed by another program meanwhile")
        draft.replace(file)
    finally:
        draft.unlink(missing_ok=True)
