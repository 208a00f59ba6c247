"""Writes a changed plan over the plan that it was made from: whole, or not at all."""

from __future__ import annotations

from pathlib import Path

from stacklint.command.drafting import ChangedError, ReadOnlyError, drafted
from stacklint.files import Trouble


def rewrite(path: str, before: str, after: str) -> Trouble | None:
    """Puts ``after`` into the file in place of ``before``, the text that was read from it.

    A symbolic link stays, and the file that it leads to is written. Of a file with several names (hard links) the one
    that was given gets the new text, and the others keep the old.

    Returns what stood in the way: the file is read-only, was changed by another program since it was read, or
    cannot be written. It is then as it was.
    """
    try:
        with drafted(Path(path).resolve(strict=True), over=before.encode()) as draft:
            draft.write(after.encode())
    except OSError as error:
        reason = error.strerror.lower() if error.strerror else str(error)
        return Trouble(path, f"cannot be written: {reason}; it is as it was")
    except ReadOnlyError:
        return Trouble(path, "is read-only; it was left as it is")
    except ChangedError:
        return Trouble(path, "was changed by another program meanwhile; it was left as it is")
    return None
