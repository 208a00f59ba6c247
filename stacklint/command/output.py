"""Where a report goes: standard output, or a file that is written whole or not at all."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from stacklint.command.drafting import ReadOnlyError, drafted
from stacklint.files import PLAN_SUFFIX, Trouble
from stacklint.report.plain import plain

_IN_MEMORY = 8_000_000
"""Bytes of a report that wait in memory; what is beyond waits on disk."""


class UnwrittenError(Exception):
    """The report could not be written; the text says where and why."""


@contextmanager
def opened(out: str | None) -> Iterator[IO[str]]:
    """What the report is printed on: standard output, or else text that becomes the file ``out`` at the end.

    Raises:
        UnwrittenError: if the file cannot be written. What stood in it is then still there.
    """
    if out is None:
        yield sys.stdout
        return
    if out.lower().endswith(PLAN_SUFFIX):
        raise UnwrittenError(
            f"{out} is a plan by its name, and a report would overwrite it; name another file for --out"
        )
    from tempfile import SpooledTemporaryFile

    with SpooledTemporaryFile(max_size=_IN_MEMORY) as raw:
        text = io.TextIOWrapper(raw, encoding="utf-8", errors="backslashreplace", newline="\n", write_through=True)
        yield text
        text.detach()
        raw.seek(0)
        _replace(Path(out), raw)


def write_new_plan(text: str, out: str | None, *, overwrite: bool = False) -> None:
    """Writes a plan to standard output, or to a file that is not there yet, unless it may ``overwrite`` one.

    Raises:
        UnwrittenError: if there is such a file already, or it cannot be written.
    """
    if out is None:
        sys.stdout.write(text)
        return
    path = Path(out)
    if path.is_file() and not overwrite:
        raise UnwrittenError(f"{out} is there already, and is not overwritten; name a new file for --out")
    _replace(path, io.BytesIO(text.encode("utf-8", errors="backslashreplace")))


def complain(trouble: Trouble) -> None:
    """Tells of a trouble on standard error, in one line."""
    where = trouble.where
    if where is None:
        print(plain(f"stacklint: {trouble.path}: {trouble.message}"), file=sys.stderr)
    else:
        print(plain(f"{trouble.path}:{where.line}:{where.column}: error: {trouble.message}"), file=sys.stderr)


def _replace(path: Path, content: IO[bytes]) -> None:
    try:
        if path.exists() and not path.is_file():
            # A device such as /dev/stdout or a pipe cannot be replaced by another file: it is written to.
            with path.open("wb") as device:
                device.writelines(content)
        elif path.is_symlink():
            # In a folder that others write to, a link of that name would have their file overwritten by ours.
            raise UnwrittenError(f"{path} is a symbolic link, and no report is written through one; name the file")
        else:
            with drafted(path) as draft:
                draft.writelines(content)
    except ReadOnlyError:
        raise UnwrittenError(f"{path} cannot be written: it is read-only") from None
    except (OSError, ValueError) as error:
        reason = error.strerror.lower() if isinstance(error, OSError) and error.strerror else str(error)
        raise UnwrittenError(f"{path} cannot be written: {reason}") from None
